package network

import "math"

// A tree spans the open branches: each node but the roots hangs on one branch,
// listed after the branch of the node that it hangs on.
type tree struct {
	branches []int32 // in order; the sign of up says which end is the child
	up       []int32 // child node of each, in the order of elimination
	member   []bool  // of each branch
	open     []bool  // the branches for which it was made
	level    []float64
}

// around walks the tree with the law of each branch alone, and returns by how
// much the branches outside it fail to close their loops, Pa.
func (s *System) around() (worst float64) {
	t := &s.tree
	if t.member == nil || !t.fits(s) {
		t.grow(s)
	}
	copy(t.level, s.pressure) // of the roots; every other is replaced
	for k, b := range t.branches {
		f, end := s.force[b], s.ends[b]
		if t.up[k] == end[1] {
			t.level[end[1]] = t.level[end[0]] - f
		} else {
			t.level[end[0]] = t.level[end[1]] + f
		}
	}
	for b, end := range s.ends {
		if !t.open[b] || t.member[b] {
			continue
		}
		if e := math.Abs(t.level[end[0]] - t.level[end[1]] - s.force[b]); !(e <= worst) {
			worst = e
		}
	}
	return worst
}

func (t *tree) fits(s *System) bool {
	for b := range s.laws {
		if t.open[b] == (s.prescribed[b] || s.closed[b]) {
			return false
		}
	}
	return true
}

// grow makes the tree breadth first from the nodes with given pressure, then
// from one node of each part that they do not reach.
func (t *tree) grow(s *System) {
	nodes, branches := len(s.pressure), len(s.laws)
	*t = tree{member: make([]bool, branches), open: make([]bool, branches), level: make([]float64, nodes)}
	start := make([]int32, nodes+1)
	for b, end := range s.ends {
		if t.open[b] = !(s.prescribed[b] || s.closed[b]); t.open[b] {
			start[end[0]]++
			start[end[1]]++
		}
	}
	sum := int32(0)
	for k, n := range start {
		sum += n
		start[k] = sum
	}
	at := make([]int32, sum)
	for b, end := range s.ends {
		if t.open[b] {
			for _, k := range end {
				start[k]--
				at[start[k]] = int32(b)
			}
		}
	}
	seen := make([]bool, nodes)
	var queue []int32
	visit := func(k int32) {
		seen[k] = true
		queue = append(queue, k)
	}
	drain := func() {
		for len(queue) > 0 {
			k := queue[0]
			queue = queue[1:]
			for _, b := range at[start[k]:start[k+1]] {
				child := s.ends[b][0] + s.ends[b][1] - k
				if !seen[child] {
					t.branches, t.up = append(t.branches, b), append(t.up, child)
					t.member[b] = true
					visit(child)
				}
			}
		}
	}
	for k := s.f.n; k < nodes; k++ {
		visit(int32(k))
	}
	drain()
	for k := range nodes {
		if !seen[k] {
			visit(int32(k))
			drain()
		}
	}
}

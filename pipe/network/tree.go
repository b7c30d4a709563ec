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
	seen     []bool  // nodes
	queue    []int32 // nodes in the order in which they were seen
}

// An incidence lists the branches at each node, in the order of elimination.
type incidence struct{ start, branches []int32 }

func newIncidence(nodes int, ends [][2]int32) incidence {
	n := incidence{make([]int32, nodes+1), make([]int32, 2*len(ends))}
	for _, end := range ends {
		n.start[end[0]]++
		n.start[end[1]]++
	}
	sum := int32(0)
	for k, count := range n.start {
		sum += count
		n.start[k] = sum
	}
	for b, end := range ends {
		for _, k := range end {
			n.start[k]--
			n.branches[n.start[k]] = int32(b)
		}
	}
	return n
}

func (n *incidence) of(k int32) []int32 { return n.branches[n.start[k]:n.start[k+1]] }

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
	if t.member == nil {
		*t = tree{
			branches: make([]int32, 0, nodes), up: make([]int32, 0, nodes), queue: make([]int32, 0, nodes),
			member: make([]bool, branches), open: make([]bool, branches), seen: make([]bool, nodes), level: make([]float64, nodes),
		}
	}
	t.branches, t.up, t.queue = t.branches[:0], t.up[:0], t.queue[:0]
	clear(t.member)
	clear(t.seen)
	for b := range t.open {
		t.open[b] = !(s.prescribed[b] || s.closed[b])
	}
	for k := s.f.n; k < nodes; k++ {
		t.visit(int32(k))
	}
	t.spread(s, 0)
	for k := range nodes {
		if !t.seen[k] {
			t.visit(int32(k))
			t.spread(s, len(t.queue)-1)
		}
	}
}

func (t *tree) visit(k int32) {
	t.seen[k] = true
	t.queue = append(t.queue, k)
}

// spread hangs on the tree what open branches join to the nodes of the queue from
// a place in it on.
func (t *tree) spread(s *System, from int) {
	for ; from < len(t.queue); from++ {
		k := t.queue[from]
		for _, b := range s.near.of(k) {
			child := s.ends[b][0] + s.ends[b][1] - k
			if t.open[b] && !t.seen[child] {
				t.branches, t.up = append(t.branches, b), append(t.up, child)
				t.member[b] = true
				t.visit(child)
			}
		}
	}
}

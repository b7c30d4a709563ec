package network

import "slices"

// An elimination is the order in which a symmetric sparse matrix is
// eliminated, and the pattern of its factor: column c holds
// rows[start[c]:start[c+1]], all greater than c and rising.
type elimination struct {
	position []int32 // of each unknown in the order
	start    []int32
	rows     []int32
}

// order eliminates the n unknowns joined by the pairs, always one with the
// fewest neighbours next (H. M. Markowitz, Management Science 3 (1957) 255;
// D. J. Rose, in Graph Theory and Computing, 1972). On a two-pipe network that
// runs from the far ends inwards and adds next to nothing to the pattern; its
// work is near linear there. Pairs may repeat.
func order(n int, pairs [][2]int32) elimination {
	g := newGraph(n, pairs)
	e := elimination{position: make([]int32, n), start: make([]int32, 1, n+1)}
	rows := make([]int32, 0, 2*len(pairs))
	for c := range n {
		v := g.least()
		g.compact(v)
		e.position[v] = int32(c)
		rows = append(rows, g.near[v]...)
		e.start = append(e.start, int32(len(rows)))
		g.eliminate(v)
	}
	for i, v := range rows {
		rows[i] = e.position[v]
	}
	for c := range n {
		slices.Sort(rows[e.start[c]:e.start[c+1]])
	}
	e.rows = rows
	return e
}

// A graph is what is left while unknowns are eliminated.
type graph struct {
	near    [][]int32 // neighbours; of hubs with repetitions and with eliminated ones
	clean   []int32   // length of near when it was last compacted
	gone    []bool
	mark    []int32 // stamp of the last list that named it
	stamp   int32
	first   []int32 // by degree: doubly linked lists of unknowns
	next    []int32
	before  []int32
	degree  []int32
	minimum int32
}

// hub is how many times longer than the list that is added to it a list of
// neighbours may be to be put in order at once. Longer ones are put in order now
// and then, so that a manifold with thousands of circuits costs no square of them.
const hub = 16

func newGraph(n int, pairs [][2]int32) *graph {
	g := &graph{
		near: make([][]int32, n), clean: make([]int32, n), gone: make([]bool, n), mark: make([]int32, n),
		first: make([]int32, n+1), next: make([]int32, n), before: make([]int32, n), degree: make([]int32, n),
	}
	count := make([]int32, n+1)
	for _, p := range pairs {
		count[p[0]]++
		count[p[1]]++
	}
	arena := make([]int32, 2*len(pairs))
	for v := range n {
		k := count[v]
		g.near[v], arena = arena[:0:k], arena[k:]
	}
	for _, p := range pairs {
		g.near[p[0]] = append(g.near[p[0]], p[1])
		g.near[p[1]] = append(g.near[p[1]], p[0])
	}
	for d := range g.first {
		g.first[d] = -1
	}
	for v := n - 1; v >= 0; v-- {
		g.compact(int32(v))
		g.link(int32(v))
	}
	return g
}

// compact drops what is eliminated or repeated from the neighbours of v.
func (g *graph) compact(v int32) {
	g.stamp++
	g.mark[v] = g.stamp
	kept := g.near[v][:0]
	for _, u := range g.near[v] {
		if !g.gone[u] && g.mark[u] != g.stamp {
			g.mark[u] = g.stamp
			kept = append(kept, u)
		}
	}
	g.near[v] = kept
	g.clean[v] = int32(len(kept))
	g.degree[v] = int32(len(kept))
}

func (g *graph) link(v int32) {
	d := min(g.degree[v], int32(len(g.first)-1))
	g.degree[v] = d
	g.before[v], g.next[v] = -1, g.first[d]
	if g.first[d] >= 0 {
		g.before[g.first[d]] = v
	}
	g.first[d] = v
	g.minimum = min(g.minimum, d)
}

func (g *graph) unlink(v int32) {
	if g.before[v] >= 0 {
		g.next[g.before[v]] = g.next[v]
	} else {
		g.first[g.degree[v]] = g.next[v]
	}
	if g.next[v] >= 0 {
		g.before[g.next[v]] = g.before[v]
	}
}

// least takes an unknown with the fewest neighbours.
func (g *graph) least() int32 {
	for g.first[g.minimum] < 0 {
		g.minimum++
	}
	v := g.first[g.minimum]
	g.unlink(v)
	return v
}

// eliminate joins the neighbours of v with each other.
func (g *graph) eliminate(v int32) {
	g.gone[v] = true
	around := g.near[v]
	g.near[v] = nil
	for _, u := range around {
		g.unlink(u)
		if len(g.near[u]) <= hub*len(around) || int32(len(g.near[u])) > 2*g.clean[u]+hub {
			g.compact(u)
			for _, w := range around {
				if g.mark[w] != g.stamp { // compact marked u itself too
					g.near[u] = append(g.near[u], w)
				}
			}
			g.degree[u] = int32(len(g.near[u]))
		} else {
			if len(around) > 1 {
				g.near[u] = append(g.near[u], around...) // with u itself, which compact drops
			}
			g.degree[u] = max(int32(len(around)-1), g.degree[u]-1+int32(max(0, len(around)-2)))
		}
		g.link(u)
	}
}

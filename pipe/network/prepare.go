package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

var errNoResistance = fmt.Errorf("nothing in it resists flow; give it at least a run or a valve: %w", hydronics.ErrRange)

// A System is a network prepared for solving: checked, compiled and ordered.
// The order is kept while [System.Change] alters its branches. It is a workspace
// and must not be used by two goroutines at once: each prepares its own from the
// network, which may be shared, as may every [Solution].
type System struct {
	net  Network
	laws []law
	ends [][2]int32 // of each branch, in the order of elimination; given pressures last
	at   []int32    // of each node, in that order
	cell []int32    // of each branch, its place below the diagonal
	near incidence
	f    factor

	prescribed []bool    // branch has a flow given to it
	given      []float64 // kg/s, where prescribed
	inflow     []float64 // kg/s, in the order of elimination
	rest       []float64 // Pa, piezometric and above base, that a node has without flow
	base       float64   // Pa, of the first node with given pressure
	weight     float64   // N/m³, of the liquid that piezometric pressures refer to

	solver
}

// Prepare checks the network and makes it ready for [System.Solve]. Its errors
// name every fault with the branch or node: numbers out of range, parts that
// nothing connects to a node with given pressure, pumps whose flow one-way
// elements never let back. Work and memory grow nearly in proportion to the
// number of branches where the network is a tree, a two-pipe system or a street
// grid of modest width.
// Source: mass and energy balance, as [System.Solve]; order of elimination
// after H. M. Markowitz, Management Science 3 (1957) 255.
func (n Network) Prepare() (*System, error) {
	s := &System{net: n.Clone()}
	if len(n.Branches) > 0 {
		s.weight = s.net.weight()
	}
	if err := s.net.check(); err != nil {
		return nil, fmt.Errorf("network.Network.Prepare: %w", err)
	}
	if err := s.compile(); err != nil {
		return nil, fmt.Errorf("network.Network.Prepare: %w", err)
	}
	if err := s.net.checkConnected(); err != nil {
		return nil, fmt.Errorf("network.Network.Prepare: %w", err)
	}
	s.arrange()
	if err := s.checkReturn(); err != nil {
		return nil, fmt.Errorf("network.Network.Prepare: %w", err)
	}
	return s, nil
}

// Solve prepares the network and solves it once.
// Source: that of [System.Solve].
func (n Network) Solve() (*Solution, error) {
	s, err := n.Prepare()
	if err != nil {
		return nil, err
	}
	return s.Solve()
}

// check reads the numbers of the nodes and the ends of the branches.
func (n *Network) check() error {
	if len(n.Nodes) == 0 || len(n.Branches) == 0 {
		return fmt.Errorf("%d nodes and %d branches, want at least one of each: %w", len(n.Nodes), len(n.Branches), hydronics.ErrRange)
	}
	var wrong []error
	if n.Liquid != (fluid.Properties{}) {
		if err := within("density", "kg/m³", n.Liquid.Density, 100, 2000); err != nil {
			wrong = append(wrong, fmt.Errorf("liquid of the network: %w", err))
		}
	}
	for i, node := range n.Nodes {
		if err := errors.Join(
			within("height", "m", node.Height, -1000, 10000),
			within("inflow", "kg/s", node.Inflow, -1e6, 1e6),
			within("pressure", "Pa", float64(node.Pressure), -1e5, mostPressure)); err != nil {
			wrong = append(wrong, fmt.Errorf("node %s: %w", n.nodeName(i), err))
		}
	}
	for b, branch := range n.Branches {
		if branch.From < 0 || branch.From >= len(n.Nodes) || branch.To < 0 || branch.To >= len(n.Nodes) || branch.From == branch.To {
			wrong = append(wrong, n.inBranch(b, fmt.Errorf("from node %d to node %d, want two different ones of 0 to %d: %w",
				branch.From, branch.To, len(n.Nodes)-1, hydronics.ErrRange)))
		}
	}
	return errors.Join(wrong...)
}

// compile makes the laws of the branches.
func (s *System) compile() error {
	s.laws = make([]law, len(s.net.Branches))
	var wrong []error
	for b := range s.laws {
		if err := s.compileBranch(b); err != nil {
			wrong = append(wrong, err)
		}
	}
	return errors.Join(wrong...)
}

// weight returns the weight of a cubic metre of the liquid to which the
// solver's pressures refer, N/m³: the network's own or, where there is none,
// that of the first branch.
func (n *Network) weight() float64 {
	if n.Liquid.Density > 0 {
		return n.Liquid.Density * hydronics.StandardGravity
	}
	return n.liquid(0).Density * hydronics.StandardGravity
}

// compileBranch makes the law of branch b; on an error what is left there means nothing.
func (s *System) compileBranch(b int) error {
	branch, l, p := &s.net.Branches[b], &s.laws[b], s.net.liquid(b)
	err := errors.Join(within("density", "kg/m³", p.Density, 100, 2000),
		within("dynamic viscosity", "Pa·s", p.DynamicViscosity, 1e-5, 10))
	if err == nil {
		err = l.compile(branch.Elements, p)
	}
	if err != nil {
		return s.net.inBranch(b, err)
	}
	rise := s.net.Nodes[branch.From].Height - s.net.Nodes[branch.To].Height
	l.buoyancy = rise * (p.Density*hydronics.StandardGravity - s.weight)
	return nil
}

// checkConnected wants every node joined, through branches open or shut, to one
// whose pressure is given.
func (n *Network) checkConnected() error {
	part := newParts(len(n.Nodes))
	for _, b := range n.Branches {
		part.join(b.From, b.To)
	}
	held := make([]bool, len(n.Nodes))
	for i, node := range n.Nodes {
		if node.Fixed {
			held[part.of(i)] = true
		}
	}
	var loose []error
	for i := range n.Nodes {
		if root := part.of(i); !held[root] {
			held[root] = true // once for each part
			loose = append(loose, fmt.Errorf("node %s: no branch leads from its part of the network to a node with given pressure, such as the expansion vessel's: %w",
				n.nodeName(i), hydronics.ErrNoSolution))
		}
	}
	return errors.Join(loose...)
}

// checkReturn wants a way from the outlet of every pump back to its inlet, or
// to and from nodes where liquid may leave and enter, that passes one-way
// elements in their direction. Shut branches count as open.
func (s *System) checkReturn() error {
	var driven []int
	oneWay := false
	for b := range s.laws {
		if s.laws[b].pump != nil {
			driven = append(driven, b)
		}
		oneWay = oneWay || s.laws[b].oneWay
	}
	if !oneWay {
		return nil
	}
	outside := func(k int) bool { return k >= s.f.n || s.inflow[k] != 0 }
	var wrong []error
	for _, b := range driven {
		from, to := s.ends[b][0], s.ends[b][1]
		forward := s.reach(to, b, 0)
		if forward[from] {
			continue
		}
		backward := s.reach(from, b, 1)
		leaves, enters := false, false
		for k := range forward {
			leaves = leaves || forward[k] && outside(k)
			enters = enters || backward[k] && outside(k)
		}
		if !leaves || !enters {
			wrong = append(wrong, s.net.inBranch(b, fmt.Errorf("one-way elements conflict: no way leads in their direction from the pump's outlet back to its inlet: %w",
				hydronics.ErrNoSolution)))
		}
	}
	return errors.Join(wrong...)
}

// reach returns the nodes that flow from node k can reach without branch
// except, or, with end = 1, from which flow can reach it; all in the order of
// elimination.
func (s *System) reach(k int32, except, end int) []bool {
	seen := make([]bool, len(s.at))
	seen[k] = true
	for queue := []int32{k}; len(queue) > 0; queue = queue[1:] {
		k := queue[0]
		for _, b := range s.near.of(k) {
			if int(b) == except || s.laws[b].oneWay && s.ends[b][end] != k {
				continue
			}
			if other := s.ends[b][0] + s.ends[b][1] - k; !seen[other] {
				seen[other] = true
				queue = append(queue, other)
			}
		}
	}
	return seen
}

// arrange numbers the nodes for elimination and makes room for the solver.
func (s *System) arrange() {
	nodes, branches := s.net.Nodes, s.net.Branches
	s.at = make([]int32, len(nodes))
	n := 0
	for i, node := range nodes {
		if !node.Fixed {
			s.at[i] = int32(n)
			n++
		}
	}
	k := n
	for i, node := range nodes {
		if node.Fixed {
			s.at[i] = int32(k)
			k++
		}
	}
	pairs := make([][2]int32, 0, len(branches))
	for _, b := range branches {
		if i, j := s.at[b.From], s.at[b.To]; int(i) < n && int(j) < n {
			pairs = append(pairs, [2]int32{i, j})
		}
	}
	e := order(n, pairs)
	for i, node := range nodes {
		if !node.Fixed {
			s.at[i] = e.position[s.at[i]]
		}
	}
	s.f = newFactor(n, len(nodes), e)
	s.ends = make([][2]int32, len(branches))
	s.cell = make([]int32, len(branches))
	s.prescribed = make([]bool, len(branches))
	s.given = make([]float64, len(branches))
	for b, branch := range branches {
		s.ends[b] = [2]int32{s.at[branch.From], s.at[branch.To]}
		s.cell[b] = s.f.place(s.ends[b][0], s.ends[b][1])
		s.prescribed[b] = branch.Shut || s.laws[b].shut
	}
	s.near = newIncidence(len(nodes), s.ends)
	s.inflow = make([]float64, len(nodes))
	s.rest = make([]float64, len(nodes))
	s.setRest()
	s.solver.make(len(nodes), len(branches))
}

// setRest finds the pressures that the nodes have without flow: each the level
// of a node with given pressure in its part. Pressures in the solver are
// piezometric, p + ρgz with one density for all, and counted from the first of
// those nodes, so that rounding is small beside the differences that matter.
func (s *System) setRest() {
	part := newParts(len(s.net.Nodes))
	for _, b := range s.net.Branches {
		part.join(b.From, b.To)
	}
	level := make([]float64, len(s.net.Nodes))
	for i := range level {
		level[i] = math.NaN()
	}
	s.base = math.NaN()
	for i, node := range s.net.Nodes {
		s.inflow[s.at[i]] = node.Inflow
		if !node.Fixed {
			continue
		}
		p := float64(node.Pressure) + s.weight*node.Height
		if math.IsNaN(s.base) {
			s.base = p
		}
		s.rest[s.at[i]] = p - s.base
		if root := part.of(i); math.IsNaN(level[root]) {
			level[root] = p - s.base
		}
	}
	for i, node := range s.net.Nodes {
		if !node.Fixed {
			s.rest[s.at[i]] = level[part.of(i)]
		}
	}
}

// Change replaces the branch with index b, which must keep its ends, and leaves
// everything else prepared. On an error the system stays as it was.
func (s *System) Change(b int, branch Branch) error {
	if b < 0 || b >= len(s.net.Branches) {
		return fmt.Errorf("network.System.Change: branch %d, want 0 to %d: %w", b, len(s.net.Branches)-1, hydronics.ErrRange)
	}
	old := s.net.Branches[b]
	if branch.From != old.From || branch.To != old.To {
		return fmt.Errorf("network.System.Change: branch %s leads from node %d to node %d and must stay there: %w",
			s.net.branchName(b), old.From, old.To, hydronics.ErrRange)
	}
	if err := s.replace(b, branch.cloned()); err != nil {
		return fmt.Errorf("network.System.Change: %w", err)
	}
	return nil
}

// replace is Change for a branch that shares nothing with what the caller has.
func (s *System) replace(b int, branch Branch) error {
	old, law := s.net.Branches[b], s.laws[b]
	s.net.Branches[b] = branch
	if err := s.compileBranch(b); err != nil {
		s.net.Branches[b], s.laws[b] = old, law
		return err
	}
	s.release(b)
	return nil
}

// Shut shuts the isolating valve of the branch with index b or opens it, and leaves
// everything else prepared: [System.Change] of nothing but Branch.Shut.
func (s *System) Shut(b int, shut bool) error {
	if err := s.known(b); err != nil {
		return fmt.Errorf("network.System.Shut: %w", err)
	}
	s.net.Branches[b].Shut = shut
	s.release(b)
	return nil
}

// Branch returns the branch with index b as it stands, for [System.Change];
// the zero Branch for an index that does not exist.
func (s *System) Branch(b int) Branch {
	if b < 0 || b >= len(s.net.Branches) {
		return Branch{}
	}
	return s.net.Branches[b].cloned()
}

// prescribe gives a branch its mass flow, whatever its elements say.
func (s *System) prescribe(b int, mass float64) {
	s.prescribed[b], s.given[b] = true, mass
}

// release takes back what prescribe did.
func (s *System) release(b int) {
	s.prescribed[b], s.given[b] = s.net.Branches[b].Shut || s.laws[b].shut, 0
}

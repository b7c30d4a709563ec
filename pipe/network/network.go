package network

import (
	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A Network is nodes joined by branches. It is plain data: fill it in, copy it
// with [Network.Clone], change it, and let [Network.Solve] or [Network.Prepare]
// check it.
type Network struct {
	// Liquid is what fills the branches that name no liquid of their own.
	Liquid   fluid.Properties
	Nodes    []Node
	Branches []Branch
}

// A Node is a place where branches meet.
type Node struct {
	Name   string
	Height float64 // m above any level that all nodes share, -1000 to 10000 (guard)
	Inflow float64 // kg/s that enter the network here from outside, negative where they leave

	// Fixed says that Pressure is given here: at the expansion vessel of a
	// closed system, at a reservoir or at the main. Whatever the network lacks
	// or has too much of enters or leaves here. In a closed loop that is
	// nothing, but without one such node the pressures have no level.
	Fixed    bool
	Pressure hydronics.Gauge
}

// A Branch carries one flow from one node to another, through its elements in
// series. Flow from From to To is positive.
type Branch struct {
	Name     string
	From, To int // indices of nodes

	// Liquid is the branch's own, at its own temperature; the zero value stands
	// for that of the network. Where heights differ, differences of density
	// drive or brake the circulation.
	Liquid fluid.Properties

	// Shut says that an isolating valve in the branch is closed: no flow. A
	// valve that is normally closed has it set from the beginning.
	Shut bool

	Elements []Element
}

// AddNode appends a node and returns its index.
func (n *Network) AddNode(node Node) int {
	n.Nodes = append(n.Nodes, node)
	return len(n.Nodes) - 1
}

// AddBranch appends a branch and returns its index.
func (n *Network) AddBranch(branch Branch) int {
	n.Branches = append(n.Branches, branch)
	return len(n.Branches) - 1
}

// Clone returns a copy that shares nothing with n: its nodes, branches, elements
// and curves can be changed without touching n.
func (n Network) Clone() Network {
	n.Nodes = append([]Node(nil), n.Nodes...)
	n.Branches = append([]Branch(nil), n.Branches...)
	total := 0
	for i := range n.Branches {
		total += len(n.Branches[i].Elements)
	}
	all := make([]Element, 0, total)
	for i := range n.Branches {
		first := len(all)
		all = appendCloned(all, n.Branches[i].Elements)
		n.Branches[i].Elements = all[first:len(all):len(all)]
	}
	return n
}

func appendCloned(to, elements []Element) []Element {
	for _, e := range elements {
		if p, ok := e.(Pump); ok {
			p.Curve = append([]PumpPoint(nil), p.Curve...)
			e = p
		}
		to = append(to, e)
	}
	return to
}

// cloned returns a copy of the branch that shares nothing with it.
func (b Branch) cloned() Branch {
	b.Elements = appendCloned(make([]Element, 0, len(b.Elements)), b.Elements)
	return b
}

// Filled returns a copy in which every branch holds the liquid p: the whole
// system cold before its first start, or with a viscosity at the unfavourable
// end of its uncertainty.
func (n Network) Filled(p fluid.Properties) Network {
	n = n.Clone()
	n.Liquid = p
	for i := range n.Branches {
		n.Branches[i].Liquid = fluid.Properties{}
	}
	return n
}

// Fouled returns a copy in which every [Strainer] has the given Fouling.
func (n Network) Fouled(fouling float64) Network {
	n = n.Clone()
	for i := range n.Branches {
		for k, e := range n.Branches[i].Elements {
			if s, ok := e.(Strainer); ok {
				s.Fouling = fouling
				n.Branches[i].Elements[k] = s
			}
		}
	}
	return n
}

// liquid returns the liquid of branch b.
func (n *Network) liquid(b int) fluid.Properties {
	if own := n.Branches[b].Liquid; own != (fluid.Properties{}) {
		return own
	}
	return n.Liquid
}

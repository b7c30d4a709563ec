package network_test

import (
	"math/rand/v2"
	"testing"

	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// street returns a grid of streets with given pressure in one corner and draws
// in every node.
func street(tb testing.TB, side int) network.Network {
	r := rand.New(rand.NewPCG(3, 4))
	n := network.Network{Liquid: liquid(tb, 20)}
	for i := range side * side {
		n.AddNode(network.Node{Fixed: i == 0, Pressure: 5e5, Inflow: -r.Float64() * 0.1})
	}
	tube := func(i, j int) {
		n.AddBranch(network.Branch{From: i, To: j, Elements: []network.Element{
			network.Run{Bore: 0.1 + 0.1*r.Float64(), Roughness: 1e-4, Length: 20 + 100*r.Float64()}}})
	}
	for row := range side {
		for column := range side {
			i := row*side + column
			if column+1 < side {
				tube(i, i+1)
			}
			if row+1 < side {
				tube(i, i+side)
			}
		}
	}
	return n
}

// manifold returns one pump and many circuits between two nodes.
func manifold(tb testing.TB, circuits int) network.Network {
	n := network.Network{Liquid: liquid(tb, 35)}
	in, out := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{})
	ret := n.AddNode(network.Node{})
	n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: 1}, network.Device{Kv: 6}}})
	n.AddBranch(network.Branch{From: ret, To: in, Elements: device(20)})
	for i := range circuits {
		a, b := n.AddNode(network.Node{}), n.AddNode(network.Node{})
		n.AddBranch(network.Branch{From: out, To: a, Elements: device(1)})
		n.AddBranch(network.Branch{From: a, To: b, Elements: []network.Element{network.Run{Bore: 0.014, Length: 20 + float64(i%80)}}})
		n.AddBranch(network.Branch{From: b, To: ret, Elements: device(1)})
	}
	return n
}

// line returns a two-pipe line of emitters one after the other.
func line(tb testing.TB, emitters int) network.Network {
	n := network.Network{Liquid: liquid(tb, 50)}
	ret, supply := n.AddNode(network.Node{Fixed: true, Pressure: 1e5}), n.AddNode(network.Node{})
	n.AddBranch(network.Branch{From: ret, To: supply, Elements: []network.Element{network.Lift{Pressure: 3e4}, network.Device{Kv: 100}}})
	for range emitters {
		a, b := n.AddNode(network.Node{}), n.AddNode(network.Node{})
		main := []network.Element{network.Run{Bore: 0.2, Roughness: 5e-5, Length: 3}}
		n.AddBranch(network.Branch{From: supply, To: a, Elements: main})
		n.AddBranch(network.Branch{From: b, To: ret, Elements: main})
		n.AddBranch(network.Branch{From: a, To: b, Elements: device(0.1)})
		supply, ret = a, b
	}
	return n
}

// guarded returns a two-pipe system in which every emitter has a non-return
// valve and many have a pressure against them.
func guarded(tb testing.TB, emitters int) network.Network {
	r := rand.New(rand.NewPCG(5, 6))
	n := twoPipe(tb, emitters)
	for b := range n.Branches {
		branch := &n.Branches[b]
		if len(branch.Elements) < 3 {
			continue // a main
		}
		branch.Elements = append(branch.Elements, network.NonReturn{Kv: 2, Opening: 3000 * r.Float64()})
		if r.IntN(3) == 0 {
			branch.Elements = append(branch.Elements, network.Lift{Pressure: -8e4 * r.Float64()})
		}
		branch.Shut = r.IntN(10) == 0
	}
	return n
}

func TestLargeNetworks(t *testing.T) {
	for name, n := range map[string]network.Network{
		"non-return valves": guarded(t, 2000),
		"two-pipe tree":     twoPipe(t, 3000),
		"streets":           street(t, 50),
		"manifold":          manifold(t, 3000),
		"line":              line(t, 5000),
	} {
		t.Run(name, func(t *testing.T) {
			s, err := n.Solve()
			require.NoError(t, err)
			holds(t, n, s)
			t.Logf("%d branches, %d iterations, mass %.2g kg/s, energy %.2g Pa", len(n.Branches), s.Iterations, s.MassImbalance, s.EnergyImbalance)
			assert.Less(t, s.Iterations, 30)
		})
	}
}

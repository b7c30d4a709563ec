package network_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var smallPump = []network.PumpPoint{
	{Flow: 0, Head: 7.0, Power: 30}, {Flow: 0.3e-3, Head: 6.6, Power: 45}, {Flow: 0.6e-3, Head: 5.6, Power: 60},
	{Flow: 0.9e-3, Head: 4.1, Power: 70}, {Flow: 1.2e-3, Head: 2.0, Power: 72}, {Flow: 1.4e-3, Head: 0.2, Power: 70},
}

func liquid(t testing.TB, temperature float64) fluid.Properties {
	p, err := fluid.Water().At(temperature)
	require.NoError(t, err)
	return p
}

// random returns a network of a tree and some further branches, with every
// kind of element in it.
func random(t testing.TB, r *rand.Rand) network.Network {
	n := network.Network{Liquid: liquid(t, 45)}
	nodes := 2 + r.IntN(25)
	for i := range nodes {
		node := network.Node{Height: 10 * r.Float64()}
		if i == 0 || r.IntN(25) == 0 {
			node.Fixed, node.Pressure = true, hydronics.Gauge(1.5e5+2e4*r.Float64()-9.7e3*node.Height)
		}
		if r.IntN(6) == 0 {
			node.Inflow = 0.4 * (r.Float64() - 0.5)
		}
		n.AddNode(node)
	}
	between := func(from, to int) {
		b := network.Branch{From: from, To: to, Elements: []network.Element{network.Run{
			Bore: 0.010 + 0.03*r.Float64(), Roughness: 0.1e-3 * r.Float64(), Length: 30 * r.Float64(), Zeta: 5 * r.Float64(),
			Kv: pipe.Kv(1 + 5*r.Float64())}}}
		if r.IntN(3) == 0 {
			b.Liquid = liquid(t, 20+50*r.Float64())
		}
		switch r.IntN(12) {
		case 0:
			b.Elements = append(b.Elements, network.NonReturn{Kv: 5, Opening: 2000 * r.Float64()})
		case 1:
			b.Elements = append(b.Elements, network.Bypass{Set: 3e4 * r.Float64(), Slope: 1e7 * r.Float64(), Kvs: 3})
		case 2:
			b.Elements = append(b.Elements, network.Pump{Curve: smallPump, Speed: 0.5 + r.Float64()/2}, network.NonReturn{Kv: 6})
		case 3:
			b.Elements = append(b.Elements, network.Pump{Curve: smallPump, Speed: 1,
				Control: network.Control(1 + r.IntN(2)), Set: 1e4 + 3e4*r.Float64()}, network.NonReturn{Kv: 6})
		case 4:
			b.Elements = append(b.Elements, network.Lift{Pressure: 1e4 * (r.Float64() - 0.5)})
		case 5:
			b.Elements = []network.Element{network.Device{Kv: 2}}
		case 6:
			b.Shut = r.IntN(2) == 0
		case 7:
			b.Elements = append(b.Elements, network.Valve{Kvs: 4, Characteristic: network.EqualPercentage, Rangeability: 50, Position: r.Float64()})
		}
		n.AddBranch(b)
	}
	for i := 1; i < nodes; i++ {
		if j := r.IntN(i); r.IntN(2) == 0 {
			between(i, j)
		} else {
			between(j, i)
		}
	}
	for range r.IntN(2 * nodes) {
		if i, j := r.IntN(nodes), r.IntN(nodes); i != j {
			between(i, j)
		}
	}
	return n
}

// takes returns what the elements of an open branch take at its flow, loss less
// gain, with the formulas of package pipe and of the doc comments alone.
func takes(t testing.TB, n network.Network, b int, flow float64, pump network.PumpState) float64 {
	branch := n.Branches[b]
	p := branch.Liquid
	if p == (fluid.Properties{}) {
		p = n.Liquid
	}
	kv := func(k pipe.Kv) float64 {
		loss, err := k.Loss(flow, p.Density)
		require.NoError(t, err)
		return loss
	}
	sum := 0.0
	for _, e := range branch.Elements {
		switch e := e.(type) {
		case network.Run:
			loss, err := pipe.Run(e).Loss(flow, p)
			require.NoError(t, err)
			sum += loss.Total
		case network.Device:
			sum += kv(e.Kv)
		case network.Valve:
			k, err := e.Kv()
			require.NoError(t, err)
			sum += kv(k)
		case network.Strainer:
			sum += kv(e.Kv) * (1 + e.Fouling)
		case network.Thermostatic:
			k, err := e.Kv()
			require.NoError(t, err)
			sum += kv(k)
		case network.NonReturn:
			sum += kv(e.Kv) + e.Opening
		case network.Bypass:
			sum += math.Max(e.Set+e.Slope*flow, kv(e.Kvs))
		case network.Lift:
			sum -= e.Pressure
		case network.Pump:
			sum -= pump.Pressure
		default:
			t.Fatalf("element %T", e)
		}
	}
	return sum
}

// holds checks both laws of a solution from outside, to a share of 1e-9 of the
// largest flow and the largest pressure.
func holds(t testing.TB, n network.Network, s *network.Solution) {
	balance, most, largest := make([]float64, len(n.Nodes)), 1e-6, 1e5
	for _, state := range s.Branches {
		largest = math.Max(largest, math.Abs(state.Loss))
	}
	for i, state := range s.Nodes {
		balance[i] = state.Inflow
		most = math.Max(most, math.Abs(state.Inflow))
		if !n.Nodes[i].Fixed {
			require.Equal(t, n.Nodes[i].Inflow, state.Inflow)
		}
	}
	for b, state := range s.Branches {
		branch := n.Branches[b]
		balance[branch.From] -= state.Mass
		balance[branch.To] += state.Mass
		most = math.Max(most, math.Abs(state.Mass))
	}
	for i := range balance {
		assert.InDelta(t, 0, balance[i]/most, 1e-9, "mass at node %d", i)
	}
	for b, state := range s.Branches {
		branch := n.Branches[b]
		density := branch.Liquid.Density
		if density == 0 {
			density = n.Liquid.Density
		}
		rise := n.Nodes[branch.From].Height - n.Nodes[branch.To].Height
		difference := float64(s.Nodes[branch.From].Pressure-s.Nodes[branch.To].Pressure) + density*hydronics.StandardGravity*rise
		assert.InDelta(t, difference, state.Difference, 1e-9*1e6, "difference of branch %d", b)
		assert.InDelta(t, state.Flow*density, state.Mass, 1e-12*most)
		if state.Closed {
			assert.Zero(t, state.Flow)
			if branch.Shut {
				continue
			}
			opening := 0.0
			for _, e := range branch.Elements {
				switch e := e.(type) {
				case network.NonReturn:
					opening += e.Opening
				case network.Bypass:
					opening += e.Set
				case network.Lift:
					opening -= e.Pressure
				}
			}
			gain := 0.0
			if pump, err := s.Pump(b); err == nil {
				gain = pump.Pressure
			}
			assert.LessOrEqual(t, difference+gain-opening, 1e-3, "branch %d should have opened", b)
			continue
		}
		pump, _ := s.Pump(b)
		// Below 1 mPa squares run into a line.
		assert.InDelta(t, difference, takes(t, n, b, state.Flow, pump), 1e-9*largest+2e-3, "energy along branch %d", b)
		assert.InDelta(t, difference, state.Loss-state.Gain, 1e-9*math.Max(1e6, largest))
	}
	assert.LessOrEqual(t, s.MassImbalance, 1e-9*most)
	assert.LessOrEqual(t, s.EnergyImbalance, 1e-9*largest)
}

// shuffled returns the network with its nodes and branches in another order,
// and where each went.
func shuffled(n network.Network, r *rand.Rand) (network.Network, []int, []int) {
	nodes, branches := r.Perm(len(n.Nodes)), r.Perm(len(n.Branches))
	m := network.Network{Liquid: n.Liquid, Nodes: make([]network.Node, len(n.Nodes)), Branches: make([]network.Branch, len(n.Branches))}
	for i, k := range nodes {
		m.Nodes[k] = n.Nodes[i]
	}
	for b, k := range branches {
		m.Branches[k] = n.Branches[b]
		m.Branches[k].From, m.Branches[k].To = nodes[n.Branches[b].From], nodes[n.Branches[b].To]
	}
	return m, nodes, branches
}

func TestRandomNetworksObeyBothLaws(t *testing.T) {
	solved := 0
	most := 0
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := random(t, r)
		s, err := n.Solve()
		m, nodes, branches := shuffled(n, r)
		other, errOther := m.Solve()
		if err != nil {
			require.True(t, errors.Is(err, hydronics.ErrRange) || errors.Is(err, hydronics.ErrNoSolution), err)
			require.NotContains(t, err.Error(), "convergence", "seed %d", seed)
			require.NotContains(t, err.Error(), "rest", "seed %d", seed)
			require.Error(t, errOther, "seed %d: only one order fails: %v", seed, err)
			continue
		}
		require.NoError(t, errOther, "seed %d", seed)
		solved++
		most = max(most, s.Iterations)
		holds(t, n, s)
		largest := 1e-6
		for _, b := range s.Branches {
			largest = math.Max(largest, math.Abs(b.Flow))
		}
		for b, state := range s.Branches {
			require.InDelta(t, state.Flow, other.Branches[branches[b]].Flow, 1e-9*largest+1e-12, "seed %d branch %d", seed, b)
		}
		for i, state := range s.Nodes {
			require.InDelta(t, state.Inflow, other.Nodes[nodes[i]].Inflow, 1e-9*1000*largest+1e-9)
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
	t.Logf("%d solved, at most %d iterations", solved, most)
	assert.Greater(t, solved, 1000)
}

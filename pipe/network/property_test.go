package network_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The documentation states how well both laws are met: 1e-11 of the largest flow
// at every node, 1e-10 of the largest pressure along every branch.
func TestStatedTolerances(t *testing.T) {
	nets := map[string]network.Network{"two-pipe": twoPipe(t, 2000), "streets": street(t, 40), "manifold": manifold(t, 2000), "line": line(t, 3000)}
	for name, n := range nets {
		stated(t, name, n)
	}
	for seed := range uint64(300) {
		stated(t, "random", random(t, rand.New(rand.NewPCG(seed, 17))))
	}
}

func stated(t *testing.T, name string, n network.Network) {
	s, err := n.Solve()
	if err != nil {
		return
	}
	flow, pressure, along := 0.0, 1.0, 0.0
	for b, state := range s.Branches {
		flow = math.Max(flow, math.Abs(state.Mass))
		pressure = math.Max(pressure, math.Max(math.Abs(state.Loss), math.Abs(state.Gain)))
		for _, e := range n.Branches[b].Elements {
			if p, ok := e.(network.Pump); ok { // what it gives without flow drives too
				pressure = math.Max(pressure, p.Curve[0].Head*p.Speed*p.Speed*hydronics.StandardGravity*n.Liquid.Density)
			}
		}
		if !state.Closed {
			along = math.Max(along, math.Abs(state.Difference-(state.Loss-state.Gain)))
		}
	}
	for _, node := range s.Nodes {
		flow = math.Max(flow, math.Abs(node.Inflow))
	}
	assert.LessOrEqual(t, s.MassImbalance, 1e-11*flow+1e-14, name)
	assert.LessOrEqual(t, along, 1.01e-10*pressure, name)
	assert.LessOrEqual(t, s.EnergyImbalance, 1e-10*pressure*float64(len(n.Branches)), name)
}

// What pumps and given pressures put in, the branches take out (Tellegen): the
// flow times the excess of losses over lifts, summed over all branches, is what
// enters at the nodes times their pressures.
func TestPowerBalances(t *testing.T) {
	for seed := range uint64(400) {
		n := random(t, rand.New(rand.NewPCG(seed, 5)))
		for b := range n.Branches {
			n.Branches[b].Liquid = n.Liquid // one density, so that heights cancel
		}
		s, err := n.Solve()
		if err != nil {
			continue
		}
		sum, size := 0.0, 1e-9
		for _, b := range s.Branches {
			sum += b.Flow * (b.Loss - b.Gain)
			size = math.Max(size, math.Abs(b.Flow*b.Loss))
		}
		for i, node := range s.Nodes {
			total := float64(node.Pressure) + n.Liquid.Density*hydronics.StandardGravity*n.Nodes[i].Height
			sum -= node.Inflow / n.Liquid.Density * total
			size = math.Max(size, math.Abs(node.Inflow/n.Liquid.Density*total))
		}
		assert.InDelta(t, 0, sum/size, 1e-8, "seed %d", seed)
	}
}

// Turning a branch round, its two-way elements alike, turns the sign of its flow
// and nothing else.
func TestTurningABranchRound(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 6))
		n := random(t, r)
		before, err := n.Solve()
		if err != nil {
			continue
		}
		b := r.IntN(len(n.Branches))
		turned := n.Clone()
		branch := &turned.Branches[b]
		branch.From, branch.To = branch.To, branch.From
		passive := true
		for k, e := range branch.Elements {
			switch e := e.(type) {
			case network.Pump, network.NonReturn, network.Bypass:
				passive = false
			case network.Lift:
				branch.Elements[k] = network.Lift{Pressure: -e.Pressure}
			}
		}
		if !passive {
			continue
		}
		after, err := turned.Solve()
		require.NoError(t, err)
		most := 1e-9
		for _, state := range before.Branches {
			most = math.Max(most, math.Abs(state.Mass))
		}
		for i := range before.Branches {
			sign := 1.0
			if i == b {
				sign = -1
			}
			assert.InDelta(t, before.Branches[i].Mass, sign*after.Branches[i].Mass, 1e-9*most, "seed %d branch %d", seed, i)
		}
	}
}

// Losses with the square of the flow alone: four times the pressure, twice the
// flow, in any layout.
func TestSquareLawScales(t *testing.T) {
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 7))
		n := random(t, r)
		for i := range n.Nodes {
			n.Nodes[i] = network.Node{Fixed: n.Nodes[i].Fixed, Pressure: hydronics.Gauge(1e5 * r.Float64())}
		}
		for b := range n.Branches {
			n.Branches[b] = network.Branch{From: n.Branches[b].From, To: n.Branches[b].To,
				Elements: []network.Element{network.Device{Kv: pipe.Kv(0.5 + 5*r.Float64())}, network.Lift{Pressure: 4e4 * (r.Float64() - 0.5)}}}
		}
		once, err := n.Solve()
		require.NoError(t, err, "seed %d", seed)
		four := n.Clone()
		for i := range four.Nodes {
			four.Nodes[i].Pressure *= 4
		}
		for b := range four.Branches {
			l := four.Branches[b].Elements[1].(network.Lift)
			four.Branches[b].Elements[1] = network.Lift{Pressure: 4 * l.Pressure}
		}
		twice, err := four.Solve()
		require.NoError(t, err)
		for b := range once.Branches {
			// Below a loss of 1 mPa a square runs into a line.
			assert.InDelta(t, 2*once.Branches[b].Flow, twice.Branches[b].Flow, 1e-9+1e-9*math.Abs(twice.Branches[b].Flow), "seed %d branch %d", seed, b)
		}
	}
}

// A reverse return (Tichelmann) gives alike circuits flows that are the same from
// either end, while with a direct return they fall from the pump on. The spread
// of the first is a small part of that of the second.
func TestReverseReturn(t *testing.T) {
	const circuits = 8
	build := func(reverse bool) (network.Network, []int) {
		n := network.Network{Liquid: liquid(t, 40)}
		in, out := n.AddNode(network.Node{Fixed: true, Pressure: 1e5}), n.AddNode(network.Node{})
		n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Device{Kv: 8}, network.Pump{Curve: smallPump, Speed: 1}}})
		main := network.Run{Bore: 0.02, Length: 6, Roughness: 7e-6}
		supply, ret := make([]int, circuits), make([]int, circuits)
		for i := range circuits {
			supply[i], ret[i] = n.AddNode(network.Node{}), n.AddNode(network.Node{})
		}
		var zones []int
		for i := range circuits {
			from := out
			if i > 0 {
				from = supply[i-1]
			}
			n.AddBranch(network.Branch{From: from, To: supply[i], Elements: []network.Element{main}})
			zones = append(zones, n.AddBranch(network.Branch{From: supply[i], To: ret[i], Elements: device(0.6)}))
			to := in
			switch {
			case reverse && i < circuits-1:
				to = ret[i+1]
			case !reverse && i > 0:
				to = ret[i-1]
			}
			n.AddBranch(network.Branch{From: ret[i], To: to, Elements: []network.Element{main}})
		}
		return n, zones
	}
	flows := func(reverse bool) []float64 {
		n, zones := build(reverse)
		s, err := n.Solve()
		require.NoError(t, err)
		holds(t, n, s)
		q := make([]float64, len(zones))
		for i, z := range zones {
			q[i] = s.Branches[z].Flow
		}
		return q
	}
	direct, reverse := flows(false), flows(true)
	for i := range circuits {
		assert.InEpsilon(t, reverse[circuits-1-i], reverse[i], 1e-9)
		if i > 0 {
			assert.Less(t, direct[i], direct[i-1])
		}
	}
	spread := func(q []float64) float64 {
		low, high := q[0], q[0]
		for _, v := range q {
			low, high = min(low, v), max(high, v)
		}
		return high/low - 1
	}
	assert.Less(t, spread(reverse), spread(direct)/2)
	t.Logf("spread %.3f direct, %.3f reverse", spread(direct), spread(reverse))
}

// Through the transition from laminar to turbulent flow the search settles, and
// more pressure always gives more flow.
func TestThroughTheTransition(t *testing.T) {
	for _, rule := range []pipe.Transition{pipe.LinearTransition, pipe.CubicTransition, pipe.ChurchillTransition} {
		last, crossed := 0.0, [3]bool{}
		for p := 20.0; p < 2000; p *= 1.01 {
			n := network.Network{Liquid: liquid(t, 20)}
			in, out := n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Gauge(p)}), n.AddNode(network.Node{Fixed: true})
			mid := n.AddNode(network.Node{})
			run := network.Run{Bore: 0.016, Length: 10, Roughness: 7e-6, Transition: rule}
			n.AddBranch(network.Branch{From: in, To: mid, Elements: []network.Element{run}})
			b := n.AddBranch(network.Branch{From: mid, To: out, Elements: []network.Element{run}})
			n.AddBranch(network.Branch{From: mid, To: out, Elements: []network.Element{network.Run{Bore: 0.01, Length: 30, Transition: rule}}})
			s, err := n.Solve()
			require.NoError(t, err, "%v Pa", p)
			require.Less(t, s.Iterations, 30, "%v Pa", p)
			require.Greater(t, s.Branches[b].Flow, last, "%v Pa", p)
			last = s.Branches[b].Flow
			re := s.Branches[b].Velocity * 0.016 * n.Liquid.Density / n.Liquid.DynamicViscosity
			switch {
			case re < 2000:
				crossed[0] = true
			case re < 3000:
				crossed[1] = true
			default:
				crossed[2] = true
			}
		}
		assert.Equal(t, [3]bool{true, true, true}, crossed)
	}
}

// One pump in the source branch: whatever stands open, opening one zone more
// never takes flow from the source. System.BypassSetting rests on it.
func TestOpeningAZoneAddsToTheSource(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 8))
		n := network.Network{Liquid: liquid(t, 35)}
		in := n.AddNode(network.Node{Fixed: true, Pressure: 1e5})
		first := n.AddNode(network.Node{})
		source := n.AddBranch(network.Branch{From: in, To: first, Elements: []network.Element{network.Device{Kv: 5}, network.Pump{Curve: smallPump, Speed: 1}}})
		supply, ret := []int{first}, []int{in}
		for range 3 { // mains that part at random
			s, q := n.AddNode(network.Node{}), n.AddNode(network.Node{})
			k := r.IntN(len(supply))
			n.AddBranch(network.Branch{From: supply[k], To: s, Elements: device(pipe.Kv(2 + 4*r.Float64()))})
			n.AddBranch(network.Branch{From: q, To: ret[k], Elements: device(pipe.Kv(2 + 4*r.Float64()))})
			supply, ret = append(supply, s), append(ret, q)
		}
		bypass := n.AddBranch(network.Branch{From: first, To: in, Elements: []network.Element{network.Bypass{Set: 4e4 * r.Float64(), Slope: 2e7 * r.Float64(), Kvs: 3}}})
		var zones []int
		for range 4 {
			zones = append(zones, n.AddBranch(network.Branch{From: supply[r.IntN(4)], To: ret[r.IntN(4)], Elements: device(pipe.Kv(0.3 + r.Float64()))}))
		}
		var flow [16]float64
		for code := range 16 {
			c := n.Clone()
			for i, z := range zones {
				c.Branches[z].Shut = code>>i&1 == 0
			}
			s, err := c.Solve()
			require.NoError(t, err)
			flow[code] = s.Branches[source].Flow
		}
		for code := range 16 {
			for i := range zones {
				if more := code | 1<<i; more != code {
					require.GreaterOrEqual(t, flow[more], flow[code]-1e-12, "seed %d, %04b and %04b", seed, code, more)
				}
			}
		}
		// So the setting found keeps the least flow in all sixteen.
		s, err := n.Prepare()
		require.NoError(t, err)
		const least = 0.3e-3
		set, err := s.BypassSetting(bypass, source, zones, least)
		if err != nil {
			require.ErrorIs(t, err, hydronics.ErrNoSolution)
			continue
		}
		e := n.Branches[bypass].Elements[0].(network.Bypass)
		e.Set = set.Set
		require.NoError(t, s.Change(bypass, network.Branch{From: first, To: in, Elements: []network.Element{e}}))
		all, err := s.Combinations(zones, source)
		require.NoError(t, err)
		require.GreaterOrEqual(t, all.Least.Flow, least, "seed %d", seed)
	}
}

// A balanced network has its design flows, whatever the layout: random two-pipe
// trees with random designs.
func TestBalancingGivesTheDesignFlows(t *testing.T) {
	balanced := 0
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 9))
		n, err := network.TwoPipe(2+r.IntN(60), liquid(t, 50))
		require.NoError(t, err)
		var designs []network.Design
		for b, branch := range n.Branches {
			if len(branch.Elements) == 3 { // an emitter
				n.Branches[b].Elements = branch.Elements[:2]
				designs = append(designs, network.Design{Branch: b, Flow: (0.5 + r.Float64()) * 0.02 * hydronics.LitrePerSecond})
			}
		}
		s, err := n.Prepare()
		require.NoError(t, err)
		b, err := s.Balance(designs, 500)
		if err != nil {
			require.ErrorIs(t, err, hydronics.ErrNoSolution)
			continue
		}
		balanced++
		set := b.Apply(n)
		got, err := set.Solve()
		require.NoError(t, err)
		for _, d := range designs {
			require.InEpsilon(t, d.Flow, got.Branches[d.Branch].Flow, 1e-8, "seed %d", seed)
		}
	}
	assert.Greater(t, balanced, 50)
}

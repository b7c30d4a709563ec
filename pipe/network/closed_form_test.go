package network_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func device(kv pipe.Kv) []network.Element { return []network.Element{network.Device{Kv: kv}} }

// Valves in series add 1/Kv², valves in parallel Kv (IEC 60534-2-1): any nest of
// the two has a closed form.
func TestValvesInSeriesAndInParallel(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 20)}
	a := n.AddNode(network.Node{Fixed: true, Pressure: 0.5 * hydronics.Bar})
	b := n.AddNode(network.Node{})
	c := n.AddNode(network.Node{})
	d := n.AddNode(network.Node{Fixed: true})
	one := n.AddBranch(network.Branch{From: a, To: b, Elements: device(4)})
	two := n.AddBranch(network.Branch{From: b, To: c, Elements: device(2)})
	three := n.AddBranch(network.Branch{From: c, To: b, Elements: device(1.5)})
	four := n.AddBranch(network.Branch{From: b, To: c, Elements: append(device(3), device(1)...)})
	five := n.AddBranch(network.Branch{From: c, To: d, Elements: device(6)})
	s, err := n.Solve()
	require.NoError(t, err)

	nested, err := pipe.KvInSeries(3, 1)
	require.NoError(t, err)
	middle := 2 + 1.5 + nested
	whole, err := pipe.KvInSeries(4, middle, 6)
	require.NoError(t, err)
	flow, err := whole.Flow(0.5*hydronics.Bar, n.Liquid.Density)
	require.NoError(t, err)
	for branch, want := range map[int]float64{
		one: flow, two: flow * float64(2/middle), three: -flow * float64(1.5/middle), four: flow * float64(nested/middle), five: flow,
	} {
		assert.InEpsilon(t, want, s.Branches[branch].Flow, 1e-9, "branch %d", branch)
	}
	assert.InDelta(t, s.Nodes[a].Inflow, flow*n.Liquid.Density, 1e-9)
	assert.InDelta(t, -s.Nodes[a].Inflow, s.Nodes[d].Inflow, 1e-9)
}

// Tubes in series with one pump: the operating point is where the pump's curve
// meets the sum of their losses.
func TestTubesInSeries(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 35)}
	in := n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Bar})
	out, mid := n.AddNode(network.Node{}), n.AddNode(network.Node{})
	runs := []pipe.Run{
		{Bore: 0.026, Roughness: 1.5e-6, Length: 20, Zeta: 6}, {Bore: 0.020, Roughness: 1.5e-6, Length: 12, Kv: 5},
		{Bore: 0.013, Roughness: 7e-6, Length: 5, ZetaLaminar: 500},
	}
	pump := n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Run(runs[0]), network.Pump{Curve: smallPump, Speed: 0.8}}})
	n.AddBranch(network.Branch{From: out, To: mid, Elements: []network.Element{network.Run(runs[1])}})
	n.AddBranch(network.Branch{From: in, To: mid, Elements: []network.Element{network.Run(runs[2])}})
	s, err := n.Solve()
	require.NoError(t, err)
	state, err := s.Pump(pump)
	require.NoError(t, err)
	sum := 0.0
	for _, r := range runs {
		loss, err := r.Loss(state.Flow, n.Liquid)
		require.NoError(t, err)
		sum += loss.Total
	}
	assert.InEpsilon(t, sum, state.Pressure, 1e-9)
	assert.InDelta(t, -state.Flow, s.Branches[2].Flow, 1e-12)
}

// Two legs of different temperature drive a loop by (ρcold - ρwarm) g h.
func TestGravityCirculation(t *testing.T) {
	warm, cold := liquid(t, 70), liquid(t, 50)
	n := network.Network{Liquid: cold}
	bottom := n.AddNode(network.Node{Name: "boiler", Fixed: true, Pressure: hydronics.Bar})
	top := n.AddNode(network.Node{Name: "radiator", Height: 5})
	run := pipe.Run{Bore: 0.027, Roughness: 4.5e-5, Length: 10, Zeta: 4}
	up := n.AddBranch(network.Branch{From: bottom, To: top, Liquid: warm, Elements: []network.Element{network.Run(run)}})
	down := n.AddBranch(network.Branch{From: top, To: bottom, Liquid: cold, Elements: []network.Element{network.Run(run)}})
	s, err := n.Solve()
	require.NoError(t, err)
	drive, err := pipe.GravityCirculation(cold.Density, warm.Density, 5)
	require.NoError(t, err)
	sum := 0.0
	for b, p := range map[int]float64{up: warm.Density, down: cold.Density} {
		liquid := warm
		if b == down {
			liquid = cold
		}
		loss, err := run.Loss(s.Branches[b].Flow, liquid)
		require.NoError(t, err)
		sum += loss.Total
		assert.InEpsilon(t, s.Branches[up].Mass, s.Branches[b].Flow*p, 1e-9)
	}
	assert.InEpsilon(t, drive, sum, 1e-9)
	assert.Positive(t, s.Branches[up].Flow)
	// The pressure on top is that of the warm column less its loss.
	loss, err := run.Loss(s.Branches[up].Flow, warm)
	require.NoError(t, err)
	assert.InDelta(t, 1e5-warm.Density*hydronics.StandardGravity*5-loss.Total, float64(s.Nodes[top].Pressure), 1e-6)
}

// A pump follows the affinity laws: with losses that grow with the square of
// the flow, flow goes with the speed, pressure with its square, power with its cube.
func TestAffinity(t *testing.T) {
	at := func(speed float64) network.PumpState {
		n := network.Network{Liquid: liquid(t, 20)}
		in, out := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{})
		b := n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: speed}, network.Device{Kv: 4}}})
		n.AddBranch(network.Branch{From: out, To: in, Elements: device(8)})
		s, err := n.Solve()
		require.NoError(t, err)
		state, err := s.Pump(b)
		require.NoError(t, err)
		return state
	}
	full, half := at(1), at(0.5)
	assert.InEpsilon(t, full.Flow/2, half.Flow, 1e-9)
	assert.InEpsilon(t, full.Pressure/4, half.Pressure, 1e-9)
	assert.InEpsilon(t, full.Power/8, half.Power, 1e-9)
	assert.InEpsilon(t, full.Efficiency, half.Efficiency, 1e-9)
	assert.InEpsilon(t, full.Hydraulic, full.Pressure*full.Flow, 1e-12)
}

// Controlled pumps keep their pressure and find their speed.
func TestPumpControl(t *testing.T) {
	at := func(control network.Control, kv pipe.Kv) network.PumpState {
		n := network.Network{Liquid: liquid(t, 20)}
		in, out := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{})
		b := n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: 1, Control: control, Set: 3e4}, network.Device{Kv: 20}}})
		n.AddBranch(network.Branch{From: out, To: in, Elements: device(kv)})
		s, err := n.Solve()
		require.NoError(t, err)
		state, err := s.Pump(b)
		require.NoError(t, err)
		return state
	}
	constant := at(network.ConstantPressure, 3)
	assert.InEpsilon(t, 3e4, constant.Pressure, 1e-9)
	assert.Less(t, constant.Speed, 1.0)
	assert.Greater(t, constant.Speed, 0.6)
	// Where the pump is too small for its set pressure it runs at full speed.
	small := at(network.ConstantPressure, 12)
	assert.Less(t, small.Pressure, 3e4)
	assert.InDelta(t, 1, small.Speed, 1e-9)
	// Proportional: half the set pressure without flow.
	nearly := at(network.ProportionalPressure, 0.001)
	assert.InEpsilon(t, 1.5e4, nearly.Pressure, 1e-3)
	proportional := at(network.ProportionalPressure, 3)
	assert.Less(t, proportional.Pressure, 3e4)
	whole, err := pipe.KvInSeries(20, 3)
	require.NoError(t, err)
	loss, err := whole.Loss(proportional.Flow, liquid(t, 20).Density)
	require.NoError(t, err)
	assert.InEpsilon(t, loss, proportional.Pressure, 1e-9)
}

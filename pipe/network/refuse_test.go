package network_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/internal/edge"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ring is one pump and one other branch between two nodes; the second node has
// the given height.
func ring(t testing.TB, pump network.Pump, height float64, rest ...network.Element) network.Network {
	n := network.Network{Liquid: liquid(t, 40)}
	in, out := n.AddNode(network.Node{Name: "inlet", Fixed: true, Pressure: 1e5}), n.AddNode(network.Node{Name: "outlet", Height: height})
	n.AddBranch(network.Branch{Name: "pump", From: in, To: out, Elements: []network.Element{network.Device{Kv: 5}, pump}})
	n.AddBranch(network.Branch{Name: "zone", From: out, To: in, Elements: rest})
	return n
}

// A set pressure at either end of the curve, such as one that was forgotten
// beside a curve that ends at no head, is refused. It used to drop the pump.
func TestControlAtTheEndsOfTheCurve(t *testing.T) {
	curve := []network.PumpPoint{{Head: 6}, {Flow: 1e-3, Head: 0}}
	for _, control := range []network.Control{network.ConstantPressure, network.ProportionalPressure} {
		n := ring(t, network.Pump{Curve: curve, Speed: 1}, 0, network.Device{Kv: 2})
		top := 6 * n.Liquid.Density * hydronics.StandardGravity
		for _, set := range []float64{0, top} {
			// A second pump moves the liquid, so that nothing else is missing.
			n := ring(t, network.Pump{Curve: curve, Speed: 1, Control: control, Set: set}, 0, network.Device{Kv: 2}, network.Lift{Pressure: 1e4})
			_, err := n.Solve()
			found := edge.Named(err, "set pressure of the pump")
			require.NotNil(t, found, "%v Pa: %v", set, err)
			assert.Equal(t, set, found.Value)
			assert.False(t, set >= found.Min && set <= found.Max)
		}
	}
}

// Power in kilowatts, or at some points only, gives more than it takes.
func TestPowerBelowWhatTheLiquidGains(t *testing.T) {
	for _, power := range [][2]float64{{0.040, 0.045}, {40, 0}} {
		curve := []network.PumpPoint{{Head: 6, Power: 30}, {Flow: 0.5e-3, Head: 4, Power: power[0]}, {Flow: 1e-3, Head: 1, Power: power[1]}}
		_, err := ring(t, network.Pump{Curve: curve, Speed: 1}, 0, network.Device{Kv: 2}).Solve()
		assert.NotNil(t, edge.Named(err, "power on the pump's curve"), "%v", err)
	}
}

type labelled struct {
	network.Strainer
	label string
}

// Pointers to elements, and types of others that hold one, would be overlooked
// by what asks for the kind of an element; a nil pointer would panic.
func TestElementsAreValuesOfThisPackage(t *testing.T) {
	for _, e := range []network.Element{nil, (*network.Pump)(nil), &network.Strainer{Kv: 5}, labelled{network.Strainer{Kv: 5}, "dirt"}} {
		n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 0, network.Device{Kv: 2})
		n.Branches[1].Elements = append(n.Branches[1].Elements, e)
		_, err := n.Solve()
		require.ErrorIs(t, err, hydronics.ErrRange)
		require.ErrorContains(t, err, "is not an element")
	}
}

// Every error is of one of the two kinds.
func TestTwoOfAKind(t *testing.T) {
	pump := network.Pump{Curve: smallPump, Speed: 1}
	for _, e := range [][]network.Element{
		{network.Device{Kv: 2}, pump, pump},
		{network.Bypass{Set: 1e4, Kvs: 3}, network.Bypass{Set: 1e4, Kvs: 3}},
	} {
		_, err := ring(t, pump, 0, e...).Solve()
		require.ErrorIs(t, err, hydronics.ErrRange)
	}
}

// The network's own liquid is what the pressures refer to, though each branch
// has another.
func TestLiquidOfTheNetworkIsChecked(t *testing.T) {
	for _, density := range []float64{math.NaN(), math.Inf(1), 1e5, -1} {
		n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 3, network.Device{Kv: 2})
		for b := range n.Branches {
			n.Branches[b].Liquid = n.Liquid
		}
		n.Liquid.Density = density
		_, err := n.Solve()
		assert.NotNil(t, edge.Named(err, "density"), "%v: %v", density, err)
	}
}

// A flow that pipe.Run.Loss would refuse is refused here too.
func TestFlowsBeyondTheLimitsOfATube(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 20)}
	a, b := n.AddNode(network.Node{Fixed: true, Pressure: 5e7}), n.AddNode(network.Node{Fixed: true})
	run := network.Run{Bore: 0.02, Length: 1, Roughness: 1e-6}
	n.AddBranch(network.Branch{From: a, To: b, Elements: []network.Element{run}})
	_, err := n.Solve()
	found := edge.Named(err, "velocity")
	require.NotNil(t, found, "%v", err)
	_, alone := pipe.Run(run).Loss(found.Value*math.Pi/4*run.Bore*run.Bore, n.Liquid)
	require.NotNil(t, edge.Named(alone, "velocity"))

	// 40 m/s in a wide tube of hot water: beyond the end of the Moody chart.
	n.Liquid = liquid(t, 90)
	n.Nodes[a].Pressure = 1e5
	n.Branches[0].Elements = []network.Element{network.Run{Bore: 3, Length: 20, Roughness: 1e-6}}
	_, err = n.Solve()
	assert.True(t, edge.Named(err, "Reynolds number") != nil || edge.Named(err, "velocity") != nil, "%v", err)
}

// A speed at which a branch has its flow has to give it: where the pump runs too
// fast even at the least speed there is none.
func TestSpeedForTooLittleFlow(t *testing.T) {
	n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 0, network.Device{Kv: 2}, network.Lift{Pressure: 2e4})
	s, err := n.Prepare()
	require.NoError(t, err)
	_, err = s.SpeedFor(0, 1, 1e-5)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	v, err := s.SpeedFor(0, 1, 0.4e-3)
	require.NoError(t, err)
	n.Branches[0].Elements[1] = network.Pump{Curve: smallPump, Speed: v}
	r, err := n.Solve()
	require.NoError(t, err)
	assert.InEpsilon(t, 0.4e-3, r.Branches[1].Flow, 1e-8)
}

// Two branches in series with a design flow each: nothing says which pressure
// either has to itself.
func TestDesignsInSeriesAreRefused(t *testing.T) {
	n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 0, network.Device{Kv: 4})
	middle := n.AddNode(network.Node{Name: "middle"})
	n.Branches[1].To = middle
	n.AddBranch(network.Branch{From: middle, To: 0, Elements: device(4)})
	s, err := n.Prepare()
	require.NoError(t, err)
	const flow = 0.2e-3
	_, err = s.Balance([]network.Design{{Branch: 1, Flow: flow}, {Branch: 2, Flow: flow}}, 1000)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	require.ErrorContains(t, err, "middle")
	b, err := s.Balance([]network.Design{{Branch: 1, Flow: flow}}, 1000)
	require.NoError(t, err)
	r, err := b.Apply(n).Solve()
	require.NoError(t, err)
	assert.InEpsilon(t, flow, r.Branches[2].Flow, 1e-8)
}

// Behind shut valves the pressure is not known, and what asks for it says so.
func TestPressureBehindShutValves(t *testing.T) {
	n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 2, network.Device{Kv: 4})
	far := n.AddNode(network.Node{Height: 1})
	end := n.AddNode(network.Node{})
	valve := network.Valve{Kvs: 2, Rangeability: 50, Position: 1}
	controlled := n.AddBranch(network.Branch{From: 1, To: far, Elements: []network.Element{valve}})
	behind := n.AddBranch(network.Branch{From: far, To: end, Shut: true, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: 1}, network.Device{Kv: 2}}})
	n.AddBranch(network.Branch{From: end, To: 0, Elements: device(3)})
	s, err := n.Prepare()
	require.NoError(t, err)
	// The control valve and the shut branch cut their common node off.
	_, err = s.Authority(controlled)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	n.Branches[controlled].Shut = true
	r, err := n.Solve()
	require.NoError(t, err)
	for i, cut := range []bool{false, false, true, false} {
		assert.Equal(t, cut, r.Nodes[i].CutOff, "node %d", i)
	}
	_, err = n.Inlet(r, behind, hydronics.StandardAtmosphere)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	_, err = n.Inlet(r, 0, hydronics.StandardAtmosphere)
	require.NoError(t, err)
}

// A pump at rest behind its own non-return valve still says which pressure
// stands before a shut zone.
func TestAuthorityBehindANonReturnValve(t *testing.T) {
	n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 2, network.Valve{Kvs: 2, Rangeability: 50, Position: 0.5}, network.Device{Kv: 3})
	n.Branches[0].Elements = append(n.Branches[0].Elements, network.NonReturn{Kv: 8, Opening: 500})
	s, err := n.Prepare()
	require.NoError(t, err)
	a, err := s.Authority(1)
	require.NoError(t, err)
	assert.InEpsilon(t, 7*n.Liquid.Density*hydronics.StandardGravity-500, a.Shut, 1e-4)
}

// A valve wide open takes the pump beyond the end of its curve: no authority is
// made of a curve drawn on by rule.
func TestAuthorityBeyondThePumpsCurve(t *testing.T) {
	n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 0, network.Valve{Kvs: 80, Rangeability: 50, Position: 0.1})
	n.Branches[0].Elements[0] = network.Device{Kv: 80}
	s, err := n.Prepare()
	require.NoError(t, err)
	_, err = s.Authority(1)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// A branch named twice among the zones would be open and shut at once.
func TestZonesOnceEach(t *testing.T) {
	h := newHouse(t, liquid(t, 32))
	s, err := h.Prepare()
	require.NoError(t, err)
	twice := []int{h.zones[0], h.zones[1], h.zones[0]}
	_, err = s.Combinations(twice, h.source)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = s.BypassSetting(h.bypass, h.source, twice, 0.3e-3)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// Heat put into water that stands still, and heat that leads out of all
// temperatures of liquids, are refused; so is an exchange of no kind.
func TestTemperaturesThatCannotBe(t *testing.T) {
	n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 0, network.Device{Kv: 2})
	idle := n.AddBranch(network.Branch{Name: "heater", From: 1, To: 0, Shut: true, Elements: device(2)})
	r, err := n.Solve()
	require.NoError(t, err)
	_, err = n.Temperatures(r, 20, []network.Heat{{Branch: idle, Exchange: network.GivesOff, Power: -8000}})
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	require.ErrorContains(t, err, "heater")
	got, err := n.Temperatures(r, 20, []network.Heat{{Branch: idle, Exchange: network.GivesOff, Power: 8000}})
	require.NoError(t, err)
	assert.Zero(t, got.Branches[idle].Power)
	_, err = n.Temperatures(r, 20, []network.Heat{{Branch: idle, Exchange: 9}})
	require.ErrorIs(t, err, hydronics.ErrRange)

	// What takes 1 MW out of a trickle that runs through ends below absolute zero.
	open := network.Network{Liquid: liquid(t, 20)}
	in, out := open.AddNode(network.Node{Fixed: true, Pressure: 1e4}), open.AddNode(network.Node{Fixed: true})
	open.AddBranch(network.Branch{From: in, To: out, Elements: device(1)})
	r, err = open.Solve()
	require.NoError(t, err)
	_, err = open.Temperatures(r, 20, []network.Heat{{Branch: 0, Exchange: network.GivesOff, Power: 1e6}})
	require.NotNil(t, edge.Named(err, "temperature at its end"), "%v", err)
}

// The suction head is that of the energy equation from the vessel on: pressure
// and height of the surface less the loss, with no velocity head added to it.
// Source: definition of the net positive suction head.
func TestSuctionHeadByTheEnergyEquation(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 60)}
	vessel := n.AddNode(network.Node{Fixed: true, Pressure: 0.1e5, Height: 4})
	pump, delivery := n.AddNode(network.Node{}), n.AddNode(network.Node{Fixed: true, Pressure: 0.4e5})
	suction := network.Run{Bore: 0.016, Length: 6, Zeta: 2, Roughness: 1.5e-6}
	n.AddBranch(network.Branch{From: vessel, To: pump, Elements: device(20)})
	b := n.AddBranch(network.Branch{From: pump, To: delivery, Elements: []network.Element{suction, network.Pump{Curve: smallPump, Speed: 1}}})
	r, err := n.Solve()
	require.NoError(t, err)
	flow := r.Branches[b].Flow
	before, err := pipe.Kv(20).Loss(flow, n.Liquid.Density)
	require.NoError(t, err)
	along, err := pipe.Run(suction).Loss(flow, n.Liquid)
	require.NoError(t, err)
	require.Greater(t, along.Velocity, 1.0)
	in, err := n.Inlet(r, b, 1e5)
	require.NoError(t, err)
	weight := n.Liquid.Density * hydronics.StandardGravity
	want := (0.1e5+1e5-in.VapourPressureAbs-before-along.Total)/weight + 4
	assert.InDelta(t, want, in.Available, 1e-9)
}

// A clone shares no curve with what it was made from.
func TestCloneSharesNoCurve(t *testing.T) {
	curve := append([]network.PumpPoint(nil), smallPump...)
	n := ring(t, network.Pump{Curve: curve, Speed: 1}, 0, network.Device{Kv: 2})
	clone := n.Clone()
	before, err := clone.Solve()
	require.NoError(t, err)
	curve[0].Head = 20
	after, err := clone.Solve()
	require.NoError(t, err)
	assert.Equal(t, before.Branches, after.Branches)
}

// A thermostatic valve is shut where its flow coefficient would fall below the
// least of a valve.
func TestThermostaticOnItsSeat(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 40)}
	in, out := n.AddNode(network.Node{Fixed: true, Pressure: 1e4}), n.AddNode(network.Node{Fixed: true})
	b := n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Thermostatic{Kv2: 0.05, Kvs: 0.1, Closing: 22, Room: 21.997}}})
	r, err := n.Solve()
	require.NoError(t, err)
	assert.True(t, r.Branches[b].Closed)
}

// The generated systems are such as can be built: nowhere below the atmosphere.
func TestTwoPipeStandsAboveTheAtmosphere(t *testing.T) {
	r, err := twoPipe(t, 200).Solve()
	require.NoError(t, err)
	for i, node := range r.Nodes {
		require.Positive(t, float64(node.Pressure), "node %d", i)
	}
}

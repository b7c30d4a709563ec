package network_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A house: heat pump with its pump, strainer and non-return valve, a
// distributor with four zones and a bypass.
type house struct {
	network.Network
	source, bypass int
	zones          []int
	designs        []network.Design
}

func newHouse(tb testing.TB, p fluid.Properties) house {
	h := house{Network: network.Network{Liquid: p}}
	ret := h.AddNode(network.Node{Name: "return", Fixed: true, Pressure: 1.2 * hydronics.Bar})
	supply := h.AddNode(network.Node{Name: "supply"})
	main := pipe.Run{Bore: 0.026, Roughness: 1.5e-6, Length: 24, Zeta: 12}
	h.source = h.AddBranch(network.Branch{Name: "heat pump", From: ret, To: supply, Elements: []network.Element{
		network.Strainer{Kv: 8}, network.Run(main), network.Device{Kv: 5}, network.NonReturn{Kv: 12, Opening: 500},
		network.Pump{Curve: smallPump, Speed: 1}}})
	h.bypass = h.AddBranch(network.Branch{Name: "bypass", From: supply, To: ret, Elements: []network.Element{
		network.Bypass{Set: 3e4, Slope: 1e7, Kvs: 4}}})
	for i, length := range []float64{30, 50, 70, 90} {
		zone := pipe.Run{Bore: 0.016, Roughness: 7e-6, Length: length, Zeta: 8}
		b := h.AddBranch(network.Branch{Name: []string{"bath", "kitchen", "living", "attic"}[i], From: supply, To: ret, Elements: []network.Element{
			network.Run(zone), network.Valve{Kvs: 1.6, Characteristic: network.EqualPercentage, Rangeability: 50, Position: 1}}})
		h.zones = append(h.zones, b)
		h.designs = append(h.designs, network.Design{Branch: b, Flow: []float64{0.06, 0.07, 0.07, 0.06}[i] * 1e-3})
	}
	return h
}

// balancedHouse is the house with its bypass shut, prepared, and what balances it.
func balancedHouse(t *testing.T) (house, *network.System, network.Balancing) {
	t.Helper()
	h := newHouse(t, liquid(t, 32))
	h.Branches[h.bypass].Shut = true
	s, err := h.Prepare()
	require.NoError(t, err)
	b, err := s.Balance(h.designs, 3000)
	require.NoError(t, err)
	return h, s, b
}

func TestBalance(t *testing.T) {
	h, s, b := balancedHouse(t)
	for i, c := range b.Circuits {
		assert.GreaterOrEqual(t, c.Surplus, b.Circuits[b.Index].Surplus)
		assert.InDelta(t, c.Available-c.Required, c.Surplus, 1e-9)
		assert.Equal(t, h.designs[i].Branch, c.Branch)
	}
	// With the valves in it the network has its design flows.
	balanced := b.Apply(h.Network)
	r, err := balanced.Solve()
	require.NoError(t, err)
	for _, d := range h.designs {
		assert.InEpsilon(t, d.Flow, r.Branches[d.Branch].Flow, 1e-8)
	}
	// The speed that just serves the index circuit leaves it what was asked.
	speed, err := s.DesignSpeed(h.source, h.designs, 3000)
	require.NoError(t, err)
	assert.Less(t, speed, 1.0)
	slow := h.Clone()
	last := len(slow.Branches[h.source].Elements) - 1
	slow.Branches[h.source].Elements[last] = network.Pump{Curve: smallPump, Speed: speed}
	q, err := slow.Prepare()
	require.NoError(t, err)
	b, err = q.Balance(h.designs, 2999)
	require.NoError(t, err)
	assert.InDelta(t, 3000, b.Circuits[b.Index].Surplus, 0.01)
	_, err = q.Balance(h.designs, 3001)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)

	// The same by the flow of one branch.
	s, err = b.Apply(h.Network).Prepare()
	require.NoError(t, err)
	d := h.designs[b.Index]
	n, err := s.SpeedFor(h.source, d.Branch, d.Flow)
	require.NoError(t, err)
	assert.InDelta(t, speed, n, 1e-8)
	// Nothing of the search is left behind.
	assert.InDelta(t, 1, s.Branch(h.source).Elements[last].(network.Pump).Speed, 0)
	_, err = s.SpeedFor(h.source, d.Branch, 1)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
}

// What is changed in a prepared system gives to the last bit what a network that
// is so from the beginning gives, whatever was solved in between.
func TestPreparedAsFromTheBeginning(t *testing.T) {
	h, s, b := balancedHouse(t)
	require.NoError(t, s.Apply(b))
	anew := b.Apply(h.Network)
	for _, c := range []struct {
		branch int
		shut   bool
	}{{h.bypass, true}, {h.bypass, false}, {h.zones[0], true}, {h.zones[1], true}, {h.zones[2], true}, {h.zones[3], true}, {h.zones[1], false}, {h.bypass, true}} {
		require.NoError(t, s.Shut(c.branch, c.shut))
		anew.Branches[c.branch].Shut = c.shut
		assert.Equal(t, anew.Branches[c.branch], s.Branch(c.branch))
		got, err := s.Solve()
		require.NoError(t, err)
		want, err := anew.Solve()
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	require.ErrorIs(t, s.Shut(-1, true), hydronics.ErrRange)
	require.ErrorIs(t, s.Shut(len(h.Branches), true), hydronics.ErrRange)
	require.ErrorIs(t, s.Apply(network.Balancing{Circuits: []network.Circuit{{Branch: len(h.Branches), Kv: 1}}}), hydronics.ErrRange)
	require.ErrorIs(t, s.Apply(network.Balancing{Circuits: []network.Circuit{{Branch: h.zones[0], Kv: 1e9}}}), hydronics.ErrRange)
	assert.Equal(t, anew.Branches[h.zones[0]], s.Branch(h.zones[0]))
}

func TestBypassSettingKeepsTheLeastFlow(t *testing.T) {
	h := newHouse(t, liquid(t, 32))
	const least = 0.35e-3 // the heat pump's minimum flow
	s, err := h.Prepare()
	require.NoError(t, err)
	set, err := s.BypassSetting(h.bypass, h.source, h.zones, least)
	require.NoError(t, err)
	assert.Equal(t, []bool{false, false, false, false}, set.Worst.Open)
	assert.InEpsilon(t, least, set.Worst.Flow, 1e-4)
	assert.GreaterOrEqual(t, set.Worst.Flow, least)
	assert.True(t, set.PowerKnown)
	for _, loss := range set.ZoneLoss {
		assert.GreaterOrEqual(t, loss, -1e-9)
	}
	// Every combination keeps it, and a set pressure 1 % higher would not.
	for _, c := range []struct {
		factor float64
		kept   bool
	}{{1, true}, {1.01, false}} {
		branch := s.Branch(h.bypass)
		branch.Elements[0] = network.Bypass{Set: set.Set * c.factor, Slope: 1e7, Kvs: 4}
		require.NoError(t, s.Change(h.bypass, branch))
		all, err := s.Combinations(h.zones, h.source)
		require.NoError(t, err)
		assert.Equal(t, c.kept, all.Least.Flow >= least)
		assert.Equal(t, []bool{true, true, true, true}, all.Most.Open)
		for i, z := range all.Zones {
			assert.Less(t, z.Least, z.Most, "zone %d", i)
		}
	}
	_, err = s.BypassSetting(h.bypass, h.source, h.zones, 2e-3)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	_, err = s.BypassSetting(h.bypass, h.source, nil, 1e-5)
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	// A dirty strainer and a cold start each leave less. (A yet thicker liquid
	// need not: where it turns the flow laminar it loses less.)
	r, err := h.Solve()
	require.NoError(t, err)
	dirty, err := h.Fouled(3).Solve()
	require.NoError(t, err)
	glycol, err := fluid.PropyleneGlycol.ByMass(0.3)
	require.NoError(t, err)
	cold, err := glycol.At(-5)
	require.NoError(t, err)
	first, err := h.Filled(cold).Solve()
	require.NoError(t, err)
	assert.Less(t, dirty.Branches[h.source].Flow, r.Branches[h.source].Flow)
	assert.Less(t, first.Branches[h.source].Flow, r.Branches[h.source].Flow)
}

func TestAllShutWithoutBypassStandsStill(t *testing.T) {
	h := newHouse(t, liquid(t, 32))
	h.Branches[h.bypass].Shut = true
	for _, z := range h.zones {
		h.Branches[z].Shut = true
	}
	s, err := h.Solve()
	require.NoError(t, err)
	for b, branch := range s.Branches {
		assert.Zero(t, branch.Flow, "branch %d", b)
		assert.True(t, branch.Closed)
	}
	pump, err := s.Pump(h.source)
	require.NoError(t, err)
	assert.InEpsilon(t, 7*9.80665*h.Liquid.Density, pump.Pressure, 1e-12)
}

// With a constant pressure over circuit and valve the authority is the share of
// the valve, and the flow follows the closed form.
func TestAuthority(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 40)}
	in := n.AddNode(network.Node{Fixed: true, Pressure: 2e4})
	out := n.AddNode(network.Node{Fixed: true})
	v := network.Valve{Kvs: 2.5, Characteristic: network.EqualPercentage, Rangeability: 50, Position: 0.6}
	b := n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{v, network.Device{Kv: 2}}})
	s, err := n.Prepare()
	require.NoError(t, err)
	a, err := s.Authority(b)
	require.NoError(t, err)
	want := (1 / (2.5 * 2.5)) / (1/(2.5*2.5) + 1/(2.0*2.0))
	assert.InEpsilon(t, want, a.Value, 1e-9)
	assert.InEpsilon(t, 2e4, a.Shut, 1e-9)
	kv, err := v.Kv()
	require.NoError(t, err)
	q, err := network.InstalledFlow(a.Value, float64(kv/v.Kvs))
	require.NoError(t, err)
	here, err := s.Solve()
	require.NoError(t, err)
	v.Position = 1
	require.NoError(t, s.Change(b, network.Branch{From: in, To: out, Elements: []network.Element{v, network.Device{Kv: 2}}}))
	open, err := s.Solve()
	require.NoError(t, err)
	assert.InEpsilon(t, q, here.Branches[b].Flow/open.Branches[b].Flow, 1e-9)

	h := newHouse(t, liquid(t, 32))
	s, err = h.Prepare()
	require.NoError(t, err)
	a, err = s.Authority(h.zones[3])
	require.NoError(t, err)
	assert.Greater(t, a.Value, 0.05)
	assert.Less(t, a.Value, 0.5)
	_, err = s.Authority(h.source)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

func TestInlet(t *testing.T) {
	h := newHouse(t, liquid(t, 70))
	r, err := h.Solve()
	require.NoError(t, err)
	in, err := h.Inlet(r, h.source, hydronics.StandardAtmosphere)
	require.NoError(t, err)
	// Everything but the pump stands before it: what is left of the fill pressure.
	assert.InDelta(t, 1.2e5-r.Branches[h.source].Loss, float64(in.Gauge), 1e-6)
	assert.InEpsilon(t, 31202, in.VapourPressureAbs, 1e-3) // IAPWS: 31.20 kPa at 70 °C
	found := in.Judge("heat pump", 5, 0.3*hydronics.Bar, hydronics.Source{Text: "data sheet", Provenance: hydronics.Original})
	require.Len(t, found, 2)
	assert.Equal(t, hydronics.Met, found[0].Verdict)
	assert.Equal(t, hydronics.Met, found[1].Verdict)
	_, err = h.Inlet(r, h.bypass, hydronics.StandardAtmosphere)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// A mixing valve between a buffer and floor heating: heat and mass balance, and
// the temperature after mixing is the mean of what meets.
func TestMixing(t *testing.T) {
	p := liquid(t, 35)
	n := network.Network{Liquid: p}
	buffer := n.AddNode(network.Node{Name: "buffer top", Fixed: true, Pressure: 1.5e5})
	bottom := n.AddNode(network.Node{Name: "buffer bottom"})
	mixed, after, ret := n.AddNode(network.Node{}), n.AddNode(network.Node{}), n.AddNode(network.Node{})
	valve := network.ThreePort{Kvs: 4, Rangeability: 50, Position: 0.4}
	store := n.AddBranch(network.Branch{From: bottom, To: buffer, Elements: device(30)})
	hot := n.AddBranch(network.Branch{From: buffer, To: mixed, Elements: []network.Element{valve.A()}})
	back := n.AddBranch(network.Branch{From: ret, To: mixed, Elements: []network.Element{valve.B()}})
	n.AddBranch(network.Branch{From: mixed, To: after, Elements: []network.Element{network.Device{Kv: 20}, network.Pump{Curve: smallPump, Speed: 0.7}}})
	floor := n.AddBranch(network.Branch{From: after, To: ret, Elements: device(2)})
	n.AddBranch(network.Branch{From: ret, To: bottom, Elements: device(10)})
	r, err := n.Solve()
	require.NoError(t, err)
	temperature, err := n.Temperatures(r, 20, []network.Heat{
		{Branch: store, Exchange: network.Delivers, Temperature: 50},
		{Branch: floor, Exchange: network.GivesOff, Power: 5000}})
	require.NoError(t, err)
	f, q := r.Branches[floor].Mass, temperature.Branches
	assert.InEpsilon(t, f, r.Branches[hot].Mass+r.Branches[back].Mass, 1e-9)
	assert.InEpsilon(t, 5000, f*p.SpecificHeat*(q[floor].In-q[floor].Out), 1e-9)
	assert.InEpsilon(t, -5000, q[store].Power, 1e-9)
	assert.InEpsilon(t, (50*r.Branches[hot].Mass+q[floor].Out*r.Branches[back].Mass)/f, q[floor].In, 1e-9)
	assert.InDelta(t, 50, temperature.Nodes[buffer], 1e-9)

	// A loop that gives off heat without a source never comes to rest.
	_, err = n.Temperatures(r, 20, []network.Heat{{Branch: floor, Exchange: network.GivesOff, Power: 5000}})
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	// With the surroundings it does: heat in is heat out.
	temperature, err = n.Temperatures(r, 20, []network.Heat{
		{Branch: store, Exchange: network.GivesOff, Power: -5000},
		{Branch: floor, Exchange: network.LosesTo, Temperature: 20, Conductance: 300}})
	require.NoError(t, err)
	assert.InEpsilon(t, 5000, temperature.Branches[floor].Power, 1e-6)
}

// Hydraulic separation: what the secondary circuit takes beyond the primary
// flow runs back through the separator and mixes.
func TestSeparation(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 40)}
	top := n.AddNode(network.Node{Fixed: true, Pressure: 1e5})
	bottom := n.AddNode(network.Node{})
	separator := n.AddBranch(network.Branch{From: top, To: bottom, Elements: device(60)})
	primary := n.AddBranch(network.Branch{From: bottom, To: top, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: 0.6}, network.Device{Kv: 2}}})
	secondary := n.AddBranch(network.Branch{From: top, To: bottom, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: 1}, network.Device{Kv: 4}}})
	r, err := n.Solve()
	require.NoError(t, err)
	assert.Negative(t, r.Branches[separator].Flow)
	assert.InDelta(t, r.Branches[primary].Mass, r.Branches[secondary].Mass+r.Branches[separator].Mass, 1e-9)
	temperature, err := n.Temperatures(r, 20, []network.Heat{
		{Branch: primary, Exchange: network.Delivers, Temperature: 45},
		{Branch: secondary, Exchange: network.GivesOff, Power: 6000}})
	require.NoError(t, err)
	m := r.Branches
	assert.InEpsilon(t, (45*m[primary].Mass-temperature.Branches[secondary].Out*m[separator].Mass)/m[secondary].Mass, temperature.Branches[secondary].In, 1e-9)
}

// Gravity alone moves a boiler and a radiator; heat, flow and temperatures
// settle together.
func TestWarm(t *testing.T) {
	hot, cool := liquid(t, 70), liquid(t, 50)
	n := network.Network{Liquid: cool}
	boilerIn := n.AddNode(network.Node{Fixed: true, Pressure: 1e5})
	boilerOut := n.AddNode(network.Node{Height: 0.5})
	radiatorIn, radiatorOut := n.AddNode(network.Node{Height: 4.5}), n.AddNode(network.Node{Height: 4})
	tube := []network.Element{network.Run{Bore: 0.027, Roughness: 4.5e-5, Length: 10, Zeta: 4}}
	boiler := n.AddBranch(network.Branch{From: boilerIn, To: boilerOut, Elements: device(6)})
	n.AddBranch(network.Branch{From: boilerOut, To: radiatorIn, Liquid: hot, Elements: tube})
	radiator := n.AddBranch(network.Branch{From: radiatorIn, To: radiatorOut, Elements: device(6)})
	n.AddBranch(network.Branch{From: radiatorOut, To: boilerIn, Elements: tube})
	solved, r, temperature, err := n.Warm(fluid.Water(), 50, []network.Heat{
		{Branch: boiler, Exchange: network.Delivers, Temperature: 75},
		{Branch: radiator, Exchange: network.LosesTo, Temperature: 20, Conductance: 60}})
	require.NoError(t, err)
	holds(t, solved, r)
	p := temperature.Branches[radiator]
	assert.InEpsilon(t, 75, p.In, 1e-9)
	assert.Less(t, p.Out, 70.0)
	assert.InEpsilon(t, -p.Power, temperature.Branches[boiler].Power, 1e-6)
	assert.InDelta(t, (p.In+p.Out)/2, solved.Branches[radiator].Liquid.Temperature, 1e-3)
}

func TestClearErrors(t *testing.T) {
	p := liquid(t, 20)
	pump := network.Pump{Curve: smallPump, Speed: 1}
	for name, c := range map[string]struct {
		nodes    []network.Node
		branches []network.Branch
		is       error
		says     string
	}{
		"nothing at all": {nil, nil, hydronics.ErrRange, "0 nodes"},
		"no given pressure": {[]network.Node{{Name: "a"}, {}}, []network.Branch{{From: 0, To: 1, Elements: device(1)}},
			hydronics.ErrNoSolution, "node 0 (a): no branch leads"},
		"disconnected": {[]network.Node{{Fixed: true}, {}, {Name: "lost"}, {}},
			[]network.Branch{{From: 0, To: 1, Elements: device(1)}, {From: 2, To: 3, Elements: device(1)}},
			hydronics.ErrNoSolution, "node 2 (lost)"},
		"nothing moves": {[]network.Node{{Fixed: true}, {}}, []network.Branch{{From: 0, To: 1, Elements: device(1)}, {From: 1, To: 0, Elements: device(1)}},
			hydronics.ErrNoSolution, "nothing moves the liquid"},
		"one-way against the pump": {[]network.Node{{Fixed: true}, {}, {}},
			[]network.Branch{{Name: "p", From: 0, To: 1, Elements: append(device(3), pump)},
				{From: 2, To: 1, Elements: []network.Element{network.NonReturn{Kv: 2}}}, {From: 2, To: 0, Elements: device(3)}},
			hydronics.ErrNoSolution, "branch 0 (p): one-way elements conflict"},
		"inflow without a way out": {[]network.Node{{Fixed: true}, {Name: "tap", Inflow: 0.1}},
			[]network.Branch{{From: 0, To: 1, Elements: []network.Element{network.NonReturn{Kv: 2}}}},
			hydronics.ErrNoSolution, "no way out"},
		"beyond the curve": {[]network.Node{{Fixed: true}, {}},
			[]network.Branch{{From: 0, To: 1, Elements: append(device(90), pump)}, {From: 1, To: 0, Elements: device(90)}},
			hydronics.ErrRange, "beyond the end of its curve"},
		"driven backwards": {[]network.Node{{Fixed: true, Pressure: 0}, {Fixed: true, Pressure: 2e5}},
			[]network.Branch{{From: 0, To: 1, Elements: append(device(3), pump)}},
			hydronics.ErrRange, "driven backwards"},
		"no resistance": {[]network.Node{{Fixed: true}, {}}, []network.Branch{{Name: "bare", From: 0, To: 1}},
			hydronics.ErrRange, "branch 0 (bare): nothing in it resists"},
		"nil element": {[]network.Node{{Fixed: true}, {}}, []network.Branch{{From: 0, To: 1, Elements: []network.Element{nil}}},
			hydronics.ErrRange, "nil"},
		"same node": {[]network.Node{{Fixed: true}, {}}, []network.Branch{{From: 1, To: 1, Elements: device(1)}},
			hydronics.ErrRange, "two different ones"},
		"rising curve": {[]network.Node{{Fixed: true}, {}}, []network.Branch{{From: 0, To: 1, Elements: []network.Element{
			network.Pump{Speed: 1, Curve: []network.PumpPoint{{Head: 4}, {Flow: 1e-3, Head: 5}, {Flow: 2e-3, Head: 1}}}, network.Device{Kv: 2}}}},
			hydronics.ErrRange, "point 1 of the pump's curve"},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := network.Network{Liquid: p, Nodes: c.nodes, Branches: c.branches}.Solve()
			require.ErrorIs(t, err, c.is)
			assert.ErrorContains(t, err, c.says)
			assert.Nil(t, s)
		})
	}
}

// A bypass that keeps its set pressure at every flow, beside a pump that keeps a
// constant pressure: nothing in either resists.
func TestFlatLaws(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 30)}
	in, out := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{})
	pump := n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{network.Pump{Curve: smallPump, Speed: 1}, network.Device{Kv: 6}}})
	bypass := n.AddBranch(network.Branch{From: out, To: in, Elements: []network.Element{network.Bypass{Set: 2e4, Kvs: 10}}})
	zone := n.AddBranch(network.Branch{From: out, To: in, Elements: device(1)})
	s, err := n.Solve()
	require.NoError(t, err)
	assert.InEpsilon(t, 2e4, s.Branches[bypass].Loss, 1e-9)
	holds(t, n, s)
	kv := pipe.Kv(1)
	q, err := kv.Flow(2e4, n.Liquid.Density)
	require.NoError(t, err)
	assert.InEpsilon(t, q, s.Branches[zone].Flow, 1e-9)
	state, err := s.Pump(pump)
	require.NoError(t, err)
	assert.InEpsilon(t, s.Branches[bypass].Flow+q, state.Flow, 1e-9)
}

// Of two pumps in parallel the weaker one is held shut by its non-return valve;
// alone it delivers.
func TestPumpsInParallel(t *testing.T) {
	n := network.Network{Liquid: liquid(t, 40)}
	in, out := n.AddNode(network.Node{Fixed: true, Pressure: 1e5}), n.AddNode(network.Node{})
	guarded := func(speed float64) int {
		return n.AddBranch(network.Branch{From: in, To: out, Elements: []network.Element{
			network.Pump{Curve: smallPump, Speed: speed}, network.NonReturn{Kv: 8}}})
	}
	strong, weak := guarded(1), guarded(0.5)
	n.AddBranch(network.Branch{From: out, To: in, Elements: device(1.5)})
	s, err := n.Solve()
	require.NoError(t, err)
	holds(t, n, s)
	assert.True(t, s.Branches[weak].Closed)
	assert.Zero(t, s.Branches[weak].Flow)
	assert.Positive(t, s.Branches[strong].Flow)
	n.Branches[strong].Shut = true
	s, err = n.Solve()
	require.NoError(t, err)
	assert.Positive(t, s.Branches[weak].Flow)
	// Two equal pumps share the flow.
	n.Branches[strong].Shut = false
	n.Branches[weak].Elements = n.Branches[strong].Elements
	s, err = n.Solve()
	require.NoError(t, err)
	assert.InEpsilon(t, s.Branches[strong].Flow, s.Branches[weak].Flow, 1e-9)
}

// A diverting valve sends the whole flow through one port or the other.
func TestDiverting(t *testing.T) {
	at := func(position float64) (cylinder, heating float64) {
		n := network.Network{Liquid: liquid(t, 50)}
		in, common, ret := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{}), n.AddNode(network.Node{})
		valve := network.ThreePort{Kvs: 6, Rangeability: 50, Position: position}
		n.AddBranch(network.Branch{From: in, To: common, Elements: []network.Element{network.Device{Kv: 6}, network.Pump{Curve: smallPump, Speed: 1}}})
		a := n.AddBranch(network.Branch{From: common, To: ret, Elements: []network.Element{valve.A(), network.Device{Kv: 3}}})
		b := n.AddBranch(network.Branch{From: common, To: ret, Elements: []network.Element{valve.B(), network.Device{Kv: 3}}})
		n.AddBranch(network.Branch{From: ret, To: in, Elements: device(20)})
		s, err := n.Solve()
		require.NoError(t, err)
		return s.Branches[a].Flow, s.Branches[b].Flow
	}
	cylinder, heating := at(1)
	assert.Positive(t, cylinder)
	assert.Zero(t, heating)
	other, same := at(0)
	assert.Zero(t, other)
	assert.InEpsilon(t, cylinder, same, 1e-12)
	half, otherHalf := at(0.5)
	assert.InEpsilon(t, half, otherHalf, 1e-9)
}

func TestThermostatic(t *testing.T) {
	v := network.Thermostatic{Kv2: 0.4, Kvs: 0.7, Closing: 22}
	for room, want := range map[float64]pipe.Kv{23: 0, 22: 0, 21: 0.2, 20: 0.4, 19: 0.6, 15: 0.7} {
		v.Room = room
		kv, err := v.Kv()
		require.NoError(t, err)
		assert.InDelta(t, float64(want), float64(kv), 1e-12)
	}
}

func TestSolveAllocatesOnlyItsResult(t *testing.T) {
	s, err := twoPipe(t, 100).Prepare()
	require.NoError(t, err)
	assert.LessOrEqual(t, testing.AllocsPerRun(10, func() {
		if _, err := s.Solve(); err != nil {
			t.Fatal(err)
		}
	}), 5.0)
}

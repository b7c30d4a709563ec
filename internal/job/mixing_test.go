package job

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

const mixedHouse = "jobs/mixed-floor-radiators.json"

// The hot part of mixed water after UFC 3-420-01, Plumbing Systems (US Department of
// Defense, 2004), clause 506.1.3, with equal density and specific heat: 2.5 of 110 °F
// are 1.667, 1.75 and 1.25 of 140 °F, the rest having 50, 40 and 80 °F.
func TestMixingShare(t *testing.T) {
	celsius := func(f float64) float64 { return (f - 32) / 1.8 }
	for _, c := range []struct{ rest, hot float64 }{{50, 1.667}, {40, 1.75}, {80, 1.25}} {
		j := load(t, mixedHouse)
		j.Unit.Supply = celsius(140)
		j.Distribution.Mixing[0].Supply = celsius(110)
		for i := range j.Distribution.Circuits {
			if j.Distribution.Circuits[i].MixedBy != "" {
				j.Distribution.Circuits[i].Return = celsius(c.rest)
			}
		}
		m := sheetOf(t, j).Mixed[0]
		assert.InDelta(t, c.hot/2.5, m.Share, 0.0005/2.5+1e-3, "of printed digits, and of specific heats that differ by up to 0.1 %%")
	}
}

// The groups by hand: 3430 W between 45 and 30 °C, water of 37.5 °C having 993.2 kg/m³
// and 4179 J/(kg K) (between the values that the hand calculation takes from tables);
// Kv is defined at 1 bar, 1000 kg/m³ (IEC 60534).
func TestMixingGroupByHand(t *testing.T) {
	j := load(t, mixedHouse)
	s := sheetOf(t, j)
	require.Len(t, s.Mixed, 1)
	m := &s.Mixed[0]
	assert.InEpsilon(t, 3430/(993.2*4179*15), m.Drawn, 5e-4)
	flow := 3430 / (994.9 * 4179 * 5) // at 32.5 °C
	assert.InEpsilon(t, flow, m.Flow, 5e-4)
	assert.InEpsilon(t, 1e5*square(3600*flow/2.5)*0.9941, m.Valve, 2e-3)
	assert.InDelta(t, m.Valve+1500+m.Worst, m.Required, 1e-9)
	// 44 kPa at 10 l/min and 52 at 0.
	assert.InEpsilon(t, 52e3-8e3*flow/(10e-3/60), float64(m.Available), 1e-3)
	assert.InEpsilon(t, m.Required+3e3, float64(m.Kept), 1e-9)
	assert.InEpsilon(t, m.Valve/(m.Valve+float64(m.Difference)), float64(m.Authority), 1e-9)

	// What comes back to the unit: the floors' 30 °C and the radiators' 37 °C, in the
	// proportion of what they draw.
	radiators := 3850 / (991.6 * 4179 * 8) // at 41 °C
	assert.InDelta(t, (30*m.Drawn+37*radiators)/(m.Drawn+radiators), s.Return, 0.01)
	assert.InEpsilon(t, m.Drawn+radiators, s.Modes[0].Flow, 1e-3)
	assert.Equal(t, hydronics.Met, verdict(t, s, "the unit's supply is at least as warm as what the mixing valve has to give"))
}

// The whole group as a network with a valve of three ports: at the position at which
// it gives the temperature that was asked for, it draws the share that was calculated.
// The circuits have at least their flow: from the distributor's pressure the group gets
// some more. The authority between the valve's ends is no worse than the sheet's, and
// the same where no pressure stands across the group.
func TestMixingGroupAsANetwork(t *testing.T) {
	for name, parted := range map[string]bool{"at the distributor": false, "at a buffer": true} {
		t.Run(name, func(t *testing.T) {
			j := load(t, mixedHouse)
			if parted {
				j.Buffer = housedBuffer()
			}
			s := sheetOf(t, j)
			line := &s.Mixed[0]
			p, err := resolve(j)
			require.NoError(t, err)
			m := &p.mixtures[0]
			solve := func(position float64) (network.Network, *network.Solution) {
				n := ringOf(t, s, m, position)
				r, err := n.Solve()
				require.NoError(t, err)
				return n, r
			}
			mass := 0.0
			for _, l := range m.loops {
				mass += l.flow * l.liquid.Density
			}
			// Each circuit cools its flow to its return.
			temperature := func(position float64) float64 {
				n, r := solve(position)
				heats := []network.Heat{{Branch: 0, Exchange: network.Delivers, Temperature: j.Unit.Supply}}
				for i, l := range m.loops {
					heats = append(heats, network.Heat{Branch: 4 + i, Exchange: network.Delivers, Temperature: l.circuit.Return})
				}
				found, err := n.Temperatures(r, j.Unit.Supply, heats)
				require.NoError(t, err)
				return found.Nodes[2]
			}
			low, high := 0.02, 1.0
			for range 50 {
				middle := (low + high) / 2
				if temperature(middle) < line.Supply {
					low = middle
				} else {
					high = middle
				}
			}
			_, r := solve(low)
			assert.InDelta(t, line.Share, r.Branches[0].Mass/r.Branches[2].Mass, 0.002)
			more := r.Branches[2].Mass / mass
			assert.Greater(t, more, 0.999)
			assert.Less(t, more, 1.04)

			_, open := solve(1)
			_, shut := solve(0)
			a := open.Branches[0].Difference / shut.Branches[0].Difference
			assert.GreaterOrEqual(t, a, float64(line.Authority)-0.01)
			if parted {
				assert.InDelta(t, 1, float64(line.Authority), 1e-9)
				assert.InDelta(t, 1, a, 0.03)
			}
		})
	}
}

// ringOf is the group with both ways of its valve, between supply and return.
func ringOf(t *testing.T, s *Sheet, m *mixture, position float64) network.Network {
	t.Helper()
	line := &s.Mixed[0]
	valve := network.ThreePort{Kvs: pipe.Kv(m.group.Kv), Characteristic: network.Linear, Rangeability: 1000, Position: position}
	pump := network.Pump{Speed: 1, Control: network.ConstantPressure, Set: float64(line.Kept)}
	for _, x := range m.group.Pump {
		pump.Curve = append(pump.Curve, network.PumpPoint{Flow: x.Flow, Head: x.Head / (m.liquid.Density * hydronics.StandardGravity)})
	}
	others, err := pipe.KvFor(m.flow, m.group.Loss, m.liquid.Density)
	require.NoError(t, err)
	hot, err := fluid.Water().At(s.Supply)
	require.NoError(t, err)
	cold, err := fluid.Water().At(m.ret)
	require.NoError(t, err)
	n := network.Network{Liquid: m.liquid, Nodes: []network.Node{
		{Name: "return", Fixed: true, Pressure: hydronics.Bar}, {Name: "supply", Fixed: true, Pressure: hydronics.Bar + hydronics.Gauge(line.Difference)},
		{Name: "mixed"}, {Name: "out"}, {Name: "back"}},
		Branches: []network.Branch{
			{Name: "hot", From: 1, To: 2, Liquid: hot, Elements: []network.Element{valve.A()}},
			{Name: "cold", From: 4, To: 2, Liquid: cold, Elements: []network.Element{valve.B()}},
			{Name: "circulator", From: 2, To: 3, Elements: []network.Element{network.Device{Kv: others}, pump}},
			{Name: "to the return", From: 4, To: 0, Liquid: cold, Elements: []network.Element{network.Device{Kv: openWay}}},
		}}
	for _, l := range m.loops {
		for _, x := range s.Presets {
			if x.Circuit == l.circuit.Name {
				n.Branches = append(n.Branches, network.Branch{Name: x.Circuit, From: 3, To: 4, Liquid: l.liquid, Elements: []network.Element{network.Run(l.run()), network.Device{Kv: pipe.Kv(x.Kv)}}})
			}
		}
	}
	require.Len(t, n.Branches, 4+len(m.loops))
	return n
}

// housedBuffer is a buffer between unit and house.
func housedBuffer() *Buffer {
	return &Buffer{Content: 0.2, Joined: between, Flow: 12 * hydronics.LitrePerMinute,
		Pump: []PumpPoint{{0, 40e3}, {10 * hydronics.LitrePerMinute, 30e3}, {30 * hydronics.LitrePerMinute, 10e3}}}
}

// Behind a buffer the groups draw with their circulators, the house's drives the rest;
// with every circuit behind a mixing valve it has nothing to drive.
func TestMixingBesideABuffer(t *testing.T) {
	const draws = "the unit's flow into the buffer is at least what the circuits draw from it"
	j := load(t, mixedHouse)
	direct := sheetOf(t, j)
	j.Buffer = housedBuffer()
	s := sheetOf(t, j)
	require.Len(t, s.Modes, 3)
	assert.InDelta(t, direct.Modes[0].Flow-direct.Mixed[0].Drawn, s.Modes[1].Flow, 1e-12)
	assert.InDelta(t, direct.Mixed[0].Drawn, s.Mixed[0].Drawn, 1e-15)
	assert.Equal(t, hydronics.MetUnconfirmed, verdict(t, s, draws))

	j.Buffer.Flow = 10 * hydronics.LitrePerMinute // of 10.3
	s = sheetOf(t, j)
	require.Equal(t, hydronics.NotMet, verdict(t, s, draws))
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Zero(t, after.Count(hydronics.NotMet))
	assert.InDelta(t, 11*hydronics.LitrePerMinute, cured.Buffer.Flow, 1e-12)

	j = load(t, mixedHouse)
	j.Buffer = housedBuffer()
	j.Buffer.Pump = nil
	_, err := Assess(j)
	assert.ErrorContains(t, err, "buffer.house_pump_curve")
	var floors []Circuit
	for _, c := range j.Distribution.Circuits {
		if c.MixedBy != "" {
			floors = append(floors, c)
		}
	}
	j.Distribution.Circuits = floors
	s = sheetOf(t, j)
	assert.Len(t, s.Modes, 2, "heating and hot water")
	assert.Len(t, s.Presets, len(floors))

	j.Buffer = nil // without a buffer the unit's circulator only passes what is drawn
	s = sheetOf(t, j)
	assert.Zero(t, s.Modes[0].Worst)
	assert.InDelta(t, s.Mixed[0].Drawn, s.Modes[0].Flow, 1e-15)
	assert.Greater(t, float64(s.Mixed[0].Difference), 2.9e3, "what a valve keeps at least")
}

// Content is counted once, and what a mixing valve can shut away never counts as
// always circulating.
func TestMixedContent(t *testing.T) {
	j := load(t, mixedHouse)
	s := sheetOf(t, j)
	lines := 0.0
	for i := range s.Circuits {
		lines += s.Circuits[i].Content
	}
	c := &s.Content
	assert.InDelta(t, lines, c.Circuits, 1e-12)
	assert.InDelta(t, 1.8e-3, c.Mixing, 1e-12)
	assert.InDelta(t, c.Unit+c.Tubes+c.Circuits+c.Mixing+c.Distributor+c.Coil+c.Buffer, c.Total, 1e-12)
	for i := range j.Distribution.Circuits {
		if j.Distribution.Circuits[i].MixedBy != "" {
			j.Distribution.Circuits[i].Shuts = false
		}
	}
	assert.InDelta(t, c.Always, sheetOf(t, j).Content.Always, 1e-12)
}

// Each fault of a mixing group is found by its own rule and has the right remedy.
func TestRemediesOfMixing(t *testing.T) {
	for name, c := range map[string]struct {
		slip  func(*Job, *MixingGroup)
		rule  string
		cured func(*testing.T, *Job, *MixingGroup)
	}{
		"unit too cold": {func(j *Job, g *MixingGroup) {
			g.Supply, g.Highest, g.Limiter = 46.5, 55, 55
			j.Unit.LeastFlow *= 0.7 // a warmer supply needs less flow
		},
			"the unit's supply is at least as warm as what the mixing valve has to give",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.InDelta(t, 47, j.Unit.Supply, 0) }},
		"circulator too weak": {func(j *Job, g *MixingGroup) {
			for i := range g.Pump {
				g.Pump[i].Head *= 0.3
			}
		}, "the circulator of the mixing group overcomes the losses at its design flow",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.Greater(t, headAt(g.Pump, 1.65e-4), 24e3) }},
		"circulator too small for the flow": {func(j *Job, g *MixingGroup) {
			for i := range g.Pump {
				g.Pump[i].Flow *= 0.2
			}
		}, "the circulator of the mixing group overcomes the losses at its design flow",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.Greater(t, headAt(g.Pump, 1.65e-4), 24e3) }},
		"valve too large": {func(j *Job, g *MixingGroup) { g.Kv = 6.3 }, "the mixing valve rules its flow",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.InDelta(t, 2.5, g.Kv, 0, "the largest that does") }},
		"no limiter": {func(j *Job, g *MixingGroup) { g.Limiter = math.NaN() },
			"a limiter that depends on no controller stops the supply of the floors when it gets too hot",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.InDelta(t, 40, g.Limiter, 0) }},
		"limiter too high": {func(j *Job, g *MixingGroup) { g.Limiter = 55 },
			"the limiter of the floors is set to no more than screed and covering stand",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.LessOrEqual(t, g.Limiter, g.Highest) }},
		"no bypass": {func(j *Job, g *MixingGroup) { j.Bypass = nil },
			"the unit keeps its least flow whatever circuits are shut",
			func(t *testing.T, j *Job, g *MixingGroup) { assert.NotNil(t, j.Bypass) }},
	} {
		t.Run(name, func(t *testing.T) {
			j := load(t, mixedHouse)
			require.Zero(t, sheetOf(t, j).Count(hydronics.NotMet))
			c.slip(j, &j.Distribution.Mixing[0])
			s := sheetOf(t, j)
			require.Equal(t, hydronics.NotMet, verdict(t, s, c.rule))
			cured, after := Remedies(j, s)
			require.NotNil(t, cured)
			assert.Zero(t, after.Count(hydronics.NotMet))
			c.cured(t, cured, &cured.Distribution.Mixing[0])
		})
	}
}

// A floor that stands less than its supply has no remedy within the calculation: what
// it gives at a lower one is not known here. A limiter is never set higher.
func TestNoRemedyForAHotFloor(t *testing.T) {
	for rule, slip := range map[string]func(*MixingGroup){
		"the supply of the floors is no hotter than screed and covering stand": func(g *MixingGroup) { g.Highest, g.Limiter = 34, 34 },
		"the limiter of the floors lets the design supply pass":                func(g *MixingGroup) { g.Limiter = 34 },
	} {
		j := load(t, mixedHouse)
		slip(&j.Distribution.Mixing[0])
		s := sheetOf(t, j)
		require.Equal(t, hydronics.NotMet, verdict(t, s, rule))
		Remedies(j, s)
		for i := range s.Findings {
			if f := &s.Findings[i]; f.Rule == rule {
				assert.True(t, f.Remedy.None)
			}
		}
	}
	j := load(t, mixedHouse)
	c := clone(j)
	c.Distribution.Mixing[0].Limiter++
	assert.False(t, keepsProtection(j, c))
	c.Distribution.Mixing[0].Limiter = math.NaN()
	assert.False(t, keepsProtection(j, c))
}

// What cannot be placed is refused with its path.
func TestMixingRefuses(t *testing.T) {
	for path, change := range map[string]func(*Job){
		"distribution.circuits[0].mixed_by":               func(j *Job) { j.Distribution.Circuits[0].MixedBy = "roof" },
		"distribution.circuits[0].return_c":               func(j *Job) { j.Distribution.Circuits[0].Return = 34.5 },
		"distribution.mixing_groups[1] holds no circuit":  func(j *Job) { j.Distribution.Mixing = append(j.Distribution.Mixing, groupOf(j, "roof")) },
		"distribution.mixing_groups[1].name":              func(j *Job) { j.Distribution.Mixing = append(j.Distribution.Mixing, groupOf(j, "floors")) },
		"distribution.mixing_groups[0].pump_curve":        func(j *Job) { j.Distribution.Mixing[0].Pump = nil },
		"at least 1 K below supply_c of its mixing group": func(j *Job) { j.Distribution.Mixing[0].Supply = 30 },
	} {
		j := load(t, mixedHouse)
		change(j)
		_, err := Assess(j)
		assert.ErrorContains(t, err, path)
	}
}

func groupOf(j *Job, name string) MixingGroup {
	g := j.Distribution.Mixing[0]
	g.Name = name
	return g
}

// The system curves of the drawing run through the design.
func TestDrawnCurvesMeetTheDesign(t *testing.T) {
	for name, j := range installations(t) {
		p, err := resolve(j)
		require.NoError(t, err, name)
		s := &Sheet{}
		require.NoError(t, p.judgePrimary(s), name)
		for i := range s.Modes {
			required, err := p.required(&s.Modes[i], s.Modes[i].Flow)
			require.NoError(t, err, name)
			assert.InDelta(t, s.Modes[i].Required, required, 1e-6, "%s %s", name, s.Modes[i].Name)
		}
	}
	j := load(t, mixedHouse)
	curve := &j.Distribution.Mixing[0].Pump
	(*curve)[3].Flow = 4 * sheetOf(t, j).Mixed[0].Flow // so that the design is the 10th point of 40
	s := sheetOf(t, j)
	d, err := Draw(j, s)
	require.NoError(t, err)
	require.Len(t, d.Mixed, 1)
	assert.InDelta(t, s.Mixed[0].Required, d.Mixed[0].System.Points[10].Y, 1e-6)
	assert.InDelta(t, s.Mixed[0].Flow, d.Mixed[0].System.Points[10].X, 1e-12)
}

// First law over the whole house, whatever the temperatures: what the unit's flow
// carries from the supply to the mixed return is the heat of all circuits, and no
// valve draws more than flows.
func TestHeatOfTheWholeHouse(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	j := load(t, mixedHouse)
	for range 200 {
		g := &j.Distribution.Mixing[0]
		j.Unit.Supply = 30 + 40*random.Float64()
		g.Supply = 25 + (j.Unit.Supply-25)*random.Float64()
		for i := range j.Distribution.Circuits {
			c := &j.Distribution.Circuits[i]
			supply := j.Unit.Supply
			if c.MixedBy != "" {
				supply = g.Supply
			}
			c.Return = supply - 1.1 - 8*random.Float64()
			c.Heat = 100 + 1500*random.Float64()
		}
		p, err := resolve(j)
		require.NoError(t, err)
		mean, err := p.liquid.At((j.Unit.Supply + p.ret) / 2)
		require.NoError(t, err)
		carried := mean.HeatCapacityRate(p.heatingFlow) * (j.Unit.Supply - p.ret)
		assert.InEpsilon(t, p.heat, carried, 0.01)
		m := &p.mixtures[0]
		assert.Greater(t, m.share, 0.0)
		assert.LessOrEqual(t, m.share, 1.001)
		assert.InDelta(t, (g.Supply-m.ret)/(j.Unit.Supply-m.ret), m.share, 0.002, "of equal specific heats")
	}
}

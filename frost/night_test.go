package frost_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// outdoors is 6 m of tube: down the wall to a low point with a drain, away from
// it rising 1 in 50, and up to the unit, where air can enter.
func outdoors() frost.Reach {
	return frost.Reach{
		Route: pipe.Route{
			{X: 0, Z: 1.0}, {X: 0.3, Z: 1.0, Outdoors: true}, {X: 0.3, Z: 0.4, Outdoors: true},
			{X: 3.3, Z: 0.46, Outdoors: true}, {X: 3.3, Z: 1.2, Outdoors: true},
		},
		Bore: 0.025, Roughness: 1.5e-6,
		Drains: []frost.Drain{{Point: 2, Kv: 1}},
		Vents:  []int{1, 4},
	}
}

func night() frost.Night {
	return frost.Night{
		Section: foamed(), Medium: frost.Water(), Start: 30, Weather: []frost.Air{{Temperature: -15}},
		Setting: frost.CommonSetting(), Reach: outdoors(), Stroke: 60,
	}
}

// What leaves, stays and is held adds up to the content.
func TestReachKeepsItsVolume(t *testing.T) {
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	r := outdoors()
	d, err := r.Empty(water)
	require.NoError(t, err)
	survey, err := r.Route.Survey()
	require.NoError(t, err)
	assert.InEpsilon(t, survey.Length*math.Pi*0.025*0.025/4, d.Content, 1e-12)
	assert.InEpsilon(t, d.Content, d.Volume+d.Remains, 1e-12)
	assert.Empty(t, d.Pockets)
	require.Len(t, d.Columns, 2)
	last := d.Outflows[len(d.Outflows)-1]
	assert.InEpsilon(t, d.Volume, last.Volume, 1e-6)
	for i := 1; i < len(d.Outflows); i++ {
		assert.Greater(t, d.Outflows[i].Time, d.Outflows[i-1].Time)
		assert.GreaterOrEqual(t, d.Outflows[i].Volume, d.Outflows[i-1].Volume)
	}
	// The stepped outflow integrates to the volume: trapezoids to 3 %, since one column ends before the other.
	sum := 0.0
	for i := 1; i < len(d.Outflows); i++ {
		a, b := d.Outflows[i-1], d.Outflows[i]
		sum += (b.Time - a.Time) * (a.Flow + b.Flow) / 2
	}
	assert.InEpsilon(t, d.Volume, sum, 0.03)
}

// Two equal columns on one valve empty as one column of twice the section would.
func TestTwoColumnsShareAValve(t *testing.T) {
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	r := frost.Reach{Route: pipe.Route{{X: -1, Z: 2}, {X: 0}, {X: 1, Z: 2}}, Bore: 0.05, Drains: []frost.Drain{{Point: 1, Kv: 0.3}}, Vents: []int{0, 2}, Final: 0.01}
	d, err := r.Empty(water)
	require.NoError(t, err)
	area := math.Pi * 0.05 * 0.05 / 4 * math.Sqrt(5) / 2
	want, err := frost.Torricelli(frost.Vessel{Area: 2 * area, Kv: 0.3}, 2, 0.01)
	require.NoError(t, err)
	assert.InEpsilon(t, want, d.Time, 0.01)
	assert.GreaterOrEqual(t, d.Time, want*0.999)
}

func TestWithoutAirNothingLeaves(t *testing.T) {
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	r := outdoors()
	r.Vents = nil
	sealed, err := r.Empty(water)
	require.NoError(t, err)
	assert.Zero(t, sealed.Volume)
	assert.InEpsilon(t, sealed.Content, sealed.Held, 1e-12)
	r.Drains[0].AdmitsAir = true
	bubbling, err := r.Empty(water)
	require.NoError(t, err)
	assert.Positive(t, bubbling.Volume)
	vented, err := outdoors().Empty(water)
	require.NoError(t, err)
	assert.Greater(t, bubbling.Time, vented.Time)
}

// A second valve at the low point behind a crest takes the pocket away; a valve
// half way up runs first and then lets the air in for the one below.
func TestPocketsAndChains(t *testing.T) {
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	r := outdoors()
	r.Route = append(r.Route, pipe.Point{X: 4, Z: 1.0, Outdoors: true}, pipe.Point{X: 4.5, Z: 1.3})
	d, err := r.Empty(water)
	require.NoError(t, err)
	assert.Positive(t, d.Trapped)
	r.Drains = append(r.Drains, frost.Drain{Point: 5, Kv: 1})
	r.Vents = append(r.Vents, 6)
	d, err = r.Empty(water)
	require.NoError(t, err)
	assert.Zero(t, d.Trapped)

	slope := frost.Reach{Route: pipe.Route{{}, {X: 2, Z: 1}, {X: 4, Z: 2}}, Bore: 0.02, Vents: []int{2},
		Drains: []frost.Drain{{Point: 0, Kv: 1}, {Point: 1, Kv: 1}}}
	d, err = slope.Empty(water)
	require.NoError(t, err)
	require.Len(t, d.Columns, 2)
	assert.Equal(t, frost.FromAbove, d.Columns[0].Admission)
	assert.InDelta(t, d.Columns[1].Time, d.Columns[0].Start, 1e-9)
	assert.Greater(t, d.Columns[0].Time, d.Columns[1].Time)
}

func TestNight(t *testing.T) {
	n := night()
	o, err := n.Run()
	require.NoError(t, err)
	assert.False(t, o.NoIce)
	assert.InDelta(t, o.EarliestIce.Seconds-o.LatestOpening.Seconds-o.Emptying, o.Margin, 1e-9)
	assert.Equal(t, frost.PowerFails, o.Events[0].What)
	for i := 1; i < len(o.Events); i++ {
		assert.LessOrEqual(t, o.Events[i-1].Time, o.Events[i].Time)
	}
	// Each term lies on its own side of the plain closed forms and of the mixed water.
	l, err := n.Section.Lump(n.Medium, n.Start, n.Weather[0])
	require.NoError(t, err)
	plain, err := l.CoolingTime(n.Start, 2, -15)
	require.NoError(t, err)
	assert.Greater(t, o.LatestOpening.Seconds, plain.Seconds)
	assert.LessOrEqual(t, o.EarliestIce.Seconds, o.Mixed.FirstIce.Seconds)
	assert.LessOrEqual(t, o.EarliestIce.Seconds, o.Conducting.FirstIce.Seconds)
	thick := n
	thick.Section.Layers = append([]frost.Layer(nil), n.Section.Layers...)
	thick.Section.Layers[1].Thickness *= 2
	w, err := thick.Run()
	require.NoError(t, err)
	assert.Greater(t, w.Margin, o.Margin, "more insulation leaves more time")

	better := n
	better.Setting.Lift = 1
	b, err := better.Run()
	require.NoError(t, err)
	assert.Greater(t, b.Margin, o.Margin, "full lift")
	colder := n
	colder.Weather = []frost.Air{{Temperature: -25}}
	c, err := colder.Run()
	require.NoError(t, err)
	assert.Less(t, c.Margin, o.Margin)
	bare := n
	bare.Fittings = []frost.Section{{Bore: 0.025, Layers: []frost.Layer{{Thickness: 0.003, Conductivity: 100, HeatCapacity: 3.3e6}}, Surface: frost.InTheOpen()}}
	f, err := bare.Run()
	require.NoError(t, err)
	assert.Equal(t, 0, f.Fitting)
	assert.Negative(t, f.Margin, "a bare fitting freezes before the insulated tube has cooled to the setting")
	remedies, err := bare.Remedies()
	require.NoError(t, err)
	best := remedies[0]
	for _, r := range remedies {
		if r.Outcome.Margin > best.Outcome.Margin {
			best = r
		}
	}
	assert.Equal(t, "fittings insulated as the tube", best.Change)
}

func TestNightThatEndsOrIsMild(t *testing.T) {
	n := night()
	n.Cut = hydronics.Hour
	o, err := n.Run()
	require.NoError(t, err)
	assert.True(t, o.NoIce)
	assert.True(t, o.Kept())
	assert.Greater(t, o.Coldest, 0.0)
	n.Cut = 0
	n.Weather = []frost.Air{{Temperature: 1}}
	o, err = n.Run()
	require.NoError(t, err)
	assert.True(t, o.NoIce)
	n = night()
	n.Reach.Drains = nil
	o, err = n.Run()
	require.NoError(t, err)
	assert.True(t, o.Unopened)
	assert.False(t, o.Kept())
}

// Several nights at once come out as each by itself, whether they share their cold
// with one before or not.
func TestNightsTogether(t *testing.T) {
	bare := foamed()
	bare.Layers = bare.Layers[:1]
	var nights []frost.Night
	for _, change := range []func(*frost.Night){
		func(*frost.Night) {},
		func(n *frost.Night) { n.Reach.Drains[0].Kv = 0.2 }, // the same cold as the first, but a slower valve
		func(n *frost.Night) { n.Stroke = 1200 },
		func(n *frost.Night) { n.Reach.Drains = nil },
		func(n *frost.Night) { n.Section = bare },
		func(n *frost.Night) { n.Fittings = []frost.Section{bare} },
		func(n *frost.Night) { n.Start = 31 },
		func(n *frost.Night) { n.Weather[0].Wind = 3 },
		func(n *frost.Night) { n.Weather[0].Temperature = -30 },
		func(n *frost.Night) { n.Cut = hydronics.Hour },
		func(n *frost.Night) { n.Setting.Lag = 0 },
		func(n *frost.Night) { n.Section.Surface.Emissivity = 0.2 },
		func(*frost.Night) {},
	} {
		n := night()
		change(&n)
		nights = append(nights, n)
	}
	doubts := frost.CommonDoubts()
	together, err := frost.Nights(nights, doubts)
	require.NoError(t, err)
	require.Len(t, together, len(nights))
	for i, n := range nights {
		alone := run(t, n)
		found, err := n.Findings(alone, doubts)
		require.NoError(t, err)
		if diff := cmp.Diff(frost.Judged{Outcome: alone, Findings: found}, together[i], cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("night %d: %s", i, diff)
		}
	}
	nights[1].Setting.Lift = 2
	_, err = frost.Nights(nights, doubts)
	require.ErrorContains(t, err, "lift of the drain valve")
	_, err = frost.Nights(nil, frost.Doubts{Kv: 1})
	require.ErrorContains(t, err, "doubt about the drain valves")
}

// A cold snap in a mild series: the cut is worst when the snap finds the water
// already cool; the same weather in the other order says the same hour shifted.
func TestWorstHour(t *testing.T) {
	n := night()
	n.Section.Layers[1].Thickness = 0.009
	n.Cut = 8 * hydronics.Hour
	for range 6 {
		n.Weather = append(n.Weather, frost.Air{Temperature: 4})
	}
	n.Weather = append([]frost.Air{{Temperature: 4}, {Temperature: 4}, {Temperature: 4}}, n.Weather...)
	for i := range 5 {
		n.Weather[3+i] = frost.Air{Temperature: -18}
	}
	hour, worst, err := n.Worst()
	require.NoError(t, err)
	for i := range n.Weather {
		other := n
		other.Weather = n.Weather[i:]
		o, err := other.Run()
		require.NoError(t, err)
		if !o.NoIce && !worst.Unopened {
			assert.GreaterOrEqual(t, o.Margin, worst.Margin-1e-9)
		}
	}
	assert.LessOrEqual(t, hour, 7)
	assert.False(t, worst.NoIce)
}

func verdicts(f []hydronics.Finding) map[string]hydronics.Verdict {
	m := map[string]hydronics.Verdict{}
	for _, x := range f {
		if v, ok := m[x.Rule]; !ok || x.Verdict < v {
			m[x.Rule] = x.Verdict
		}
	}
	return m
}

func TestNightFindings(t *testing.T) {
	n := night()
	o, err := n.Run()
	require.NoError(t, err)
	f, err := n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	v := verdicts(f)
	const out = "the water is out before the first ice"
	require.Positive(t, o.Margin)
	assert.Equal(t, hydronics.MetUnconfirmed, v[out], "the setting is common practice")
	n.Setting.Source = hydronics.Source{Text: "data of the valve", Provenance: hydronics.Original}
	sure, err := n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	assert.Equal(t, hydronics.Met, verdicts(sure)[out])
	doubtful := frost.CommonDoubts()
	doubtful.Air = 15
	unsure, err := n.Findings(o, doubtful)
	require.NoError(t, err)
	assert.Equal(t, hydronics.MetWithinUncertainty, verdicts(unsure)[out])
	assert.Equal(t, hydronics.Met, v["no water stays in pockets"])
	assert.Equal(t, hydronics.SeeOnSite, v["heat exchanger, pump and strainer of the unit drain or are protected by it"])
	// What rests on bubbles alone is never simply met.
	n.Reach.Vents, n.Reach.Drains[0].AdmitsAir = nil, true
	o, err = n.Run()
	require.NoError(t, err)
	f, err = n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	assert.NotEqual(t, hydronics.Met, verdicts(f)[out])
	n.Reach.Drains = nil
	o, err = n.Run()
	require.NoError(t, err)
	f, err = n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, verdicts(f)[out])
	n.Cut = 600
	o, err = n.Run()
	require.NoError(t, err)
	f, err = n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	assert.Equal(t, hydronics.Met, verdicts(f)["no ice forms before the power returns"])
}

// The rules bite one by one. Figures: common practice (frost installation rules).
func TestArrangement(t *testing.T) {
	twin := outdoors()
	twin.Route = append(pipe.Route(nil), twin.Route...)
	for i := range twin.Route {
		twin.Route[i].Y = 0.2
	}
	a := frost.Arrangement{Liquid: fluid.Water(), Reaches: []frost.Reach{outdoors(), twin}, Names: []string{"flow", "return"}}
	judge := func(a frost.Arrangement, r frost.Rules) map[string]hydronics.Verdict {
		t.Helper()
		f, err := a.Findings(r)
		require.NoError(t, err)
		return verdicts(f)
	}
	const (
		height = "the outlet of the drain valve stands clear of ground, snow and ice"
		low    = "a drain valve at the low point"
		pocket = "no pocket outdoors keeps its water"
		apart  = "drain valves keep their distance"
		fall   = "every leg outdoors has a fall"
	)
	v := judge(a, frost.CommonRules())
	assert.Equal(t, hydronics.MetUnconfirmed, v[height])
	assert.Equal(t, hydronics.MetUnconfirmed, v[low])
	assert.Equal(t, hydronics.Met, v[pocket])
	assert.Equal(t, hydronics.MetUnconfirmed, v[apart])
	assert.Equal(t, hydronics.NotMet, v[fall], "the piece through the wall is level")
	deep := frost.CommonRules()
	deep.Snow = 0.4
	assert.Equal(t, hydronics.NotMet, judge(a, deep)[height])
	near := a
	near.Reaches = []frost.Reach{outdoors(), twin}
	near.Reaches[1].Route = append(pipe.Route(nil), twin.Route...)
	for i := range near.Reaches[1].Route {
		near.Reaches[1].Route[i].Y = 0.05
	}
	assert.Equal(t, hydronics.NotMet, judge(near, frost.CommonRules())[apart])
	without := a
	without.Reaches = []frost.Reach{outdoors()}
	without.Reaches[0].Drains = nil
	v = judge(without, frost.CommonRules())
	assert.Equal(t, hydronics.NotMet, v[low])
	assert.Equal(t, hydronics.NotMet, v[pocket])
	glycol, err := fluid.PropyleneGlycol.ByMass(0.3)
	require.NoError(t, err)
	a.Liquid = glycol
	v = judge(a, frost.CommonRules())
	assert.Equal(t, hydronics.NotMet, v["no automatic drain valve in an antifreeze solution"])
	assert.Equal(t, hydronics.SeeOnSite, v["no automatic top-up from the mains"])
	_, err = frost.Arrangement{Reaches: []frost.Reach{outdoors()}}.Findings(frost.CommonRules())
	require.Error(t, err, "the zero liquid")
}

func TestInstead(t *testing.T) {
	n := night()
	n.Cut = 24 * hydronics.Hour
	tube := pipe.Run{Bore: 0.025, Roughness: 1.5e-6, Length: 24}
	a, err := n.Instead(frost.Inquiry{Solute: fluid.PropyleneGlycol, Duty: frost.Duty{Heat: 8000, Supply: 35, Return: 30, Run: tube},
		Length: 12, Layer: 1, Limit: 5, Safety: 1.2})
	require.NoError(t, err)
	assert.LessOrEqual(t, a.Antifreeze.FreezingPoint, -15+1e-6)
	assert.Greater(t, a.Antifreeze.FlowRatio, 1.0)
	assert.Greater(t, a.Antifreeze.PowerRatio, a.Antifreeze.FlowRatio)
	burst, err := frost.BurstProtectionFor(fluid.PropyleneGlycol, -15, frost.Duty{Heat: 8000, Supply: 35, Return: 30, Run: tube})
	require.NoError(t, err)
	assert.Greater(t, burst.FreezingPoint, -15.0, "slush there")
	assert.Less(t, burst.PowerRatio, a.Antifreeze.PowerRatio)
	f, err := n.Section.HeatFlow(5, n.Weather[0])
	require.NoError(t, err)
	assert.InEpsilon(t, f.PerMetre*12*1.2, a.Trace, 1e-9)
	assert.InEpsilon(t, f.PerMetre*12, a.Heat, 1e-9)
	thick := n.Section
	thick.Layers = append([]frost.Layer(nil), thick.Layers...)
	thick.Layers[1].Thickness = a.Insulation
	l, err := thick.Lump(n.Medium, n.Start, n.Weather[0])
	require.NoError(t, err)
	holds, err := l.CoolingTime(n.Start, 0, -15)
	require.NoError(t, err)
	assert.InEpsilon(t, n.Cut, holds.Seconds, 1e-5)
	assert.Positive(t, a.Trickle)
}

func TestThicknessBeyondTheHump(t *testing.T) {
	// A tube of 6 mm in still air: thin insulation raises the loss.
	s := frost.Section{Bore: 0.005, Layers: []frost.Layer{{Thickness: 0.0005, Conductivity: 380}, {Thickness: 0.01, Conductivity: 0.05}}, Surface: frost.Surface{Coefficient: 10}}
	bare, err := frost.Section{Bore: 0.005, Layers: s.Layers[:1], Surface: s.Surface}.HeatFlow(10, frost.Air{Temperature: -10})
	require.NoError(t, err)
	thick, err := s.ThicknessForHeatFlow(1, 10, bare.PerMetre, frost.Air{Temperature: -10})
	require.NoError(t, err)
	assert.Greater(t, thick, 0.003, "the insulation has to be this thick to be as good as none")
	s.Layers[1].Thickness = thick / 2
	hump, err := s.HeatFlow(10, frost.Air{Temperature: -10})
	require.NoError(t, err)
	assert.Greater(t, hump.PerMetre, bare.PerMetre)
	_, err = s.ThicknessForHeatFlow(1, 10, bare.PerMetre/100, frost.Air{Temperature: -10})
	require.ErrorIs(t, err, hydronics.ErrNoSolution)
	cold, err := s.ThicknessForSurface(1, -5, 2, frost.Air{Temperature: 20})
	require.NoError(t, err)
	s.Layers[1].Thickness = cold
	f, err := s.HeatFlow(-5, frost.Air{Temperature: 20})
	require.NoError(t, err)
	assert.InDelta(t, 18, f.Surface, 1e-6)
}

func TestTemperatureAlongATube(t *testing.T) {
	f, err := foamed().HeatFlow(20, frost.Air{Temperature: -15})
	require.NoError(t, err)
	rate, err := f.Trickle(10, 2, 12)
	require.NoError(t, err)
	end, err := f.EndTemperature(10, 12, rate)
	require.NoError(t, err)
	assert.InDelta(t, 2, end, 1e-9)
	half, err := f.EndTemperature(10, 6, rate)
	require.NoError(t, err)
	again, err := f.EndTemperature(half, 6, rate)
	require.NoError(t, err)
	assert.InDelta(t, 2, again, 1e-9)
}

func TestCases(t *testing.T) {
	c, err := outdoors().Cases(3*hydronics.Bar, 0.2)
	require.NoError(t, err)
	require.Len(t, c, 3)
	// Kv 1 passes √3 m³/h at 3 bar, by its definition (IEC 60534), at 999.7 kg/m³.
	assert.InEpsilon(t, math.Sqrt(3)*hydronics.CubicMetrePerHour, c[2].Flow, 1e-3)
	assert.False(t, c[2].Ends)
	assert.InDelta(t, 0.2, c[1].Volume-c[0].Volume, 1e-12)
}

package frost_test

import (
	"math"
	"slices"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The cases in which a tube in danger could pass for a safe one.

func run(t *testing.T, n frost.Night) frost.Outcome {
	t.Helper()
	o, err := n.Run()
	require.NoError(t, err)
	return o
}

// A drain valve in the warm does not open, and a route that is nowhere outdoors
// has none that does. One in the wall, next to the cold, counts.
func TestDrainIndoorsStaysShut(t *testing.T) {
	n := night()
	require.True(t, run(t, n).Kept())
	n.Reach.Route = slices.Clone(n.Reach.Route)
	for i := range n.Reach.Route {
		n.Reach.Route[i].Outdoors = false
	}
	o := run(t, n)
	assert.True(t, o.Unopened)
	assert.False(t, o.Kept())
	f, err := n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	v := verdicts(f)
	assert.Equal(t, hydronics.NotMet, v["the water is out before the first ice"])
	assert.Equal(t, hydronics.NotMet, v["every drain valve stands outdoors, where the cold opens it"])
	n.Reach.Route[1].Outdoors = true
	assert.False(t, run(t, n).Unopened)

	// With a second valve indoors the outdoor one alone has to do.
	n = night()
	n.Reach.Route = append(pipe.Route{{X: -2, Z: 0.2}, {X: -1, Z: 0.2}}, n.Reach.Route...)
	n.Reach.Drains = []frost.Drain{{Point: 0, Kv: 1}, {Point: 4, Kv: 1}}
	n.Reach.Vents = []int{3, 6}
	o = run(t, n)
	assert.Positive(t, o.Drainage.Trapped, "what only the valve indoors could let out")
	for _, c := range o.Drainage.Columns {
		assert.Equal(t, 1, c.Drain, "the index among all valves")
	}
}

// Tube that lies level at its valve is not known to empty.
func TestLevelTubeIsNotKept(t *testing.T) {
	n := night()
	n.Reach = frost.Reach{Route: pipe.Route{{Outdoors: true}, {X: 6, Outdoors: true}}, Bore: 0.025,
		Drains: []frost.Drain{{Point: 0, Kv: 1}}, Vents: []int{1}}
	o := run(t, n)
	assert.InEpsilon(t, 6*math.Pi*0.025*0.025/4, o.Drainage.Level, 1e-12)
	assert.False(t, o.Kept())
	f, err := n.Findings(o, frost.CommonDoubts())
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, verdicts(f)["no tube lies level at a drain valve"])
	// The limit, 1 mm to the metre, just inside and just outside.
	for rise, level := range map[float64]bool{0.00599: true, 0.00601: false} {
		n.Reach.Route[1].Z = rise
		assert.Equal(t, level, run(t, n).Drainage.Level > 0, "%g m in 6 m", rise)
	}
	// A level foot below a riser; between two valves the level piece counts once.
	n.Reach.Route = pipe.Route{{Outdoors: true}, {X: 2, Outdoors: true}, {X: 2, Z: 1, Outdoors: true}}
	n.Reach.Vents = []int{2}
	assert.InEpsilon(t, 2*math.Pi*0.025*0.025/4, run(t, n).Drainage.Level, 1e-12)
	n.Reach.Drains = append(n.Reach.Drains, frost.Drain{Point: 1, Kv: 1})
	assert.InEpsilon(t, 2*math.Pi*0.025*0.025/4, run(t, n).Drainage.Level, 1e-12)
}

// The order in which a route is told does not matter, nor that of its valves.
func TestRouteToldBackwards(t *testing.T) {
	n := night()
	n.Reach.Route = append(slices.Clone(n.Reach.Route), pipe.Point{X: 4, Z: 1.0, Outdoors: true}, pipe.Point{X: 4.5, Z: 1.3, Outdoors: true})
	n.Reach.Drains = []frost.Drain{{Point: 2, Kv: 1}, {Point: 5, Kv: 0.3}}
	n.Reach.Vents = []int{6, 1, 4}
	a := run(t, n)
	last := len(n.Reach.Route) - 1
	slices.Reverse(n.Reach.Route)
	n.Reach.Drains = []frost.Drain{{Point: last - 5, Kv: 0.3}, {Point: last - 2, Kv: 1}}
	n.Reach.Vents = []int{last - 4, last - 6, last - 1, last - 4}
	b := run(t, n)
	assert.InEpsilon(t, a.Emptying, b.Emptying, 1e-6)
	assert.InEpsilon(t, a.Drainage.Volume, b.Drainage.Volume, 1e-6)
	assert.InDelta(t, a.Margin, b.Margin, 1e-3)
	assert.Zero(t, b.Drainage.Trapped)
	// The pocket between the two valves, once there is a dip of its own.
	n = night()
	n.Reach.Route = append(slices.Clone(n.Reach.Route), pipe.Point{X: 4, Z: 1.0, Outdoors: true}, pipe.Point{X: 4.5, Z: 1.3, Outdoors: true}, pipe.Point{X: 5, Z: 0.5, Outdoors: true})
	n.Reach.Drains = append(n.Reach.Drains, frost.Drain{Point: 7, Kv: 1})
	n.Reach.Vents = []int{1, 4, 6}
	o := run(t, n)
	assert.Positive(t, o.Drainage.Trapped)
	assert.False(t, o.Kept())
}

// After a series that is shorter than the cut, and in one without end, it does
// not become milder than it has been.
func TestShortSeriesStaysCold(t *testing.T) {
	n := night()
	n.Weather = []frost.Air{{Temperature: -15, Wind: 1}, {Temperature: -15}, {Temperature: 8, Wind: 4}}
	for _, cut := range []float64{0, 48 * hydronics.Hour} {
		n.Cut = cut
		assert.False(t, run(t, n).NoIce)
	}
	n.Cut = 3 * hydronics.Hour
	assert.True(t, run(t, n).NoIce, "the series covers the cut")
	n.Cut = 3*hydronics.Hour + 1
	assert.True(t, run(t, n).NoIce, "a second of cold more")

	bare := night()
	bare.Section = frost.Section{Bore: 0.025, Surface: frost.InTheOpen()}
	bare.Weather = []frost.Air{{Temperature: 1, Infrared: 220}, {Temperature: 5, Wind: 6, Infrared: 320}}
	o := run(t, bare)
	assert.True(t, o.NoIce, "1 °C and wind: the air keeps the sky off")
	bare.Weather = []frost.Air{{Temperature: 1, Infrared: 220}, {Temperature: 5, Infrared: 320}}
	assert.False(t, run(t, bare).NoIce, "1 °C under a clear sky, still air")
}

// A large tube in little cold takes months: without end means so.
func TestWithoutEndIsLong(t *testing.T) {
	n := night()
	n.Section = frost.Section{Bore: 0.4, Layers: []frost.Layer{{Thickness: 0.3, Conductivity: 0.035}}, Surface: frost.Surface{Coefficient: 10}}
	n.Weather = []frost.Air{{Temperature: -0.1}}
	l, err := n.Section.Lump(n.Medium, n.Start, n.Weather[0])
	require.NoError(t, err)
	cool, err := l.CoolingTime(n.Start, 0, -0.1)
	require.NoError(t, err)
	require.Greater(t, cool.Seconds, 60*hydronics.Day)
	o := run(t, n)
	require.False(t, o.NoIce)
	assert.InEpsilon(t, cool.Seconds, o.EarliestIce.Seconds, 0.05)
}

// As long as the isolating valves stand open the house runs out with the section.
func TestSlowIsolatingValvesDelayTheEmptying(t *testing.T) {
	n := night()
	quick := run(t, n)
	n.Stroke = 10_000
	require.Less(t, n.Stroke, quick.LatestOpening.Seconds)
	assert.InDelta(t, quick.Margin, run(t, n).Margin, 1e-9)
	n.Section.Layers = n.Section.Layers[:1]
	bare := run(t, n)
	require.Greater(t, n.Stroke, bare.LatestOpening.Seconds)
	assert.InDelta(t, bare.EarliestIce.Seconds-n.Stroke-bare.Emptying, bare.Margin, 1e-9)
	assert.False(t, bare.Kept())
}

// The last litre of a tube with little fall belongs to the emptying.
func TestEmptyingGoesToTheEnd(t *testing.T) {
	n := night()
	o := run(t, n)
	assert.Less(t, o.Drainage.Remains, 0.02*o.Drainage.Content)
	n.Reach.Final = 0.01
	early := run(t, n)
	assert.Greater(t, early.Drainage.Remains, 0.05*o.Drainage.Content)
	assert.Greater(t, o.Emptying, 1.1*early.Emptying)
}

// Ambient exactly at the target never gets there, whatever rounding says; just
// below it does; water that is there already is there.
func TestAmbientAtTheTarget(t *testing.T) {
	l := frost.Lump{Bore: 0.01, Resistance: 0.1, Capacity: 300, Medium: frost.Water()} // 30 s: an hour is e^-120
	hours := []float64{3, 3, 3, 3}
	c, err := l.CoolingTimeThrough(35, 3, hours)
	require.NoError(t, err)
	assert.True(t, c.Never)
	hours[3] = math.Nextafter(3, 0)
	c, err = l.CoolingTimeThrough(35, 3, hours)
	require.NoError(t, err)
	assert.False(t, c.Never)
	assert.GreaterOrEqual(t, c.Seconds, 3*hydronics.Hour)
	at, err := l.CoolingTime(35, 3, 3)
	require.NoError(t, err)
	assert.True(t, at.Never)
	below, err := l.CoolingTime(35, 3, math.Nextafter(3, 0))
	require.NoError(t, err)
	assert.False(t, below.Never)

	n := night()
	n.Weather = []frost.Air{{Temperature: 0.01}}
	assert.True(t, run(t, n).NoIce)
	n.Weather = []frost.Air{{Temperature: -0.01}}
	assert.False(t, run(t, n).NoIce)
	f, err := n.Findings(run(t, n), frost.CommonDoubts())
	require.NoError(t, err)
	assert.NotEmpty(t, f)
	n.Weather = []frost.Air{{Temperature: 0.01}}
	f, err = n.Findings(run(t, n), frost.CommonDoubts())
	require.NoError(t, err)
	assert.Equal(t, hydronics.MetWithinUncertainty, verdicts(f)["no ice forms before the power returns"], "a kelvin of doubt about the air")
}

func TestNoNumberInASeries(t *testing.T) {
	l := lump(t)
	for at := range 3 {
		hours := []float64{-10, -10, -10}
		hours[at] = math.NaN()
		_, err := l.CoolingTimeThrough(1e-3, 0, hours)
		var r *hydronics.RangeError
		require.ErrorAs(t, err, &r)
		assert.Equal(t, "ambient temperature", r.Quantity)
		n := night()
		n.Cut = hydronics.Hour
		n.Weather = []frost.Air{{Temperature: -10}, {Temperature: -10}, {Temperature: -10}}
		n.Weather[at].Temperature = math.NaN()
		_, err = n.Run()
		require.ErrorAs(t, err, &r)
		assert.Equal(t, "air temperature", r.Quantity)
		_, _, err = n.Worst()
		require.ErrorIs(t, err, hydronics.ErrRange)
		_, err = n.Findings(frost.Outcome{}, frost.CommonDoubts())
		require.ErrorIs(t, err, hydronics.ErrRange)
	}
	_, err := l.CoolingTimeThrough(2, 3, nil)
	require.ErrorContains(t, err, "hours of ambient temperature = 0")
}

// The worst hour is judged with its own weather, and the mildest nights by their
// coldest water.
func TestWorstHourIsJudgedInItsOwnWeather(t *testing.T) {
	n := night()
	n.Cut = 4 * hydronics.Hour
	n.Section.Layers[1].Thickness = 0.009
	n.Weather = []frost.Air{{Temperature: 8}, {Temperature: 8}, {Temperature: 8}, {Temperature: 8}, {Temperature: 8}, {Temperature: -18},
		{Temperature: -18}, {Temperature: -18}, {Temperature: -18}, {Temperature: 8}, {Temperature: 8}, {Temperature: 8}, {Temperature: 8}}
	hour, worst, err := n.Worst()
	require.NoError(t, err)
	require.Equal(t, hour, worst.Hour)
	require.Positive(t, hour)
	moved := n
	moved.Weather = n.Weather[hour:]
	alone := run(t, moved)
	a, err := n.Findings(worst, frost.CommonDoubts())
	require.NoError(t, err)
	b, err := moved.Findings(alone, frost.CommonDoubts())
	require.NoError(t, err)
	assert.Equal(t, b[0].Uncertainty, a[0].Uncertainty)
	assert.Equal(t, b[0].Verdict, a[0].Verdict)
	worst.Hour = len(n.Weather)
	_, err = n.Findings(worst, frost.CommonDoubts())
	require.ErrorContains(t, err, "hour of the outcome = 13")

	n.Cut = 2 * hydronics.Hour
	n.Section.Layers[1].Thickness = 0.025
	_, mild, err := n.Worst()
	require.NoError(t, err)
	require.True(t, mild.NoIce)
	for i := range n.Weather {
		other := n
		other.Weather = n.Weather[i:]
		assert.GreaterOrEqual(t, run(t, other).Coldest, mild.Coldest)
	}
}

// What nobody gave is to be looked for on site: bare fittings, and wind.
func TestForgottenFittingsAndWind(t *testing.T) {
	const (
		fittings = "no valve, bracket or passage of a wall is less insulated than the tube"
		wind     = "no wind reaches the section: the weather judged has none"
	)
	judge := func(n frost.Night) map[string]hydronics.Verdict {
		t.Helper()
		f, err := n.Findings(run(t, n), frost.CommonDoubts())
		require.NoError(t, err)
		return verdicts(f)
	}
	n := night()
	v := judge(n)
	assert.Equal(t, hydronics.SeeOnSite, v[fittings])
	assert.NotContains(t, v, wind, "the coefficient is given")
	n.Fittings = []frost.Section{n.Section}
	n.Section.Surface = frost.InTheOpen()
	v = judge(n)
	assert.NotContains(t, v, fittings)
	assert.Equal(t, hydronics.SeeOnSite, v[wind])
	n.Weather = []frost.Air{{Temperature: -15, Wind: 4}}
	assert.NotContains(t, judge(n), wind)
}

// The doubt about conductivity belongs to insulated fittings as well.
func TestDoubtReachesTheFittings(t *testing.T) {
	n := night()
	thin := n.Section
	thin.Layers = slices.Clone(n.Section.Layers)
	thin.Layers[1].Thickness = 0.015
	n.Fittings = []frost.Section{thin}
	o := run(t, n)
	require.Equal(t, 0, o.Fitting)
	with := func(d frost.Doubts) float64 {
		f, err := n.Findings(o, d)
		require.NoError(t, err)
		return f[0].Uncertainty
	}
	wet := n
	wet.Fittings, wet.Section.Layers = []frost.Section{thin}, slices.Clone(n.Section.Layers)
	wet.Fittings[0].Layers = slices.Clone(thin.Layers)
	wet.Fittings[0].Layers[1].Conductivity *= 1.1
	wet.Section.Layers[1].Conductivity *= 1.1
	moved, method := run(t, wet).Margin-o.Margin, with(frost.Doubts{})
	assert.InDelta(t, math.Hypot(moved, method), with(frost.Doubts{Conductivity: 0.1}), 1e-6)
	assert.InDelta(t, 0.014*math.Hypot(o.EarliestIce.Seconds, o.LatestOpening.Seconds), method, 1e-6)
}

// Under a clear sky water freezes in air above 0 °C: the alternatives know it.
func TestAlternativesSeeTheSky(t *testing.T) {
	n := night()
	n.Section = frost.Section{Bore: 0.025, Layers: []frost.Layer{{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.44e6},
		{Thickness: 0.005, Conductivity: 0.036}}, Surface: frost.InTheOpen()}
	n.Cut = 12 * hydronics.Hour
	ask := frost.Inquiry{Solute: fluid.PropyleneGlycol, Duty: frost.Duty{Heat: 8000, Supply: 35, Return: 30,
		Run: pipe.Run{Bore: 0.025, Roughness: 1.5e-6, Length: 24}}, Length: 12, Layer: 1, Limit: 5, Safety: 1.2}
	n.Weather = []frost.Air{{Temperature: 0.5, Infrared: 220}}
	clear, err := n.Instead(ask)
	require.NoError(t, err)
	assert.False(t, clear.AloneBuys.Never)
	assert.Less(t, clear.Antifreeze.FreezingPoint, -0.5)
	thin, err := n.Section.ThicknessToHold(1, frost.Hold{Medium: n.Medium, Start: 10, Target: 0, Seconds: 6 * hydronics.Hour}, n.Weather[0])
	require.NoError(t, err)
	assert.Greater(t, thin, 0.002)
	n.Weather = []frost.Air{{Temperature: 0.5}}
	cloudy, err := n.Instead(ask)
	require.NoError(t, err)
	assert.True(t, cloudy.AloneBuys.Never)
	// The coldest, the windiest and the clearest hour need not be the same one.
	n.Weather = []frost.Air{{Temperature: -5}}
	still, err := n.Instead(ask)
	require.NoError(t, err)
	n.Weather = []frost.Air{{Temperature: -5}, {Temperature: -4.9, Wind: 6}}
	windy, err := n.Instead(ask)
	require.NoError(t, err)
	assert.Greater(t, windy.Trace, still.Trace)
}

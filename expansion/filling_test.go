package expansion_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Kv is the flow in m³/h at 1 bar; four times the difference, twice the flow.
func TestFillingTime(t *testing.T) {
	k := expansion.FillingKit{Kv: 1.2, Supply: 3 * hydronics.Bar}
	a, err := k.Time(0.3, 2*hydronics.Bar)
	require.NoError(t, err)
	assert.InDelta(t, 0.3/1.2*3600, a, 1e-9)
	k.Supply = 6 * hydronics.Bar
	b, err := k.Time(0.3, 2*hydronics.Bar)
	require.NoError(t, err)
	assert.InDelta(t, a/2, b, 1e-9)
	_, err = k.Time(0.3, 6*hydronics.Bar)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
}

func TestSettings(t *testing.T) {
	s := house()
	table, err := s.Settings(expansion.Vessel{Nominal: 0.035, Precharge: 0.8 * hydronics.Bar}, 10, 20, 30, 40, 50)
	require.NoError(t, err)
	require.Len(t, table, 5)
	for i := 1; i < len(table); i++ {
		assert.Greater(t, table[i].Least, table[i-1].Least)
		assert.Greater(t, table[i].Most, table[i-1].Most)
	}
	_, err = s.Settings(expansion.Vessel{Nominal: 0.035, Precharge: 0.8 * hydronics.Bar}, 10, 90)
	assert.ErrorIs(t, err, hydronics.ErrRange)
}

// What is drained is what the readings say, and a loss of gas is told by its pre-charge.
func TestLeakageRoundTrip(t *testing.T) {
	s := house()
	v := expansion.Vessel{Nominal: 0.035, Precharge: 0.8 * hydronics.Bar}
	u := expansion.ReadingUncertainty{Pressure: 0.02 * hydronics.Bar, Temperature: 1}
	for _, lost := range []float64{-1e-3, 0, 1e-3, 3e-3} {
		c, err := s.Course(v, 1.5*hydronics.Bar)
		require.NoError(t, err)
		warm, err := c.At(50)
		require.NoError(t, err)
		fill, err := c.At(10)
		require.NoError(t, err)
		// The same system with less water in its vessel.
		p := (v.Precharge.Abs(hydronics.StandardAtmosphere)*v.Nominal)/(v.Nominal-warm.Water+lost) - hydronics.StandardAtmosphere
		l, err := s.Leakage(v, expansion.Reading{Pressure: fill.Pressure, Temperature: 10},
			expansion.Reading{Pressure: hydronics.Gauge(p), Temperature: 50, Time: 7 * hydronics.Day}, u)
		require.NoError(t, err)
		assert.InDelta(t, lost, l.Lost, 1e-9)
		assert.InDelta(t, lost/(7*hydronics.Day), l.Rate, 1e-15)
		assert.Equal(t, lost > 0.7e-3 || lost < -0.7e-3, l.Significant, "%g against %g", lost, l.Uncertainty)
		if lost == 0 {
			assert.InDelta(t, float64(v.Precharge), float64(l.Precharge), 1e-3)
		}
	}
	flat := v
	flat.Precharge = 0.2 * hydronics.Bar
	c, err := s.Course(v, 1.5*hydronics.Bar)
	require.NoError(t, err)
	fill, err := c.At(10)
	require.NoError(t, err)
	p := flat.Precharge.Abs(hydronics.StandardAtmosphere)*v.Nominal/(v.Nominal-fill.Water) - hydronics.StandardAtmosphere
	l, err := s.Leakage(v, expansion.Reading{Pressure: fill.Pressure, Temperature: 10},
		expansion.Reading{Pressure: hydronics.Gauge(p), Temperature: 10, Time: hydronics.Day}, u)
	if assert.ErrorIs(t, err, hydronics.ErrNoSolution, "below the pre-charge the vessel says nothing") {
		assert.Zero(t, l)
	}
	flat.Precharge = 0.7 * hydronics.Bar
	p = flat.Precharge.Abs(hydronics.StandardAtmosphere)*v.Nominal/(v.Nominal-fill.Water) - hydronics.StandardAtmosphere
	l, err = s.Leakage(v, expansion.Reading{Pressure: fill.Pressure, Temperature: 10},
		expansion.Reading{Pressure: hydronics.Gauge(p), Temperature: 10, Time: hydronics.Day}, u)
	require.NoError(t, err)
	assert.InDelta(t, float64(flat.Precharge), float64(l.Precharge), 1e-3)
}

// The published classifications of filling links, and where they disagree.
func TestBackflow(t *testing.T) {
	for _, c := range []struct {
		contents expansion.Contents
		place    string
		category expansion.FluidCategory
		unit     string
	}{
		{expansion.PlainHeatingWater, "Germany", 3, "CA"},
		{expansion.PlainHeatingWater, "", 3, "CA"},
		{expansion.InhibitedHeatingWater, "", 4, "BA"},
		{expansion.EthyleneGlycolWater, "United Kingdom", 3, "CA"},
		{expansion.EthyleneGlycolWater, "", 4, "BA"}, // the stricter one
		{expansion.PropyleneGlycolWater, "Sweden", 4, "BA"},
	} {
		b, err := expansion.BackflowProtection(c.contents, c.place)
		require.NoError(t, err)
		assert.Equal(t, c.category, b.Category, c.contents.String())
		assert.Equal(t, c.unit, b.Unit, c.contents.String())
	}
	_, err := expansion.BackflowProtection(expansion.InhibitedHeatingWater, "Atlantis")
	assert.ErrorIs(t, err, hydronics.ErrRange)
	_, err = expansion.BackflowProtection(0, "")
	assert.ErrorIs(t, err, hydronics.ErrRange)

	judge := func(c expansion.Contents, place, unit string) hydronics.Verdict {
		f, err := expansion.JudgeFilling(c, place, unit)
		require.NoError(t, err)
		return f.Verdict
	}
	assert.Equal(t, hydronics.Met, judge(expansion.PlainHeatingWater, "Germany", "CA"))
	assert.Equal(t, hydronics.NotMet, judge(expansion.InhibitedHeatingWater, "Germany", "CA"))
	assert.Equal(t, hydronics.Met, judge(expansion.InhibitedHeatingWater, "Germany", "BA"))
	assert.Equal(t, hydronics.NotMet, judge(expansion.PlainHeatingWater, "Germany", "EA"))
	assert.Equal(t, hydronics.NotMet, judge(expansion.PlainHeatingWater, "Germany", "EC"), "a British unit abroad")
	assert.Equal(t, hydronics.Met, judge(expansion.EthyleneGlycolWater, "United Kingdom", "ED"))
	assert.Equal(t, hydronics.MetUnconfirmed, judge(expansion.PlainHeatingWater, "Germany", "AD"))
	_, err = expansion.JudgeFilling(expansion.PlainHeatingWater, "", "XX")
	assert.ErrorIs(t, err, hydronics.ErrRange)
}

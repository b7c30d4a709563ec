package main

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/frost"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func winterOf(air []float64) *winter {
	w := &winter{Station: "test", Year: 2020, Air: air}
	w.complete()
	return w
}

// tubeOf returns water in a tube of time constant tau h; the ice grows in a bore of 20 mm.
func tubeOf(tau, start, freezing float64, water bool) standing {
	l := frost.Lump{Bore: 0.020, Resistance: 2, Capacity: tau * hydronics.Hour / 2, Medium: frost.Water()}
	return standing{Lump: l, Start: start, Freezing: freezing, Water: water}
}

// stepped follows every cut hour by hour, without the shortcuts of search.
func stepped(q *standing, w *winter, lengths []int) answer {
	tau := q.Lump.Capacity * q.Lump.Resistance / hydronics.Hour
	out := answer{FirstIce: math.Inf(1), Cuts: make([]cutOutcome, len(lengths))}
	for i := range out.Cuts {
		out.Cuts[i].Lowest = math.Inf(1)
	}
	longest := lengths[len(lengths)-1]
	for s := range w.Air {
		t, lowest, iced, sum := q.Start, math.Inf(1), math.Inf(1), 0.0
		for k := 1; k <= longest && s+k <= len(w.Air); k++ {
			air := w.Air[s+k-1]
			next := air + (t-air)*math.Exp(-1/tau)
			left := 0.0 // share of the hour with ice
			switch {
			case !math.IsInf(iced, 1):
				left = 1
			case next <= q.Freezing:
				within := tau * math.Log((t-air)/(q.Freezing-air))
				iced = float64(k-1) + within
				left = 1 - within
			}
			sum += left * max(0, -air)
			t = next
			lowest = min(lowest, t)
			for i, length := range lengths {
				c := &out.Cuts[i]
				if k <= length && lowest < c.Lowest {
					c.Lowest, c.LowestStart = lowest, s
				}
				if k == length && q.Water && sum > c.Frost {
					c.Frost, c.FrostStart = sum, s
				}
			}
		}
		if iced < out.FirstIce {
			out.FirstIce, out.FirstIceStart = iced, s
		}
	}
	return out
}

// The search looks at each winter in linear work; following every cut by itself
// must give the same hours and figures, in any weather and for any tube.
func TestSearchAgainstEveryCutByItself(t *testing.T) {
	lengths := []int{1, 3, 8, 20}
	x := &searcher{lengths: lengths}
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 7))
		air := make([]float64, 30+r.IntN(200))
		now := 0.0
		for h := range air {
			now = 0.9*now + 3*r.NormFloat64()
			air[h] = 12*r.Float64() - 4 + now
		}
		w := winterOf(air)
		tau := math.Exp(r.Float64()*6 - 2)          // 0.14 to 55 h
		q := tubeOf(tau, 2+20*r.Float64(), 0, true) // now and then colder than the air
		if seed%3 == 0 {
			q = tubeOf(tau, 2+20*r.Float64(), -8*r.Float64(), false)
		}
		var got answer
		x.search(&q, w, &got)
		want := stepped(&q, w, lengths)
		if math.IsInf(want.FirstIce, 1) {
			require.True(t, math.IsInf(got.FirstIce, 1), "seed %d", seed)
		} else {
			require.InDelta(t, want.FirstIce, got.FirstIce, 1e-8, "seed %d", seed)
		}
		for i := range lengths {
			require.InDelta(t, want.Cuts[i].Lowest, got.Cuts[i].Lowest, 1e-9, "seed %d, cut %d h", seed, lengths[i])
			require.InDelta(t, want.Cuts[i].Frost, got.Cuts[i].Frost, 1e-7, "seed %d, cut %d h", seed, lengths[i])
			require.Equal(t, got.Cuts[i].Lowest <= q.Freezing, got.FirstIce <= float64(lengths[i]), "seed %d, cut %d h", seed, lengths[i])
		}
	}
}

// Hours to the freezing point in constant cold, as printed to 0.1 h. Source:
// ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23, table 6 (second-hand; see
// handbook_hours_to_freezing.csv of the reference tables for the inputs): water
// of 1000 kg/m³ and 4200 J/(kg·K) from 5.5 °C in air of -28 °C, insulation of
// 0.0432 W/(m·K), its heat and the film left out.
func TestHandbookHoursToFreezing(t *testing.T) {
	air := make([]float64, 48)
	for i := range air {
		air[i] = -28
	}
	x := &searcher{lengths: []int{24}}
	for _, c := range []struct{ bore, inner, outer, hours float64 }{
		{40.94, 49, 168, 1.3},
		{77.92, 90, 298, 4.5},
		{102.26, 115, 219, 4.1},
		{102.26, 115, 324, 6.6},
	} {
		bore := c.bore * hydronics.Millimetre
		q := standing{Start: 5.5, Water: true, Lump: frost.Lump{Bore: bore, Medium: frost.Water(),
			Resistance: math.Log(c.outer/c.inner) / (2 * math.Pi * 0.0432),
			Capacity:   1000 * 4200 * math.Pi * bore * bore / 4}}
		var got answer
		x.search(&q, winterOf(air), &got)
		// Half a printed digit, and what half a digit of the start (0.8 %) and of the
		// air (1.6 %) changes in ln(33.5/28).
		assert.InDelta(t, c.hours, got.FirstIce, 0.05+0.024*c.hours, "%+v", c)
		assert.Zero(t, got.FirstIceStart)
	}
}

// iceAfter turns FreezingTime round, and a bore that is all ice stays so.
func TestIceAfter(t *testing.T) {
	q := tubeOf(2, 10, 0, true)
	for _, fraction := range []float64{0.01, 0.25, 0.5, 0.9, 1} {
		time, err := q.Lump.FreezingTime(fraction, -7)
		require.NoError(t, err)
		ice, err := iceAfter(&q.Lump, 7*time.Seconds/hydronics.Hour*(1+1e-12))
		require.NoError(t, err)
		assert.InDelta(t, fraction, ice, 1e-6)
	}
	ice, err := iceAfter(&q.Lump, 1e6)
	require.NoError(t, err)
	assert.Equal(t, 1.0, ice)
	ice, err = iceAfter(&q.Lump, 0)
	require.NoError(t, err)
	assert.Zero(t, ice)
}

// A search takes no memory after the first.
func TestSearchAllocatesNothing(t *testing.T) {
	air := make([]float64, 5000)
	for h := range air {
		air[h] = 10*math.Sin(float64(h)/40) - 5
	}
	w, q, x := winterOf(air), tubeOf(3, 30, 0, true), &searcher{lengths: []int{2, 8, 24}}
	var out answer
	x.search(&q, w, &out)
	assert.Zero(t, testing.AllocsPerRun(5, func() { x.search(&q, w, &out) }))
}

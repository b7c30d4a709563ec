package expansion_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"github.com/stretchr/testify/require"
)

// Systems drawn at random, vessels right and wrong: the identities hold in all of them.
func TestRandomSystems(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	rules := []expansion.Rules{expansion.EN12828(), expansion.EN12828SmallVessels(), expansion.EN12828Edition2003(), expansion.DIN4807(),
		expansion.BS7074(), expansion.UNE100155(), expansion.RaccoltaR2009(), expansion.USPractice()}
	sized, judged := 0, 0
	for range 4000 {
		s := expansion.System{
			Liquid: fluid.Water(), Content: between(0.02, 2), FillTemperature: between(5, 25), Hottest: between(40, 95),
			StaticHead: between(0, 15), ReliefSet: hydronics.Gauge(between(2, 6)) * hydronics.Bar, ReliefHeight: between(-5, 5),
			Atmosphere: between(80e3, 103e3), Rules: rules[r.IntN(len(rules))],
			Pump: expansion.Pump{Head: between(0, 5e4), Vessel: expansion.PumpSide(r.IntN(2)), ReliefAfter: r.IntN(2) == 1},
		}
		s.Coldest = between(0, s.FillTemperature)
		if r.IntN(3) == 0 && s.Rules.Expansion.Real() {
			s.Liquid = glycol(t, between(0.2, 0.45))
			s.Coldest = between(-5, s.FillTemperature)
		}
		z, err := s.Size()
		if err != nil {
			require.ErrorIs(t, err, hydronics.ErrNoSolution)
			continue
		}
		sized++
		// A vessel of exactly the least size, filled as said, ends at the final pressure.
		exact := expansion.Vessel{Nominal: z.Nominal, Precharge: z.Precharge}
		if s.Rules.Expansion.Real() && z.Nominal >= 0.0005 {
			c, err := s.Course(exact, z.Filling)
			require.NoError(t, err)
			hot, err := c.At(s.Hottest)
			require.NoError(t, err)
			require.InDelta(t, float64(z.Final), float64(hot.Pressure), 2, "%+v", s)
			require.InDelta(t, z.Acceptance, hot.Water/z.Nominal, 1e-6)
		}
		// Any vessel at all: the judgement and the cycle agree with each other.
		v := expansion.Vessel{Nominal: between(0.005, 0.2), Precharge: hydronics.Gauge(between(0, 2.5e5))}
		filling := hydronics.Gauge(between(0.3e5, float64(s.ReliefSet)))
		findings, err := s.Judge(v, filling)
		if errors.Is(err, hydronics.ErrNoSolution) {
			continue
		}
		require.NoError(t, err)
		judged++
		c, err := s.Course(v, filling)
		require.NoError(t, err)
		y, err := c.Cycle()
		require.NoError(t, err)
		require.Equal(t, y.Lifts, findings[6].Verdict == hydronics.NotMet)
		require.Equal(t, y.Lost > 0, y.Lifts)
		if y.Lifts {
			require.GreaterOrEqual(t, y.LiftsAt, s.FillTemperature)
			require.LessOrEqual(t, y.LiftsAt, s.Hottest)
			require.LessOrEqual(t, y.Filling.Water, max(0, c.Quantity()-s.Content))
		}
		// The pressure never falls while the system warms above its least volume.
		last := hydronics.Gauge(-1e9)
		for x := max(8, s.FillTemperature); x <= s.Hottest; x += 5 {
			state, err := c.At(x)
			if errors.Is(err, hydronics.ErrNoSolution) {
				break
			}
			require.NoError(t, err)
			require.GreaterOrEqual(t, state.Pressure, last)
			last = state.Pressure
		}
	}
	require.Greater(t, sized, 2000)
	require.Greater(t, judged, 1000)
}

package fluid

import (
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The lever rule conserves the solute, and slush grows as it cools.
func TestIceFraction(t *testing.T) {
	for _, s := range Solutes() {
		l, err := s.ByMass(0.1)
		require.NoError(t, err)
		last := 0.0
		for temp := l.FreezingPoint(); temp >= solutions[s].freezing(solutions[s].maxMass); temp -= 0.5 {
			f, err := l.IceFraction(temp)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, f, last)
			last = f
		}
		assert.Greater(t, last, 0.4, "%v", s)
		warm, err := l.IceFraction(20)
		require.NoError(t, err)
		assert.Zero(t, warm)
		_, err = l.IceFraction(-200)
		require.ErrorIs(t, err, hydronics.ErrRange)
	}
	f, err := Water().IceFraction(-3)
	require.NoError(t, err)
	assert.Equal(t, 1.0, f)
	_, err = Liquid{}.IceFraction(-3)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// The chart of burst protection asks for about two thirds of the concentration that
// freeze protection takes (common practice): by the lever rule at most 40 % of what it
// protects is ice, down to -29 °C.
func TestBurstProtectionAgainstTheLeverRule(t *testing.T) {
	for _, s := range []Solute{PropyleneGlycol, EthyleneGlycol} {
		for _, temp := range []float64{-6.6, -12.2, -17.8, -23.3, -28.9} {
			l, err := s.ByBurstProtection(temp)
			require.NoError(t, err)
			f, err := l.IceFraction(temp)
			require.NoError(t, err)
			assert.Less(t, f, 0.40, "%v at %v °C", s, temp)
			full, err := s.ByFreezingPoint(temp)
			require.NoError(t, err)
			assert.Less(t, l.MassFraction(), full.MassFraction())
		}
	}
}

// Between the rows the colder one counts: 24 % (the row of -17.8 °C) at -13 °C.
func TestBurstProtectionTakesTheColderRow(t *testing.T) {
	for temp, want := range map[float64]float64{-1: 0.12, -6.6: 0.12, -6.7: 0.20, -13: 0.24, -50: 0.35, -51: 0.35} {
		l, err := PropyleneGlycol.ByBurstProtection(temp)
		require.NoError(t, err)
		v, err := l.VolumeFraction()
		require.NoError(t, err)
		assert.InDelta(t, want, v, 1e-12, "%v °C", temp)
	}
	_, err := Glycerol.ByBurstProtection(-10)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = PropyleneGlycol.ByBurstProtection(-52)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// Clausius and Clapeyron: the slope of the melting curve, the latent heat and the
// two volumes belong together (to the 2 % of R14-08).
func TestMeltingCurveMeetsTheLatentHeat(t *testing.T) {
	f := Freezing()
	high, err := MeltingPressure(f.Temperature - 0.01)
	require.NoError(t, err)
	low, err := MeltingPressure(f.Temperature)
	require.NoError(t, err)
	slope := (high - low) / -0.01 // Pa/K
	tk := f.Temperature + hydronics.ZeroCelsius
	near(t, f.Heat/(tk*(1/f.WaterDensity-1/f.IceDensity)), slope, 0.02, "dp/dT")
}

func TestMeltingRoundTrip(t *testing.T) {
	for temp := lowestMelting; temp <= 0.01; temp += 0.37 {
		p, err := MeltingPressure(temp)
		require.NoError(t, err)
		back, err := MeltingTemperature(p)
		require.NoError(t, err)
		assert.InDelta(t, temp, back, 1e-9)
	}
	_, err := MeltingTemperature(300)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = MeltingPressure(1)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// Ice: the derivatives belong together as those of water do.
func TestIceDerivatives(t *testing.T) {
	for _, temp := range []float64{-150, -40, -5, -0.5} {
		for _, p := range []float64{1e5, 1e7, 1e8} {
			at := func(temp, p float64) Ice {
				s, err := IceState(temp, p)
				require.NoError(t, err)
				return s
			}
			s := at(temp, p)
			hot, cold := at(temp+0.01, p), at(temp-0.01, p)
			near(t, (hot.Enthalpy-cold.Enthalpy)/0.02, s.SpecificHeat, 1e-6, "cp")
			near(t, (1/hot.Density-1/cold.Density)/0.02*s.Density, s.Expansion, 1e-5, "expansion")
			high, low := at(temp, p+5e4), at(temp, p-5e4)
			near(t, (high.Density-low.Density)/1e5/s.Density, s.Compressibility, 1e-5, "compressibility")
			near(t, -(high.Entropy-low.Entropy)/1e5, s.Expansion/s.Density, 1e-4, "Maxwell relation")
		}
	}
}

// Each exported uncertainty is usable: positive, and small enough to mean something.
func TestUncertainty(t *testing.T) {
	for _, s := range Solutes() {
		l, err := s.ByMass(0.1)
		require.NoError(t, err)
		u, err := l.Uncertainty()
		require.NoError(t, err)
		for _, v := range []float64{u.Density, u.SpecificHeat, u.Conductivity, u.DynamicViscosity} {
			assert.Greater(t, v, 0.0)
			assert.LessOrEqual(t, v, 0.15)
		}
		assert.NotEmpty(t, u.Source.Text)
	}
	_, err := Liquid{}.Uncertainty()
	require.ErrorIs(t, err, hydronics.ErrRange)
	u, err := Water().Uncertainty()
	require.NoError(t, err)
	assert.False(t, u.Source.Provenance.Confirmed())
}

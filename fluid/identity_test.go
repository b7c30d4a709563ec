package fluid

import (
	"errors"
	"math"
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// near asserts that got and want agree within a relative limit.
func near(t *testing.T, want, got, rel float64, what string) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: %.12g, want %.12g (%.2g off)", what, got, want, got/want-1)
	}
}

// states calls check on a grid of water and steam, with the function that gave
// the state.
func states(t *testing.T, check func(t *testing.T, at func(t, p float64) State, s State)) {
	t.Helper()
	grid := func(f func(t, p float64) (State, error), temperatures, pressures []float64) {
		at := func(temp, p float64) State {
			s, err := f(temp, p)
			require.NoError(t, err)
			return s
		}
		for _, temp := range temperatures {
			for _, p := range pressures {
				if _, err := f(temp, p); err == nil {
					check(t, at, at(temp, p))
				}
			}
		}
	}
	grid(WaterState, []float64{1, 5, 20, 60, 90, 130, 200, 300, 349}, []float64{0.105e6, 0.31e6, 1.1e6, 10e6, 20e6, 90e6})
	grid(SteamState, []float64{5, 40, 101, 180, 300, 400, 650}, []float64{500, 5e3, 0.09e6, 0.4e6, 5e6, 20e6})
}

func TestHeatAndWork(t *testing.T) {
	states(t, func(t *testing.T, _ func(t, p float64) State, s State) {
		near(t, s.InternalEnergy+s.PressureAbs/s.Density, s.Enthalpy, 1e-9, "h = u + p/rho")
		tk := s.Temperature + hydronics.ZeroCelsius
		near(t, s.SpecificHeat-tk*s.Expansion*s.Expansion/(s.Density*s.Compressibility), s.SpecificHeatVolume, 1e-9, "cp - cv")
		near(t, math.Sqrt(s.SpecificHeat/(s.SpecificHeatVolume*s.Density*s.Compressibility)), s.SpeedOfSound, 1e-12, "speed of sound")
	})
}

// The analytic derivatives against central differences of what they derive.
func TestDerivatives(t *testing.T) {
	states(t, func(t *testing.T, at func(t, p float64) State, s State) {
		dt, dp := 0.01, 2e-4*s.PressureAbs
		hot, cold := at(s.Temperature+dt, s.PressureAbs*(1-1e-9)), at(s.Temperature-dt, s.PressureAbs*(1-1e-9))
		low, high := at(s.Temperature, s.PressureAbs-dp), s
		near(t, (hot.Enthalpy-cold.Enthalpy)/(2*dt), s.SpecificHeat, 1e-5, "cp = dh/dT")
		slope := (1/hot.Density - 1/cold.Density) / (2 * dt)
		if math.Abs(s.Expansion) > 1e-5 {
			near(t, slope*s.Density, s.Expansion, 1e-4, "expansion coefficient")
		}
		// Maxwell: (ds/dp) at constant T = -(dv/dT) at constant p.
		middle := at(s.Temperature, s.PressureAbs-dp/2)
		ds := (high.Entropy - low.Entropy) / dp
		if math.Abs(s.Expansion) > 1e-5 && s.PressureAbs > 5e6 {
			near(t, -middle.Expansion/middle.Density, ds, 2e-3, "Maxwell relation")
		}
		if s.Density < 500 || s.PressureAbs > 5e6 {
			near(t, (math.Log(high.Density)-math.Log(low.Density))/dp, middle.Compressibility, 1e-5, "compressibility")
		}
	})
}

// Water and steam in equilibrium have the same Gibbs energy; IF97 fits its
// regions so that they meet within a few joules.
func TestEquilibriumOnTheBoilingLine(t *testing.T) {
	for temp := 0.01; temp < 350; temp += 10 {
		s, err := Boiling(temp)
		require.NoError(t, err)
		tk := temp + hydronics.ZeroCelsius
		assert.InDelta(t, s.Liquid.Enthalpy-tk*s.Liquid.Entropy, s.Steam.Enthalpy-tk*s.Steam.Entropy, 60, "%v °C", temp)
		assert.Greater(t, s.LatentHeat, 0.0)
	}
}

func TestSaturationRoundTrip(t *testing.T) {
	for temp := 0.0; temp <= criticalTemperature; temp += 0.623243 {
		p, err := SaturationPressure(temp)
		require.NoError(t, err)
		back, err := SaturationTemperature(p)
		require.NoError(t, err)
		assert.InDelta(t, temp, back, 1e-8)
	}
}

func TestTemperatureFromEnthalpyRoundTrip(t *testing.T) {
	for _, p := range []float64{700, 0.1e6, 0.3e6, 2e6, 20e6, 100e6} {
		for temp := 0.0; temp <= boilingLimit(p); temp += 1.3 {
			s, err := WaterState(temp, p)
			require.NoError(t, err)
			back, err := WaterTemperature(p, s.Enthalpy)
			require.NoError(t, err)
			assert.InDelta(t, temp, back, 1e-9, "%v Pa", p)
		}
	}
}

// The fast paths of Liquid give what the full state gives.
func TestLiquidAgreesWithState(t *testing.T) {
	for _, p := range []float64{0.1e6, 0.3e6, 1e6, 15e6, 30e6} {
		l, err := WaterAt(p)
		require.NoError(t, err)
		_, top := l.Range()
		for temp := 0.0; temp <= top; temp += 0.9 {
			s, err := WaterState(temp, p)
			require.NoError(t, err)
			got, err := l.At(temp)
			require.NoError(t, err)
			want := s.Properties()
			near(t, want.Density, got.Density, 1e-14, "density")
			near(t, want.SpecificHeat, got.SpecificHeat, 1e-14, "specific heat")
			near(t, want.Conductivity, got.Conductivity, 1e-14, "conductivity")
			near(t, want.DynamicViscosity, got.DynamicViscosity, 1e-14, "viscosity")
			density, err := l.Density(temp)
			require.NoError(t, err)
			near(t, got.Density, density, 1e-13, "density alone")
		}
	}
}

// R15-11 section 2.7: far from the critical point the enhancement vanishes.
func TestEnhancementIsZeroInHeatingWater(t *testing.T) {
	for _, p := range []float64{0.2e6, 1e6, 2e6, 10e6, 50e6, 100e6} {
		for temp := 0.0; temp <= math.Min(enhancementStart, boilingLimit(p)); temp += 0.5 {
			s, err := WaterState(temp, p)
			require.NoError(t, err)
			require.Zero(t, reduce(temp, s.Density).enhancement(s.SpecificHeat, s.SpecificHeatVolume, s.Compressibility, s.DynamicViscosity),
				"%v °C, %v Pa", temp, p)
		}
	}
	s, err := WaterState(160, 2e6)
	require.NoError(t, err)
	plain, err := WaterConductivity(160, s.Density)
	require.NoError(t, err)
	assert.Greater(t, s.Conductivity, plain)
}

func TestConcentrationRoundTrips(t *testing.T) {
	for _, s := range Solutes() {
		for x := 0.0; x <= solutions[s].maxMass; x += 0.7 {
			w := x / 100
			l, err := s.ByMass(w)
			require.NoError(t, err)
			if l.FreezingPoint() <= 0 {
				back, err := s.ByFreezingPoint(l.FreezingPoint())
				require.NoError(t, err)
				assert.InDelta(t, w, back.MassFraction(), 1e-8, "%v by freezing point", s)
			}
			if solutions[s].pure == 0 {
				_, err := l.VolumeFraction()
				require.ErrorIs(t, err, hydronics.ErrRange)
				_, err = l.MixtureVolumeFraction()
				require.ErrorIs(t, err, hydronics.ErrRange)
				continue
			}
			phi, err := l.VolumeFraction()
			require.NoError(t, err)
			back, err := s.ByVolume(phi)
			require.NoError(t, err)
			assert.InDelta(t, w, back.MassFraction(), 1e-12, "%v by volume", s)
			mixture, err := l.MixtureVolumeFraction()
			require.NoError(t, err)
			back, err = s.ByMixtureVolume(mixture)
			require.NoError(t, err)
			assert.InDelta(t, w, back.MassFraction(), 1e-11, "%v by mixture volume", s)
			// 0.002 of slack: the fit is not exactly water at 0 %.
			assert.Greater(t, mixture, phi-0.002, "mixing shrinks: %v %v", s, w)
		}
	}
}

// Freezing falls with every addition of antifreeze, so that ByFreezingPoint has
// one answer.
func TestFreezingPointFalls(t *testing.T) {
	for s := PropyleneGlycol; s.known(); s++ {
		m := &solutions[s]
		for x := 0.0; x+0.05 <= m.maxMass; x += 0.05 {
			if !(m.freezing(x+0.05) < m.freezing(x)) {
				t.Errorf("%v: freezing point rises at %v %%", s, x)
			}
		}
	}
}

func TestZeroLiquidIsRefused(t *testing.T) {
	var l Liquid
	_, err := l.At(20)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = l.Density(0)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = l.VolumeFraction()
	require.ErrorIs(t, err, hydronics.ErrRange)
	assert.True(t, math.IsNaN(l.FreezingPoint()))
	assert.False(t, l.IsWater())
	assert.Equal(t, "no liquid", l.String())
	for _, f := range []func(float64) (Liquid, error){Solute(0).ByMass, Solute(99).ByMass, Solute(0).ByVolume,
		Solute(99).ByMixtureVolume, Solute(77).ByFreezingPoint, CalciumChloride.ByVolume} {
		l, err := f(0.1)
		require.ErrorIs(t, err, hydronics.ErrRange)
		assert.Equal(t, Liquid{}, l)
	}
}

func TestLiquidIsAValue(t *testing.T) {
	a, err := PropyleneGlycol.ByMass(0.3)
	require.NoError(t, err)
	b, err := PropyleneGlycol.ByMass(0.3)
	require.NoError(t, err)
	assert.True(t, a == b)
	assert.Equal(t, PropyleneGlycol, a.Solute())
	assert.Equal(t, "propylene glycol 30 % by mass", a.String())
	w, err := WaterAt(0.3e6)
	require.NoError(t, err)
	assert.True(t, w == Water())
	assert.True(t, w.IsWater())
	assert.Equal(t, "water", w.String())
	v, err := w.VolumeFraction()
	require.NoError(t, err)
	assert.Zero(t, v)
}

func TestSoluteNames(t *testing.T) {
	assert.Len(t, soluteNames, len(solutions))
	assert.Equal(t, "none", Solute(0).String())
	assert.Equal(t, "unknown", Solute(200).String())
	for _, s := range Solutes() {
		got, ok := ParseSolute(s.String())
		assert.True(t, ok)
		assert.Equal(t, s, got)
	}
	_, ok := ParseSolute("none")
	assert.False(t, ok)
}

func TestHeatCapacityRate(t *testing.T) {
	p := Properties{Density: 1000, SpecificHeat: 4200}
	assert.InDelta(t, 4200, p.HeatCapacityRate(1e-3), 1e-9)
	assert.True(t, math.IsNaN(Properties{}.HeatCapacityRate(1e-3)))
}

func TestRangeErrorsNameValueAndLimit(t *testing.T) {
	_, err := Water().At(-1)
	var r *hydronics.RangeError
	require.True(t, errors.As(err, &r))
	assert.Equal(t, -1.0, r.Value)
	assert.Equal(t, 0.0, r.Min)
	_, err = WaterState(120, 0.1e6)
	require.ErrorContains(t, err, "liquid water at 100000 Pa")
	_, err = PropyleneGlycol.ByMass(30) // percent given for a fraction
	require.ErrorContains(t, err, "want 0 to 0.6")
}

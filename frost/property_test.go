package frost_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// foamed is a copper tube 28 × 1.5 with 25 mm of closed-cell foam.
func foamed() frost.Section {
	return frost.Section{
		Bore: 0.025,
		Layers: []frost.Layer{
			{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.4419e6},
			{Thickness: 0.025, Conductivity: 0.036, HeatCapacity: 9e4},
		},
		Surface: frost.Surface{Coefficient: 10},
	}
}

func TestHeatFlowGivesItsResistanceBack(t *testing.T) {
	s := foamed()
	s.Layers[1].Slope = 0.00015
	s.Surface = frost.InTheOpen()
	for _, air := range []frost.Air{
		{Temperature: -10}, {Temperature: -10, Wind: 5}, {Temperature: -10, Infrared: 180},
		{Temperature: 30, Wind: 0.5}, {Temperature: 5, PressureAbs: 82e3},
	} {
		f, err := s.HeatFlow(5, air)
		require.NoError(t, err)
		assert.InDelta(t, (5-f.Ambient)/f.Resistance, f.PerMetre, 1e-7)
		// What crosses the surface is what comes through the layers.
		assert.InDelta(t, math.Pi*s.Outside()*(f.Convective+f.Radiative)*(f.Surface-f.Ambient), f.PerMetre, 1e-7)
	}
}

// With a constant coefficient and a conductivity linear in temperature the heat
// flow is the one at the mean conductivity, exactly.
func TestSlopeIsTakenAtTheMean(t *testing.T) {
	s := foamed()
	s.Layers[1].Slope = 0.0002
	f, err := s.HeatFlow(60, frost.Air{Temperature: -20})
	require.NoError(t, err)
	inner := 60 - f.PerMetre*math.Log(28.0/25)/(2*math.Pi*380)
	mean := 0.036 + 0.0002*0.5*(inner+f.Surface)
	flat := s
	flat.Layers = []frost.Layer{s.Layers[0], {Thickness: 0.025, Conductivity: mean}}
	g, err := flat.HeatFlow(60, frost.Air{Temperature: -20})
	require.NoError(t, err)
	assert.InEpsilon(t, g.PerMetre, f.PerMetre, 1e-9)
}

// Without a difference of temperature nothing flows; the clear sky cools a tube
// below the air, less so behind insulation.
func TestNightSky(t *testing.T) {
	air := frost.Air{Temperature: 0, Infrared: 200}
	bare := frost.Section{Bore: 0.02, Layers: []frost.Layer{{Thickness: 0.001, Conductivity: 380}}, Surface: frost.InTheOpen()}
	f, err := bare.HeatFlow(0, air)
	require.NoError(t, err)
	assert.Less(t, f.Ambient, -0.5)
	assert.Positive(t, f.PerMetre)
	colder, err := bare.HeatFlow(-6, air)
	require.NoError(t, err)
	assert.Negative(t, colder.PerMetre, "some kelvin below the air it gains again")
	still, err := bare.HeatFlow(0, frost.Air{})
	require.NoError(t, err)
	assert.InDelta(t, 0, still.PerMetre, 1e-9)
}

func TestMoreInsulationAndLessWindLoseLess(t *testing.T) {
	last := math.Inf(1)
	for mm := 10.0; mm <= 100; mm += 5 {
		s := foamed()
		s.Layers[1].Thickness = mm / 1000
		s.Surface = frost.InTheOpen()
		f, err := s.HeatFlow(20, frost.Air{Temperature: -15, Wind: 3})
		require.NoError(t, err)
		assert.Less(t, f.PerMetre, last)
		last = f.PerMetre
	}
	last = 0
	for wind := 0.0; wind <= 20; wind += 0.5 {
		s := foamed()
		s.Surface = frost.InTheOpen()
		f, err := s.HeatFlow(20, frost.Air{Temperature: -15, Wind: wind})
		require.NoError(t, err)
		assert.Greater(t, f.PerMetre, last)
		last = f.PerMetre
	}
}

func lump(t *testing.T) frost.Lump {
	t.Helper()
	l, err := foamed().Lump(frost.Water(), 35, frost.Air{Temperature: -10})
	require.NoError(t, err)
	return l
}

func TestCoolingAndTemperatureAreInverse(t *testing.T) {
	l := lump(t)
	for target := 34.0; target > -9; target -= 1.7 {
		c, err := l.CoolingTime(35, target, -10)
		require.NoError(t, err)
		back, err := l.Temperature(c.Seconds, 35, -10)
		require.NoError(t, err)
		assert.InDelta(t, target, back, 1e-9)
		hourly := make([]float64, 200)
		for i := range hourly {
			hourly[i] = -10
		}
		h, err := l.CoolingTimeThrough(35, target, hourly)
		require.NoError(t, err)
		assert.InEpsilon(t, c.Seconds, h.Seconds, 1e-9)
	}
}

func TestNever(t *testing.T) {
	l := lump(t)
	for _, ambient := range []float64{0, 2, 30} {
		c, err := l.CoolingTime(35, 0, ambient)
		require.NoError(t, err)
		assert.Equal(t, frost.Time{Never: true}, c)
		f, err := l.FreezingTime(0.25, ambient)
		require.NoError(t, err)
		assert.Equal(t, frost.Time{Never: true}, f)
		f, err = l.ConstantFlowFreezingTime(0.25, ambient)
		require.NoError(t, err)
		assert.True(t, f.Never)
		assert.False(t, f.Within(1e9))
	}
	h, err := l.CoolingTimeThrough(35, 0, []float64{-10, -10})
	require.NoError(t, err)
	assert.True(t, h.Never, "two hours are not enough")
	c, err := l.CoolingTime(2, 3, -10)
	require.NoError(t, err)
	assert.Equal(t, frost.Time{}, c, "already there")
}

// The quasi-steady time satisfies its differential equation: the heat drawn
// through ice and wall freezes a ring of water.
func TestFreezingTimeMeetsItsDifferentialEquation(t *testing.T) {
	l := lump(t)
	m := l.Medium
	const ambient, step = -7.0, 1e-5
	for f := 0.05; f < 0.99; f += 0.07 {
		a, err := l.FreezingTime(f-step, ambient)
		require.NoError(t, err)
		b, err := l.FreezingTime(f+step, ambient)
		require.NoError(t, err)
		radius := l.Bore / 2 * math.Sqrt(1-f)
		q := -ambient / (math.Log(l.Bore/2/radius)/(2*math.Pi*m.IceConductivity) + l.Resistance)
		assert.InEpsilon(t, m.Density*m.LatentHeat*math.Pi*l.Bore*l.Bore/4*2*step/q, b.Seconds-a.Seconds, 1e-6)
		flat, err := l.ConstantFlowFreezingTime(f, ambient)
		require.NoError(t, err)
		at, err := l.FreezingTime(f, ambient)
		require.NoError(t, err)
		assert.Less(t, flat.Seconds, at.Seconds)
	}
}

// The weighted capacity of the layers lies between none and all of it, and the
// integral behind it is the one of the doc comment.
func TestLumpCapacity(t *testing.T) {
	s := foamed()
	l, err := s.Lump(frost.Water(), 35, frost.Air{Temperature: -10})
	require.NoError(t, err)
	f, err := s.HeatFlow(35, frost.Air{Temperature: -10})
	require.NoError(t, err)
	water := frost.Water().Density * frost.Water().SpecificHeat * math.Pi * s.Bore * s.Bore / 4
	sum := 0.0
	theta, r := 1.0, s.Bore/2
	for _, layer := range s.Layers {
		const n = 20000
		for i := range n {
			at := r + layer.Thickness*(float64(i)+0.5)/n
			th := theta - math.Log(at/r)/(2*math.Pi*layer.Conductivity*f.Resistance)
			sum += layer.HeatCapacity * th * th * 2 * math.Pi * at * layer.Thickness / n
		}
		theta -= math.Log((r+layer.Thickness)/r) / (2 * math.Pi * layer.Conductivity * f.Resistance)
		r += layer.Thickness
	}
	assert.InEpsilon(t, water+sum, l.Capacity, 1e-8)
}

// Friction only ever delays, and without any the integral is Torricelli's.
func TestEmptyingAgainstTorricelli(t *testing.T) {
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	c := frost.Column{Bore: 0.1, Kv: 0.5, Final: 0.1, Legs: []frost.Leg{{Length: 2, Rise: 1}}}
	e, err := c.Empty(water)
	require.NoError(t, err)
	free, err := frost.Torricelli(frost.Vessel{Area: math.Pi * 0.01 / 4 * 2, Kv: 0.5}, 1, 0.1)
	require.NoError(t, err)
	assert.InEpsilon(t, free, e.Time, 1e-4, "a wide tube has no friction to speak of")
	assert.InEpsilon(t, 0.9*2*math.Pi*0.01/4, e.Volume, 1e-12)
	assert.InEpsilon(t, 0.1*2*math.Pi*0.01/4, e.Remains, 1e-9)
	for _, bore := range []float64{0.01, 0.013, 0.016, 0.02} {
		c.Bore = bore
		e, err := c.Empty(water)
		require.NoError(t, err)
		free, err := frost.Torricelli(frost.Vessel{Area: math.Pi * bore * bore / 4 * 2, Kv: 0.5}, 1, 0.1)
		require.NoError(t, err)
		assert.Greater(t, e.Time, free)
	}
}

// Cutting a leg in two changes nothing, and emptying further takes longer.
func TestEmptyingIsAdditive(t *testing.T) {
	water, err := fluid.Water().At(3)
	require.NoError(t, err)
	whole := frost.Column{Bore: 0.026, Roughness: 1e-6, Kv: 1.5, Legs: []frost.Leg{{Length: 1, Rise: 0.8}, {Length: 4, Rise: 0.1}, {Length: 1, Rise: 0}}}
	cut := whole
	cut.Legs = []frost.Leg{{Length: 0.5, Rise: 0.4}, {Length: 0.5, Rise: 0.4}, {Length: 1, Rise: 0.025}, {Length: 3, Rise: 0.075}, {Length: 1, Rise: 0}}
	a, err := whole.Empty(water)
	require.NoError(t, err)
	b, err := cut.Empty(water)
	require.NoError(t, err)
	assert.InEpsilon(t, a.Time, b.Time, 1e-4)
	assert.InEpsilon(t, a.Volume, b.Volume, 1e-12)
	last := math.Inf(1)
	for _, final := range []float64{0, 0.01, 0.1, 0.5, 0.8} {
		whole.Final = final
		e, err := whole.Empty(water)
		require.NoError(t, err)
		assert.Less(t, e.Time, last)
		last = e.Time
	}
}

func TestRefusals(t *testing.T) {
	nan := math.NaN()
	_, err := frost.Section{Bore: 20, Layers: []frost.Layer{{Thickness: nan, Conductivity: 1}}, Surface: frost.Surface{Coefficient: 10}}.HeatFlow(nan, frost.Air{Temperature: nan})
	require.ErrorIs(t, err, hydronics.ErrRange)
	for _, want := range []string{"bore = 20 m", "thickness of layer 1 = NaN", "inside temperature = NaN", "air temperature = NaN"} {
		assert.ErrorContains(t, err, want)
	}
	_, err = frost.Section{Bore: 0.02}.HeatFlow(5, frost.Air{})
	require.ErrorContains(t, err, "surface coefficient = 0", "the zero surface")
	_, err = frost.Section{Bore: 0.02, Surface: frost.InTheOpen()}.HeatFlow(5, frost.Air{Wind: 1e-5})
	require.ErrorContains(t, err, "Churchill and Bernstein")
	_, err = frost.Section{Bore: 0.02, Layers: []frost.Layer{{Thickness: 0.02, Conductivity: 0.04, Slope: 0.01}}, Surface: frost.InTheOpen()}.HeatFlow(5, frost.Air{Temperature: -20})
	require.ErrorContains(t, err, "conductivity of layer 1 at the temperatures met")
	_, err = frost.Column{Bore: 0.02, Kv: 1, Legs: []frost.Leg{{Length: 1, Rise: -0.1}}}.Empty(fluid.Properties{Density: 1000, DynamicViscosity: 1e-3})
	require.ErrorContains(t, err, "pocket")
	_, err = frost.Column{Bore: 0.02, Kv: 1, Legs: []frost.Leg{{Length: 1}}}.Empty(fluid.Properties{Density: 1000, DynamicViscosity: 1e-3})
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = frost.Lump{}.CoolingTime(10, 0, -10)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23: water supercools by
// several kelvin, then freezes to slush; cp ΔT/L of it, 6 % for 5 K.
func TestSupercooledWaterTurnsToSlush(t *testing.T) {
	s := frost.Standing{Section: foamed(), Medium: frost.Water(), Mixed: true, Start: 20, Nucleation: -5,
		Weather: []frost.Air{{Temperature: -15}}, Until: 5e5}
	h, err := s.Resolve()
	require.NoError(t, err)
	assert.InDelta(t, 0.06, h.Dendrites, 0.005)
	assert.Less(t, h.ReachedZero.Seconds, h.FirstIce.Seconds)
	slush, err := h.Slushed(0.03)
	require.NoError(t, err)
	assert.Equal(t, h.FirstIce, slush)
	none, err := h.Slushed(0.1)
	require.NoError(t, err)
	assert.True(t, none.Never)
	assert.InEpsilon(t, h.HeatGone, h.HeatLost, 1e-9)
	// Supercooled water loses heat to a smaller difference: all ice comes later, but little.
	s.Nucleation = 0
	plain, err := s.Resolve()
	require.NoError(t, err)
	assert.InEpsilon(t, plain.Closed.Seconds, h.Closed.Seconds, 0.02)
	assert.Greater(t, h.Closed.Seconds, plain.Closed.Seconds)
	for _, fraction := range []float64{0.25, 0.5} {
		a, err := h.IceTime(fraction)
		require.NoError(t, err)
		b, err := plain.IceTime(fraction)
		require.NoError(t, err)
		assert.InEpsilon(t, b.Seconds, a.Seconds, 0.05)
		assert.Greater(t, a.Seconds, b.Seconds)
	}
}

// The closed forms bracket the resolved solution as their doc comments say:
// short of the well mixed one from layers as warm as the water.
func TestClosedFormsErrShort(t *testing.T) {
	for _, mm := range []float64{0, 9, 13, 19, 25, 50} {
		for _, bore := range []float64{0.013, 0.02, 0.026, 0.039, 0.0531} {
			for _, ambient := range []float64{-5, -10, -20} {
				s := frost.Section{Bore: bore, Layers: []frost.Layer{{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.44e6}}, Surface: frost.Surface{Coefficient: 15}}
				if mm > 0 {
					s.Layers = append(s.Layers, frost.Layer{Thickness: mm / 1000, Conductivity: 0.036, HeatCapacity: 9e4})
				}
				h, err := frost.Standing{Section: s, Medium: frost.Water(), Mixed: true, Start: 20, Weather: []frost.Air{{Temperature: ambient}}, Until: 1e8, Tolerance: 0.03}.Resolve()
				require.NoError(t, err)
				l, err := s.Lump(frost.Water(), 20, frost.Air{Temperature: ambient})
				require.NoError(t, err)
				cool, err := l.CoolingTime(20, 0, ambient)
				require.NoError(t, err)
				assert.Less(t, cool.Seconds, h.FirstIce.Seconds*1.001)
				assert.Greater(t, cool.Seconds, h.FirstIce.Seconds*0.8)
				for _, fraction := range []float64{0.1, 0.25, 0.5, 1} {
					ice, err := h.IceTime(fraction)
					require.NoError(t, err)
					f, err := l.FreezingTime(fraction, ambient)
					require.NoError(t, err)
					flat, err := l.ConstantFlowFreezingTime(fraction, ambient)
					require.NoError(t, err)
					assert.Less(t, cool.Seconds+f.Seconds, ice.Seconds*1.002)
					assert.Greater(t, cool.Seconds+f.Seconds, ice.Seconds*0.8)
					assert.Less(t, cool.Seconds+flat.Seconds, cool.Seconds+f.Seconds)
				}
			}
		}
	}
}

// A series of equal hours is the same as constant weather, whatever the method.
func TestHourlyWeatherOfEqualHours(t *testing.T) {
	s := frost.Standing{Section: foamed(), Medium: frost.Water(), Start: 12, Weather: []frost.Air{{Temperature: -10, Wind: 4, Infrared: 200}}, Until: 4e5}
	s.Section.Surface = frost.InTheOpen()
	one, err := s.Resolve()
	require.NoError(t, err)
	for range 200 {
		s.Weather = append(s.Weather, s.Weather[0])
	}
	many, err := s.Resolve()
	require.NoError(t, err)
	assert.InEpsilon(t, one.FirstIce.Seconds, many.FirstIce.Seconds, 2e-3)
	assert.InEpsilon(t, one.Closed.Seconds, many.Closed.Seconds, 2e-3)
}

// The constants of Water against the IAPWS formulations of package fluid, which
// has tables of its own for them. The specific heat is the lowest on purpose.
func TestWaterConstants(t *testing.T) {
	w := frost.Water()
	fusion := fluid.Freezing()
	assert.InEpsilon(t, fusion.Heat, w.LatentHeat, 2e-4)
	ice, err := fluid.IceState(0, hydronics.StandardAtmosphere)
	require.NoError(t, err)
	assert.InEpsilon(t, ice.SpecificHeat, w.IceSpecificHeat, 2e-4)
	cold, err := fluid.Water().At(0)
	require.NoError(t, err)
	assert.InEpsilon(t, cold.Density, w.Density, 2e-4)
	assert.InEpsilon(t, cold.Conductivity, w.Conductivity, 2e-3)
	for c := 0.0; c <= 60; c++ {
		p, err := fluid.Water().At(c)
		require.NoError(t, err)
		assert.Less(t, w.SpecificHeat, p.SpecificHeat+5)
	}
}

// What the doc comments say of the simplified sets: jumps in wind, and heights
// over Churchill and Bernstein (computed from the formulas as attributed).
func TestJumpsOfTheSimplifiedSets(t *testing.T) {
	at := func(m frost.Method, d, wind float64) float64 {
		t.Helper()
		s := frost.Section{Bore: d - 0.001, Layers: []frost.Layer{{Thickness: 0.0005, Conductivity: 400}}, Surface: frost.Surface{Method: m}}
		f, err := s.HeatFlow(0, frost.Air{Temperature: -10, Wind: wind})
		require.NoError(t, err)
		return f.Convective
	}
	jump := 8.55e-3 / 0.08
	assert.InDelta(t, 2.4, at(frost.ISO12241, 0.08, jump*0.9999)/at(frost.ISO12241, 0.08, jump*1.0001), 0.1)
	assert.InDelta(t, 1.03, at(frost.GB50264, 0.1, 8.001)/at(frost.GB50264, 0.1, 7.999), 0.01)
	assert.InDelta(t, 48.8, at(frost.ISO12241, 0.08, 5), 0.1)
	assert.InDelta(t, 1.6, at(frost.ISO12241, 0.08, 5)/at(frost.Correlated, 0.08, 5), 0.08)
	assert.InDelta(t, 1.25*math.Pow(10/0.08, 0.25), at(frost.ISO12241, 0.08, 0), 0.02)
}

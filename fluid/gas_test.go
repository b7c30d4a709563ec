package fluid

import (
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDissolvedGasScalesWithItsPressure(t *testing.T) {
	for g := Nitrogen; g.known(); g++ {
		one, err := g.Dissolved(20, 1e5)
		require.NoError(t, err)
		three, err := g.Dissolved(20, 3e5)
		require.NoError(t, err)
		near(t, 3*one.MoleFraction, three.MoleFraction, 1e-12, g.String())
		near(t, one.Amount*gases[g].molar, one.Mass, 1e-12, g.String())
		none, err := g.Dissolved(20, 0)
		require.NoError(t, err)
		assert.Equal(t, Dissolved{}, none)
	}
}

func TestReleasedGas(t *testing.T) {
	cold, hot := Place{10, 3e5}, Place{70, 2e5}
	up, err := ReleasedAir(cold, hot)
	require.NoError(t, err)
	assert.Greater(t, up, 0.0)
	down, err := ReleasedAir(hot, cold)
	require.NoError(t, err)
	assert.Zero(t, down, "cold water under pressure takes air up")
	v, err := Nitrogen.Released(cold, cold)
	require.NoError(t, err)
	assert.Zero(t, v)
	_, err = ReleasedAir(cold, Place{120, 1e5}) // steam
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = Nitrogen.Released(Place{2, 1e5}, hot) // below the data
	require.ErrorIs(t, err, hydronics.ErrRange)
}

func TestGasNames(t *testing.T) {
	for g := Nitrogen; g.known(); g++ {
		back, ok := ParseGas(g.String())
		assert.True(t, ok)
		assert.Equal(t, g, back)
	}
	_, ok := ParseGas("air")
	assert.False(t, ok)
	assert.Equal(t, "unknown gas", Gas(0).String())
	_, err := Gas(0).HenryConstant(20)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// Saturated air is at its dew point, and the two vapour pressures of the package
// agree.
func TestDewPoint(t *testing.T) {
	for _, temp := range []float64{-40, -5, 0.005, 0.02, 12, 35, 90} {
		d, err := DewPoint(temp, 1)
		require.NoError(t, err)
		assert.InDelta(t, temp, d, 1e-8)
		if temp > 0.01 {
			moist, err := VapourPressure(temp)
			require.NoError(t, err)
			water, err := SaturationPressure(temp)
			require.NoError(t, err)
			near(t, water, moist, 1e-3, "saturation pressure")
		}
	}
	_, err := DewPoint(20, 60) // percent given for a fraction
	require.ErrorIs(t, err, hydronics.ErrRange)
}

func TestAtmosphericPressureAtTheSea(t *testing.T) {
	p, err := AtmosphericPressure(0)
	require.NoError(t, err)
	assert.Equal(t, hydronics.StandardAtmosphere, p)
}

func TestFillWaterFindings(t *testing.T) {
	w := FillWater{Hardness: 2.5, HeatOutput: 12e3, SmallestOutput: 12e3, GeneratorWater: 0.002, Content: 0.15, Makeup: 0.3}
	got, err := VDI2035In2005.Judge(w)
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.Equal(t, hydronics.Met, got[0].Verdict)
	assert.Equal(t, 3.0, got[0].Limit)
	assert.Equal(t, hydronics.Met, got[1].Verdict)

	got, err = VDI2035In2021.Judge(w)
	require.NoError(t, err)
	assert.Equal(t, hydronics.MetUnconfirmed, got[0].Verdict, "a rule from memory never carries a plain met")

	w.Content, w.Makeup = 0.4, 1.3 // 33 l/kW
	got, err = VDI2035In2005.Judge(w)
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, got[0].Verdict)
	assert.Equal(t, hydronics.NotMet, got[1].Verdict)

	w.Content, w.GeneratorWater = 0.1, 0.01
	got, err = VDI2035In2005.Judge(w)
	require.NoError(t, err)
	assert.Equal(t, hydronics.Holds, got[0].Bound)

	for _, wrong := range []func(w *FillWater){
		func(w *FillWater) { w.Hardness = 200 },
		func(w *FillWater) { w.SmallestOutput = 2 * w.HeatOutput },
		func(w *FillWater) { w.Makeup = w.Content / 2 },
		func(w *FillWater) { *w = FillWater{} },
	} {
		bad := w
		wrong(&bad)
		_, err := VDI2035In2005.Judge(bad)
		require.ErrorIs(t, err, hydronics.ErrRange)
	}
	_, err = HardnessRule(0).Limit(w)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// A cubic metre at 1 °dH holds 17.85 g of calcium carbonate, the published equivalent
// of the German degree.
func TestLimeDeposit(t *testing.T) {
	m, err := LimeDeposit(1, 1*GermanDegree)
	require.NoError(t, err)
	assert.InDelta(t, 0.01785, m, 5e-6)
	_, err = LimeDeposit(-1, 1)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

// GNU Units 2.22 (the program units of Debian) has calcium 40.078, carbon 12.011 and
// oxygen 15.9994 g/mol; the degrees are 10 mg of the oxide, or of the carbonate, a litre.
func TestHardnessDegreesByAtomicWeights(t *testing.T) {
	const calcium, carbon, oxygen = 40.078, 12.011, 15.9994
	assert.InEpsilon(t, 10/(calcium+oxygen), GermanDegree, 1e-5)
	assert.InEpsilon(t, 10/(calcium+carbon+3*oxygen), FrenchDegree, 1e-5)
	assert.InEpsilon(t, 1/(calcium+carbon+3*oxygen), MilligramLimePerLitre, 1e-5)
}

// VDI 2035 means its limits for up to three times the content over the life of the
// system.
func TestFillAndMakeupWithinThreeTimesTheContent(t *testing.T) {
	for makeup, want := range map[float64]hydronics.Verdict{0.2999: hydronics.Met, 0.3001: hydronics.NotMet} {
		findings, err := VDI2035In2005.Judge(FillWater{Hardness: 1, HeatOutput: 10e3, SmallestOutput: 10e3, Content: 0.1, Makeup: makeup})
		require.NoError(t, err)
		assert.Equal(t, want, findings[1].Verdict)
	}
}

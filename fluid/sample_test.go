package fluid

import (
	"math"
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSampleRoundTrips(t *testing.T) {
	for _, s := range Solutes() {
		top := math.Min(40, solutions[s].maxTemp)
		for _, temp := range []float64{5, 12, 20, top} {
			for x := 0.0; x <= solutions[s].maxMass; x += 3 {
				l, err := s.ByMass(x / 100)
				require.NoError(t, err)
				back, err := s.ByDensity(s.densityAt(x/100, temp), temp)
				require.NoError(t, err)
				assert.InDelta(t, x/100, back.MassFraction(), 1e-9, "%v from density", s)
				if s.index20() == 0 || temp < 15 || temp > 30 {
					_, err := l.RefractiveIndex(temp)
					require.ErrorIs(t, err, hydronics.ErrRange)
					continue
				}
				n, err := l.RefractiveIndex(temp)
				require.NoError(t, err)
				back, err = s.ByRefractiveIndex(n, temp)
				if s == Methanol {
					require.ErrorIs(t, err, hydronics.ErrRange)
					continue
				}
				require.NoError(t, err)
				assert.InDelta(t, x/100, back.MassFraction(), 1e-8, "%v from refractive index", s)
			}
		}
	}
}

// Every inverse needs a property that only rises or only falls with concentration.
func TestSamplePropertiesAreMonotonic(t *testing.T) {
	for _, s := range Solutes() {
		for temp := 5.0; temp <= math.Min(40, solutions[s].maxTemp); temp += 2.5 {
			monotonic(t, s, "density", func(w float64) float64 { return s.densityAt(w, temp) })
			if s.index20() != 0 && s != Methanol && temp >= 15 && temp <= 30 {
				monotonic(t, s, "refractive index", func(w float64) float64 { return s.refractiveIndex(w, s.densityAt(w, temp)) })
			}
		}
	}
}

func monotonic(t *testing.T, s Solute, what string, f func(w float64) float64) {
	t.Helper()
	max := solutions[s].maxMass / 100
	rising := f(max) > f(0)
	for w := 0.0; w+0.002 <= max; w += 0.002 {
		if (f(w+0.002) > f(w)) != rising {
			t.Errorf("%v: %s turns at %.3f", s, what, w)
		}
	}
}

func TestBrixRoundTrip(t *testing.T) {
	for b := 0.0; b <= 50; b += 0.25 {
		n, err := BrixIndex(b)
		require.NoError(t, err)
		back, err := Brix(n)
		require.NoError(t, err)
		assert.InDelta(t, b, back, 1e-10)
	}
	_, err := BrixIndex(50.001)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = Brix(1.33)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = PropyleneGlycol.ByBrix(49)
	require.ErrorIs(t, err, hydronics.ErrRange)
}

func TestDosingKeepsMassAndSolute(t *testing.T) {
	glycol, err := PropyleneGlycol.Concentrate()
	require.NoError(t, err)
	premix := Concentrate{PropyleneGlycol, 0.5, 1041}
	plain := Concentrate{MassFraction: 0, Density: waterDensity20}
	weak, err := PropyleneGlycol.ByMass(0.15)
	require.NoError(t, err)
	strong, err := PropyleneGlycol.ByMass(0.35)
	require.NoError(t, err)
	for _, d := range []Dosing{
		{0.2, Water(), strong, glycol},
		{0.2, weak, strong, glycol},
		{3, weak, strong, premix},
		{0.2, strong, weak, plain},
		{0.2, strong, Water(), plain},
		{0.2, weak, weak, glycol},
	} {
		before, err := d.From.mixing()
		require.NoError(t, err)
		after, err := d.To.mixing()
		require.NoError(t, err)

		r, err := d.Replace()
		require.NoError(t, err)
		assert.InDelta(t, d.Content*after, (d.Content-r.Drain)*before+r.ConcentrateMass, 1e-9)
		assert.InDelta(t, d.Content*after*d.To.mass, (d.Content-r.Drain)*before*d.From.mass+r.ConcentrateMass*d.Concentrate.MassFraction, 1e-9)
		assert.InDelta(t, r.ConcentrateMass, r.Concentrate*d.Concentrate.Density, 1e-9)

		a, err := d.TopUp()
		if d.To.mass == d.Concentrate.MassFraction {
			require.ErrorIs(t, err, hydronics.ErrNoSolution)
			continue
		}
		require.NoError(t, err)
		assert.InDelta(t, a.Content*after, d.Content*before+a.ConcentrateMass, 1e-9)
		assert.InDelta(t, a.Content*after*d.To.mass, d.Content*before*d.From.mass+a.ConcentrateMass*d.Concentrate.MassFraction, 1e-9)
	}
	fill, err := NewFill(0.2, strong, glycol)
	require.NoError(t, err)
	density, err := strong.Density(20)
	require.NoError(t, err)
	assert.InDelta(t, 0.2*density, fill.ConcentrateMass+fill.Water*waterDensity20, 1e-9)
	assert.InDelta(t, 0.2*density*0.35, fill.ConcentrateMass, 1e-9)
	assert.Greater(t, fill.Concentrate+fill.Water, 0.2, "mixing shrinks")
}

func TestDosingRefuses(t *testing.T) {
	glycol, err := PropyleneGlycol.Concentrate()
	require.NoError(t, err)
	weak, err := PropyleneGlycol.ByMass(0.2)
	require.NoError(t, err)
	strong, err := PropyleneGlycol.ByMass(0.4)
	require.NoError(t, err)
	other, err := EthyleneGlycol.ByMass(0.3)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		d    Dosing
		want error
	}{
		"the other way":        {Dosing{0.2, strong, weak, glycol}, hydronics.ErrNoSolution},
		"too strong":           {Dosing{0.2, weak, strong, Concentrate{PropyleneGlycol, 0.3, 1030}}, hydronics.ErrNoSolution},
		"nothing to add":       {Dosing{0.2, weak, weak, Concentrate{PropyleneGlycol, 0.2, 1015}}, hydronics.ErrNoSolution},
		"two glycols":          {Dosing{0.2, other, strong, glycol}, hydronics.ErrRange},
		"thinned into another": {Dosing{0.2, other, weak, Concentrate{Density: 998}}, hydronics.ErrRange},
		"litres for m³":        {Dosing{2e5, weak, strong, glycol}, hydronics.ErrRange},
		"nothing":              {Dosing{}, hydronics.ErrRange},
	} {
		got, err := c.d.Replace()
		require.ErrorIs(t, err, c.want, name)
		assert.Equal(t, Dose{}, got, name)
		got, err = c.d.TopUp()
		require.ErrorIs(t, err, c.want, name)
		assert.Equal(t, Dose{}, got, name)
	}
	_, err = NewFill(0.2, other, glycol)
	require.ErrorIs(t, err, hydronics.ErrRange)
	_, err = SodiumChloride.Concentrate()
	require.ErrorIs(t, err, hydronics.ErrRange)
}

package pipe_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A fitting loses the same whatever bore its coefficients are referred to.
func TestReferenceBore(t *testing.T) {
	p := fluid.Properties{Density: 1040, DynamicViscosity: 5e-3}
	f, err := pipe.ThreeK.Fitting("elbow 90°, threaded", 0.016)
	require.NoError(t, err)
	for _, flow := range []float64{1e-6, 1e-5, 1e-4, 5e-4} {
		own, err := pipe.Run{Bore: f.Bore, Zeta: f.Zeta, ZetaLaminar: f.ZetaLaminar}.Loss(flow, p)
		require.NoError(t, err)
		for _, bore := range []float64{0.010, 0.026, 0.05} {
			r, err := pipe.Run{Bore: bore}.With(f)
			require.NoError(t, err)
			l, err := r.Loss(flow, p)
			require.NoError(t, err)
			assert.InEpsilon(t, own.Total, l.Total, 1e-12)
		}
	}
}

// A valve loses the same as Kv and as loss coefficient.
func TestKvAsZeta(t *testing.T) {
	p := water(t, 45)
	for _, kv := range []pipe.Kv{0.16, 1, 2.5, 40} {
		zeta, err := kv.Zeta(0.02)
		require.NoError(t, err)
		back, err := pipe.KvOfZeta(zeta, 0.02)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(kv), float64(back), 1e-12)
		a, err := pipe.Run{Bore: 0.02, Kv: kv}.Loss(1e-4, p)
		require.NoError(t, err)
		b, err := pipe.Run{Bore: 0.02, Zeta: zeta}.Loss(1e-4, p)
		require.NoError(t, err)
		c, err := kv.Loss(1e-4, p.Density)
		require.NoError(t, err)
		assert.InEpsilon(t, a.Total, b.Total, 1e-12)
		assert.InEpsilon(t, a.Total, c, 1e-12)
	}
}

// By definition: Kv 1 passes 1 m³/h at 1 bar, two in series 1/√2 of it, two in
// parallel twice as much.
func TestKvDefinition(t *testing.T) {
	flow, err := pipe.Kv(1).Flow(hydronics.Bar, 1000)
	require.NoError(t, err)
	assert.InEpsilon(t, hydronics.CubicMetrePerHour, flow, 1e-15)
	s, err := pipe.KvInSeries(1, 1)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.70710678, float64(s), 1e-8)
	p, err := pipe.KvInParallel(1, 1)
	require.NoError(t, err)
	assert.Equal(t, pipe.Kv(2), p)
	_, err = pipe.KvInSeries()
	assert.ErrorIs(t, err, hydronics.ErrRange)
}

func TestMethodNames(t *testing.T) {
	for m := pipe.TwoK; m <= pipe.Crane; m++ {
		require.NotEmpty(t, m.Names())
		for _, name := range m.Names() {
			f, err := m.Fitting(name, 0.026)
			require.NoError(t, err)
			assert.True(t, f.Zeta > 0 && f.Uncertainty > 0, "%v, %s: %+v", m, name, f)
		}
		_, err := m.Fitting("corkscrew", 0.026)
		assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	}
	_, err := pipe.Method(0).Fitting("globe valve", 0.026)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
}

// The formula of the source leaves a gap between branches of 2/3 and of the
// full bore.
func TestTeeGap(t *testing.T) {
	for ratio, fine := range map[float64]bool{0.5: true, 0.66: true, 0.7: false, 0.9: false, 1: true, 1.1: false} {
		_, _, err := pipe.Tee{Run: 0.026, Branch: 0.026 * ratio, Share: 0.3}.Dividing()
		assert.Equal(t, fine, err == nil, "branch of %g bores: %v", ratio, err)
	}
	f, err := pipe.Tee{Run: 0.026, Branch: 0.02, Share: 0.3}.CombiningIntoBranch()
	require.NoError(t, err)
	assert.Equal(t, hydronics.FromMemory, f.Source.Provenance)
	assert.Equal(t, 0.02, f.Bore)
	g, err := pipe.Tee{Run: 0.026, Branch: 0.02, Share: 0.3}.DividingFromBranch()
	require.NoError(t, err)
	assert.Less(t, g.Zeta, f.Zeta)
}

// Worked by hand: ten elbows of ζ 1, uncertain by 40 %, at ρV²/2 = 500 Pa,
// and friction by the run's own figures.
func TestUncertainty(t *testing.T) {
	p := fluid.Properties{Density: 1000, DynamicViscosity: 1e-3}
	elbow := pipe.Fitting{Zeta: 1, Bore: 0.02, Uncertainty: 0.4}
	r := pipe.Run{Bore: 0.02, Length: 10}
	for range 10 {
		var err error
		r, err = r.With(elbow)
		require.NoError(t, err)
	}
	assert.InDelta(t, 4, r.ZetaUncertainty, 1e-12)
	l, err := r.Loss(3.14159265359e-4, p)
	require.NoError(t, err)
	assert.InEpsilon(t, 5000, l.Fittings, 1e-9)
	assert.InEpsilon(t, math.Hypot(2000, 0.05*l.Friction), l.Uncertainty, 1e-9)
}

// The documentation says how far the two correlations lie apart.
func TestContractionsApart(t *testing.T) {
	const large = 0.1
	for small := 0.001; small < large; small += 0.001 {
		c, err := pipe.Contraction(large, small)
		require.NoError(t, err)
		s, err := pipe.SharpContraction(large, small)
		require.NoError(t, err)
		ratio := s.Zeta / c.Zeta
		switch beta := small / large; {
		case beta <= 0.8:
			assert.True(t, ratio >= 1.135 && ratio <= 1.39, "β = %g: %g", beta, ratio)
		case beta >= 0.9:
			assert.Less(t, ratio, 1.0, "β = %g", beta)
		}
	}
}

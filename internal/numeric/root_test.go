package numeric_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRootOfKnownFunctions(t *testing.T) {
	for _, c := range []struct {
		name    string
		f       func(float64) float64
		a, b, x float64
	}{
		{"cosine, the number of Dottie, OEIS A003957", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.73908513321516064},
		{"omega constant, OEIS A030178", func(x float64) float64 { return x*math.Exp(x) - 1 }, 0, 1, 0.56714329040978387},
		{"square root of 2", func(x float64) float64 { return x*x - 2 }, 2, 0, math.Sqrt2},
		{"steep", func(x float64) float64 { return math.Expm1(400 * (x - 0.9)) }, 0, 1, 0.9},
		{"flat triple root", func(x float64) float64 { return (x - 0.3) * (x - 0.3) * (x - 0.3) }, -1, 1, 0.3},
		{"root at the lower end", func(x float64) float64 { return x }, 0, 1, 0},
		{"root at the upper end", func(x float64) float64 { return x - 1 }, 0, 1, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			x, err := numeric.Root(c.f, c.a, c.b, 1e-14)
			require.NoError(t, err)
			assert.InDelta(t, c.x, x, 2e-14)
		})
	}
}

func TestRootRefuses(t *testing.T) {
	nan := func(float64) float64 { return math.NaN() }
	for name, f := range map[string]func(float64) float64{
		"no change of sign": func(x float64) float64 { return x*x + 1 },
		"NaN everywhere":    nan,
		"NaN inside": func(x float64) float64 {
			if x > 0.1 && x < 0.9 {
				return math.NaN()
			}
			return x - 0.5
		},
	} {
		x, err := numeric.Root(f, 0, 1, 1e-12)
		require.ErrorIs(t, err, hydronics.ErrNoSolution, name)
		assert.True(t, math.IsNaN(x), name)
	}
}

func TestRootAllocatesNothing(t *testing.T) {
	k := 2.0
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		_, _ = numeric.Root(func(x float64) float64 { return x*x - k }, 0, 2, 1e-12)
	}))
}

func FuzzRoot(f *testing.F) {
	f.Add(1.0, 2.0, 3.0)
	f.Fuzz(func(t *testing.T, a, b, shift float64) {
		g := func(x float64) float64 { return math.Atan(x - shift) }
		x, err := numeric.Root(g, a, b, 1e-9)
		if (err == nil) != !math.IsNaN(x) {
			t.Fatalf("Root = %g with error %v", x, err)
		}
		if err == nil && (x < math.Min(a, b) || x > math.Max(a, b)) {
			t.Fatalf("Root = %g outside [%g, %g]", x, a, b)
		}
	})
}

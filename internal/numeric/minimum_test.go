package numeric_test

import (
	"math"
	"testing"

	"example.com/hydronics/internal/numeric"
	"github.com/stretchr/testify/assert"
)

func TestMinimum(t *testing.T) {
	evaluations := 0
	count := func(f func(float64) float64) func(float64) float64 {
		return func(x float64) float64 { evaluations++; return f(x) }
	}
	for name, c := range map[string]struct {
		f       func(float64) float64
		a, b, x float64
	}{
		"parabola":     {func(x float64) float64 { return (x - 2) * (x - 2) }, -10, 30, 2},
		"cosine":       {math.Cos, 0, 6, math.Pi},
		"kink":         {func(x float64) float64 { return math.Abs(x - 1) }, -3, 10, 1},
		"left end":     {func(x float64) float64 { return x }, 1, 5, 1},
		"right end":    {func(x float64) float64 { return -x * x * x }, 1, 5, 5},
		"x log x":      {func(x float64) float64 { return x * math.Log(x) }, 1e-6, 3, 1 / math.E},
		"flat quartic": {func(x float64) float64 { return math.Pow(x-0.3, 4) }, -1, 1, 0.3},
	} {
		evaluations = 0
		got := numeric.Minimum(count(c.f), c.a, c.b, 1e-5)
		assert.InDelta(t, c.x, got, 2e-5, name)
		assert.Less(t, evaluations, 60, name)
		assert.GreaterOrEqual(t, got, c.a, name)
		assert.LessOrEqual(t, got, c.b, name)
	}
	assert.False(t, math.IsNaN(numeric.Minimum(func(float64) float64 { return math.NaN() }, 0, 1, 1e-3)))
}

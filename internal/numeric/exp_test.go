package numeric_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/hydronics/internal/numeric"
)

// bigExp returns e^v to far more digits than a float64 has, by the series of
// e^(v/2^12), squared twelve times.
func bigExp(v float64) *big.Float {
	x := new(big.Float).SetPrec(300).SetFloat64(math.Ldexp(v, -12))
	sum, term := new(big.Float).SetPrec(300).SetInt64(1), new(big.Float).SetPrec(300).SetInt64(1)
	for n := int64(1); n < 30; n++ {
		term.Quo(term.Mul(term, x), new(big.Float).SetPrec(300).SetInt64(n))
		sum.Add(sum, term)
	}
	for range 12 {
		sum.Mul(sum, sum)
	}
	return sum
}

func TestExp(t *testing.T) {
	check := func(v float64) {
		t.Helper()
		want := bigExp(v)
		ratio := new(big.Float).SetPrec(300).SetFloat64(numeric.Exp(v))
		d, _ := ratio.Sub(ratio.Quo(ratio, want), big.NewFloat(1)).Float64()
		if !(math.Abs(d) <= 3e-16) {
			t.Fatalf("Exp(%g) is off by %g", v, d)
		}
	}
	for k := -130; k <= 130; k++ { // the joints of the table, and its middles
		v := float64(k) / 128 * math.Ln2
		check(v)
		check(math.Nextafter(v, 1))
		check(math.Nextafter(v, -1))
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		check(20*rng.Float64() - 10)
		check(1400*rng.Float64() - 700)
	}
	for _, v := range []float64{0, 1, -1, 700, -700, math.SmallestNonzeroFloat64} {
		check(v)
	}
}

func BenchmarkExp(b *testing.B) {
	v, sum := -3.0, 0.0
	for b.Loop() {
		sum += numeric.Exp(v)
		if v += 1e-3; v > 3 {
			v = -3
		}
	}
}

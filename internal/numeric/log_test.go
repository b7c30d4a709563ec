package numeric_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/hydronics/internal/numeric"
)

// bigLog returns ln v to far more digits than a float64 has, by the series
// ln v = e ln 2 + 2 artanh((m-1)/(m+1)) for v = 2^e m.
func bigLog(v float64) *big.Float {
	artanh2 := func(x *big.Float) *big.Float {
		sum, power, square := new(big.Float).SetPrec(200), new(big.Float).SetPrec(200).Set(x), new(big.Float).SetPrec(200).Mul(x, x)
		for n := int64(1); n < 140; n += 2 { // (1/3)^140 is below 2^-220
			term := new(big.Float).SetPrec(200).Quo(power, new(big.Float).SetInt64(n))
			sum.Add(sum, term)
			power.Mul(power, square)
		}
		return sum.Mul(sum, big.NewFloat(2))
	}
	m, e := math.Frexp(v) // 0.5 <= m < 1
	b := new(big.Float).SetPrec(200).SetFloat64(m)
	one := big.NewFloat(1)
	x := new(big.Float).SetPrec(200).Quo(new(big.Float).SetPrec(200).Sub(b, one), new(big.Float).SetPrec(200).Add(b, one))
	third := new(big.Float).SetPrec(200).Quo(one, new(big.Float).SetPrec(200).SetInt64(3))
	ln2 := artanh2(third) // ln 2 = 2 artanh(1/3)
	return x.Add(artanh2(x), ln2.Mul(ln2, new(big.Float).SetInt64(int64(e))))
}

func TestLogSmall(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	check := func(v float64) {
		t.Helper()
		want := bigLog(v)
		d, _ := new(big.Float).Sub(new(big.Float).SetFloat64(numeric.LogSmall(v)), want).Float64()
		w, _ := want.Float64()
		if !(math.Abs(d) <= 1e-15+2e-16*math.Abs(w)) {
			t.Fatalf("LogSmall(%g) is off by %g", v, d)
		}
	}
	for i := range 128 { // the joints of the table
		m := 0.25 + 0.25*float64(i)/128
		check(m)
		check(math.Nextafter(m, 0))
	}
	for range 2000 {
		check(math.Exp(-0.7 - 40*rng.Float64()))
	}
	check(0.5)
	check(0x1p-1022)
}

func BenchmarkLogSmall(b *testing.B) {
	v, sum := 1e-6, 0.0
	for b.Loop() {
		sum += numeric.LogSmall(v)
		if v *= 1.001; v > 0.5 {
			v = 1e-6
		}
	}
}

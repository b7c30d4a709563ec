package pipe

import (
	"math"
	"testing"
)

// The implicit equation is met to 1e-13 all over the Moody chart.
func TestColebrookResidual(t *testing.T) {
	worst := 0.0
	for lre := math.Log10(2000); lre <= 8; lre += 0.01 {
		for lrr := -9.0; lrr <= math.Log10(0.05)+1e-9; lrr += 0.05 {
			re, rr := math.Pow(10, lre), math.Min(math.Pow(10, lrr), 0.05)
			if lrr == -9 {
				rr = 0
			}
			f, n := colebrook(re, rr)
			x := 1 / math.Sqrt(f)
			y := rr/3.7 + 2.51*x/re
			res := math.Abs(x+2*math.Log10(y)) / x
			worst = math.Max(worst, res)
			if want := 2 / (1 + perDecade*2.51/re/y); math.Abs(n/want-1) > 1e-13 {
				t.Fatalf("re %g rr %g: slope %g, want %g", re, rr, n, want)
			}
		}
	}
	if !(worst <= 1e-13) {
		t.Errorf("worst relative residual %.2g, want at most 1e-13", worst)
	}
}

package dhw

import (
	"math"
	"testing"

	"example.com/hydronics/fluid"
)

// The doc comment of HotShare promises 0.006 against real water of 10 to 60 °C,
// whose heat and volume are taken here by IAPWS-IF97: never too much hot water,
// and the most where the mixed water is measured after mixing.
func TestHotShareAgainstRealWater(t *testing.T) {
	for _, c := range [][3]float64{{10, 35, 60}, {10, 40, 60}, {10, 40, 50}, {15, 42, 60}, {10, 55, 60}} {
		cold, mixed, hot := c[0], c[1], c[2]
		share, err := HotShare(cold, mixed, hot)
		if err != nil {
			t.Fatal(err)
		}
		// m = share of the mass from the enthalpies, then volumes by the densities
		h := func(from, to float64) float64 { // ∫ c dT by Simpson's rule on 200 steps
			n, sum := 200, 0.0
			for i := 0; i <= n; i++ {
				w := 2.0
				switch {
				case i == 0 || i == n:
					w = 1
				case i%2 == 1:
					w = 4
				}
				p, err := fluid.Water().At(from + (to-from)*float64(i)/float64(n))
				if err != nil {
					t.Fatal(err)
				}
				sum += w * p.SpecificHeat
			}
			return sum * (to - from) / (3 * float64(n))
		}
		rho := func(x float64) float64 {
			p, err := fluid.Water().At(x)
			if err != nil {
				t.Fatal(err)
			}
			return p.Density
		}
		m := h(cold, mixed) / h(cold, hot)
		volume := (m / rho(hot)) / (m/rho(hot) + (1-m)/rho(cold))
		mixing := m / rho(hot) * rho(mixed) // the mixed volume at its own temperature
		if !(volume >= share && volume-share <= 0.0045 && mixing >= volume && mixing-share <= 0.006) {
			t.Errorf("%v: constant properties %.5f, real water %.5f and %.5f", c, share, volume, mixing)
		} else {
			t.Logf("%v: %.5f, %.5f and %.5f", c, share, volume, mixing)
		}
	}
}

func TestHotShareEnds(t *testing.T) {
	for _, c := range []struct{ mixed, want float64 }{{10, 0}, {60, 1}, {35, 0.5}} {
		if got, err := HotShare(10, c.mixed, 60); err != nil || got != c.want {
			t.Errorf("HotShare(10, %v, 60) = %v, %v", c.mixed, got, err)
		}
	}
	nan := math.NaN()
	for _, c := range [][3]float64{{10, 9.9, 60}, {10, 60.1, 60}, {10, 10, 10}, {60, 40, 10}, {nan, 40, 60}, {10, nan, 60}, {10, 40, nan}, {10, 40, 333}} {
		if got, err := HotShare(c[0], c[1], c[2]); err == nil || !math.IsNaN(got) {
			t.Errorf("HotShare(%v) = %v without an error", c, got)
		}
	}
}

// There and back is the same amount.
func TestAmountThereAndBack(t *testing.T) {
	a := Amount{0.2, 60}
	b, err := a.At(40, 10)
	if err != nil {
		t.Fatal(err)
	}
	c, err := b.At(60, 10)
	if err != nil || math.Abs(c.Volume-a.Volume) > 1e-15 {
		t.Errorf("%v, %v", c, err)
	}
}

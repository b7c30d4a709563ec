package dhw

import (
	"math"

	"example.com/hydronics"
)

// HotShare returns the share of hot water, from 0 to 1, in water mixed to the
// temperature mixed from cold and hot, all in °C:
//
//	share = (mixed - cold)/(hot - cold)
//
// The flow or volume of hot water is the share of the mixed one, the cold is
// the rest. Density and specific heat count as constant, as in the standards;
// between 10 and 60 °C real water takes up to 0.006 more of the hot (0.0045 if
// the mixed water is the sum of two volumes measured each at its own temperature).
//
// It wants 0 <= cold <= mixed <= hot <= 100 and at least 0.1 K between cold and
// hot (guards); outside it returns NaN and a [hydronics.RangeError].
//
// Source: UFC 3-420-01 (US Department of Defense, 2004), clause 506.1.3.
func HotShare(cold, mixed, hot float64) (float64, error) {
	const fn = "dhw.HotShare"
	err := together(water(fn, "cold water", cold), water(fn, "hot water", hot))
	if err == nil {
		err = together(above(fn, "hot water", hot, cold),
			hydronics.Within(fn, "mixed water", "°C", mixed, cold, hot, "between cold and hot"))
	}
	if err != nil {
		return math.NaN(), err
	}
	return (mixed - cold) / (hot - cold), nil
}

// An Amount is a volume of hot water at a temperature.
type Amount struct {
	Volume      float64 // m³, 0 to 1000 (guard)
	Temperature float64 // °C, 0 to 100 (guard)
}

// At returns the amount of water at the temperature t in °C that carries the
// same heat above the temperature cold of the cold water, in °C:
//
//	V(t) = V (T - cold)/(t - cold)
//
// So 200 l at 60 °C are 333 l at 40 °C, if the cold water has 10 °C. Both
// temperatures have to lie at least 0.1 K above cold and at most at 100 °C
// (guards); otherwise the zero Amount comes with a [hydronics.RangeError].
//
// Source: the same balance as [HotShare]; EN 15450, Annex E, as attributed.
func (a Amount) At(t, cold float64) (Amount, error) {
	const fn = "dhw.Amount.At"
	err := together(hydronics.Within(fn, "volume", "m³", a.Volume, 0, 1000, hydronics.Guard),
		water(fn, "cold water", cold), above(fn, "temperature of the amount", a.Temperature, cold),
		above(fn, "temperature asked for", t, cold))
	if err != nil {
		return Amount{}, err
	}
	return Amount{a.Volume * (a.Temperature - cold) / (t - cold), t}, nil
}

package dhw

import (
	"example.com/hydronics"
)

// A Heater is the heat that a source puts into a store, as a function of the
// store's temperature: straight lines through its points, in the order of
// rising temperature. One point is a constant power. Two or more hold from the
// first to the last temperature and nowhere else: a heat pump's capacity falls
// as the store gets hotter, and beyond the last point it may not run at all.
type Heater []HeaterPoint

// A HeaterPoint is one point of a Heater.
type HeaterPoint struct {
	Store float64 // °C, temperature of the store at the coil, 0 to 130; of no account in a single point
	Power float64 // W, 0 to 1e6 (guard)
}

// check reports points outside the guards or out of order.
func (h Heater) check(fn string) error {
	if err := count(fn, "number of heater points", len(h), 1, 1000); err != nil {
		return err
	}
	for i, p := range h {
		if err := hydronics.Within(fn, "heater power", "W", p.Power, 0, maxPower, hydronics.Guard); err != nil {
			return err
		}
		if len(h) == 1 {
			return nil
		}
		low := minWater
		if i > 0 {
			low = h[i-1].Store + 1e-6
		}
		if err := hydronics.Within(fn, "store temperature of a heater point", "°C", p.Store, low, maxPrimary, hydronics.Guard); err != nil {
			return err
		}
	}
	return nil
}

// covers reports temperatures for which h has no power.
func (h Heater) covers(fn string, low, high float64) error {
	if len(h) == 1 {
		return nil
	}
	first, last := h[0].Store, h[len(h)-1].Store
	return together(
		hydronics.Within(fn, "store temperature", "°C", low, first, last, "the heater's points"),
		hydronics.Within(fn, "store temperature", "°C", high, first, last, "the heater's points"))
}

// at returns the power at the store temperature t of a checked heater, flat
// beyond its ends (callers refuse to go there).
func (h Heater) at(t float64) float64 {
	last := len(h) - 1
	if last == 0 || t <= h[0].Store {
		return h[0].Power
	}
	for i := 1; i <= last; i++ {
		if a, b := h[i-1], h[i]; t <= b.Store {
			return a.Power + (b.Power-a.Power)*((t-a.Store)/(b.Store-a.Store))
		}
	}
	return h[last].Power
}

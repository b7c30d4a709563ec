package fluid

import (
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// ByFreezingPoint returns the weakest solution whose first ice forms at the
// temperature t in °C or below it, for t from 0 down to the freezing point of the
// strongest solution (-50 °C for propylene glycol, -51 °C for ethylene glycol).
// Outside it returns the zero Liquid and a [hydronics.RangeError].
//
// The figure is for the plain substance in water and leaves no margin: add one
// for uneven mixing and for the measurement of the concentration.
// Source: Melinder 2010, inverted to 1e-9 in mass fraction.
func (s Solute) ByFreezingPoint(t float64) (Liquid, error) {
	const fn = "fluid.ByFreezingPoint"
	if !s.known() {
		return Liquid{}, fmt.Errorf("%s: solute %d is not one of this package: %w", fn, s, hydronics.ErrRange)
	}
	m := &solutions[s]
	lowest := m.freezing(m.maxMass)
	if !(t >= lowest && t <= 0) {
		return Liquid{}, hydronics.Within(fn, "freezing point of "+s.String()+" solution", "°C", t, lowest, 0, melinder2010)
	}
	if m.freezing(0) <= t { // the fit does not start at exactly 0 °C
		return s.ByMass(0)
	}
	x, err := numeric.Root(func(x float64) float64 { return m.freezing(x) - t }, 0, m.maxMass, 1e-7)
	if err != nil {
		return Liquid{}, fmt.Errorf("%s: %w", fn, err)
	}
	return s.ByMass(x / 100)
}

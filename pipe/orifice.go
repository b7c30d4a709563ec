package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// Orifice is a plate with a sharp-edged hole in the middle of a tube. The
// standard itself covers bores of 50 mm to 1 m and holes of 12.5 mm and more (from
// memory). In smaller tubes its formula is carried over, and the discharge
// coefficient is less certain.
type Orifice struct {
	Bore      float64 // of the tube, m, 0.0005 to 3 (guard)
	Hole      float64 // m, 0.1 to 0.75 of Bore (ISO 5167-2)
	Discharge float64 // discharge coefficient, 0.5 to 1 (guard); about 0.6 for a sharp edge at high Reynolds numbers
}

// Fitting returns the lasting loss of the orifice on the velocity in Bore:
//
//	ζ = (√(1 - β⁴(1 - C²))/(C β²) - 1)²,  β = Hole/Bore
//
// Source: ISO 5167-2:2003, clause 5.4.
func (o Orifice) Fitting() (Fitting, error) {
	const fn, iso = "pipe.Orifice.Fitting", "ISO 5167-2:2003"
	if err := errors.Join(within(fn, "bore", "m", o.Bore, minBore, maxBore),
		hydronics.Within(fn, "hole", "m", o.Hole, 0.1*o.Bore, 0.75*o.Bore, iso),
		within(fn, "discharge coefficient", "", o.Discharge, 0.5, 1)); err != nil {
		return Fitting{}, err
	}
	b := o.Hole / o.Bore
	b2 := b * b
	k := math.Sqrt(1-b2*b2*(1-o.Discharge*o.Discharge))/(o.Discharge*b2) - 1
	return Fitting{Name: "orifice", Zeta: k * k, Bore: o.Bore,
		Source: hydronics.Source{Text: iso + ", 5.4", Provenance: hydronics.ReferenceLibrary}}, nil
}

package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// A Line is the pipe to a relief valve or from it.
type Line struct {
	Bore      float64 // m, 0.005 to 0.3 (guard)
	Length    float64 // m, straight, 0 to 50
	Zeta      float64 // sum of the loss coefficients of entry, bends and tees, 0 to 100
	Roughness float64 // m, 0 to 5 % of the bore
}

// Loss returns the pressure loss in Pa of a line that carries a valve's discharge
// in kg/s, 0 to 20, with the properties where the fluid is thinnest, so that
// the loss comes out on the safe side: before the valve those of the steam there,
// behind it those of steam at atmospheric pressure. What enters the valve at rest
// leaves nothing behind for velocity: give the entry from the vessel in Zeta.
//
// Where the steam would have to move faster than sound no such line exists and the
// error matches [hydronics.ErrNoSolution]: it is too narrow by far.
//
// Source: Darcy-Weisbach, Δp = (λ l/d + Σζ) ρ w²/2.
func (l Line) Loss(massFlow float64, s fluid.State) (float64, error) {
	const fn = "expansion.Line.Loss"
	if err := errors.Join(
		hydronics.Within(fn, "bore", "m", l.Bore, 0.005, 0.3, hydronics.Guard),
		hydronics.Within(fn, "length", "m", l.Length, 0, 50, hydronics.Guard),
		hydronics.Within(fn, "loss coefficients", "", l.Zeta, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "mass flow", "kg/s", massFlow, 0, 20, hydronics.Guard),
		hydronics.Within(fn, "density", "kg/m³", s.Density, 0.1, 1500, hydronics.Guard),
		hydronics.Within(fn, "dynamic viscosity", "Pa·s", s.DynamicViscosity, 1e-6, 0.1, hydronics.Guard),
		hydronics.Within(fn, "speed of sound", "m/s", s.SpeedOfSound, 100, 2000, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	if massFlow == 0 {
		return 0, nil
	}
	w := massFlow / (s.Density * math.Pi / 4 * l.Bore * l.Bore)
	if !(w < s.SpeedOfSound) {
		return math.NaN(), fmt.Errorf("%s: %.4g kg/s in a bore of %.4g mm would move at %.4g m/s, sound at %.4g m/s: %w",
			fn, massFlow, l.Bore/hydronics.Millimetre, w, s.SpeedOfSound, hydronics.ErrNoSolution)
	}
	f, err := pipe.FrictionFactor(w*l.Bore*s.Density/s.DynamicViscosity, l.Roughness/l.Bore)
	if err != nil {
		return math.NaN(), err
	}
	return (f*l.Length/l.Bore + l.Zeta) * s.Density * w * w / 2, nil
}

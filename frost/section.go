package frost

import (
	"errors"
	"math"
	"strconv"

	"example.com/hydronics"
)

// A Layer is one coaxial layer around the bore: the wall of the tube, its
// insulation, a jacket.
type Layer struct {
	Thickness    float64 // m, 1e-5 to 1
	Conductivity float64 // W/(m·K) at 0 °C, 0.005 to 500
	Slope        float64 // W/(m·K²), change of the conductivity per kelvin, -0.1 to 0.1; 0 for a constant one
	HeatCapacity float64 // J/(m³·K), density times specific heat, 0 to 1e7; 0 leaves it out of account, which errs short
}

// A Section is a straight piece of tube with one cross-section: the bore, the
// layers around it from the wall outwards, and the surface that meets the air.
// Insulation diameters in the trade are not always the tube's plus twice the
// nominal thickness; give the thickness that is really there.
type Section struct {
	Bore    float64 // m, inside diameter, 0.001 to 1
	Film    float64 // W/(m²·K) between liquid and wall, 0 or 1 to 1e6; 0 leaves it out, right for standing and for turbulent water
	Layers  []Layer // wall first, then insulation outwards; none for a bore whose wall is left out of account
	Surface Surface // exchange of heat between the outermost layer and the air
}

// Outside returns the diameter over the outermost layer, in m.
// Source: geometry, the bore and twice each thickness.
func (s Section) Outside() float64 {
	d := s.Bore
	for _, l := range s.Layers {
		d += 2 * l.Thickness
	}
	return d
}

func (s *Section) valid() bool {
	ok := s.Bore >= 0.001 && s.Bore <= 1 && s.Surface.valid() && (s.Film == 0 || s.Film >= 1 && s.Film <= 1e6)
	for i := range s.Layers {
		l := &s.Layers[i]
		ok = ok && l.Thickness >= 1e-5 && l.Thickness <= 1 &&
			l.Conductivity >= 0.005 && l.Conductivity <= 500 &&
			l.Slope >= -0.1 && l.Slope <= 0.1 &&
			l.HeatCapacity >= 0 && l.HeatCapacity <= 1e7
	}
	return ok
}

func (s *Section) check(fn string) error {
	if s.valid() {
		return nil
	}
	errs := []error{
		hydronics.Within(fn, "bore", "m", s.Bore, 0.001, 1, hydronics.Guard),
		s.Surface.check(fn),
	}
	if s.Film != 0 {
		errs = append(errs, hydronics.Within(fn, "film coefficient", "W/(m²·K)", s.Film, 1, 1e6, hydronics.Guard))
	}
	for i, l := range s.Layers {
		of := " of layer " + strconv.Itoa(i+1)
		errs = append(errs,
			hydronics.Within(fn, "thickness"+of, "m", l.Thickness, 1e-5, 1, hydronics.Guard),
			hydronics.Within(fn, "conductivity"+of, "W/(m·K)", l.Conductivity, 0.005, 500, hydronics.Guard),
			hydronics.Within(fn, "slope of the conductivity"+of, "W/(m·K²)", l.Slope, -0.1, 0.1, hydronics.Guard),
			hydronics.Within(fn, "heat capacity"+of, "J/(m³·K)", l.HeatCapacity, 0, 1e7, hydronics.Guard))
	}
	return errors.Join(errs...)
}

// checkConductivity refuses a slope that leaves no sensible conductivity
// somewhere between the two temperatures.
func (s Section) checkConductivity(fn string, cold, warm float64) error {
	for i, l := range s.Layers {
		if l.Slope == 0 {
			continue
		}
		of := " of layer " + strconv.Itoa(i+1)
		for _, t := range [...]float64{cold, warm} {
			if err := hydronics.Within(fn, "conductivity"+of+" at the temperatures met", "W/(m·K)",
				l.Conductivity+l.Slope*t, 0.005, 500, hydronics.Guard); err != nil {
				return err
			}
		}
	}
	return nil
}

// film returns the resistance between liquid and wall, in m·K/W.
func (s Section) film() float64 {
	if s.Film == 0 {
		return 0
	}
	return 1 / (math.Pi * s.Bore * s.Film)
}

// perMetre returns the resistance of film and layers to heat flowing outwards,
// with their conductivity at 0 °C: Σ ln(d₂/d₁)/(2π λ), in m·K/W.
func (s Section) perMetre() float64 {
	r, d := s.film(), s.Bore
	for _, l := range s.Layers {
		outer := d + 2*l.Thickness
		r += math.Log(outer/d) / (2 * math.Pi * l.Conductivity)
		d = outer
	}
	return r
}

package pipe

import (
	"fmt"
	"strings"

	"example.com/hydronics"
)

// A Figure is one property of a material: the value that the catalogue uses,
// the range that published sources span, and who says so. Min and Max equal
// Value where only one source was found.
type Figure struct {
	Value, Min, Max float64
	Source          hydronics.Source
}

// A Material is what the wall of a tube is made of. The figures are those of
// new, clean material at room temperature; sources disagree by a few per cent
// for metals and by 30 % for plastics, so use the producer's where they matter.
type Material struct {
	Name            string
	Roughness       Figure // absolute, m
	Conductivity    Figure // W/(m·K)
	Density         Figure // kg/m³
	SpecificHeat    Figure // J/(kg·K)
	Expansion       Figure // linear, 1/K
	Modulus         Figure // Young's, Pa; falls steeply with temperature in plastics
	OxygenPermeable bool   // without a barrier layer air enters the water, and steel in the system rusts
}

// Materials returns the materials of the catalogue.
func Materials() []Material { return append([]Material(nil), materials()...) }

// MaterialOf returns the material of that name ("copper", "steel", "stainless
// steel", "PE-X", "PE-RT", "PP-R", "PB", "PE 100", "multilayer"), and
// [hydronics.ErrNoSolution] for any other name.
func MaterialOf(name string) (Material, error) {
	var names []string
	for _, m := range materials() {
		if m.Name == name {
			return m, nil
		}
		names = append(names, m.Name)
	}
	return Material{}, fmt.Errorf("pipe.MaterialOf: %w: no material %q; there are %s",
		hydronics.ErrNoSolution, name, strings.Join(names, ", "))
}

func materials() []Material {
	const (
		quoted   = hydronics.SecondHand
		recalled = hydronics.FromMemory
		mm       = hydronics.Millimetre
		gpa      = 1e9
		micro    = 1e-6
	)
	fig := func(v, lo, hi float64, p hydronics.Provenance, text string) Figure {
		return Figure{v, lo, hi, hydronics.Source{Text: text, Provenance: p}}
	}
	one := func(v float64, p hydronics.Provenance, text string) Figure { return fig(v, v, v, p, text) }
	const (
		hi      = "Hydraulic Institute, Engineering Data Book, Table 3.A.1"
		hiTubes = "Hydraulic Institute, Engineering Data Book, plastic pipe tables"
		aixlib  = "building simulation library AixLib, tube records"
		rates   = "engineering and trade-press tables of expansion rates"
		plain   = "usual design value"
	)
	plastic := func(name string, conductivity, density, heat, expansion, modulus Figure) Material {
		// Practice after DIN 1988-300 is 0.007 mm (from memory): the upper end.
		return Material{name, fig(0.0021*mm, 0.0015*mm, 0.007*mm, quoted, hiTubes),
			conductivity, density, heat, expansion, modulus, true}
	}
	drawn := fig(0.0015*mm, 0.0015*mm, 0.01*mm, quoted, hi+"; range of Idelchik, Handbook of Hydraulic Resistance, diagram 2-1")
	return []Material{
		{"copper", drawn,
			fig(305, 290, 393, recalled, "phosphorus-deoxidised copper; pure copper 393"), one(8900, quoted, aixlib), one(390, quoted, aixlib),
			fig(16.4*micro, 16.4*micro, 17*micro, quoted, rates), fig(120*gpa, 110*gpa, 130*gpa, recalled, plain), false},
		{"steel", fig(0.0457*mm, 0.02*mm, 0.1*mm, quoted, hi+"; range of Idelchik, Handbook of Hydraulic Resistance, diagram 2-1, new seamless tubes"),
			one(50, quoted, aixlib), one(7850, quoted, aixlib), one(460, quoted, aixlib),
			fig(12.2*micro, 12*micro, 12.2*micro, quoted, rates), one(210*gpa, recalled, plain), false},
		// Practice after DIN 1988-300 is 0.0015 mm (from memory): the lower end.
		{"stainless steel", fig(0.015*mm, 0.0015*mm, 0.015*mm, quoted, hi),
			one(15, recalled, "austenitic"), one(7900, recalled, "austenitic"), one(500, recalled, "austenitic"),
			one(16.3*micro, quoted, rates), one(200*gpa, recalled, plain), false},
		plastic("PE-X", one(0.38, quoted, aixlib), one(940, quoted, aixlib), one(2300, quoted, aixlib),
			fig(180*micro, 150*micro, 200*micro, quoted, rates), one(0.6*gpa, recalled, plain)),
		plastic("PE-RT", one(0.4, recalled, plain), one(940, recalled, plain), one(2300, recalled, plain),
			fig(180*micro, 150*micro, 200*micro, recalled, "as polyethylene"), one(0.6*gpa, recalled, plain)),
		plastic("PP-R", one(0.22, recalled, plain), one(900, recalled, plain), one(2000, recalled, plain),
			one(150*micro, quoted, rates), one(0.8*gpa, recalled, plain)),
		plastic("PB", one(0.22, recalled, plain), one(930, recalled, plain), one(1900, recalled, plain),
			one(130*micro, quoted, rates), one(0.45*gpa, recalled, plain)),
		plastic("PE 100", one(0.4, recalled, plain), one(955, recalled, plain), one(1900, recalled, plain),
			one(200*micro, quoted, rates), one(1*gpa, recalled, plain)),
		{"multilayer", fig(0.0021*mm, 0.0015*mm, 0.007*mm, quoted, hiTubes),
			fig(0.43, 0.40, 0.45, recalled, plain), one(1300, recalled, plain), one(1700, recalled, plain),
			one(25*micro, quoted, rates), fig(3*gpa, 2*gpa, 10*gpa, recalled, "layers taken together"), false},
	}
}

// Tube returns a tube of your own with the outside diameter and the wall in m
// and the typical figures of the material; change its fields where the maker
// states others. Dimensions that cannot be meant give the error of [Tube.Check].
func (m Material) Tube(outside, wall float64) (Tube, error) {
	t := Tube{Outside: outside, Wall: wall}.of(m)
	if err := t.Check(); err != nil {
		return Tube{}, err
	}
	return t, nil
}

// of returns the tube with the figures of a material.
func (t Tube) of(m Material) Tube {
	t.Material, t.OxygenPermeable = m.Name, m.OxygenPermeable
	t.Roughness, t.Conductivity = m.Roughness.Value, m.Conductivity.Value
	t.Density, t.SpecificHeat = m.Density.Value, m.SpecificHeat.Value
	t.Expansion, t.Modulus = m.Expansion.Value, m.Modulus.Value
	return t
}

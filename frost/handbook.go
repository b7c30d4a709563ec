package frost

import (
	"math"

	"example.com/hydronics"
)

// HandbookLump returns the lump of the handbook equation for the time in which
// standing water in an insulated tube cools to its freezing point: the water's
// own heat capacity, and the resistance of the insulation alone. Wall, film of
// air and their capacities are left out: two simplifications that shorten the
// time and one, the wall's conduction, that does not matter. Feed it to
// [Lump.CoolingTime].
//
//	C = ρ c π dᵢ²/4,  R = ln(D₂/D₁)/(2π λ)
//
// bore is the tube's, inner and outer are the diameters of the insulation, in m
// (0.001 to 3, rising); conductivity in W/(m·K), 0.005 to 500.
//
// Source: ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23, equations 1 and 2.
func HandbookLump(m Medium, shell Shell) (Lump, error) {
	const fn = "frost.HandbookLump"
	err := joined(m.check(fn),
		hydronics.Within(fn, "bore", "m", shell.Bore, 0.001, 1, hydronics.Guard),
		hydronics.Within(fn, "inner diameter of the insulation", "m", shell.Inner, shell.Bore, 3, "the bore at least"),
		hydronics.Within(fn, "outer diameter of the insulation", "m", shell.Outer, shell.Inner+1e-5, 3, "more than the inner diameter"),
		hydronics.Within(fn, "conductivity of the insulation", "W/(m·K)", shell.Conductivity, 0.005, 500, hydronics.Guard))
	if err != nil {
		return Lump{}, err
	}
	return Lump{
		Bore:       shell.Bore,
		Resistance: math.Log(shell.Outer/shell.Inner) / (2 * math.Pi * shell.Conductivity),
		Capacity:   m.content(shell.Bore) * m.SpecificHeat,
		Medium:     m,
	}, nil
}

// A Shell is the insulation of the handbook equation: a tube's bore and the
// diameters of the insulation around it, which need not touch the tube.
type Shell struct {
	Bore         float64 // m, inside diameter of the tube, 0.001 to 1
	Inner, Outer float64 // m, diameters of the insulation, Bore to 3
	Conductivity float64 // W/(m·K), 0.005 to 500
}

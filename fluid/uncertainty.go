package fluid

import (
	"fmt"

	"example.com/hydronics"
)

// Uncertainty says how far the figures of a liquid can be off, so that it can be
// carried on: relative, except for the freezing point. The limits are wide enough
// that the independent tables of the audit lie within them; they are not standard
// deviations.
type Uncertainty struct {
	Density          float64 // relative
	SpecificHeat     float64 // relative
	Conductivity     float64 // relative
	DynamicViscosity float64 // relative
	FreezingPoint    float64 // K
	Source           hydronics.Source
}

// Uncertainty returns how far the properties of l can be off, for the plain
// substance in water. Commercial products with inhibitors differ by more: up to 1 %
// in density, 5 % in conductivity and 20 % in viscosity. For the zero Liquid it
// returns the zero Uncertainty and an error matching [hydronics.ErrRange].
//
// The author of the solution polynomials states no uncertainty. The figures for the
// glycols, glycerol, methanol and potassium acetate are the largest differences to
// other compilations, rounded up; no second source was found for the rest, which
// get the largest of these.
func (l Liquid) Uncertainty() (Uncertainty, error) {
	compared := hydronics.Source{Text: "largest differences between independent tables (see the audit), rounded up", Provenance: hydronics.SecondHand}
	assumed := hydronics.Source{Text: "by analogy with the solutions that have a second source", Provenance: hydronics.CommonPractice}
	switch {
	case l.isZero():
		return Uncertainty{}, fmt.Errorf("fluid.Liquid.Uncertainty: %w: %w", hydronics.ErrRange, errZeroLiquid)
	case l.IsWater():
		return Uncertainty{5e-5, 2e-3, 0.015, 0.01, 0.01,
			hydronics.Source{Text: "IAPWS R6-95, R7-97, R12-08, R15-11, stated uncertainties", Provenance: hydronics.FromMemory}}, nil
	}
	freezing := 0.5
	if l.mass > 0.45 {
		freezing = 2
	}
	switch l.solute {
	case PropyleneGlycol:
		return Uncertainty{0.002, 0.05, 0.02, 0.15, freezing, compared}, nil
	case EthyleneGlycol:
		return Uncertainty{0.002, 0.05, 0.08, 0.10, freezing, compared}, nil
	case Glycerol:
		return Uncertainty{0.003, 0.02, 0.02, 0.10, freezing, compared}, nil
	case Methanol:
		return Uncertainty{0.002, 0.12, 0.02, 0.10, freezing, compared}, nil
	case PotassiumAcetate:
		return Uncertainty{0.003, 0.02, 0.02, 0.10, freezing, compared}, nil
	default:
		return Uncertainty{0.005, 0.12, 0.08, 0.15, freezing, assumed}, nil
	}
}

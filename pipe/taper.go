package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// A Taper is a conical change of bore, such as a reducer.
type Taper struct {
	Small, Large float64 // bores, m, 0.0005 to 3 (guard)
	Angle        float64 // full opening angle of the cone, rad, 0.01 to π (guard)
}

// Widening returns the loss of the flow from the smaller bore into the larger,
// on the velocity in the smaller, with β the ratio of the bores:
//
//	ζ = 2.6 sin(θ/2) (1 - β²)²    θ <= 45°
//	ζ = (1 - β²)²                 wider: no better than a sudden [Enlargement]
//
// Source: Crane Technical Paper 410 (2009), appendix A, gradual enlargement.
func (t Taper) Widening() (Fitting, error) {
	b2, err := t.check("pipe.Taper.Widening")
	if err != nil {
		return Fitting{}, err
	}
	k := 1.0
	if t.Angle <= math.Pi/4 {
		k = 2.6 * math.Sin(t.Angle/2)
	}
	return t.fitting("widening taper", k*(1-b2)*(1-b2)), nil
}

// Narrowing returns the loss of the flow from the larger bore into the smaller,
// on the velocity in the smaller:
//
//	ζ = 0.8 sin(θ/2) (1 - β²)     θ <= 45°
//	ζ = 0.5 √sin(θ/2) (1 - β²)    wider, up to the sudden [Contraction]
//
// Source: Crane Technical Paper 410 (2009), appendix A, gradual contraction.
func (t Taper) Narrowing() (Fitting, error) {
	b2, err := t.check("pipe.Taper.Narrowing")
	if err != nil {
		return Fitting{}, err
	}
	s := math.Sin(t.Angle / 2)
	k := 0.5 * math.Sqrt(s)
	if t.Angle <= math.Pi/4 {
		k = 0.8 * s
	}
	return t.fitting("narrowing taper", k*(1-b2)), nil
}

func (t Taper) fitting(name string, zeta float64) Fitting {
	return Fitting{Name: name, Zeta: zeta, Bore: t.Small,
		Source: hydronics.Source{Text: "Crane Technical Paper 410 (2009), appendix A", Provenance: hydronics.ReferenceLibrary}}
}

func (t Taper) check(fn string) (float64, error) {
	b2, err := boreRatio(fn, t.Small, t.Large)
	return b2, errors.Join(err, within(fn, "angle", "rad", t.Angle, 0.01, math.Pi))
}

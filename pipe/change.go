package pipe

import (
	"errors"

	"example.com/hydronics"
)

// Enlargement returns the loss of a sudden change from the smaller bore to the
// larger, both in m: ζ = (1 - β²)², on the velocity in the smaller, where β is
// the ratio of the bores. An outlet into a tank is the limit ζ = 1.
// Source: Borda and Carnot, in every handbook.
func Enlargement(small, large float64) (Fitting, error) {
	b2, err := boreRatio("pipe.Enlargement", small, large)
	if err != nil {
		return Fitting{}, err
	}
	return Fitting{Name: "sudden enlargement", Zeta: (1 - b2) * (1 - b2), Bore: small,
		Source: hydronics.Source{Text: "Borda and Carnot; Crane Technical Paper 410 (2009), formula 2-9", Provenance: hydronics.SecondHand}}, nil
}

// Contraction returns the loss of a sudden change from the larger bore to the
// smaller, both in m, with a sharp edge: ζ = 0.5 (1 - β²), on the velocity in
// the smaller. A flush inlet from a tank is the limit ζ = 0.5.
// Source: Crane Technical Paper 410 (2009).
func Contraction(large, small float64) (Fitting, error) {
	b2, err := boreRatio("pipe.Contraction", small, large)
	if err != nil {
		return Fitting{}, err
	}
	return Fitting{Name: "sudden contraction", Zeta: 0.5 * (1 - b2), Bore: small,
		Source: hydronics.Source{Text: "Crane Technical Paper 410 (2009), formula 2-10", Provenance: hydronics.SecondHand}}, nil
}

// SharpContraction is [Contraction] by a newer correlation, 15 to 40 % higher:
//
//	ζ = 0.0696 (1 - β⁵) λ² + (λ - 1)²,  λ = 1 + 0.622 (1 - 0.215 β² - 0.785 β⁵)
//
// Source: D. C. Rennels and H. M. Hudson, Pipe Flow (2012).
func SharpContraction(large, small float64) (Fitting, error) {
	b2, err := boreRatio("pipe.SharpContraction", small, large)
	if err != nil {
		return Fitting{}, err
	}
	b5 := b2 * b2 * small / large
	l := 1 + 0.622*(1-0.215*b2-0.785*b5)
	return Fitting{Name: "sharp contraction", Zeta: 0.0696*(1-b5)*l*l + (l-1)*(l-1), Bore: small,
		Source: hydronics.Source{Text: "D. C. Rennels and H. M. Hudson, Pipe Flow (2012)", Provenance: hydronics.ReferenceLibrary}}, nil
}

// boreRatio returns β², the ratio of the areas.
func boreRatio(fn string, small, large float64) (float64, error) {
	if err := errors.Join(within(fn, "larger bore", "m", large, minBore, maxBore),
		within(fn, "smaller bore", "m", small, minBore, large)); err != nil {
		return 0, err
	}
	b := small / large
	return b * b, nil
}

package pipe

import (
	"errors"

	"example.com/hydronics"
)

// Enlargement returns the loss of a sudden change from the smaller bore to the
// larger, both in m (0.0005 to 3, guard): ζ = (1 - β²)², on the velocity in the
// smaller, where β is the ratio of the bores. An outlet into a tank is the limit
// ζ = 1.
// Source: Borda and Carnot, from the balances of momentum and energy; Crane
// Technical Paper 410 (2009), sudden enlargement.
func Enlargement(small, large float64) (Fitting, error) {
	b2, err := boreRatio("pipe.Enlargement", small, large)
	if err != nil {
		return Fitting{}, err
	}
	return Fitting{Name: "sudden enlargement", Zeta: (1 - b2) * (1 - b2), Bore: small,
		Source: hydronics.Source{Text: "Borda and Carnot; Crane Technical Paper 410 (2009), sudden enlargement", Provenance: hydronics.SecondHand}}, nil
}

// Contraction returns the loss of a sudden change from the larger bore to the
// smaller, both in m (0.0005 to 3, guard), with a sharp edge: ζ = 0.5 (1 - β²),
// on the velocity in the smaller. A flush inlet from a tank is the limit ζ = 0.5.
// Source: Crane Technical Paper 410 (2009), sudden contraction.
func Contraction(large, small float64) (Fitting, error) {
	b2, err := boreRatio("pipe.Contraction", small, large)
	if err != nil {
		return Fitting{}, err
	}
	return Fitting{Name: "sudden contraction", Zeta: 0.5 * (1 - b2), Bore: small,
		Source: hydronics.Source{Text: "Crane Technical Paper 410 (2009), sudden contraction", Provenance: hydronics.SecondHand}}, nil
}

// SharpContraction is [Contraction] by a newer correlation, 14 to 38 % higher up
// to β = 0.8 and lower from 0.9 on, where both are small:
//
//	ζ = 0.0696 (1 - β⁵) λ² + (λ - 1)²,  λ = 1 + 0.622 (1 - 0.215 β² - 0.785 β⁵)
//
// It takes bores of 0.0005 to 3 m (guard).
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

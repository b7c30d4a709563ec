package pipe

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Fitting is a resistance that is not the friction of a tube. Its loss is
//
//	Δp = (Zeta + ZetaLaminar/Re) ρV²/2
//
// where V and Re are those in Bore: a loss coefficient without the bore that
// it refers to means nothing. Values differ by 20 to 50 % between makes, and
// inserts of small plastic and press fittings reach 1 to 10: where the maker
// states a ζ or a Kv, use it.
type Fitting struct {
	Name        string
	Zeta        float64 // -10 to 1e6 (guard); negative in the branch of a combining tee, which gains energy
	ZetaLaminar float64 // K1 of the two-K and three-K methods, 0 to 1e6 (guard)
	Bore        float64 // m, 0.0005 to 3 (guard)
	Uncertainty float64 // of the loss, as a share of it; 0: not stated
	Source      hydronics.Source
}

// At returns the loss coefficient at the Reynolds number re in Bore (1 to 1e8,
// guard): Zeta + ZetaLaminar/re.
// Source: the form that W. B. Hooper (1981) and R. Darby (2001) share, see
// [TwoK] and [ThreeK].
func (f Fitting) At(re float64) (float64, error) {
	const fn = "pipe.Fitting.At"
	if err := errors.Join(f.check(fn), within(fn, "Reynolds number", "", re, 1, maxReynolds)); err != nil {
		return math.NaN(), err
	}
	return f.Zeta + f.ZetaLaminar/re, nil
}

// On returns the same fitting with its coefficients referred to the velocity
// in another bore D in m (0.0005 to 3, guard), for the same flow: Zeta (D/d)⁴,
// ZetaLaminar (D/d)³, where d is Bore. The result keeps the limits of [Fitting].
// Source: definition and mass balance: V goes with 1/D², Re with 1/D.
func (f Fitting) On(bore float64) (Fitting, error) {
	const fn = "pipe.Fitting.On"
	if err := errors.Join(f.check(fn), within(fn, "bore", "m", bore, minBore, maxBore)); err != nil {
		return Fitting{}, err
	}
	k := bore / f.Bore
	f.ZetaLaminar *= k * k * k
	f.Zeta *= k * k * k * k
	f.Bore = bore
	if err := f.check(fn); err != nil {
		return Fitting{}, err
	}
	return f, nil
}

func (f Fitting) check(fn string) error {
	return errors.Join(within(fn, "loss coefficient", "", f.Zeta, minZeta, maxZeta),
		within(fn, "laminar loss coefficient", "", f.ZetaLaminar, 0, maxZeta),
		within(fn, "bore of the fitting", "m", f.Bore, minBore, maxBore),
		within(fn, "uncertainty of the loss", "", f.Uncertainty, 0, 10))
}

// With returns the run with the fittings added to its Zeta, ZetaLaminar and
// ZetaUncertainty, each referred to the bore of the run.
// Source: definition: losses in series add. Uncertainties add as those of one
// make, see [Run].
func (r Run) With(fittings ...Fitting) (Run, error) {
	for _, f := range fittings {
		on, err := f.On(r.Bore)
		if err != nil {
			return Run{}, fmt.Errorf("fitting %q: %w", f.Name, err)
		}
		r.Zeta += on.Zeta
		r.ZetaLaminar += on.ZetaLaminar
		r.ZetaUncertainty += on.Uncertainty * math.Abs(on.Zeta)
	}
	return r, nil
}

// EquivalentLength returns the length in m of tube with the given bore in m and
// Darcy friction factor (0.001 to 1e6, guard) that loses as much as a loss
// coefficient zeta (-10 to 1e6, guard) on the velocity in it: ζ D/f.
// Source: definition: the loss f L/D of Darcy and Weisbach equals ζ.
func EquivalentLength(zeta, bore, frictionFactor float64) (float64, error) {
	const fn = "pipe.EquivalentLength"
	if err := errors.Join(within(fn, "loss coefficient", "", zeta, minZeta, maxZeta),
		within(fn, "bore", "m", bore, minBore, maxBore),
		within(fn, "friction factor", "", frictionFactor, 1e-3, 1e6)); err != nil {
		return math.NaN(), err
	}
	return zeta * bore / frictionFactor, nil
}

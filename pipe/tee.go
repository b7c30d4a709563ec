package pipe

import (
	"errors"

	"example.com/hydronics"
)

// A Tee joins a straight run of one bore and a branch at a right angle. Flow
// either divides into it or combines from it; Share is the part of the
// combined flow that goes through the branch.
type Tee struct {
	Run    float64 // bore of the straight run, m, 0.0005 to 3 (guard)
	Branch float64 // bore of the branch, m, from 0.1 of Run (guard): that of the run, or at most 2/3 of it for Dividing
	Share  float64 // 0 to 1
}

// Dividing returns the losses of the flow that goes straight on and of the flow
// that leaves by the branch, when the combined flow arrives in the run. Both
// refer to the velocity of the combined flow in the bore Run; the one straight
// on may be slightly negative.
//
// The source gives the branch for equal bores and for branches up to 2/3 of the
// run's bore; a branch between them is refused. It may be off by tens of
// per cent in small fittings.
// Source: Crane Technical Paper 410 (2009), formulas 2-37 and 2-38.
func (t Tee) Dividing() (straight, branch Fitting, err error) {
	const fn = "pipe.Tee.Dividing"
	b2, err := t.check(fn)
	if err != nil {
		return Fitting{}, Fitting{}, err
	}
	q := t.Share
	g, h := 1.0, 1.0
	if t.Branch == t.Run {
		g, h = 1+0.3*q*q, 0.3
	} else if b2 > 4./9*(1+1e-12) {
		return Fitting{}, Fitting{}, hydronics.Within(fn, "ratio of the bores of branch and run", "", t.Branch/t.Run, 0, 2./3, craneTee)
	}
	straight, branch = t.fitting("tee, straight on"), t.fitting("tee, into the branch")
	branch.Zeta = g * (1 + h*(q/b2)*(q/b2))
	m := 0.4
	switch {
	case b2 <= 0.4:
	case q <= 0.5:
		m = 2 * (2*q - 1)
	default:
		m = 0.3 * (2*q - 1)
	}
	straight.Zeta = m * q * q
	return straight, branch, nil
}

// Combining returns the losses of the flow that arrives in the run and of the
// flow that joins it from the branch. Both refer to the velocity of the
// combined flow in the bore Run. A weak branch is drawn along by the run: its
// coefficient is negative then, and rightly so.
// Source: Crane Technical Paper 410 (2009), formulas 2-35 and 2-36.
func (t Tee) Combining() (straight, branch Fitting, err error) {
	const fn = "pipe.Tee.Combining"
	b2, err := t.check(fn)
	if err != nil {
		return Fitting{}, Fitting{}, err
	}
	q := t.Share
	c := 1.0
	switch {
	case b2 <= 0.35:
	case q <= 0.4:
		c = 0.9 * (1 - q)
	default:
		c = 0.55
	}
	straight, branch = t.fitting("tee, joined by the branch"), t.fitting("tee, out of the branch")
	branch.Zeta = c * (1 + (q/b2)*(q/b2) - 2*(1-q)*(1-q))
	straight.Zeta = 1.55*q - q*q
	return straight, branch, nil
}

// DividingFromBranch returns the loss of a flow that arrives by the branch and
// parts both ways into the run, on its velocity in the branch: about 1.5 each
// way, from memory, with half of it uncertain.
func (t Tee) DividingFromBranch() (Fitting, error) {
	return t.counterflow("pipe.Tee.DividingFromBranch", 1.5)
}

// CombiningIntoBranch returns the loss of two flows that meet in the run and
// leave by the branch, on their velocity in the branch: about 3 each, from
// memory, with half of it uncertain.
func (t Tee) CombiningIntoBranch() (Fitting, error) {
	return t.counterflow("pipe.Tee.CombiningIntoBranch", 3)
}

func (t Tee) counterflow(fn string, zeta float64) (Fitting, error) {
	if _, err := t.check(fn); err != nil {
		return Fitting{}, err
	}
	return Fitting{Name: "tee, counterflow", Zeta: zeta, Bore: t.Branch, Uncertainty: 0.5,
		Source: hydronics.Source{Text: "handbook values of heating practice", Provenance: hydronics.FromMemory}}, nil
}

const craneTee = "Crane Technical Paper 410 (2009), tees and wyes"

func (t Tee) fitting(name string) Fitting {
	return Fitting{Name: name, Bore: t.Run, Uncertainty: tee,
		Source: hydronics.Source{Text: craneTee, Provenance: hydronics.ReferenceLibrary}}
}

func (t Tee) check(fn string) (float64, error) {
	if err := errors.Join(within(fn, "share of the branch in the flow", "", t.Share, 0, 1),
		within(fn, "bore of the run", "m", t.Run, minBore, maxBore),
		within(fn, "bore of the branch", "m", t.Branch, max(minBore, 0.1*t.Run), t.Run)); err != nil {
		return 0, err
	}
	b := t.Branch / t.Run
	return b * b, nil
}

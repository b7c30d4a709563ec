package pipe

import (
	"fmt"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A Sizing asks which tube carries a flow.
type Sizing struct {
	Flow     float64 // m³/s, 1e-12 to 1000 (guard)
	Liquid   fluid.Properties
	Criteria []Criterion

	// Unconfirmed allows sizes that are known from memory or common practice
	// alone. Without it they are passed over.
	Unconfirmed bool
}

// A Choice is a tube under the flow of a [Sizing].
type Choice struct {
	Tube     Tube
	Loss     Loss // of one metre of the tube
	Findings []hydronics.Finding
}

// Suits reports whether no criterion is failed.
func (c Choice) Suits() bool {
	for _, f := range c.Findings {
		if f.Verdict == hydronics.NotMet {
			return false
		}
	}
	return true
}

// Choices returns every tube with its loss per metre and the findings, from the
// smallest bore to the largest. Tubes in which the flow would exceed the limits
// of [Run.Loss] are left out; any other fault of an input is an error.
func (s Sizing) Choices(tubes []Tube) ([]Choice, error) {
	const fn = "pipe.Sizing.Choices"
	if err := within(fn, "flow", "m³/s", s.Flow, 1e-12, maxFlow); err != nil {
		return nil, err
	}
	var choices []Choice
	for _, t := range byBore(tubes) {
		if !s.Unconfirmed && !t.Source.Provenance.Confirmed() {
			continue
		}
		c, err := t.Run(1).Prepare(s.Liquid)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", t.Designation, err)
		}
		if c.checkFlow(fn, s.Flow) != nil {
			continue // far too small
		}
		loss, err := t.Run(1).Loss(s.Flow, s.Liquid)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", t.Designation, err)
		}
		choice := Choice{Tube: t, Loss: loss}
		for _, k := range s.Criteria {
			f := k.Judge(loss)
			f.Subject = t.Designation
			choice.Findings = append(choice.Findings, f)
		}
		choices = append(choices, choice)
	}
	return choices, nil
}

// Select returns the tube with the smallest bore that fails no criterion. If
// there is none the error matches [hydronics.ErrNoSolution].
// Source: common practice: the smallest size that meets the criteria, each of
// which names its own source; loss by [Run.Loss].
func (s Sizing) Select(tubes []Tube) (Choice, error) {
	choices, err := s.Choices(tubes)
	if err != nil {
		return Choice{}, err
	}
	for _, c := range choices {
		if c.Suits() {
			return c, nil
		}
	}
	return Choice{}, fmt.Errorf("pipe.Sizing.Select: %w: none of %d tubes meets the criteria at %g m³/s",
		hydronics.ErrNoSolution, len(choices), s.Flow)
}

// NextSize returns the tube with the smallest bore that is not below the given
// one in m, passing over sizes known from memory or common practice alone. If
// there is none the error matches [hydronics.ErrNoSolution].
// Source: common practice: the next size up.
func NextSize(tubes []Tube, bore float64) (Tube, error) {
	const fn = "pipe.NextSize"
	if err := within(fn, "bore", "m", bore, minBore, maxBore); err != nil {
		return Tube{}, err
	}
	for _, t := range byBore(tubes) {
		// A bore computed from the size itself finds it again.
		if t.Bore() >= bore*(1-1e-9) && t.Source.Provenance.Confirmed() {
			return t, nil
		}
	}
	return Tube{}, fmt.Errorf("%s: %w: no tube with a bore of %g m or more among %d",
		fn, hydronics.ErrNoSolution, bore, len(tubes))
}

func byBore(tubes []Tube) []Tube {
	sorted := slices.Clone(tubes)
	slices.SortStableFunc(sorted, func(a, b Tube) int {
		switch {
		case a.Bore() < b.Bore():
			return -1
		case a.Bore() > b.Bore():
			return 1
		}
		return 0
	})
	return sorted
}

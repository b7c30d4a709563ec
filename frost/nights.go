package frost

import (
	"slices"

	"example.com/hydronics"
)

// A Judged is what comes of a night, and how it is judged.
type Judged struct {
	Outcome  Outcome
	Findings []hydronics.Finding
}

// Nights runs and judges several nights, as [Night.Run] and [Night.Findings] do one
// after the other. Those of the same water in the same cold, such as supply and
// return of one unit, differ only in where the water runs: how it cools is followed
// once for all of them, and the states of their histories are the same slices.
//
// Errors: those of [Night.Run] and [Night.Findings].
// Source: the one of [Night.Run].
func Nights(nights []Night, doubts Doubts) ([]Judged, error) {
	if err := doubts.check(); err != nil {
		return nil, err
	}
	all := make([]Judged, len(nights))
	type followed struct {
		certain cooldowns
		doubted doubted
	}
	cold := make([]*followed, len(nights)) // the same for all that cool alike
	memory := new(workspace)
	for i := range nights {
		n := nights[i]
		n.memory = memory
		if err := n.check("frost.Night.Run"); err != nil {
			return nil, err
		}
		d, err := n.empty()
		if err != nil {
			return nil, err
		}
		for k := 0; k < i && cold[i] == nil; k++ {
			if n.coolsAs(&nights[k]) {
				cold[i] = cold[k]
			}
		}
		if cold[i] == nil {
			cold[i] = &followed{doubted: doubted{night: n, doubts: doubts}}
			if cold[i].certain, err = n.cool(true); err != nil {
				return nil, err
			}
		}
		o := n.outcome(&cold[i].certain, d)
		o.Events = n.events(&o)
		all[i].Outcome = o
		if all[i].Findings, err = n.findings(&o, &cold[i].doubted); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// coolsAs reports whether the water of both nights cools in the same way.
func (n *Night) coolsAs(m *Night) bool {
	return n.Section.equal(m.Section) && slices.EqualFunc(n.Fittings, m.Fittings, Section.equal) &&
		n.Medium == m.Medium && n.Start == m.Start && slices.Equal(n.Weather, m.Weather) && n.Cut == m.Cut && n.Setting == m.Setting
}

func (s Section) equal(t Section) bool {
	return s.Bore == t.Bore && s.Film == t.Film && slices.Equal(s.Layers, t.Layers) && s.Surface == t.Surface
}

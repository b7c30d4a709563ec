package job

import (
	"slices"

	"example.com/hydronics"
)

// Assess judges an installation. The error reports a job that cannot be used:
// [Faults] with paths, or the range errors of the calculations, joined. A
// requirement that fails is a finding and no error.
func Assess(j *Job) (*Sheet, error) { return assess(j, nil) }

// assess is Assess with the nights that were followed before; nil keeps none.
func assess(j *Job, known nights) (*Sheet, error) {
	s, err := new(Series).assess(j, known)
	if err != nil {
		return nil, err
	}
	s.identify()
	return s, nil
}

// A Series assesses one installation after the other in the room that the first has
// taken: a sheet holds until the next. The zero value is ready.
type Series struct {
	plant plant
	sheet Sheet
}

// Assess is [Assess] in a series. The findings have no ids; those of
// [Sheet.Failed] have.
func (r *Series) Assess(j *Job) (*Sheet, error) { return r.assess(j, nil) }

// assess is Assess with the nights that were followed before.
func (r *Series) assess(j *Job, known nights) (*Sheet, error) {
	p, s := &r.plant, &r.sheet
	if err := p.resolve(j); err != nil {
		return nil, err
	}
	p.nights = known
	*s = Sheet{
		Version: hydronics.Version,
		Title:   j.Title, Remark: j.Remark, Jurisdiction: j.Jurisdiction,
		Rules: p.rules.closed().Name, PotableRules: p.rules.potable.String(),
		Liquid: p.liquid.String(), Hazards: hazards[p.liquid.Solute()], FreezingPoint: p.liquid.FreezingPoint(),
		Supply: j.Unit.Supply, Return: p.ret, Content: p.content,
		Modes:    s.Modes[:0],
		Tubes:    slices.Grow(s.Tubes[:0], len(p.pieces)),
		Circuits: slices.Grow(s.Circuits[:0], len(p.circuits)),
		Mixed:    s.Mixed[:0],
		Presets:  s.Presets[:0],
		Cases:    s.Cases[:0],
		Frost:    s.Frost[:0],
		Nights:   s.Nights[:0],
		Findings: slices.Grow(s.Findings[:0], 120),
	}
	// Each builds on those before.
	for _, judge := range []func(*Sheet) error{p.judgePrimary, p.judgeService, p.balance, p.judgeCircuits,
		p.judgePressure, p.judgeFrost, p.judgeHotWater} {
		if err := judge(s); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// custom is the source of a rule that is common practice.
func custom(text string) hydronics.Source {
	return hydronics.Source{Text: text, Provenance: hydronics.CommonPractice}
}

// stated is the source of a figure that the job file takes from the papers of a
// part: the sheet can be no better than they are.
func stated(text string) hydronics.Source {
	return hydronics.Source{Text: "job file: " + text, Provenance: hydronics.Original}
}

package job

import (
	"example.com/hydronics"
)

// Assess judges an installation. The error reports a job that cannot be used:
// [Faults] with paths, or the range errors of the calculations, joined. A
// requirement that fails is a finding and no error.
func Assess(j *Job) (*Sheet, error) {
	s, err := assess(j, nil, make([]Finding, 0, 120))
	if err != nil {
		return nil, err
	}
	s.identify()
	return s, nil
}

// A Series assesses one installation after the other in the room that the findings
// of the first have taken: a sheet holds until the next. The zero value is ready.
type Series struct{ room []Finding }

// Assess is [Assess] in a series. The findings have no ids; those of
// [Sheet.Failed] have.
func (r *Series) Assess(j *Job) (*Sheet, error) {
	s, err := assess(j, nil, r.room)
	if err != nil {
		return nil, err
	}
	r.room = s.Findings[:0]
	return s, nil
}

// assess is Assess with the nights that were followed before, nil for none, and room
// for the findings. It leaves them without ids.
func assess(j *Job, known nights, room []Finding) (*Sheet, error) {
	p, err := resolve(j)
	if err != nil {
		return nil, err
	}
	p.nights = known
	s := &Sheet{
		Version: hydronics.Version,
		Title:   j.Title, Remark: j.Remark, Jurisdiction: j.Jurisdiction,
		Rules: p.rules.closed().Name, PotableRules: p.rules.potable.String(),
		Liquid: p.liquid.String(), Hazards: hazards[p.liquid.Solute()], FreezingPoint: p.liquid.FreezingPoint(),
		Supply: j.Unit.Supply, Return: p.ret, Content: p.content,
		Tubes:    make([]TubeLine, 0, len(p.pieces)),
		Circuits: make([]TubeLine, 0, len(p.circuits)),
		Findings: room,
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

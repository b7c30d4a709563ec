package job

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
)

// contentMargin is how well the content of a system is usually known: package
// expansion asks to try 10 % more before signing.
const contentMargin = 0.10

// settingStep is how finely a gauge can be set on site.
const settingStep = 0.1 * hydronics.Bar

// judgePressure sizes or judges the expansion vessel, and the relief valve.
func (p *plant) judgePressure(s *Sheet) error {
	if err := p.judgeRelief(s); err != nil {
		return err
	}
	if err := p.judgeFilling(s); err != nil {
		return err
	}
	system := p.system()
	line := &s.Vessel
	line.Atmosphere, line.FilledAt = p.atmosphere, system.FillTemperature
	size, err := system.Size()
	if errors.Is(err, hydronics.ErrNoSolution) {
		line.NoVessel = err.Error()
		s.add(Pressure, groupVessel, hydronics.Statement("the relief valve's setting leaves room for static height, reserve and expansion",
			"expansion vessel", false, custom("Boyle's law; margins of "+system.Rules.Name), "no vessel fits: the relief valve spills on every heating-up"))
		return nil
	}
	if err != nil {
		return err
	}
	line.Needed, line.Static, line.Expansion, line.Reserve, line.Final = size.Nominal, size.Static, size.Expansion, size.Reserve, size.Final
	vessel, err := p.chooseVessel(&system, &size, line)
	if err != nil {
		return err
	}
	filling, err := p.chooseFilling(&system, vessel, &size, line)
	if err != nil {
		return err
	}
	line.Nominal, line.Precharge, line.Filling = vessel.Nominal, vessel.Precharge, filling
	if err := courseInto(line, &system, vessel, filling); err != nil {
		return err
	}
	found, err := system.Judge(vessel, filling)
	if err != nil {
		return err
	}
	p.doubtContent(found, &system, vessel, filling)
	s.add(Pressure, groupVessel, found...)
	lowest := filling
	if line.FillMost > 0 { // the sheet allows a range of filling pressures
		lowest = min(filling, line.FillLeast)
	}
	return p.judgeInlet(s, &system, vessel, lowest)
}

func (p *plant) system() expansion.System {
	j := p.job
	head := 0.0
	for _, point := range j.Unit.Pump {
		head = max(head, point.Head)
	}
	side := expansion.AtInlet
	if j.Vessel.Side == "outlet" {
		side = expansion.AtOutlet
	}
	return expansion.System{
		Liquid: p.liquid, Content: p.content.Total,
		FillTemperature: j.Liquid.FillingWater, Coldest: min(j.Liquid.Coldest, j.Liquid.FillingWater), Hottest: j.Liquid.Hottest,
		StaticHead: max(0, j.Distribution.Highest-j.Vessel.Height),
		ReliefSet:  hydronics.Gauge(j.Relief.Set), ReliefHeight: j.Relief.Height - j.Vessel.Height,
		Pump:       expansion.Pump{Head: head, Vessel: side, ReliefAfter: j.Relief.SeesPump && side == expansion.AtInlet},
		Atmosphere: p.atmosphere, Rules: p.rules.closed(),
	}
}

// chooseVessel returns the vessel of the job. What the job leaves out is chosen
// for a content that is 10 % higher than calculated.
func (p *plant) chooseVessel(system *expansion.System, size *expansion.Sizing, line *VesselLine) (expansion.Vessel, error) {
	v := expansion.Vessel{Nominal: p.job.Vessel.Nominal, Precharge: hydronics.Gauge(p.job.Vessel.Precharge)}
	if math.IsNaN(float64(v.Precharge)) {
		v.Precharge = stepUp(size.Precharge)
	}
	if math.IsNaN(v.Nominal) {
		line.Chosen = true
		more := *system
		more.Content *= 1 + contentMargin
		larger, err := more.Size()
		if err != nil {
			return v, err
		}
		need := expansion.Demand{Expansion: larger.Expansion, Reserve: larger.Reserve + larger.Contraction,
			Precharge: max(v.Precharge, larger.Precharge), Filling: larger.FillingLow, Final: larger.Final, Atmosphere: p.atmosphere}
		least, err := need.Nominal()
		if err != nil {
			return v, err
		}
		series := expansion.UsualSeries()
		for _, v.Nominal = range series.Nominal {
			if v.Nominal < least {
				continue
			}
			if _, ok := roundFilling(&more, v); ok {
				break // room for a filling pressure that a gauge can show
			}
		}
	}
	return v, nil
}

// chooseFilling returns the filling pressure of the job, or the one to be set.
func (p *plant) chooseFilling(system *expansion.System, v expansion.Vessel, size *expansion.Sizing, line *VesselLine) (hydronics.Gauge, error) {
	w, err := system.Window(v, system.FillTemperature)
	if err == nil {
		line.FillLeast, line.FillMost = w.Least, w.Most
	} else if !errors.Is(err, hydronics.ErrNoSolution) {
		return hydronics.Gauge(math.NaN()), err
	}
	if given := hydronics.Gauge(p.job.Vessel.Filled); !math.IsNaN(float64(given)) {
		return given, nil
	}
	more := *system
	more.Content *= 1 + contentMargin
	if f, ok := roundFilling(&more, v); ok {
		return f, nil
	}
	if f, ok := roundFilling(system, v); ok {
		return f, nil
	}
	if err == nil {
		return (w.Least + w.Most) / 2, nil
	}
	return max(v.Precharge, size.Precharge), nil // no pressure suits: the findings say so
}

// roundFilling returns the lowest filling pressure in the vessel's window that a
// gauge can be set to.
func roundFilling(system *expansion.System, v expansion.Vessel) (hydronics.Gauge, bool) {
	w, err := system.Window(v, system.FillTemperature)
	if err != nil {
		return 0, false
	}
	f := stepUp(w.Least)
	return f, f <= w.Most
}

// stepUp rounds up to what a gauge can be set to.
func stepUp(p hydronics.Gauge) hydronics.Gauge {
	return hydronics.Gauge(math.Ceil(float64(p)/settingStep-1e-6) * settingStep)
}

// vesselOf is the vessel of the line.
func vesselOf(line *VesselLine) expansion.Vessel {
	return expansion.Vessel{Nominal: line.Nominal, Precharge: line.Precharge}
}

func courseInto(line *VesselLine, system *expansion.System, v expansion.Vessel, filling hydronics.Gauge) error {
	course, err := system.Course(v, filling)
	if err != nil {
		return err
	}
	cycle, err := course.Cycle()
	if err != nil {
		return err
	}
	line.Cold, line.Hot = cycle.Coldest.Pressure, cycle.Hot.Pressure
	return nil
}

// doubtContent gives the findings on the vessel the change that a content
// 10 % higher makes, in the value or in the limit.
func (p *plant) doubtContent(found []hydronics.Finding, system *expansion.System, v expansion.Vessel, filling hydronics.Gauge) {
	more := *system
	more.Content *= 1 + contentMargin
	other, err := more.Judge(v, filling)
	if err != nil || len(other) != len(found) {
		return // too much for any vessel: the calculated content alone is judged
	}
	for i := range found {
		if found[i].Bound == hydronics.Holds {
			continue
		}
		worse := found[i].Margin() - other[i].Margin()
		found[i].Uncertainty = max(0, worse)
		found[i] = found[i].Judge()
	}
}

package job

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
)

// judgeRelief judges the relief valve of the closed circuit.
func (p *plant) judgeRelief(s *Sheet) error {
	r := &p.job.Relief
	sources := []expansion.HeatSource{{Name: "heat pump", Output: p.job.Unit.GreatestOutput}}
	for _, h := range p.job.Heaters {
		if h.Heats == "circuit" {
			sources = append(sources, expansion.HeatSource{Name: h.Name, Output: h.Power})
		}
	}
	heat, err := expansion.TotalOutput(sources...)
	if err != nil {
		return err
	}
	s.Relief = ReliefLine{Set: hydronics.Gauge(r.Set), Heat: heat, Capacity: Number(math.NaN())}
	lowest := hydronics.Gauge(math.Min(r.Lowest, p.job.Unit.Rating))
	if c := r.Certificate; c != nil {
		err = p.judgeCertificate(s, c, sources, lowest)
	} else {
		p.judgeNameplate(s, heat, lowest)
	}
	p.judgeRun(s)
	return err
}

func (p *plant) judgeCertificate(s *Sheet, c *Certificate, sources []expansion.HeatSource, lowest hydronics.Gauge) error {
	r := &p.job.Relief
	line := func(l *Pipe) expansion.Line {
		return expansion.Line{Bore: l.Bore, Length: l.Length, Zeta: l.Zeta, Roughness: tubeRoughness}
	}
	protection := expansion.Protection{
		Sources: sources, Lowest: lowest, Atmosphere: p.atmosphere, Rules: expansion.EN12828Relief(),
		Valves: []expansion.Valve{{Set: hydronics.Gauge(r.Set), Area: math.Pi / 4 * c.Seat * c.Seat, Coefficient: c.Coefficient,
			Overpressure: c.Overpressure, DN: c.DN}},
		Inlet: line(&c.Inlet), Outlet: line(&c.Outlet), Between: p.between(),
	}
	found, err := protection.Judge()
	if err != nil {
		return err
	}
	s.Relief.Capacity = Number(found[0].Value)
	s.add(Pressure, groupReliefSize, found...)
	return nil
}

// tubeRoughness is that of a drawn tube, m, for the short pipes at a relief valve
// (Moody 1944).
const tubeRoughness = 1.5e-6

// judgeNameplate judges a valve by the heat output on its nameplate.
func (p *plant) judgeNameplate(s *Sheet, heat float64, lowest hydronics.Gauge) {
	r := &p.job.Relief
	s.add(Pressure, groupReliefSet, hydronics.Finding{
		Rule: "set pressure at most the lowest rating of all parts of the circuit", Subject: "relief valve",
		Danger: "a part bursts and scalds before the valve opens", Quantity: "gauge pressure", Unit: "Pa", Bound: hydronics.AtMost,
		Value: r.Set, Limit: float64(lowest), Source: expansion.EN12828Relief().PressureRise.Source,
	}.Judge())
	const capacity = "the valve's nameplate covers the heat of every source that can run"
	danger := "the pressure rises over the rating although the valve is open"
	if math.IsNaN(r.Heat) {
		s.add(Pressure, groupReliefSize, hydronics.OnSite(capacity, "relief valve", custom("nameplate of the relief valve, in kW"), danger))
	} else {
		s.add(Pressure, groupReliefSize, hydronics.Finding{
			Rule: capacity, Subject: "relief valve", Danger: danger, Quantity: "heat output", Unit: "W", Bound: hydronics.AtLeast,
			Value: r.Heat, Limit: heat, Source: stated("nameplate of the relief valve"),
		}.Judge())
	}
	s.add(Pressure, groupReliefSet, expansion.JudgePath(p.between()...))
}

// between is what lies between the heat sources and the relief valve.
func (p *plant) between() []expansion.Fitting {
	var found []expansion.Fitting
	for _, word := range p.job.Relief.Between {
		found = append(found, fittings[word])
	}
	return found
}

var fittings = map[string]expansion.Fitting{
	"open pipe": expansion.OpenPipe, "isolating valve": expansion.IsolatingValve, "secured valve": expansion.SecuredValve,
	"non-return valve": expansion.NonReturnValve, "automatic valve": expansion.AutomaticValve, "strainer": expansion.Strainer,
	"pressure reducer": expansion.PressureReducer, "quick disconnect": expansion.QuickDisconnect,
}

// judgeRun judges where the valve's discharge goes.
func (p *plant) judgeRun(s *Sheet) {
	practice := custom("discharge of relief valves")
	if !p.liquid.IsWater() {
		s.add(Pressure, groupFilling, hydronics.Statement("with antifreeze the relief valve discharges into a container", "relief valve",
			p.job.Relief.Into == "container", practice, "antifreeze runs into the ground or the drain, and the loss goes unnoticed"))
	}
	if p.job.Relief.Certificate != nil {
		return // package expansion asks for the place of the valve and of its outlet
	}
	s.add(Pressure, groupNone, hydronics.OnSite("the relief valve's discharge is in sight, falls all the way, and its end can scald nobody and freeze nowhere", "relief valve",
		practice, "scalds; a discharge that is blocked by ice shuts the valve"))
}

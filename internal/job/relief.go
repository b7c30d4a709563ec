package job

import (
	"math"

	"example.com/hydronics"
)

// judgeRelief judges the relief valve of the closed circuit.
func (p *plant) judgeRelief(s *Sheet) {
	r := &p.job.Relief
	heat := p.job.Unit.GreatestOutput
	for _, h := range p.job.Heaters {
		if h.Heats == "circuit" {
			heat += h.Power
		}
	}
	s.Relief = ReliefLine{Set: hydronics.Gauge(r.Set), Heat: heat}
	rating := math.Min(r.Lowest, p.job.Unit.Rating)
	s.add(Pressure, hydronics.Finding{
		Rule: "set pressure at most the lowest rating of all parts of the circuit", Subject: "relief valve",
		Danger: "a part bursts and scalds before the valve opens", Quantity: "gauge pressure", Unit: "Pa", Bound: hydronics.AtMost,
		Value: r.Set, Limit: rating, Source: custom("a relief valve protects what is rated for its setting"),
	}.Judge())
	const capacity = "the valve's nameplate covers the heat of every source that can run at once"
	danger := "the pressure rises over the rating although the valve is open"
	if math.IsNaN(r.Heat) {
		s.add(Pressure, hydronics.OnSite(capacity, "relief valve", custom("nameplate of the relief valve, in kW"), danger))
		return
	}
	s.add(Pressure, hydronics.Finding{
		Rule: capacity, Subject: "relief valve", Danger: danger, Quantity: "heat output", Unit: "W", Bound: hydronics.AtLeast,
		Value: r.Heat, Limit: heat,
		Source: hydronics.Source{Text: "EN 12828: relief for the full heat output", Provenance: hydronics.SecondHand},
	}.Judge())
}

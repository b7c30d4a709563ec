package job

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
)

// judgeInlet judges the pressure where the liquid enters the unit's circulator.
// Taken together is what need not come together, on the safe side: the lowest
// cold filling pressure, liquid that arrives at the hottest temperature, the mode
// that loses most, and all of the return line and of both units between vessel
// and inlet, since where the vessel joins the line is not known better. Water
// boils before any antifreeze solution does.
func (p *plant) judgeInlet(s *Sheet, system *expansion.System, v expansion.Vessel, filling hydronics.Gauge) error {
	course, err := system.Course(v, filling)
	if err != nil {
		return err
	}
	cycle, err := course.Cycle() // what the relief valve spills is missing afterwards
	if err != nil {
		return err
	}
	hottest := p.job.Liquid.Hottest
	density, err := p.liquid.Density(hottest)
	if err != nil {
		return err
	}
	vapour, err := fluid.SaturationPressure(hottest)
	if err != nil {
		return err
	}
	loss, variance := 0.0, 0.0
	for i := range s.Modes {
		if m := &s.Modes[i]; m.Name != ModeHouse {
			l, spread, err := p.lossToInlet(m)
			if err != nil {
				return err
			}
			if l > loss {
				loss, variance = l, spread
			}
		}
	}
	if system.Pump.Vessel == expansion.AtOutlet {
		loss, variance = system.Pump.Head, 0 // at worst the circulator lowers its inlet by all of its head
	}
	static := density * hydronics.StandardGravity * (p.job.Vessel.Height - p.inletHeight())
	inlet := cycle.Filling.Pressure + hydronics.Gauge(static-loss)
	s.Vessel.Inlet, s.Vessel.Vapour = inlet, vapour
	f := hydronics.Finding{
		Rule: "the liquid does not boil at the circulator's inlet, at the hottest and with the lowest filling pressure", Subject: "circulator",
		Danger: "cavitation destroys the circulator and stops the flow", Quantity: "absolute pressure that would be there if nothing boiled", Unit: "Pa",
		Bound: hydronics.AtLeast, Value: inlet.Abs(p.atmosphere), Limit: vapour, Uncertainty: math.Sqrt(variance),
		Source: hydronics.Source{Text: "IAPWS R7-97(2012), region 4, eq. 30, for the vapour pressure of water; Boyle's law and the losses of the sheet", Provenance: hydronics.SecondHand},
	}
	s.add(Pressure, groupInlet, f.Judge())
	if least := p.job.Unit.InletLeast; !math.IsNaN(least) {
		f.Rule, f.Danger = "the circulator's inlet keeps the pressure that its papers ask for", "noise, wear and a short life of the circulator"
		f.Quantity, f.Unit, f.Value, f.Limit = "pressure at the inlet", "Pa gauge", float64(inlet), least
		f.Source = stated("papers of the circulator")
		s.add(Pressure, groupInlet, f.Judge())
	}
	return nil
}

// lossToInlet is what a mode loses in the return line and in the units, and the
// variance of it in Pa².
func (p *plant) lossToInlet(m *Mode) (loss, variance float64, err error) {
	loss = m.Unit + m.Indoor
	variance = square(fittingUncertainty*m.Unit) + square(fittingUncertainty*m.Indoor)
	for i := range p.pieces {
		if q := &p.pieces[i]; q.route.Line == "return" && q.flows(m.Name) {
			l, err := p.loss(q, m.Flow)
			if err != nil {
				return math.NaN(), math.NaN(), err
			}
			loss += l.Total
			variance += square(lossUncertainty(l))
		}
	}
	return loss, variance, nil
}

// inletHeight is the height of the circulator's inlet: stated, or that of the end
// of the last return route that carries the flow of all modes or of the heating.
func (p *plant) inletHeight() float64 {
	z := p.job.Unit.InletHeight
	if !math.IsNaN(z) {
		return z
	}
	for i := range p.job.Routes {
		if r := &p.job.Routes[i]; r.Line == "return" && (math.IsNaN(z) || r.Serves != "hot water") {
			z = r.Stretches[len(r.Stretches)-1].To[2]
		}
	}
	return z
}

package job

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
)

// judgeInlet judges the pressure where the liquid enters the unit's circulator.
//
// Where the vessel is connected the circulator changes nothing: the neutral point.
// From there to the inlet the liquid loses what lies between, if the vessel is
// connected on the inlet side. On the outlet side the circulator lowers its inlet
// by its head less what is lost up to the vessel: by all of its head when the
// circuits are shut and nothing flows, which is the worst.
//
// Taken together is what need not come together, on the safe side: the lowest
// cold filling pressure, liquid that arrives at the hottest temperature, and the
// mode that loses most.
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
	vapour, source, err := p.vapourPressure(hottest)
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
		loss, variance = system.Pump.Head, 0
	}
	static := density * hydronics.StandardGravity * (p.job.Vessel.Height - p.inletHeight())
	inlet := cycle.Filling.Pressure + hydronics.Gauge(static-loss)
	s.Vessel.Inlet, s.Vessel.Vapour = inlet, vapour
	f := hydronics.Finding{
		Rule: "the liquid does not boil at the circulator's inlet, at the hottest and with the lowest filling pressure", Subject: "circulator",
		Danger: "cavitation destroys the circulator and stops the flow", Quantity: "absolute pressure that would be there if nothing boiled", Unit: "Pa",
		Bound: hydronics.AtLeast, Value: inlet.Abs(p.atmosphere), Limit: vapour, Uncertainty: math.Sqrt(variance),
		Source: source,
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

// lossToInlet is what a mode loses between a vessel on the inlet side and the
// circulator's inlet, and the variance of it in Pa².
func (p *plant) lossToInlet(m *Mode) (loss, variance float64, err error) {
	u := &p.job.Unit
	outdoor, err := lossBeforePump(m.Unit, u.BeforePump, u.LossFlow, m.Flow, p.supplied)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	indoor := 0.0
	if x := p.job.Indoor; x != nil {
		if indoor, err = lossBeforePump(m.Indoor, x.BeforePump, x.LossFlow, m.Flow, p.supplied); err != nil {
			return math.NaN(), math.NaN(), err
		}
	}
	loss, variance = outdoor+indoor, square(fittingUncertainty*outdoor)+square(fittingUncertainty*indoor)
	before := p.beforeVessel()
	for i := range p.pieces {
		if q := &p.pieces[i]; q.route.Line == "return" && q.flows(m.Name) && !before[q.route] {
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

// lossBeforePump is the part of a unit's loss that lies before the circulator: all
// of it where nothing is stated.
func lossBeforePump(all, stated, at, flow float64, liquid fluid.Properties) (float64, error) {
	if math.IsNaN(stated) {
		return all, nil
	}
	return knownLoss(stated, at, flow, liquid)
}

// beforeVessel finds the return routes that the liquid has left behind where the
// vessel is connected: those that lead, route by route, to the beginning of the
// vessel's route or into one behind it. A route whose end meets no beginning is
// counted as between vessel and inlet, on the safe side.
func (p *plant) beforeVessel() map[*Route]bool {
	name := p.job.Vessel.StartOf
	if name == "" {
		return nil
	}
	routes := p.job.Routes
	next := func(r *Route) *Route {
		for i := range routes {
			if other := &routes[i]; other != r && other.Line == "return" && other.Start == r.end() {
				return other
			}
		}
		return nil
	}
	behind := map[*Route]bool{}
	for r := p.returnNamed(name); r != nil && !behind[r]; r = next(r) {
		behind[r] = true
	}
	before := map[*Route]bool{}
	for i := range routes {
		r := &routes[i]
		if behind[r] || r.Line != "return" {
			continue
		}
		for x, steps := next(r), 0; x != nil && steps < len(routes); x, steps = next(x), steps+1 { // a circle leads nowhere
			before[r] = before[r] || behind[x]
		}
	}
	return before
}

// returnNamed is the return route with a name, nil if there is none or more.
func (p *plant) returnNamed(name string) *Route {
	var found *Route
	for i := range p.job.Routes {
		if r := &p.job.Routes[i]; r.Line == "return" && r.Name == name {
			if found != nil {
				return nil
			}
			found = r
		}
	}
	return found
}

// checkInlet checks what places the vessel and the losses about the circulator.
func (p *plant) checkInlet(f *Faults) {
	if v := &p.job.Vessel; v.StartOf != "" {
		switch {
		case v.Side == "outlet":
			*f = append(*f, Fault{"expansion_vessel.at_start_of_route", fmt.Sprintf("%q", v.StartOf), "nothing with pump_side outlet: there the circulator's head counts"})
		case p.returnNamed(v.StartOf) == nil:
			*f = append(*f, Fault{"expansion_vessel.at_start_of_route", fmt.Sprintf("%q", v.StartOf), "the name of one return route, and of one only"})
		}
	}
	within := func(path string, before, all float64) {
		if before > all && all > 0 {
			*f = append(*f, Fault{path + ".loss_before_pump_kpa", trim(before / hydronics.Kilopascal), "at most loss_kpa"})
		}
	}
	within("outdoor_unit", p.job.Unit.BeforePump, p.job.Unit.Loss)
	if x := p.job.Indoor; x != nil {
		within("indoor_unit", x.BeforePump, x.Loss)
	}
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

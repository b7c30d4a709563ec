package job

import (
	"errors"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
)

// judgeCircuits fills the lines of the heating circuits.
func (p *plant) judgeCircuits(s *Sheet) error {
	for i := range p.circuits {
		l := &p.circuits[i]
		c := l.circuit
		s.Circuits = append(s.Circuits, TubeLine{
			Name: c.Name, MixedBy: c.MixedBy, Tube: l.tube.Designation, Bore: l.tube.Bore(), Length: c.Length,
			Heat: c.Heat, Temperature: c.Return, Flow: l.flow, Velocity: l.loss.Velocity, Reynolds: l.loss.Reynolds,
			Regime: l.loss.Regime.String(), Gradient: l.loss.Gradient, Loss: l.loss.Total,
			Content: l.tube.Content()*c.Length + c.Content, MinimumWall: l.tube.MinimumWall,
		})
	}
	if err := p.judgeQuiet(s, Circuits, s.Circuits, "heating in living rooms"); err != nil {
		return err
	}
	p.judgeLeastFlow(s)
	p.judgeFloor(s)
	if err := p.judgeMixing(s); err != nil {
		return err
	}
	return p.judgeContent(s)
}

// judgeFloor asks for what keeps a floor from getting too hot.
func (p *plant) judgeFloor(s *Sheet) {
	for i := range p.circuits {
		if l := &p.circuits[i]; l.circuit.Emitter == "floor" && l.mixture == nil {
			s.add(Circuits, groupNone, hydronics.OnSite("a limiter of its own keeps the supply of the floors below what screed and covering stand", "floor heating",
				custom("floor heating beside hotter heat sources"), "cracked screed, burnt feet"))
			return
		}
	}
}

// judgeContent judges what circulates with every circuit shut that can shut.
func (p *plant) judgeContent(s *Sheet) error {
	u := &p.job.Unit
	s.add(Circuits, groupContent, hydronics.Finding{
		Rule: "the content that always circulates is at least what the unit asks for", Subject: "heating circuits",
		Danger:   "short running times, and a defrost that cools the water until the unit stops or its exchanger freezes",
		Quantity: "content", Unit: "m³", Bound: hydronics.AtLeast,
		Value: p.content.Always, Limit: u.LeastContent, Uncertainty: contentUncertainty * p.content.Always,
		Source: stated("papers of the unit"),
	}.Judge())
	if d := u.Defrost; d != nil {
		if !(d.Start > d.Lowest) {
			return Faults{{"outdoor_unit.defrost.start_c", trim(d.Start), "more than lowest_water_c"}}
		}
		b, err := pipe.Defrost{Stated: d.Heat, Time: d.Time, Start: d.Start, Lowest: d.Lowest}.Balance(p.content.Always, p.liquid)
		if err != nil {
			return err
		}
		f := b.Finding
		f.Uncertainty = contentUncertainty * (d.Start - f.Value)
		s.add(Circuits, groupContent, f.Judge())
	}
	return nil
}

// contentUncertainty is how well bores and lengths of tubes that are drawn give
// their content.
const contentUncertainty = 0.03

// circuitLosses fills in the loss of every circuit and returns, of those without a
// mixing valve, the one with the greatest; nil if there is none.
func (p *plant) circuitLosses() (index *loop, err error) {
	var errs []error
	for i := range p.circuits {
		l := &p.circuits[i]
		var err error
		if l.loss, err = l.lossAt(l.flow); err != nil {
			errs = append(errs, err)
		}
		if l.mixture == nil && (index == nil || l.loss.Total > index.loss.Total) {
			index = l
		}
	}
	return index, errors.Join(errs...)
}

// lossAt is what a flow loses in the circuit.
func (l *loop) lossAt(flow float64) (pipe.Loss, error) {
	return l.run().Loss(flow, l.liquid)
}

// run is the circuit with its valve fully open.
func (l *loop) run() pipe.Run {
	run := l.tube.Run(l.circuit.Length)
	run.Zeta, run.Kv = l.circuit.Zeta, pipe.Kv(l.circuit.Kv)
	return run
}

// judgeQuiet judges the fastest of the tubes by a criterion of package pipe, and
// of the copper ones by what copper stands.
func (p *plant) judgeQuiet(s *Sheet, part Part, lines []TubeLine, name string) error {
	for _, one := range []struct{ name, only string }{{name, ""}, {"copper up to 70 °C", "EN 1057"}} {
		criterion, err := pipe.CriterionNamed(one.name)
		if err != nil {
			return err
		}
		var fastest *TubeLine
		for i := range lines {
			if strings.HasPrefix(lines[i].Tube, one.only) && (fastest == nil || lines[i].Velocity > fastest.Velocity) {
				fastest = &lines[i]
			}
		}
		if fastest == nil {
			continue
		}
		f := criterion.Judge(pipe.Loss{Velocity: fastest.Velocity})
		f.Rule, f.Subject = "velocity in the fastest tube: "+f.Rule, fastest.Name
		s.add(part, groupVelocity, f)
	}
	return nil
}

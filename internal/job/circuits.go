package job

import (
	"errors"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
)

// judgeCircuits fills the lines of the heating circuits.
func (p *plant) judgeCircuits(s *Sheet) {
	for i := range p.circuits {
		l := &p.circuits[i]
		c := l.circuit
		s.Circuits = append(s.Circuits, TubeLine{
			Name: c.Name, Tube: l.tube.Designation, Bore: l.tube.Bore(), Length: c.Length,
			Heat: c.Heat, Temperature: c.Return, Flow: l.flow, Velocity: l.loss.Velocity, Reynolds: l.loss.Reynolds,
			Regime: l.loss.Regime.String(), Gradient: l.loss.Gradient, Loss: l.loss.Total,
			Content: l.tube.Content()*c.Length + c.Content, MinimumWall: l.tube.MinimumWall,
		})
	}
	s.add(Circuits, quiet(s.Circuits),
		hydronics.Finding{
			Rule: "the circuits that nothing shuts take the unit's least flow between them", Subject: "heating circuits",
			Danger:   "with every controlled zone shut the unit stops on its flow switch, or cannot defrost",
			Quantity: "flow", Unit: "m³/s", Bound: hydronics.AtLeast,
			Value: p.neverShutFlow, Limit: p.job.Unit.LeastFlow, Source: stated("papers of the unit"),
		}.Judge(),
		hydronics.Finding{
			Rule: "the content that always circulates is at least what the unit asks for", Subject: "heating circuits",
			Danger:   "short running times, and a defrost that cools the water until the unit stops or its exchanger freezes",
			Quantity: "content", Unit: "m³", Bound: hydronics.AtLeast,
			Value: p.content.Always, Limit: p.job.Unit.LeastContent, Uncertainty: 0.03 * p.content.Always,
			Source: stated("papers of the unit"),
		}.Judge())
}

// circuitLosses fills in the loss of every circuit and returns the one with the
// greatest.
func (p *plant) circuitLosses() (index *loop, err error) {
	var errs []error
	for i := range p.circuits {
		l := &p.circuits[i]
		var err error
		l.loss, err = l.lossAt(l.flow)
		errs = append(errs, err)
		if index == nil || l.loss.Total > index.loss.Total {
			index = l
		}
	}
	return index, errors.Join(errs...)
}

// lossAt is what a flow loses in the circuit.
func (l *loop) lossAt(flow float64) (pipe.Loss, error) {
	run := l.tube.Run(l.circuit.Length)
	run.Zeta, run.Kv = l.circuit.Zeta, pipe.Kv(l.circuit.Kv)
	return run.Loss(flow, l.liquid)
}

const mostVelocity = 1.0 // m/s

// quiet judges the fastest of the tubes.
func quiet(lines []TubeLine) hydronics.Finding {
	fastest := &lines[0]
	for i := range lines {
		if lines[i].Velocity > fastest.Velocity {
			fastest = &lines[i]
		}
	}
	return hydronics.Finding{
		Rule: "velocity low enough to be quiet and to spare the tube, in the fastest", Subject: fastest.Name,
		Danger: "noise, erosion of copper", Quantity: "velocity", Unit: "m/s", Bound: hydronics.AtMost,
		Value: fastest.Velocity, Limit: mostVelocity, Source: custom("heating tubes in dwellings, up to 1 m/s"),
	}.Judge()
}

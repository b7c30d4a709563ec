package job

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// Uncertainty of a calculated loss, in parts of it: the roughness of a real tube
// is not known better (package pipe), and resistances of fittings scatter by a
// quarter and more (Hydraulic Institute, Pipe Friction Manual, as quoted).
const (
	tubeUncertainty       = 0.05
	transitionUncertainty = 0.20
	fittingUncertainty    = 0.25
)

// judgePrimary lays the losses of unit, routes and index circuit against the
// circulator, in each mode.
func (p *plant) judgePrimary(s *Sheet) error {
	index, err := p.circuitLosses()
	if err != nil {
		return err
	}
	u := &p.job.Unit
	heating := Mode{Name: ModeHeating, Flow: p.heatingFlow}
	variance := 0.0
	switch { // mixing valves alone ask for no pressure: their circulators drive what they draw
	case index != nil:
		heating.Index, heating.Worst = index.circuit.Name, index.loss.Total
		variance = square(lossUncertainty(index.loss))
	default:
		heating.Index = p.mixtures[0].group.Name
	}
	if p.parted() {
		house := heating
		house.Name, house.Flow = ModeHouse, p.straightFlow
		heating = Mode{Name: ModeHeating, Flow: p.job.Buffer.Flow, Index: "buffer"}
		err = p.judgeMode(s, &heating, 0)
		if index != nil {
			err = errors.Join(err, p.judgeMode(s, &house, variance))
		}
	} else {
		err = p.judgeMode(s, &heating, variance)
	}
	if y := p.job.Cylinder; y != nil {
		hot := Mode{Name: ModeHotWater, Flow: u.HotWaterFlow, Index: "coil of the cylinder"}
		var coilErr error
		hot.Worst, coilErr = knownLoss(y.CoilLoss, y.CoilFlow, hot.Flow, p.supplied)
		err = errors.Join(err, coilErr, p.judgeMode(s, &hot, square(fittingUncertainty*hot.Worst)))
	}
	if err := errors.Join(err, p.tubeLines(s)); err != nil {
		return err
	}
	s.add(Primary, groupOutput,
		hydronics.Finding{
			Rule: "the unit's output covers the heat of all circuits at the design temperature", Subject: "outdoor unit",
			Danger: "a cold house, or long hours on the back-up heater", Quantity: "heat", Unit: "W", Bound: hydronics.AtLeast,
			Value: u.Output, Limit: p.heat, Source: stated("output of the unit and heat of the circuits"),
		}.Judge())
	s.add(Primary, groupLeastFlow,
		hydronics.Finding{
			Rule: "the design flow is at least the unit's least flow", Subject: "outdoor unit",
			Danger: "the unit stops on its flow switch, or cannot defrost", Quantity: "flow", Unit: "m³/s", Bound: hydronics.AtLeast,
			Value: heating.Flow, Limit: u.LeastFlow, Source: stated("papers of the unit"),
		}.Judge())
	if p.parted() {
		s.add(Primary, groupBufferFlow, hydronics.Finding{
			Rule: "the unit's flow into the buffer is at least what the circuits draw from it", Subject: "buffer",
			Danger: "return mixes into the supply in the buffer: the circuits stay colder than designed", Quantity: "flow", Unit: "m³/s",
			Bound: hydronics.AtLeast, Value: heating.Flow, Limit: p.heatingFlow, Source: custom("buffers between heat pump and circuits"),
		}.Judge())
	}
	return p.judgeQuiet(s, Primary, s.Tubes, "heating, distribution")
}

// judgeMode adds up a mode and compares it with the pump. The variance is that
// of m.Worst, in Pa².
func (p *plant) judgeMode(s *Sheet, m *Mode, variance float64) error {
	u := &p.job.Unit
	curve, house := u.Pump, m.Name == ModeHouse
	var err error
	if house {
		curve = p.job.Buffer.Pump
	} else if m.Unit, m.Indoor, err = p.unitLosses(m.Flow); err != nil {
		return err
	}
	variance += square(fittingUncertainty*m.Unit) + square(fittingUncertainty*m.Indoor)
	for i := range p.pieces {
		q := &p.pieces[i]
		if house || !q.flows(m.Name) {
			continue
		}
		l, err := p.loss(q, m.Flow)
		if err != nil {
			return err
		}
		if !(m.Flow <= q.greatest) {
			q.greatest, q.loss = m.Flow, l
		}
		m.Tubes += l.Friction + l.Fittings
		m.Devices += l.Valves
		variance += square(lossUncertainty(l))
	}
	m.Required = m.Unit + m.Indoor + m.Tubes + m.Devices + m.Worst
	available := headAt(curve, m.Flow)
	m.Available = Number(available)
	s.Modes = append(s.Modes, *m)
	s.add(Primary, groupPump, hydronics.Finding{
		Rule: "the circulator overcomes the losses at the design flow, " + m.Name, Subject: "circulator",
		Danger: "too little flow: heat does not arrive, the unit stops", Quantity: "pressure that the circuit takes", Unit: "Pa",
		Bound: hydronics.AtMost, Value: m.Required, Limit: available, Uncertainty: math.Sqrt(variance),
		Source: hydronics.Source{Text: "C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133, for the losses; pump curve of the job file", Provenance: hydronics.SecondHand},
	}.Judge())
	return nil
}

func (q *piece) flows(mode string) bool {
	return q.route.Serves == "all" || q.route.Serves == mode
}

// run is the piece with its devices.
func (q *piece) run() (pipe.Run, error) {
	run := q.tube.Run(q.length)
	run.Zeta = q.zeta
	if len(q.valves) > 0 {
		kv, err := pipe.KvInSeries(q.valves...)
		if err != nil {
			return pipe.Run{}, err
		}
		run.Kv = kv
	}
	return run, nil
}

// loss returns what a flow loses in a piece, its devices included. At the greatest of
// the modes' flows it is asked for again, by the schedule and at the inlet.
func (p *plant) loss(q *piece, flow float64) (pipe.Loss, error) {
	if flow == q.greatest {
		return q.loss, nil
	}
	run, err := q.run()
	if err != nil {
		return pipe.Loss{}, err
	}
	return run.Loss(flow, p.liquidIn(q))
}

func (p *plant) liquidIn(q *piece) fluid.Properties {
	if q.route.Line == "supply" {
		return p.supplied
	}
	return p.returned
}

// unitLosses are what a flow loses in the outdoor unit and in the indoor one.
func (p *plant) unitLosses(flow float64) (outdoor, indoor float64, err error) {
	u := &p.job.Unit
	outdoor, err = knownLoss(u.Loss, u.LossFlow, flow, p.supplied)
	if x := p.job.Indoor; x != nil {
		var errIndoor error
		indoor, errIndoor = knownLoss(x.Loss, x.LossFlow, flow, p.supplied)
		err = errors.Join(err, errIndoor)
	}
	return outdoor, indoor, err
}

// knownLoss is a loss that papers state for a flow of water, at another flow:
// it grows with the square of the flow, as in a valve.
func knownLoss(loss, at, flow float64, liquid fluid.Properties) (float64, error) {
	if loss == 0 {
		return 0, nil
	}
	kv, err := pipe.KvFor(at, loss, waterDensity)
	if err != nil {
		return math.NaN(), err
	}
	return kv.Loss(flow, liquid.Density)
}

// waterDensity is that on which a Kv is defined, kg/m³.
const waterDensity = 1000

// headAt returns the head of a pump curve, straight between its points; NaN
// beyond them.
func headAt(curve []PumpPoint, flow float64) float64 {
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if flow >= a.Flow && flow <= b.Flow {
			return a.Head + (b.Head-a.Head)*(flow-a.Flow)/(b.Flow-a.Flow)
		}
	}
	return math.NaN()
}

// lossUncertainty is that of a whole run, in Pa.
func lossUncertainty(l pipe.Loss) float64 {
	friction := tubeUncertainty
	if l.Regime == pipe.Transitional {
		friction = transitionUncertainty
	}
	return math.Sqrt(square(friction*l.Friction) + square(fittingUncertainty*l.Fittings) + square(fittingUncertainty*l.Valves))
}

func square(x float64) float64 { return x * x }

// tubeLines writes the schedule of the routes, each piece with the greater of
// the flows it carries.
func (p *plant) tubeLines(s *Sheet) error {
	for i := range p.pieces {
		q := &p.pieces[i]
		flow := 0.0
		for _, m := range s.Modes {
			if m.Name != ModeHouse && q.flows(m.Name) {
				flow = max(flow, m.Flow)
			}
		}
		l, err := p.loss(q, flow)
		if err != nil {
			return err
		}
		s.Tubes = append(s.Tubes, TubeLine{
			Name: q.route.Name, Line: q.route.Line, Serves: q.route.Serves, Tube: q.tube.Designation, Bore: q.tube.Bore(),
			Length: q.length, Outdoors: q.outdoors, Insulation: q.insulation.Thickness, Conductivity: q.insulation.Conductivity,
			Temperature: p.liquidIn(q).Temperature, Flow: flow, Velocity: l.Velocity, Reynolds: l.Reynolds, Regime: l.Regime.String(),
			Gradient: l.Gradient, Loss: l.Total, Content: q.tube.Content() * q.length, MinimumWall: q.tube.MinimumWall,
		})
	}
	return nil
}

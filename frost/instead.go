package frost

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// A Duty is what the circuit has to carry, for the price of antifreeze.
type Duty struct {
	Heat           float64 // W, more than 0
	Supply, Return float64 // °C
	Run            pipe.Run
}

// An Antifreeze is a solution in place of water.
type Antifreeze struct {
	Liquid        fluid.Liquid
	FreezingPoint float64 // °C at which the first ice forms
	Flow          float64 // m³/s for the duty
	FlowRatio     float64 // over the flow of water
	Loss          float64 // Pa in the run
	LossRatio     float64 // over the loss of water at its own flow
	PowerRatio    float64 // hydraulic power of the pump over that with water
}

// AntifreezeFor returns the weakest solution of a solute that has no ice at the
// temperature frost °C, and what it costs in flow and pump power for a duty. Drain
// valves and automatic top-up do not go with antifreeze ([Arrangement.Findings]).
//
// Errors: those of [fluid.Solute.ByFreezingPoint], [pipe.FlowForHeat] and
// [pipe.Run.Loss].
func AntifreezeFor(solute fluid.Solute, frost float64, duty Duty) (Antifreeze, error) {
	l, err := solute.ByFreezingPoint(frost)
	if err != nil {
		return Antifreeze{}, err
	}
	return duty.against(l)
}

// BurstProtectionFor is [AntifreezeFor] for bursting alone: at the temperature
// frost °C the solution is slush that no pump may meet, but does not burst the
// tube. Errors also those of [fluid.Solute.ByBurstProtection].
func BurstProtectionFor(solute fluid.Solute, frost float64, duty Duty) (Antifreeze, error) {
	l, err := solute.ByBurstProtection(frost)
	if err != nil {
		return Antifreeze{}, err
	}
	return duty.against(l)
}

// against compares a solution with water.
func (d Duty) against(l fluid.Liquid) (Antifreeze, error) {
	flow, loss, err := d.with(l)
	if err != nil {
		return Antifreeze{}, err
	}
	waterFlow, waterLoss, err := d.with(fluid.Water())
	if err != nil {
		return Antifreeze{}, err
	}
	return Antifreeze{
		Liquid: l, FreezingPoint: l.FreezingPoint(), Flow: flow, Loss: loss,
		FlowRatio: flow / waterFlow, LossRatio: loss / waterLoss, PowerRatio: flow * loss / (waterFlow * waterLoss),
	}, nil
}

func (d Duty) with(l fluid.Liquid) (flow, loss float64, err error) {
	if !(d.Heat > 0) {
		return math.NaN(), math.NaN(), hydronics.Within("frost.Duty", "heat", "W", d.Heat, 1e-3, 1e9, hydronics.Guard)
	}
	if flow, err = pipe.FlowForHeat(d.Heat, d.Supply, d.Return, l); err != nil {
		return math.NaN(), math.NaN(), err
	}
	p, err := l.At(0.5 * (d.Supply + d.Return))
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	x, err := d.Run.Loss(flow, p)
	return flow, x.Total, err
}

// Alternatives are the ways to do without draining, on one section.
type Alternatives struct {
	Antifreeze Antifreeze
	Trace      float64 // W of heating cable for the whole length, at the coldest air
	Trickle    float64 // m³/s that keeps the end above the limit, at the coldest air
	Endless    bool    // no power cut has an end: insulation alone cannot do it
	Insulation float64 // m of the insulating layer that keeps the water above 0 °C through the cut; 0 where none up to 0.5 m does
	AloneBuys  Time    // until 0 °C with the insulation there is
	Heat       float64 // W that the length loses at the coldest air and the limit
}

// An Inquiry is what [Night.Instead] compares.
type Inquiry struct {
	Solute fluid.Solute
	Duty   Duty
	Length float64 // m of tube outdoors, flow and return together, 0.01 to 1e5
	Layer  int     // index of the insulating layer in Section.Layers
	Limit  float64 // °C that trace heating and trickle have to keep, 1 to 20; 5 is usual
	Safety float64 // factor on the trace heating, 1 to 2
}

// Instead compares the ways to do without draining: antifreeze, trace heating, a
// trickle, insulation alone. All are for the lowest temperature, the strongest
// wind and the clearest sky of the night's weather together.
func (n Night) Instead(q Inquiry) (Alternatives, error) {
	const fn = "frost.Night.Instead"
	if err := joined(n.check(fn),
		hydronics.Within(fn, "length", "m", q.Length, 0.01, 1e5, hydronics.Guard),
		hydronics.Within(fn, "limit", "°C", q.Limit, 1, 20, hydronics.Guard),
		hydronics.Within(fn, "start temperature", "°C", n.Start, q.Limit+1e-6, 95, "above the limit to keep")); err != nil {
		return Alternatives{}, err
	}
	coldest := severest(n.Weather)
	a := Alternatives{Endless: n.Cut == 0}
	surroundings, err := n.Section.HeatFlow(0, coldest)
	if err != nil {
		return Alternatives{}, err
	}
	if a.Antifreeze, err = AntifreezeFor(q.Solute, min(coldest.Temperature, surroundings.Ambient, 0), q.Duty); err != nil {
		return Alternatives{}, err
	}
	perMetre, err := n.Section.TracePower(q.Limit, q.Safety, coldest)
	if err != nil {
		return Alternatives{}, err
	}
	a.Trace = perMetre * q.Length
	a.Heat = a.Trace / q.Safety
	flow, err := n.Section.HeatFlow(0.5*(n.Start+q.Limit), coldest)
	if err != nil {
		return Alternatives{}, err
	}
	rate, err := flow.Trickle(n.Start, q.Limit, q.Length)
	if err != nil {
		return Alternatives{}, err
	}
	a.Trickle = rate / (n.Medium.Density * n.Medium.SpecificHeat)
	lump, err := n.Section.Lump(n.Medium, n.Start, coldest)
	if err != nil {
		return Alternatives{}, err
	}
	if a.AloneBuys, err = lump.CoolingTime(n.Start, 0, surroundings.Ambient); err != nil {
		return Alternatives{}, err
	}
	if !a.Endless {
		t, err := n.Section.ThicknessToHold(q.Layer, Hold{Medium: n.Medium, Start: n.Start, Target: 0, Seconds: n.Cut}, coldest)
		switch {
		case err == nil:
			a.Insulation = t
		case !isNoSolution(err):
			return Alternatives{}, err
		}
	}
	return a, nil
}

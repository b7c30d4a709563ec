package network

import (
	"errors"
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// An Inlet is the state of the liquid where it enters a pump.
type Inlet struct {
	PressureAbs       float64 // Pa
	VapourPressureAbs float64 // Pa, at which water boils at that temperature
	Available         float64 // m: (PressureAbs - VapourPressureAbs)/(ρg), the net positive suction head
	Temperature       float64 // °C
	Gauge             hydronics.Gauge
}

// Inlet returns the state at the inlet of the pump in branch b of a solved
// network, under an atmospheric pressure in Pa absolute (50,000 to 110,000): the
// pressure of the node From less what the elements before the pump take. The
// pump stands at the height of that node. The pressures of a network are total
// ones, for its energy balance leaves velocity heads where they are; so none is
// added to the suction head, and a gauge would show 0.5 ρv² less.
//
// An error matching [hydronics.ErrNoSolution] says that the pressure is not
// known because valves shut the inlet off.
//
// The vapour pressure is that of water, which lies above that of an antifreeze
// solution; below 0 °C it is that at 0 °C. Both are on the safe side. r must be
// a solution of n.
// Source: definition of the net positive suction head; energy balance; vapour
// pressure of water after IAPWS R7-97(2012), region 4.
func (n Network) Inlet(r *Solution, b int, atmosphere float64) (Inlet, error) {
	state, err := n.inlet(r, b, atmosphere)
	if err != nil {
		return Inlet{}, fmt.Errorf("network.Network.Inlet: %w", err)
	}
	return state, nil
}

func (n Network) inlet(r *Solution, b int, atmosphere float64) (Inlet, error) {
	if err := n.matches(r); err != nil {
		return Inlet{}, err
	}
	if b < 0 || b >= len(n.Branches) {
		return Inlet{}, fmt.Errorf("branch %d, want 0 to %d: %w", b, len(n.Branches)-1, hydronics.ErrRange)
	}
	position := -1
	for k, e := range n.Branches[b].Elements {
		if _, ok := e.(Pump); ok {
			position = k
		}
	}
	if position < 0 {
		return Inlet{}, n.inBranch(b, fmt.Errorf("there is no pump in it: %w", hydronics.ErrRange))
	}
	p := n.liquid(b)
	before := law{volume: 1 / p.Density}
	for _, e := range n.Branches[b].Elements[:position] {
		if err := e.add(&before, p); err != nil {
			return Inlet{}, n.inBranch(b, err)
		}
	}
	before.toMass()
	if r.Nodes[n.Branches[b].From].CutOff || before.shut || n.Branches[b].Shut {
		return Inlet{}, n.inBranch(b, fmt.Errorf("shut valves leave the pressure at the pump's inlet open: %w", hydronics.ErrNoSolution))
	}
	vapour, errVapour := fluid.SaturationPressure(max(p.Temperature, 0))
	if err := errors.Join(errVapour, within("atmospheric pressure", "Pa", atmosphere, 5e4, 1.1e5)); err != nil {
		return Inlet{}, err
	}
	branch := r.Branches[b]
	gauge := r.Nodes[n.Branches[b].From].Pressure + hydronics.Gauge(before.lift-before.loss(branch.Mass))
	state := Inlet{PressureAbs: gauge.Abs(atmosphere), VapourPressureAbs: vapour, Temperature: p.Temperature, Gauge: gauge}
	state.Available = (state.PressureAbs - vapour) / (p.Density * hydronics.StandardGravity)
	return state, nil
}

// matches refuses a solution that cannot be of n.
func (n *Network) matches(r *Solution) error {
	if r == nil || len(r.Nodes) != len(n.Nodes) || len(r.Branches) != len(n.Branches) {
		return fmt.Errorf("the solution is not one of this network: %w", hydronics.ErrRange)
	}
	return nil
}

// Judge judges the inlet against a required net positive suction head in m and
// a required minimum gauge pressure, both stated by the maker of the pump or of
// the appliance, whose document is the source.
func (i Inlet) Judge(subject string, head float64, minimum hydronics.Gauge, source hydronics.Source) []hydronics.Finding {
	return []hydronics.Finding{
		hydronics.Finding{
			Rule: "the liquid does not boil at the pump inlet", Subject: subject,
			Danger:   "cavitation destroys the pump and stops the flow",
			Quantity: "net positive suction head", Unit: "m", Bound: hydronics.AtLeast,
			Value: i.Available, Limit: head, Source: source,
		}.Judge(),
		hydronics.Finding{
			Rule: "the pump inlet keeps its required pressure", Subject: subject,
			Danger:   "air is drawn in where the pressure falls below the atmosphere's",
			Quantity: "gauge pressure at the pump inlet", Unit: "Pa", Bound: hydronics.AtLeast,
			Value: float64(i.Gauge), Limit: float64(minimum), Source: source,
		}.Judge(),
	}
}

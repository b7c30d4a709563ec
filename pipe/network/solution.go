package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Solution is the state in which a network comes to rest, with the proof that
// both laws hold.
type Solution struct {
	Nodes    []NodeState   // in the order of the network's nodes
	Branches []BranchState // in the order of the network's branches

	// MassImbalance is the largest difference between what enters a node
	// without given pressure and what leaves it, kg/s.
	MassImbalance float64
	// EnergyImbalance is the largest sum of pressures around a loop, Pa. The
	// loops are those that each branch closes with a tree of the others, and
	// the ways between nodes with given pressure; every other loop is a sum of these.
	EnergyImbalance float64
	Iterations      int

	pumps []operating
}

// operating is a pump at its flow.
type operating struct {
	branch int
	law    *pumpLaw
	mass   float64 // kg/s
	volume float64 // m³/kg
}

// A NodeState is what happens at a node.
type NodeState struct {
	Pressure hydronics.Gauge
	Inflow   float64 // kg/s that enter the network here from outside

	// CutOff says that nothing but shut branches, and one-way elements that the
	// pressures keep shut, lead from here to a node with given pressure. Pressure
	// is then one of many that are possible: what was shut in rises and falls
	// with its temperature.
	CutOff bool
}

// A BranchState is what happens in a branch. Flow and what follows from it are
// positive from From to To.
type BranchState struct {
	Flow       float64 // m³/s at the branch's own temperature
	Mass       float64 // kg/s
	Velocity   float64 // m/s in the narrowest of its runs, 0 if it has none
	Loss       float64 // Pa that its runs and valves take; 0 where it is closed
	Gain       float64 // Pa that its pump and lifts add, at no flow too
	Difference float64 // Pa: pressure of From less that of To, reduced to one height: Loss less Gain in an open branch of an isothermal network
	Closed     bool    // no flow: an isolating valve is shut, or the pressures keep something one-way shut
}

func (s *System) result() (*Solution, error) {
	r := &Solution{
		Nodes: make([]NodeState, len(s.net.Nodes)), Branches: make([]BranchState, len(s.net.Branches)),
		Iterations: s.iterations,
	}
	r.MassImbalance, _ = s.imbalance()
	r.EnergyImbalance = s.around()
	held := s.findHeld()
	for i, node := range s.net.Nodes {
		k := s.at[i]
		state := NodeState{Pressure: hydronics.Gauge(s.pressure[k] + s.base - s.weight*node.Height), Inflow: node.Inflow}
		state.CutOff = held != nil && !held[k]
		if node.Fixed {
			state.Pressure = node.Pressure
			state.Inflow = node.Inflow - s.balance[k]
		}
		r.Nodes[i] = state
	}
	if err := s.checkFlows(); err != nil {
		return nil, err
	}
	for b := range s.laws {
		l := &s.laws[b]
		m := s.mass[b]
		state := &r.Branches[b]
		state.Mass, state.Flow = m, m*l.volume
		if l.bore > 0 {
			state.Velocity = state.Flow / area(l.bore)
		}
		state.Closed = s.closed[b] || s.prescribed[b] && s.given[b] == 0
		state.Difference = s.pressure[s.ends[b][0]] - s.pressure[s.ends[b][1]] + l.buoyancy
		state.Gain = l.lift
		if p := l.pump; p != nil {
			h, _ := p.at(max(m, 0))
			state.Gain += h
			r.pumps = append(r.pumps, operating{b, p, max(m, 0), l.volume})
		}
		switch {
		case m == 0:
		case s.prescribed[b]:
			state.Loss = l.loss(m)
		default:
			state.Loss = s.force[b] + l.buoyancy + state.Gain
		}
	}
	return r, nil
}

// checkFlows refuses flows outside the pumps' curves, and flows and pressures
// outside the limits of package pipe.
func (s *System) checkFlows() error {
	var wrong []error
	for b := range s.laws {
		l := &s.laws[b]
		if l.pump != nil {
			if err := l.pump.within(s.mass[b], l.volume); err != nil {
				wrong = append(wrong, s.net.inBranch(b, err))
			}
		}
		if err := l.within(s.mass[b] * l.volume); err != nil {
			wrong = append(wrong, s.net.inBranch(b, err))
		}
		if s.prescribed[b] || s.closed[b] {
			continue // nothing was asked of its law
		}
		if err := within("pressure along it", "Pa", s.force[b], -mostPressure, mostPressure); err != nil {
			wrong = append(wrong, s.net.inBranch(b, err))
		}
	}
	return errors.Join(wrong...)
}

const mostPressure = 1e9 // Pa

// within refuses a flow in m³/s beyond the limits of pipe.Run.Loss and
// pipe.Kv.Loss. Both velocity and Reynolds number are largest in the narrowest bore.
func (l *law) within(flow float64) error {
	const mostFlow, mostVelocity, mostReynolds = 1000.0, 50.0, 1e8
	if l.bore == 0 {
		return within("flow", "m³/s", flow, -mostFlow, mostFlow)
	}
	velocity := flow / area(l.bore)
	if err := within("velocity", "m/s", velocity, -mostVelocity, mostVelocity); err != nil {
		return err
	}
	if re := velocity * l.bore / l.viscosity; !(math.Abs(re) <= mostReynolds) {
		return hydronics.Within("network", "Reynolds number", "", re, -mostReynolds, mostReynolds,
			"L. F. Moody, Trans. ASME 66 (1944) 671: extent of the chart")
	}
	return nil
}

// within refuses a flow outside the pump's curve.
func (l *pumpLaw) within(m, volume float64) error {
	const slack = 1e-9
	if m < -slack*l.most {
		return fmt.Errorf("the pump is driven backwards; give it a non-return valve: %w",
			hydronics.Within("network", "flow of the pump", "m³/s", m*volume, 0, l.most*volume, "its curve"))
	}
	if m > l.most*(1+slack) {
		return fmt.Errorf("the pump works beyond the end of its curve: %w",
			hydronics.Within("network", "flow of the pump", "m³/s", m*volume, 0, l.most*volume, "its curve"))
	}
	return nil
}

// Pump returns the operating point of the pump in branch b. A branch without a
// pump, or one that does not exist, is refused.
// Source: the pump's curve; affinity laws; definition of hydraulic power and
// efficiency.
func (r *Solution) Pump(b int) (PumpState, error) {
	for _, p := range r.pumps {
		if p.branch == b {
			state, err := p.law.state(p.mass, p.volume)
			if err != nil {
				return PumpState{}, fmt.Errorf("network.Solution.Pump: branch %d: %w", b, err)
			}
			return state, nil
		}
	}
	return PumpState{}, fmt.Errorf("network.Solution.Pump: branch %d has no pump: %w", b, hydronics.ErrRange)
}

package network

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
	"example.com/hydronics/pipe"
)

// A Design is the flow that a branch is to have.
type Design struct {
	Branch int
	Flow   float64 // m³/s from From to To, positive, at the branch's own temperature
}

// A Circuit is a branch at its design flow while every other branch with one
// has its own.
type Circuit struct {
	Branch    int
	Flow      float64 // m³/s, as designed
	Available float64 // Pa that the rest of the network, and pumps in the branch, offer it
	Required  float64 // Pa that it takes as it stands
	Surplus   float64 // Available less Required
	Kv        pipe.Kv // m³/h, of a balancing valve that takes the surplus
}

// A Balancing is the answer of [System.Balance].
type Balancing struct {
	Circuits []Circuit // in the order of the designs
	Index    int       // which of them is the index circuit: the one with the least surplus
}

// Balance returns the pre-setting of a balancing valve for every branch with a
// design flow: the Kv of a further [Device] in the branch that takes what the
// branch leaves of the pressure available to it, so that all design flows
// establish themselves together. least is the pressure that the valve of the
// index circuit must keep, in Pa, 1 to 1e5; valves are measured at about 3 kPa
// (common practice).
//
// Branches without a design, such as mains and a bypass, have the flow that
// the design flows leave them; of branches in series give one a design, since
// nothing says how they would share the pressure. If the index circuit lacks pressure the error
// matches [hydronics.ErrNoSolution] and says how much; see [System.DesignSpeed].
// Source: mass and energy balance; Kv after IEC 60534-2-1.
func (s *System) Balance(designs []Design, least float64) (Balancing, error) {
	const fn = "network.System.Balance"
	if err := within("least pressure at a balancing valve", "Pa", least, 1, 1e5); err != nil {
		return Balancing{}, fmt.Errorf("%s: %w", fn, err)
	}
	r, err := s.circuits(designs)
	if err == nil {
		err = s.checkFlows()
	}
	if err != nil {
		return Balancing{}, fmt.Errorf("%s: %w", fn, err)
	}
	index := r.Circuits[r.Index]
	if !(index.Surplus >= least) {
		return Balancing{}, fmt.Errorf("%s: index circuit, branch %s: %.4g Pa available, %.4g Pa required and %.4g Pa for its balancing valve: %w",
			fn, s.net.branchName(index.Branch), index.Available, index.Required, least, hydronics.ErrNoSolution)
	}
	for i := range r.Circuits {
		c := &r.Circuits[i]
		if c.Kv, err = pipe.KvFor(c.Flow, c.Surplus, s.net.liquid(c.Branch).Density); err != nil {
			return Balancing{}, fmt.Errorf("%s: %w", fn, s.net.inBranch(c.Branch, err))
		}
	}
	return r, nil
}

// Apply returns a copy of the network with the balancing valves in it, those left out
// whose branch the network has not; for a system see [System.Apply], which refuses them.
func (b Balancing) Apply(n Network) Network {
	n = n.Clone()
	for _, c := range b.Circuits {
		if c.Branch >= 0 && c.Branch < len(n.Branches) {
			n.Branches[c.Branch].Elements = append(n.Branches[c.Branch].Elements, Device{c.Kv})
		}
	}
	return n
}

// Apply puts the balancing valves into the branches of the system and leaves everything
// else prepared. An error names the branch that cannot have its valve; those before it
// then have theirs.
func (s *System) Apply(b Balancing) error {
	const fn = "network.System.Apply"
	for _, c := range b.Circuits {
		if err := s.known(c.Branch); err != nil {
			return fmt.Errorf("%s: %w", fn, err)
		}
		branch := s.net.Branches[c.Branch]
		branch.Elements = append(slices.Clip(branch.Elements), Device{c.Kv})
		if err := s.replace(c.Branch, branch); err != nil {
			return fmt.Errorf("%s: %w", fn, err)
		}
	}
	return nil
}

// DesignSpeed returns the lowest speed of the pump in a branch, as a share of
// its curve's, at which the index circuit has its design flow and least Pa to
// spare for its balancing valve (0 to 1e5, guard). The pump is taken as run at
// fixed speed, from 0.05 of the curve's to the curve's: 0.05 is the answer where
// a lower speed would do as well, and if the speed of the curve is not enough
// the error matches [hydronics.ErrNoSolution].
func (s *System) DesignSpeed(pump int, designs []Design, least float64) (float64, error) {
	const fn = "network.System.DesignSpeed"
	if err := within("least pressure at a balancing valve", "Pa", least, 0, 1e5); err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	spare := func() (float64, error) {
		r, err := s.circuits(designs)
		if err != nil {
			return math.NaN(), err
		}
		return r.Circuits[r.Index].Surplus - least, nil
	}
	n, err := s.speed(pump, spare, false)
	if err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	return n, nil
}

// SpeedFor returns the speed of the pump in a branch, as a share of its
// curve's, at which another branch, such as the index circuit of a balanced
// network, has the flow in m³/s (from From to To, 1e-9 to 1000, guard). The pump
// is taken as run at fixed speed, from 0.05 of the curve's to the curve's. If one
// of these gives too little or the other too much the error matches
// [hydronics.ErrNoSolution].
func (s *System) SpeedFor(pump, branch int, flow float64) (float64, error) {
	const fn = "network.System.SpeedFor"
	if err := s.known(branch); err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	if err := within("flow", "m³/s", flow, 1e-9, 1e3); err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	n, err := s.speed(pump, func() (float64, error) {
		err := s.solve()
		return s.mass[branch]*s.laws[branch].volume/flow - 1, err
	}, true)
	if err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	return n, nil
}

// Speeds below this are not searched: no circulator runs there.
const leastSpeed = 0.05

// speed finds the speed of a pump at which spare, rising with it, is zero. If
// there is too much even at the least speed, that is the answer unless the
// speed has to be exact.
func (s *System) speed(pump int, spare func() (float64, error), exact bool) (float64, error) {
	if err := s.known(pump); err != nil {
		return math.NaN(), err
	}
	old := s.Branch(pump)
	position := -1
	for k, e := range old.Elements {
		if _, ok := e.(Pump); ok {
			position = k
		}
	}
	if position < 0 {
		return math.NaN(), s.net.inBranch(pump, fmt.Errorf("there is no pump in it: %w", hydronics.ErrRange))
	}
	var failed error
	at := func(n float64) float64 {
		changed := s.Branch(pump)
		p := changed.Elements[position].(Pump)
		p.Speed, p.Control, p.Set = n, FixedSpeed, 0
		changed.Elements[position] = p
		err := s.Change(pump, changed)
		v := math.NaN()
		if err == nil {
			v, err = spare()
		}
		failed = errors.Join(failed, err)
		return v
	}
	full, slow := at(1), at(leastSpeed)
	n, err := math.NaN(), failed
	switch {
	case failed != nil:
	case full < 0:
		err = s.net.inBranch(pump, fmt.Errorf("the pump is too small at full speed: %w", hydronics.ErrNoSolution))
	case slow > 0 && exact:
		err = s.net.inBranch(pump, fmt.Errorf("more flow than wanted already at a speed of %g: %w", leastSpeed, hydronics.ErrNoSolution))
	case slow >= 0:
		n = leastSpeed
	default:
		n, err = numeric.Root(at, leastSpeed, 1, 1e-10)
	}
	if err == nil {
		at(n)
		if err = failed; err == nil {
			err = s.checkFlows()
		}
	}
	if err = errors.Join(err, s.Change(pump, old)); err != nil {
		return math.NaN(), err
	}
	return n, nil
}

// circuits solves the network with the design flows imposed.
func (s *System) circuits(designs []Design) (Balancing, error) {
	if len(designs) == 0 {
		return Balancing{}, fmt.Errorf("no branch has a design flow: %w", hydronics.ErrRange)
	}
	var wrong []error
	seen := map[int]bool{}
	for _, d := range designs {
		if err := s.known(d.Branch); err != nil {
			wrong = append(wrong, err)
			continue
		}
		if seen[d.Branch] {
			wrong = append(wrong, s.net.inBranch(d.Branch, fmt.Errorf("two design flows: %w", hydronics.ErrRange)))
		}
		if s.prescribed[d.Branch] {
			wrong = append(wrong, s.net.inBranch(d.Branch, fmt.Errorf("it is shut and cannot have a design flow: %w", hydronics.ErrRange)))
		}
		seen[d.Branch] = true
		if err := within("design flow", "m³/s", d.Flow, 1e-9, 1e3); err != nil {
			wrong = append(wrong, s.net.inBranch(d.Branch, err))
		}
	}
	if err := errors.Join(wrong...); err != nil {
		return Balancing{}, err
	}
	for _, d := range designs {
		s.prescribe(d.Branch, d.Flow/s.laws[d.Branch].volume)
	}
	err := s.solve()
	if err == nil {
		held := s.findHeld()
		for i := 0; i < len(designs) && err == nil; i++ {
			err = s.checkHeld(designs[i].Branch, held)
		}
	}
	for _, d := range designs {
		s.release(d.Branch)
	}
	if err != nil {
		return Balancing{}, err
	}
	r := Balancing{Circuits: make([]Circuit, len(designs))}
	for i, d := range designs {
		l := &s.laws[d.Branch]
		c := Circuit{Branch: d.Branch, Flow: d.Flow, Required: l.loss(d.Flow / l.volume)}
		c.Available = s.over(d.Branch) + l.lift
		if l.pump != nil {
			h, _ := l.pump.at(d.Flow / l.volume)
			c.Available += h
		}
		c.Surplus = c.Available - c.Required
		r.Circuits[i] = c
		if c.Surplus < r.Circuits[r.Index].Surplus {
			r.Index = i
		}
	}
	return r, nil
}

// over returns the pressure difference that drives a branch from outside.
func (s *System) over(b int) float64 {
	return s.pressure[s.ends[b][0]] - s.pressure[s.ends[b][1]] + s.laws[b].buoyancy
}

// known refuses an index that is not a branch.
func (s *System) known(b int) error {
	if b < 0 || b >= len(s.laws) {
		return fmt.Errorf("branch %d, want 0 to %d: %w", b, len(s.laws)-1, hydronics.ErrRange)
	}
	return nil
}

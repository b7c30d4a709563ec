package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Combination is one state of the zones' valves.
type Combination struct {
	Open []bool  // of each zone
	Flow float64 // m³/s through the watched branch
}

// Combinations is the answer of [System.Combinations].
type Combinations struct {
	Least, Most Combination // with the least and the most flow through the watched branch
	Zones       []Extremes  // in the order of the zones
}

// Extremes are the least and the most flow of a zone while it is open, m³/s.
type Extremes struct{ Least, Most float64 }

// mostZones is as many as can be combined in every way: 65,536 solutions.
const mostZones = 16

// Combinations solves the network for every combination of open and shut zones
// (branches, at most 16) and returns those with the least and the most flow
// through the watched branch, usually that of the heat pump, besides the least
// and the most flow of each zone: the one goes cold, the other makes noise.
// Whether a zone was shut before does not matter, and is as it was afterwards;
// a zone whose own [Valve] or [Thermostatic] is shut stays shut.
// Source: mass and energy balance, as [System.Solve], for every combination.
func (s *System) Combinations(zones []int, watched int) (Combinations, error) {
	const fn = "network.System.Combinations"
	if err := s.known(watched); err != nil {
		return Combinations{}, fmt.Errorf("%s: %w", fn, err)
	}
	if err := s.checkZones(zones); err != nil {
		return Combinations{}, fmt.Errorf("%s: %w", fn, err)
	}
	if err := hydronics.Within(fn, "number of zones", "", float64(len(zones)), 1, mostZones, hydronics.Guard); err != nil {
		return Combinations{}, err
	}
	r := Combinations{Zones: make([]Extremes, len(zones))}
	r.Least.Flow, r.Most.Flow = math.Inf(1), math.Inf(-1)
	for i := range r.Zones {
		r.Zones[i] = Extremes{math.Inf(1), math.Inf(-1)}
	}
	open := make([]bool, len(zones))
	for code := range 1 << len(zones) {
		for i := range open {
			open[i] = code>>i&1 == 1
		}
		flow, err := s.flowWith(zones, open, watched)
		if err != nil {
			return Combinations{}, fmt.Errorf("%s: zones open %v: %w", fn, open, err)
		}
		if flow < r.Least.Flow {
			r.Least = Combination{append([]bool(nil), open...), flow}
		}
		if flow > r.Most.Flow {
			r.Most = Combination{append([]bool(nil), open...), flow}
		}
		for i, b := range zones {
			if q := s.mass[b] * s.laws[b].volume; open[i] {
				r.Zones[i].Least = min(r.Zones[i].Least, q)
				r.Zones[i].Most = max(r.Zones[i].Most, q)
			}
		}
	}
	return r, nil
}

// checkZones wants branches, each once.
func (s *System) checkZones(zones []int) error {
	var wrong []error
	seen := map[int]bool{}
	for _, b := range zones {
		if err := s.known(b); err != nil {
			wrong = append(wrong, err)
		} else if seen[b] {
			wrong = append(wrong, s.net.inBranch(b, fmt.Errorf("twice among the zones: %w", hydronics.ErrRange)))
		}
		seen[b] = true
	}
	return errors.Join(wrong...)
}

// flowWith returns the flow in m³/s through the watched branch with the zones
// open as given. Flows stay in s; what was shut is restored.
func (s *System) flowWith(zones []int, open []bool, watched int) (float64, error) {
	for i, b := range zones {
		s.prescribed[b], s.given[b] = !open[i] || s.laws[b].shut, 0
	}
	err := s.solve()
	if err == nil {
		err = s.checkFlows()
	}
	for _, b := range zones {
		s.release(b)
	}
	return s.mass[watched] * s.laws[watched].volume, err
}

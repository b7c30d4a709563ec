package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// A BypassSetting is the answer of [System.BypassSetting].
type BypassSetting struct {
	Set   float64     // Pa at which the bypass begins to open
	Worst Combination // the zones and the flow in the case that decides

	// What it costs with all zones open: flow through the bypass in m³/s, the
	// share of its flow that each zone loses against a bypass that is shut, and
	// the electrical power of all pumps, if their curves have it.
	Leak         float64
	ZoneLoss     []float64
	PowerKnown   bool
	Power        float64 // W
	PowerWithout float64 // W, bypass shut
}

// BypassSetting returns the highest set pressure of the [Bypass] in a branch
// with which the source branch keeps a least flow in m³/s whatever zones
// (branches) are open: none, each one alone, all but each one, all. Where one
// pump drives everything and sits in the source branch these decide, because
// opening a way can only add to its flow; else see [System.Combinations].
//
// The error matches [hydronics.ErrNoSolution] where even a bypass that opens at
// once passes too little, and where no bypass is needed to keep the flow.
// Source: mass and energy balance, as [System.Solve]; a [Bypass] opens in
// proportion above its set pressure.
func (s *System) BypassSetting(bypass, source int, zones []int, least float64) (BypassSetting, error) {
	r, err := s.bypassSetting(bypass, source, zones, least)
	if err != nil {
		return BypassSetting{}, fmt.Errorf("network.System.BypassSetting: %w", err)
	}
	return r, nil
}

func (s *System) bypassSetting(bypass, source int, zones []int, least float64) (BypassSetting, error) {
	err := errors.Join(s.known(bypass), s.known(source), s.checkZones(zones), within("least flow", "m³/s", least, 1e-9, 1e3))
	for _, b := range zones {
		if b == bypass || b == source {
			err = errors.Join(err, fmt.Errorf("branch %d cannot be a zone besides: %w", b, hydronics.ErrRange))
		}
	}
	if err != nil {
		return BypassSetting{}, err
	}
	old := s.Branch(bypass)
	position := -1
	for k, e := range old.Elements {
		if _, ok := e.(Bypass); ok {
			position = k
		}
	}
	if position < 0 {
		return BypassSetting{}, s.net.inBranch(bypass, fmt.Errorf("there is no Bypass in it: %w", hydronics.ErrRange))
	}
	set := func(pressure float64, shut bool) error {
		changed := s.Branch(bypass)
		v := changed.Elements[position].(Bypass)
		v.Set = pressure
		changed.Elements[position] = v
		changed.Shut = shut
		return s.Change(bypass, changed)
	}
	r, err := s.searchSetting(set, bypass, source, zones, least)
	return r, errors.Join(err, s.Change(bypass, old))
}

func (s *System) searchSetting(set func(float64, bool) error, bypass, source int, zones []int, least float64) (BypassSetting, error) {
	cases := openings(len(zones))
	worst := func() (Combination, error) {
		w := Combination{Flow: math.Inf(1)}
		for _, open := range cases {
			flow, err := s.flowWith(zones, open, source)
			if err != nil {
				return w, fmt.Errorf("zones open %v: %w", open, err)
			}
			if flow < w.Flow {
				w = Combination{open, flow}
			}
		}
		return w, nil
	}
	at := func(pressure float64, shut bool) (Combination, error) {
		if err := set(pressure, shut); err != nil {
			return Combination{}, err
		}
		return worst()
	}
	without, err := at(0, true)
	if err != nil {
		return BypassSetting{}, err
	}
	if without.Flow >= least {
		return BypassSetting{}, fmt.Errorf("%.4g m³/s of the %.4g wanted flow without the bypass in the worst case: none is needed: %w", without.Flow, least, hydronics.ErrNoSolution)
	}
	most, err := at(0, false)
	if err != nil {
		return BypassSetting{}, err
	}
	if most.Flow < least {
		return BypassSetting{}, fmt.Errorf("%.4g m³/s of the %.4g wanted flow in the worst case with a bypass that opens at once, zones open %v: %w", most.Flow, least, most.Open, hydronics.ErrNoSolution)
	}
	var failed error
	high := min(s.drive(), 1e6)
	p := 0.0
	if most.Flow > least {
		p, err = numeric.Root(func(p float64) float64 {
			w, err := at(p, false)
			failed = errors.Join(failed, err)
			return w.Flow/least - 1
		}, 0, high, 1e-6*high)
		// Stay on the side where the flow is kept.
		p = math.Max(0, p-2e-6*high)
	}
	if err := errors.Join(err, failed); err != nil {
		return BypassSetting{}, err
	}
	r := BypassSetting{Set: p}
	if r.Worst, err = at(p, false); err != nil {
		return BypassSetting{}, err
	}
	all := cases[len(cases)-1]
	if _, err = s.flowWith(zones, all, source); err != nil {
		return BypassSetting{}, err
	}
	r.Leak = s.mass[bypass] * s.laws[bypass].volume
	with := s.flows(zones)
	if r.Power, r.PowerKnown, err = s.power(); err != nil {
		return BypassSetting{}, err
	}
	if err := set(p, true); err != nil {
		return BypassSetting{}, err
	}
	if _, err = s.flowWith(zones, all, source); err != nil {
		return BypassSetting{}, err
	}
	r.ZoneLoss = s.flows(zones)
	for i, q := range r.ZoneLoss {
		if r.ZoneLoss[i] = 0; q != 0 {
			r.ZoneLoss[i] = 1 - with[i]/q
		}
	}
	r.PowerWithout, _, err = s.power()
	return r, err
}

// openings returns which of n zones are open: none, each alone, all but each, all.
func openings(n int) [][]bool {
	none, all := make([]bool, n), make([]bool, n)
	for i := range all {
		all[i] = true
	}
	cases := [][]bool{none}
	for i := range n {
		alone, but := append([]bool(nil), none...), append([]bool(nil), all...)
		alone[i], but[i] = true, false
		cases = append(cases, alone, but)
	}
	return append(cases, all)
}

func (s *System) flows(branches []int) []float64 {
	q := make([]float64, len(branches))
	for i, b := range branches {
		q[i] = s.mass[b] * s.laws[b].volume
	}
	return q
}

// power returns the electrical power of all pumps, and whether all have it.
func (s *System) power() (sum float64, known bool, err error) {
	known = true
	for b := range s.laws {
		if l := &s.laws[b]; l.pump != nil && !s.prescribed[b] {
			state, e := l.pump.state(max(s.mass[b], 0), l.volume)
			err = errors.Join(err, e)
			known = known && state.PowerKnown
			sum += state.Power
		}
	}
	if !known {
		sum = 0
	}
	return sum, known, err
}

package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// An Authority says how far a control valve rules its circuit.
type Authority struct {
	Open  float64 // Pa over the valve when it is wide open
	Shut  float64 // Pa over the valve when it is shut
	Value float64 // Open/Shut: 0.3 to 0.5 or more is wanted (common practice)
}

// Authority returns the authority of the control valve in a branch, which must
// hold exactly one [Valve], with everything else in the network as it stands:
// the pressure over the valve wide open as a share of the pressure over it shut.
// Source: definition of authority; flows by [System.Solve].
func (s *System) Authority(b int) (Authority, error) {
	const fn = "network.System.Authority"
	if err := s.known(b); err != nil {
		return Authority{}, fmt.Errorf("%s: %w", fn, err)
	}
	old := s.Branch(b)
	position, valves := -1, 0
	for k, e := range old.Elements {
		if _, ok := e.(Valve); ok {
			position = k
			valves++
		}
	}
	if valves != 1 {
		return Authority{}, fmt.Errorf("%s: %w", fn, s.net.inBranch(b, fmt.Errorf("%d valves, want one: %w", valves, hydronics.ErrRange)))
	}
	at := func(h float64) (open float64, err error) {
		changed := s.Branch(b)
		v := changed.Elements[position].(Valve)
		v.Position = h
		changed.Elements[position] = v
		changed.Shut = false
		if err := s.Change(b, changed); err != nil {
			return math.NaN(), err
		}
		if err := s.solve(); err != nil {
			return math.NaN(), err
		}
		if err := s.checkFlows(); err != nil {
			return math.NaN(), err
		}
		if err := s.checkHeld(b, s.findHeld()); err != nil {
			return math.NaN(), err
		}
		l := &s.laws[b]
		if h > 0 {
			return v.Kvs.Loss(s.mass[b]*l.volume, s.net.liquid(b).Density)
		}
		over := s.over(b) + l.lift - l.opening
		if l.pump != nil {
			p, _ := l.pump.at(0)
			over += p
		}
		return over, nil
	}
	open, errOpen := at(1)
	shut, errShut := at(0)
	if err := errors.Join(errOpen, errShut, s.Change(b, old)); err != nil {
		return Authority{}, fmt.Errorf("%s: %w", fn, err)
	}
	if !(shut > 0 && open > 0) {
		return Authority{}, fmt.Errorf("%s: %w", fn, s.net.inBranch(b, fmt.Errorf("%.4g Pa over the valve shut and %.4g Pa open: nothing drives flow through it from From to To: %w",
			shut, open, hydronics.ErrNoSolution)))
	}
	return Authority{Open: open, Shut: shut, Value: open / shut}, nil
}

// InstalledFlow returns the flow through a control valve as a share of its flow
// wide open, when the pressure over valve and circuit together stays the same:
//
//	q = 1/√(1 - a + a/(Kv/Kvs)²)
//
// with the authority a in (0, 1] and the ratio Kv/Kvs in (0, 1]. Outside these
// it returns NaN and a [hydronics.RangeError]. It follows from losses with the
// square of the flow in valve and circuit.
// Source: definition of authority and energy balance.
func InstalledFlow(authority, ratio float64) (float64, error) {
	const fn, least = "network.InstalledFlow", 1e-6
	if err := errors.Join(
		hydronics.Within(fn, "authority", "", authority, least, 1, hydronics.Guard),
		hydronics.Within(fn, "Kv/Kvs", "", ratio, least, 1, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	return 1 / math.Sqrt(1-authority+authority/(ratio*ratio)), nil
}

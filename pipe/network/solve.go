package network

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// solver is the state of the search. Nodes stand in the order of elimination.
type solver struct {
	pressure []float64 // Pa, piezometric
	mass     []float64 // kg/s
	force    []float64 // Pa: what the law of each branch takes at its flow
	excess   []float64 // Pa: difference of pressures over a branch less its law
	step     []float64 // kg/s
	// kg/s that one more pascal adds, 1/f'(m)
	conductance []float64
	closed      []bool  // one-way and shut by the pressure over it
	ground      []int32 // nodes that hold the level of a part that nothing else holds
	part        parts
	balance     []float64

	usual      float64 // kg/s: a thousandth of the flow that the largest tube usually has
	iterations int
	tree       tree
}

func (v *solver) make(nodes, branches int) {
	v.pressure, v.balance = make([]float64, nodes), make([]float64, nodes)
	v.mass, v.excess = make([]float64, branches), make([]float64, branches)
	v.force = make([]float64, branches)
	v.conductance, v.step = make([]float64, branches), make([]float64, branches)
	v.closed = make([]bool, branches)
	v.part = newParts(nodes)
}

// Both laws are met to these shares of the largest pressure that drives the
// network and of the largest flow.
const (
	energyTolerance = 1e-10
	massTolerance   = 1e-11
	// How close the search comes before one-way elements are shut for good.
	coarse = 1e-5

	guesses        = 3 // steps that start from simpler laws
	mostIterations = 200
	mostPasses     = 50
)

// Solve finds the flows and pressures at which mass balances at every node and
// energy around every loop.
//
// The method is the global gradient method: Newton's for all flows and
// pressures together, which leaves one sparse symmetric system of the pressures
// to eliminate per iteration (E. Todini and S. Pilati, in Computer Applications
// in Water Supply, vol. 1, 1988). After the first iteration every step keeps
// the mass balance, and along it the content of the network (the sum over the
// branches of the integral of pressure over flow, which both laws make least)
// falls to a minimum and rises again; steps that would go far beyond it are
// shortened. What is one-way first
// resists backward flow very strongly, and is then shut or opened for good.
//
// It returns an error matching [hydronics.ErrNoSolution] where nothing moves
// the liquid, where inflows have no way out, or where the search does not
// converge, and one matching [hydronics.ErrRange] where a pump would work
// beyond the end of its curve or be driven backwards, and where the result leaves
// the limits of package pipe: 50 m/s, a Reynolds number of 1e8, 1000 m³/s, 1e9 Pa.
// Source: mass and energy balance; E. Todini and S. Pilati (1988), as above.
func (s *System) Solve() (*Solution, error) {
	if err := s.solve(); err != nil {
		return nil, fmt.Errorf("network.System.Solve: %w", err)
	}
	r, err := s.result()
	if err != nil {
		return nil, fmt.Errorf("network.System.Solve: %w", err)
	}
	return r, nil
}

func (s *System) solve() error {
	drive := s.drive()
	if drive == 0 {
		return fmt.Errorf("nothing moves the liquid, neither a pump nor a pressure nor a difference of density: %w", hydronics.ErrNoSolution)
	}
	s.begin()
	s.iterations = 0
	if err := s.findGround(); err != nil {
		return err
	}
	tolerance := coarse
	if !s.anyOneWay() {
		tolerance = energyTolerance
	}
	if err := s.newton(drive, tolerance); err != nil {
		return err
	}
	if tolerance == energyTolerance {
		return nil
	}
	for pass := range mostPasses {
		settled := s.settled(drive)
		if settled && pass > 0 {
			s.shutIdle()
			return nil
		}
		if !settled {
			if err := s.findGround(); err != nil {
				return err
			}
			s.evaluate()
		}
		if err := s.newton(drive, energyTolerance); err != nil {
			return err
		}
	}
	return fmt.Errorf("one-way elements do not come to rest in %d passes: %w", mostPasses, hydronics.ErrNoSolution)
}

// drive returns the largest pressure that can move anything, Pa.
func (s *System) drive() float64 {
	most, low, high := 0.0, math.Inf(1), math.Inf(-1)
	for b := range s.laws {
		l := &s.laws[b]
		most = max(most, math.Abs(l.lift+l.buoyancy))
		if l.pump != nil {
			most = max(most, l.pump.shut*l.pump.speed*l.pump.speed)
		}
		if s.given[b] != 0 {
			most = max(most, 1)
		}
	}
	for k := range s.rest {
		if s.inflow[k] != 0 {
			most = max(most, 1)
		}
		if k >= s.f.n {
			low, high = min(low, s.rest[k]), max(high, s.rest[k])
		}
	}
	return max(most, high-low)
}

func (s *System) anyOneWay() bool {
	for b := range s.laws {
		if s.laws[b].oneWay && !s.prescribed[b] {
			return true
		}
	}
	return false
}

// begin puts the search at its start: no flow, pressures at rest, and for the
// first step each law replaced by a straight line that meets it at a usual flow.
func (s *System) begin() {
	copy(s.pressure, s.rest)
	clear(s.closed)
	s.ground = nil
	s.usual = 0
	for b := range s.laws {
		l := &s.laws[b]
		s.usual = max(s.usual, 1e-3*l.start)
		if s.prescribed[b] {
			s.mass[b], s.force[b], s.excess[b], s.conductance[b] = s.given[b], 0, 0, 0
			continue
		}
		s.mass[b], s.conductance[b] = 0, 1/l.line
		s.excess[b] = s.pressure[s.ends[b][0]] - s.pressure[s.ends[b][1]] + l.push + l.buoyancy
	}
}

// newton iterates from the excess and conductance at hand until the excess pressure
// of every branch is below the tolerance's share of drive, or of the largest pressure
// that a branch takes.
func (s *System) newton(drive, tolerance float64) error {
	worst, largest := math.Inf(1), 0.0
	for {
		if s.iterations >= mostIterations {
			return fmt.Errorf("no convergence in %d iterations, %.3g Pa left of %.3g: %w", s.iterations, worst, drive, hydronics.ErrNoSolution)
		}
		s.iterations++
		before, change := s.advance()
		if s.iterations < guesses {
			s.guess()
			continue
		}
		worst, largest = s.evaluate()
		if s.iterations > guesses && change > massTolerance {
			worst = s.shorten(before, worst)
		}
		if math.IsNaN(worst) {
			return fmt.Errorf("the search left the numbers after %d iterations: %w", s.iterations, hydronics.ErrNoSolution)
		}
		if worst <= tolerance*max(drive, largest) {
			imbalance, most := s.imbalance()
			if imbalance <= massTolerance*most {
				return nil
			}
		}
	}
}

// guess is evaluate with a square in the place of each law, through the point
// where the straight line of begin meets the law. It costs a tenth of evaluate and
// comes nearly as close in the first steps.
func (s *System) guess() {
	for b := range s.laws {
		if s.prescribed[b] || s.closed[b] {
			continue
		}
		l := &s.laws[b]
		m := s.mass[b]
		share := math.Abs(m) / l.start
		f, slope := l.line*share*m, 2*l.line*max(share, 0.05)
		if m < 0 && l.oneWay {
			f, slope = l.reverse*m, l.reverse
		}
		s.excess[b] = s.pressure[s.ends[b][0]] - s.pressure[s.ends[b][1]] + l.push + l.buoyancy - f
		s.conductance[b] = 1 / slope
	}
}

// evaluate finds the excess pressure and the conductance of every branch and returns
// the largest excess, and the largest pressure that a branch takes.
func (s *System) evaluate() (worst, largest float64) {
	// Slices of one known length, so that the loop checks no bounds.
	laws, pressure := s.laws, s.pressure
	n := len(laws)
	ends, mass, prescribed, closed := s.ends[:n], s.mass[:n], s.prescribed[:n], s.closed[:n]
	force, excess, conductance := s.force[:n], s.excess[:n], s.conductance[:n]
	for b := range laws {
		if prescribed[b] || closed[b] {
			continue
		}
		f, slope := laws[b].at(mass[b])
		e := pressure[ends[b][0]] - pressure[ends[b][1]] - f
		force[b], excess[b], conductance[b] = f, e, 1/slope
		if e = math.Abs(e); !(e <= worst) {
			worst = e
		}
		if f = math.Abs(f); f > largest {
			largest = f
		}
	}
	return worst, largest
}

// advance makes one full Newton step from the excess and conductance at hand. It
// returns the rate at which the content falls along the step at its beginning,
// and the largest change of a flow as a share of the largest flow.
func (s *System) advance() (before, change float64) {
	f := &s.f
	f.clear()
	copy(f.right, s.inflow)
	ends := s.ends
	n := len(ends)
	cell, mass, prescribed, closed := s.cell[:n], s.mass[:n], s.prescribed[:n], s.closed[:n]
	excess, conductance, step := s.excess[:n], s.conductance[:n], s.step[:n]
	diagonal, below, right := f.diagonal, f.below, f.right
	for b, end := range ends {
		i, j := end[0], end[1]
		if prescribed[b] || closed[b] {
			right[i] -= mass[b]
			right[j] += mass[b]
			continue
		}
		w := conductance[b]
		m := mass[b] + w*excess[b]
		diagonal[i] += w
		diagonal[j] += w
		below[cell[b]] -= w
		right[i] -= m
		right[j] += m
	}
	for _, k := range s.ground {
		diagonal[k] += max(diagonal[k], 1e-30)
	}
	f.solve()
	for k, d := range right[:f.n] {
		s.pressure[k] += d
	}
	most := s.usual
	for b, end := range ends {
		if prescribed[b] || closed[b] {
			step[b] = 0
			continue
		}
		e := excess[b] + right[end[0]] - right[end[1]]
		d := e * conductance[b]
		m := mass[b] + d
		step[b], mass[b] = d, m
		before += d * e
		if m = math.Abs(m); m > most {
			most = m
		}
		if d = math.Abs(d); d > change {
			change = d
		}
	}
	return before, change / most
}

// shorten goes back along the step just made to where the content no longer
// rises steeply, if it does at its end. before is the rate of its fall where
// the step began. It returns the largest excess where it stays.
func (s *System) shorten(before, worst float64) float64 {
	const enough = 0.9
	after := s.rate()
	if !(after > enough*before) {
		return worst
	}
	low, high, at := 0.0, 1.0, 1.0
	atLow, atHigh := -before, after
	for range 40 {
		next := low + (high-low)*atLow/(atLow-atHigh)
		next = min(max(next, low+0.05*(high-low)), high-0.05*(high-low))
		for b, d := range s.step {
			s.mass[b] += (next - at) * d
		}
		at = next
		worst, _ = s.evaluate()
		switch r := s.rate(); {
		case math.Abs(r) <= enough*before:
			return worst
		case r > 0:
			high, atHigh = next, r
		default:
			low, atLow = next, r
		}
	}
	return worst
}

// rate returns the derivative of the content along the step, per whole step.
func (s *System) rate() (r float64) {
	for b, d := range s.step {
		r -= d * s.excess[b]
	}
	return r
}

// imbalance returns the largest difference between what enters and what leaves
// a node without given pressure, and the largest flow, both in kg/s. Where all
// stands still, a thousandth of a usual flow takes the place of the latter.
func (s *System) imbalance() (worst, most float64) {
	copy(s.balance, s.inflow)
	most = s.usual
	for b, end := range s.ends {
		m := s.mass[b]
		s.balance[end[0]] -= m
		s.balance[end[1]] += m
		most = max(most, math.Abs(m))
	}
	for k, d := range s.balance {
		most = max(most, math.Abs(s.inflow[k]))
		if d = math.Abs(d); k < s.f.n && !(d <= worst) {
			worst = d
		}
	}
	return worst, most
}

// settled shuts what is one-way and was pushed backwards, opens what was shut
// and is pushed open, and reports whether nothing of the kind was to be done.
func (s *System) settled(drive float64) bool {
	settled := true
	_, most := s.imbalance()
	for b := range s.laws {
		l := &s.laws[b]
		switch {
		case !l.oneWay || s.prescribed[b]:
		case s.closed[b]:
			f, _ := l.at(0)
			if e := s.pressure[s.ends[b][0]] - s.pressure[s.ends[b][1]] - f; e > 10*energyTolerance*drive {
				s.closed[b] = false
				settled = false
			}
		case s.mass[b] < -massTolerance*most:
			s.shut(b)
			settled = false
		}
	}
	return settled
}

func (s *System) shut(b int) {
	s.closed[b], s.mass[b], s.force[b], s.excess[b] = true, 0, 0, 0
}

// shutIdle shuts what is one-way and stands at its opening pressure without
// flow, as in a dead end.
func (s *System) shutIdle() {
	_, most := s.imbalance()
	for b := range s.laws {
		if s.laws[b].oneWay && !s.prescribed[b] && s.mass[b] <= massTolerance*most {
			s.shut(b)
		}
	}
}

// findGround looks for parts that branches without flow of their own cut off
// from every given pressure, and holds the level of one node in each.
func (s *System) findGround() error {
	s.ground = s.ground[:0]
	whole := true
	for b := range s.laws {
		if s.prescribed[b] || s.closed[b] {
			whole = false
			break
		}
	}
	if whole {
		return nil
	}
	s.part.reset()
	for b, end := range s.ends {
		if !s.prescribed[b] && !s.closed[b] {
			s.part.join(int(end[0]), int(end[1]))
		}
	}
	n := s.f.n
	held := make([]bool, len(s.pressure))
	for k := n; k < len(held); k++ {
		held[s.part.of(k)] = true
	}
	// What enters each part without a given pressure must leave it.
	sum, size := make([]float64, len(held)), make([]float64, len(held))
	add := func(k int, m float64) {
		root := s.part.of(k)
		sum[root] += m
		size[root] += math.Abs(m)
	}
	for k := range held {
		add(k, s.inflow[k])
	}
	for b, end := range s.ends {
		if s.prescribed[b] {
			add(int(end[0]), -s.given[b])
			add(int(end[1]), s.given[b])
		}
	}
	for k := range n {
		if s.part.of(k) != k || held[k] {
			continue
		}
		if math.Abs(sum[k]) > 1e-9*size[k] {
			return fmt.Errorf("%.4g kg/s enter the part of the network around node %s and have no way out, or the reverse: every way is shut or one-way against it: %w",
				sum[k], s.net.nodeName(s.node(k)), hydronics.ErrNoSolution)
		}
		s.ground = append(s.ground, int32(k))
	}
	return nil
}

// node returns the index in the network of the node at place k of the order.
func (s *System) node(k int) int {
	for i, at := range s.at {
		if int(at) == k {
			return i
		}
	}
	return -1
}

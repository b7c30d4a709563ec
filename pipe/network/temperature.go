package network

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// Exchange is what a branch does to the temperature of the liquid that flows
// through it.
type Exchange uint8

// The kinds of exchange.
const (
	// Delivers sets the temperature at which the liquid leaves the branch: a
	// heat source under control.
	Delivers Exchange = iota + 1
	// GivesOff takes a fixed heat from the liquid: an emitter under a known load.
	GivesOff
	// LosesTo lets the liquid approach the surroundings along the branch: a
	// bare or insulated tube, an emitter of known conductance.
	LosesTo
)

const (
	leastTemperature, mostTemperature   = -100.0, 400.0 // °C
	leastSpecificHeat, mostSpecificHeat = 100.0, 1e5    // J/(kg·K)
)

// A Heat is the exchange of one branch. Branches without one leave the
// temperature as it is.
type Heat struct {
	Branch      int
	Exchange    Exchange
	Temperature float64 // °C: delivered, or of the surroundings; -100 to 400 (guard)
	Power       float64 // W given off, negative where taken up, ±1e9 (guard)
	Conductance float64 // W/K to the surroundings, 0 to 1e7 (guard)
}

// Temperatures are those of a solved network at rest in time.
type Temperatures struct {
	Nodes    []float64 // °C after mixing
	Branches []Passage
}

// A Passage is what happens to the temperature along a branch, in the
// direction of its flow. A branch without flow has the temperature of its node
// From at both ends.
type Passage struct {
	In, Out float64 // °C
	Power   float64 // W given off
}

// Temperatures returns the temperature after mixing at every node, and those
// along every branch, for the flows of a solution of n. entering is the
// temperature in °C of liquid that enters from outside.
//
//	mixing     T = Σ ṁ c T / Σ ṁ c over what flows in
//	GivesOff   ṁ c (Tin - Tout) = Φ
//	LosesTo    Tout = Ta + (Tin - Ta) exp(-H/(ṁ c))
//
// The specific heat is that of each branch's liquid. Nodes that nothing flows
// through have the temperature entering. Without flow a branch gives off
// nothing, whatever its exchange says, and its Power is 0. An error matching
// [hydronics.ErrNoSolution] says that heat has no way out, as in a loop that
// gives off a fixed heat and has no source, or in a heater without flow; a
// [hydronics.RangeError] that the exchanges lead to a temperature outside -100
// to 400 °C (guard).
// Source: energy balance.
func (n Network) Temperatures(r *Solution, entering float64, heats []Heat) (Temperatures, error) {
	t, err := n.temperatures(r, entering, heats)
	if err != nil {
		return Temperatures{}, fmt.Errorf("network.Network.Temperatures: %w", err)
	}
	return t, nil
}

// transfer is the law of a branch for temperatures: out = factor in + add.
type transfer struct {
	from, to    int     // nodes in the direction of flow
	rate        float64 // W/K carried; 0 without flow
	factor, add float64
}

func (n Network) temperatures(r *Solution, entering float64, heats []Heat) (Temperatures, error) {
	if err := n.matches(r); err != nil {
		return Temperatures{}, err
	}
	ways, err := n.transfers(r, heats)
	specific := n.specificHeat()
	if err = errors.Join(err, within("temperature of what enters", "°C", entering, leastTemperature, mostTemperature),
		within("specific heat of what enters", "J/(kg·K)", specific, leastSpecificHeat, mostSpecificHeat)); err != nil {
		return Temperatures{}, err
	}
	t := Temperatures{Nodes: make([]float64, len(n.Nodes)), Branches: make([]Passage, len(n.Branches))}
	into := make([][]int, len(n.Nodes))
	outside := make([]float64, len(n.Nodes)) // W/K that enter from outside
	for b, w := range ways {
		if w.rate > 0 {
			into[w.to] = append(into[w.to], b)
		}
	}
	for i := range n.Nodes {
		t.Nodes[i] = entering
		outside[i] = max(0, r.Nodes[i].Inflow) * specific
	}
	sequence := downstream(ways, len(n.Nodes))
	// Gauss-Seidel along the flow: exact in one sweep but for loops, each of
	// which carries back only a part of its error.
	const mostSweeps, tolerance = 20000, 1e-11
	for sweep := 0; ; sweep++ {
		change := 0.0
		for _, i := range sequence {
			rate, heat := outside[i], outside[i]*entering
			for _, b := range into[i] {
				w := ways[b]
				rate += w.rate
				heat += w.rate * (w.factor*t.Nodes[w.from] + w.add)
			}
			if rate > 0 {
				now := heat / rate
				change = max(change, math.Abs(now-t.Nodes[i]))
				t.Nodes[i] = now
			}
		}
		if change <= tolerance {
			break
		}
		if sweep == mostSweeps || !(change < 1e6) {
			return Temperatures{}, fmt.Errorf("temperatures do not come to rest, still %.3g K in sweep %d: heat has no way out: %w", change, sweep, hydronics.ErrNoSolution)
		}
	}
	var beyond []error
	for b, w := range ways {
		in := t.Nodes[w.from]
		if w.rate == 0 {
			t.Branches[b] = Passage{In: in, Out: in}
			continue
		}
		out := w.factor*in + w.add
		t.Branches[b] = Passage{In: in, Out: out, Power: w.rate * (in - out)}
		beyond = append(beyond, n.inBranch(b, within("temperature at its end", "°C", out, leastTemperature, mostTemperature)))
	}
	if err := errors.Join(beyond...); err != nil {
		return Temperatures{}, err
	}
	return t, nil
}

// specificHeat is that of what enters from outside: the network's own liquid or
// that of the first branch.
func (n *Network) specificHeat() float64 {
	if n.Liquid.SpecificHeat > 0 {
		return n.Liquid.SpecificHeat
	}
	return n.liquid(0).SpecificHeat
}

func (n *Network) transfers(r *Solution, heats []Heat) ([]transfer, error) {
	var wrong []error
	ways := make([]transfer, len(n.Branches))
	// Below a billionth of a kilogram per second, or of the largest flow, it is rounding.
	trickle := 1e-9
	for _, branch := range r.Branches {
		trickle = max(trickle, 1e-9*math.Abs(branch.Mass))
	}
	for b, branch := range n.Branches {
		w := transfer{from: branch.From, to: branch.To, factor: 1}
		m := r.Branches[b].Mass
		if m < 0 {
			w.from, w.to, m = w.to, w.from, -m
		}
		c := n.liquid(b).SpecificHeat
		wrong = append(wrong, n.inBranch(b, within("specific heat", "J/(kg·K)", c, leastSpecificHeat, mostSpecificHeat)))
		if m > trickle {
			w.rate = m * c
		}
		ways[b] = w
	}
	seen := map[int]bool{}
	for _, h := range heats {
		if h.Branch < 0 || h.Branch >= len(ways) || seen[h.Branch] {
			wrong = append(wrong, fmt.Errorf("exchange of branch %d: want each of 0 to %d at most once: %w", h.Branch, len(ways)-1, hydronics.ErrRange))
			continue
		}
		seen[h.Branch] = true
		wrong = append(wrong, n.inBranch(h.Branch, errors.Join(
			within("temperature of the exchange", "°C", h.Temperature, leastTemperature, mostTemperature),
			within("heat", "W", h.Power, -1e9, 1e9),
			within("conductance", "W/K", h.Conductance, 0, 1e7))))
		w := &ways[h.Branch]
		switch h.Exchange {
		case Delivers, GivesOff, LosesTo:
		default:
			wrong = append(wrong, n.inBranch(h.Branch, fmt.Errorf("exchange %d is not one of this package: %w", h.Exchange, hydronics.ErrRange)))
		}
		if w.rate == 0 {
			if h.Exchange == GivesOff && h.Power < 0 {
				wrong = append(wrong, n.inBranch(h.Branch, fmt.Errorf("%.4g W are put into liquid that stands still: heat has no way out: %w", -h.Power, hydronics.ErrNoSolution)))
			}
			continue
		}
		switch h.Exchange {
		case Delivers:
			w.factor, w.add = 0, h.Temperature
		case GivesOff:
			w.add = -h.Power / w.rate
		case LosesTo:
			w.factor = math.Exp(-h.Conductance / w.rate)
			w.add = -h.Temperature * math.Expm1(-h.Conductance/w.rate)
		}
	}
	return ways, errors.Join(wrong...)
}

// downstream returns the nodes so that flow runs forward in the list as far as
// loops allow: the reverse of the order in which a depth-first walk leaves
// them, begun where a temperature is delivered.
func downstream(ways []transfer, nodes int) []int {
	next := make([][]int, nodes)
	var starts []int
	for _, w := range ways {
		switch {
		case w.rate == 0:
		case w.factor == 0:
			starts = append(starts, w.to)
		default:
			next[w.from] = append(next[w.from], w.to)
		}
	}
	for i := range nodes {
		starts = append(starts, i)
	}
	type place struct{ node, done int }
	seen := make([]bool, nodes)
	left := make([]int, 0, nodes)
	for _, i := range starts {
		if seen[i] {
			continue
		}
		seen[i] = true
		walk := []place{{node: i}}
		for len(walk) > 0 {
			p := &walk[len(walk)-1]
			if p.done < len(next[p.node]) {
				j := next[p.node][p.done]
				p.done++
				if !seen[j] {
					seen[j] = true
					walk = append(walk, place{node: j})
				}
				continue
			}
			left = append(left, p.node)
			walk = walk[:len(walk)-1]
		}
	}
	slices.Reverse(left)
	return left
}

// Warm solves flows and temperatures together: the liquid of every branch is
// taken at the mean of the temperatures at its ends, the network is solved, the
// temperatures are found, and so on until none changes by more than 0.001 K. A
// network that differences of density alone drive needs it. The liquids that n
// holds are where it starts from, and must let something flow.
//
// It returns the network with the liquids of the last round, its solution and
// its temperatures. An error matches [hydronics.ErrNoSolution] where they do not
// come to rest in 200 rounds, and [hydronics.ErrRange] where the liquid would
// leave its range.
func (n Network) Warm(l fluid.Liquid, entering float64, heats []Heat) (Network, *Solution, Temperatures, error) {
	const fn, rounds, tolerance = "network.Network.Warm", 200, 1e-3
	fail := func(err error) (Network, *Solution, Temperatures, error) {
		return Network{}, nil, Temperatures{}, fmt.Errorf("%s: %w", fn, err)
	}
	n = n.Clone()
	mean := make([]float64, len(n.Branches))
	for b := range mean {
		mean[b] = n.liquid(b).Temperature
	}
	for range rounds {
		r, err := n.Solve()
		if err != nil {
			return fail(err)
		}
		t, err := n.temperatures(r, entering, heats)
		if err != nil {
			return fail(err)
		}
		change := 0.0
		next := make([]fluid.Properties, len(mean))
		for b, p := range t.Branches {
			next[b] = n.liquid(b)
			if r.Branches[b].Closed {
				continue
			}
			now := (p.In + p.Out) / 2
			change = max(change, math.Abs(now-mean[b]))
			// Half way each time: density that drives the flow which makes
			// the density would otherwise swing.
			mean[b] += (now - mean[b]) / 2
			if next[b], err = l.At(mean[b]); err != nil {
				return fail(n.inBranch(b, err))
			}
		}
		if change <= tolerance {
			return n, r, t, nil
		}
		for b := range next {
			n.Branches[b].Liquid = next[b]
		}
	}
	return fail(fmt.Errorf("flows and temperatures do not come to rest in %d rounds: %w", rounds, hydronics.ErrNoSolution))
}

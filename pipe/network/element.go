package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// An Element is one thing in a branch: a [Run], [Device], [Strainer], [Valve],
// [Thermostatic], [NonReturn], [Bypass], [Lift] or [Pump]. The set is closed.
// What lets the flow pass one way only, or drives it, points from From to To.
type Element interface {
	add(l *law, p fluid.Properties) error
}

// A Run is a length of tube with its fittings, as package pipe knows it:
//
//	network.Run(tube.Run(12))
//
// A fixed loss coefficient without length (Bore and Zeta) is a Run too. The
// transition rule pipe.StepTransition is refused: where its loss jumps there
// may be no flow that obeys both laws.
type Run pipe.Run

func (r Run) add(l *law, p fluid.Properties) error {
	if r.Transition == pipe.StepTransition {
		return fmt.Errorf("a loss that jumps at a Reynolds number has no place in a network, where no flow may then fit it: %w", hydronics.ErrRange)
	}
	resistance, err := pipe.Run(r).Prepare(p)
	if err != nil {
		return err
	}
	if l.bore == 0 || r.Bore < l.bore {
		l.bore = r.Bore
	}
	if r.Length == 0 && r.ZetaLaminar == 0 {
		loss, _ := resistance.LossAndSlope(1) // Pa·s²/m⁶: nothing but a square
		l.addSquare(loss)
		return nil
	}
	l.runs = append(l.runs, resistance)
	return nil
}

// A Device is anything with a fixed flow coefficient: a heat exchanger, a meter,
// a balancing valve in its setting, an isolating valve that is open.
// pipe.KvFor makes the coefficient from a loss at a flow.
type Device struct {
	Kv pipe.Kv // m³/h
}

func (d Device) add(l *law, p fluid.Properties) error {
	return l.addKv("Kv of the device", d.Kv, p.Density)
}

// A Strainer is a device that gets dirty.
type Strainer struct {
	Kv      pipe.Kv // clean, m³/h
	Fouling float64 // further loss as a share of the clean loss: 0 clean, 1 twice the loss; at most 100 (guard)
}

func (s Strainer) add(l *law, p fluid.Properties) error {
	if err := errors.Join(within("strainer fouling", "", s.Fouling, 0, 100), checkKv("Kv of the strainer", s.Kv)); err != nil {
		return err
	}
	return l.addKv("Kv of the fouled strainer", s.Kv/pipe.Kv(math.Sqrt(1+s.Fouling)), p.Density)
}

// A NonReturn lets nothing through from To to From.
type NonReturn struct {
	Kv      pipe.Kv // open, m³/h
	Opening float64 // Pa needed to lift it from its seat, 0 to 1e5 (guard); stays as a loss while it is open
}

func (v NonReturn) add(l *law, p fluid.Properties) error {
	if err := within("opening pressure of the non-return valve", "Pa", v.Opening, 0, 1e5); err != nil {
		return err
	}
	l.oneWay = true
	l.nonReturn = true
	l.opening += v.Opening
	return l.addKv("Kv of the non-return valve", v.Kv, p.Density)
}

// A Bypass is a differential-pressure valve. Closed below Set, above it the
// pressure difference rises with the flow,
//
//	Δp = Set + Slope V̇
//
// until the valve is wide open and Kvs is all that resists; it never resists
// less than that. No flow passes from To to From. A branch can have one.
type Bypass struct {
	Set   float64 // Pa at which it begins to open, 0 to 1e6 (guard)
	Slope float64 // Pa·s/m³: proportional band divided by the flow at its end, 0 to 1e12 (guard)
	Kvs   pipe.Kv // wide open, m³/h
}

func (v Bypass) add(l *law, p fluid.Properties) error {
	if l.bypassSquare != 0 {
		return fmt.Errorf("a branch can have one Bypass: %w", hydronics.ErrRange)
	}
	if err := errors.Join(within("set pressure of the bypass", "Pa", v.Set, 0, 1e6),
		within("slope of the bypass", "Pa·s/m³", v.Slope, 0, 1e12)); err != nil {
		return err
	}
	if err := checkKv("Kvs of the bypass", v.Kvs); err != nil {
		return err
	}
	square, err := v.Kvs.Loss(1, p.Density)
	if err != nil {
		return err
	}
	l.oneWay = true
	l.opening += v.Set
	l.bypassSet = v.Set
	l.bypassSlope = v.Slope
	l.bypassSquare = square
	return nil
}

// A Lift raises the pressure by a fixed amount whatever the flow: another
// network, a main with its reducer, a pump of which nothing but this is known.
// A negative one lowers it.
type Lift struct {
	Pressure float64 // Pa, ±1e7 (guard)
}

func (s Lift) add(l *law, _ fluid.Properties) error {
	if err := within("lift", "Pa", s.Pressure, -1e7, 1e7); err != nil {
		return err
	}
	l.lift += s.Pressure
	return nil
}

// checkElement refuses what is none of the set: nil, a pointer to an element,
// and a type of others that holds one.
func checkElement(e Element) error {
	switch e.(type) {
	case Run, Device, Strainer, Valve, Thermostatic, NonReturn, Bypass, Lift, Pump:
		return nil
	}
	return fmt.Errorf("%T is not an element; give one of this package's as a value, not as a pointer: %w", e, hydronics.ErrRange)
}

// checkKv refuses a flow coefficient outside the limits of package pipe.
func checkKv(quantity string, kv pipe.Kv) error {
	return within(quantity, "m³/h", float64(kv), leastKv, mostKv)
}

const leastKv, mostKv = 1e-4, 1e5 // m³/h

// within is hydronics.Within for an element; the branch is named around it.
func within(quantity, unit string, v, min, max float64) error {
	if v >= min && v <= max {
		return nil
	}
	return hydronics.Within("network", quantity, unit, v, min, max, hydronics.Guard)
}

// inBranch names the branch in front of an error.
func (n *Network) inBranch(b int, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("branch %s: %w", n.branchName(b), err)
}

func (n *Network) branchName(b int) string { return named(b, n.Branches[b].Name) }

func (n *Network) nodeName(i int) string { return named(i, n.Nodes[i].Name) }

func named(i int, name string) string {
	if name == "" {
		return fmt.Sprint(i)
	}
	return fmt.Sprintf("%d (%s)", i, name)
}

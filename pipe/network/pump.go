package network

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
	"gonum.org/v1/gonum/interp"
)

// Control is how a pump is run.
type Control uint8

// The kinds of control.
const (
	// FixedSpeed keeps Speed; the pump works on its curve.
	FixedSpeed Control = iota
	// ConstantPressure keeps the pressure difference Set at every flow that
	// the curve at Speed, now the highest speed, allows.
	ConstantPressure
	// ProportionalPressure lets the pressure difference fall in a straight line
	// from Set, where the curve at Speed gives Set, to half of it without flow.
	ProportionalPressure
)

// A PumpPoint is one point of a pump's curve at its full speed.
type PumpPoint struct {
	Flow float64 // m³/s, 0 to 1000 (guard)
	Head float64 // m of the liquid pumped, 0 to 1000 (guard)
	// W electric with a liquid of 1000 kg/m³, at least what the liquid then gains
	// and at most 1e9 (guard); 0 at every point if not known.
	Power float64
}

// A Pump raises the pressure along a curve of at least two points, the first
// without flow, each with more flow and less head than the one before. Between
// them runs a cubic that keeps the curve falling (F. N. Fritsch and J. Butland,
// SIAM J. Sci. Stat. Comput. 5 (1984) 300). The affinity laws hold for other
// speeds: flow with the speed, head with its square, power with its cube.
//
// Give the falling part of a curve whose head droops towards no flow. A pump
// loses head in a liquid much thicker than water: above about 20 mm²/s ask for
// its curve in that liquid.
type Pump struct {
	Curve   []PumpPoint
	Speed   float64 // as a share of the curve's speed, 0.05 to 2 (guard); with a control the highest that it may use
	Control Control
	Set     float64 // Pa, for ConstantPressure and ProportionalPressure: within the curve at Speed
}

// pumpLaw is a pump in a liquid, at full speed in kg/s and Pa.
type pumpLaw struct {
	curve      interp.FritschButland
	end, shut  float64 // kg/s at the last point; Pa without flow
	last, fall float64 // Pa and Pa/(kg/s) at the last point
	power      interp.FritschButland
	hasPower   bool

	speed   float64
	control Control
	set     float64 // Pa
	meets   float64 // kg/s where the highest speed gives set
	most    float64 // kg/s at the end of the curve, at speed
}

// scale is the density to which the power of a curve refers.
const scale = 1000.0 // kg/m³

func (p Pump) add(l *law, liquid fluid.Properties) error {
	if l.pump != nil {
		return fmt.Errorf("a branch can have one Pump; join two by a node: %w", hydronics.ErrRange)
	}
	law, err := p.prepare(liquid.Density)
	if err != nil {
		return err
	}
	l.pump = law
	return nil
}

func (p Pump) prepare(density float64) (*pumpLaw, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	flow := make([]float64, len(p.Curve))
	pressure := make([]float64, len(p.Curve))
	l := &pumpLaw{speed: p.Speed, control: p.Control, set: p.Set}
	for i, c := range p.Curve {
		flow[i] = c.Flow * density
		pressure[i] = c.Head * density * hydronics.StandardGravity
		l.hasPower = l.hasPower || c.Power > 0
	}
	// Fit fails on fewer than two or on unordered abscissas only, which check refused.
	err := l.curve.Fit(flow, pressure)
	if l.hasPower {
		power := make([]float64, len(p.Curve))
		for i, c := range p.Curve {
			power[i] = c.Power * density / scale
		}
		err = errors.Join(err, l.power.Fit(flow, power))
	}
	if err != nil {
		return nil, err
	}
	n := len(flow) - 1
	l.end, l.shut, l.last = flow[n], pressure[0], pressure[n]
	l.fall = (pressure[0] - pressure[n]) / flow[n]
	l.most = l.end * l.speed
	if p.Control != FixedSpeed {
		top, bottom := l.shut*p.Speed*p.Speed, l.last*p.Speed*p.Speed
		// Within the curve, ends excluded: at either the control has nothing to do.
		err := hydronics.Within("network", "set pressure of the pump", "Pa", p.Set,
			math.Nextafter(bottom, top), math.Nextafter(top, bottom), "its curve at the highest speed")
		if err != nil {
			return nil, err
		}
		l.meets, err = numeric.Root(func(m float64) float64 { h, _ := l.onCurve(m, p.Speed); return h - p.Set },
			0, l.most, 1e-12*l.most)
		if err != nil {
			return nil, err
		}
	}
	return l, nil
}

func (p Pump) check() error {
	err := within("speed of the pump", "", p.Speed, 0.05, 2)
	if p.Control > ProportionalPressure {
		err = errors.Join(err, fmt.Errorf("control %d of the pump is not one of this package: %w", p.Control, hydronics.ErrRange))
	}
	if len(p.Curve) < 2 {
		return errors.Join(err, fmt.Errorf("the pump's curve has %d points, want two or more: %w", len(p.Curve), hydronics.ErrRange))
	}
	err = errors.Join(err, within("flow of the first point of the pump's curve", "m³/s", p.Curve[0].Flow, 0, 0))
	known := slices.ContainsFunc(p.Curve, func(c PumpPoint) bool { return c.Power != 0 })
	for i, c := range p.Curve {
		gained := 0.0
		if known { // a pump that gives more than it takes has its power in the wrong unit, or at some points only
			gained = c.Flow * c.Head * scale * hydronics.StandardGravity
		}
		err = errors.Join(err, within("flow on the pump's curve", "m³/s", c.Flow, 0, 1000),
			within("head on the pump's curve", "m", c.Head, 0, 1000),
			within("power on the pump's curve", "W", c.Power, gained, 1e9))
		if i > 0 && !(c.Flow > p.Curve[i-1].Flow && c.Head < p.Curve[i-1].Head) {
			err = errors.Join(err, fmt.Errorf("point %d of the pump's curve has not more flow and less head than the one before: %w",
				i, hydronics.ErrRange))
		}
	}
	return err
}

// onCurve returns pressure and its fall per flow at a speed: p = n² p₁(m/n).
// Beyond either end the curve goes on straight while the solver searches; a
// result there is refused.
func (l *pumpLaw) onCurve(m, n float64) (pressure, fall float64) {
	x := m / n
	switch {
	case x < 0:
		return n * n * (l.shut - l.fall*x), n * l.fall
	case x > l.end:
		return n * n * (l.last - l.fall*(x-l.end)), n * l.fall
	}
	return n * n * l.curve.Predict(x), -n * l.curve.PredictDerivative(x)
}

// at returns the pressure at the mass flow m, and how it falls with the flow,
// never less than 0.
func (l *pumpLaw) at(m float64) (pressure, fall float64) {
	if l.control == FixedSpeed || m > l.meets {
		return l.onCurve(m, l.speed)
	}
	if m < 0 {
		top, fall := l.kept(0), l.speed*l.fall
		return top - fall*m, fall
	}
	return l.kept(m), 0
}

// kept is the pressure that the control keeps.
func (l *pumpLaw) kept(m float64) float64 {
	if l.control == ProportionalPressure {
		return l.set * (0.5 + 0.5*m/l.meets)
	}
	return l.set
}

// A PumpState is the operating point of a pump.
type PumpState struct {
	Flow      float64 // m³/s
	Pressure  float64 // Pa, gained
	Head      float64 // m of the liquid
	Speed     float64 // as a share of the curve's speed
	Hydraulic float64 // W: Pressure times Flow

	PowerKnown bool    // the curve has power; otherwise the next two are 0
	Power      float64 // W, electric
	Efficiency float64 // Hydraulic/Power, of pump and motor together
}

// state returns the operating point at the mass flow m.
func (l *pumpLaw) state(m, volume float64) (PumpState, error) {
	pressure, _ := l.at(m)
	s := PumpState{
		Flow: m * volume, Pressure: pressure, Head: pressure * volume / hydronics.StandardGravity,
		Speed: l.speed, Hydraulic: pressure * m * volume,
	}
	if l.control != FixedSpeed && m < l.meets {
		var err error
		if s.Speed, err = l.speedFor(m, pressure); err != nil {
			return PumpState{}, err
		}
	}
	if l.hasPower {
		n := s.Speed
		s.PowerKnown = true
		s.Power = n * n * n * l.power.Predict(m/n)
		if s.Power > 0 {
			s.Efficiency = s.Hydraulic / s.Power
		}
	}
	return s, nil
}

// speedFor returns the speed at which the curve passes through a flow and a
// pressure: 0 = n² p₁(m/n) - p.
func (l *pumpLaw) speedFor(m, pressure float64) (float64, error) {
	low := max(m/l.end, math.Sqrt(pressure/l.shut))
	high := 2 * max(low, l.speed)
	over := func(n float64) float64 { p, _ := l.onCurve(m, n); return p - pressure }
	if over(low) >= 0 {
		return low, nil
	}
	n, err := numeric.Root(over, low, high, 1e-13*high)
	if err != nil {
		return math.NaN(), fmt.Errorf("no speed up to %.3g gives %.4g Pa: %w", high, pressure, err)
	}
	return n, nil
}

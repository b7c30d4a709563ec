package network

import (
	"math"

	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// A law is a branch compiled: the pressure f(m) that it takes at the mass flow
// m, losses less lifts, continuous and strictly rising with m.
type law struct {
	volume float64 // 1/density, m³/kg
	square float64 // Pa/(kg/s)²: everything that loses with the square
	knee   float64 // kg/s: below it the square runs into a straight line
	lift   float64 // Pa
	// Pa that drive from From to To because the liquid differs in density from
	// the one that the solver's pressures refer to.
	buoyancy float64

	runs pipe.Resistances
	pump *pumpLaw

	oneWay  bool
	opening float64 // Pa to open what is one-way
	reverse float64 // Pa/(kg/s): stands in for what is shut while the solver searches

	bypassSet, bypassSlope float64 // Pa, Pa/(kg/s)
	bypassSquare           float64 // Pa/(kg/s)²

	nonReturn bool
	shut      bool
	bore      float64 // the narrowest, m; 0 without a run
	viscosity float64 // kinematic, m²/s

	// The search starts from a straight line, f = -push + line m, which takes
	// what the law takes at a flow of the usual order, start.
	start float64 // kg/s
	line  float64 // Pa/(kg/s)
	push  float64 // Pa
}

// kneeLoss is the loss below which a loss with the square of the flow runs into
// a straight line through zero, so that its slope does not vanish. In truth
// flow through a valve becomes laminar there too, and 1 mPa is nothing.
const kneeLoss = 1e-3 // Pa

func (l *law) addKv(quantity string, kv pipe.Kv, density float64) error {
	if err := checkKv(quantity, kv); err != nil {
		return err
	}
	loss, err := kv.Loss(1, density)
	if err != nil {
		return err
	}
	l.addSquare(loss)
	return nil
}

// addSquare adds a loss in Pa at 1 m³/s.
func (l *law) addSquare(loss float64) { l.square += loss }

// compile makes l the law of a branch that holds the liquid p.
func (l *law) compile(elements []Element, p fluid.Properties) error {
	runs := 0
	for _, e := range elements {
		if err := checkElement(e); err != nil {
			return err
		}
		if _, ok := e.(Run); ok {
			runs++
		}
	}
	*l = law{volume: 1 / p.Density, viscosity: p.DynamicViscosity / p.Density, runs: make(pipe.Resistances, 0, runs)}
	for _, e := range elements {
		if err := e.add(l, p); err != nil {
			return err
		}
	}
	l.toMass()
	if !l.shut && l.square == 0 && len(l.runs) == 0 && l.bypassSquare == 0 {
		return errNoResistance
	}
	l.begin(p)
	return nil
}

// toMass turns coefficients of the volume flow, as the elements add them, into
// coefficients of the mass flow.
func (l *law) toMass() {
	l.square *= l.volume * l.volume
	l.bypassSquare *= l.volume * l.volume
	l.bypassSlope *= l.volume
	if l.square > 0 {
		l.knee = math.Sqrt(kneeLoss / l.square)
	}
}

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// begin chooses where the search starts: at half a metre per second in the
// narrowest bore, or at what 5 kPa drive through valves alone.
func (l *law) begin(p fluid.Properties) {
	const velocity, loss = 0.5, 5000.0
	l.start = math.Inf(1)
	if l.bore > 0 {
		l.start = velocity * area(l.bore) * p.Density
	}
	if s := l.square + l.bypassSquare; s > 0 {
		l.start = min(l.start, math.Sqrt(loss/s))
	}
	if l.pump != nil {
		l.start = min(l.start, l.pump.most/2)
	}
	if math.IsInf(l.start, 1) {
		l.start = 0.01
	}
	f, _ := l.passive(l.start)
	if l.oneWay {
		l.reverse = reverseFactor * (f + l.opening + 1) / l.start
		f = max(f+l.bypassSlope*l.start, l.bypassSquare*l.start*l.start)
	}
	l.line = f / l.start
	l.push = l.lift - l.opening
	if l.pump != nil {
		still, _ := l.pump.at(0)
		flowing, _ := l.pump.at(l.start)
		l.push += still
		l.line += max(0, still-flowing) / l.start
	}
}

// reverseFactor is how much harder the search finds it to push flow backwards
// through what is one-way. The final result lets nothing through at all.
const reverseFactor = 1e4

// passive returns what the runs and valves of the branch lose, and the slope,
// without anything that is one-way and without any lift.
func (l *law) passive(m float64) (f, slope float64) {
	if len(l.runs) != 0 {
		q := m * l.volume
		f, slope = l.runs.LossAndSlope(q)
		slope *= l.volume
	}
	if l.square != 0 {
		if a := math.Abs(m); a >= l.knee {
			f += l.square * a * m
			slope += 2 * l.square * a
		} else { // value and slope agree at the knee
			r := a / l.knee
			f += l.square * l.knee * m * (0.5 + 0.5*r*r)
			slope += l.square * l.knee * (0.5 + 1.5*r*r)
		}
	}
	return f, slope
}

// at returns f(m) and a positive slope, its derivative but for the rising part
// of a proportional-pressure control, which counts as flat.
func (l *law) at(m float64) (f, slope float64) {
	f, slope = l.passive(m)
	f -= l.lift + l.buoyancy
	if l.pump != nil || l.oneWay {
		f, slope = l.special(m, f, slope)
	}
	return f, slope
}

func (l *law) special(m, f, slope float64) (float64, float64) {
	if l.pump != nil {
		h, falling := l.pump.at(m)
		f -= h
		slope += falling
	}
	if l.oneWay {
		g, s := l.valve(m)
		f += g
		slope += s
	}
	// What is flat, such as a bypass without a slope, would have no bounds.
	return f, max(slope, 1e-6*l.line)
}

// valve returns the pressure at what is one-way, and its slope.
func (l *law) valve(m float64) (f, slope float64) {
	if m < 0 {
		return l.opening + l.reverse*m, l.reverse
	}
	f, slope = l.opening+l.bypassSlope*m, l.bypassSlope
	if wide := l.bypassSquare * m * m; wide > l.bypassSet+l.bypassSlope*m {
		f += wide - l.bypassSet - l.bypassSlope*m
		slope = 2 * l.bypassSquare * m
	}
	return f, slope
}

// loss returns what the elements that resist take at the mass flow m, without
// any lift; nothing at what is shut.
func (l *law) loss(m float64) float64 {
	if m == 0 {
		return 0
	}
	f, _ := l.passive(m)
	if l.oneWay {
		g, _ := l.valve(m)
		f += g
	}
	return f
}

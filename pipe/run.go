package pipe

import (
	"errors"
	"math"

	"example.com/hydronics/fluid"
)

// A Run is a length of tube of one bore with its fittings and valves, all in
// series. [Tube.Run] makes one from a tube.
type Run struct {
	Bore      float64 // inside diameter, m, 0.0005 to 3 (guard)
	Roughness float64 // absolute, m; at most 0.05 of the bore
	Length    float64 // m, at most 1e5 (guard)

	Zeta        float64 // sum of loss coefficients, on the velocity in Bore, -10 to 1e6 (guard)
	ZetaLaminar float64 // sum of the K1 of two-K and three-K fittings (adds ZetaLaminar/Re to Zeta), 0 to 1e6 (guard)

	// ZetaUncertainty is that of Zeta, 0 to 1e6 (guard); [Run.With] adds it up
	// from the fittings, for those of one make err alike. 0: not stated.
	ZetaUncertainty float64

	Kv Kv // of the valves taken together ([KvInSeries]); 0 means no valve

	Transition Transition // rule between laminar and turbulent flow; the zero value is the default
}

// Loss is what a flow loses in a run. Velocity and losses have the sign of the
// flow.
type Loss struct {
	Velocity       float64 // m/s
	Reynolds       float64 // without sign
	FrictionFactor float64 // Darcy's; 0 without flow
	Regime         Regime
	Gradient       float64 // friction per metre of tube, Pa/m
	Friction       float64 // Gradient times Length, Pa
	Fittings       float64 // by Zeta and ZetaLaminar, Pa
	Valves         float64 // by Kv, Pa
	Total          float64 // Friction + Fittings + Valves, Pa
	Slope          float64 // dTotal/dflow, Pa·s/m³

	// Uncertainty of Total in Pa: 5 % of the friction (20 % in transitional
	// flow; see the package documentation) and that of Zeta, root of the sum
	// of squares. Bore, roughness and Kv count as given.
	Uncertainty float64
}

// Loss returns what the flow in m³/s of a liquid with the properties p loses in
// the run. No flow loses nothing; a negative flow loses the negative.
//
//	Δp = f L/D ρV²/2 + (ζ + ζ₁/Re) ρV²/2 + 1e5 (3600 V̇/Kv)² ρ/1000
//
// The first term is that of Darcy and Weisbach. Height does not enter: in a
// closed loop its share cancels but for [GravityCirculation].
//
// The velocity may be 50 m/s (guard) and the Reynolds number 1e8. Outside these
// and the limits of [Run] it returns the zero Loss and the
// [hydronics.RangeError] of every wrong field.
// Source: Darcy and Weisbach, f by [FrictionFactor] or the run's [Transition];
// ζ₁/Re after W. B. Hooper (1981); Kv after IEC 60534-2-1; the uncertainty from
// the measurements named at [Transition].
func (r Run) Loss(flow float64, p fluid.Properties) (Loss, error) {
	const fn = "pipe.Run.Loss"
	if err := r.check(fn, &p); err != nil {
		return Loss{}, err
	}
	c := r.resistance(&p)
	if err := c.checkFlow(fn, flow); err != nil {
		return Loss{}, err
	}
	q := math.Abs(flow)
	f, n := c.factor(q)
	friction, slope := c.friction(q, f, n)
	l := Loss{
		Velocity: flow / c.area, Reynolds: c.reynolds * q, FrictionFactor: f,
		Regime:   c.rule.regime(c.reynolds * q),
		Friction: math.Copysign(friction, flow), Fittings: (c.zetaLinear + c.zeta*q) * flow,
		Valves: c.valve * q * flow,
		Slope:  slope + c.zetaLinear + 2*(c.zeta+c.valve)*q,
	}
	if r.Length > 0 {
		l.Gradient = l.Friction / r.Length
	}
	l.Total = l.Friction + l.Fittings + l.Valves
	byFriction, byZeta := l.Regime.uncertainty()*friction, c.dynamic*r.ZetaUncertainty*q*q
	l.Uncertainty = math.Sqrt(byFriction*byFriction + byZeta*byZeta)
	return l, nil
}

// Content returns the volume of liquid in the run's tube in m³: plain arithmetic
// on Bore and Length, which it does not check.
// Source: definition.
func (r Run) Content() float64 { return area(r.Bore) * r.Length }

// Prepare checks the run and the properties once and returns the resistance
// that they make together, for solvers that ask for it many times. It refuses
// a negative Zeta, with which the loss need not grow with the flow.
// Source: that of [Run.Loss].
func (r Run) Prepare(p fluid.Properties) (Resistance, error) {
	const fn = "pipe.Run.Prepare"
	if !(r.Zeta >= 0) {
		return Resistance{}, within(fn, "sum of loss coefficients", "", r.Zeta, 0, maxZeta)
	}
	if err := r.check(fn, &p); err != nil {
		return Resistance{}, err
	}
	return r.resistance(&p), nil
}

// A Resistance is a run filled with a liquid of one temperature: the loss as a
// function of the flow alone. [Run.Prepare] makes it; the zero value resists
// nothing.
type Resistance struct {
	area     float64 // m²
	dynamic  float64 // ρV²/2 over the flow squared, Pa·s²/m⁶
	reynolds float64 // per m³/s
	rr       float64 // relative roughness
	rule     Transition

	laminar    float64 // friction where f = 64/Re, Pa·s/m³
	turbulent  float64 // friction for f = 1, Pa·s²/m⁶
	zetaLinear float64 // Pa·s/m³
	zeta       float64 // Pa·s²/m⁶
	valve      float64 // Pa·s²/m⁶
}

// LossAndSlope returns the loss in Pa and its derivative dloss/dflow in Pa·s/m³
// for any flow in m³/s. It neither checks nor fails: the loss is odd in the
// flow, grows strictly with it and is continuous (but for the step of
// [StepTransition]), and the slope is positive, at zero flow too if there is
// tube. Beyond a Reynolds number of 1e8 the Colebrook equation simply goes on.
// Source: Darcy and Weisbach, as [Run.Loss], and its derivative.
func (c *Resistance) LossAndSlope(flow float64) (loss, slope float64) {
	q := math.Abs(flow)
	f, n := c.factor(q)
	loss, slope = c.all(q, f, n)
	return math.Copysign(loss, flow), slope
}

// Resistances are those of runs in series.
type Resistances []Resistance

// LossAndSlope returns the sums of [Resistance.LossAndSlope]. Neighbours of one
// bore, roughness, liquid and transition rule share a friction factor, which takes
// longest to find.
// Source: definition: losses in series add.
func (s Resistances) LossAndSlope(flow float64) (loss, slope float64) {
	q := math.Abs(flow)
	var f, n float64
	for i := range s {
		c := &s[i]
		if i == 0 || c.reynolds != s[i-1].reynolds || c.rr != s[i-1].rr || c.rule != s[i-1].rule {
			f, n = c.factor(q)
		}
		l, d := c.all(q, f, n)
		loss += math.Copysign(l, flow)
		slope += d
	}
	return loss, slope
}

// factor returns the friction factor at a flow q >= 0 and n = d ln(f re²)/d ln re;
// n = 0 where the loss is to be written without f, which is infinite without flow.
func (c *Resistance) factor(q float64) (f, n float64) {
	re := c.reynolds * q
	switch {
	case re >= turbulentStart && c.rule != ChurchillTransition:
		return colebrook(re, c.rr)
	case re <= laminarEnd && c.rule != ChurchillTransition || re < 100:
		if re >= minReynolds {
			f = 64 / re
		}
		return f, 0
	default:
		return c.rule.friction(re, c.rr)
	}
}

// friction returns the loss in the bare tube at a flow q >= 0, and its slope, by
// what factor found.
func (c *Resistance) friction(q, f, n float64) (loss, slope float64) {
	if n == 0 {
		return c.laminar * q, c.laminar
	}
	perFlow := c.turbulent * f * q
	return perFlow * q, perFlow * n
}

// all is friction with fittings and valves.
func (c *Resistance) all(q, f, n float64) (loss, slope float64) {
	loss, slope = c.friction(q, f, n)
	square := c.zeta + c.valve
	loss += (c.zetaLinear + square*q) * q
	slope += c.zetaLinear + 2*square*q
	return loss, slope
}

func (c *Resistance) checkFlow(fn string, flow float64) error {
	limit := maxVelocity * c.area
	most := limit
	if re := maxReynolds / c.reynolds; re < most {
		most = re
	}
	if flow >= -most && flow <= most {
		return nil
	}
	if !(math.Abs(flow) <= limit) {
		return within(fn, "velocity", "m/s", flow/c.area, -maxVelocity, maxVelocity)
	}
	return checkFriction(fn, math.Abs(flow)*c.reynolds, c.rr)
}

// resistance needs a checked run and checked properties.
func (r *Run) resistance(p *fluid.Properties) Resistance {
	d, a := r.Bore, area(r.Bore)
	perBore, perArea := 1/d, 1/a
	dynamic := p.Density / 2 * perArea * perArea // ρV²/2 = dynamic V̇²
	viscous := p.DynamicViscosity * perArea * perBore
	c := Resistance{
		area: a, dynamic: dynamic, reynolds: p.Density * d * perArea / p.DynamicViscosity, rr: r.Roughness * perBore, rule: r.Transition,
		laminar:    32 * viscous * perBore * r.Length, // Hagen-Poiseuille: Δp = 32 μ L V/D²
		turbulent:  dynamic * r.Length * perBore,
		zeta:       dynamic * r.Zeta,
		zetaLinear: viscous * r.ZetaLaminar / 2, // ζ₁/Re ρV²/2 = ζ₁ μ V/(2 D)
	}
	if r.Kv > 0 {
		c.valve = r.Kv.square(p.Density)
	}
	return c
}

func (r *Run) check(fn string, p *fluid.Properties) error {
	if r.Bore >= minBore && r.Bore <= maxBore &&
		r.Roughness >= 0 && r.Roughness <= maxRoughness*r.Bore &&
		r.Length >= 0 && r.Length <= maxLength &&
		r.Zeta >= minZeta && r.Zeta <= maxZeta &&
		r.ZetaLaminar >= 0 && r.ZetaLaminar <= maxZeta &&
		r.ZetaUncertainty >= 0 && r.ZetaUncertainty <= maxZeta &&
		(r.Kv == 0 || r.Kv >= minKv && r.Kv <= maxKv) && r.Transition <= StepTransition &&
		p.Density >= minDensity && p.Density <= maxDensity &&
		p.DynamicViscosity >= minViscosity && p.DynamicViscosity <= maxViscosity {
		return nil
	}
	var kv error
	if r.Kv != 0 {
		kv = within(fn, "Kv", "m³/h", float64(r.Kv), minKv, maxKv)
	}
	return errors.Join(
		within(fn, "bore", "m", r.Bore, minBore, maxBore),
		within(fn, "roughness", "m", r.Roughness, 0, maxRoughness*r.Bore),
		within(fn, "length", "m", r.Length, 0, maxLength),
		within(fn, "sum of loss coefficients", "", r.Zeta, minZeta, maxZeta),
		within(fn, "laminar sum of loss coefficients", "", r.ZetaLaminar, 0, maxZeta),
		within(fn, "uncertainty of the loss coefficients", "", r.ZetaUncertainty, 0, maxZeta),
		kv, r.Transition.check(fn),
		within(fn, "density", "kg/m³", p.Density, minDensity, maxDensity),
		within(fn, "dynamic viscosity", "Pa·s", p.DynamicViscosity, minViscosity, maxViscosity),
	)
}

package frost

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// A Leg is a straight piece of a [Column], on its way up from the valve.
type Leg struct {
	Length float64 // m, 0.001 to 1000
	Rise   float64 // m, height of its upper end over its lower end, 0 to Length
}

// A Column is the water that stands above one open drain valve: one bore, legs
// that rise (or run level) from the valve to an upper end where air follows
// freely. Legs that fall again are pockets and refused; a route with low points
// is a chain of columns, one on each side of each valve.
type Column struct {
	Bore      float64 // m, 0.001 to 1
	Roughness float64 // m, 0 to 5 % of the bore
	Kv        pipe.Kv // of the open valve, m³/h at 1 bar, 1e-3 to 1e3
	Legs      []Leg   // from the valve upwards
	Final     float64 // m of head at which the calculation stops, 0 to the head at the start
}

// An Emptying is how a column leaves through its valve.
type Emptying struct {
	Time    float64 // s until the head has fallen to Column.Final
	Volume  float64 // m³ that have left by then
	Remains float64 // m³ still in the column then
	Flow    float64 // m³/s at the start
	Head    float64 // m at the start
}

const minKv, maxKv = 1e-3, 1e3 // m³/h, guards

// nodes and weights of Gauss and Legendre for 5 points on [-1, 1]
// (Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4).
var gauss5 = [5][2]float64{
	{-0.906179845938664, 0.236926885056189},
	{-0.538469310105683, 0.478628670499366},
	{0, 0.568888888888889},
	{0.538469310105683, 0.478628670499366},
	{0.906179845938664, 0.236926885056189},
}

// Empty returns how the column empties, the water having the properties p. At
// each moment the head is spent in the valve and in the friction of the wetted
// length (quasi-steady):
//
//	ρ g z = 1 bar·(Q/Kv)²·ρ/1000 + f ℓ/d·ρ v²/2,  dt = A dℓ/Q
//
// Integrated to about 1e-5 of the time. The water is taken to leave as a plug,
// the jet's own head to be part of Kv. Whether a plug forms is a matter of bore
// and fall: see the package comment.
//
// Errors: [hydronics.RangeError] for a field outside its limits, and for a
// level first leg with Final 0: it never empties as a plug.
// Source: Bernoulli's equation with friction, as in any text on hydraulics; Kv by
// IEC 60534, friction by [pipe.FrictionFactor].
func (c Column) Empty(p fluid.Properties) (Emptying, error) {
	const fn = "frost.Column.Empty"
	if err := joined(c.check(fn),
		hydronics.Within(fn, "density", "kg/m³", p.Density, 500, 1500, hydronics.Guard),
		hydronics.Within(fn, "dynamic viscosity", "Pa·s", p.DynamicViscosity, 1e-5, 1, hydronics.Guard)); err != nil {
		return Emptying{}, err
	}
	d, err := newDischarge(c.Bore, c.Roughness, c.Kv, p)
	if err != nil {
		return Emptying{}, err
	}
	area := math.Pi * c.Bore * c.Bore / 4
	var e Emptying
	length := 0.0
	for _, l := range c.Legs {
		e.Head += l.Rise
		length += l.Length
	}
	e.Flow = d.flow(e.Head, length)
	top := e.Head
	wetted := length
	for i := len(c.Legs) - 1; i >= 0 && top > c.Final; i-- {
		l := c.Legs[i]
		foot := 0.0
		for _, below := range c.Legs[:i] {
			foot += below.Rise
		}
		share := 1.0 // of the leg that empties
		if foot < c.Final {
			share = (top - c.Final) / l.Rise
		}
		e.Time += d.time(top, max(foot, c.Final), wetted, share*l.Length) * area
		e.Volume += share * l.Length * area
		wetted -= share * l.Length
		top = foot
	}
	e.Remains = max(wetted, 0) * area
	return e, nil
}

func (c Column) check(fn string) error {
	err := joined(
		hydronics.Within(fn, "number of legs", "", float64(len(c.Legs)), 1, 1e4, hydronics.Guard),
		hydronics.Within(fn, "bore", "m", c.Bore, 0.001, 1, hydronics.Guard),
		hydronics.Within(fn, "roughness", "m", c.Roughness, 0, 0.05*c.Bore, "the friction factor's range, 5 % of the bore"),
		hydronics.Within(fn, "valve's Kv", "m³/h", float64(c.Kv), minKv, maxKv, hydronics.Guard))
	if err != nil {
		return err
	}
	head := 0.0
	for _, l := range c.Legs {
		if !(l.Length >= 0.001 && l.Length <= 1000 && l.Rise >= 0 && l.Rise <= l.Length*(1+1e-9)) {
			return joined(
				hydronics.Within(fn, "length of a leg", "m", l.Length, 0.001, 1000, hydronics.Guard),
				hydronics.Within(fn, "rise of a leg", "m", l.Rise, 0, l.Length, "a falling leg is a pocket; a rise is never longer than the leg"))
		}
		head += l.Rise
	}
	if !(head >= 1e-6) {
		return hydronics.Within(fn, "head at the start", "m", head, 1e-6, 1e7, "a level tube does not empty as a plug")
	}
	least := 0.0
	if c.Legs[0].Rise == 0 {
		least = 1e-6
	}
	return hydronics.Within(fn, "final head", "m", c.Final, least, head, "the head at the start; above 0 where the first leg is level")
}

// A discharge is what the flow through wetted tube and valve depends on.
type discharge struct {
	tube   pipe.Resistance // of one metre
	valve  float64         // Pa·s²/m⁶
	weight float64         // ρ g, Pa/m
}

func newDischarge(bore, roughness float64, kv pipe.Kv, p fluid.Properties) (discharge, error) {
	tube, err := pipe.Run{Bore: bore, Roughness: roughness, Length: 1}.Prepare(p)
	if err != nil {
		return discharge{}, err
	}
	return discharge{
		tube:   tube,
		valve:  hydronics.Bar * p.Density / 1000 * 3600 * 3600 / float64(kv*kv),
		weight: p.Density * hydronics.StandardGravity,
	}, nil
}

// flow returns the flow in m³/s from a head in m through a wetted length in m:
// the root of valve·Q² + length·friction(Q) = ρ g z, by Newton's method from
// above, where the function is convex.
func (d discharge) flow(head, length float64) float64 {
	pressure := d.weight * head
	q := math.Sqrt(pressure / d.valve)
	for range 60 {
		loss, slope := d.tube.LossAndSlope(q)
		step := (d.valve*q*q + length*loss - pressure) / (2*d.valve*q + length*slope)
		if q -= step; q < 0 {
			q = 0.5 * (q + step) // the transition is not convex: stay on the good side
		}
		if math.Abs(step) <= 1e-9*q { // squared by the step just made
			break
		}
	}
	return q
}

// time returns ∫ dℓ/Q in s/m² while the head falls from top to bottom and the
// wetted length shrinks by cut. The square root of the head is the variable, in
// which the integrand stays smooth down to no head at all.
func (d discharge) time(top, bottom, wetted, cut float64) float64 {
	const panels = 4
	low, high := math.Sqrt(bottom), math.Sqrt(top)
	level := top-bottom <= 1e-9*top
	sum := 0.0
	for i := range panels {
		for _, g := range gauss5 {
			x := (float64(i) + 0.5*(1+g[0])) / panels // from the bottom up
			z, left, weight := top, x, 1.0            // head, share of the cut that is left, d(left)/dx
			if !level {
				root := low + (high-low)*x
				z = root * root
				left = (z - bottom) / (top - bottom)
				weight = 2 * root * (high - low) / (top - bottom)
			}
			sum += 0.5 * g[1] / panels * weight * cut / d.flow(z, wetted-cut*(1-left))
		}
	}
	return sum
}

package dhw

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Reheating is the outcome of warming a cylinder as a whole.
type Reheating struct {
	Time     float64 // s
	Supplied float64 // J, heat from the heater; Stored plus Lost
	Stored   float64 // J, gain of the water
	Lost     float64 // J, standing loss meanwhile; negative in a warmer room
}

// Reheat returns the time and the heat that bring the whole cylinder, fully
// mixed whatever its Nodes, from one temperature to a higher one, both in °C
// (0 to 100), in a room of the ambient temperature in °C (-40 to 60, guards):
//
//	V ρc dT/dt = P(T) - UA (T - ambient)
//
// Between two points of the heater the right side is a straight line, so that
// the solution is exact: the time of a segment is its heat over the logarithmic
// mean of the net powers at its ends.
//
// It returns [hydronics.ErrNoSolution] if the heater cannot hold a temperature
// on the way, and [hydronics.RangeError] for values outside the guards or the
// heater's points. A heater that switches off below the wanted temperature, as
// heat pumps do, belongs in the points.
//
// Source: energy balance of a mixed store, as in BS 6700:2006, Annex C (there
// without the loss).
func (c Cylinder) Reheat(h Heater, from, to, ambient float64) (Reheating, error) {
	const fn = "dhw.Cylinder.Reheat"
	if err := together(c.thermal(fn), h.check(fn), water(fn, "start", from), water(fn, "end", to), air(fn, ambient)); err != nil {
		return Reheating{}, err
	}
	if err := together(hydronics.Within(fn, "end", "°C", to, from, maxWater, "not below the start"), h.covers(fn, from, to)); err != nil {
		return Reheating{}, err
	}
	r := Reheating{Stored: c.capacity() * (to - from)}
	low := from
	for i := range h {
		high := to
		if i+1 < len(h) {
			high = min(to, h[i+1].Store)
		}
		if high <= low {
			continue
		}
		if !c.segment(&r, h, low, high, ambient) {
			return Reheating{}, fmt.Errorf("%w: %s: the heater's %.4g W do not exceed the loss at %.4g °C on the way from %.4g to %.4g °C",
				hydronics.ErrNoSolution, fn, h.at(high), high, from, to)
		}
		low = high
	}
	r.Supplied = r.Stored + r.Lost
	if err := duration(fn, "time", r.Time); err != nil {
		return Reheating{}, err
	}
	return r, nil
}

// segment adds the stretch from low to high, on which the net power is a
// straight line, and reports whether it can be passed.
func (c Cylinder) segment(r *Reheating, h Heater, low, high, ambient float64) bool {
	n0 := h.at(low) - c.LossCoefficient*(low-ambient)
	n1 := h.at(high) - c.LossCoefficient*(high-ambient)
	if !(n0 > 0 && n1 > 0) {
		return false
	}
	// With x from 0 to 1 along the segment: dt = C ΔT dx/(n0 + (n1-n0) x).
	ratio := (n1 - n0) / n0
	heat := c.capacity() * (high - low) / n0
	inverse, first := logMoments(ratio)
	r.Time += heat * inverse
	r.Lost += heat * c.LossCoefficient * ((low-ambient)*inverse + (high-low)*first)
	return true
}

// logMoments returns the integrals of 1/(1+rx) and x/(1+rx) for x from 0 to 1.
func logMoments(r float64) (inverse, first float64) {
	if math.Abs(r) < 1e-3 { // the closed forms lose digits; the series' next term is below 1e-16
		return 1 - r*(1./2-r*(1./3-r*(1./4-r*(1./5-r/6)))),
			1./2 - r*(1./3-r*(1./4-r*(1./5-r*(1./6-r/7))))
	}
	inverse = math.Log1p(r) / r
	return inverse, (1 - inverse) / r
}

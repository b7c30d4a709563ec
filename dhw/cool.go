package dhw

import "math"

// A Cooling is the state of a cylinder after standing idle.
type Cooling struct {
	Temperature float64 // °C, fully mixed
	Lost        float64 // J, given to the room
}

// Cool returns how a cylinder, fully mixed whatever its Nodes, cools from the
// temperature from in °C (0 to 100) in a room of the ambient temperature in °C
// (-40 to 60) during the time in s (0 to a year; guards):
//
//	T = ambient + (from - ambient) exp(-UA t/(V ρc))
//
// A temperature that would fall to freezing is refused with a
// [hydronics.RangeError], as are values outside the guards.
//
// Source: energy balance of a mixed store.
func (c Cylinder) Cool(from, ambient, time float64) (Cooling, error) {
	const fn = "dhw.Cylinder.Cool"
	err := together(c.thermal(fn), water(fn, "start", from), air(fn, ambient), duration(fn, "time", time))
	if err != nil {
		return Cooling{}, err
	}
	fall := (ambient - from) * math.Expm1(-c.LossCoefficient*time/c.capacity()) // from - T
	end := from - fall
	if err := water(fn, "end", end); err != nil {
		return Cooling{}, err
	}
	return Cooling{Temperature: end, Lost: c.capacity() * fall}, nil
}

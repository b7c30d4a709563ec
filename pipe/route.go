package pipe

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Point is a place that a pipe passes: the centre of its bore, in m, Z
// upwards from any level that suits. The pipe runs straight from one point to
// the next.
type Point struct {
	X, Y, Z  float64 // m, each within ±10 000 (guard)
	Outdoors bool    // exposed to the weather; see [Route]
}

// A Route is a pipe as a chain of points in space. A leg between two points
// counts as outdoors when either of them does: put an indoor point where the
// pipe passes the wall.
//
// Points that lie above each other by less than the true sag of the pipe are
// level in the drawing only. A route says what geometry allows; whether the
// pipe was laid so is to be seen on site.
type Route []Point

// A Leg is the straight piece of a route from point From to point From+1.
type Leg struct {
	From     int
	Length   float64 // along the pipe, m
	Plan     float64 // as seen from above, m
	Rise     float64 // m, negative where the leg falls
	Slope    float64 // Rise/Length: -0.01 falls by 1 cm in each metre of pipe
	Outdoors bool
}

// An Extreme is a low or a high point of a route: one point, or several in a
// row at the same height.
type Extreme struct {
	From, To int     // first and last point
	Z        float64 // m
	End      bool    // an end of the route: what follows there decides
	Outdoors bool    // one of the points is
}

// A Survey is what the geometry of a route says.
type Survey struct {
	Legs          []Leg
	Length        float64   // along the pipe, m
	OutdoorLength float64   // part of Length, m
	Plan          float64   // as seen from above, m
	Rise          float64   // from the first to the last point, m
	Lowest        float64   // m
	Highest       float64   // m
	LowPoints     []Extreme // where a drain valve belongs
	HighPoints    []Extreme // where an air vent belongs
}

// Survey measures the route. It needs two points or more, no two in a row at
// the same place; otherwise, and for numbers outside their limits, it returns
// the zero Survey and an error.
func (r Route) Survey() (Survey, error) {
	if err := r.check("pipe.Route.Survey"); err != nil {
		return Survey{}, err
	}
	s := Survey{
		Legs: make([]Leg, len(r)-1), Rise: r[len(r)-1].Z - r[0].Z,
		Lowest: r[0].Z, Highest: r[0].Z,
	}
	for i := range s.Legs {
		l := r.leg(i)
		s.Legs[i] = l
		s.Length += l.Length
		s.Plan += l.Plan
		if l.Outdoors {
			s.OutdoorLength += l.Length
		}
		s.Lowest = min(s.Lowest, r[i+1].Z)
		s.Highest = max(s.Highest, r[i+1].Z)
	}
	s.LowPoints = r.extremes(-1)
	s.HighPoints = r.extremes(1)
	return s, nil
}

func (r Route) leg(i int) Leg {
	a, b := r[i], r[i+1]
	l := Leg{From: i, Plan: math.Hypot(b.X-a.X, b.Y-a.Y), Rise: b.Z - a.Z, Outdoors: a.Outdoors || b.Outdoors}
	l.Length = math.Hypot(l.Plan, l.Rise)
	l.Slope = l.Rise / l.Length
	return l
}

// extremes lists the low points (sign -1) or the high points (sign 1).
func (r Route) extremes(sign float64) []Extreme {
	var found []Extreme
	for first := 0; first < len(r); {
		last := first
		out := r[first].Outdoors
		for last+1 < len(r) && r[last+1].Z == r[first].Z {
			last++
			out = out || r[last].Outdoors
		}
		z := sign * r[first].Z
		if (first == 0 || sign*r[first-1].Z < z) && (last == len(r)-1 || sign*r[last+1].Z < z) {
			found = append(found, Extreme{first, last, r[first].Z, first == 0 || last == len(r)-1, out})
		}
		first = last + 1
	}
	return found
}

// A Pocket is a stretch of a route from which water, or air, cannot leave.
type Pocket struct {
	From, To      float64 // distance from the first point along the pipe, m
	Length        float64 // To - From, m
	OutdoorLength float64 // part of Length, m
	Level         float64 // of the water (or of the underside of the air) that stays, m
	Extreme       int     // the lowest point of water, the highest of air: where an outlet is missing
}

// HeldWater returns the stretches that keep water when the route is opened at
// the points with the given indices, with air let in everywhere: traps. Water
// leaves a place if it can run to an outlet without rising; otherwise it stays
// up to the lowest crest on the way. Without an outlet the whole route stays
// full. A level stretch counts as drained: mind its fall ([Survey]).
//
// What runs off is geometry alone: the film on the wall, droplets in level tube
// and bores so narrow that the surface tension holds the water are not counted.
func (r Route) HeldWater(outlets ...int) ([]Pocket, error) {
	return r.held("pipe.Route.HeldWater", outlets, -1)
}

// HeldAir returns the stretches that keep air when the route is filled with
// vents open at the points with the given indices: the mirror image of
// [Route.HeldWater]. That the pressure of the water squeezes the air, and that a
// fast flow carries it along, is not counted.
func (r Route) HeldAir(vents ...int) ([]Pocket, error) {
	return r.held("pipe.Route.HeldAir", vents, 1)
}

func (r Route) held(fn string, open []int, sign float64) ([]Pocket, error) {
	if err := r.check(fn); err != nil {
		return nil, err
	}
	opened := make([]bool, len(r))
	for _, i := range open {
		if i < 0 || i >= len(r) {
			return nil, hydronics.Within(fn, "index of an opened point", "", float64(i), 0, float64(len(r)-1), hydronics.Guard)
		}
		opened[i] = true
	}
	// Everything below is written for water; air is water upside down.
	z := make([]float64, len(r))
	top := math.Inf(-1)
	for i, p := range r {
		z[i] = -sign * p.Z
		top = max(top, z[i])
	}
	// fromRight[i] is the crest on the way from point i to the next outlet
	// there, fromLeft the same to the left; infinite without an outlet.
	crest := func(order func(int) int) []float64 {
		c, level := make([]float64, len(r)), math.Inf(1)
		for k := range r {
			i := order(k)
			level = max(level, z[i])
			if opened[i] {
				level = z[i]
			}
			c[i] = level
		}
		return c
	}
	fromLeft := crest(func(k int) int { return k })
	fromRight := crest(func(k int) int { return len(r) - 1 - k })

	var pockets []Pocket
	station := 0.0
	for i := range len(r) - 1 {
		l := r.leg(i)
		level := min(fromLeft[i], fromRight[i+1])
		// a and b bound the part of the leg below the level, as fractions.
		a, b := 0.0, 1.0
		if z0, z1 := z[i], z[i+1]; max(z0, z1) > level {
			cut := (level - z0) / (z1 - z0)
			switch {
			case min(z0, z1) >= level:
				b = 0
			case z0 < z1:
				b = cut
			default:
				a = cut
			}
		} else if min(z0, z1) >= level {
			b = 0
		}
		if b > a {
			p := Pocket{From: station + a*l.Length, To: station + b*l.Length, Level: -sign * min(level, top), Extreme: i}
			if z[i+1] < z[i] {
				p.Extreme = i + 1
			}
			p.Length = p.To - p.From
			if l.Outdoors {
				p.OutdoorLength = p.Length
			}
			if n := len(pockets); n > 0 && a == 0 && z[i] < level && pockets[n-1].To == station {
				last := &pockets[n-1]
				last.To = p.To
				last.Length += p.Length
				last.OutdoorLength += p.OutdoorLength
				if z[p.Extreme] < z[last.Extreme] {
					last.Extreme = p.Extreme
				}
			} else {
				pockets = append(pockets, p)
			}
		}
		station += l.Length
	}
	return pockets, nil
}

func (r Route) check(fn string) error {
	if len(r) < 2 {
		return hydronics.Within(fn, "number of points", "", float64(len(r)), 2, math.MaxInt32, hydronics.Guard)
	}
	var errs []error
	for i, p := range r {
		for _, c := range [...]struct {
			axis string
			v    float64
		}{{"X", p.X}, {"Y", p.Y}, {"Z", p.Z}} {
			if !(c.v >= -maxCoordinate && c.v <= maxCoordinate) {
				errs = append(errs, within(fn, fmt.Sprintf("point %d, %s", i, c.axis), "m", c.v, -maxCoordinate, maxCoordinate))
			}
		}
		if i > 0 && p.X == r[i-1].X && p.Y == r[i-1].Y && p.Z == r[i-1].Z {
			errs = append(errs, within(fn, fmt.Sprintf("length of leg %d", i-1), "m", 0, 1e-9, maxCoordinate))
		}
	}
	return errors.Join(errs...)
}

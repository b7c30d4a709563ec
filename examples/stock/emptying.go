package main

import (
	"math"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
)

// emptyingTime returns the time in s in which the outdoor pieces of a route run
// empty through a drain valve at each of their low points, air let in at each of
// their high points. Of the two columns over a valve one is counted after the
// other, which is slower than both at once and spares their interplay
// (frost.Reach resolves it, a thousand times slower). Where the bore changes or a
// low point is a level stretch, drain valves are not credited: +Inf.
func emptyingTime(pieces []piece, o *Options) (float64, error) {
	water, err := fluid.Water().At(1) // the most viscous that has to leave
	if err != nil {
		return math.NaN(), err
	}
	slowest := 0.0
	for len(pieces) > 0 {
		n := 1
		for n < len(pieces) && pieces[n].from == pieces[n-1].to {
			n++
		}
		part := pieces[:n]
		pieces = pieces[n:]
		route := pipe.Route{point(part[0].from)}
		for i := range part {
			if part[i].tube != part[0].tube {
				return math.Inf(1), nil
			}
			route = append(route, point(part[i].to))
		}
		survey, err := route.Survey()
		if err != nil {
			return math.NaN(), err
		}
		c := frost.Column{Bore: part[0].tube.Bore(), Roughness: part[0].tube.Roughness, Kv: pipe.Kv(o.DrainKv)}
		for _, low := range survey.LowPoints {
			if low.From != low.To {
				return math.Inf(1), nil // level: nothing pushes the water out
			}
			time := 0.0
			for _, direction := range [...]int{-1, 1} {
				if c.Legs = climb(survey.Legs, low.From, direction); len(c.Legs) == 0 {
					continue
				}
				e, err := c.Empty(water)
				if err != nil {
					return math.NaN(), err
				}
				time += e.Time
			}
			slowest = max(slowest, time)
		}
	}
	return slowest, nil
}

// climb returns the legs that lead up or run level from a point in a direction
// (1 or -1) along the route.
func climb(legs []pipe.Leg, from, direction int) []frost.Leg {
	var up []frost.Leg
	for i := from; ; i += direction {
		k := i // the leg between point i and the next in that direction
		if direction < 0 {
			k = i - 1
		}
		if k < 0 || k >= len(legs) || float64(direction)*legs[k].Rise < 0 {
			return up
		}
		up = append(up, frost.Leg{Length: legs[k].Length, Rise: math.Abs(legs[k].Rise)})
	}
}

func point(p [3]float64) pipe.Point { return pipe.Point{X: p[0], Y: p[1], Z: p[2], Outdoors: true} }

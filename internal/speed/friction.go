package main

import (
	"math"

	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// fixedPoint puts Colebrook's equation into itself until nothing changes in 13
// digits, and returns the friction factor.
func fixedPoint(re, rr float64) float64 {
	for x := 7.0; ; { // f = 0.02
		next := -2 * math.Log10(rr/3.7+2.51*x/re)
		if math.Abs(next-x) <= 1e-13*next {
			return 1 / (next * next)
		}
		x = next
	}
}

// plainLoss is the loss in turbulent flow after Darcy and Weisbach, as a textbook
// writes it, Pa.
func plainLoss(r pipe.Run, flow float64, p fluid.Properties) float64 {
	v := flow / (math.Pi * r.Bore * r.Bore / 4)
	f := fixedPoint(p.Density*v*r.Bore/p.DynamicViscosity, r.Roughness/r.Bore)
	return (f*r.Length/r.Bore + r.Zeta) * p.Density * v * v / 2
}

// plainSlope is a difference quotient of plainLoss, Pa·s/m³.
func plainSlope(r pipe.Run, flow float64, p fluid.Properties) float64 {
	h := 1e-4 * flow
	return (plainLoss(r, flow+h, p) - plainLoss(r, flow-h, p)) / (2 * h)
}

package main

import (
	"math"

	"example.com/hydronics/fluid"
)

// glycol holds the terms of propylene glycol in A. Melinder, Properties of
// Secondary Working Fluids, IIR, Paris 2010: the exponents of (x - 30.7031) and
// (t - 32.7083), x in mass percent, and the coefficients of density, specific heat,
// conductivity and logarithm of the viscosity in mPa·s.
var glycol = [18]struct {
	i, j float64
	c    [4]float64
}{
	{0, 0, [4]float64{1018, 3882, 0.4513, 0.6837}},
	{0, 1, [4]float64{-0.5406, 2.699, 7.955e-4, -0.03045}},
	{0, 2, [4]float64{-2.666e-3, -1.659e-3, 3.482e-8, 2.525e-4}},
	{0, 3, [4]float64{1.347e-5, -1.032e-5, -5.966e-9, -1.399e-6}},
	{1, 0, [4]float64{0.7604, -13.04, -4.795e-3, 0.03328}},
	{1, 1, [4]float64{-9.45e-3, 0.0507, -1.678e-5, -3.984e-4}},
	{1, 2, [4]float64{5.541e-5, -4.752e-5, 8.941e-8, 4.332e-6}},
	{1, 3, [4]float64{-1.343e-7, 1.522e-6, 1.493e-10, -1.86e-8}},
	{2, 0, [4]float64{-2.498e-3, -0.1598, 2.076e-5, 5.453e-5}},
	{2, 1, [4]float64{2.7e-5, 9.534e-5, 1.563e-7, -8.6e-8}},
	{2, 2, [4]float64{-4.018e-7, 1.167e-5, -4.615e-9, -1.593e-8}},
	{2, 3, [4]float64{3.376e-9, -4.87e-8, 9.897e-12, -4.465e-11}},
	{3, 0, [4]float64{-1.55e-4, 3.539e-4, -9.083e-8, -3.9e-6}},
	{3, 1, [4]float64{2.829e-6, 3.102e-5, -2.518e-9, 1.054e-7}},
	{3, 2, [4]float64{-7.175e-9, -2.95e-7, 6.543e-11, -1.589e-9}},
	{4, 0, [4]float64{-1.131e-6, 5e-5, -5.952e-10, -1.587e-8}},
	{4, 1, [4]float64{-2.221e-8, -7.135e-7, -3.605e-11, 4.475e-10}},
	{5, 0, [4]float64{2.342e-8, -4.959e-7, 2.104e-11, 3.564e-9}},
}

// powSolution adds the terms up as they are printed, at the mass fraction w and t °C.
func powSolution(w, t float64) fluid.Properties {
	x, y := 100*w-30.7031, t-32.7083
	var f [4]float64
	for _, term := range glycol {
		power := math.Pow(x, term.i) * math.Pow(y, term.j)
		for k := range f {
			f[k] += term.c[k] * power
		}
	}
	return fluid.Properties{Temperature: t, Density: f[0], SpecificHeat: f[1], Conductivity: f[2], DynamicViscosity: math.Exp(f[3]) / 1000}
}

// Package sample has numbers of every kind for the test of perturb.
package sample

import "math"

const gravity = 9.81 // noticed by a table, through both its uses

// Kilogram is noticed by another test; only other packages use it.
const Kilogram = 1e3

type newton float64

var series = [...]float64{0, 1.5, 2.5}

// Weight returns NaN above a mass of 1000.
func Weight(mass float64) newton {
	if mass > 1000 {
		return newton(math.NaN())
	}
	return newton(mass * gravity)
}

// Height returns gravity/2 t².
func Height(t float64) float64 { return gravity / 2 * t * t }

// Forgotten has no test at all.
func Forgotten(v float64) float64 { return 0.7*v + float64(len(series)-1) }

// Third has a table that is too coarse for small changes of the first term.
func Third(i int) newton { return 0.001 + newton(series[i]+1) }

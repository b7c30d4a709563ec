package fluid

import (
	"math"

	"example.com/hydronics"
)

// Ends of the saturation line as IF97 region 4 covers it.
const (
	criticalTemperature = 373.946  // °C: 647.096 K, R7-97 eq. 2
	criticalPressure    = 22.064e6 // Pa, R7-97 eq. 3
	pressureAtZero      = 611.213  // Pa, saturation pressure at 0 °C (R7-97 section 8), rounded up there
	pressureAtZeroExact = 611.2126 // Pa, the same a little below, so that the round trip from 0 °C holds
)

// Coefficients of region 4, R7-97 Table 34.
const (
	s01 = 0.11670521452767e4
	s02 = -0.72421316703206e6
	s03 = -0.17073846940092e2
	s04 = 0.12020824702470e5
	s05 = -0.32325550322333e7
	s06 = 0.14915108613530e2
	s07 = -0.48232657361591e4
	s08 = 0.40511340542057e6
	s09 = -0.23855557567849
	s10 = 0.65017534844798e3
)

// SaturationPressure returns the absolute pressure, in Pa, at which water boils
// at the temperature t in °C, from 0 to 373.946 (the critical point). Outside it
// returns NaN and a [hydronics.RangeError].
//
// Against IAPWS-95 it is right within 0.02 % up to 200 °C.
// Source: IAPWS R7-97(2012), region 4, eq. 30.
func SaturationPressure(t float64) (pAbs float64, err error) {
	if !(t >= 0 && t <= criticalTemperature) {
		return math.NaN(), hydronics.Within("fluid.SaturationPressure", "temperature", "°C",
			t, 0, criticalTemperature, if97+" region 4")
	}
	return saturationPressure(t), nil
}

func saturationPressure(t float64) float64 {
	tk := t + hydronics.ZeroCelsius
	th := tk + s09/(tk-s10) // eq. 29b
	a := th*(th+s01) + s02
	b := th*(s03*th+s04) + s05
	c := th*(s06*th+s07) + s08
	x := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	x *= x
	return x * x * 1e6 // eq. 30
}

// SaturationTemperature returns the temperature in °C at which water boils under
// the absolute pressure pAbs in Pa, from 611.2126 Pa (0 °C) to 22.064 MPa (the
// critical point). Outside it returns NaN and a [hydronics.RangeError].
//
// It is the exact inverse of [SaturationPressure], both being roots of the same
// equation. Source: IAPWS R7-97(2012), region 4, eq. 31.
func SaturationTemperature(pAbs float64) (t float64, err error) {
	if !(pAbs >= pressureAtZeroExact && pAbs <= criticalPressure) {
		return math.NaN(), hydronics.Within("fluid.SaturationTemperature", "absolute pressure", "Pa",
			pAbs, pressureAtZeroExact, criticalPressure, if97+" region 4")
	}
	return saturationTemperature(pAbs), nil
}

func saturationTemperature(pAbs float64) float64 {
	b := math.Sqrt(math.Sqrt(pAbs / 1e6)) // eq. 29a
	e := b*(b+s03) + s06
	f := b*(s01*b+s04) + s07
	g := b*(s02*b+s05) + s08
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	q := s10 + d
	return (q-math.Sqrt(q*q-4*(s09+s10*d)))/2 - hydronics.ZeroCelsius // eq. 31
}

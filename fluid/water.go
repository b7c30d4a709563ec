package fluid

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

const (
	maxPressure1    = 100e6 // Pa, R7-97 region 1
	maxTemperature1 = 350.0 // °C: 623.15 K

	// rounding in K: a boiling point computed from a pressure, or a limit in kelvin
	// turned into °C (273.16 - 273.15 > 0.01 in floating point), may lie this much off.
	rounding = 1e-9
)

// WaterState returns everything about liquid water at the temperature t in °C,
// 0 to 350, under the absolute pressure pAbs in Pa, from the boiling pressure to
// 100 MPa. Outside it returns the zero State and a [hydronics.RangeError].
//
// In the range of heating systems (to 160 °C, 2 MPa) it agrees with IAPWS-95
// within 2e-5 in density, 1e-3 in specific heat, 2e-3 in the speed of sound and
// 0.1 kJ/kg in enthalpy.
// Sources: IAPWS R7-97(2012) region 1, eq. 7 and Table 3; R12-08; R15-11.
func WaterState(t, pAbs float64) (State, error) {
	if err := checkLiquid("fluid.WaterState", t, pAbs); err != nil {
		return State{}, err
	}
	pi, tau := pAbs/pressureScale1, temperatureScale1/(t+hydronics.ZeroCelsius)
	return newState(t, pAbs, pi, tau, pressureScale1, gibbs1(pi, tau)), nil
}

func checkLiquid(fn string, t, pAbs float64) error {
	cool := t <= 99 && pAbs >= 1e5 // under 1 bar water boils at 99.6 °C: no need to work it out
	if pAbs >= pressureAtZero && pAbs <= maxPressure1 && t >= 0 && (cool || t <= boilingLimit(pAbs)) {
		return nil
	}
	if err := errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, 0, maxTemperature1, if97+" region 1"),
		hydronics.Within(fn, "absolute pressure", "Pa", pAbs, pressureAtZero, maxPressure1, if97+" region 1"),
	); err != nil {
		return err
	}
	return hydronics.Within(fn, fmt.Sprintf("temperature of liquid water at %g Pa", pAbs), "°C",
		t, 0, boilingLimit(pAbs), if97+", saturation line")
}

// boilingLimit is the highest temperature in °C of liquid water as IF97 region 1
// has it: boiling, or 350 °C under higher pressures.
func boilingLimit(pAbs float64) float64 {
	if pAbs >= criticalPressure {
		return maxTemperature1
	}
	return math.Min(maxTemperature1, saturationTemperature(pAbs)+rounding)
}

// WaterTemperature returns the temperature in °C of liquid water under the
// absolute pressure pAbs in Pa that has the enthalpy in J/kg: the inverse of
// [State].Enthalpy. Outside 0 °C to boiling it returns NaN and a
// [hydronics.RangeError] about the enthalpy.
//
// It solves the basic equation of IF97, so that the round trip closes within 1e-9 K;
// the backward equation, which the release offers for speed, is 0.025 K off.
// Source: IAPWS R7-97(2012), eq. 7.
func WaterTemperature(pAbs, enthalpy float64) (t float64, err error) {
	const fn = "fluid.WaterTemperature"
	if !(pAbs >= pressureAtZero && pAbs <= maxPressure1) {
		return math.NaN(), hydronics.Within(fn, "absolute pressure", "Pa", pAbs, pressureAtZero, maxPressure1, if97+" region 1")
	}
	boiling := boilingLimit(pAbs)
	min, max := enthalpy1(0, pAbs), enthalpy1(boiling, pAbs)
	if !(enthalpy >= min && enthalpy <= max) {
		return math.NaN(), hydronics.Within(fn, "enthalpy", "J/kg", enthalpy, min, max, if97+" region 1, from 0 °C to boiling")
	}
	return numeric.Root(func(t float64) float64 { return enthalpy1(t, pAbs) - enthalpy }, 0, boiling, 1e-10)
}

func enthalpy1(t, pAbs float64) float64 {
	return gasConstantWater * temperatureScale1 *
		gibbs1(pAbs/pressureScale1, temperatureScale1/(t+hydronics.ZeroCelsius)).t
}

// waterDensity is the density of liquid water in kg/m³ (R7-97 region 1, Table 3).
func waterDensity(t, pAbs float64) float64 {
	tk := t + hydronics.ZeroCelsius
	return pressureScale1 / (gasConstantWater * tk * volume1(pAbs/pressureScale1, temperatureScale1/tk))
}

// waterProperties leaves out of [newState] what Properties do not hold, and the
// enhancement of conductivity where it is zero anyway.
func waterProperties(t, pAbs float64) Properties {
	pi, tau := pAbs/pressureScale1, temperatureScale1/(t+hydronics.ZeroCelsius)
	if t > enhancementStart {
		return newState(t, pAbs, pi, tau, pressureScale1, gibbs1(pi, tau)).Properties()
	}
	density := waterDensity(t, pAbs)
	v := reduce(t, density)
	return Properties{
		Temperature:      t,
		Density:          density,
		SpecificHeat:     -gasConstantWater * tau * tau * heat1(pi, tau),
		Conductivity:     v.conductivity(),
		DynamicViscosity: v.viscosity(),
	}
}

package fluid

import (
	"errors"
	"fmt"

	"example.com/hydronics"
)

const maxTemperature2 = 800.0 // °C: 1073.15 K, R7-97 region 2

// SteamState returns everything about steam at the temperature t in °C, 0 to
// 800, under the absolute pressure pAbs in Pa, up to the boiling pressure (to
// 350 °C), to the boundary equation of IF97 (350 to 590 °C) or to 100 MPa.
// Outside it returns the zero State and a [hydronics.RangeError].
// Sources: IAPWS R7-97(2012) region 2, eqs 15 to 17 and Table 12; R12-08; R15-11.
func SteamState(t, pAbs float64) (State, error) {
	const fn = "fluid.SteamState"
	if err := errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, 0, maxTemperature2+rounding, if97+" region 2"),
		hydronics.Within(fn, "absolute pressure", "Pa", pAbs, 1, maxPressure1, if97+" region 2 (lower end: "+hydronics.Guard+")"),
	); err != nil {
		return State{}, err
	}
	if limit := steamLimit(t); !(pAbs <= limit*(1+1e-12)) {
		return State{}, hydronics.Within(fn, fmt.Sprintf("absolute pressure of steam at %g °C", t), "Pa",
			pAbs, 1, limit, if97+", saturation line and boundary of region 2")
	}
	pi, tau := pAbs/pressureScale2, temperatureScale2/(t+hydronics.ZeroCelsius)
	return newState(t, pAbs, pi, tau, pressureScale2, gibbs2(pi, tau)), nil
}

// steamLimit is the highest pressure in Pa of region 2.
func steamLimit(t float64) float64 {
	switch {
	case t <= maxTemperature1:
		return saturationPressure(t)
	case t <= 590: // 863.15 K, where the boundary equation reaches 100 MPa
		return boundary23(t + hydronics.ZeroCelsius)
	default:
		return maxPressure1
	}
}

// Saturation is water and steam in equilibrium.
type Saturation struct {
	Temperature float64 // °C
	PressureAbs float64 // Pa
	Liquid      State
	Steam       State
	LatentHeat  float64 // J/kg, enthalpy of steam less that of the liquid
}

// Boiling returns boiling water and its steam at the temperature t in °C, 0 to
// 350. Outside it returns the zero Saturation and a [hydronics.RangeError].
// Against IAPWS-95 the enthalpies are right within 0.2 kJ/kg to 200 °C.
// Source: IAPWS R7-97(2012), regions 1, 2 and 4.
func Boiling(t float64) (Saturation, error) {
	if err := hydronics.Within("fluid.Boiling", "temperature", "°C", t, 0, maxTemperature1, if97+" regions 1 and 2"); err != nil {
		return Saturation{}, err
	}
	p := saturationPressure(t)
	tk := t + hydronics.ZeroCelsius
	pi1, tau1 := p/pressureScale1, temperatureScale1/tk
	pi2, tau2 := p/pressureScale2, temperatureScale2/tk
	liquid := newState(t, p, pi1, tau1, pressureScale1, gibbs1(pi1, tau1))
	steam := newState(t, p, pi2, tau2, pressureScale2, gibbs2(pi2, tau2))
	return Saturation{t, p, liquid, steam, steam.Enthalpy - liquid.Enthalpy}, nil
}

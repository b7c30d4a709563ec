package fluid

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Gas dissolves in water. The zero Gas is none.
type Gas uint8

// The gases of IAPWS G7-04 that hydronics meets.
const (
	Nitrogen Gas = iota + 1
	Oxygen
	Argon
	CarbonDioxide // as dissolved gas, without what reacts to bicarbonate
	Hydrogen      // from corrosion of steel and aluminium
	Methane
	Helium // for leak tests
)

// gasData holds G7-04 Table 2 (equation 3), the temperature range of the fitted
// data (Table 1) in °C and the molar mass in kg/mol.
type gasData struct {
	name     string
	a, b, c  float64
	min, max float64
	molar    float64
}

var gases = [...]gasData{
	Nitrogen:      {"nitrogen", -9.67578, 4.72162, 11.70585, 4.97, 363.31, 28.0134e-3},
	Oxygen:        {"oxygen", -9.44833, 4.43822, 11.42005, 1.00, 343.37, 31.9988e-3},
	Argon:         {"argon", -8.40954, 4.29587, 10.52779, 0.04, 295.21, 39.948e-3},
	CarbonDioxide: {"carbon dioxide", -8.55445, 4.01195, 9.52345, 1.04, 369.51, 44.0095e-3},
	Hydrogen:      {"hydrogen", -4.73284, 6.08954, 6.06066, 0, 362.94, 2.01588e-3},
	Methane:       {"methane", -10.44708, 4.66491, 12.12986, 2.31, 359.96, 16.0425e-3},
	Helium:        {"helium", -3.52839, 7.12983, 4.47770, 0.06, 280.03, 4.002602e-3},
}

const (
	g704 = "IAPWS G7-04"

	waterMolarMass = 18.015268e-3 // kg/mol, G7-04 section 2
	// normalMolarVolume is the volume of a mole of ideal gas at 0 °C and 101325 Pa, m³/mol.
	normalMolarVolume = hydronics.GasConstant * hydronics.ZeroCelsius / hydronics.StandardAtmosphere
)

// String returns the name in words, such as "carbon dioxide".
func (g Gas) String() string {
	if g.known() {
		return gases[g].name
	}
	return "unknown gas"
}

// ParseGas returns the gas with the name of [Gas.String], and false for any other
// name.
func ParseGas(name string) (Gas, bool) {
	for g := Nitrogen; g.known(); g++ {
		if gases[g].name == name {
			return g, true
		}
	}
	return 0, false
}

func (g Gas) known() bool { return g != 0 && int(g) < len(gases) }

// HenryConstant returns kH in Pa: the partial pressure of the gas above water
// divided by its mole fraction in the water, for dilute solutions. The temperature
// t in °C may run over the data behind the fit, for nitrogen from 4.97, for oxygen
// from 1 °C. Outside it returns NaN and an error matching [hydronics.ErrRange].
//
// The correlation serves a wide range of temperatures: against measurements
// below 40 °C it is up to 4 % off; state 5 %.
// Source: IAPWS G7-04, eq. 3 and Table 2.
func (g Gas) HenryConstant(t float64) (float64, error) {
	const fn = "fluid.Gas.HenryConstant"
	if !g.known() {
		return math.NaN(), fmt.Errorf("%s: gas %d is not one of this package: %w", fn, g, hydronics.ErrRange)
	}
	d := &gases[g]
	if !(t >= d.min-rounding && t <= d.max+rounding) {
		return math.NaN(), hydronics.Within(fn, "temperature of water with "+d.name, "°C", t, d.min, d.max, g704+" Table 1")
	}
	tr := (t + hydronics.ZeroCelsius) / criticalKelvin
	tau := 1 - tr
	return saturationPressure(t) * math.Exp(d.a/tr+d.b*math.Pow(tau, 0.355)/tr+d.c*math.Pow(tr, -0.41)*math.Exp(tau)), nil
}

// Dissolved is the amount of one gas in water, per volume of water.
type Dissolved struct {
	MoleFraction float64 // 1
	Amount       float64 // mol/m³
	Mass         float64 // kg/m³ (1e-3 kg/m³ is 1 mg/l)
	Volume       float64 // m³ of gas at 0 °C and 101325 Pa per m³ of water
}

// Dissolved returns how much of the gas water holds in equilibrium with the
// partial pressure in Pa, 0 to 10 MPa (guard), at the temperature t in °C, that of
// [Gas.HenryConstant] but at most 350, where the density of the water ends. The partial pressure is the absolute pressure less that of
// the water vapour, times the share of the gas in the dry rest.
// Outside the limits it returns the zero Dissolved and an error matching
// [hydronics.ErrRange]. Source: Henry's law with IAPWS G7-04.
func (g Gas) Dissolved(t, partial float64) (Dissolved, error) {
	henry, err := g.HenryConstant(t)
	if err != nil {
		return Dissolved{}, err
	}
	const fn = "fluid.Gas.Dissolved"
	if err := errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, gases[g].min-rounding, maxTemperature1, if97+" region 1"),
		hydronics.Within(fn, "partial pressure", "Pa", partial, 0, 10e6, hydronics.Guard),
	); err != nil {
		return Dissolved{}, err
	}
	x := partial / henry
	// Moles of water in a cubic metre; the dissolved gas itself changes nothing
	// at these mole fractions.
	pAbs := math.Max(partial+saturationPressure(t), pressureAtZero)
	amount := x / (1 - x) * waterDensity(t, pAbs) / waterMolarMass
	return Dissolved{x, amount, amount * gases[g].molar, amount * normalMolarVolume}, nil
}

// Shares of dry air by volume that dissolve: what is missing to 1 is neither
// nitrogen, oxygen nor argon. Source: common practice (78.12, 20.95, 0.93 %).
const (
	airNitrogen = 0.7812
	airOxygen   = 0.2095
	airArgon    = 0.0093
)

// AirContent is what water holds of the three main gases of air.
type AirContent struct {
	Nitrogen, Oxygen, Argon Dissolved
	Volume                  float64 // m³ of gas at 0 °C and 101325 Pa per m³ of water
}

// DissolvedAir returns what water at t in °C, 4.97 to 295.21 (argon), holds in equilibrium
// with moist air under the absolute pressure pAbs in Pa, from the vapour pressure of
// the water to 10 MPa (guard). Outside it returns the zero AirContent and an error
// matching [hydronics.ErrRange].
//
// This is fresh water. In a closed system corrosion consumes the oxygen within
// days, and what remains to be vented is nitrogen.
// Sources: Henry's law with IAPWS G7-04, dry air of 78.12 % nitrogen, 20.95 %
// oxygen and 0.93 % argon (common practice); for oxygen between 0 and 40 °C [OxygenInFreshWater] is
// closer to measurements.
func DissolvedAir(t, pAbs float64) (AirContent, error) {
	dry, err := dryPressure("fluid.DissolvedAir", t, pAbs)
	if err != nil {
		return AirContent{}, err
	}
	n, err1 := Nitrogen.Dissolved(t, dry*airNitrogen)
	o, err2 := Oxygen.Dissolved(t, dry*airOxygen)
	a, err3 := Argon.Dissolved(t, dry*airArgon)
	if err := errors.Join(err1, err2, err3); err != nil {
		return AirContent{}, err
	}
	return AirContent{n, o, a, n.Volume + o.Volume + a.Volume}, nil
}

// dryPressure is the absolute pressure less the vapour pressure of water.
func dryPressure(fn string, t, pAbs float64) (float64, error) {
	if err := hydronics.Within(fn, "temperature", "°C", t, 0, maxTemperature1, g704); err != nil {
		return math.NaN(), err
	}
	vapour := saturationPressure(t)
	if err := hydronics.Within(fn, "absolute pressure", "Pa", pAbs, vapour, 10e6,
		"vapour pressure of the water; upper end: "+hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	return pAbs - vapour, nil
}

// A Place is a point of a water circuit: its temperature in °C and its absolute
// pressure in Pa.
type Place struct {
	Temperature float64
	PressureAbs float64
}

// ReleasedAir returns the volume of air, in m³ at 0 °C and 101325 Pa per m³ of
// water, that water saturated with air at one place gives up at another: what the
// vents must remove when a system is heated, or where its pressure is lowest. It
// is zero where the water can hold more than it brings. Errors are those of
// [DissolvedAir].
// Source: Henry's law with IAPWS G7-04, each gas by itself.
func ReleasedAir(from, to Place) (float64, error) {
	before, err1 := DissolvedAir(from.Temperature, from.PressureAbs)
	after, err2 := DissolvedAir(to.Temperature, to.PressureAbs)
	if err := errors.Join(err1, err2); err != nil {
		return math.NaN(), err
	}
	return math.Max(0, before.Nitrogen.Volume-after.Nitrogen.Volume) +
		math.Max(0, before.Oxygen.Volume-after.Oxygen.Volume) +
		math.Max(0, before.Argon.Volume-after.Argon.Volume), nil
}

// Released is [ReleasedAir] for water under a single gas and its own vapour, such
// as the nitrogen that remains in a closed system. Temperatures and partial
// pressures are those of [Gas.Dissolved]; errors match [hydronics.ErrRange].
// Source: Henry's law with IAPWS G7-04.
func (g Gas) Released(from, to Place) (float64, error) {
	content := func(p Place) (float64, error) {
		dry, err := dryPressure("fluid.Gas.Released", p.Temperature, p.PressureAbs)
		if err != nil {
			return math.NaN(), err
		}
		d, err := g.Dissolved(p.Temperature, dry)
		return d.Volume, err
	}
	before, err1 := content(from)
	after, err2 := content(to)
	if err := errors.Join(err1, err2); err != nil {
		return math.NaN(), err
	}
	return math.Max(0, before-after), nil
}

// OxygenInFreshWater returns the oxygen in kg/m³ (1e-3 kg/m³ is 1 mg/l) that fresh
// water at t in °C, 0 to 40, takes from moist air at 101325 Pa. Outside it returns
// NaN and a [hydronics.RangeError].
// Source: B. B. Benson, D. Krause, Limnol. Oceanogr. 29 (1984) 620-632.
func OxygenInFreshWater(t float64) (float64, error) {
	if !(t >= 0 && t <= 40) {
		return math.NaN(), hydronics.Within("fluid.OxygenInFreshWater", "temperature", "°C", t, 0, 40, "Benson and Krause 1984")
	}
	s := 1 / (t + hydronics.ZeroCelsius)
	return 1e-3 * math.Exp(-139.34411+s*(1.575701e5+s*(-6.642308e7+s*(1.243800e10-s*8.621949e11)))), nil
}

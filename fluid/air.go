package fluid

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

const (
	gasConstantAir = 287.05   // J/(kg·K), ISO 2533:1975
	airMolarMass   = 28.9586  // g/mol, Lemmon and Jacobsen 2004
	airKelvin      = 132.6312 // K, their reducing temperature
	airEnergy      = 103.3    // K, their Lennard-Jones energy over Boltzmann's constant
)

var logAirKelvins = math.Log(airKelvin / airEnergy)

// DryAir returns the properties of dry air at the temperature t in °C, -100 to
// 200, under the absolute pressure pAbs in Pa, 50 to 200 kPa (guards around the air
// of a house). Outside it returns the zero Properties and a
// [hydronics.RangeError].
//
// Density is that of an ideal gas, within 0.15 %; the others are those of dilute
// air, within 0.3 %. Moisture makes air at 20 °C up to 1 % lighter and hardly
// changes the rest.
// Sources: ISO 2533:1975 (gas constant); E. W. Lemmon, R. T Jacobsen, Int. J.
// Thermophys. 25 (2004) 21, eqs 2 and 5; E. W. Lemmon et al., J. Phys. Chem. Ref.
// Data 29 (2000) 331 (ideal-gas specific heat).
func DryAir(t, pAbs float64) (Properties, error) {
	const fn = "fluid.DryAir"
	if err := errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, -100, 200, hydronics.Guard),
		hydronics.Within(fn, "absolute pressure", "Pa", pAbs, 50e3, 200e3, hydronics.Guard),
	); err != nil {
		return Properties{}, err
	}
	tk := t + hydronics.ZeroCelsius

	l := math.Log(tk / airEnergy)
	omega := numeric.Exp(0.431 + l*(-0.4623+l*(0.08406+l*(0.005341-l*0.00331))))
	viscosity := 0.0266958 * math.Sqrt(airMolarMass*tk) / (0.360 * 0.360 * omega)               // µPa·s, eq. 2
	tau := logAirKelvins - l                                                                    // ln τ with τ = airKelvin/tk
	conductivity := 1.308*viscosity + 1.405*numeric.Exp(-1.1*tau) - 1.036*numeric.Exp(-0.3*tau) // τ^-1.1 and τ^-0.3, mW/(m·K), eq. 5

	vibration := func(theta float64) float64 { // Einstein's function
		u := theta / tk
		e := numeric.Exp(-u)
		return u * u * e / ((1 - e) * (1 - e))
	}
	specific := 3.490888032 + tk*(2.395525583e-6+tk*(7.172111248e-9-tk*3.115413101e-13)) +
		0.223806688/(tk*math.Sqrt(tk)) + 0.791309509*vibration(3364.011) + 0.212236768*vibration(2242.45)

	return Properties{
		Temperature:      t,
		Density:          pAbs / (gasConstantAir * tk),
		SpecificHeat:     gasConstantAir * specific,
		Conductivity:     1e-3 * conductivity,
		DynamicViscosity: 1e-6 * viscosity,
	}, nil
}

// ashrae2017 names who sets the limits of moist air and the atmosphere.
const ashrae2017 = "ASHRAE Handbook Fundamentals 2017, chapter 1"

// VapourPressure returns the saturation pressure of water vapour in Pa, over ice
// below 0.01 °C and over water above it, at the temperature t in °C, -100 to 200.
// Outside it returns NaN and a [hydronics.RangeError].
//
// For liquid water in pipes prefer [SaturationPressure]; the two differ by less
// than 0.1 %.
// Source: R. W. Hyland, A. Wexler 1983, as in the ASHRAE Handbook, Fundamentals
// 2017, chapter 1, eqs 5 and 6.
func VapourPressure(t float64) (float64, error) {
	if !(t >= -100 && t <= 200) {
		return math.NaN(), hydronics.Within("fluid.VapourPressure", "temperature", "°C", t, -100, 200, ashrae2017+", eqs 5 and 6")
	}
	return math.Exp(logVapourPressure(t)), nil
}

func logVapourPressure(t float64) float64 {
	tk := t + hydronics.ZeroCelsius
	if t < 0.01 { // over ice, eq. 5
		return -5.6745359e3/tk + 6.3925247 + 4.1635019*math.Log(tk) +
			tk*(-9.677843e-3+tk*(6.2215701e-7+tk*(2.0747825e-9-tk*9.484024e-13)))
	}
	return -5.8002206e3/tk + 1.3914993 + 6.5459673*math.Log(tk) + // over water, eq. 6
		tk*(-4.8640239e-2+tk*(4.1764768e-5-tk*1.4452093e-8))
}

// DewPoint returns the temperature in °C at which moisture begins to settle from
// air at t in °C, -60 to 100, with the relative humidity (0.01 to 1): dew above
// 0.01 °C, frost below. A bare pipe colder than this gets wet. Outside the limits it
// returns NaN and a [hydronics.RangeError].
//
// Relative humidity refers to ice below 0.01 °C, as the saturation pressure does.
// Source: Hyland and Wexler 1983, the inverse of [VapourPressure], to 1e-9 K.
func DewPoint(t, humidity float64) (float64, error) {
	const fn = "fluid.DewPoint"
	if err := errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, -60, 100, hydronics.Guard),
		hydronics.Within(fn, "relative humidity", "", humidity, 0.01, 1, hydronics.Guard),
	); err != nil {
		return math.NaN(), err
	}
	want := logVapourPressure(t) + math.Log(humidity)
	return numeric.Root(func(d float64) float64 { return logVapourPressure(d) - want }, -100, t, 1e-9)
}

// AtmosphericPressure returns the pressure of the standard atmosphere in Pa
// absolute at an altitude in m above the sea, -500 to 11000: what to give to
// [hydronics.Gauge.Abs] away from the sea. Every gauge reads from the local
// atmosphere while the gas law counts from vacuum, so altitude enters every
// vessel calculation through this one number. Weather moves it by 3 %. Outside
// the limits it returns NaN and a [hydronics.RangeError].
//
// Source: ISO 2533:1975, Standard Atmosphere, layer 0 to 11 km; identical with
// the US Standard Atmosphere 1976.
func AtmosphericPressure(altitude float64) (float64, error) {
	if !(altitude >= -500 && altitude <= 11000) {
		return math.NaN(), hydronics.Within("fluid.AtmosphericPressure", "altitude", "m", altitude, -500, 11000, "ISO 2533:1975")
	}
	const (
		earthRadius = 6356766.0 // m, nominal, for the geopotential altitude
		lapse       = 0.0065    // K/m
		t0          = 288.15    // K at sea level
		airConstant = 287.05287 // J/(kg·K)
	)
	h := earthRadius * altitude / (earthRadius + altitude)
	return hydronics.StandardAtmosphere * math.Pow(1-lapse*h/t0, hydronics.StandardGravity/(airConstant*lapse)), nil
}

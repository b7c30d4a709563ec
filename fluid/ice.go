package fluid

import (
	"errors"
	"math"
	"math/cmplx"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// Ice is ordinary ice (Ih) at one temperature and pressure. Enthalpy and entropy
// count from liquid water at the triple point, as in [State], so that the two may
// be subtracted. The zero Ice means nothing.
type Ice struct {
	Temperature     float64 // °C
	PressureAbs     float64 // Pa
	Density         float64 // kg/m³
	Enthalpy        float64 // J/kg
	Entropy         float64 // J/(kg·K)
	SpecificHeat    float64 // J/(kg·K), at constant pressure
	Expansion       float64 // 1/K, of the volume
	Compressibility float64 // 1/Pa, at constant temperature
}

const (
	tripleKelvin      = 273.16  // K
	tripleTemperature = 0.01    // °C
	triplePressure    = 611.657 // Pa

	r10 = "IAPWS R10-06(2009)"
)

// IceState returns everything about ice at the temperature t in °C, -273.15 to
// 0.01, under the absolute pressure pAbs in Pa, 0 to 210 MPa. Outside it returns
// the zero Ice and a [hydronics.RangeError]. Whether ice is what one finds there is
// another question: see [MeltingTemperature].
// Source: IAPWS R10-06(2009), eqs 1 to 4, Tables 2 and 4.
func IceState(t, pAbs float64) (Ice, error) {
	const fn = "fluid.IceState"
	if err := errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, -hydronics.ZeroCelsius, tripleTemperature+rounding, r10),
		hydronics.Within(fn, "absolute pressure", "Pa", pAbs, 0, 210e6, r10),
	); err != nil {
		return Ice{}, err
	}
	return iceState(t, pAbs), nil
}

// Coefficients of R10-06 Table 2. The slices of the powers run from 0 upwards.
var (
	iceG0 = [...]float64{-0.632020233335886e6, 0.655022213658955, -0.189369929326131e-7, 0.339746123271053e-14, -0.556464869058991e-21}
	iceT1 = complex(0.368017112855051e-1, 0.510878114959572e-1)
	iceR1 = complex(0.447050716285388e2, 0.656876847463481e2)
	iceT2 = complex(0.337315741065416, 0.335449415919309)
	iceR2 = [...]complex128{
		complex(-0.725974574329220e2, -0.781008427112870e2),
		complex(-0.557107698030123e-4, 0.464578634580806e-4),
		complex(0.234801409215913e-10, -0.285651142904972e-10),
	}
)

const iceS0 = -0.332733756492168e4 // J/(kg·K), in step with IAPWS-95

func iceState(t, pAbs float64) Ice {
	tk := t + hydronics.ZeroCelsius
	tau := complex(tk/tripleKelvin, 0)
	dp := (pAbs - hydronics.StandardAtmosphere) / triplePressure // π - π0

	// The bracket of eq. 1 and its derivatives with respect to τ.
	bracket := func(c complex128) (value, first, second complex128) {
		minus, plus := cmplx.Log(c-tau), cmplx.Log(c+tau)
		value = (c-tau)*minus + (c+tau)*plus - 2*c*cmplx.Log(c) - tau*tau/c
		first = plus - minus - 2*tau/c
		second = 1/(c-tau) + 1/(c+tau) - 2/c
		return
	}
	b1, b1t, b1tt := bracket(iceT1)
	b2, b2t, b2tt := bracket(iceT2)
	r2 := iceR2[0] + complex(dp, 0)*(iceR2[1]+complex(dp, 0)*iceR2[2]) // eq. 4
	r2p := (iceR2[1] + complex(2*dp, 0)*iceR2[2]) / triplePressure
	r2pp := 2 * iceR2[2] / (triplePressure * triplePressure)

	// eq. 2 and its derivatives with respect to p
	a := iceG0
	g0 := a[0] + dp*(a[1]+dp*(a[2]+dp*(a[3]+dp*a[4])))
	g0p := (a[1] + dp*(2*a[2]+dp*(3*a[3]+dp*4*a[4]))) / triplePressure
	g0pp := (2*a[2] + dp*(6*a[3]+dp*12*a[4])) / (triplePressure * triplePressure)

	g := g0 - iceS0*tk + tripleKelvin*real(iceR1*b1+r2*b2) // eq. 1
	gt := -iceS0 + real(iceR1*b1t+r2*b2t)
	gtt := real(iceR1*b1tt+r2*b2tt) / tripleKelvin
	gp := g0p + tripleKelvin*real(r2p*b2)
	gpp := g0pp + tripleKelvin*real(r2pp*b2)
	gtp := real(r2p * b2t)

	return Ice{ // Table 3
		Temperature:     t,
		PressureAbs:     pAbs,
		Density:         1 / gp,
		Enthalpy:        g - tk*gt,
		Entropy:         -gt,
		SpecificHeat:    -tk * gtt,
		Expansion:       gtp / gp,
		Compressibility: -gpp / gp,
	}
}

// Fusion is what happens when water freezes.
type Fusion struct {
	Temperature  float64 // °C
	PressureAbs  float64 // Pa
	Heat         float64 // J/kg, enthalpy of water less that of ice
	WaterDensity float64 // kg/m³
	IceDensity   float64 // kg/m³
	Expansion    float64 // growth of the volume, WaterDensity/IceDensity - 1
}

// Freezing returns the heat that water gives up and the room that it takes when
// it freezes under the standard atmosphere, at 0.0025 °C. In a closed pipe this
// expansion, about 9 %, is what bursts it.
// Sources: IAPWS R10-06(2009) for ice, R7-97(2012) for water, R14-08(2011).
func Freezing() Fusion {
	const p, t = hydronics.StandardAtmosphere, normalMelting
	ice := iceState(t, p)
	water := waterDensity(t, p)
	return Fusion{
		Temperature:  t,
		PressureAbs:  p,
		Heat:         enthalpy1(t, p) - ice.Enthalpy,
		WaterDensity: water,
		IceDensity:   ice.Density,
		Expansion:    water/ice.Density - 1,
	}
}

const (
	r14           = "IAPWS R14-08(2011)"
	normalMelting = 0.002519 // °C: 273.152519 K under the standard atmosphere (R10-06 Table 6)
	lowestMelting = -21.985  // °C: 251.165 K, where ice III takes over
)

// MeltingPressure returns the absolute pressure in Pa under which ice melts at
// the temperature t in °C, -21.985 to 0.01: the pressure that keeps water liquid
// below 0 °C, and that freezing water can build up in a closed pipe. Outside it
// returns NaN and a [hydronics.RangeError]. The uncertainty is 2 % of the pressure.
// Source: IAPWS R14-08(2011), eq. 1, Table 1.
func MeltingPressure(t float64) (pAbs float64, err error) {
	if !(t >= lowestMelting-rounding && t <= tripleTemperature+rounding) {
		return math.NaN(), hydronics.Within("fluid.MeltingPressure", "temperature", "°C", t, lowestMelting, tripleTemperature, r14)
	}
	return meltingPressure(t), nil
}

func meltingPressure(t float64) float64 {
	theta := math.Min((t+hydronics.ZeroCelsius)/tripleKelvin, 1) // rounding at the triple point
	return triplePressure * (1 +
		0.119539337e7*(1-theta*theta*theta) +
		0.808183159e5*(1-math.Pow(theta, 25.75)) +
		0.333826860e4*(1-math.Pow(theta, 103.75)))
}

// MeltingTemperature returns the temperature in °C at which ice melts under the
// absolute pressure pAbs in Pa, 611.657 (triple point) to 208.56 MPa: the inverse of
// [MeltingPressure], to 1e-9 K. Outside it returns NaN and a [hydronics.RangeError].
// Source: IAPWS R14-08(2011), eq. 1, inverted.
func MeltingTemperature(pAbs float64) (t float64, err error) {
	max := meltingPressure(lowestMelting)
	if !(pAbs >= triplePressure && pAbs <= max) {
		return math.NaN(), hydronics.Within("fluid.MeltingTemperature", "absolute pressure", "Pa", pAbs, triplePressure, max, r14)
	}
	// A little beyond the triple point, where rounding may leave no change of sign.
	return numeric.Root(func(t float64) float64 { return meltingPressure(t) - pAbs }, lowestMelting, tripleTemperature+rounding, 1e-10)
}

package dhw

import (
	"math"

	"example.com/hydronics"
)

// A Coil heats the water around it from a primary flow of constant inlet
// temperature. Its transmittance counts as constant, while a real coil's rises
// with temperature and flow: give the value for the flow that will run.
type Coil struct {
	Transmittance float64 // W/K, UA of the whole coil, 0.1 to 1e5 (guard)
	CapacityRate  float64 // W/K, mass flow times specific heat of the primary, 0.1 to 1e5 (guard)
	Inlet         float64 // °C, primary inlet, 0.1 to 130 (guard)
}

func (c Coil) check(fn string) error {
	return together(
		hydronics.Within(fn, "transmittance", "W/K", c.Transmittance, 0.1, 1e5, hydronics.Guard),
		hydronics.Within(fn, "capacity rate", "W/K", c.CapacityRate, 0.1, 1e5, hydronics.Guard),
		hydronics.Within(fn, "primary inlet", "°C", c.Inlet, 0.1, maxPrimary, hydronics.Guard))
}

// Effectiveness returns the share of the greatest possible heat that the coil
// transfers, from 0 to 1, the water around it having one temperature. See
// [Effectiveness] for [Isothermal]. Outside the guards it returns NaN and a
// [hydronics.RangeError].
//
// Source: as [Effectiveness].
func (c Coil) Effectiveness() (float64, error) {
	if err := c.check("dhw.Coil.Effectiveness"); err != nil {
		return math.NaN(), err
	}
	return -math.Expm1(-c.Transmittance / c.CapacityRate), nil
}

// Heater returns the coil as a [Heater] for store temperatures from 0 °C to
// the primary inlet, where the power vanishes: P = ε (m cp) (inlet - store).
// Outside the guards, those of a Heater among them, it returns nil and a
// [hydronics.RangeError].
//
// Source: definition of the effectiveness; see [Effectiveness].
func (c Coil) Heater() (Heater, error) {
	e, err := c.Effectiveness()
	if err != nil {
		return nil, err
	}
	h := Heater{{0, e * c.CapacityRate * c.Inlet}, {c.Inlet, 0}}
	if err := h.check("dhw.Coil.Heater"); err != nil {
		return nil, err
	}
	return h, nil
}

// Arrangement of the two streams of a heat exchanger.
type Arrangement uint8

// The arrangements that [Effectiveness] knows.
const (
	// Isothermal: one side keeps its temperature, such as the water around a coil.
	Isothermal Arrangement = iota + 1
	// Counterflow: the streams run against each other, as in a plate exchanger
	// that charges a store or heats water as it is drawn.
	Counterflow
	// Parallel: the streams run side by side in one direction.
	Parallel
)

var arrangementNames = [...]string{"unknown", "isothermal", "counterflow", "parallel"}

// String returns the arrangement in a word.
func (a Arrangement) String() string {
	if int(a) < len(arrangementNames) {
		return arrangementNames[a]
	}
	return arrangementNames[0]
}

// Effectiveness returns the heat that an exchanger transfers as a share, from 0
// to 1, of what the stream of the smaller capacity rate could give or take at
// most, for the number of transfer units ntu = UA/C_min from 0 to 100 (guard)
// and the ratio of capacity rates cr = C_min/C_max from 0 to 1.
//
//	isothermal    ε = 1 - exp(-ntu)                                          (cr has to be 0)
//	counterflow   ε = (1 - exp(-ntu (1-cr)))/(1 - cr exp(-ntu (1-cr))),  ntu/(1+ntu) for cr = 1
//	parallel      ε = (1 - exp(-ntu (1+cr)))/(1 + cr)
//
// Outside these limits it returns NaN and a [hydronics.RangeError].
//
// Source: W. M. Kays and A. L. London, Compact Heat Exchangers (the standard
// relations of every textbook of heat transfer).
func Effectiveness(a Arrangement, ntu, cr float64) (float64, error) {
	const fn = "dhw.Effectiveness"
	most := 1.0
	if a == Isothermal {
		most = 0
	}
	err := together(count(fn, "arrangement", int(a), int(Isothermal), int(Parallel)),
		hydronics.Within(fn, "number of transfer units", "", ntu, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "ratio of capacity rates", "", cr, 0, most, "definition of the ratio"))
	if err != nil {
		return math.NaN(), err
	}
	switch a {
	case Counterflow:
		// With y = (1-cr) ntu both numerator and denominator vanish at cr = 1;
		// divided by y they do not.
		y := (1 - cr) * ntu
		g := relExpm1(-y) // (1 - exp(-y))/y
		return ntu * g / (math.Exp(-y) + ntu*g), nil
	case Parallel:
		return -math.Expm1(-ntu*(1+cr)) / (1 + cr), nil
	default:
		return -math.Expm1(-ntu), nil
	}
}

// relExpm1 returns (exp(x) - 1)/x, which is 1 at x = 0.
func relExpm1(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Expm1(x) / x
}

package fluid

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// A Liquid is what fills a system: water under a pressure, or an aqueous solution
// of a stated concentration. Make one with [Water], [WaterAt], [Solute.ByMass] or
// [Solute.ByVolume]; the zero Liquid is refused by every method that returns an
// error. Liquids are values: copy and compare them freely.
type Liquid struct {
	pAbs   float64 // Pa, water only: 0 marks a solution or the zero Liquid
	solute Solute
	mass   float64 // mass fraction of the solute

	min, max float64 // °C
	freezing float64 // °C

	// Cubics in t - tm of a solution at its concentration.
	density, specificHeat, conductivity, viscosity [4]float64
}

var errZeroLiquid = errors.New("the zero Liquid holds nothing: make one with Water, WaterAt, ByMass or ByVolume")

const defaultPressure = 0.3e6 // Pa absolute

// Water returns plain water under 0.3 MPa absolute (2 bar gauge), the pressure
// of an ordinary closed heating system: liquid from 0 °C to about 133.5 °C.
// Below 100 °C density changes by less than 0.05 % per MPa, the rest by less than
// 0.15 %.
func Water() Liquid { return waterAt(defaultPressure) }

// WaterAt returns plain water under the absolute pressure pAbs in Pa, 611.213
// (boiling at 0 °C) to 100 MPa. It is liquid from 0 °C to its boiling point, or
// to 350 °C under higher pressures. For a pressure outside it returns the zero
// Liquid and a [hydronics.RangeError]. Source: IAPWS R7-97(2012), region 1.
func WaterAt(pAbs float64) (Liquid, error) {
	if err := hydronics.Within("fluid.WaterAt", "absolute pressure", "Pa", pAbs,
		pressureAtZero, maxPressure1, if97+" region 1"); err != nil {
		return Liquid{}, err
	}
	return waterAt(pAbs), nil
}

func waterAt(pAbs float64) Liquid {
	return Liquid{pAbs: pAbs, min: 0, max: boilingLimit(pAbs), freezing: 0}
}

// ByMass returns the solution in which w is the mass of the solute divided by
// the mass of the solution, from 0 to the limit of the solute (0.60 for the
// glycols). Outside it returns the zero Liquid and a [hydronics.RangeError].
// Source: A. Melinder, Properties of Secondary Working Fluids, IIR, Paris 2010.
func (s Solute) ByMass(w float64) (Liquid, error) {
	if !s.known() {
		return Liquid{}, fmt.Errorf("fluid.ByMass: solute %d is not one of this package: %w", s, hydronics.ErrRange)
	}
	m := &solutions[s]
	if !(w >= 0 && w <= m.maxMass/100) {
		return Liquid{}, hydronics.Within("fluid.ByMass", s.String()+" mass fraction", "", w, 0, m.maxMass/100, melinder2010)
	}
	dx := 100*w - m.xm
	freezing := m.freezing(100 * w)
	return Liquid{
		solute: s, mass: w,
		min: freezing, max: m.maxTemp, freezing: freezing,
		density:      m.cubic(densityColumn, dx),
		specificHeat: m.cubic(specificHeatColumn, dx),
		conductivity: m.cubic(conductivityColumn, dx),
		viscosity:    m.cubic(viscosityColumn, dx),
	}, nil
}

const melinder2010 = "Melinder 2010"

// At returns the properties at the temperature t in °C, which must lie in the
// Range of l: from freezing to boiling (water) or to the end of the fit
// (solutions). Outside it returns the zero Properties and a
// [hydronics.RangeError].
//
// Sources: IAPWS R7-97(2012) region 1, R12-08 and R15-11 for water, Melinder
// 2010 for solutions.
func (l Liquid) At(t float64) (Properties, error) {
	if !(t >= l.min && t <= l.max) || l.isZero() {
		return Properties{}, l.outside("fluid.Liquid.At", t)
	}
	if l.solute == 0 {
		return waterProperties(t, l.pAbs), nil
	}
	dt := t - solutions[l.solute].tm
	return Properties{
		Temperature:      t,
		Density:          polynomial(&l.density, dt),
		SpecificHeat:     polynomial(&l.specificHeat, dt),
		Conductivity:     polynomial(&l.conductivity, dt),
		DynamicViscosity: numeric.Exp(polynomial(&l.viscosity, dt)) * hydronics.MillipascalSecond,
	}, nil
}

// Density returns the density alone, in kg/m³, for t in °C as in [Liquid.At];
// outside it returns NaN and the error.
// Sources: IAPWS R7-97(2012) region 1, Table 3, for water, Melinder 2010 for solutions.
func (l Liquid) Density(t float64) (float64, error) {
	if !(t >= l.min && t <= l.max) || l.isZero() {
		return math.NaN(), l.outside("fluid.Liquid.Density", t)
	}
	if l.solute == 0 {
		return waterDensity(t, l.pAbs), nil
	}
	return polynomial(&l.density, t-solutions[l.solute].tm), nil
}

func polynomial(c *[4]float64, x float64) float64 { return c[0] + x*(c[1]+x*(c[2]+x*c[3])) }

func (l *Liquid) isZero() bool { return l.solute == 0 && l.pAbs == 0 }

func (l Liquid) outside(fn string, t float64) error {
	if l.isZero() {
		return fmt.Errorf("%s: %w: %w", fn, hydronics.ErrRange, errZeroLiquid)
	}
	source := if97 + " region 1, from freezing to boiling"
	if l.solute != 0 {
		source = melinder2010 + ", from freezing to the end of the fit"
	}
	return hydronics.Within(fn, "temperature of "+l.String(), "°C", t, l.min, l.max, source)
}

// FreezingPoint returns the temperature in °C at which the first ice forms. For
// water it is 0 °C at every pressure of l, the end of the formulation (in truth it
// falls by 0.0075 K per bar). It is NaN for the zero Liquid.
// Source: Melinder 2010, for solutions.
func (l Liquid) FreezingPoint() float64 {
	if l.isZero() {
		return math.NaN()
	}
	return l.freezing
}

// Range returns the temperatures in °C between which l has properties, both
// ends included; NaN for the zero Liquid.
// Sources: IAPWS R7-97(2012), region 1 and eq. 31, for water; Melinder 2010, limits of
// the fit, for solutions.
func (l Liquid) Range() (min, max float64) {
	if l.isZero() {
		return math.NaN(), math.NaN()
	}
	return l.min, l.max
}

// IsWater reports whether l is plain water.
func (l Liquid) IsWater() bool { return l.solute == 0 && l.pAbs != 0 }

// Solute returns what is dissolved in l: the zero Solute for water.
func (l Liquid) Solute() Solute { return l.solute }

// MassFraction returns the mass of solute per mass of solution, 0 for water.
// Source: definition.
func (l Liquid) MassFraction() float64 { return l.mass }

// String returns l in words, such as "water" or "propylene glycol 30 % by mass".
func (l Liquid) String() string {
	switch {
	case l.isZero():
		return "no liquid"
	case l.solute == 0:
		return "water"
	default:
		return fmt.Sprintf("%v %.4g %% by mass", l.solute, 100*l.mass)
	}
}

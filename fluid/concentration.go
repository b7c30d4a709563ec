package fluid

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// ByDensity returns the solution that has the density in kg/m³ at the temperature t
// in °C, 5 to 40 (a sample at room temperature; 30 for ammonia): what a hydrometer
// tells. A density that no concentration has gets the zero Liquid and a
// [hydronics.RangeError].
//
// An error of 1 kg/m³ is worth 1.1 percentage points of propylene glycol at 30 % by
// mass, and several near 60 %, of ethylene glycol 0.7: prefer a refractometer for the
// former. The figures are
// for the plain substance; inhibitors add to the density.
// Source: Melinder 2010, inverted to 1e-10 in mass fraction.
func (s Solute) ByDensity(density, t float64) (Liquid, error) {
	const fn = "fluid.ByDensity"
	if !s.known() {
		return Liquid{}, fmt.Errorf("%s: solute %d is not one of this package: %w", fn, s, hydronics.ErrRange)
	}
	m := &solutions[s]
	if err := hydronics.Within(fn, "temperature of the sample", "°C", t, 5, math.Min(40, m.maxTemp), hydronics.Guard); err != nil {
		return Liquid{}, err
	}
	at := func(w float64) float64 { return s.densityAt(w, t) }
	return s.invert(fn, "density", "kg/m³", density, at)
}

func (s Solute) densityAt(w, t float64) float64 {
	m := &solutions[s]
	c := m.cubic(densityColumn, 100*w-m.xm)
	return polynomial(&c, t-m.tm)
}

// invert finds the mass fraction at which a monotonic property has a value.
func (s Solute) invert(fn, quantity, unit string, value float64, property func(w float64) float64) (Liquid, error) {
	max := solutions[s].maxMass / 100
	low, high := property(0), property(max)
	if low > high {
		low, high = high, low
	}
	if !(value >= low && value <= high) {
		return Liquid{}, hydronics.Within(fn, quantity+" of "+s.String()+" solution", unit, value, low, high, melinder2010)
	}
	w, err := numeric.Root(func(w float64) float64 { return property(w) - value }, 0, max, 1e-10)
	if err != nil {
		return Liquid{}, fmt.Errorf("%s: %w", fn, err)
	}
	return s.ByMass(w)
}

// Refractive indices of the pure liquids at 20 °C in sodium light (589 nm), CRC
// Handbook.
const waterIndex20 = 1.33299

// index20 returns the refractive index of the pure antifreeze, 0 for salts and ammonia.
func (s Solute) index20() float64 {
	switch s {
	case PropyleneGlycol:
		return 1.4324
	case EthyleneGlycol:
		return 1.4318
	case Glycerol:
		return 1.4746
	case Ethanol:
		return 1.3611
	case Methanol:
		return 1.3288
	default:
		return 0
	}
}

// RefractiveIndex returns the refractive index in sodium light (589 nm) of a
// solution of one of the glycols, glycerol or the alcohols, or of water, at the
// temperature t in °C, 15 to 30. Outside it returns NaN and an error matching
// [hydronics.ErrRange].
//
// It is a mixing rule and not a fit: the Lorentz-Lorenz refraction of water and of
// the pure antifreeze, weighed by mass, at the density of the solution. Against
// measured tables it lies at most 0.0012 too high and 0.0004 too low.
// Source: H. A. Lorentz 1880, L. Lorenz 1880; pure liquids from the CRC Handbook;
// density from Melinder 2010.
func (l Liquid) RefractiveIndex(t float64) (float64, error) {
	const fn = "fluid.Liquid.RefractiveIndex"
	if err := hydronics.Within(fn, "temperature of the sample", "°C", t, 15, 30, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	density, err := l.Density(t)
	if err != nil {
		return math.NaN(), err
	}
	if !l.IsWater() && l.solute.index20() == 0 {
		return math.NaN(), noIndex(fn, l.solute)
	}
	return l.solute.refractiveIndex(l.mass, density), nil
}

func noIndex(fn string, s Solute) error {
	return fmt.Errorf("%s: no refractive index for %v: %w", fn, s, hydronics.ErrRange)
}

// refractiveIndex applies the mixing rule for a mass fraction w and a density.
func (s Solute) refractiveIndex(w, density float64) float64 {
	refraction := func(n, density float64) float64 { return (n*n - 1) / (n*n + 2) / density }
	r := refraction(waterIndex20, waterDensity20)
	if w > 0 {
		r += w * (refraction(s.index20(), solutions[s].pure) - r)
	}
	x := r * density
	return math.Sqrt((1 + 2*x) / (1 - x))
}

// ByRefractiveIndex returns the solution that has the refractive index n at the
// temperature t in °C, 15 to 30: what a refractometer tells. It serves the glycols,
// glycerol and ethanol; the index of methanol solutions hardly depends on their
// strength. An index that no concentration has gets the zero Liquid and an error
// matching [hydronics.ErrRange].
//
// The mixing rule of [Liquid.RefractiveIndex] makes the concentration found up to
// 0.012 too low at 0.5, on the safe side for frost.
// Source: Lorentz-Lorenz, as [Liquid.RefractiveIndex], inverted to 1e-10 in mass fraction.
func (s Solute) ByRefractiveIndex(n, t float64) (Liquid, error) {
	const fn = "fluid.ByRefractiveIndex"
	if s.index20() == 0 || s == Methanol {
		return Liquid{}, noIndex(fn, s)
	}
	if err := hydronics.Within(fn, "temperature of the sample", "°C", t, 15, 30, hydronics.Guard); err != nil {
		return Liquid{}, err
	}
	return s.invert(fn, "refractive index", "", n, func(w float64) float64 {
		return s.refractiveIndex(w, s.densityAt(w, t))
	})
}

// ByBrix returns the solution that a sugar refractometer reads as brix, in °Bx
// (percent by mass of sucrose), 0 to 50, compensated to 20 °C. Range, accuracy and
// errors are otherwise those of [Solute.ByRefractiveIndex]. The density polynomials do
// not meet water exactly: plain water reads as up to 0.3 % of ethylene glycol, and
// propylene glycol begins at 0.1 °Bx.
// Sources: CRC Handbook, 102nd edition, sucrose ([BrixIndex]); Lorentz-Lorenz ([Liquid.RefractiveIndex]).
func (s Solute) ByBrix(brix float64) (Liquid, error) {
	n, err := BrixIndex(brix)
	if err != nil {
		return Liquid{}, err
	}
	l, err := s.ByRefractiveIndex(n, mixingTemperature)
	if err != nil {
		return Liquid{}, fmt.Errorf("fluid.ByBrix: %g °Bx: %w", brix, err)
	}
	return l, nil
}

// brixIndex is the refractive index at 20 °C of sucrose solutions of 0, 2, 4 ... 50
// percent by mass, CRC Handbook 102nd edition.
var brixIndex = [...]float64{
	waterIndex20, 1.3359, 1.3388, 1.3418, 1.3448, 1.3478, 1.3509, 1.3541, 1.3573, 1.3606,
	1.3639, 1.3672, 1.3706, 1.3741, 1.3776, 1.3812, 1.3848, 1.3885, 1.3922, 1.3960,
	1.3999, 1.4038, 1.4078, 1.4118, 1.4159, 1.4201,
}

// BrixIndex returns the refractive index at 20 °C in sodium light that a sugar
// refractometer shows as brix, in °Bx, 0 to 50. Outside it returns NaN and a
// [hydronics.RangeError]. Between the table's values it is linear, within 0.0001.
// Source: CRC Handbook, 102nd edition, sucrose.
func BrixIndex(brix float64) (float64, error) {
	const max = float64(2 * (len(brixIndex) - 1))
	if !(brix >= 0 && brix <= max) {
		return math.NaN(), hydronics.Within("fluid.BrixIndex", "sugar scale", "°Bx", brix, 0, max, "CRC Handbook, sucrose")
	}
	i := min(int(brix/2), len(brixIndex)-2)
	return brixIndex[i] + (brix/2-float64(i))*(brixIndex[i+1]-brixIndex[i]), nil
}

// Brix returns what a sugar refractometer, compensated to 20 °C, shows for the
// refractive index n at 20 °C: the inverse of [BrixIndex]. Outside the scale it
// returns NaN and a [hydronics.RangeError].
// Source: CRC Handbook, 102nd edition, sucrose.
func Brix(n float64) (float64, error) {
	last := len(brixIndex) - 1
	if !(n >= brixIndex[0] && n <= brixIndex[last]) {
		return math.NaN(), hydronics.Within("fluid.Brix", "refractive index", "", n, brixIndex[0], brixIndex[last], "CRC Handbook, sucrose")
	}
	i := 0
	for i < last-1 && n > brixIndex[i+1] {
		i++
	}
	return 2 * (float64(i) + (n-brixIndex[i])/(brixIndex[i+1]-brixIndex[i])), nil
}

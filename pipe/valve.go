package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// Kv is the flow coefficient of a valve: the flow of water (1000 kg/m³) in m³/h
// that loses 1 bar in it. It keeps its customary unit, m³/h, because that is
// its definition; everything else is in SI.
// Source: IEC 60534-1 and IEC 60534-2-1.
type Kv float64

// Cv is the American flow coefficient: US gallons of water per minute at a loss
// of 1 psi.
// Source: definition, as in IEC 60534-1.
type Cv float64

// cvPerKv by the definitions of both at a density of 1000 kg/m³; it is 1.1561.
var cvPerKv = hydronics.CubicMetrePerHour / hydronics.USGallonPerMinute *
	math.Sqrt(hydronics.PoundPerSquareIn/hydronics.Bar)

// Kv returns the same coefficient in m³/h at 1 bar.
func (c Cv) Kv() Kv { return Kv(float64(c) / cvPerKv) }

// Cv returns the same coefficient in US gallons per minute at 1 psi.
func (k Kv) Cv() Cv { return Cv(float64(k) * cvPerKv) }

// square returns Δp/V̇² in Pa·s²/m⁶.
func (k Kv) square(density float64) float64 {
	perFlow := 3600 / float64(k)
	return hydronics.Bar * perFlow * perFlow * density / 1000
}

// Loss returns the pressure in Pa that a flow in m³/s of a liquid with the
// density in kg/m³ loses in the valve; a negative flow loses the negative.
//
//	Δp = 1 bar (V̇/Kv)² ρ/1000, V̇ in m³/h
//
// It holds for turbulent flow without cavitation. Kv may be 1e-4 to 1e5 m³/h,
// the density 100 to 2000 kg/m³, the flow ±1000 m³/s (guards); outside it
// returns NaN and the [hydronics.RangeError] of every wrong number.
func (k Kv) Loss(flow, density float64) (float64, error) {
	const fn = "pipe.Kv.Loss"
	if err := errors.Join(k.check(fn), checkDensity(fn, density),
		within(fn, "flow", "m³/s", flow, -maxFlow, maxFlow)); err != nil {
		return math.NaN(), err
	}
	return k.square(density) * math.Abs(flow) * flow, nil
}

// Flow returns the flow in m³/s that loses the pressure in Pa (0 to 1e9, guard)
// in the valve; the inverse of [Kv.Loss], with the same limits.
func (k Kv) Flow(loss, density float64) (float64, error) {
	const fn = "pipe.Kv.Flow"
	if err := errors.Join(k.check(fn), checkDensity(fn, density),
		within(fn, "pressure loss", "Pa", loss, 0, maxPressure)); err != nil {
		return math.NaN(), err
	}
	return math.Sqrt(loss / k.square(density)), nil
}

// KvFor returns the flow coefficient of a valve in which the flow in m³/s of a
// liquid with the density in kg/m³ loses the pressure in Pa: the pre-setting
// that takes up a surplus. The flow may be 1e-12 to 1000, the loss 1e-3 to 1e9,
// the density 100 to 2000 and the result 1e-4 to 1e5 m³/h (guards).
func KvFor(flow, loss, density float64) (Kv, error) {
	const fn = "pipe.KvFor"
	if err := errors.Join(checkDensity(fn, density),
		within(fn, "flow", "m³/s", flow, 1e-12, maxFlow),
		within(fn, "pressure loss", "Pa", loss, 1e-3, maxPressure)); err != nil {
		return Kv(math.NaN()), err
	}
	k := Kv(3600 * flow * math.Sqrt(hydronics.Bar/loss*density/1000))
	if err := k.check(fn); err != nil {
		return Kv(math.NaN()), err
	}
	return k, nil
}

// Zeta returns the loss coefficient of the valve on the velocity in the given
// bore in m (0.0005 to 3, guard), 2 (3600 A)² 1e5/(1000 Kv²), with A the area of
// the bore: 1.5989e9 D⁴/Kv². Books that round to 1.6e9 lie 0.07 % higher.
func (k Kv) Zeta(bore float64) (float64, error) {
	const fn = "pipe.Kv.Zeta"
	if err := errors.Join(k.check(fn), within(fn, "bore", "m", bore, minBore, maxBore)); err != nil {
		return math.NaN(), err
	}
	a := area(bore)
	return 2 * a * a * k.square(1000) / 1000, nil
}

// KvOfZeta returns the flow coefficient of a fitting whose loss coefficient
// zeta (1e-6 to 1e9, guard) refers to the velocity in the given bore in m
// (0.0005 to 3, guard); the inverse of [Kv.Zeta].
func KvOfZeta(zeta, bore float64) (Kv, error) {
	const fn = "pipe.KvOfZeta"
	if err := errors.Join(within(fn, "loss coefficient", "", zeta, 1e-6, 1e9),
		within(fn, "bore", "m", bore, minBore, maxBore)); err != nil {
		return Kv(math.NaN()), err
	}
	k := Kv(3600 * area(bore) * math.Sqrt(2*hydronics.Bar/1000/zeta))
	if err := k.check(fn); err != nil {
		return Kv(math.NaN()), err
	}
	return k, nil
}

// KvInSeries returns the flow coefficient of valves passed one after the
// other: 1/Kv² adds. It needs at least one; each and the result may be 1e-4 to
// 1e5 m³/h (guard).
func KvInSeries(valves ...Kv) (Kv, error) {
	return combine("pipe.KvInSeries", valves, func(k float64) float64 { return 1 / (k * k) },
		func(sum float64) float64 { return 1 / math.Sqrt(sum) })
}

// KvInParallel returns the flow coefficient of valves that share a flow under
// one pressure difference: Kv adds. It needs at least one; each and the result
// may be 1e-4 to 1e5 m³/h (guard).
func KvInParallel(valves ...Kv) (Kv, error) {
	return combine("pipe.KvInParallel", valves, func(k float64) float64 { return k },
		func(sum float64) float64 { return sum })
}

func combine(fn string, valves []Kv, in, out func(float64) float64) (Kv, error) {
	if err := within(fn, "number of valves", "", float64(len(valves)), 1, math.MaxInt32); err != nil {
		return Kv(math.NaN()), err
	}
	sum := 0.0
	for _, k := range valves {
		if err := k.check(fn); err != nil {
			return Kv(math.NaN()), err
		}
		sum += in(float64(k))
	}
	k := Kv(out(sum))
	if err := k.check(fn); err != nil {
		return Kv(math.NaN()), err
	}
	return k, nil
}

func (k Kv) check(fn string) error {
	return within(fn, "Kv", "m³/h", float64(k), minKv, maxKv)
}

func checkDensity(fn string, density float64) error {
	return within(fn, "density", "kg/m³", density, minDensity, maxDensity)
}

package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// Quantity returns the liquid in m³ that stands in a filled system at its filling
// temperature: its content and the water in the vessel. Source: mass balance and
// Boyle's law.
func (c *Course) Quantity() float64 { return c.system.Content + c.water }

// A FillingKit is the link through which a system is filled from the mains.
type FillingKit struct {
	Kv     float64         // m³/h at 1 bar, of the whole link: valve, backflow preventer, strainer, hose; 0.05 to 50 (guard)
	Supply hydronics.Gauge // Pa gauge, mains or reducer, at rest; 0.5 to 10 bar
}

// Time returns the time in s to pass a volume in m³, 0 to 20, against a gauge
// pressure that has to lie below the supply's. Take the system's filling pressure:
// while it is still lower the water runs faster, so the true time is shorter.
// Venting takes longer than the water does.
//
// Source: definition of Kv, Q = Kv √(Δp/1 bar), for water.
func (k FillingKit) Time(volume float64, against hydronics.Gauge) (float64, error) {
	const fn = "expansion.FillingKit.Time"
	if err := errors.Join(
		hydronics.Within(fn, "Kv", "m³/h", k.Kv, 0.05, 50, hydronics.Guard),
		hydronics.Within(fn, "supply pressure", "Pa", float64(k.Supply), 0.5*hydronics.Bar, 10*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "volume", "m³", volume, 0, 20, hydronics.Guard),
		hydronics.Within(fn, "system pressure", "Pa", float64(against), 0, highestGauge, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	if !(against < k.Supply) {
		return math.NaN(), fmt.Errorf("%s: a supply of %.4g bar does not fill a system to %.4g bar: %w",
			fn, k.Supply/hydronics.Bar, against/hydronics.Bar, hydronics.ErrNoSolution)
	}
	flow := k.Kv * hydronics.CubicMetrePerHour * math.Sqrt(float64(k.Supply-against)/hydronics.Bar)
	return volume / flow, nil
}

// Settings returns the table to hang beside the vessel v: the window of filling
// pressures for each temperature in °C of the liquid at the moment of filling.
// A pressure read from it holds with the pump at rest and the whole system at that
// temperature. Errors are those of [System.Window].
// Source: Boyle's law, as [System.Window].
func (s System) Settings(v Vessel, temperatures ...float64) ([]Window, error) {
	table := make([]Window, 0, len(temperatures))
	for _, t := range temperatures {
		w, err := s.Window(v, t)
		if err != nil {
			return nil, err
		}
		table = append(table, w)
	}
	return table, nil
}

// A Reading is a pressure and a temperature read at one moment, pump at rest.
type Reading struct {
	Pressure    hydronics.Gauge // Pa gauge, at the vessel, 0 to 16 bar (guard)
	Temperature float64         // °C, mean of the liquid, from the system's coldest to its hottest
	Time        float64         // s, since any moment; the second at least 1 s after the first
}

// A Leakage is what two readings say.
type Leakage struct {
	Lost        float64         // m³ of liquid lost between the readings, negative: gained
	Uncertainty float64         // m³, from the stated uncertainties of the readings
	Rate        float64         // m³/s
	Significant bool            // the loss, or the gain, exceeds its uncertainty
	Precharge   hydronics.Gauge // Pa gauge the vessel must have left if no liquid was lost but gas was
}

// Leakage compares two readings of s with the vessel v, the later one second, read
// with the uncertainty u: pressures to 0 to 1 bar, temperatures to 0 to 20 K.
//
// A falling pressure has two causes that one gauge cannot tell apart: liquid that
// got out, or gas that left the vessel. The result states both readings of it; the
// pre-charge, checked with the water side relieved, decides. A gain of water means
// that a filling valve passes or that the coil of a cylinder leaks inwards.
// An emptied vessel says nothing about volumes: [hydronics.ErrNoSolution].
//
// Source: mass balance and Boyle's law. Uncertainty: root sum of squares of
// one-at-a-time changes.
func (s System) Leakage(v Vessel, first, second Reading, u ReadingUncertainty) (Leakage, error) {
	const fn = "expansion.System.Leakage"
	patm, err := s.check()
	p0, errv := v.precharge(patm)
	if err := errors.Join(err, errv,
		hydronics.Within(fn, "first pressure", "Pa", float64(first.Pressure), 0, highestGauge, hydronics.Guard),
		hydronics.Within(fn, "second pressure", "Pa", float64(second.Pressure), 0, highestGauge, hydronics.Guard),
		hydronics.Within(fn, "first temperature", "°C", first.Temperature, s.Coldest, s.Hottest, "the system's temperatures"),
		hydronics.Within(fn, "second temperature", "°C", second.Temperature, s.Coldest, s.Hottest, "the system's temperatures"),
		hydronics.Within(fn, "time between the readings", "s", second.Time-first.Time, 1, 1e10, "the second is the later one (1 s: "+hydronics.Guard+")"),
		hydronics.Within(fn, "uncertainty of pressure", "Pa", u.Pressure, 0, hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "uncertainty of temperature", "K", u.Temperature, 0, 20, hydronics.Guard)); err != nil {
		return Leakage{}, err
	}
	rho, err := s.Liquid.Density(s.FillTemperature)
	if err != nil {
		return Leakage{}, err
	}
	water := func(p float64) float64 { return v.Nominal * (1 - p0/p) }
	p1, p2 := first.Pressure.Abs(patm), second.Pressure.Abs(patm)
	w1, w2 := water(p1), water(p2)
	if !(w1 > 0) || !(w2 > 0) {
		return Leakage{}, fmt.Errorf("%s: below the pre-charge of %.4g bar in service the vessel holds no water: %w",
			fn, (p0-patm)/hydronics.Bar, hydronics.ErrNoSolution)
	}
	f1, err1 := s.fraction(first.Temperature, rho)
	f2, err2 := s.fraction(second.Temperature, rho)
	if err := errors.Join(err1, err2); err != nil {
		return Leakage{}, err
	}
	expected := w1 + s.Content*(f2-f1)
	l := Leakage{Lost: expected - w2}
	l.Rate = l.Lost / (second.Time - first.Time)
	// Slopes: dW/dp = V P0/P², dWe/dT by the steeper half-kelvin within the range.
	slope := func(t, f float64) float64 {
		step := 0.5
		if t+step > s.Hottest {
			step = -0.5
		}
		g, _ := s.fraction(t+step, rho) // NaN if the system is narrower than that
		return s.Content * (g - f) / step
	}
	parts := [...]float64{
		v.Nominal * p0 / (p1 * p1) * u.Pressure, v.Nominal * p0 / (p2 * p2) * u.Pressure,
		slope(first.Temperature, f1) * u.Temperature, slope(second.Temperature, f2) * u.Temperature,
	}
	var squares float64
	for _, x := range parts {
		squares += x * x
	}
	l.Uncertainty = math.Sqrt(squares)
	if math.IsNaN(l.Uncertainty) {
		return Leakage{}, fmt.Errorf("%s: the system's temperatures lie less than half a kelvin apart: %w", fn, hydronics.ErrRange)
	}
	l.Significant = math.Abs(l.Lost) > l.Uncertainty
	l.Precharge = hydronics.GaugeOf(p2*(1-expected/v.Nominal), patm)
	return l, nil
}

// A ReadingUncertainty says how well pressures and temperatures were read.
type ReadingUncertainty struct {
	Pressure    float64 // Pa, of each pressure: a gauge of class 2.5 to 4 bar has 0.1 bar
	Temperature float64 // K, of each mean temperature
}

package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Demand is what a vessel has to take, in numbers: the shortest form of every
// sizing rule in the trade. [System.Size] and [Potable.Size] work it out; use it
// directly to check a sheet that already states volumes and pressures.
//
// The same formula covers four kinds of vessel:
//
//   - diaphragm vessel, filled to its pre-charge plus a water reserve: leave
//     Filling out;
//   - diaphragm vessel filled to a pressure of its own (potable water behind a
//     reducer, US practice): give Filling above Precharge;
//   - bladder vessel charged and filled alike: Filling equal to Precharge;
//   - tank with a free water surface, closed off at atmospheric pressure:
//     Precharge 0, Filling the pressure after filling.
type Demand struct {
	Expansion  float64         // m³, water that enters the vessel between filling and the hottest state, 0 to 5
	Reserve    float64         // m³, water that has to stand in the vessel when the system is filled, 0 to 5
	Precharge  hydronics.Gauge // Pa gauge, gas pressure of the empty vessel at its temperature in service, -0.2 to 16 bar
	Filling    hydronics.Gauge // Pa gauge, least pressure after filling, -0.2 to 16 bar; anything up to Precharge asks for nothing
	Final      hydronics.Gauge // Pa gauge, highest pressure at the vessel, -0.2 to 16 bar
	Atmosphere float64         // Pa absolute, 50 to 110 kPa (guard), 0: the standard atmosphere; EN and DIN sheets take 1 bar
}

// Nominal returns the least nominal volume in m³ for d, by Boyle's law on absolute
// pressures P, gas temperature constant:
//
//	V ≥ (Ve + Vwr)/(1 - P0/Pe)        the reserve stands in the vessel when cold
//	V ≥ Ve/(P0/Pi - P0/Pe)            the filling pressure is prescribed, Pi > P0
//
// Gauge pressures in this law are a known mistake of printed examples: they give
// vessels up to a third too small. It returns NaN and an error that matches
// [hydronics.ErrNoSolution] if Final leaves no room above Precharge or Filling.
//
// Source: the first form is EN 12828 and DIN 4807-2, VN = (Ve+Vwr)(pe+1)/(pe-p0);
// the second, with P0 the atmosphere, is the formula of the US mechanical codes
// for closed tanks (13 NCAC 13 .0412). Both follow from Boyle's law.
func (d Demand) Nominal() (float64, error) {
	if err := d.check(); err != nil {
		return math.NaN(), err
	}
	return d.nominal()
}

func (d Demand) check() error {
	const fn = "expansion.Demand"
	_, err := atmosphere(fn, d.Atmosphere)
	return errors.Join(err,
		hydronics.Within(fn, "expansion volume", "m³", d.Expansion, 0, 5, hydronics.Guard),
		hydronics.Within(fn, "reserve", "m³", d.Reserve, 0, 5, hydronics.Guard),
		hydronics.Within(fn, "pre-charge", "Pa", float64(d.Precharge), lowestGauge, highestGauge, hydronics.Guard),
		hydronics.Within(fn, "filling pressure", "Pa", float64(d.Filling), lowestGauge, highestGauge, hydronics.Guard),
		hydronics.Within(fn, "final pressure", "Pa", float64(d.Final), lowestGauge, highestGauge, hydronics.Guard))
}

// nominal is Nominal for a checked demand.
func (d Demand) nominal() (float64, error) {
	patm := d.Atmosphere
	if patm == 0 {
		patm = hydronics.StandardAtmosphere
	}
	p0, pi, pe := d.Precharge.Abs(patm), d.Filling.Abs(patm), d.Final.Abs(patm)
	if !(pe > p0) || !(pe > pi) {
		return math.NaN(), fmt.Errorf("expansion.Demand: final pressure %.4g bar leaves no room above pre-charge %.4g bar and filling pressure %.4g bar: %w",
			d.Final/hydronics.Bar, d.Precharge/hydronics.Bar, d.Filling/hydronics.Bar, hydronics.ErrNoSolution)
	}
	v := (d.Expansion + d.Reserve) / (1 - p0/pe)
	if pi > p0 {
		v = max(v, d.Expansion/(p0/pi-p0/pe))
	}
	return v, nil
}

// PressureIn returns the gauge pressure in a vessel of the given nominal volume in
// m³ (0.0005 to 20, guard) after filling and expansion: what becomes of a vessel
// that exists. The larger of Reserve and Filling decides on the water it starts
// with; Final is not used. If the water would fill the vessel the error matches
// [hydronics.ErrNoSolution]. Source: Boyle's law.
func (d Demand) PressureIn(nominal float64) (hydronics.Gauge, error) {
	fail := hydronics.Gauge(math.NaN())
	d.Final = 0 // not used, so not judged
	if err := errors.Join(d.check(),
		hydronics.Within("expansion.Demand.PressureIn", "nominal volume", "m³", nominal, 0.0005, 20, hydronics.Guard)); err != nil {
		return fail, err
	}
	patm, _ := atmosphere("", d.Atmosphere) // checked
	p0, pi := d.Precharge.Abs(patm), d.Filling.Abs(patm)
	water := max(d.Reserve, nominal*(1-p0/pi)) + d.Expansion
	gas := nominal - water
	if !(gas > 1e-6*nominal) {
		return fail, fmt.Errorf("expansion.Demand: %.4g l of water would fill the vessel of %.4g l: %w",
			water/hydronics.Litre, nominal/hydronics.Litre, hydronics.ErrNoSolution)
	}
	return hydronics.GaugeOf(p0*nominal/gas, patm), nil
}

// PrechargeAt returns the gauge pressure that a gas charge of pressure p reads
// after its temperature went from one value to another at constant volume, in °C,
// -40 to 120 (guard). The atmosphere in Pa absolute is 0 for the standard one.
//
// A vessel charged to 1.0 bar in a room of 20 °C and hung in a shed of 0 °C holds
// 0.86 bar. Source: ideal gas at constant volume, P/T constant.
func PrechargeAt(p hydronics.Gauge, from, to, atmospherePa float64) (hydronics.Gauge, error) {
	const fn = "expansion.PrechargeAt"
	patm, err := atmosphere(fn, atmospherePa)
	if err := errors.Join(err,
		hydronics.Within(fn, "pre-charge", "Pa", float64(p), lowestGauge, highestGauge, hydronics.Guard),
		gasTemperature(fn, "temperature when charged", from),
		gasTemperature(fn, "temperature in service", to)); err != nil {
		return hydronics.Gauge(math.NaN()), err
	}
	return hydronics.GaugeOf(p.Abs(patm)*gasRatio(from, to), patm), nil
}

// Guards that several calculations share.
const (
	lowestGauge  = -0.2 * hydronics.Bar
	highestGauge = 16 * hydronics.Bar
)

// atmosphere returns p, or the standard atmosphere for 0, if it is one that
// people live under: from 5000 m above to 500 m below sea level.
func atmosphere(fn string, p float64) (float64, error) {
	if p == 0 {
		return hydronics.StandardAtmosphere, nil
	}
	return p, hydronics.Within(fn, "atmospheric pressure", "Pa", p, 50e3, 110e3, hydronics.Guard)
}

func gasTemperature(fn, quantity string, t float64) error {
	return hydronics.Within(fn, quantity, "°C", t, -40, 120, hydronics.Guard)
}

func gasRatio(from, to float64) float64 {
	return (to + hydronics.ZeroCelsius) / (from + hydronics.ZeroCelsius)
}

package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
)

// A Section is a length of pipe, or a cylinder, full of water and closed on all
// sides: between two shut valves, or behind a non-return valve without a vessel. It
// has no gas to give way.
type Section struct {
	Temperature float64         // °C, water when it was shut in, 0 to 150
	Pressure    hydronics.Gauge // Pa gauge, when it was shut in, 0 to 25 bar
	Atmosphere  float64         // Pa absolute, 0: the standard atmosphere

	// The wall; all of them 0: rigid, on the safe side.
	Bore      float64 // m, inside diameter, 0.002 to 2 (guard)
	Wall      float64 // m, wall thickness, 0.0002 to 0.1 (guard); needed with Bore
	Modulus   float64 // Pa, elastic modulus (copper 120 GPa, steel 210 GPa, plastics 0.5 to 3 GPa), 0.1 to 300 GPa
	Poisson   float64 // Poisson's ratio, 0 to 0.5 (metals about 0.3)
	Expansion float64 // 1/K, linear expansion of the wall, 0 to 250e-6
}

// highestBlocked is where a blocked section has burst, whatever it is made of.
const highestBlocked = 1000 * hydronics.Bar

func (s *Section) check() (patm float64, err error) {
	const fn = "expansion.Section"
	patm, err = atmosphere(fn, s.Atmosphere)
	err = errors.Join(err,
		hydronics.Within(fn, "temperature", "°C", s.Temperature, 0, 150, hydronics.Guard),
		hydronics.Within(fn, "pressure", "Pa", float64(s.Pressure), 0, 25*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "linear expansion of the wall", "1/K", s.Expansion, 0, 250e-6, hydronics.Guard),
		hydronics.Within(fn, "Poisson's ratio", "", s.Poisson, 0, 0.5, "incompressible material"))
	if s.Bore != 0 || s.Wall != 0 || s.Modulus != 0 {
		err = errors.Join(err,
			hydronics.Within(fn, "bore", "m", s.Bore, 0.002, 2, hydronics.Guard),
			hydronics.Within(fn, "wall", "m", s.Wall, 0.0002, 0.1, hydronics.Guard),
			hydronics.Within(fn, "modulus", "Pa", s.Modulus, 0.1e9, 300e9, hydronics.Guard))
	}
	return patm, err
}

// compliance is the relative growth of the volume per pascal, of a closed thin-walled cylinder.
func (s *Section) compliance() float64 {
	if s.Bore == 0 {
		return 0
	}
	return s.Bore / (s.Modulus * s.Wall) * (1.25 - s.Poisson)
}

// PressureAt returns the gauge pressure of the section when its water has come to
// the temperature t in °C, 0 to 150, plain water only: its mass stays, its wall
// gives way elastically and expands.
//
//	ρ(t, p) (1 + 3 α (t - t1) + D/(E e) (5/4 - ν) (p - p1)) = ρ(t1, p1)
//
// In copper pipe that makes some 2 to 4 bar per kelvin near room temperature and
// more when hot: a few kelvins of sun on a shut-in pipe pass any rating. A section
// that can be shut off and can get warm needs a thermal relief valve of its own or
// a way out. The state in which water has room to boil comes back as the vapour
// pressure; above 1000 bar the error matches [hydronics.ErrNoSolution].
//
// Source: mass balance with IAPWS-IF97; thin-walled closed cylinder by Hooke's law.
func (s Section) PressureAt(t float64) (hydronics.Gauge, error) {
	fail := hydronics.Gauge(math.NaN())
	patm, err := s.check()
	if err := errors.Join(err, hydronics.Within("expansion.Section.PressureAt", "temperature", "°C", t, 0, 150, hydronics.Guard)); err != nil {
		return fail, err
	}
	start, err := fluid.WaterState(s.Temperature, s.Pressure.Abs(patm))
	if err != nil {
		return fail, err
	}
	p, err := s.pressure(&start, t)
	if err != nil {
		return fail, err
	}
	return hydronics.GaugeOf(p, patm), nil
}

// pressure returns the absolute pressure at t of the water shut in at start.
func (s *Section) pressure(start *fluid.State, t float64) (float64, error) {
	compliance := s.compliance()
	surplus := func(p float64) float64 { // of density: positive once p is high enough
		x, err := fluid.WaterState(t, p)
		if err != nil {
			return math.NaN()
		}
		room := 1 + 3*s.Expansion*(t-s.Temperature) + compliance*(p-start.PressureAbs)
		return x.Density*room/start.Density - 1
	}
	low, err := fluid.SaturationPressure(t)
	if err != nil {
		return math.NaN(), err
	}
	low = max(low*(1+1e-9), 611.213) // the least pressure of region 1, a hair above boiling at 0 °C
	if surplus(low) >= 0 {           // room to boil: vapour fills it
		return low, nil
	}
	const high = highestBlocked
	if surplus(high) < 0 {
		return math.NaN(), fmt.Errorf("expansion.Section: water shut in at %.4g °C would pass %.0f bar at %.4g °C: %w",
			s.Temperature, highestBlocked/hydronics.Bar, t, hydronics.ErrNoSolution)
	}
	return numeric.Root(surplus, low, high, 1)
}

// Reaches returns the temperature in °C, between that of shutting in and 150, at
// which the section has come to a gauge pressure: to the set pressure of its relief
// valve, say. A pressure not reached by then is [hydronics.ErrNoSolution]. Below 4 °C,
// where water shrinks, the answer is 4 °C at the least.
// Source: mass balance with IAPWS-IF97, as [Section.PressureAt].
func (s Section) Reaches(p hydronics.Gauge) (float64, error) {
	const fn = "expansion.Section.Reaches"
	patm, err := s.check()
	if err := errors.Join(err, hydronics.Within(fn, "pressure", "Pa", float64(p), float64(s.Pressure), highestBlocked-hydronics.Bar, "from that of shutting in on (upper end: "+hydronics.Guard+")")); err != nil {
		return math.NaN(), err
	}
	start, err := fluid.WaterState(s.Temperature, s.Pressure.Abs(patm))
	if err != nil {
		return math.NaN(), err
	}
	target, limit := p.Abs(patm), 150.0
	if target < 1e6 { // may boil below 150 °C
		if limit, err = fluid.SaturationTemperature(target); err != nil {
			return math.NaN(), err
		}
	}
	room := func(t float64) float64 { // 1 + 3α(t-t1) + c(p-p1) at the target pressure
		return 1 + 3*s.Expansion*(t-s.Temperature) + s.compliance()*(target-start.PressureAbs)
	}
	surplus := func(t float64) float64 {
		x, err := fluid.WaterState(t, target)
		if err != nil {
			return math.NaN()
		}
		return x.Density*room(t)/start.Density - 1
	}
	// Near the density maximum the water first shrinks; start where it is densest.
	from, to := max(s.Temperature, 4), min(150, limit)
	if !(from < to) || surplus(to) > 0 {
		return math.NaN(), fmt.Errorf("%s: %.4g bar are not reached up to %.4g °C: %w", fn, p/hydronics.Bar, to, hydronics.ErrNoSolution)
	}
	if surplus(from) <= 0 {
		return from, nil
	}
	return numeric.Root(surplus, from, to, 1e-9)
}

// PerKelvin returns the pressure rise in Pa/K of the section as it was shut in:
// (β - 3α)/(κ + D/(E e)(5/4 - ν)), with the expansion β and the compressibility κ
// of the water. It is negative where the water shrinks or the wall outgrows it.
// Source: the derivative of the balance of [Section.PressureAt], by IAPWS-IF97.
func (s Section) PerKelvin() (float64, error) {
	patm, err := s.check()
	if err != nil {
		return math.NaN(), err
	}
	x, err := fluid.WaterState(s.Temperature, s.Pressure.Abs(patm))
	if err != nil {
		return math.NaN(), err
	}
	return (x.Expansion - 3*s.Expansion) / (x.Compressibility + s.compliance()), nil
}

// A Warming is a liquid at two temperatures, for thermal relief.
type Warming struct {
	Cold, Hot               float64 // °C, Cold below Hot
	ColdDensity, HotDensity float64 // kg/m³, 500 to 1500, at one pressure
}

// WarmingOf returns the warming of a liquid between two temperatures in °C.
func WarmingOf(l fluid.Liquid, cold, hot float64) (Warming, error) {
	rc, errc := l.Density(cold)
	rh, errh := l.Density(hot)
	w := Warming{cold, hot, rc, rh}
	if err := errors.Join(errc, errh); err != nil {
		return Warming{}, err
	}
	return w, w.check()
}

func (w *Warming) check() error {
	const fn = "expansion.Warming"
	return errors.Join(
		hydronics.Within(fn, "cold temperature", "°C", w.Cold, -60, 150, hydronics.Guard),
		hydronics.Within(fn, "hot temperature", "°C", w.Hot, math.Nextafter(w.Cold, 200), 200, "above the cold one (upper end: "+hydronics.Guard+")"),
		hydronics.Within(fn, "cold density", "kg/m³", w.ColdDensity, 500, 1500, hydronics.Guard),
		hydronics.Within(fn, "hot density", "kg/m³", w.HotDensity, 500, 1500, hydronics.Guard))
}

// Coefficient returns the mean coefficient of expansion in 1/K,
//
//	B = (ρ1² - ρ2²)/(2 (t2 - t1) ρ1 ρ2)
//
// Source: API 521/ISO 23251:2007, 5.14, as applied in a worked sheet.
func (w Warming) Coefficient() (float64, error) {
	if err := w.check(); err != nil {
		return math.NaN(), err
	}
	r1, r2 := w.ColdDensity, w.HotDensity
	return (r1*r1 - r2*r2) / (2 * (w.Hot - w.Cold) * r1 * r2), nil
}

// Relief returns the mass flow in kg/s that must leave a blocked section which is
// warmed by a heat flow in W, 0 to 10 MW (guard), of a liquid with the specific
// heat in J/(kg·K), 1000 to 6000: q = B Q/cp. For a cylinder it is tiny (a litre an
// hour for 2 kW at 60 °C): what sizes the valve of a heat source is steam, not this.
//
// Source: API 521/ISO 23251:2007, 5.14: B Q/(1000 G cp) in m³/s.
func (w Warming) Relief(heat, specificHeat float64) (float64, error) {
	const fn = "expansion.Warming.Relief"
	b, err := w.Coefficient()
	if err := errors.Join(err,
		hydronics.Within(fn, "heat", "W", heat, 0, 1e7, hydronics.Guard),
		hydronics.Within(fn, "specific heat", "J/(kg·K)", specificHeat, 1000, 6000, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	return max(0, b) * heat / specificHeat, nil
}

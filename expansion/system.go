package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
)

// A System is a closed circuit as its expansion vessel sees it.
//
// The temperatures are means over the whole content: half of the water of a
// 55/45 system is at 45. Taking the flow temperature for all of it is usual and
// on the safe side.
type System struct {
	Liquid             fluid.Liquid
	Content            float64         // m³, liquid in pipes, emitters, store and heat source, 0.001 to 20 (guard)
	ContentUncertainty float64         // share of Content, for the findings: contents from drawings are known to 0.1 at best; 0: not stated, at most 0.5
	FillTemperature    float64         // °C, liquid when the system is filled and its pressure set
	Coldest            float64         // °C, lowest it comes to; 0 if left out, which fits a house that must not freeze
	Hottest            float64         // °C, highest it comes to, above FillTemperature (the limiter's setting, by most rules), at most 130
	StaticHead         float64         // m, height of the highest point above the vessel's connection, 0 to 100
	ReliefSet          hydronics.Gauge // Pa gauge, set pressure of the relief valve, 0.5 to 16 bar
	ReliefHeight       float64         // m, height of the relief valve above the vessel's connection, negative below, -100 to 100
	Pump               Pump            // which way the pump shifts the pressures; nothing if left out
	TubeExpansion      float64         // 1/K, linear expansion of the pipes (steel 11.7e-6, copper 17e-6), 0: rigid, on the safe side; at most 250e-6
	Atmosphere         float64         // Pa absolute, see [fluid.AtmosphericPressure]; 0: the standard atmosphere at sea level
	Rules              Rules           // the margins, by the name of their standard
}

// A Pump says how a running pump shifts pressures against those at rest. Where
// the vessel is connected the pump changes nothing: the neutral point.
type Pump struct {
	Head        float64  // Pa, pressure rise of the pump at most, 0 to 5 bar (guard)
	Vessel      PumpSide // where the vessel is connected
	ReliefAfter bool     // the relief valve sees the pump's pressure on top (only with the vessel at the inlet)
}

// A PumpSide is the side of the pump on which the vessel is connected.
type PumpSide uint8

// The sides. With the vessel AtInlet the pump raises the pressure of what lies
// behind it. With the vessel AtOutlet it lowers the pressure of everything that
// comes before it, so the pre-charge has to hold the pump's head as well; that is
// allowed, provided that it is counted.
const (
	AtInlet PumpSide = iota
	AtOutlet
)

// A Sizing is the answer to which vessel a system needs, with every figure on
// the way.
type Sizing struct {
	Static      float64         // Pa, weight of the liquid above the vessel
	Vapour      hydronics.Gauge // Pa gauge, vapour pressure at the hottest temperature, 0 below boiling
	Precharge   hydronics.Gauge // Pa gauge, least, at the vessel's temperature in service
	FillingLow  hydronics.Gauge // Pa gauge, least filling pressure that the rules ask for apart from the reserve
	Final       hydronics.Gauge // Pa gauge, highest at the vessel
	Expansion   float64         // m³, from filling to hottest
	Contraction float64         // m³, given back between filling and the least volume on the way to coldest
	Reserve     float64         // m³, still in the vessel at the least volume
	Nominal     float64         // m³, least nominal volume
	Filling     hydronics.Gauge // Pa gauge, filling pressure of a vessel of exactly that volume
	Acceptance  float64         // share of the nominal volume that water fills when hot

	PrechargeRule, FillingRule, FinalRule, ReserveRule hydronics.Source // the settings that decided
}

// check returns the atmospheric pressure and every wrong field.
func (s *System) check() (patm float64, err error) {
	const fn = "expansion.System"
	patm, erra := atmosphere(fn, s.Atmosphere)
	low, high := s.Liquid.Range()
	if math.IsNaN(low) { // no liquid chosen: let it say so, and nothing about its range
		_, err := s.Liquid.Density(s.FillTemperature)
		return math.NaN(), err
	}
	var pump error
	if s.Pump.Vessel > AtOutlet {
		pump = fmt.Errorf("%s: unknown pump side %d: %w", fn, s.Pump.Vessel, hydronics.ErrRange)
	}
	return patm, errors.Join(erra, pump, s.Rules.check(),
		hydronics.Within(fn, "content", "m³", s.Content, 0.001, 20, hydronics.Guard),
		hydronics.Within(fn, "uncertainty of the content", "", s.ContentUncertainty, 0, 0.5, hydronics.Guard),
		hydronics.Within(fn, "coldest temperature", "°C", s.Coldest, low, s.FillTemperature, "not above the filling temperature, within the liquid's range"),
		hydronics.Within(fn, "filling temperature", "°C", s.FillTemperature, low, high, "the liquid's range"),
		hydronics.Within(fn, "hottest temperature", "°C", s.Hottest, math.Nextafter(s.FillTemperature, 200), min(high, 130), "above the filling temperature, within the liquid's range"),
		hydronics.Within(fn, "static head", "m", s.StaticHead, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "relief valve's set pressure", "Pa", float64(s.ReliefSet), 0.5*hydronics.Bar, highestGauge, hydronics.Guard),
		hydronics.Within(fn, "relief valve's height", "m", s.ReliefHeight, -100, 100, hydronics.Guard),
		hydronics.Within(fn, "pump head", "Pa", s.Pump.Head, 0, 5*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "linear expansion of the pipes", "1/K", s.TubeExpansion, 0, 250e-6, hydronics.Guard))
}

// Size returns the vessel that s needs.
//
//	p0 = ρ g H + pD + margin (+ pump head)     pre-charge
//	pe = pset - margin + ρ g h (- pump head)   final pressure, at the vessel
//	V  = Demand{Ve, Vwr + Vc, p0, pi, pe}      least nominal volume
//
// An error that matches [hydronics.ErrNoSolution] says that the relief valve is
// set too low for the height of the system, whatever the vessel.
//
// Source: EN 12828 annex D and DIN 4807-2 as quoted; margins from s.Rules.
func (s System) Size() (Sizing, error) {
	patm, err := s.check()
	if err != nil {
		return Sizing{}, err
	}
	z, err := s.demand(patm)
	if err != nil {
		return Sizing{}, err
	}
	d := Demand{z.Expansion, z.Reserve + z.Contraction, z.Precharge, z.FillingLow, z.Final, patm}
	v, err := d.nominal()
	if err != nil {
		return Sizing{}, err
	}
	if s.Rules.SmallVessel.Value > 0 {
		small := d
		small.Reserve = z.Contraction
		if vs, ok := s.smallVessel(small, patm); ok {
			v, z.Reserve, z.ReserveRule = vs, s.Rules.SmallReserve.Value*vs, s.Rules.SmallReserve.Source
		} else {
			v = max(v, math.Nextafter(s.Rules.SmallVessel.Value, 1)) // no longer a small one
		}
	}
	if !(v > 0 && v <= 20) {
		return Sizing{}, fmt.Errorf("expansion.System: least nominal volume %.4g m³ is no vessel: %w", v, hydronics.ErrNoSolution)
	}
	p0, pe := z.Precharge.Abs(patm), z.Final.Abs(patm)
	z.Nominal = v
	z.Acceptance = 1 - p0/pe
	z.Filling = hydronics.GaugeOf(p0*v/(v*p0/pe+z.Expansion), patm)
	return z, nil
}

// smallVessel returns the least nominal volume with a reserve in proportion to
// it, (Ve + Vc + share V) = V (1 - P0/Pe), if that is a small vessel.
func (s *System) smallVessel(d Demand, patm float64) (float64, bool) {
	p0, pi, pe := d.Precharge.Abs(patm), d.Filling.Abs(patm), d.Final.Abs(patm)
	room := 1 - p0/pe - s.Rules.SmallReserve.Value
	if !(room > 0) {
		return math.NaN(), false
	}
	v := (d.Expansion + d.Reserve) / room
	if pi > p0 {
		v = max(v, d.Expansion/(p0/pi-p0/pe))
	}
	return v, v <= s.Rules.SmallVessel.Value
}

// demand fills in everything but the nominal volume.
func (s *System) demand(patm float64) (z Sizing, err error) {
	rho, err := s.Liquid.Density(s.FillTemperature)
	if err != nil {
		return Sizing{}, err
	}
	z.Expansion, z.Contraction, err = s.volumes(rho)
	if err != nil {
		return Sizing{}, err
	}
	r := &s.Rules

	z.Static = rho * hydronics.StandardGravity * s.StaticHead
	// Antifreeze lowers the vapour pressure; that of water is on the safe side.
	if s.Hottest > 0 {
		pv, err := fluid.SaturationPressure(s.Hottest)
		if err != nil {
			return Sizing{}, err
		}
		z.Vapour = max(0, hydronics.GaugeOf(pv, patm))
	}
	lift := 0.0
	if s.Pump.Vessel == AtOutlet {
		lift = s.Pump.Head
	}
	z.Precharge = hydronics.Gauge(z.Static + lift + r.PrechargeOverStatic.Value)
	z.PrechargeRule = r.PrechargeOverStatic.Source
	if p := hydronics.Gauge(z.Static+lift+r.PrechargeOverVapour.Value) + z.Vapour; p > z.Precharge {
		z.Precharge, z.PrechargeRule = p, r.PrechargeOverVapour.Source
	}
	if p := hydronics.Gauge(r.PrechargeFloor.Value); p > z.Precharge {
		z.Precharge, z.PrechargeRule = p, r.PrechargeFloor.Source
	}

	z.FillingLow, z.FillingRule = s.fillingLow(z.Precharge)

	below, rule := r.FinalBelow.Value, r.FinalBelow.Source
	if share := r.FinalBelowShare.Value * float64(s.ReliefSet); share > below {
		below, rule = share, r.FinalBelowShare.Source
	}
	z.FinalRule = rule
	z.Final, err = s.atVessel(s.ReliefSet-hydronics.Gauge(below), rho)
	if err != nil {
		return Sizing{}, err
	}

	z.Reserve, z.ReserveRule = r.ReserveShare.Value*s.Content, r.ReserveShare.Source
	if r.ReserveLeast.Value > z.Reserve {
		z.Reserve, z.ReserveRule = r.ReserveLeast.Value, r.ReserveLeast.Source
	}
	return z, nil
}

// fillingLow returns the least filling pressure over a pre-charge, and the rule.
func (s *System) fillingLow(precharge hydronics.Gauge) (hydronics.Gauge, hydronics.Source) {
	r := &s.Rules
	p, rule := precharge+hydronics.Gauge(r.FillingOverPrecharge.Value), r.FillingOverPrecharge.Source
	if low := hydronics.Gauge(r.FillingFloor.Value); low > p {
		p, rule = low, r.FillingFloor.Source
	}
	return p, rule
}

// atVessel returns the pressure at the vessel when the relief valve sees p. The
// lighter hot liquid counts where the valve stands above the vessel, the heavier
// cold one where it stands below. There is no solution where the valve sees more than p
// even with a vacuum at the vessel.
func (s *System) atVessel(p hydronics.Gauge, rhoFill float64) (hydronics.Gauge, error) {
	rho, valve := rhoFill, p
	if s.ReliefHeight > 0 {
		var err error
		if rho, err = s.Liquid.Density(s.Hottest); err != nil {
			return hydronics.Gauge(math.NaN()), err
		}
	}
	p += hydronics.Gauge(rho * hydronics.StandardGravity * s.ReliefHeight)
	if s.Pump.Vessel == AtInlet && s.Pump.ReliefAfter {
		p -= hydronics.Gauge(s.Pump.Head)
	}
	if patm, _ := atmosphere("", s.Atmosphere); !(p.Abs(patm) > 0) { // checked
		return hydronics.Gauge(math.NaN()), fmt.Errorf("expansion.System: the weight of the liquid alone puts the relief valve, %.4g m below the vessel, under more than %.4g bar: %w",
			-s.ReliefHeight, valve/hydronics.Bar, hydronics.ErrNoSolution)
	}
	return p, nil
}

// volumes returns the expansion from filling to the largest volume between the
// coldest and the hottest temperature, and the contraction to the least; both in
// m³ and not negative.
func (s *System) volumes(rhoFill float64) (expansion, contraction float64, err error) {
	hot, err := s.fraction(s.Hottest, rhoFill)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	if !s.Rules.Expansion.Real() {
		if hot, err = s.Rules.Expansion.Fraction(s.Liquid, s.FillTemperature, s.Hottest); err != nil {
			return math.NaN(), math.NaN(), err
		}
	}
	cold, least, err := s.leastFraction(rhoFill)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	return s.Content * max(0, hot, cold), s.Content * max(0, -least), nil
}

// fraction is the expansion from filling to t by real densities, net of the pipes'.
func (s *System) fraction(t, rhoFill float64) (float64, error) {
	rho, err := s.Liquid.Density(t)
	if err != nil {
		return math.NaN(), err
	}
	m := s.Rules.Expansion
	if !m.Real() {
		m = HotVolume
	}
	return m.ratio(rhoFill, rho) - 3*s.TubeExpansion*(t-s.FillTemperature), nil
}

// leastFraction returns the expansion at the coldest temperature and the least of
// all between coldest and hottest. Water is smallest at 4 °C, and in pipes that
// expand the liquid gives way most at a higher temperature still. The volume has one
// minimum; a hundredth of a kelvin is plenty where the slope vanishes (1e-9 of the
// volume).
func (s *System) leastFraction(rhoFill float64) (cold, least float64, err error) {
	if cold, err = s.fraction(s.Coldest, rhoFill); err != nil {
		return
	}
	a, b := s.Coldest, s.Hottest
	if next, err := s.fraction(a+0.01*(b-a)/100, rhoFill); err != nil || next >= cold {
		return cold, cold, err
	}
	at := numeric.Minimum(func(t float64) float64 {
		f, _ := s.fraction(t, rhoFill) // within the liquid's range, so no error
		return f
	}, a, b, 0.02)
	least, err = s.fraction(at, rhoFill)
	return cold, min(cold, least), err
}

package expansion

import (
	"fmt"

	"example.com/hydronics"
)

// A Window is the range of filling pressures, at the vessel and at one
// temperature, that leaves both the water reserve and the room to expand.
type Window struct {
	Temperature float64         // °C, of the liquid when filled
	Least, Most hydronics.Gauge // Pa gauge
}

// Window returns the window of filling pressures for the vessel v when the liquid
// has the temperature t in °C, from the system's coldest to its hottest: the same
// mass of liquid reads higher when warm.
//
// An error that matches [hydronics.ErrNoSolution] says that there is no such
// pressure: the vessel is too small, or its pre-charge is wrong. [System.Judge]
// says which.
//
// Source: derived from Boyle's law; cold, it is the form remembered from EN 12828
// annex D, pi ≤ (pe+1)/(1+Ve(pe+1)/(VN(p0+1))) - 1.
func (s System) Window(v Vessel, t float64) (Window, error) {
	patm, err := s.check()
	if err != nil {
		return Window{}, err
	}
	if err := hydronics.Within("expansion.System.Window", "temperature", "°C", t, s.Coldest, s.Hottest, "the system's temperatures"); err != nil {
		return Window{}, err
	}
	z, err := s.demand(patm)
	if err != nil {
		return Window{}, err
	}
	return s.window(&v, &z, t, patm)
}

func (s *System) window(v *Vessel, z *Sizing, t, patm float64) (Window, error) {
	p0, err := v.precharge(patm)
	if err != nil {
		return Window{}, err
	}
	rho, err := s.Liquid.Density(s.FillTemperature)
	if err != nil {
		return Window{}, err
	}
	f, err := s.fraction(t, rho)
	if err != nil {
		return Window{}, err
	}
	least, most := s.waterLimits(v, z, p0, patm)
	least, most = least+s.Content*f, most+s.Content*f
	// Rounding must not make a vessel of exactly the least volume too small.
	if !(most >= least-1e-9*v.Nominal) || !(most < v.Nominal) || !(most >= 0) {
		return Window{}, fmt.Errorf("expansion.System.Window: the vessel of %.4g l has to hold at least %.4g l and at most %.4g l of water at %.4g °C: %w",
			v.Nominal/hydronics.Litre, least/hydronics.Litre, most/hydronics.Litre, t, hydronics.ErrNoSolution)
	}
	most = max(most, least)
	pressure := func(water float64) hydronics.Gauge {
		return hydronics.GaugeOf(p0*v.Nominal/(v.Nominal-max(0, water)), patm)
	}
	return Window{t, pressure(least), pressure(most)}, nil
}

// waterLimits returns the least and the most water that has to stand in the vessel
// at the filling temperature.
func (s *System) waterLimits(v *Vessel, z *Sizing, p0, patm float64) (least, most float64) {
	low, _ := s.fillingLow(hydronics.GaugeOf(p0, patm))
	reserve, _ := s.reserve(v, z)
	least = max(reserve+z.Contraction, v.Nominal*(1-p0/low.Abs(patm)))
	most = v.Nominal*(1-p0/z.Final.Abs(patm)) - z.Expansion
	return least, most
}

// reserve returns the water reserve that v has to hold, and the rule.
func (s *System) reserve(v *Vessel, z *Sizing) (float64, hydronics.Source) {
	if v.Nominal <= s.Rules.SmallVessel.Value {
		return s.Rules.SmallReserve.Value * v.Nominal, s.Rules.SmallReserve.Source
	}
	return z.Reserve, z.ReserveRule
}

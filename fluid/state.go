package fluid

import (
	"math"

	"example.com/hydronics"
)

// A State is everything this package knows about water or steam at one
// temperature and pressure. Energies and entropy count from liquid water at the
// triple point. The zero State means nothing.
//
// Sources: IAPWS R7-97(2012), Tables 3 and 12; R12-08; R15-11.
type State struct {
	Temperature        float64 // °C
	PressureAbs        float64 // Pa
	Density            float64 // kg/m³
	InternalEnergy     float64 // J/kg
	Enthalpy           float64 // J/kg
	Entropy            float64 // J/(kg·K)
	SpecificHeat       float64 // J/(kg·K), at constant pressure
	SpecificHeatVolume float64 // J/(kg·K), at constant volume
	SpeedOfSound       float64 // m/s
	Expansion          float64 // 1/K, of the volume at constant pressure; negative in water below 4 °C
	Compressibility    float64 // 1/Pa, at constant temperature
	Conductivity       float64 // W/(m·K)
	DynamicViscosity   float64 // Pa·s
}

// Properties returns the part of s that flow and heat transfer need.
func (s State) Properties() Properties {
	return Properties{s.Temperature, s.Density, s.SpecificHeat, s.Conductivity, s.DynamicViscosity}
}

// newState turns the derivatives of a dimensionless Gibbs energy into a State
// (R7-97 Tables 3 and 12), for t in °C, p in Pa and the reducing pressure.
func newState(t, pAbs, pi, tau, pressureScale float64, d derivatives) State {
	tk := t + hydronics.ZeroCelsius
	rt := gasConstantWater * tk
	b := d.p - tau*d.pt
	cpR := -tau * tau * d.tt // cp/R
	cvR := cpR + b*b/d.pp    // cv/R
	s := State{
		Temperature:        t,
		PressureAbs:        pAbs,
		Density:            pressureScale / (rt * d.p),
		InternalEnergy:     rt * (tau*d.t - pi*d.p),
		Enthalpy:           rt * tau * d.t,
		Entropy:            gasConstantWater * (tau*d.t - d.g),
		SpecificHeat:       gasConstantWater * cpR,
		SpecificHeatVolume: gasConstantWater * cvR,
		SpeedOfSound:       d.p * math.Sqrt(rt*cpR/(-d.pp*cvR)),
		Expansion:          b / (d.p * tk),
		Compressibility:    -d.pp / (d.p * pressureScale),
	}
	v := reduce(t, s.Density)
	s.DynamicViscosity = v.viscosity()
	s.Conductivity = v.conductivity()
	if t > enhancementStart || s.Density < criticalDensity {
		s.Conductivity += v.enhancement(s.SpecificHeat, s.SpecificHeatVolume, s.Compressibility, s.DynamicViscosity)
	}
	return s
}

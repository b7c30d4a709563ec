package fluid

import "math"

// Properties are those of a liquid at one temperature that flow and heat
// transfer need. All are positive; the zero value means nothing.
type Properties struct {
	Temperature      float64 // °C
	Density          float64 // kg/m³
	SpecificHeat     float64 // J/(kg·K), at constant pressure
	Conductivity     float64 // W/(m·K)
	DynamicViscosity float64 // Pa·s
}

// KinematicViscosity returns ν = μ/ρ in m²/s (NaN for the zero Properties).
// Source: definition.
func (p Properties) KinematicViscosity() float64 { return p.DynamicViscosity / p.Density }

// Prandtl returns Pr = μ cp/λ (NaN for the zero Properties).
// Source: definition.
func (p Properties) Prandtl() float64 {
	return p.DynamicViscosity * p.SpecificHeat / p.Conductivity
}

// HeatCapacityRate returns ρ cp V̇ in W/K for a flow in m³/s measured at the
// temperature of p: the heat carried per kelvin between supply and return. It is
// NaN for the zero Properties. Source: definition.
func (p Properties) HeatCapacityRate(flow float64) float64 {
	if p == (Properties{}) {
		return math.NaN()
	}
	return p.Density * p.SpecificHeat * flow
}

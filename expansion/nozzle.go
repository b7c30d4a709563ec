package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
)

// A Gas is the state of a gas or of steam before a relief valve's nozzle.
type Gas struct {
	PressureAbs    float64 // Pa absolute, 50 kPa to 10 MPa (guard)
	SpecificVolume float64 // m³/kg, 1e-3 to 100 (guard)
	Exponent       float64 // isentropic exponent k, 1.001 to 1.67 (a monatomic gas)
}

// A Flux is the flow through an ideal nozzle per area of its narrowest section.
type Flux struct {
	Mass        float64 // kg/(m²·s)
	PressureAbs float64 // Pa absolute, in the narrowest section
	Critical    bool    // at the speed of sound there: the back pressure no longer matters
}

// Flux returns the flow of g through an ideal nozzle into the absolute back pressure
// in Pa, from 0 to g's own.
//
//	critical      G = √(k (2/(k+1))^((k+1)/(k-1)) p0/v0)
//	subcritical   G = √(2k/(k-1) p0/v0 (r^(2/k) - r^((k+1)/k))),  r = pb/p0
//
// Source: isentropic flow of an ideal gas; ISO 4126-7 and API 520 part I print the
// same with the constants of their units (0.2883 C √(p0/v); 13 160 W √(TZ/M)/(C P)).
func (g Gas) Flux(backAbs float64) (Flux, error) {
	const fn = "expansion.Gas.Flux"
	if err := errors.Join(
		hydronics.Within(fn, "pressure", "Pa", g.PressureAbs, 50e3, 10e6, hydronics.Guard),
		hydronics.Within(fn, "specific volume", "m³/kg", g.SpecificVolume, 1e-3, 100, hydronics.Guard),
		hydronics.Within(fn, "isentropic exponent", "", g.Exponent, 1.001, 1.67, "ideal gas")); err != nil {
		return Flux{}, err
	}
	if err := hydronics.Within(fn, "back pressure", "Pa", backAbs, 0, g.PressureAbs, "at most the pressure before the nozzle"); err != nil {
		return Flux{}, err
	}
	k, r := g.Exponent, backAbs/g.PressureAbs
	critical := math.Pow(2/(k+1), k/(k-1))
	if r <= critical {
		mass := math.Sqrt(k * math.Pow(2/(k+1), (k+1)/(k-1)) * g.PressureAbs / g.SpecificVolume)
		return Flux{mass, critical * g.PressureAbs, true}, nil
	}
	// r^(2/k) (1 - r^((k-1)/k)), the difference without cancellation.
	drop := -math.Expm1((k - 1) / k * math.Log(r))
	mass := math.Sqrt(2 * k / (k - 1) * g.PressureAbs / g.SpecificVolume * math.Pow(r, 2/k) * drop)
	return Flux{mass, backAbs, false}, nil
}

// steamExponent is the isentropic exponent of saturated steam in relief valve
// sizing, attributed to ISO 4126-7. Dry steam that stays dry would have 1.30, which
// gives 5 % more flow than steam that condenses in equilibrium: unsafe here.
const steamExponent = 1.135

// limits of the steam calculations, Pa absolute
const (
	steamLowest  = 50e3
	steamHighest = 2e6
)

// SteamFlux returns the flow of dry saturated steam of the absolute pressure pAbs
// in Pa, 50 kPa to 2 MPa, through an ideal nozzle into the absolute back pressure
// in Pa: [Gas.Flux] with the specific volume of the steam and k = 1.135.
// From 1.5 to 12 bar absolute it lies up to 0.3 % below [EquilibriumSteamFlux], the
// safe side; towards the ends of the range it lies up to 0.25 % above.
// Source: ISO 4126-7, attributed; specific volume by IAPWS-IF97.
func SteamFlux(pAbs, backAbs float64) (Flux, error) {
	s, err := saturated("expansion.SteamFlux", pAbs)
	if err != nil {
		return Flux{}, err
	}
	return Gas{pAbs, 1 / s.Steam.Density, steamExponent}.Flux(backAbs)
}

func saturated(fn string, pAbs float64) (fluid.Saturation, error) {
	if err := hydronics.Within(fn, "pressure of the steam", "Pa", pAbs, steamLowest, steamHighest, hydronics.Guard); err != nil {
		return fluid.Saturation{}, err
	}
	t, err := fluid.SaturationTemperature(pAbs)
	if err != nil {
		return fluid.Saturation{}, err
	}
	return fluid.Boiling(t)
}

// EquilibriumSteamFlux returns the flow of dry saturated steam as [SteamFlux] does,
// without an exponent: along the isentrope on which steam and condensate stay in
// equilibrium, by the enthalpies of IAPWS-IF97. It takes some hundred times as
// long and is there to check the other.
//
//	G = max over p of ρ(p) √(2 (h0 - h(p)))   at the entropy of the steam
//
// Source: homogeneous equilibrium model of nozzle flow; energy equation.
func EquilibriumSteamFlux(pAbs, backAbs float64) (Flux, error) {
	const fn = "expansion.EquilibriumSteamFlux"
	s, err := saturated(fn, pAbs)
	if err != nil {
		return Flux{}, err
	}
	if err := hydronics.Within(fn, "back pressure", "Pa", backAbs, 0, pAbs, "at most the pressure before the nozzle"); err != nil {
		return Flux{}, err
	}
	flux := func(p float64) float64 {
		t, err := fluid.SaturationTemperature(p)
		if err != nil {
			return math.NaN()
		}
		x, err := fluid.Boiling(t)
		if err != nil {
			return math.NaN()
		}
		dry := (s.Steam.Entropy - x.Liquid.Entropy) / (x.Steam.Entropy - x.Liquid.Entropy)
		h := x.Liquid.Enthalpy + dry*x.LatentHeat
		v := (1-dry)/x.Liquid.Density + dry/x.Steam.Density
		return math.Sqrt(2*max(0, s.Steam.Enthalpy-h)) / v
	}
	// The flux has one maximum, near 0.58 of the pressure.
	throat := numeric.Minimum(func(p float64) float64 { return -flux(p) }, 0.4*pAbs, pAbs, 1e-6*pAbs)
	f := Flux{flux(throat), throat, true}
	if backAbs > throat {
		f = Flux{flux(backAbs), backAbs, false}
	}
	if math.IsNaN(f.Mass) {
		return Flux{}, fmt.Errorf("%s: no nozzle flow from %g to %g Pa: %w", fn, pAbs, backAbs, hydronics.ErrNoSolution)
	}
	return f, nil
}

// LiquidFlux returns the flow of a liquid of the given density in kg/m³, 500 to
// 1500, through an ideal orifice from one absolute pressure in Pa to another, 0 to
// 10 MPa: G = √(2 ρ (p - pb)), in kg/(m²·s). Liquid that boils on the way passes
// less; this is for liquid well below boiling.
// Source: Bernoulli; ISO 4126-7 prints it as 1.61 √((p-pb)/v), API 520 as 11.78 Q √(G/(p-pb)).
func LiquidFlux(pAbs, backAbs, density float64) (float64, error) {
	const fn = "expansion.LiquidFlux"
	if err := errors.Join(
		hydronics.Within(fn, "pressure", "Pa", pAbs, 0, 10e6, hydronics.Guard),
		hydronics.Within(fn, "density", "kg/m³", density, 500, 1500, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	if err := hydronics.Within(fn, "back pressure", "Pa", backAbs, 0, pAbs, "at most the pressure before the orifice"); err != nil {
		return math.NaN(), err
	}
	return math.Sqrt(2 * density * (pAbs - backAbs)), nil
}

// An APIEdition names an edition of API Standard 520 part I.
type APIEdition uint8

// The editions whose viscosity correction differs.
const (
	API520Edition7 APIEdition = iota + 1
	API520Edition10
)

// ViscosityFactor returns the correction of a liquid relief flow for viscosity at
// the Reynolds number of the nozzle, 30 to 1e8 (guard), after an edition of API 520.
//
//	7th    Kv = 1/(0.9935 + 2.878/√Re + 342.75/Re^1.5), at most 1
//	10th   Kv = 1/√(1 + 170/Re)
//
// Source: API 520 part I, as reproduced in the open library fluids.
func ViscosityFactor(re float64, edition APIEdition) (float64, error) {
	const fn = "expansion.ViscosityFactor"
	if err := hydronics.Within(fn, "Reynolds number", "", re, 30, 1e8, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	switch edition {
	case API520Edition7:
		root := math.Sqrt(re)
		return min(1, 1/(0.9935+2.878/root+342.75/(re*root))), nil
	case API520Edition10:
		return 1 / math.Sqrt(1+170/re), nil
	default:
		return math.NaN(), fmt.Errorf("%s: unknown edition %d: %w", fn, edition, hydronics.ErrRange)
	}
}

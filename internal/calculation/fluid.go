package calculation

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
)

// fluidCalculations are the calculations of package fluid in row form.
func fluidCalculations() []Calculation {
	temperature := Column{Name: "temperature", Kind: unit.Temperature}
	pressureAbs := Column{Name: "pressure_abs", Kind: unit.AbsolutePressure}
	density := Column{Name: "density", Kind: unit.Density}
	solute := Column{Name: "solute", Kind: unit.Text, Doc: "such as propylene glycol"}
	mass := Column{Name: "mass_fraction", Kind: unit.Number}
	volume := Column{Name: "volume_fraction", Kind: unit.Number, Doc: "of the volumes before mixing, at 20 °C"}
	mixtureVolume := Column{Name: "mixture_volume_fraction", Kind: unit.Number, Doc: "antifreeze volume per mixture volume, at 20 °C"}
	freezing := Column{Name: "freezing_point", Kind: unit.Temperature}
	conductivity := Column{Name: "conductivity", Kind: unit.Conductivity}
	viscosity := Column{Name: "viscosity", Kind: unit.DynamicViscosity}
	solution := []Column{density,
		{Name: "specific_heat", Kind: unit.SpecificHeat},
		conductivity, viscosity,
		{Name: "kinematic_viscosity", Kind: unit.KinematicViscosity},
		{Name: "prandtl", Kind: unit.Number},
	}
	return slices.Concat(fluidFrostCalculations(), fluidGasCalculations(), fluidSampleCalculations(), []Calculation{
		{
			Name:    "fluid/water",
			Doc:     "liquid water at a temperature and an absolute pressure",
			Inputs:  []Column{temperature, pressureAbs},
			Outputs: stateColumns(),
			Covers: []string{"fluid.WaterState", "fluid.WaterAt", "fluid.Liquid.At", "fluid.Liquid.Density",
				"fluid.Properties.KinematicViscosity", "fluid.Properties.Prandtl", "fluid.State.Properties"},
			Row: func(in Row) (Row, error) {
				t := in.Num("temperature")
				state, err := fluid.WaterState(t, in.Num("pressure_abs"))
				if err != nil {
					return nil, err
				}
				liquid, err := fluid.WaterAt(in.Num("pressure_abs"))
				if err != nil {
					return nil, err
				}
				p, err := liquid.At(t)
				if err != nil {
					return nil, err
				}
				density, err := liquid.Density(t)
				if err != nil {
					return nil, err
				}
				// The two ways to a property agree (a test of package fluid), so that
				// each may stand for the other here.
				out := stateRow(state)
				out["density"] = density
				out["specific_heat"] = p.SpecificHeat
				out["conductivity"] = p.Conductivity
				out["viscosity"] = p.DynamicViscosity
				return out, nil
			},
		},
		{
			Name:    "fluid/steam",
			Doc:     "steam at a temperature and an absolute pressure",
			Inputs:  []Column{temperature, pressureAbs},
			Outputs: stateColumns(),
			Covers:  []string{"fluid.SteamState"},
			Row: func(in Row) (Row, error) {
				state, err := fluid.SteamState(in.Num("temperature"), in.Num("pressure_abs"))
				if err != nil {
					return nil, err
				}
				return stateRow(state), nil
			},
		},
		{
			Name:   "fluid/boiling",
			Doc:    "boiling water and its steam at a temperature",
			Inputs: []Column{temperature},
			Outputs: []Column{pressureAbs,
				{Name: "liquid_density", Kind: unit.Density},
				{Name: "steam_density", Kind: unit.Density},
				{Name: "liquid_enthalpy", Kind: unit.SpecificEnergy},
				{Name: "steam_enthalpy", Kind: unit.SpecificEnergy},
				{Name: "latent_heat", Kind: unit.SpecificEnergy},
				{Name: "liquid_entropy", Kind: unit.SpecificHeat},
				{Name: "steam_entropy", Kind: unit.SpecificHeat},
				{Name: "liquid_specific_heat", Kind: unit.SpecificHeat},
				{Name: "steam_specific_heat", Kind: unit.SpecificHeat},
				{Name: "liquid_speed_of_sound", Kind: unit.Velocity},
				{Name: "liquid_viscosity", Kind: unit.DynamicViscosity},
				{Name: "liquid_conductivity", Kind: unit.Conductivity},
				{Name: "surface_tension", Kind: unit.SurfaceTension},
			},
			Covers: []string{"fluid.Boiling"},
			Row: func(in Row) (Row, error) {
				s, err := fluid.Boiling(in.Num("temperature"))
				if err != nil {
					return nil, err
				}
				tension, err := fluid.SurfaceTension(in.Num("temperature"))
				return Row{
					"pressure_abs":          s.PressureAbs,
					"liquid_density":        s.Liquid.Density,
					"steam_density":         s.Steam.Density,
					"liquid_enthalpy":       s.Liquid.Enthalpy,
					"steam_enthalpy":        s.Steam.Enthalpy,
					"latent_heat":           s.LatentHeat,
					"liquid_entropy":        s.Liquid.Entropy,
					"steam_entropy":         s.Steam.Entropy,
					"liquid_specific_heat":  s.Liquid.SpecificHeat,
					"steam_specific_heat":   s.Steam.SpecificHeat,
					"liquid_speed_of_sound": s.Liquid.SpeedOfSound,
					"liquid_viscosity":      s.Liquid.DynamicViscosity,
					"liquid_conductivity":   s.Liquid.Conductivity,
					"surface_tension":       tension,
				}, err
			},
		},
		scalar("fluid/saturation_pressure", "absolute pressure at which water boils",
			temperature, pressureAbs, "fluid.SaturationPressure", fluid.SaturationPressure),
		scalar("fluid/saturation_temperature", "temperature at which water boils",
			pressureAbs, temperature, "fluid.SaturationTemperature", fluid.SaturationTemperature),
		scalar("fluid/surface_tension", "surface tension of water against its vapour",
			temperature, Column{Name: "surface_tension", Kind: unit.SurfaceTension}, "fluid.SurfaceTension", fluid.SurfaceTension),
		{
			Name:    "fluid/water_temperature",
			Doc:     "temperature of liquid water from absolute pressure and enthalpy",
			Inputs:  []Column{pressureAbs, {Name: "enthalpy", Kind: unit.SpecificEnergy}},
			Outputs: []Column{temperature},
			Covers:  []string{"fluid.WaterTemperature"},
			Row: func(in Row) (Row, error) {
				t, err := fluid.WaterTemperature(in.Num("pressure_abs"), in.Num("enthalpy"))
				return Row{"temperature": t}, err
			},
		},
		{
			Name:    "fluid/water_viscosity",
			Doc:     "viscosity of water or steam from temperature and density",
			Inputs:  []Column{temperature, density},
			Outputs: []Column{viscosity},
			Covers:  []string{"fluid.WaterViscosity"},
			Row: func(in Row) (Row, error) {
				v, err := fluid.WaterViscosity(in.Num("temperature"), in.Num("density"))
				return Row{"viscosity": v}, err
			},
		},
		{
			Name:    "fluid/water_conductivity",
			Doc:     "thermal conductivity of water or steam from temperature and density",
			Inputs:  []Column{temperature, density},
			Outputs: []Column{conductivity},
			Covers:  []string{"fluid.WaterConductivity"},
			Row: func(in Row) (Row, error) {
				v, err := fluid.WaterConductivity(in.Num("temperature"), in.Num("density"))
				return Row{"conductivity": v}, err
			},
		},
		{
			Name:    "fluid/solution",
			Doc:     "an aqueous solution by mass fraction at a temperature",
			Inputs:  []Column{solute, mass, temperature},
			Outputs: solution,
			Covers:  []string{"fluid.Solute.ByMass", "fluid.Liquid.At", "fluid.Liquid.Density"},
			Row: func(in Row) (Row, error) {
				l, err := byMass(in)
				if err != nil {
					return nil, err
				}
				return solutionRow(l, in.Num("temperature"))
			},
		},
		{
			Name:    "fluid/volume_fraction",
			Doc:     "the two volume fractions of a solution by mass fraction",
			Inputs:  []Column{solute, mass},
			Outputs: []Column{volume, mixtureVolume},
			Covers:  []string{"fluid.Liquid.VolumeFraction", "fluid.Liquid.MixtureVolumeFraction"},
			Row: func(in Row) (Row, error) {
				l, err := byMass(in)
				if err != nil {
					return nil, err
				}
				v, err := l.VolumeFraction()
				if err != nil {
					return nil, err
				}
				m, err := l.MixtureVolumeFraction()
				return Row{"volume_fraction": v, "mixture_volume_fraction": m}, err
			},
		},
		{
			Name: "fluid/mass_fraction",
			Doc:  "mass fraction of a solution by one of the two volume fractions",
			Inputs: []Column{solute,
				{Name: "volume_fraction", Kind: unit.Number, Optional: true, Doc: "of the volumes before mixing"},
				{Name: "mixture_volume_fraction", Kind: unit.Number, Optional: true, Doc: "antifreeze volume per mixture volume"}},
			Outputs: []Column{mass},
			Covers:  []string{"fluid.Solute.ByVolume", "fluid.Solute.ByMixtureVolume", "fluid.Liquid.MassFraction"},
			Row: func(in Row) (Row, error) {
				s, err := rowSolute(in)
				if err != nil {
					return nil, err
				}
				var l fluid.Liquid
				if in.Has("volume_fraction") {
					l, err = s.ByVolume(in.Num("volume_fraction"))
				} else {
					l, err = s.ByMixtureVolume(in.Num("mixture_volume_fraction"))
				}
				return Row{"mass_fraction": l.MassFraction()}, err
			},
		},
		{
			Name:    "fluid/freezing_point",
			Doc:     "freezing point of an aqueous solution by mass fraction",
			Inputs:  []Column{solute, mass},
			Outputs: []Column{freezing},
			Covers:  []string{"fluid.Liquid.FreezingPoint", "fluid.Liquid.Range"},
			Safety:  true,
			Row: func(in Row) (Row, error) {
				l, err := byMass(in)
				return Row{"freezing_point": l.FreezingPoint()}, err
			},
		},
		{
			Name:    "fluid/freezing_dose",
			Doc:     "weakest solution that freezes at a temperature",
			Inputs:  []Column{solute, freezing},
			Outputs: []Column{mass},
			Covers:  []string{"fluid.Solute.ByFreezingPoint"},
			Safety:  true,
			Row: func(in Row) (Row, error) {
				s, err := rowSolute(in)
				if err != nil {
					return nil, err
				}
				l, err := s.ByFreezingPoint(in.Num("freezing_point"))
				return Row{"mass_fraction": l.MassFraction()}, err
			},
		},
	})
}

// fluidFrostCalculations are those of ice and of slush.
func fluidFrostCalculations() []Calculation {
	temperature := Column{Name: "temperature", Kind: unit.Temperature}
	pressureAbs := Column{Name: "pressure_abs", Kind: unit.AbsolutePressure}
	solute := Column{Name: "solute", Kind: unit.Text, Doc: "such as propylene glycol"}
	mass := Column{Name: "mass_fraction", Kind: unit.Number}
	return []Calculation{
		{
			Name:   "fluid/ice",
			Doc:    "ice at a temperature and an absolute pressure",
			Inputs: []Column{temperature, pressureAbs},
			Outputs: []Column{
				{Name: "density", Kind: unit.Density},
				{Name: "gibbs_energy", Kind: unit.SpecificEnergy},
				{Name: "enthalpy", Kind: unit.SpecificEnergy},
				{Name: "entropy", Kind: unit.SpecificHeat},
				{Name: "specific_heat", Kind: unit.SpecificHeat},
				{Name: "expansion", Kind: unit.PerTemperature},
				{Name: "compressibility", Kind: unit.PerPressure},
			},
			Covers: []string{"fluid.IceState"},
			Row: func(in Row) (Row, error) {
				s, err := fluid.IceState(in.Num("temperature"), in.Num("pressure_abs"))
				if err != nil {
					return nil, err
				}
				return Row{
					"density":         s.Density,
					"gibbs_energy":    s.Enthalpy - (s.Temperature+hydronics.ZeroCelsius)*s.Entropy,
					"enthalpy":        s.Enthalpy,
					"entropy":         s.Entropy,
					"specific_heat":   s.SpecificHeat,
					"expansion":       s.Expansion,
					"compressibility": s.Compressibility,
				}, nil
			},
		},
		scalar("fluid/melting_pressure", "absolute pressure under which ice melts",
			temperature, pressureAbs, "fluid.MeltingPressure", fluid.MeltingPressure),
		scalar("fluid/melting_temperature", "temperature at which ice melts",
			pressureAbs, temperature, "fluid.MeltingTemperature", fluid.MeltingTemperature),
		{
			Name: "fluid/fusion",
			Doc:  "water that freezes under the standard atmosphere",
			Outputs: []Column{temperature, pressureAbs,
				{Name: "latent_heat", Kind: unit.SpecificEnergy},
				{Name: "water_density", Kind: unit.Density},
				{Name: "ice_density", Kind: unit.Density},
				{Name: "volume_growth", Kind: unit.Number},
			},
			Covers: []string{"fluid.Freezing"},
			Safety: true,
			Row: func(Row) (Row, error) {
				f := fluid.Freezing()
				return Row{
					"temperature":   f.Temperature,
					"pressure_abs":  f.PressureAbs,
					"latent_heat":   f.Heat,
					"water_density": f.WaterDensity,
					"ice_density":   f.IceDensity,
					"volume_growth": f.Expansion,
				}, nil
			},
		},
		{
			Name:    "fluid/ice_fraction",
			Doc:     "ice in an aqueous solution below its freezing point",
			Inputs:  []Column{solute, mass, temperature},
			Outputs: []Column{{Name: "ice_fraction", Kind: unit.Number}},
			Covers:  []string{"fluid.Liquid.IceFraction"},
			Row: func(in Row) (Row, error) {
				l, err := byMass(in)
				if err != nil {
					return nil, err
				}
				f, err := l.IceFraction(in.Num("temperature"))
				return Row{"ice_fraction": f}, err
			},
		},
		{
			Name:    "fluid/burst_protection",
			Doc:     "glycol solution that turns to slush but does not burst pipes",
			Inputs:  []Column{solute, temperature},
			Outputs: []Column{mass, {Name: "volume_fraction", Kind: unit.Number}},
			Covers:  []string{"fluid.Solute.ByBurstProtection"}, // the chart that the code holds is data, not a check of it
			Safety:  true,
			Row: func(in Row) (Row, error) {
				s, err := rowSolute(in)
				if err != nil {
					return nil, err
				}
				l, err := s.ByBurstProtection(in.Num("temperature"))
				if err != nil {
					return nil, err
				}
				v, err := l.VolumeFraction()
				return Row{"mass_fraction": l.MassFraction(), "volume_fraction": v}, err
			},
		},
	}
}

// fluidGasCalculations are those of gas in water, of air and of fill water.
func fluidGasCalculations() []Calculation {
	temperature := Column{Name: "temperature", Kind: unit.Temperature}
	pressureAbs := Column{Name: "pressure_abs", Kind: unit.AbsolutePressure}
	gas := Column{Name: "gas", Kind: unit.Text, Doc: "such as nitrogen"}
	places := []Column{
		{Name: "from_temperature", Kind: unit.Temperature},
		{Name: "from_pressure_abs", Kind: unit.AbsolutePressure},
		{Name: "to_temperature", Kind: unit.Temperature},
		{Name: "to_pressure_abs", Kind: unit.AbsolutePressure},
	}
	released := []Column{{Name: "released", Kind: unit.GasContent, Doc: "at 0 °C and 101325 Pa, per volume of water"}}
	fromTo := func(in Row) (from, to fluid.Place) {
		return fluid.Place{Temperature: in.Num("from_temperature"), PressureAbs: in.Num("from_pressure_abs")},
			fluid.Place{Temperature: in.Num("to_temperature"), PressureAbs: in.Num("to_pressure_abs")}
	}
	return []Calculation{
		{
			Name:    "fluid/henry_constant",
			Doc:     "Henry constant of a gas in water",
			Inputs:  []Column{gas, temperature},
			Outputs: []Column{{Name: "henry_constant", Kind: unit.Pressure}, {Name: "log_henry_constant", Kind: unit.Number, Doc: "natural logarithm of the value in GPa"}},
			Covers:  []string{"fluid.Gas.HenryConstant"},
			Row: func(in Row) (Row, error) {
				g, err := rowGas(in)
				if err != nil {
					return nil, err
				}
				k, err := g.HenryConstant(in.Num("temperature"))
				return Row{"henry_constant": k, "log_henry_constant": math.Log(k / 1e9)}, err
			},
		},
		{
			Name:   "fluid/dissolved_air",
			Doc:    "air in water at equilibrium",
			Inputs: []Column{temperature, pressureAbs},
			Outputs: []Column{
				{Name: "air", Kind: unit.GasContent, Doc: "at 0 °C and 101325 Pa, per volume of water"},
				{Name: "nitrogen", Kind: unit.Concentration},
				{Name: "oxygen", Kind: unit.Concentration},
			},
			Covers: []string{"fluid.DissolvedAir", "fluid.Gas.Dissolved"},
			Row: func(in Row) (Row, error) {
				a, err := fluid.DissolvedAir(in.Num("temperature"), in.Num("pressure_abs"))
				if err != nil {
					return nil, err
				}
				return Row{"air": a.Volume, "nitrogen": a.Nitrogen.Mass, "oxygen": a.Oxygen.Mass}, nil
			},
		},
		{
			Name:    "fluid/released_air",
			Doc:     "air that water gives up between two places of a circuit",
			Inputs:  places,
			Outputs: released,
			Covers:  []string{"fluid.ReleasedAir"},
			Row: func(in Row) (Row, error) {
				v, err := fluid.ReleasedAir(fromTo(in))
				return Row{"released": v}, err
			},
		},
		{
			Name:    "fluid/released_gas",
			Doc:     "gas that water under this gas alone gives up between two places",
			Inputs:  append([]Column{gas}, places...),
			Outputs: released,
			Covers:  []string{"fluid.Gas.Released"},
			Row: func(in Row) (Row, error) {
				g, err := rowGas(in)
				if err != nil {
					return nil, err
				}
				v, err := g.Released(fromTo(in))
				return Row{"released": v}, err
			},
		},
		scalar("fluid/oxygen_in_fresh_water", "oxygen in fresh water under moist air at one atmosphere",
			temperature, Column{Name: "oxygen", Kind: unit.Concentration}, "fluid.OxygenInFreshWater", fluid.OxygenInFreshWater),
		{
			Name:   "fluid/air",
			Doc:    "dry air at a temperature and an absolute pressure",
			Inputs: []Column{temperature, pressureAbs},
			Outputs: []Column{
				{Name: "density", Kind: unit.Density},
				{Name: "specific_heat", Kind: unit.SpecificHeat},
				{Name: "conductivity", Kind: unit.Conductivity},
				{Name: "viscosity", Kind: unit.DynamicViscosity},
				{Name: "kinematic_viscosity", Kind: unit.KinematicViscosity},
				{Name: "prandtl", Kind: unit.Number},
			},
			Covers: []string{"fluid.DryAir"},
			Row: func(in Row) (Row, error) {
				p, err := fluid.DryAir(in.Num("temperature"), in.Num("pressure_abs"))
				if err != nil {
					return nil, err
				}
				return propertiesRow(p), nil
			},
		},
		scalar("fluid/vapour_pressure", "saturation pressure of moist air, over ice or over water",
			temperature, pressureAbs, "fluid.VapourPressure", fluid.VapourPressure),
		{
			Name:    "fluid/dew_point",
			Doc:     "dew or frost point of moist air",
			Inputs:  []Column{temperature, {Name: "relative_humidity", Kind: unit.Number}},
			Outputs: []Column{{Name: "dew_point", Kind: unit.Temperature}, {Name: "vapour_pressure", Kind: unit.AbsolutePressure}},
			Covers:  []string{"fluid.DewPoint"},
			Row: func(in Row) (Row, error) {
				d, err := fluid.DewPoint(in.Num("temperature"), in.Num("relative_humidity"))
				if err != nil {
					return nil, err
				}
				p, err := fluid.VapourPressure(d)
				return Row{"dew_point": d, "vapour_pressure": p}, err
			},
		},
		scalar("fluid/atmosphere", "pressure of the standard atmosphere at an altitude",
			Column{Name: "altitude", Kind: unit.Length}, pressureAbs, "fluid.AtmosphericPressure", fluid.AtmosphericPressure),
		{
			Name: "fluid/fill_water",
			Doc:  "largest hardness of the fill water",
			Inputs: []Column{
				{Name: "edition", Kind: unit.Text, Doc: "of VDI 2035 part 1: 2005 or 2021"},
				{Name: "heat_output", Kind: unit.Power},
				{Name: "generator_water", Kind: unit.Volume},
				{Name: "content", Kind: unit.Volume},
			},
			Outputs: []Column{{Name: "hardness", Kind: unit.Hardness}, {Name: "limit", Kind: unit.Text, Doc: "limited or none"}},
			Covers:  []string{"fluid.HardnessRule.Limit"},
			Row: func(in Row) (Row, error) {
				rule := map[string]fluid.HardnessRule{"2005": fluid.VDI2035In2005, "2021": fluid.VDI2035In2021}[in.Text("edition")]
				limit, err := rule.Limit(fluid.FillWater{
					HeatOutput: in.Num("heat_output"), SmallestOutput: in.Num("heat_output"),
					GeneratorWater: in.Num("generator_water"), Content: in.Num("content"), Makeup: in.Num("content"),
				})
				if err != nil {
					return nil, err
				}
				if limit.None {
					return Row{"limit": "none"}, nil
				}
				return Row{"limit": "limited", "hardness": limit.Hardness}, nil
			},
		},
	}
}

// fluidSampleCalculations are those of a sample's concentration and of dosing.
func fluidSampleCalculations() []Calculation {
	temperature := Column{Name: "temperature", Kind: unit.Temperature}
	solute := Column{Name: "solute", Kind: unit.Text, Doc: "such as propylene glycol"}
	mass := Column{Name: "mass_fraction", Kind: unit.Number}
	density := Column{Name: "density", Kind: unit.Density}
	index := Column{Name: "refractive_index", Kind: unit.Number}
	brix := Column{Name: "brix", Kind: unit.Number, Doc: "mass fraction of sucrose: 0.30, or 30 percent, is 30 °Bx"}
	by := func(name, doc, covers string, in []Column, f func(fluid.Solute, Row) (fluid.Liquid, error)) Calculation {
		return Calculation{
			Name: name, Doc: doc, Inputs: append([]Column{solute}, in...), Outputs: []Column{mass}, Covers: []string{covers},
			Row: func(in Row) (Row, error) {
				s, err := rowSolute(in)
				if err != nil {
					return nil, err
				}
				l, err := f(s, in)
				return Row{"mass_fraction": l.MassFraction()}, err
			},
		}
	}
	return []Calculation{
		by("fluid/solution_by_density", "concentration of a sample from its density", "fluid.Solute.ByDensity", []Column{density, temperature},
			func(s fluid.Solute, in Row) (fluid.Liquid, error) {
				return s.ByDensity(in.Num("density"), in.Num("temperature"))
			}),
		by("fluid/solution_by_index", "concentration of a sample from its refractive index", "fluid.Solute.ByRefractiveIndex", []Column{index, temperature},
			func(s fluid.Solute, in Row) (fluid.Liquid, error) {
				return s.ByRefractiveIndex(in.Num("refractive_index"), in.Num("temperature"))
			}),
		by("fluid/solution_by_brix", "concentration of a sample from the reading of a sugar refractometer", "fluid.Solute.ByBrix", []Column{brix},
			func(s fluid.Solute, in Row) (fluid.Liquid, error) { return s.ByBrix(100 * in.Num("brix")) }),
		{
			Name:    "fluid/refractive_index",
			Doc:     "refractive index of an aqueous solution",
			Inputs:  []Column{solute, mass, temperature},
			Outputs: []Column{index},
			Covers:  []string{"fluid.Liquid.RefractiveIndex"},
			Row: func(in Row) (Row, error) {
				l, err := byMass(in)
				if err != nil {
					return nil, err
				}
				n, err := l.RefractiveIndex(in.Num("temperature"))
				return Row{"refractive_index": n}, err
			},
		},
		{
			Name:    "fluid/brix",
			Doc:     "refractive index of a reading on the sugar scale, and back",
			Inputs:  []Column{brix},
			Outputs: []Column{index, {Name: "brix_back", Kind: unit.Number}},
			Covers:  []string{"fluid.BrixIndex", "fluid.Brix"},
			Row: func(in Row) (Row, error) {
				n, err := fluid.BrixIndex(100 * in.Num("brix"))
				if err != nil {
					return nil, err
				}
				back, err := fluid.Brix(n)
				return Row{"refractive_index": n, "brix_back": back / 100}, err
			},
		},
		{
			Name: "fluid/dosing",
			Doc:  "concentrate to bring a full system from one mass fraction to another, and for a new fill",
			Inputs: []Column{solute,
				{Name: "content", Kind: unit.Volume},
				{Name: "from_mass_fraction", Kind: unit.Number},
				{Name: "to_mass_fraction", Kind: unit.Number},
			},
			Outputs: []Column{
				{Name: "drain", Kind: unit.Volume},
				{Name: "replace_concentrate", Kind: unit.Volume},
				{Name: "add_concentrate", Kind: unit.Volume, Doc: "where there is room"},
				{Name: "content_after", Kind: unit.Volume, Doc: "where there is room"},
				{Name: "fill_concentrate", Kind: unit.Volume, Doc: "for an empty system"},
				{Name: "fill_water", Kind: unit.Volume, Doc: "for an empty system"},
			},
			Covers: []string{"fluid.Dosing.Replace", "fluid.Dosing.TopUp", "fluid.NewFill", "fluid.Solute.Concentrate"},
			Row:    dosingRow,
		},
	}
}

func dosingRow(in Row) (Row, error) {
	s, err := rowSolute(in)
	if err != nil {
		return nil, err
	}
	concentrate, err1 := s.Concentrate()
	from, err2 := s.ByMass(in.Num("from_mass_fraction"))
	to, err3 := s.ByMass(in.Num("to_mass_fraction"))
	if err := errors.Join(err1, err2, err3); err != nil {
		return nil, err
	}
	if from.MassFraction() == 0 {
		from = fluid.Water()
	}
	d := fluid.Dosing{Content: in.Num("content"), From: from, To: to, Concentrate: concentrate}
	replace, err1 := d.Replace()
	add, err2 := d.TopUp()
	fill, err3 := fluid.NewFill(d.Content, to, concentrate)
	return Row{
		"drain":               replace.Drain,
		"replace_concentrate": replace.Concentrate,
		"add_concentrate":     add.Concentrate,
		"content_after":       add.Content,
		"fill_concentrate":    fill.Concentrate,
		"fill_water":          fill.Water,
	}, errors.Join(err1, err2, err3)
}

func rowGas(in Row) (fluid.Gas, error) {
	g, ok := fluid.ParseGas(in.Text("gas"))
	if !ok {
		return 0, fmt.Errorf("gas %q is not one of package fluid: %w", in.Text("gas"), hydronics.ErrRange)
	}
	return g, nil
}

// scalar is the calculation of a function of one number.
func scalar(name, doc string, in, out Column, covers string, f func(float64) (float64, error)) Calculation {
	return Calculation{
		Name: name, Doc: doc, Inputs: []Column{in}, Outputs: []Column{out}, Covers: []string{covers},
		Row: func(row Row) (Row, error) {
			v, err := f(row.Num(in.Name))
			return Row{out.Name: v}, err
		},
	}
}

func stateColumns() []Column {
	return []Column{
		{Name: "density", Kind: unit.Density},
		{Name: "specific_volume", Kind: unit.SpecificVolume},
		{Name: "internal_energy", Kind: unit.SpecificEnergy},
		{Name: "enthalpy", Kind: unit.SpecificEnergy},
		{Name: "entropy", Kind: unit.SpecificHeat},
		{Name: "specific_heat", Kind: unit.SpecificHeat},
		{Name: "specific_heat_volume", Kind: unit.SpecificHeat},
		{Name: "speed_of_sound", Kind: unit.Velocity},
		{Name: "expansion", Kind: unit.PerTemperature},
		{Name: "compressibility", Kind: unit.PerPressure},
		{Name: "conductivity", Kind: unit.Conductivity},
		{Name: "viscosity", Kind: unit.DynamicViscosity},
		{Name: "kinematic_viscosity", Kind: unit.KinematicViscosity},
		{Name: "prandtl", Kind: unit.Number},
	}
}

func stateRow(s fluid.State) Row {
	p := s.Properties()
	return Row{
		"density":              s.Density,
		"specific_volume":      1 / s.Density,
		"internal_energy":      s.InternalEnergy,
		"enthalpy":             s.Enthalpy,
		"entropy":              s.Entropy,
		"specific_heat":        s.SpecificHeat,
		"specific_heat_volume": s.SpecificHeatVolume,
		"speed_of_sound":       s.SpeedOfSound,
		"expansion":            s.Expansion,
		"compressibility":      s.Compressibility,
		"conductivity":         s.Conductivity,
		"viscosity":            s.DynamicViscosity,
		"kinematic_viscosity":  p.KinematicViscosity(),
		"prandtl":              p.Prandtl(),
	}
}

func rowSolute(in Row) (fluid.Solute, error) {
	s, ok := fluid.ParseSolute(in.Text("solute"))
	if !ok {
		return 0, fmt.Errorf("solute %q is none of %v: %w", in.Text("solute"), fluid.Solutes(), hydronics.ErrRange)
	}
	return s, nil
}

func byMass(in Row) (fluid.Liquid, error) {
	s, err := rowSolute(in)
	if err != nil {
		return fluid.Liquid{}, err
	}
	return s.ByMass(in.Num("mass_fraction"))
}

func solutionRow(l fluid.Liquid, t float64) (Row, error) {
	p, err := l.At(t)
	if err != nil {
		return nil, err
	}
	out := propertiesRow(p)
	out["density"], err = l.Density(t)
	return out, err
}

func propertiesRow(p fluid.Properties) Row {
	return Row{
		"density":             p.Density,
		"specific_heat":       p.SpecificHeat,
		"conductivity":        p.Conductivity,
		"viscosity":           p.DynamicViscosity,
		"kinematic_viscosity": p.KinematicViscosity(),
		"prandtl":             p.Prandtl(),
	}
}

// fluidExempt names the exported functions and methods of package fluid that no
// published value can check, each with the reason.
func fluidExempt() map[string]string {
	const words = "words and bookkeeping, no number to check"
	return map[string]string{
		"fluid.Water":                       "WaterAt with a fixed pressure, which a test asserts",
		"fluid.Properties.HeatCapacityRate": "a product of three numbers, which a test asserts",
		"fluid.Liquid.IsWater":              words,
		"fluid.Liquid.Solute":               words,
		"fluid.Liquid.String":               words,
		"fluid.Solute.String":               words,
		"fluid.Solutes":                     words,
		"fluid.Gas.String":                  words,
		"fluid.ParseGas":                    words,
		"fluid.Liquid.Uncertainty":          "judgement about the tables: those of the solutions take their limits from it",
		"fluid.HardnessRule.Judge":          "findings about HardnessRule.Limit, which a test asserts",
		"fluid.LimeDeposit":                 "a product with a molar mass, which a test asserts",
		"fluid.ParseSolute":                 words,
	}
}

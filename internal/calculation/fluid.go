package calculation

import (
	"fmt"
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

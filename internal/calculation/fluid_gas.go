package calculation

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
)

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
			Name:   "fluid/dissolved_gas",
			Doc:    "one gas in water at equilibrium",
			Inputs: []Column{gas, temperature, {Name: "partial_pressure", Kind: unit.Pressure, Doc: "of the gas"}},
			Outputs: []Column{
				{Name: "gas_mass", Kind: unit.Concentration},
				{Name: "gas_volume", Kind: unit.GasContent, Doc: "at 0 °C and 101325 Pa, per volume of water"},
			},
			Covers: []string{"fluid.Gas.Dissolved"},
			Row: func(in Row) (Row, error) {
				g, err := rowGas(in)
				if err != nil {
					return nil, err
				}
				d, err := g.Dissolved(in.Num("temperature"), in.Num("partial_pressure"))
				return Row{"gas_mass": d.Mass, "gas_volume": d.Volume}, err
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
			Covers: []string{"fluid.DissolvedAir"},
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

func rowGas(in Row) (fluid.Gas, error) {
	g, ok := fluid.ParseGas(in.Text("gas"))
	if !ok {
		return 0, fmt.Errorf("gas %q is not one of package fluid: %w", in.Text("gas"), hydronics.ErrRange)
	}
	return g, nil
}

package calculation

import (
	"fmt"
	"math"

	"example.com/hydronics/frost"
	"example.com/hydronics/internal/unit"
)

func frostGround() Calculation {
	return Calculation{
		Name: "frost/ground",
		Doc:  "yearly wave of temperature in undisturbed ground",
		Inputs: []Column{
			{Name: "mean_temperature", Kind: unit.Temperature},
			{Name: "surface_amplitude", Kind: unit.TemperatureDifference},
			{Name: "coldest_day", Kind: unit.Number},
			{Name: "diffusivity", Kind: unit.Diffusivity},
			{Name: "depth", Kind: unit.Length},
			{Name: "day", Kind: unit.Number},
		},
		Outputs: []Column{
			{Name: "temperature", Kind: unit.Temperature},
			{Name: "amplitude", Kind: unit.TemperatureDifference},
			{Name: "lag", Kind: unit.Time},
			{Name: "minimum", Kind: unit.Temperature},
		},
		Covers: []string{"frost.Ground.Temperature", "frost.Ground.Wave"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			g := frost.Ground{Mean: in.Num("mean_temperature"), Amplitude: in.Num("surface_amplitude"),
				ColdestDay: in.Num("coldest_day"), Diffusivity: in.Num("diffusivity")}
			t, err := g.Temperature(in.Num("depth"), in.Num("day"))
			if err != nil {
				return nil, err
			}
			w, err := g.Wave(in.Num("depth"))
			return Row{"temperature": t, "amplitude": w.Amplitude, "lag": w.Lag * 86400, "minimum": w.Minimum}, err
		},
	}
}

func frostChill() Calculation {
	return Calculation{
		Name: "frost/chill_depth",
		Doc:  "depth of an isotherm after the surface of the ground has suddenly changed, without latent heat",
		Inputs: []Column{
			{Name: "start_temperature", Kind: unit.Temperature},
			{Name: "surface_temperature", Kind: unit.Temperature},
			{Name: "isotherm", Kind: unit.Temperature},
			{Name: "diffusivity", Kind: unit.Diffusivity},
			{Name: "time", Kind: unit.Time},
		},
		Outputs: []Column{{Name: "depth", Kind: unit.Length}},
		Covers:  []string{"frost.Chill.Depth"},
		Row: func(in Row) (Row, error) {
			x, err := frost.Chill{Start: in.Num("start_temperature"), Surface: in.Num("surface_temperature"),
				Diffusivity: in.Num("diffusivity")}.Depth(in.Num("isotherm"), in.Num("time"))
			return Row{"depth": x}, err
		},
	}
}

func frostBerggren() Calculation {
	return Calculation{
		Name: "frost/berggren",
		Doc:  "factor of the modified Berggren equation for the depth of frost in soil, and its closed form",
		Inputs: []Column{
			{Name: "fusion_parameter", Kind: unit.Number},
			{Name: "thermal_ratio", Kind: unit.Number},
		},
		Outputs: []Column{
			{Name: "berggren_factor", Kind: unit.Number},
			{Name: "closed_form", Kind: unit.Number},
		},
		Covers: []string{"frost.Soil.Frost", "frost.MoistSoil"},
		Row: func(in Row) (Row, error) {
			soil, err := frost.MoistSoil(1600, 0.08, 1.7)
			if err != nil {
				return nil, err
			}
			// A winter that has the two parameters in this soil.
			below := in.Num("fusion_parameter") * soil.LatentHeat / soil.HeatCapacity
			const season = 90 * 86400
			p, err := soil.Frost(frost.Winter{Index: below * season, Surface: 1, Duration: season, Mean: in.Num("thermal_ratio") * below})
			if err != nil {
				return nil, err
			}
			if want := p.Lambda * math.Sqrt(2*1.7*below*season/soil.LatentHeat); math.Abs(p.Depth-want) > 1e-12*want {
				return nil, fmt.Errorf("depth %g m, want %g m", p.Depth, want)
			}
			return Row{"berggren_factor": p.Lambda, "closed_form": p.Closed}, nil
		},
	}
}

func frostPair() Calculation {
	both := func(name string, kind unit.Kind) []Column {
		return []Column{{Name: name + "_1", Kind: kind}, {Name: name + "_2", Kind: kind}}
	}
	inputs := []Column{
		{Name: "depth", Kind: unit.Length},
		{Name: "spacing", Kind: unit.Length},
		{Name: "soil_conductivity", Kind: unit.Conductivity},
		{Name: "ground_temperature", Kind: unit.Temperature},
	}
	inputs = append(inputs, both("diameter", unit.SmallLength)...)
	inputs = append(inputs, both("insulation_resistance", unit.LinearResistance)...)
	inputs = append(inputs, both("water_temperature", unit.Temperature)...)
	return Calculation{
		Name:    "frost/buried_pair",
		Doc:     "heat flow of two insulated tubes side by side in the ground",
		Inputs:  inputs,
		Outputs: both("heat_flow", unit.HeatPerLength),
		Covers:  []string{"frost.Pair.Flow"},
		Row: func(in Row) (Row, error) {
			two := func(name string) [2]float64 { return [2]float64{in.Num(name + "_1"), in.Num(name + "_2")} }
			q, err := frost.Pair{Depth: in.Num("depth"), Spacing: in.Num("spacing"), Conductivity: in.Num("soil_conductivity"),
				Diameter: two("diameter"), Resistance: two("insulation_resistance"), Water: two("water_temperature"),
				Ground: in.Num("ground_temperature")}.Flow()
			return Row{"heat_flow_1": q[0], "heat_flow_2": q[1]}, err
		},
	}
}

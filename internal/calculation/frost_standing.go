package calculation

import (
	"fmt"
	"math"
	"slices"

	"example.com/hydronics/frost"
	"example.com/hydronics/internal/unit"
)

// mediumInputs replace the constants of frost.Water where a source has its own.
var mediumInputs = []Column{
	{Name: "water_density", Kind: unit.Density, Optional: true},
	{Name: "water_specific_heat", Kind: unit.SpecificHeat, Optional: true},
	{Name: "water_conductivity", Kind: unit.Conductivity, Optional: true},
	{Name: "latent_heat", Kind: unit.SpecificEnergy, Optional: true},
	{Name: "ice_specific_heat", Kind: unit.SpecificHeat, Optional: true},
	{Name: "ice_conductivity", Kind: unit.Conductivity, Optional: true},
}

func mediumOf(in Row) frost.Medium {
	m := frost.Water()
	m.Density = in.NumOr("water_density", m.Density)
	m.SpecificHeat = in.NumOr("water_specific_heat", m.SpecificHeat)
	m.Conductivity = in.NumOr("water_conductivity", m.Conductivity)
	m.LatentHeat = in.NumOr("latent_heat", m.LatentHeat)
	m.IceSpecificHeat = in.NumOr("ice_specific_heat", m.IceSpecificHeat)
	m.IceConductivity = in.NumOr("ice_conductivity", m.IceConductivity)
	return m
}

// iceTimes are the columns of standing water's way to ice.
var iceTimes = []Column{
	{Name: "first_ice", Kind: unit.Time},
	{Name: "ice_10_percent", Kind: unit.Time},
	{Name: "ice_25_percent", Kind: unit.Time},
	{Name: "ice_50_percent", Kind: unit.Time},
	{Name: "ice_100_percent", Kind: unit.Time},
}

var iceFractions = map[string]float64{"ice_10_percent": 0.10, "ice_25_percent": 0.25, "ice_50_percent": 0.50, "ice_100_percent": 1}

// seconds puts a time into a row; one that never comes is left out.
func seconds(row Row, name string, t frost.Time) {
	if !t.Never {
		row[name] = t.Seconds
	}
}

func frostCooling() Calculation {
	return Calculation{
		Name: "frost/cooling",
		Doc:  "cooling time of a lump of one temperature behind one conductance",
		Inputs: []Column{
			{Name: "heat_capacity", Kind: unit.HeatCapacity},
			{Name: "conductance", Kind: unit.HeatCapacityRate},
			{Name: "start_temperature", Kind: unit.Temperature},
			{Name: "ambient_temperature", Kind: unit.Temperature},
			{Name: "target_temperature", Kind: unit.Temperature},
		},
		Outputs: []Column{
			{Name: "cooling_time", Kind: unit.Time},
			{Name: "temperature_then", Kind: unit.Temperature, Doc: "after the cooling time"},
		},
		Covers: []string{"frost.Lump.CoolingTime", "frost.Lump.CoolingTimeThrough", "frost.Lump.Temperature"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			l := frost.Lump{Bore: 0.02, Medium: frost.Water(),
				Capacity: in.Num("heat_capacity"), Resistance: 1 / in.Num("conductance")}
			start, target, ambient := in.Num("start_temperature"), in.Num("target_temperature"), in.Num("ambient_temperature")
			t, err := l.CoolingTime(start, target, ambient)
			if err != nil || t.Never {
				return Row{}, err
			}
			hours := make([]float64, int(min(t.Seconds, 1e8)/3600)+1)
			for i := range hours {
				hours[i] = ambient
			}
			through, err := l.CoolingTimeThrough(start, target, hours)
			if err != nil {
				return nil, err
			}
			if !through.Never && math.Abs(through.Seconds-t.Seconds) > 1e-6*t.Seconds {
				return nil, fmt.Errorf("hour by hour %g s, at once %g s", through.Seconds, t.Seconds)
			}
			then, err := l.Temperature(t.Seconds, start, ambient)
			return Row{"cooling_time": t.Seconds, "temperature_then": then}, err
		},
	}
}

func frostHandbook() Calculation {
	return Calculation{
		Name: "frost/handbook_cooling",
		Doc:  "time in which standing water cools to the freezing point, handbook equation",
		Inputs: []Column{
			{Name: "bore", Kind: unit.SmallLength},
			{Name: "insulation_inner_diameter", Kind: unit.SmallLength},
			{Name: "insulation_outer_diameter", Kind: unit.SmallLength},
			{Name: "insulation_conductivity", Kind: unit.Conductivity},
			{Name: "start_temperature", Kind: unit.Temperature},
			{Name: "ambient_temperature", Kind: unit.Temperature},
			{Name: "water_density", Kind: unit.Density},
			{Name: "water_specific_heat", Kind: unit.SpecificHeat},
		},
		Outputs: []Column{{Name: "time_to_freezing_point", Kind: unit.Time}},
		Covers:  []string{"frost.HandbookLump", "frost.Lump.CoolingTime"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			l, err := frost.HandbookLump(mediumOf(in), frost.Shell{Bore: in.Num("bore"),
				Inner: in.Num("insulation_inner_diameter"), Outer: in.Num("insulation_outer_diameter"),
				Conductivity: in.Num("insulation_conductivity")})
			if err != nil {
				return nil, err
			}
			t, err := l.CoolingTime(in.Num("start_temperature"), 0, in.Num("ambient_temperature"))
			row := Row{}
			seconds(row, "time_to_freezing_point", t)
			return row, err
		},
	}
}

func frostStanding() Calculation {
	return Calculation{
		Name: "frost/standing",
		Doc:  "closed forms for standing water: lumped cooling to 0 °C, then quasi-steady growth of ice",
		Inputs: append(append([]Column{
			{Name: "start_temperature", Kind: unit.Temperature},
			{Name: "ambient_temperature", Kind: unit.Temperature},
		}, sectionInputs...), mediumInputs...),
		Outputs: slices.Concat(iceTimes, []Column{
			{Name: "constant_flow_25_percent", Kind: unit.Time, Doc: "by the constant heat flow of the first moment"},
		}),
		Covers: []string{"frost.Section.Lump", "frost.Lump.FreezingTime", "frost.Lump.ConstantFlowFreezingTime",
			"frost.Section.Outside", "frost.Water"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			s, err := sectionOf(in)
			if err != nil {
				return nil, err
			}
			start, ambient := in.Num("start_temperature"), in.Num("ambient_temperature")
			l, err := s.Lump(mediumOf(in), start, frost.Air{Temperature: ambient})
			if err != nil {
				return nil, err
			}
			cool, err := l.CoolingTime(start, 0, ambient)
			if err != nil || cool.Never {
				return Row{}, err
			}
			row := Row{"first_ice": cool.Seconds}
			for name, fraction := range iceFractions {
				t, err := l.FreezingTime(fraction, ambient)
				if err != nil {
					return nil, err
				}
				row[name] = cool.Seconds + t.Seconds
			}
			t, err := l.ConstantFlowFreezingTime(0.25, ambient)
			row["constant_flow_25_percent"] = cool.Seconds + t.Seconds
			return row, err
		},
	}
}

func frostResolved() Calculation {
	return Calculation{
		Name: "frost/resolved",
		Doc:  "standing water resolved in radius and time: conduction and phase change through water, wall and insulation",
		Inputs: append(append([]Column{
			{Name: "start_temperature", Kind: unit.Temperature},
			{Name: "ambient_temperature", Kind: unit.Temperature},
			{Name: "liquid_model", Kind: unit.Text, Doc: "conduction or well_mixed"},
			{Name: "cells", Kind: unit.Numeral, Optional: true},
			{Name: "tolerance", Kind: unit.Number, Optional: true},
		}, sectionInputs...), mediumInputs...),
		Outputs: iceTimes,
		Covers:  []string{"frost.Standing.Resolve", "frost.History.IceTime"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			s, err := sectionOf(in)
			if err != nil {
				return nil, err
			}
			mixed := in.Text("liquid_model") == "well_mixed"
			if !mixed && in.Text("liquid_model") != "conduction" {
				return nil, fmt.Errorf("liquid model %q, want conduction or well_mixed", in.Text("liquid_model"))
			}
			h, err := frost.Standing{Section: s, Medium: mediumOf(in), Mixed: mixed, Start: in.Num("start_temperature"),
				Weather: []frost.Air{{Temperature: in.Num("ambient_temperature")}}, Until: 1e8,
				Cells: int(in.NumOr("cells", 0)), Tolerance: in.NumOr("tolerance", 0)}.Resolve()
			if err != nil {
				return nil, err
			}
			row := Row{}
			seconds(row, "first_ice", h.FirstIce)
			for name, fraction := range iceFractions {
				t, err := h.IceTime(fraction)
				if err != nil {
					return nil, err
				}
				seconds(row, name, t)
			}
			return row, nil
		},
	}
}

func frostCylinder() Calculation {
	return Calculation{
		Name: "frost/cylinder_cooling",
		Doc:  "a long cylinder of water without a wall cools by conduction, in dimensionless form",
		Inputs: []Column{
			{Name: "biot", Kind: unit.Number, Doc: "h R/λ"},
			{Name: "fourier", Kind: unit.Number, Doc: "a t/R²"},
			{Name: "cells", Kind: unit.Numeral, Optional: true},
			{Name: "tolerance", Kind: unit.Number, Optional: true},
		},
		Outputs: []Column{
			{Name: "theta_centre", Kind: unit.Number},
			{Name: "theta_surface", Kind: unit.Number},
			{Name: "theta_mean", Kind: unit.Number},
		},
		Covers: []string{"frost.Standing.Resolve"},
		Row: func(in Row) (Row, error) {
			m := frost.Water()
			const radius, warm, cold = 0.05, 100, 1
			until := in.Num("fourier") * radius * radius * m.Density * m.SpecificHeat / m.Conductivity
			h, err := frost.Standing{
				Section: frost.Section{Bore: 2 * radius, Surface: frost.Surface{Coefficient: in.Num("biot") * m.Conductivity / radius}},
				Medium:  m, Start: warm, Weather: []frost.Air{{Temperature: cold}}, Until: until,
				Cells: int(in.NumOr("cells", 0)), Tolerance: in.NumOr("tolerance", 0),
			}.Resolve()
			if err != nil {
				return nil, err
			}
			last := h.States[len(h.States)-1]
			theta := func(t float64) float64 { return (t - cold) / (warm - cold) }
			return Row{"theta_centre": theta(last.Centre), "theta_surface": theta(last.Wall), "theta_mean": theta(last.Mean)}, nil
		},
	}
}

func frostPlane() Calculation {
	return Calculation{
		Name: "frost/plane_ice",
		Doc:  "ice growing into deep water from a suddenly cooled plane: exact, and after Stefan",
		Inputs: append([]Column{
			{Name: "surface_temperature", Kind: unit.Temperature},
			{Name: "water_temperature", Kind: unit.Temperature},
		}, mediumInputs...),
		Outputs: []Column{
			{Name: "ice_after_1_h", Kind: unit.SmallLength},
			{Name: "ice_after_24_h", Kind: unit.SmallLength},
			{Name: "stefan_after_1_h", Kind: unit.SmallLength},
		},
		Covers: []string{"frost.NeumannDepth", "frost.StefanDepth"},
		Row: func(in Row) (Row, error) {
			m := mediumOf(in)
			surface, water := in.Num("surface_temperature"), in.Num("water_temperature")
			hour, err := frost.NeumannDepth(m, surface, water, 3600)
			if err != nil {
				return nil, err
			}
			day, err := frost.NeumannDepth(m, surface, water, 86400)
			if err != nil {
				return nil, err
			}
			stefan, err := frost.StefanDepth(m, surface, 3600)
			return Row{"ice_after_1_h": hour, "ice_after_24_h": day, "stefan_after_1_h": stefan}, err
		},
	}
}

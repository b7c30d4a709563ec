package calculation

import (
	"fmt"
	"math"
	"slices"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

// sectionInputs are the columns that describe a tube, its insulation and the
// way its surface meets the air.
var sectionInputs = []Column{
	{Name: "bore", Kind: unit.SmallLength},
	{Name: "wall", Kind: unit.SmallLength, Optional: true},
	{Name: "wall_conductivity", Kind: unit.Conductivity, Optional: true},
	{Name: "wall_heat_capacity", Kind: unit.VolumetricHeat, Optional: true},
	{Name: "insulation", Kind: unit.SmallLength, Optional: true, Doc: "thickness; absent or 0 for a bare tube"},
	{Name: "insulation_conductivity", Kind: unit.Conductivity, Optional: true},
	{Name: "insulation_heat_capacity", Kind: unit.VolumetricHeat, Optional: true},
	{Name: "film_coefficient", Kind: unit.SurfaceConduct, Optional: true, Doc: "between liquid and wall"},
	{Name: "method", Kind: unit.Text, Optional: true, Doc: "correlated, ISO 12241 or GB 50264, with emissivity; absent with surface_coefficient"},
	{Name: "surface_coefficient", Kind: unit.SurfaceConduct, Optional: true},
	{Name: "emissivity", Kind: unit.Number, Optional: true},
	{Name: "vertical", Kind: unit.Number, Optional: true, Doc: "1 for a riser"},
}

var surfaceMethods = map[string]frost.Method{
	"": frost.Given, "correlated": frost.Correlated, "ISO 12241": frost.ISO12241, "GB 50264": frost.GB50264,
}

func sectionOf(in Row) (frost.Section, error) {
	method, ok := surfaceMethods[in.Text("method")]
	if !ok {
		return frost.Section{}, fmt.Errorf("method %q, want correlated, ISO 12241 or GB 50264", in.Text("method"))
	}
	s := frost.Section{
		Bore:    in.Num("bore"),
		Film:    in.NumOr("film_coefficient", 0),
		Surface: frost.Surface{Method: method, Coefficient: in.NumOr("surface_coefficient", 0), Emissivity: in.NumOr("emissivity", 0), Vertical: in.NumOr("vertical", 0) == 1},
	}
	if w := in.NumOr("wall", 0); w != 0 {
		s.Layers = append(s.Layers, frost.Layer{Thickness: w, Conductivity: in.Num("wall_conductivity"),
			HeatCapacity: in.NumOr("wall_heat_capacity", 0)})
	}
	if w := in.NumOr("insulation", 0); w != 0 {
		s.Layers = append(s.Layers, frost.Layer{Thickness: w, Conductivity: in.Num("insulation_conductivity"),
			HeatCapacity: in.NumOr("insulation_heat_capacity", 0)})
	}
	return s, nil
}

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

// frostCalculations are the calculations of package frost in row form.
func frostCalculations() []Calculation {
	return []Calculation{
		frostHeatFlow(), frostNusselt(), frostCooling(), frostHandbook(), frostStanding(),
		frostResolved(), frostCylinder(), frostPlane(),
		frostTorricelli(), frostEmptying(), frostAlong(), frostCondensation(), frostHeld(),
		frostGround(), frostChill(), frostBerggren(), frostPair(),
	}
}

func frostHeatFlow() Calculation {
	return Calculation{
		Name: "frost/heat_flow",
		Doc:  "steady heat flow per metre of a bare or insulated tube in air",
		Inputs: append([]Column{
			{Name: "inside_temperature", Kind: unit.Temperature},
			{Name: "air_temperature", Kind: unit.Temperature},
			{Name: "wind", Kind: unit.Velocity, Optional: true},
			{Name: "infrared", Kind: unit.HeatPerArea, Optional: true, Doc: "of the sky on a level surface"},
			{Name: "air_pressure_abs", Kind: unit.AbsolutePressure, Optional: true},
		}, sectionInputs...),
		Outputs: []Column{
			{Name: "heat_flow", Kind: unit.HeatPerLength},
			{Name: "surface_temperature", Kind: unit.Temperature},
			{Name: "convective_coefficient", Kind: unit.SurfaceConduct},
			{Name: "radiative_coefficient", Kind: unit.SurfaceConduct},
		},
		Covers: []string{"frost.Section.HeatFlow"},
		Row: func(in Row) (Row, error) {
			s, err := sectionOf(in)
			if err != nil {
				return nil, err
			}
			f, err := s.HeatFlow(in.Num("inside_temperature"), frost.Air{
				Temperature: in.Num("air_temperature"),
				Wind:        in.NumOr("wind", 0),
				Infrared:    in.NumOr("infrared", 0),
				PressureAbs: in.NumOr("air_pressure_abs", 0),
			})
			return Row{"heat_flow": f.PerMetre, "surface_temperature": f.Surface,
				"convective_coefficient": f.Convective, "radiative_coefficient": f.Radiative}, err
		},
	}
}

func frostNusselt() Calculation {
	return Calculation{
		Name: "frost/cylinder_nusselt",
		Doc:  "Nusselt number of a horizontal cylinder: natural convection with a Rayleigh or Grashof number, cross flow with a Reynolds number",
		Inputs: []Column{
			{Name: "prandtl", Kind: unit.Number},
			{Name: "grashof", Kind: unit.Number, Optional: true},
			{Name: "reynolds", Kind: unit.Number, Optional: true},
		},
		Outputs: []Column{{Name: "nusselt", Kind: unit.Number}},
		Covers:  []string{"frost.NaturalConvection", "frost.CrossFlow"},
		Row: func(in Row) (Row, error) {
			var nu float64
			var err error
			if in.Has("reynolds") {
				nu, err = frost.CrossFlow(in.Num("reynolds"), in.Num("prandtl"))
			} else {
				nu, err = frost.NaturalConvection(in.Num("grashof")*in.Num("prandtl"), in.Num("prandtl"))
			}
			return Row{"nusselt": nu}, err
		},
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

func frostTorricelli() Calculation {
	return Calculation{
		Name: "frost/torricelli",
		Doc:  "time in which a water surface falls above an open valve or hole, without friction",
		Inputs: []Column{
			{Name: "surface_area", Kind: unit.Area},
			{Name: "valve_kv", Kind: unit.FlowCoefficient, Optional: true},
			{Name: "hole_area", Kind: unit.Area, Optional: true, Doc: "in place of valve_kv, with discharge_coefficient"},
			{Name: "discharge_coefficient", Kind: unit.Number, Optional: true},
			{Name: "initial_head", Kind: unit.Length},
			{Name: "final_head", Kind: unit.Length},
		},
		Outputs: []Column{{Name: "drain_time", Kind: unit.Time}},
		Covers:  []string{"frost.Torricelli", "frost.OrificeKv"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			kv := pipe.Kv(in.Num("valve_kv"))
			if !in.Has("valve_kv") {
				var err error
				if kv, err = frost.OrificeKv(in.Num("hole_area"), in.Num("discharge_coefficient")); err != nil {
					return nil, err
				}
			}
			t, err := frost.Torricelli(frost.Vessel{Area: in.Num("surface_area"), Kv: kv}, in.Num("initial_head"), in.Num("final_head"))
			return Row{"drain_time": t}, err
		},
	}
}

func frostEmptying() Calculation {
	leg := func(n string) []Column {
		optional := n != "1"
		return []Column{
			{Name: "leg_" + n + "_length", Kind: unit.Length, Optional: optional, Doc: "counted from the valve"},
			{Name: "leg_" + n + "_rise", Kind: unit.Length, Optional: optional},
		}
	}
	return Calculation{
		Name: "frost/emptying",
		Doc:  "a column of water leaves through an open drain valve at its foot, air following from above",
		Inputs: append(append([]Column{
			{Name: "bore", Kind: unit.SmallLength},
			{Name: "roughness", Kind: unit.SmallLength},
			{Name: "valve_kv", Kind: unit.FlowCoefficient},
			{Name: "final_head", Kind: unit.Length},
			{Name: "density", Kind: unit.Density},
			{Name: "dynamic_viscosity", Kind: unit.DynamicViscosity},
		}, leg("1")...), leg("2")...),
		Outputs: []Column{
			{Name: "drain_time", Kind: unit.Time},
			{Name: "drained_volume", Kind: unit.Volume},
			{Name: "initial_flow", Kind: unit.VolumeFlow},
			{Name: "stepped_time", Kind: unit.Time, Doc: "the same as a route in space, stepped in time"},
		},
		Covers: []string{"frost.Column.Empty", "frost.Reach.Empty"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			c := frost.Column{Bore: in.Num("bore"), Roughness: in.Num("roughness"), Kv: pipe.Kv(in.Num("valve_kv")), Final: in.Num("final_head"),
				Legs: []frost.Leg{{Length: in.Num("leg_1_length"), Rise: in.Num("leg_1_rise")}}}
			if in.Has("leg_2_length") {
				c.Legs = append(c.Legs, frost.Leg{Length: in.Num("leg_2_length"), Rise: in.Num("leg_2_rise")})
			}
			p := fluid.Properties{Density: in.Num("density"), DynamicViscosity: in.Num("dynamic_viscosity")}
			e, err := c.Empty(p)
			if err != nil {
				return nil, err
			}
			route := pipe.Route{{}}
			for _, l := range c.Legs {
				last := route[len(route)-1]
				route = append(route, pipe.Point{X: last.X + math.Sqrt(max(0, l.Length*l.Length-l.Rise*l.Rise)), Z: last.Z + l.Rise})
			}
			d, err := frost.Reach{Route: route, Bore: c.Bore, Roughness: c.Roughness, Drains: []frost.Drain{{Kv: c.Kv}},
				Vents: []int{len(route) - 1}, Final: c.Final}.Empty(p)
			return Row{"drain_time": e.Time, "drained_volume": e.Volume, "initial_flow": e.Flow, "stepped_time": d.Time}, err
		},
	}
}

func frostAlong() Calculation {
	return Calculation{
		Name: "frost/flowing_tube",
		Doc:  "least flow that keeps the end of a tube at a temperature, and the end temperature with that flow",
		Inputs: []Column{
			{Name: "loss_coefficient", Kind: unit.LinearConductance},
			{Name: "length", Kind: unit.Length},
			{Name: "ambient_temperature", Kind: unit.Temperature},
			{Name: "start_temperature", Kind: unit.Temperature},
			{Name: "end_temperature", Kind: unit.Temperature},
			{Name: "specific_heat", Kind: unit.SpecificHeat},
		},
		Outputs: []Column{
			{Name: "mass_flow", Kind: unit.MassFlow},
			{Name: "end_temperature_then", Kind: unit.Temperature},
		},
		Covers: []string{"frost.HeatFlow.Trickle", "frost.HeatFlow.EndTemperature"},
		Row: func(in Row) (Row, error) {
			f := frost.HeatFlow{Resistance: 1 / in.Num("loss_coefficient"), Ambient: in.Num("ambient_temperature")}
			rate, err := f.Trickle(in.Num("start_temperature"), in.Num("end_temperature"), in.Num("length"))
			if err != nil || rate == 0 {
				return Row{"mass_flow": rate}, err
			}
			end, err := f.EndTemperature(in.Num("start_temperature"), in.Num("length"), rate)
			return Row{"mass_flow": rate / in.Num("specific_heat"), "end_temperature_then": end}, err
		},
	}
}

func frostCondensation() Calculation {
	return frostThickness(Calculation{
		Name:   "frost/condensation_thickness",
		Doc:    "insulation that keeps the surface of a cold tube above the dew point",
		Inputs: []Column{{Name: "relative_humidity", Kind: unit.Number}},
		Covers: []string{"frost.Section.ThicknessForSurface", "frost.Section.ThicknessAgainstDew"},
	}, func(in Row, s frost.Section, layer int, inside float64, air frost.Air) (float64, error) {
		return s.ThicknessAgainstDew(layer, inside, in.Num("relative_humidity"), air)
	})
}

func frostHeld() Calculation {
	return frostThickness(Calculation{
		Name:   "frost/thickness_for_heat_flow",
		Doc:    "insulation with which a tube loses a given heat flow",
		Inputs: []Column{{Name: "heat_flow", Kind: unit.HeatPerLength}},
		Covers: []string{"frost.Section.ThicknessForHeatFlow"},
	}, func(in Row, s frost.Section, layer int, inside float64, air frost.Air) (float64, error) {
		return s.ThicknessForHeatFlow(layer, inside, in.Num("heat_flow"), air)
	})
}

// frostThickness completes a calculation that finds the thickness of the outermost
// layer of a tube in air.
func frostThickness(c Calculation, find func(in Row, s frost.Section, layer int, inside float64, air frost.Air) (float64, error)) Calculation {
	c.Inputs = append(append([]Column{
		{Name: "inside_temperature", Kind: unit.Temperature},
		{Name: "air_temperature", Kind: unit.Temperature},
	}, c.Inputs...), sectionInputs...)
	c.Outputs = []Column{{Name: "insulation_needed", Kind: unit.SmallLength}}
	c.Row = func(in Row) (Row, error) {
		in["insulation"] = 0.01 // a start; the thickness is what is looked for
		s, err := sectionOf(in)
		if err != nil {
			return nil, err
		}
		t, err := find(in, s, len(s.Layers)-1, in.Num("inside_temperature"), frost.Air{Temperature: in.Num("air_temperature")})
		return Row{"insulation_needed": t}, err
	}
	return c
}

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

// frostExempt names the exported functions and methods of package frost that no
// published value can check, each with the reason.
func frostExempt() map[string]string {
	const (
		words    = "a setting or a comparison, no calculation"
		history  = "reads the history that the tables check through the fraction of ice"
		judged   = "puts together resolved cooling, emptying and geometry, each checked by tables of its own; what it adds is held by property tests"
		inverted = "inverse or multiple of a calculation that tables check; property tests hold it"
		memory   = "a criterion from memory: it informs and carries no verdict"
	)
	return map[string]string{
		"frost.Time.Within":             words,
		"frost.InTheOpen":               words,
		"frost.CommonDoubts":            words,
		"frost.CommonSetting":           words,
		"frost.CommonRules":             words,
		"frost.Outcome.Kept":            words,
		"frost.History.MeanTime":        history,
		"frost.History.Slushed":         history,
		"frost.Night.Run":               judged,
		"frost.Night.Worst":             judged,
		"frost.Night.Findings":          judged,
		"frost.Night.Remedies":          judged,
		"frost.Night.Instead":           judged,
		"frost.Arrangement.Findings":    judged,
		"frost.Reach.Cases":             judged,
		"frost.AntifreezeFor":           judged,
		"frost.BurstProtectionFor":      judged,
		"frost.Section.TracePower":      inverted,
		"frost.Section.ThicknessToHold": inverted,
		"frost.BubbleSpeed":             memory,
	}
}

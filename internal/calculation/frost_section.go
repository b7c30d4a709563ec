package calculation

import (
	"fmt"

	"example.com/hydronics/frost"
	"example.com/hydronics/internal/unit"
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

package calculation

import (
	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
)

// reliefCalculations are those of package expansion about relief valves and
// blocked sections.
func reliefCalculations() []Calculation {
	return []Calculation{
		{
			Name: "expansion/gas-relief",
			Doc:  "flow area for a mass flow of gas, ideal nozzle with a discharge coefficient",
			Inputs: []Column{
				{Name: "mass_flow", Kind: unit.MassFlow},
				{Name: "pressure_abs", Kind: unit.AbsolutePressure},
				{Name: "back_abs", Kind: unit.AbsolutePressure},
				{Name: "temperature", Kind: unit.Temperature},
				{Name: "molar_mass", Kind: unit.MolarMass},
				{Name: "compressibility_factor", Kind: unit.Number},
				{Name: "exponent", Kind: unit.Number},
				{Name: "coefficient", Kind: unit.Number},
			},
			Outputs: []Column{{Name: "area", Kind: unit.Area}},
			Covers:  []string{"expansion.Gas.Flux"},
			Safety:  true,
			Row: func(in Row) (Row, error) {
				p := in.Num("pressure_abs")
				v := in.Num("compressibility_factor") * hydronics.GasConstant * (in.Num("temperature") + hydronics.ZeroCelsius) / (in.Num("molar_mass") * p)
				f, err := expansion.Gas{PressureAbs: p, SpecificVolume: v, Exponent: in.Num("exponent")}.Flux(in.Num("back_abs"))
				if err != nil {
					return nil, err
				}
				return Row{"area": in.Num("mass_flow") / (in.Num("coefficient") * f.Mass)}, nil
			},
		},
		{
			Name: "expansion/steam-relief",
			Doc:  "steam discharge of a relief valve per flow area, discharge coefficient 1",
			Inputs: []Column{
				{Name: "set", Kind: unit.GaugePressure},
				{Name: "overpressure", Kind: unit.Number},
				{Name: "atmosphere", Kind: unit.AbsolutePressure, Optional: true},
			},
			Outputs: []Column{
				{Name: "pressure_abs", Kind: unit.AbsolutePressure},
				{Name: "boiling", Kind: unit.Temperature},
				{Name: "latent_heat", Kind: unit.SpecificEnergy},
				{Name: "mass_flux", Kind: unit.MassFlux},
				{Name: "equilibrium_flux", Kind: unit.MassFlux, Doc: "by the equilibrium nozzle"},
				{Name: "heat_flux", Kind: unit.HeatPerArea},
			},
			Covers: []string{"expansion.Valve.Steam", "expansion.SteamFlux", "expansion.EquilibriumSteamFlux"},
			Safety: true,
			Row:    steamReliefRow,
		},
		{
			Name: "expansion/viscosity-factor",
			Doc:  "viscosity correction of a liquid relief flow after API 520",
			Inputs: []Column{
				{Name: "reynolds", Kind: unit.Number},
				{Name: "edition", Kind: unit.Number},
			},
			Outputs: []Column{{Name: "factor", Kind: unit.Number}},
			Covers:  []string{"expansion.ViscosityFactor"},
			Row: func(in Row) (Row, error) {
				f, err := viscosityFactor(in)
				return Row{"factor": f}, err
			},
		},
		{
			Name: "expansion/liquid-relief",
			Doc:  "flow area for a volume flow of liquid, and the flow of that valve",
			Inputs: []Column{
				{Name: "volume_flow", Kind: unit.VolumeFlow},
				{Name: "density", Kind: unit.Density},
				{Name: "viscosity", Kind: unit.DynamicViscosity},
				{Name: "set", Kind: unit.GaugePressure},
				{Name: "overpressure", Kind: unit.Number},
				{Name: "back", Kind: unit.GaugePressure},
				{Name: "coefficient", Kind: unit.Number},
				{Name: "reynolds", Kind: unit.Number, Optional: true, Doc: "for the correction of the area; none if left out"},
				{Name: "edition", Kind: unit.Number, Optional: true},
				{Name: "printed_area", Kind: unit.Area, Optional: true, Doc: "of a valve whose own flow is wanted"},
			},
			Outputs: []Column{
				{Name: "area", Kind: unit.Area},
				{Name: "valve_flow", Kind: unit.VolumeFlow, Doc: "of the valve with the printed area"},
			},
			Covers: []string{"expansion.LiquidFlux", "expansion.Valve.Liquid"},
			Safety: true,
			Row:    liquidReliefRow,
		},
		{
			Name: "expansion/thermal-relief",
			Doc:  "flow out of a blocked section that is warmed",
			Inputs: []Column{
				{Name: "cold", Kind: unit.Temperature},
				{Name: "hot", Kind: unit.Temperature},
				{Name: "cold_density", Kind: unit.Density},
				{Name: "hot_density", Kind: unit.Density},
				{Name: "specific_heat", Kind: unit.SpecificHeat},
				{Name: "heat", Kind: unit.Power},
			},
			Outputs: []Column{
				{Name: "coefficient", Kind: unit.PerTemperature},
				{Name: "mass_flow", Kind: unit.MassFlow},
			},
			Covers: []string{"expansion.Warming.Coefficient", "expansion.Warming.Relief"},
			Safety: true,
			Row: func(in Row) (Row, error) {
				w := expansion.Warming{Cold: in.Num("cold"), Hot: in.Num("hot"), ColdDensity: in.Num("cold_density"), HotDensity: in.Num("hot_density")}
				b, err := w.Coefficient()
				if err != nil {
					return nil, err
				}
				q, err := w.Relief(in.Num("heat"), in.Num("specific_heat"))
				return Row{"coefficient": b, "mass_flow": q}, err
			},
		},
		{
			Name: "expansion/blocked",
			Doc:  "pressure of water shut in and warmed",
			Inputs: []Column{
				{Name: "cold", Kind: unit.Temperature},
				{Name: "pressure", Kind: unit.GaugePressure},
				{Name: "hot", Kind: unit.Temperature},
				{Name: "bore", Kind: unit.SmallLength, Optional: true},
				{Name: "wall", Kind: unit.SmallLength, Optional: true},
				{Name: "modulus", Kind: unit.Modulus, Optional: true},
				{Name: "poisson", Kind: unit.Number, Optional: true},
				{Name: "wall_expansion", Kind: unit.PerTemperature, Optional: true},
			},
			Outputs: []Column{
				{Name: "pressure_hot", Kind: unit.GaugePressure},
				{Name: "per_kelvin", Kind: unit.PressurePerTemp},
			},
			Covers: []string{"expansion.Section.PressureAt", "expansion.Section.PerKelvin"},
			Safety: true,
			Row:    blockedRow,
		},
		{
			Name:   "expansion/relief-size",
			Doc:    "nominal size of a heating relief valve by heat output, from memory",
			Inputs: []Column{{Name: "heat", Kind: unit.Power}},
			Outputs: []Column{
				{Name: "dn", Kind: unit.Number},
				{Name: "outlet_dn", Kind: unit.Number},
			},
			Covers: []string{"expansion.ReliefSizeFor", "expansion.ReliefSizes"},
			Safety: true,
			Row: func(in Row) (Row, error) {
				s, err := expansion.ReliefSizeFor(in.Num("heat"))
				return Row{"dn": float64(s.DN), "outlet_dn": float64(s.OutletDN)}, err
			},
		},
	}
}

func steamReliefRow(in Row) (Row, error) {
	const area, coefficient = 1e-4, 0.5 // only their product counts, and it is divided out
	v := expansion.Valve{Set: hydronics.Gauge(in.Num("set")), Area: area, Coefficient: coefficient, Overpressure: in.Num("overpressure")}
	r, err := v.Steam(0, in.NumOr("atmosphere", 0))
	if err != nil {
		return nil, err
	}
	plain, err := expansion.SteamFlux(r.PressureAbs, 0)
	if err != nil {
		return nil, err
	}
	equilibrium, err := expansion.EquilibriumSteamFlux(r.PressureAbs, 0)
	if err != nil {
		return nil, err
	}
	return Row{"pressure_abs": r.PressureAbs, "boiling": r.Temperature, "latent_heat": r.LatentHeat,
		"mass_flux": plain.Mass, "equilibrium_flux": equilibrium.Mass, "heat_flux": r.Heat / (area * coefficient)}, nil
}

func viscosityFactor(in Row) (float64, error) {
	edition := expansion.APIEdition(0)
	switch in.Num("edition") {
	case 7:
		edition = expansion.API520Edition7
	case 10:
		edition = expansion.API520Edition10
	}
	return expansion.ViscosityFactor(in.Num("reynolds"), edition)
}

func liquidReliefRow(in Row) (Row, error) {
	rho, c := in.Num("density"), in.Num("coefficient")
	set, back := in.Num("set"), in.Num("back")
	const patm = hydronics.StandardAtmosphere
	g, err := expansion.LiquidFlux(set*(1+in.Num("overpressure"))+patm, back+patm, rho)
	if err != nil {
		return nil, err
	}
	kv := 1.0
	if in.Has("reynolds") {
		if kv, err = viscosityFactor(in); err != nil {
			return nil, err
		}
	}
	out := Row{"area": in.Num("volume_flow") * rho / (c * kv * g)}
	if in.Has("printed_area") {
		v := expansion.Valve{Set: hydronics.Gauge(set), Area: in.Num("printed_area"), LiquidCoefficient: c, Overpressure: in.Num("overpressure")}
		r, err := v.Liquid(fluid.Properties{Density: rho, DynamicViscosity: in.Num("viscosity")}, hydronics.Gauge(back))
		if err != nil {
			return nil, err
		}
		out["valve_flow"] = r.VolumeFlow
	}
	return out, nil
}

func blockedRow(in Row) (Row, error) {
	s := expansion.Section{Temperature: in.Num("cold"), Pressure: hydronics.Gauge(in.Num("pressure")),
		Bore: in.NumOr("bore", 0), Wall: in.NumOr("wall", 0), Modulus: in.NumOr("modulus", 0),
		Poisson: in.NumOr("poisson", 0), Expansion: in.NumOr("wall_expansion", 0)}
	p, err := s.PressureAt(in.Num("hot"))
	if err != nil {
		return nil, err
	}
	slope, err := s.PerKelvin()
	if err != nil {
		return nil, err
	}
	return Row{"pressure_hot": float64(p), "per_kelvin": slope}, nil
}

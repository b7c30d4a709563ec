package calculation

import (
	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
)

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

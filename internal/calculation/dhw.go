package calculation

import (
	"fmt"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/internal/unit"
)

// dhwCalculations are the calculations of package dhw in row form.
func dhwCalculations() []Calculation {
	return slices.Concat([]Calculation{
		dhwMixing(), dhwEquivalent(), dhwReheat(), dhwCooling(), dhwCoil(), dhwEffectiveness(),
		dhwReliefValve(), dhwSupplyLimit(), dhwDischarge(), dhwDischargeSize(),
	}, dhwDemandCalculations(), dhwPipeCalculations(), dhwRuleCalculations())
}

// dhwExempt names the exported functions and methods of package dhw that no
// published value can check, each with the reason.
func dhwExempt() map[string]string {
	const (
		words     = "words and bookkeeping, no number to check"
		judged    = "comparisons with limits, held by tests of each limit"
		catalogue = "the catalogue itself"
	)
	return map[string]string{
		"dhw.Arrangement.String":        words,
		"dhw.Outlet.String":             words,
		"dhw.ParseOutlet":               words,
		"dhw.Rulebook.String":           words,
		"dhw.Rulebook.Jurisdiction":     words,
		"dhw.Rulebook.Withdrawn":        words,
		"dhw.ReliefValves":              catalogue,
		"dhw.SetPressure.Findings":      judged,
		"dhw.SetPressure.Supply":        "choice between two inputs",
		"dhw.SetPressure.Vessel":        "passes on to expansion.Potable.Size",
		"dhw.Day.Worst":                 "choice between days of dhw.Day.Run, held by a test against them",
		"dhw.DayResult.Missing":         "a figure of dhw.Day.Run, which tables check, without its rounding",
		"dhw.Draw.Wanted":               "choice between two inputs",
		"dhw.LoadProfiles":              words,
		"dhw.Requirement":               catalogue,
		"dhw.ResidentialPeak":           catalogue,
		"dhw.PeakCurve.Peak":            "sums and choices before the checked curve, held by tests",
		"dhw.DrawPoints":                catalogue,
		"dhw.LoadingPoints":             catalogue,
		"dhw.LoadingMaterials":          words,
		"dhw.LoadingTubes":              catalogue,
		"dhw.LoadingSection.Tube":       "look-up in the catalogue, held by tests of its order",
		"dhw.Device.String":             words,
		"dhw.ParseDevice":               words,
		"dhw.Point.String":              words,
		"dhw.Feed.Findings":             judged,
		"dhw.Overheating.Findings":      judged,
		"dhw.Funnel.Findings":           judged,
		"dhw.OpenEnd.Findings":          judged,
		"dhw.PressureBudget.Finding":    judged,
		"dhw.Rulebook.TemperatureRules": catalogue,
		"dhw.TemperatureRule.Source":    words,
		"dhw.Circulation.Findings":      judged,
		"dhw.SeldomUsed.Findings":       judged,
		"dhw.ScaldTimes":                catalogue,
		"dhw.Tundish.Findings":          judged,
		"dhw.LossCoefficient":           "division by the test's temperature difference",
		"dhw.VolumetricHeat":            "product of two checked properties of water",
	}
}

var (
	coldColumn    = Column{Name: "cold", Kind: unit.Temperature, Doc: "cold water"}
	ambientColumn = Column{Name: "ambient", Kind: unit.Temperature, Doc: "air around the cylinder"}
	volumeColumn  = Column{Name: "volume", Kind: unit.Volume, Doc: "content of the cylinder"}
	heatColumn    = Column{Name: "volumetric_heat", Kind: unit.VolumetricHeat, Doc: "ρ·c of the water"}
)

func dhwMixing() Calculation {
	return Calculation{
		Name: "dhw/mixing",
		Doc:  "hot and cold water in a mixed amount",
		Inputs: []Column{
			{Name: "mixed_amount", Kind: unit.Number, Doc: "volume or flow, in any unit"},
			{Name: "mixed", Kind: unit.Temperature}, {Name: "hot", Kind: unit.Temperature}, coldColumn,
		},
		Outputs: []Column{
			{Name: "hot_amount", Kind: unit.Number, Doc: "in the unit of mixed_amount"},
			{Name: "cold_amount", Kind: unit.Number, Doc: "in the unit of mixed_amount"},
		},
		Covers: []string{"dhw.HotShare"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			share, err := dhw.HotShare(in.Num("cold"), in.Num("mixed"), in.Num("hot"))
			amount := in.Num("mixed_amount")
			return Row{"hot_amount": amount * share, "cold_amount": amount * (1 - share)}, err
		},
	}
}

func dhwEquivalent() Calculation {
	return Calculation{
		Name: "dhw/equivalent_volume",
		Doc:  "volume that carries the same heat at another temperature",
		Inputs: []Column{
			volumeColumn, {Name: "temperature", Kind: unit.Temperature},
			{Name: "other", Kind: unit.Temperature, Doc: "temperature asked for"}, coldColumn,
		},
		Outputs: []Column{{Name: "equivalent_volume", Kind: unit.Volume}},
		Covers:  []string{"dhw.Amount.At"},
		Row: func(in Row) (Row, error) {
			a, err := dhw.Amount{Volume: in.Num("volume"), Temperature: in.Num("temperature")}.At(in.Num("other"), in.Num("cold"))
			return Row{"equivalent_volume": a.Volume}, err
		},
	}
}

func dhwReheat() Calculation {
	return Calculation{
		Name: "dhw/reheat",
		Doc:  "time and heat to warm a mixed cylinder by a power that is constant or falls in a straight line",
		Inputs: []Column{
			volumeColumn, heatColumn,
			{Name: "start", Kind: unit.Temperature}, {Name: "end", Kind: unit.Temperature},
			{Name: "power", Kind: unit.Power, Doc: "at the start"},
			{Name: "power_end", Kind: unit.Power, Optional: true, Doc: "at the end; the same where missing"},
			{Name: "loss_coefficient", Kind: unit.HeatCapacityRate, Optional: true, Doc: "none where missing"},
			{Name: "ambient", Kind: unit.Temperature, Optional: true, Doc: "20 °C where missing"},
		},
		Outputs: []Column{
			{Name: "time", Kind: unit.Time},
			{Name: "supplied", Kind: unit.Energy, Doc: "heat from the source"},
			{Name: "stored", Kind: unit.Energy, Doc: "heat gained by the water"},
			{Name: "lost", Kind: unit.Energy, Doc: "standing loss meanwhile"},
		},
		Covers: []string{"dhw.Cylinder.Reheat"},
		Row: func(in Row) (Row, error) {
			c := dhw.Cylinder{Volume: in.Num("volume"), Nodes: 1, VolumetricHeat: in.Num("volumetric_heat"), LossCoefficient: in.NumOr("loss_coefficient", 0)}
			from, to, power := in.Num("start"), in.Num("end"), in.Num("power")
			h := dhw.Heater{{Power: power}}
			if in.Has("power_end") {
				h = dhw.Heater{{Store: from, Power: power}, {Store: to, Power: in.Num("power_end")}}
			}
			r, err := c.Reheat(h, from, to, in.NumOr("ambient", 20))
			return Row{"time": r.Time, "supplied": r.Supplied, "stored": r.Stored, "lost": r.Lost}, err
		},
	}
}

func dhwCooling() Calculation {
	return Calculation{
		Name: "dhw/cooling",
		Doc:  "temperature of an idle cylinder",
		Inputs: []Column{
			volumeColumn, heatColumn, {Name: "start", Kind: unit.Temperature},
			{Name: "loss_coefficient", Kind: unit.HeatCapacityRate},
			ambientColumn, {Name: "time", Kind: unit.Time},
		},
		Outputs: []Column{
			{Name: "end", Kind: unit.Temperature},
			{Name: "lost", Kind: unit.Energy},
		},
		Covers: []string{"dhw.Cylinder.Cool"},
		Row: func(in Row) (Row, error) {
			c := dhw.Cylinder{Volume: in.Num("volume"), Nodes: 1, VolumetricHeat: in.Num("volumetric_heat"), LossCoefficient: in.Num("loss_coefficient")}
			r, err := c.Cool(in.Num("start"), in.Num("ambient"), in.Num("time"))
			return Row{"end": r.Temperature, "lost": r.Lost}, err
		},
	}
}

func dhwCoil() Calculation {
	return Calculation{
		Name: "dhw/coil",
		Doc:  "mixed cylinder warmed through a coil of constant primary inlet temperature",
		Inputs: []Column{
			volumeColumn, heatColumn,
			{Name: "start", Kind: unit.Temperature}, {Name: "end", Kind: unit.Temperature},
			{Name: "primary_inlet", Kind: unit.Temperature},
			{Name: "primary_flow", Kind: unit.MassFlow}, {Name: "primary_specific_heat", Kind: unit.SpecificHeat},
			{Name: "transmittance", Kind: unit.HeatCapacityRate, Doc: "UA of the coil"},
		},
		Outputs: []Column{
			{Name: "effectiveness", Kind: unit.Number}, {Name: "time", Kind: unit.Time},
			{Name: "power_start", Kind: unit.Power}, {Name: "power_end", Kind: unit.Power},
		},
		Covers: []string{"dhw.Coil.Effectiveness", "dhw.Coil.Heater"},
		Row: func(in Row) (Row, error) {
			coil := dhw.Coil{Transmittance: in.Num("transmittance"), Inlet: in.Num("primary_inlet"),
				CapacityRate: in.Num("primary_flow") * in.Num("primary_specific_heat")}
			e, err := coil.Effectiveness()
			if err != nil {
				return nil, err
			}
			h, err := coil.Heater()
			if err != nil {
				return nil, err
			}
			c := dhw.Cylinder{Volume: in.Num("volume"), Nodes: 1, VolumetricHeat: in.Num("volumetric_heat")}
			r, err := c.Reheat(h, in.Num("start"), in.Num("end"), 20)
			at := func(t float64) float64 { return h[0].Power * (1 - t/h[1].Store) }
			return Row{"effectiveness": e, "time": r.Time, "power_start": at(in.Num("start")), "power_end": at(in.Num("end"))}, err
		},
	}
}

func dhwEffectiveness() Calculation {
	return Calculation{
		Name: "dhw/effectiveness",
		Doc:  "effectiveness of a heat exchanger from its number of transfer units",
		Inputs: []Column{
			{Name: "arrangement", Kind: unit.Text, Doc: "isothermal, counterflow or parallel"},
			{Name: "ntu", Kind: unit.Number}, {Name: "capacity_ratio", Kind: unit.Number},
		},
		Outputs: []Column{{Name: "effectiveness", Kind: unit.Number}},
		Covers:  []string{"dhw.Effectiveness"},
		Row: func(in Row) (Row, error) {
			arrangement := dhw.Arrangement(0)
			for a := dhw.Isothermal; a <= dhw.Parallel; a++ {
				if a.String() == in.Text("arrangement") {
					arrangement = a
				}
			}
			e, err := dhw.Effectiveness(arrangement, in.Num("ntu"), in.Num("capacity_ratio"))
			return Row{"effectiveness": e}, err
		},
	}
}

func dhwReliefValve() Calculation {
	return Calculation{
		Name:   "dhw/relief_valve",
		Doc:    "relief valve of a closed cylinder by content and heat input",
		Inputs: []Column{volumeColumn, {Name: "heat_input", Kind: unit.Power}},
		Outputs: []Column{
			{Name: "nominal_size", Kind: unit.SmallLength}, {Name: "bore", Kind: unit.SmallLength, Doc: "least flow diameter"},
		},
		Covers: []string{"dhw.ReliefValveFor"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			v, err := dhw.ReliefValveFor(in.Num("volume"), in.Num("heat_input"))
			return Row{"nominal_size": float64(v.DN) * hydronics.Millimetre, "bore": v.Bore}, err
		},
	}
}

func dhwSupplyLimit() Calculation {
	return Calculation{
		Name: "dhw/supply_limit",
		Doc:  "highest cold water pressure for a relief valve's setting",
		Inputs: []Column{
			{Name: "rulebook", Kind: unit.Text, Doc: "DIN 1988-200, DIN 1988-2 or Austria"},
			{Name: "relief_set", Kind: unit.GaugePressure},
		},
		Outputs: []Column{{Name: "max_supply", Kind: unit.GaugePressure}},
		Covers:  []string{"dhw.SupplyRule.MaxSupply", "dhw.Rulebook.SupplyRule"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			books := map[string]dhw.Rulebook{"DIN 1988-200": dhw.DIN1988Part200, "DIN 1988-2": dhw.DIN1988Part2, "Austria": dhw.AustrianPractice}
			rule, ok := books[in.Text("rulebook")].SupplyRule()
			if !ok {
				return nil, fmt.Errorf("dhw/supply_limit: rulebook %q has no rule, want DIN 1988-200, DIN 1988-2 or Austria: %w", in.Text("rulebook"), hydronics.ErrRange)
			}
			p, err := rule.MaxSupply(hydronics.Gauge(in.Num("relief_set")))
			return Row{"max_supply": float64(p)}, err
		},
	}
}

var dischargeColumns = []Column{
	{Name: "valve_outlet", Kind: unit.Text, Doc: "G1/2, G3/4 or G1"},
	{Name: "straight_length", Kind: unit.Length, Doc: "after the tundish"},
	{Name: "bends", Kind: unit.Numeral, Doc: "elbows and bends after the tundish"},
}

func dischargeInput(in Row) (dhw.Outlet, dhw.Straight, error) {
	outlet, ok := dhw.ParseOutlet(in.Text("valve_outlet"))
	if !ok {
		return 0, dhw.Straight{}, fmt.Errorf("valve outlet %q, want G1/2, G3/4 or G1: %w", in.Text("valve_outlet"), hydronics.ErrRange)
	}
	bends := in.Num("bends")
	if err := hydronics.Within("dhw/discharge", "number of bends", "", bends, 0, 100, hydronics.Guard); err != nil {
		return 0, dhw.Straight{}, err
	}
	return outlet, dhw.Straight{Length: in.Num("straight_length"), Bends: int(bends)}, nil
}

func dhwDischarge() Calculation {
	return Calculation{
		Name:   "dhw/discharge",
		Doc:    "resistance of a discharge pipe after Approved Document G",
		Inputs: append(dischargeColumns[:3:3], Column{Name: "d2", Kind: unit.SmallLength, Doc: "outside diameter of the copper tube"}),
		Outputs: []Column{
			{Name: "min_d1", Kind: unit.SmallLength}, {Name: "bend_resistance", Kind: unit.Length, Doc: "of one bend"},
			{Name: "resistance", Kind: unit.Length}, {Name: "max_resistance", Kind: unit.Length},
			{Name: "acceptable", Kind: unit.Numeral, Doc: "1 or 0"},
		},
		Covers: []string{"dhw.DischargeResistance"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			outlet, run, err := dischargeInput(in)
			if err != nil {
				return nil, err
			}
			p, err := dhw.DischargeResistance(outlet, in.Num("d2"), run)
			ok := 0.0
			if p.Resistance <= p.MaxResistance {
				ok = 1
			}
			return Row{"min_d1": p.D1, "bend_resistance": p.PerBend, "resistance": p.Resistance,
				"max_resistance": p.MaxResistance, "acceptable": ok}, err
		},
	}
}

func dhwDischargeSize() Calculation {
	return Calculation{
		Name:    "dhw/discharge_size",
		Doc:     "smallest discharge pipe after Approved Document G",
		Inputs:  dischargeColumns,
		Outputs: []Column{{Name: "d2", Kind: unit.SmallLength}, {Name: "resistance", Kind: unit.Length}},
		Covers:  []string{"dhw.SizeDischarge"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			outlet, run, err := dischargeInput(in)
			if err != nil {
				return nil, err
			}
			p, err := dhw.SizeDischarge(outlet, run)
			return Row{"d2": p.D2, "resistance": p.Resistance}, err
		},
	}
}

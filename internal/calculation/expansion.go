package calculation

import (
	"fmt"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
)

// expansionCalculations are the calculations of package expansion in row form.
func expansionCalculations() []Calculation {
	return slices.Concat(vesselCalculations(), reliefCalculations(), rulesCalculations())
}

func vesselCalculations() []Calculation {
	return []Calculation{
		{
			Name: "expansion/volume",
			Doc:  "expansion of a liquid between two temperatures, as a share and as a volume",
			Inputs: append([]Column{
				{Name: "cold", Kind: unit.Temperature},
				{Name: "hot", Kind: unit.Temperature},
				{Name: "method", Kind: unit.Text, Optional: true, Doc: "hot volume if left out"},
				{Name: "content", Kind: unit.Volume, Optional: true},
			}, liquidInputs...),
			Outputs: []Column{
				{Name: "expansion", Kind: unit.Number},
				{Name: "expansion_volume", Kind: unit.Volume},
				{Name: "ratio", Kind: unit.Number, Doc: "hot volume over cold volume"},
			},
			Covers: []string{"expansion.Method.Fraction"},
			Row: func(in Row) (Row, error) {
				l, err := rowLiquid(in)
				if err != nil {
					return nil, err
				}
				m, err := rowMethod(in.Text("method"))
				if err != nil {
					return nil, err
				}
				f, err := m.Fraction(l, in.Num("cold"), in.Num("hot"))
				out := Row{"expansion": f, "ratio": 1 + f}
				if in.Has("content") {
					out["expansion_volume"] = f * in.Num("content")
				}
				return out, err
			},
		},
		{
			Name: "expansion/demand",
			Doc:  "least nominal volume from volumes and pressures",
			Inputs: []Column{
				{Name: "expansion_volume", Kind: unit.Volume, Optional: true},
				{Name: "content", Kind: unit.Volume, Optional: true, Doc: "with expansion, in place of expansion_volume"},
				{Name: "expansion", Kind: unit.Number, Optional: true},
				{Name: "reserve", Kind: unit.Volume, Optional: true},
				{Name: "precharge", Kind: unit.GaugePressure},
				{Name: "filling", Kind: unit.GaugePressure, Optional: true},
				{Name: "final", Kind: unit.GaugePressure, Optional: true},
				{Name: "relief_set", Kind: unit.GaugePressure, Optional: true, Doc: "with final_below, in place of final"},
				{Name: "final_below", Kind: unit.Pressure, Optional: true},
				{Name: "atmosphere", Kind: unit.AbsolutePressure},
				{Name: "nominal", Kind: unit.Volume, Optional: true, Doc: "an existing vessel, for its pressure"},
			},
			Outputs: []Column{
				{Name: "least_nominal", Kind: unit.Volume},
				{Name: "usual_nominal", Kind: unit.Volume, Doc: "next of the usual sizes"},
				{Name: "pressure", Kind: unit.GaugePressure, Doc: "in the existing vessel, hot"},
			},
			Covers: []string{"expansion.Demand.Nominal", "expansion.Demand.PressureIn", "expansion.Series.AtLeast"},
			Safety: true,
			Row:    demandRow,
		},
		{
			Name: "expansion/size",
			Doc:  "vessel of a closed system after named rules",
			Inputs: append([]Column{
				{Name: "precharge_floor", Kind: unit.GaugePressure, Optional: true},
				{Name: "filling_floor", Kind: unit.GaugePressure, Optional: true},
				{Name: "final_below", Kind: unit.Pressure, Optional: true},
			}, systemInputs()...),
			Outputs: []Column{
				{Name: "least_nominal", Kind: unit.Volume},
				{Name: "least_precharge", Kind: unit.GaugePressure},
				{Name: "final", Kind: unit.GaugePressure},
				{Name: "expansion_volume", Kind: unit.Volume},
				{Name: "contraction", Kind: unit.Volume},
				{Name: "reserve", Kind: unit.Volume},
				{Name: "acceptance", Kind: unit.Number, Doc: "share of the vessel that can take water"},
				{Name: "start", Kind: unit.GaugePressure, Doc: "filling pressure that uses the vessel up"},
			},
			Covers: []string{"expansion.System.Size"},
			Safety: true,
			Row: func(in Row) (Row, error) {
				s, err := rowSystem(in)
				if err != nil {
					return nil, err
				}
				own := hydronics.Source{Text: "the row"}
				if in.Has("precharge_floor") {
					s.Rules.PrechargeOverStatic.Value = 0
					s.Rules.PrechargeFloor = expansion.Setting{Value: in.Num("precharge_floor"), Source: own}
				}
				if in.Has("filling_floor") {
					s.Rules.FillingFloor = expansion.Setting{Value: in.Num("filling_floor"), Source: own}
				}
				if in.Has("final_below") {
					s.Rules.FinalBelowShare.Value = 0
					s.Rules.FinalBelow = expansion.Setting{Value: in.Num("final_below"), Source: own}
				}
				z, err := s.Size()
				if err != nil {
					return nil, err
				}
				return Row{"least_nominal": z.Nominal, "least_precharge": float64(z.Precharge), "final": float64(z.Final),
					"expansion_volume": z.Expansion, "contraction": z.Contraction, "reserve": z.Reserve,
					"acceptance": z.Acceptance, "start": float64(z.Filling)}, nil
			},
		},
		{
			Name: "expansion/course",
			Doc:  "pressure of a filled system at a temperature, and the window of filling pressures there",
			Inputs: append([]Column{
				{Name: "nominal", Kind: unit.Volume},
				{Name: "precharge", Kind: unit.GaugePressure},
				{Name: "filling", Kind: unit.GaugePressure},
				{Name: "temperature", Kind: unit.Temperature},
			}, systemInputs()...),
			Outputs: []Column{
				{Name: "pressure", Kind: unit.GaugePressure},
				{Name: "pressure_n12", Kind: unit.GaugePressure, Doc: "polytropic exponent 1.2"},
				{Name: "pressure_n14", Kind: unit.GaugePressure, Doc: "polytropic exponent 1.4"},
				{Name: "gas", Kind: unit.Volume},
				{Name: "expansion_volume", Kind: unit.Volume, Doc: "since filling"},
				{Name: "least_filling", Kind: unit.GaugePressure},
				{Name: "most_filling", Kind: unit.GaugePressure},
				{Name: "water", Kind: unit.Volume, Doc: "in the vessel"},
				{Name: "quantity", Kind: unit.Volume, Doc: "to fill the system"},
			},
			Covers: []string{"expansion.System.Course", "expansion.Course.At", "expansion.Course.Polytropic", "expansion.Course.Quantity",
				"expansion.System.Window", "expansion.System.Settings"},
			Safety: true,
			Row:    courseRow,
		},
		{
			Name: "expansion/cycle",
			Doc:  "one heating-up and cooling-down with the relief valve in play",
			Inputs: append([]Column{
				{Name: "nominal", Kind: unit.Volume},
				{Name: "precharge", Kind: unit.GaugePressure},
				{Name: "filling", Kind: unit.GaugePressure},
			}, systemInputs()...),
			Outputs: []Column{
				{Name: "lifts_at", Kind: unit.Temperature, Doc: "left out if the valve stays shut"},
				{Name: "lost", Kind: unit.Volume},
				{Name: "pressure_hot", Kind: unit.GaugePressure},
				{Name: "pressure_filling", Kind: unit.GaugePressure, Doc: "back at the filling temperature"},
				{Name: "pressure_coldest", Kind: unit.GaugePressure},
			},
			Covers: []string{"expansion.Course.Cycle", "expansion.Course.Drained"},
			Safety: true,
			Row:    cycleRow,
		},
		{
			Name: "expansion/leakage",
			Doc:  "liquid lost between two readings of pressure and temperature",
			Inputs: append([]Column{
				{Name: "nominal", Kind: unit.Volume},
				{Name: "precharge", Kind: unit.GaugePressure},
				{Name: "first_pressure", Kind: unit.GaugePressure},
				{Name: "first", Kind: unit.Temperature},
				{Name: "second_pressure", Kind: unit.GaugePressure},
				{Name: "second", Kind: unit.Temperature},
				{Name: "interval", Kind: unit.Time},
				{Name: "pressure_uncertainty", Kind: unit.Pressure, Optional: true},
				{Name: "temperature_uncertainty", Kind: unit.TemperatureDifference, Optional: true},
			}, systemInputs()...),
			Outputs: []Column{
				{Name: "lost", Kind: unit.Volume},
				{Name: "uncertainty", Kind: unit.Volume},
				{Name: "rate", Kind: unit.VolumeFlow},
				{Name: "equivalent_precharge", Kind: unit.GaugePressure, Doc: "if gas was lost instead"},
			},
			Covers: []string{"expansion.System.Leakage"},
			Row:    leakageRow,
		},
		{
			Name: "expansion/potable",
			Doc:  "vessel on the cold feed of a cylinder",
			Inputs: []Column{
				{Name: "volume", Kind: unit.Volume},
				{Name: "cold", Kind: unit.Temperature},
				{Name: "hot", Kind: unit.Temperature},
				{Name: "supply", Kind: unit.GaugePressure},
				{Name: "relief_set", Kind: unit.GaugePressure},
				{Name: "precharge_below", Kind: unit.Pressure, Optional: true},
				{Name: "final_below", Kind: unit.Pressure, Optional: true},
				{Name: "atmosphere", Kind: unit.AbsolutePressure, Optional: true},
				{Name: "nominal", Kind: unit.Volume, Optional: true},
			},
			Outputs: []Column{
				{Name: "expansion_volume", Kind: unit.Volume},
				{Name: "least_nominal", Kind: unit.Volume},
				{Name: "precharge", Kind: unit.GaugePressure},
				{Name: "final", Kind: unit.GaugePressure},
				{Name: "reserve", Kind: unit.Volume, Doc: "in the vessel when cold"},
				{Name: "pressure_hot", Kind: unit.GaugePressure, Doc: "in a vessel of the nominal volume, or of the least"},
				{Name: "lifts_at", Kind: unit.Temperature, Doc: "without a vessel"},
				{Name: "discharged", Kind: unit.Volume, Doc: "per heating-up without a vessel"},
			},
			Covers: []string{"expansion.Potable.Size", "expansion.Potable.PressureHot", "expansion.Potable.WithoutVessel", "expansion.Section.Reaches"},
			Safety: true,
			Row:    potableRow,
		},
	}
}

// liquidInputs name the liquid of a row: water at 0.3 MPa if all are left out.
var liquidInputs = []Column{
	{Name: "solute", Kind: unit.Text, Optional: true},
	{Name: "mass_fraction", Kind: unit.Number, Optional: true},
	{Name: "pressure_abs", Kind: unit.AbsolutePressure, Optional: true, Doc: "of the water, for its density"},
}

func rowLiquid(in Row) (fluid.Liquid, error) {
	if name := in.Text("solute"); name != "" {
		s, ok := fluid.ParseSolute(name)
		if !ok {
			return fluid.Liquid{}, fmt.Errorf("solute %q is not known: %w", name, hydronics.ErrRange)
		}
		return s.ByMass(in.Num("mass_fraction"))
	}
	if in.Has("pressure_abs") {
		return fluid.WaterAt(in.Num("pressure_abs"))
	}
	return fluid.Water(), nil
}

func rowMethod(name string) (expansion.Method, error) {
	if name == "" {
		return expansion.HotVolume, nil
	}
	for m := expansion.HotVolume; m <= expansion.USNet; m++ {
		if m.String() == name {
			return m, nil
		}
	}
	return 0, fmt.Errorf("method %q is not known: %w", name, hydronics.ErrRange)
}

// systemInputs are the columns of an expansion.System.
func systemInputs() []Column {
	return append([]Column{
		{Name: "content", Kind: unit.Volume},
		{Name: "fill_temperature", Kind: unit.Temperature},
		{Name: "coldest", Kind: unit.Temperature, Optional: true, Doc: "the filling temperature if left out"},
		{Name: "hottest", Kind: unit.Temperature},
		{Name: "static_head", Kind: unit.Length, Optional: true},
		{Name: "relief_set", Kind: unit.GaugePressure},
		{Name: "tube_expansion", Kind: unit.PerTemperature, Optional: true},
		{Name: "atmosphere", Kind: unit.AbsolutePressure, Optional: true},
		{Name: "rules", Kind: unit.Text, Optional: true, Doc: "EN 12828:2012+A1:2014 if left out"},
	}, liquidInputs...)
}

func rowSystem(in Row) (expansion.System, error) {
	l, err := rowLiquid(in)
	if err != nil {
		return expansion.System{}, err
	}
	rules, err := rowRules(in.Text("rules"))
	return expansion.System{
		Liquid: l, Content: in.Num("content"),
		FillTemperature: in.Num("fill_temperature"),
		Coldest:         in.NumOr("coldest", in.Num("fill_temperature")),
		Hottest:         in.Num("hottest"),
		StaticHead:      in.NumOr("static_head", 0),
		ReliefSet:       hydronics.Gauge(in.Num("relief_set")),
		TubeExpansion:   in.NumOr("tube_expansion", 0),
		Atmosphere:      in.NumOr("atmosphere", 0),
		Rules:           rules,
	}, err
}

func rowRules(name string) (expansion.Rules, error) {
	if name == "" {
		return expansion.EN12828(), nil
	}
	for _, r := range []expansion.Rules{expansion.EN12828(), expansion.EN12828SmallVessels(), expansion.EN12828Edition2003(),
		expansion.DIN4807(), expansion.BS7074(), expansion.UNE100155(), expansion.RaccoltaR2009(), expansion.USPractice()} {
		if r.Name == name {
			return r, nil
		}
	}
	return expansion.Rules{}, fmt.Errorf("rules %q are not known: %w", name, hydronics.ErrRange)
}

func demandRow(in Row) (Row, error) {
	d := expansion.Demand{
		Expansion:  in.NumOr("expansion_volume", in.Num("content")*in.Num("expansion")),
		Reserve:    in.NumOr("reserve", 0),
		Precharge:  hydronics.Gauge(in.Num("precharge")),
		Filling:    hydronics.Gauge(in.NumOr("filling", in.Num("precharge"))),
		Atmosphere: in.Num("atmosphere"),
	}
	if in.Has("nominal") {
		p, err := d.PressureIn(in.Num("nominal"))
		return Row{"pressure": float64(p)}, err
	}
	d.Final = hydronics.Gauge(in.NumOr("final", in.Num("relief_set")-in.Num("final_below")))
	v, err := d.Nominal()
	if err != nil {
		return nil, err
	}
	out := Row{"least_nominal": v}
	if usual, err := expansion.UsualSeries().AtLeast(v); err == nil {
		out["usual_nominal"] = usual
	}
	return out, nil
}

func courseRow(in Row) (Row, error) {
	s, err := rowSystem(in)
	if err != nil {
		return nil, err
	}
	v := expansion.Vessel{Nominal: in.Num("nominal"), Precharge: hydronics.Gauge(in.Num("precharge"))}
	c, err := s.Course(v, hydronics.Gauge(in.Num("filling")))
	if err != nil {
		return nil, err
	}
	at := in.Num("temperature")
	state, err := c.At(at)
	if err != nil {
		return nil, err
	}
	fill, err := c.At(s.FillTemperature)
	if err != nil {
		return nil, err
	}
	out := Row{"pressure": float64(state.Pressure), "gas": state.Gas, "expansion_volume": state.Water - fill.Water}
	for name, n := range map[string]float64{"pressure_n12": 1.2, "pressure_n14": 1.4} {
		quick, err := c.Polytropic(at, n)
		if err != nil {
			return nil, err
		}
		out[name] = float64(quick.Pressure)
	}
	out["water"], out["quantity"] = state.Water, c.Quantity()
	if table, err := s.Settings(v, at); err == nil { // a vessel too small has a course and no window
		out["least_filling"], out["most_filling"] = float64(table[0].Least), float64(table[0].Most)
	}
	return out, nil
}

func potableRow(in Row) (Row, error) {
	p := expansion.Potable{
		Volume: in.Num("volume"), Cold: in.Num("cold"), Hot: in.Num("hot"),
		Supply:     hydronics.Gauge(in.Num("supply")),
		ReliefSet:  hydronics.Gauge(in.Num("relief_set")),
		Atmosphere: in.NumOr("atmosphere", 0),
		Rules:      expansion.PotablePractice(),
	}
	own := hydronics.Source{Text: "the row"}
	if in.Has("precharge_below") {
		p.Rules.PrechargeBelow = expansion.Setting{Value: in.Num("precharge_below"), Source: own}
	}
	if in.Has("final_below") {
		p.Rules.FinalBelow = expansion.Setting{Value: in.Num("final_below"), Source: own}
		p.Rules.FinalBelowShare.Value = 0
	}
	z, err := p.Size()
	if err != nil {
		return nil, err
	}
	hot, err := p.PressureHot(expansion.Vessel{Nominal: in.NumOr("nominal", z.Nominal), Precharge: z.Precharge})
	if err != nil {
		return nil, err
	}
	out := Row{"expansion_volume": z.Expansion, "least_nominal": z.Nominal, "precharge": float64(z.Precharge),
		"final": float64(z.Final), "reserve": z.Reserve, "pressure_hot": float64(hot)}
	without, err := p.WithoutVessel()
	if without.Lifts {
		out["lifts_at"], out["discharged"] = without.LiftsAt, without.Discharged
	}
	return out, err
}

func cycleRow(in Row) (Row, error) {
	s, err := rowSystem(in)
	if err != nil {
		return nil, err
	}
	c, err := s.Course(expansion.Vessel{Nominal: in.Num("nominal"), Precharge: hydronics.Gauge(in.Num("precharge"))}, hydronics.Gauge(in.Num("filling")))
	if err != nil {
		return nil, err
	}
	y, err := c.Cycle()
	if err != nil {
		return nil, err
	}
	left, err := c.Drained(y.Lost)
	if err != nil {
		return nil, err
	}
	coldest, err := left.At(s.Coldest)
	out := Row{"lost": y.Lost, "pressure_hot": float64(y.Hot.Pressure),
		"pressure_filling": float64(y.Filling.Pressure), "pressure_coldest": float64(coldest.Pressure)}
	if y.Lifts {
		out["lifts_at"] = y.LiftsAt
	}
	return out, err
}

func leakageRow(in Row) (Row, error) {
	s, err := rowSystem(in)
	if err != nil {
		return nil, err
	}
	l, err := s.Leakage(expansion.Vessel{Nominal: in.Num("nominal"), Precharge: hydronics.Gauge(in.Num("precharge"))},
		expansion.Reading{Pressure: hydronics.Gauge(in.Num("first_pressure")), Temperature: in.Num("first")},
		expansion.Reading{Pressure: hydronics.Gauge(in.Num("second_pressure")), Temperature: in.Num("second"), Time: in.Num("interval")},
		expansion.ReadingUncertainty{Pressure: in.NumOr("pressure_uncertainty", 0), Temperature: in.NumOr("temperature_uncertainty", 0)})
	return Row{"lost": l.Lost, "uncertainty": l.Uncertainty, "rate": l.Rate, "equivalent_precharge": float64(l.Precharge)}, err
}

// expansionExempt names the exported functions and methods of package expansion that no
// published value can check, each with the reason.
func expansionExempt() map[string]string {
	const words = "words and bookkeeping, no number to check"
	const judges = "puts checked figures beside their limits; the findings are tested one by one"
	const margins = "a list of settings with their sources, no calculation"
	return map[string]string{
		"expansion.Method.String":       words,
		"expansion.Method.Real":         words,
		"expansion.Fitting.String":      words,
		"expansion.Contents.String":     words,
		"expansion.UsualSeries":         margins,
		"expansion.EN12828SmallVessels": "a reserve from memory, marked so; the other margins are those of EN12828",
		"expansion.ProtectionUnits":     margins,
		"expansion.BackflowOpinions":    "published classifications; comparing them with what they were copied from cannot fail",
		"expansion.BackflowProtection":  "the strictest of published classifications",
		"expansion.JudgeFilling":        judges,
		"expansion.JudgePath":           judges,
		"expansion.System.Judge":        judges,
		"expansion.Potable.Judge":       judges,
		"expansion.Protection.Judge":    judges,
		"expansion.Protection.Relief":   "sums of Valve.Steam and Line.Loss",
		"expansion.TotalOutput":         "a sum",
		"expansion.Derated":             "a factor of 0.9, attributed to ISO 4126-1",
		"expansion.PrechargeAt":         "the ideal gas at constant volume, P/T; a property test holds it",
		"expansion.FillingKit.Time":     "the definition of Kv; a property test holds it",
		"expansion.Line.Loss":           "the Darcy-Weisbach equation with the friction factor of package pipe; a property test compares it with pipe.Run",
		"expansion.WarmingOf":           "two densities of package fluid",
	}
}

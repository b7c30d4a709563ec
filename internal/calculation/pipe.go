package calculation

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

// pipeCalculations are the calculations of package pipe in row form.
func pipeCalculations() []Calculation {
	return []Calculation{
		pipeFriction(), pipeRun(), pipeFlow(), pipeBore(), pipeTubeLoss(), pipeCircuit(),
		pipeKv(), pipeKvLoss(), pipeFitting(), pipeChange(), pipeTaper(), pipeTee(), pipeOrifice(), pipeCraneFactor(),
		pipeGrowth(), pipeLeg(), pipeSurge(), pipeHeat(), pipeGravity(), pipeShortestRun(), pipeDefrost(), pipeSelect(), pipeCriterion(),
	}
}

// pipeExempt names the exported functions and methods of package pipe that no
// published value can check, each with the reason.
func pipeExempt() map[string]string {
	const (
		words     = "words, no number to check"
		catalogue = "hands out the catalogue, whose figures are data"
		geometry  = "plain geometry, held by property tests"
		sum       = "a sum, held by property tests"
	)
	return map[string]string{
		"pipe.Regime.String":           words,
		"pipe.Transition.String":       words,
		"pipe.Method.String":           words,
		"pipe.Method.Names":            words,
		"pipe.AllSeries":               catalogue,
		"pipe.Catalogue":               catalogue,
		"pipe.Series.Tubes":            catalogue,
		"pipe.Search":                  catalogue,
		"pipe.Materials":               catalogue,
		"pipe.MaterialOf":              catalogue,
		"pipe.Threads":                 catalogue,
		"pipe.ThreadOf":                catalogue,
		"pipe.Thread.Pitch":            "one inch divided by a whole number",
		"pipe.Material.Tube":           "puts the figures of the material into a tube",
		"pipe.Tube.Check":              "guards only",
		"pipe.Tube.Surge":              "hands the tube's own figures on",
		"pipe.Route.Survey":            geometry,
		"pipe.Route.HeldWater":         geometry,
		"pipe.Route.HeldAir":           geometry,
		"pipe.LeastContent":            sum,
		"pipe.BufferFor":               sum,
		"pipe.Sizing.Choices":          "the list behind Sizing.Select",
		"pipe.Choice.Suits":            "reads verdicts",
		"pipe.Tee.DividingFromBranch":  "a value from memory, marked so",
		"pipe.Tee.CombiningIntoBranch": "a value from memory, marked so",
	}
}

func pipeFriction() Calculation {
	return Calculation{
		Name: "pipe/friction",
		Doc:  "Darcy friction factor by a rule for the transition (linear, cubic, Churchill, step)",
		Inputs: []Column{
			{Name: "reynolds", Kind: unit.Number},
			{Name: "relative_roughness", Kind: unit.Number},
			{Name: "rule", Kind: unit.Text, Optional: true, Doc: "linear where absent"},
		},
		Outputs: []Column{{Name: "friction_factor", Kind: unit.Number}, {Name: "regime", Kind: unit.Text}},
		Covers:  []string{"pipe.FrictionFactor", "pipe.Transition.FrictionFactor"},
		Row: func(in Row) (Row, error) {
			re, rr := in.Num("reynolds"), in.Num("relative_roughness")
			rule, err := transitionRule(in)
			if err != nil {
				return nil, err
			}
			f, regime, err := rule.FrictionFactor(re, rr)
			return Row{"friction_factor": f, "regime": regime.String()}, err
		},
	}
}

func transitionRule(in Row) (pipe.Transition, error) {
	if !in.Has("rule") {
		return pipe.LinearTransition, nil
	}
	for t := pipe.LinearTransition; t <= pipe.StepTransition; t++ {
		if t.String() == in.Text("rule") {
			return t, nil
		}
	}
	return 0, fmt.Errorf("%w: no transition rule %q", hydronics.ErrNoSolution, in.Text("rule"))
}

// runInputs are the columns that describe a run and what flows in it. A given
// friction factor stands for a loss coefficient f L/D, as in books that leave
// the roughness open.
func runInputs(more ...Column) []Column {
	return append([]Column{
		{Name: "bore", Kind: unit.SmallLength, Optional: true},
		{Name: "length", Kind: unit.Length},
		{Name: "roughness", Kind: unit.SmallLength, Optional: true},
		{Name: "relative_roughness", Kind: unit.Number, Optional: true},
		{Name: "given_friction_factor", Kind: unit.Number, Optional: true, Doc: "used instead of the roughness"},
		{Name: "zeta", Kind: unit.Number, Optional: true},
		{Name: "zeta_laminar", Kind: unit.Number, Optional: true},
		{Name: "kv", Kind: unit.FlowCoefficient, Optional: true},
		{Name: "rule", Kind: unit.Text, Optional: true},
		{Name: "density", Kind: unit.Density, Optional: true, Doc: "1000 kg/m³ where absent"},
		{Name: "kinematic_viscosity", Kind: unit.KinematicViscosity, Optional: true, Doc: "1 mm²/s where absent"},
		{Name: "gravity", Kind: unit.Number, Optional: true, Doc: "m/s² of the source's heads; 9.80665 where absent"},
	}, more...)
}

func runOf(in Row) (pipe.Run, fluid.Properties, error) {
	rule, err := transitionRule(in)
	if err != nil {
		return pipe.Run{}, fluid.Properties{}, err
	}
	r := pipe.Run{
		Bore: in.Num("bore"), Length: in.Num("length"), Roughness: in.NumOr("roughness", 0),
		Zeta: in.NumOr("zeta", 0), ZetaLaminar: in.NumOr("zeta_laminar", 0), Kv: pipe.Kv(in.NumOr("kv", 0)),
		Transition: rule,
	}
	if in.Has("relative_roughness") {
		r.Roughness = in.Num("relative_roughness") * r.Bore
	}
	if in.Has("given_friction_factor") {
		r.Zeta += in.Num("given_friction_factor") * r.Length / r.Bore
		r.Length = 0
	}
	p := fluid.Properties{Density: in.NumOr("density", 1000)}
	p.DynamicViscosity = p.Density * in.NumOr("kinematic_viscosity", 1e-6)
	return r, p, nil
}

func gravity(in Row) float64 { return in.NumOr("gravity", hydronics.StandardGravity) }

// lossRow writes out a loss; the gradient is the total over the length.
func lossRow(in Row, r pipe.Run, p fluid.Properties, flow float64) (Row, error) {
	l, err := r.Loss(flow, p)
	if err != nil {
		return nil, err
	}
	length := in.Num("length")
	head := l.Total / (p.Density * gravity(in))
	return Row{
		"velocity": l.Velocity, "reynolds": l.Reynolds, "friction_factor": l.FrictionFactor,
		"regime": l.Regime.String(), "loss": l.Total, "friction_loss": l.Friction, "fittings_loss": l.Fittings,
		"valves_loss": l.Valves, "head_loss": head, "gradient": l.Total / length, "head_gradient": head / length,
		"hydraulic_power": l.Total * flow, "content": r.Content(),
	}, nil
}

var lossOutputs = []Column{
	{Name: "velocity", Kind: unit.Velocity},
	{Name: "reynolds", Kind: unit.Number},
	{Name: "friction_factor", Kind: unit.Number},
	{Name: "regime", Kind: unit.Text},
	{Name: "loss", Kind: unit.Pressure},
	{Name: "friction_loss", Kind: unit.Pressure},
	{Name: "fittings_loss", Kind: unit.Pressure},
	{Name: "valves_loss", Kind: unit.Pressure},
	{Name: "head_loss", Kind: unit.Length},
	{Name: "gradient", Kind: unit.PressureGradient},
	{Name: "head_gradient", Kind: unit.Number, Doc: "metres of head per metre of tube; in per cent, feet per 100 ft"},
	{Name: "hydraulic_power", Kind: unit.Power},
	{Name: "content", Kind: unit.Volume},
}

func pipeRun() Calculation {
	return Calculation{
		Name: "pipe/run",
		Doc:  "what a flow loses in a run of tube with fittings and valves",
		Inputs: runInputs(Column{Name: "flow", Kind: unit.VolumeFlow, Optional: true},
			Column{Name: "flow_velocity", Kind: unit.Velocity, Optional: true, Doc: "instead of the flow"}),
		Outputs: lossOutputs,
		Covers:  []string{"pipe.Run.Loss", "pipe.Run.Content", "pipe.Run.Prepare", "pipe.Resistance.LossAndSlope"},
		Row: func(in Row) (Row, error) {
			r, p, err := runOf(in)
			if err != nil {
				return nil, err
			}
			flow := in.Num("flow")
			if in.Has("flow_velocity") {
				flow = in.Num("flow_velocity") * math.Pi / 4 * r.Bore * r.Bore
			}
			out, err := lossRow(in, r, p, flow)
			if err != nil {
				return nil, err
			}
			c, err := r.Prepare(p)
			if err != nil {
				return nil, err
			}
			if again, _ := c.LossAndSlope(flow); math.Abs(again-out.Num("loss")) > 1e-12*math.Abs(again) {
				return nil, errors.New("prepared resistance and loss differ")
			}
			return out, nil
		},
	}
}

func pipeFlow() Calculation {
	return Calculation{
		Name: "pipe/flow",
		Doc:  "flow of a run for a given loss",
		Inputs: runInputs(Column{Name: "head", Kind: unit.Length, Optional: true},
			Column{Name: "pressure", Kind: unit.Pressure, Optional: true, Doc: "instead of the head"}),
		Outputs: []Column{{Name: "flow", Kind: unit.VolumeFlow}, {Name: "velocity", Kind: unit.Velocity},
			{Name: "reynolds", Kind: unit.Number}, {Name: "friction_factor", Kind: unit.Number}},
		Covers: []string{"pipe.Run.Flow"},
		Row: func(in Row) (Row, error) {
			r, p, err := runOf(in)
			if err != nil {
				return nil, err
			}
			flow, err := r.Flow(drivingPressure(in, p), p)
			if err != nil {
				return nil, err
			}
			l, err := r.Loss(flow, p)
			return Row{"flow": flow, "velocity": l.Velocity, "reynolds": l.Reynolds, "friction_factor": l.FrictionFactor}, err
		},
	}
}

func drivingPressure(in Row, p fluid.Properties) float64 {
	if in.Has("pressure") {
		return in.Num("pressure")
	}
	return in.Num("head") * p.Density * gravity(in)
}

func pipeBore() Calculation {
	return Calculation{
		Name: "pipe/bore",
		Doc:  "bore of a run for a given flow and loss, and the next size of a series",
		Inputs: runInputs(Column{Name: "flow", Kind: unit.VolumeFlow},
			Column{Name: "head", Kind: unit.Length, Optional: true},
			Column{Name: "pressure", Kind: unit.Pressure, Optional: true},
			Column{Name: "series", Kind: unit.Text, Optional: true}),
		Outputs: []Column{{Name: "required_bore", Kind: unit.SmallLength}, {Name: "tube", Kind: unit.Text}},
		Covers:  []string{"pipe.Run.BoreFor", "pipe.NextSize"},
		Row: func(in Row) (Row, error) {
			if in.Has("given_friction_factor") || in.Has("relative_roughness") {
				return nil, errors.New("pipe/bore takes an absolute roughness")
			}
			r, p, err := runOf(in)
			if err != nil {
				return nil, err
			}
			bore, err := r.BoreFor(in.Num("flow"), drivingPressure(in, p), p)
			if err != nil {
				return nil, err
			}
			out := Row{"required_bore": bore}
			if in.Has("series") {
				tubes, err := pipe.Series(in.Text("series")).Tubes()
				if err != nil {
					return nil, err
				}
				next, err := pipe.NextSize(tubes, bore)
				if err != nil {
					return nil, err
				}
				out["tube"] = next.Designation
			}
			return out, nil
		},
	}
}

func pipeTubeLoss() Calculation {
	return Calculation{
		Name: "pipe/tube",
		Doc:  "gradient of plain water at a temperature in a tube of the catalogue, or of a bore and roughness",
		Inputs: []Column{
			{Name: "tube", Kind: unit.Text, Optional: true},
			{Name: "bore", Kind: unit.SmallLength, Optional: true, Doc: "instead of the tube's, or without one"},
			{Name: "roughness", Kind: unit.SmallLength, Optional: true},
			{Name: "relative_roughness", Kind: unit.Number, Optional: true},
			{Name: "temperature", Kind: unit.Temperature},
			{Name: "flow", Kind: unit.VolumeFlow, Optional: true},
			{Name: "mass_flow", Kind: unit.MassFlow, Optional: true, Doc: "instead of the flow"},
			{Name: "rule", Kind: unit.Text, Optional: true},
			{Name: "pressure_abs", Kind: unit.AbsolutePressure, Optional: true, Doc: "0.3 MPa where absent"},
		},
		Outputs: append([]Column{{Name: "tube_content", Kind: unit.Content}, {Name: "tube_bore", Kind: unit.SmallLength}}, lossOutputs...),
		Covers:  []string{"pipe.Find", "pipe.Tube.Run", "pipe.Tube.Bore", "pipe.Tube.Content"},
		Row: func(in Row) (Row, error) {
			var t pipe.Tube
			if in.Has("tube") {
				var err error
				if t, err = pipe.Find(in.Text("tube")); err != nil {
					return nil, err
				}
			}
			rule, err := transitionRule(in)
			if err != nil {
				return nil, err
			}
			r := t.Run(1)
			r.Bore, r.Roughness, r.Transition = in.NumOr("bore", r.Bore), in.NumOr("roughness", r.Roughness), rule
			if in.Has("relative_roughness") {
				r.Roughness = in.Num("relative_roughness") * r.Bore
			}
			water := fluid.Water()
			if in.Has("pressure_abs") {
				if water, err = fluid.WaterAt(in.Num("pressure_abs")); err != nil {
					return nil, err
				}
			}
			p, err := water.At(in.Num("temperature"))
			if err != nil {
				return nil, err
			}
			flow := in.NumOr("flow", in.Num("mass_flow")/p.Density)
			out, err := lossRow(Row{"length": 1.0}, r, p, flow)
			if err != nil {
				return nil, err
			}
			out["tube_content"], out["tube_bore"] = t.Content(), t.Bore()
			return out, nil
		},
	}
}

// pipeCircuit joins the rows of a case: rows of one group lie in parallel,
// the groups follow each other in series.
func pipeCircuit() Calculation {
	return Calculation{
		Name: "pipe/circuit",
		Doc:  "runs in series and in parallel: rows of one group side by side, groups in turn; driven by a head or a flow",
		Inputs: runInputs(Column{Name: "group", Kind: unit.Text, Doc: "runs with the same group lie in parallel"},
			Column{Name: "head", Kind: unit.Length, Optional: true, Doc: "over the whole circuit, in its first row"},
			Column{Name: "total_flow", Kind: unit.VolumeFlow, Optional: true, Doc: "instead of the head"}),
		Outputs: []Column{{Name: "flow", Kind: unit.VolumeFlow, Doc: "in this run"},
			{Name: "velocity", Kind: unit.Velocity},
			{Name: "group_head", Kind: unit.Length, Doc: "lost in the group of this run"}},
		Covers: []string{"pipe.FlowAt", "pipe.InSeries.LossAndSlope", "pipe.InParallel.LossAndSlope", "pipe.InParallel.Split"},
		Case: func(in []Row) ([]Row, error) {
			var names []string
			groups := map[string]pipe.InParallel{}
			runs := make([]pipe.Run, len(in))
			var p fluid.Properties
			for i, row := range in {
				r, props, err := runOf(row)
				if err != nil {
					return nil, err
				}
				c, err := r.Prepare(props)
				if err != nil {
					return nil, err
				}
				name := row.Text("group")
				if _, ok := groups[name]; !ok {
					names = append(names, name)
				}
				groups[name] = append(groups[name], &c)
				runs[i], p = r, props
			}
			var whole pipe.InSeries
			for _, n := range names {
				whole = append(whole, groups[n])
			}
			perHead := p.Density * gravity(in[0])
			total := in[0].NumOr("total_flow", math.NaN())
			if !in[0].Has("total_flow") {
				var err error
				if total, err = pipe.FlowAt(whole, in[0].Num("head")*perHead); err != nil {
					return nil, err
				}
			}
			shares := map[string][]float64{}
			heads := map[string]float64{}
			for _, n := range names {
				flows, loss, err := groups[n].Split(total)
				if err != nil {
					return nil, err
				}
				shares[n], heads[n] = flows, loss/perHead
			}
			out := make([]Row, len(in))
			for i, row := range in {
				n := row.Text("group")
				flow := shares[n][0]
				shares[n] = shares[n][1:]
				out[i] = Row{"flow": flow, "velocity": flow / (math.Pi / 4 * runs[i].Bore * runs[i].Bore), "group_head": heads[n]}
			}
			return out, nil
		},
	}
}

func pipeKv() Calculation {
	return Calculation{
		Name: "pipe/kv",
		Doc:  "flow coefficient, American flow coefficient, loss coefficient and equivalent length of one resistance",
		Inputs: []Column{
			{Name: "kv", Kind: unit.FlowCoefficient, Optional: true},
			{Name: "given_zeta", Kind: unit.Number, Optional: true, Doc: "instead of Kv"},
			{Name: "bore", Kind: unit.SmallLength},
			{Name: "friction_factor", Kind: unit.Number, Optional: true},
		},
		Outputs: []Column{{Name: "zeta", Kind: unit.Number}, {Name: "cv", Kind: unit.Number, Doc: "US gpm at 1 psi"},
			{Name: "kv_back", Kind: unit.FlowCoefficient}, {Name: "equivalent_length", Kind: unit.Length},
			{Name: "length_in_bores", Kind: unit.Number}},
		Covers: []string{"pipe.Kv.Zeta", "pipe.Kv.Cv", "pipe.Cv.Kv", "pipe.KvOfZeta", "pipe.EquivalentLength"},
		Row: func(in Row) (Row, error) {
			bore := in.Num("bore")
			kv := pipe.Kv(in.NumOr("kv", 0))
			var err error
			if in.Has("given_zeta") {
				if kv, err = pipe.KvOfZeta(in.Num("given_zeta"), bore); err != nil {
					return nil, err
				}
			}
			zeta, err := kv.Zeta(bore)
			if err != nil {
				return nil, err
			}
			out := Row{"zeta": zeta, "cv": float64(kv.Cv()), "kv_back": float64(kv.Cv().Kv())}
			if in.Has("friction_factor") {
				length, err := pipe.EquivalentLength(zeta, bore, in.Num("friction_factor"))
				if err != nil {
					return nil, err
				}
				out["equivalent_length"], out["length_in_bores"] = length, length/bore
			}
			return out, nil
		},
	}
}

func pipeKvLoss() Calculation {
	return Calculation{
		Name: "pipe/kv_loss",
		Doc:  "flow coefficient for a flow and a loss, and the loss and flow with it",
		Inputs: []Column{{Name: "flow", Kind: unit.VolumeFlow}, {Name: "pressure", Kind: unit.Pressure, Optional: true},
			{Name: "inlet", Kind: unit.AbsolutePressure, Optional: true}, {Name: "outlet", Kind: unit.AbsolutePressure, Optional: true},
			{Name: "density", Kind: unit.Density}},
		Outputs: []Column{{Name: "kv", Kind: unit.FlowCoefficient}, {Name: "loss", Kind: unit.Pressure},
			{Name: "flow_back", Kind: unit.VolumeFlow}, {Name: "kv_two_in_series", Kind: unit.FlowCoefficient},
			{Name: "kv_two_in_parallel", Kind: unit.FlowCoefficient}},
		Covers: []string{"pipe.KvFor", "pipe.Kv.Loss", "pipe.Kv.Flow", "pipe.KvInSeries", "pipe.KvInParallel"},
		Row: func(in Row) (Row, error) {
			dp := in.NumOr("pressure", in.Num("inlet")-in.Num("outlet"))
			rho := in.Num("density")
			kv, err := pipe.KvFor(in.Num("flow"), dp, rho)
			if err != nil {
				return nil, err
			}
			loss, err1 := kv.Loss(in.Num("flow"), rho)
			flow, err2 := kv.Flow(dp, rho)
			series, err3 := pipe.KvInSeries(kv, kv)
			parallel, err4 := pipe.KvInParallel(kv, kv)
			return Row{"kv": float64(kv), "loss": loss, "flow_back": flow, "kv_two_in_series": float64(series),
				"kv_two_in_parallel": float64(parallel)}, errors.Join(err1, err2, err3, err4)
		},
	}
}

func pipeFitting() Calculation {
	return Calculation{
		Name: "pipe/fitting",
		Doc:  "loss coefficient of a kind of fitting by a method (two-K, three-K, Crane), on its bore or another",
		Inputs: []Column{{Name: "method", Kind: unit.Text}, {Name: "fitting", Kind: unit.Text},
			{Name: "bore", Kind: unit.SmallLength}, {Name: "reynolds", Kind: unit.Number, Optional: true},
			{Name: "reference_bore", Kind: unit.SmallLength, Optional: true}},
		Outputs: []Column{{Name: "zeta", Kind: unit.Number}},
		Covers:  []string{"pipe.Method.Fitting", "pipe.Fitting.At", "pipe.Fitting.On", "pipe.Run.With"},
		Row: func(in Row) (Row, error) {
			for m := pipe.TwoK; m <= pipe.Crane; m++ {
				if m.String() != in.Text("method") {
					continue
				}
				f, err := m.Fitting(in.Text("fitting"), in.Num("bore"))
				if err != nil {
					return nil, err
				}
				r, err := pipe.Run{Bore: in.NumOr("reference_bore", f.Bore)}.With(f)
				if err != nil {
					return nil, err
				}
				f.Zeta, f.ZetaLaminar, f.Bore = r.Zeta, r.ZetaLaminar, r.Bore
				zeta, err := f.At(in.NumOr("reynolds", 1e8))
				return Row{"zeta": zeta}, err
			}
			return nil, fmt.Errorf("%w: no method %q", hydronics.ErrNoSolution, in.Text("method"))
		},
	}
}

func pipeChange() Calculation {
	return Calculation{
		Name: "pipe/change_of_bore",
		Doc:  "loss coefficients of a sudden change of bore, on the smaller, and the loss of a flow that passes it",
		Inputs: []Column{{Name: "small", Kind: unit.SmallLength}, {Name: "large", Kind: unit.SmallLength},
			{Name: "flow", Kind: unit.VolumeFlow, Optional: true}, {Name: "density", Kind: unit.Density, Optional: true},
			{Name: "pressure", Kind: unit.Pressure, Optional: true, Doc: "before the enlargement"},
			{Name: "gravity", Kind: unit.Number, Optional: true}},
		Outputs: []Column{{Name: "enlargement", Kind: unit.Number}, {Name: "contraction", Kind: unit.Number},
			{Name: "sharp_contraction", Kind: unit.Number}, {Name: "enlargement_head", Kind: unit.Length},
			{Name: "pressure_after", Kind: unit.Pressure, Doc: "behind the enlargement, by Bernoulli's equation"}},
		Covers: []string{"pipe.Enlargement", "pipe.Contraction", "pipe.SharpContraction"},
		Row: func(in Row) (Row, error) {
			small, large := in.Num("small"), in.Num("large")
			e, err1 := pipe.Enlargement(small, large)
			c, err2 := pipe.Contraction(large, small)
			s, err3 := pipe.SharpContraction(large, small)
			if err := errors.Join(err1, err2, err3); err != nil {
				return nil, err
			}
			out := Row{"enlargement": e.Zeta, "contraction": c.Zeta, "sharp_contraction": s.Zeta}
			if in.Has("flow") {
				rho := in.NumOr("density", 1000)
				r, err := pipe.Run{Bore: small}.With(e)
				if err != nil {
					return nil, err
				}
				l, err := r.Loss(in.Num("flow"), fluid.Properties{Density: rho, DynamicViscosity: 1e-3})
				if err != nil {
					return nil, err
				}
				after := l.Velocity * (small / large) * (small / large)
				out["enlargement_head"] = l.Total / (rho * gravity(in))
				out["pressure_after"] = in.NumOr("pressure", 0) + rho/2*(l.Velocity*l.Velocity-after*after) - l.Total
			}
			return out, nil
		},
	}
}

func pipeTaper() Calculation {
	return Calculation{
		Name: "pipe/taper",
		Doc:  "loss coefficients of a conical change of bore, on the smaller",
		Inputs: []Column{{Name: "small", Kind: unit.SmallLength}, {Name: "large", Kind: unit.SmallLength},
			{Name: "angle", Kind: unit.Angle}},
		Outputs: []Column{{Name: "widening", Kind: unit.Number}, {Name: "narrowing", Kind: unit.Number}},
		Covers:  []string{"pipe.Taper.Widening", "pipe.Taper.Narrowing"},
		Row: func(in Row) (Row, error) {
			t := pipe.Taper{Small: in.Num("small"), Large: in.Num("large"), Angle: in.Num("angle")}
			w, err1 := t.Widening()
			n, err2 := t.Narrowing()
			return Row{"widening": w.Zeta, "narrowing": n.Zeta}, errors.Join(err1, err2)
		},
	}
}

func pipeTee() Calculation {
	return Calculation{
		Name: "pipe/tee",
		Doc:  "loss coefficients of a tee at a right angle on the velocity of the combined flow",
		Inputs: []Column{{Name: "run", Kind: unit.SmallLength}, {Name: "branch", Kind: unit.SmallLength},
			{Name: "share", Kind: unit.Number, Doc: "of the branch in the combined flow"}},
		Outputs: []Column{{Name: "dividing_branch", Kind: unit.Number}, {Name: "dividing_straight", Kind: unit.Number},
			{Name: "combining_branch", Kind: unit.Number}, {Name: "combining_straight", Kind: unit.Number}},
		Covers: []string{"pipe.Tee.Dividing", "pipe.Tee.Combining"},
		Row: func(in Row) (Row, error) {
			t := pipe.Tee{Run: in.Num("run"), Branch: in.Num("branch"), Share: in.Num("share")}
			ds, db, err1 := t.Dividing()
			cs, cb, err2 := t.Combining()
			return Row{"dividing_branch": db.Zeta, "dividing_straight": ds.Zeta,
				"combining_branch": cb.Zeta, "combining_straight": cs.Zeta}, errors.Join(err1, err2)
		},
	}
}

func pipeOrifice() Calculation {
	return Calculation{
		Name: "pipe/orifice",
		Doc:  "lasting loss of an orifice plate on the velocity in the tube",
		Inputs: []Column{{Name: "bore", Kind: unit.SmallLength}, {Name: "hole", Kind: unit.SmallLength},
			{Name: "discharge_coefficient", Kind: unit.Number}},
		Outputs: []Column{{Name: "zeta", Kind: unit.Number}},
		Covers:  []string{"pipe.Orifice.Fitting"},
		Row: func(in Row) (Row, error) {
			f, err := pipe.Orifice{Bore: in.Num("bore"), Hole: in.Num("hole"), Discharge: in.Num("discharge_coefficient")}.Fitting()
			return Row{"zeta": f.Zeta}, err
		},
	}
}

func pipeCraneFactor() Calculation {
	return Calculation{
		Name:    "pipe/crane_factor",
		Doc:     "friction factor of fully turbulent flow in clean steel, the base of Crane's loss coefficients",
		Inputs:  []Column{{Name: "bore", Kind: unit.SmallLength}},
		Outputs: []Column{{Name: "friction_factor", Kind: unit.Number}},
		Covers:  []string{"pipe.CraneTurbulentFactor"},
		Row: func(in Row) (Row, error) {
			f, err := pipe.CraneTurbulentFactor(in.Num("bore"))
			return Row{"friction_factor": f}, err
		},
	}
}

func pipeGrowth() Calculation {
	return Calculation{
		Name: "pipe/growth",
		Doc:  "thermal growth of a tube of a material of the catalogue, and the force if it is held",
		Inputs: []Column{{Name: "material", Kind: unit.Text}, {Name: "length", Kind: unit.Length},
			{Name: "from", Kind: unit.Temperature}, {Name: "to", Kind: unit.Temperature},
			{Name: "outside", Kind: unit.SmallLength, Optional: true}, {Name: "wall", Kind: unit.SmallLength, Optional: true},
			{Name: "modulus", Kind: unit.Modulus, Optional: true}, {Name: "expansion", Kind: unit.PerTemperature, Optional: true}},
		Outputs: []Column{{Name: "growth", Kind: unit.SmallLength}, {Name: "anchor_force", Kind: unit.Force}},
		Covers:  []string{"pipe.Tube.Growth", "pipe.Tube.FixedPointForce"},
		Row: func(in Row) (Row, error) {
			m, err := pipe.MaterialOf(in.Text("material"))
			if err != nil {
				return nil, err
			}
			t := pipe.Tube{Outside: in.NumOr("outside", 0), Wall: in.NumOr("wall", 0),
				Expansion: in.NumOr("expansion", m.Expansion.Value), Modulus: in.NumOr("modulus", m.Modulus.Value)}
			growth, err := t.Growth(in.Num("length"), in.Num("from"), in.Num("to"))
			if err != nil {
				return nil, err
			}
			out := Row{"growth": growth}
			if in.Has("outside") {
				force, err := t.FixedPointForce(in.Num("from"), in.Num("to"))
				if err != nil {
					return nil, err
				}
				out["anchor_force"] = force
			}
			return out, nil
		},
	}
}

func pipeLeg() Calculation {
	return Calculation{
		Name: "pipe/leg",
		Doc:  "free length of a leg or of a U that takes up the growth of a tube",
		Inputs: []Column{{Name: "outside", Kind: unit.SmallLength}, {Name: "growth", Kind: unit.SmallLength},
			{Name: "modulus", Kind: unit.Modulus, Optional: true}, {Name: "stress", Kind: unit.Modulus, Optional: true},
			{Name: "constant", Kind: unit.Number, Optional: true}},
		Outputs: []Column{{Name: "leg", Kind: unit.Length}, {Name: "loop", Kind: unit.Length}, {Name: "leg_by_constant", Kind: unit.Length}},
		Covers:  []string{"pipe.Tube.Leg", "pipe.Tube.Loop", "pipe.Tube.LegByConstant"},
		Row: func(in Row) (Row, error) {
			out := Row{}
			t := pipe.Tube{Outside: in.Num("outside"), Modulus: in.NumOr("modulus", 0)}
			if in.Has("stress") {
				o := pipe.Offset{Growth: in.Num("growth"), Stress: in.Num("stress")}
				leg, err1 := t.Leg(o)
				loop, err2 := t.Loop(o)
				if err := errors.Join(err1, err2); err != nil {
					return nil, err
				}
				out["leg"], out["loop"] = leg, loop
			}
			if in.Has("constant") {
				l, err := t.LegByConstant(in.Num("growth"), in.Num("constant"))
				if err != nil {
					return nil, err
				}
				out["leg_by_constant"] = l
			}
			return out, nil
		},
	}
}

func pipeSurge() Calculation {
	return Calculation{
		Name: "pipe/surge",
		Doc:  "speed of a pressure wave, and the pressure at a valve that closes",
		Inputs: []Column{{Name: "bulk_modulus", Kind: unit.Modulus}, {Name: "density", Kind: unit.Density},
			{Name: "bore", Kind: unit.SmallLength, Optional: true}, {Name: "wall", Kind: unit.SmallLength, Optional: true},
			{Name: "wall_modulus", Kind: unit.Modulus, Optional: true}, {Name: "poisson", Kind: unit.Number, Optional: true},
			{Name: "length", Kind: unit.Length, Optional: true}, {Name: "velocity", Kind: unit.Velocity, Optional: true},
			{Name: "closing_time", Kind: unit.Time, Optional: true}},
		Outputs: []Column{{Name: "wave_speed", Kind: unit.Velocity}, {Name: "critical_time", Kind: unit.Time},
			{Name: "rise", Kind: unit.Pressure}},
		Covers: []string{"pipe.Surge.WaveSpeed", "pipe.Surge.Close", "pipe.Anchored"},
		Row: func(in Row) (Row, error) {
			s := pipe.Surge{Bulk: in.Num("bulk_modulus"), Density: in.Num("density"), Bore: in.NumOr("bore", 0.1),
				Wall: in.NumOr("wall", 0), Modulus: in.NumOr("wall_modulus", 0)}
			if in.Has("poisson") {
				var err error
				if s.Restraint, err = pipe.Anchored(in.Num("poisson")); err != nil {
					return nil, err
				}
			}
			c, err := s.WaveSpeed()
			if err != nil {
				return nil, err
			}
			r, err := s.Close(pipe.Closure{Length: in.NumOr("length", 1), Velocity: in.NumOr("velocity", 0), Time: in.NumOr("closing_time", 0)})
			return Row{"wave_speed": c, "critical_time": r.CriticalTime, "rise": r.Rise}, err
		},
	}
}

func pipeHeat() Calculation {
	return Calculation{
		Name: "pipe/heat",
		Doc:  "flow of plain water for a heat load, and back",
		Inputs: []Column{{Name: "heat", Kind: unit.Power}, {Name: "supply", Kind: unit.Temperature},
			{Name: "return", Kind: unit.Temperature}},
		Outputs: []Column{{Name: "flow", Kind: unit.VolumeFlow}, {Name: "heat_back", Kind: unit.Power},
			{Name: "spread", Kind: unit.TemperatureDifference}},
		Covers: []string{"pipe.FlowForHeat", "pipe.HeatCarried", "pipe.TemperatureSpread"},
		Row: func(in Row) (Row, error) {
			supply, ret := in.Num("supply"), in.Num("return")
			flow, err := pipe.FlowForHeat(in.Num("heat"), supply, ret, fluid.Water())
			if err != nil {
				return nil, err
			}
			heat, err1 := pipe.HeatCarried(flow, supply, ret, fluid.Water())
			p, err2 := fluid.Water().At((supply + ret) / 2)
			if err := errors.Join(err1, err2); err != nil {
				return nil, err
			}
			spread, err := pipe.TemperatureSpread(in.Num("heat"), flow, p)
			return Row{"flow": flow, "heat_back": heat, "spread": spread}, err
		},
	}
}

func pipeGravity() Calculation {
	return Calculation{
		Name: "pipe/gravity",
		Doc:  "pressure that drives a loop of plain water by the weight of its cold leg",
		Inputs: []Column{{Name: "cold", Kind: unit.Temperature}, {Name: "warm", Kind: unit.Temperature},
			{Name: "height", Kind: unit.Length}},
		Outputs: []Column{{Name: "pressure", Kind: unit.Pressure}},
		Covers:  []string{"pipe.GravityCirculation"},
		Row: func(in Row) (Row, error) {
			cold, err1 := fluid.Water().Density(in.Num("cold"))
			warm, err2 := fluid.Water().Density(in.Num("warm"))
			if err := errors.Join(err1, err2); err != nil {
				return nil, err
			}
			dp, err := pipe.GravityCirculation(cold, warm, in.Num("height"))
			return Row{"pressure": dp}, err
		},
	}
}

func pipeShortestRun() Calculation {
	return Calculation{
		Name: "pipe/shortest_run",
		Doc:  "content of plain water for the shortest running time of a heat source",
		Inputs: []Column{{Name: "output", Kind: unit.Power}, {Name: "load", Kind: unit.Power},
			{Name: "time", Kind: unit.Time}, {Name: "from", Kind: unit.Temperature}, {Name: "to", Kind: unit.Temperature}},
		Outputs: []Column{{Name: "content", Kind: unit.Volume}},
		Covers:  []string{"pipe.ShortestRun.Content"},
		Row: func(in Row) (Row, error) {
			v, err := pipe.ShortestRun{Output: in.Num("output"), Load: in.Num("load"), Time: in.Num("time"),
				From: in.Num("from"), To: in.Num("to")}.Content(fluid.Water())
			return Row{"content": v}, err
		},
	}
}

func pipeDefrost() Calculation {
	return Calculation{
		Name: "pipe/defrost",
		Doc:  "energy balance of a defrost with heat from plain heating water",
		Inputs: []Column{{Name: "frost", Kind: unit.Mass}, {Name: "frost_temperature", Kind: unit.Temperature},
			{Name: "coil", Kind: unit.Energy, Optional: true}, {Name: "stated", Kind: unit.Energy, Optional: true},
			{Name: "input", Kind: unit.Power, Optional: true}, {Name: "load", Kind: unit.Power, Optional: true},
			{Name: "backup", Kind: unit.Power, Optional: true}, {Name: "time", Kind: unit.Time, Optional: true},
			{Name: "start", Kind: unit.Temperature}, {Name: "lowest", Kind: unit.Temperature},
			{Name: "content", Kind: unit.Volume}},
		Outputs: []Column{{Name: "heat", Kind: unit.Energy}, {Name: "required", Kind: unit.Volume},
			{Name: "buffer", Kind: unit.Volume}, {Name: "end", Kind: unit.Temperature}},
		Covers: []string{"pipe.Defrost.Balance"},
		Row: func(in Row) (Row, error) {
			b, err := pipe.Defrost{Frost: in.Num("frost"), FrostTemperature: in.Num("frost_temperature"),
				Coil: in.NumOr("coil", 0), Stated: in.NumOr("stated", 0), Input: in.NumOr("input", 0),
				Load: in.NumOr("load", 0), Backup: in.NumOr("backup", 0), Time: in.NumOr("time", 0),
				Start: in.Num("start"), Lowest: in.Num("lowest")}.Balance(in.Num("content"), fluid.Water())
			return Row{"heat": b.Water, "required": b.Required, "buffer": b.Buffer, "end": b.End}, err
		},
	}
}

func pipeSelect() Calculation {
	return Calculation{
		Name: "pipe/select",
		Doc:  "smallest tube of a series whose flow of plain water keeps a named criterion",
		Inputs: []Column{{Name: "series", Kind: unit.Text}, {Name: "criterion", Kind: unit.Text},
			{Name: "flow", Kind: unit.VolumeFlow}, {Name: "temperature", Kind: unit.Temperature}},
		Outputs: []Column{{Name: "tube", Kind: unit.Text}, {Name: "velocity", Kind: unit.Velocity},
			{Name: "gradient", Kind: unit.PressureGradient}, {Name: "verdict", Kind: unit.Text}},
		Covers: []string{"pipe.Sizing.Select", "pipe.Criterion.Judge"},
		Row: func(in Row) (Row, error) {
			tubes, err1 := pipe.Series(in.Text("series")).Tubes()
			criterion, err2 := pipe.CriterionNamed(in.Text("criterion"))
			p, err3 := fluid.Water().At(in.Num("temperature"))
			if err := errors.Join(err1, err2, err3); err != nil {
				return nil, err
			}
			c, err := pipe.Sizing{Flow: in.Num("flow"), Liquid: p, Criteria: []pipe.Criterion{criterion}}.Select(tubes)
			if err != nil {
				return nil, err
			}
			return Row{"tube": c.Tube.Designation, "velocity": c.Loss.Velocity, "gradient": c.Loss.Gradient,
				"verdict": c.Findings[0].Verdict.String()}, nil
		},
	}
}

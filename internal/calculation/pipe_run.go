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

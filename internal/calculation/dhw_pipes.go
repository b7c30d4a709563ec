package calculation

import (
	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/internal/unit"
)

// dhwPipeCalculations are those of the way to the tap and of hygiene.
func dhwPipeCalculations() []Calculation {
	return []Calculation{dhwStaticHead(), dhwPressureBudget(), dhwDeadLeg(), dhwCirculation(), dhwBranchFlow(), dhwDisinfection()}
}

func dhwStaticHead() Calculation {
	return Calculation{
		Name:    "dhw/static_head",
		Doc:     "pressure difference over a height of water",
		Inputs:  []Column{{Name: "height", Kind: unit.Length}, {Name: "water", Kind: unit.Temperature, Doc: "its temperature"}},
		Outputs: []Column{{Name: "static_head", Kind: unit.Pressure}},
		Covers:  []string{"dhw.StaticHead"},
		Row: func(in Row) (Row, error) {
			p, err := dhw.StaticHead(in.Num("height"), in.Num("water"))
			return Row{"static_head": p}, err
		},
	}
}

func dhwPressureBudget() Calculation {
	return Calculation{
		Name: "dhw/pressure_budget",
		Doc:  "pressure from the main to the worst tap",
		Inputs: []Column{
			{Name: "main", Kind: unit.GaugePressure}, {Name: "height", Kind: unit.Length}, {Name: "water", Kind: unit.Temperature},
			{Name: "meter", Kind: unit.Pressure}, {Name: "connection", Kind: unit.Pressure, Optional: true, Doc: "tapping of the main"},
			{Name: "backflow", Kind: unit.Pressure, Optional: true}, {Name: "filter", Kind: unit.Pressure, Optional: true},
			{Name: "tap", Kind: unit.GaugePressure, Doc: "flow pressure"}, {Name: "pipes", Kind: unit.Pressure, Optional: true},
			{Name: "pipe_length", Kind: unit.Length},
		},
		Outputs: []Column{{Name: "available", Kind: unit.Pressure, Doc: "for pipes and fittings"},
			{Name: "gradient", Kind: unit.PressureGradient}, {Name: "left", Kind: unit.Pressure}},
		Covers: []string{"dhw.PressureBudget.Sum"},
		Row: func(in Row) (Row, error) {
			b := dhw.PressureBudget{
				Main: hydronics.Gauge(in.Num("main")), Height: in.Num("height"), Temperature: in.Num("water"),
				Devices: []dhw.PressureLoss{{Name: "meter", Loss: in.Num("meter")}, {Name: "connection", Loss: in.NumOr("connection", 0)},
					{Name: "backflow", Loss: in.NumOr("backflow", 0)}, {Name: "filter", Loss: in.NumOr("filter", 0)}},
				Tap: hydronics.Gauge(in.Num("tap")), Pipes: in.NumOr("pipes", 0), Length: in.Num("pipe_length"),
			}
			r, err := b.Sum()
			return Row{"available": r.Available, "gradient": r.Gradient, "left": r.Left}, err
		},
	}
}

func dhwDeadLeg() Calculation {
	return Calculation{
		Name: "dhw/dead_leg",
		Doc:  "content and waiting time of a tube without circulation",
		Inputs: []Column{{Name: "outside", Kind: unit.SmallLength}, {Name: "bore", Kind: unit.SmallLength},
			{Name: "length", Kind: unit.Length}, {Name: "flow", Kind: unit.VolumeFlow}},
		Outputs: []Column{{Name: "content", Kind: unit.Volume}, {Name: "wait", Kind: unit.Time}},
		Covers:  []string{"dhw.DeadLeg.Stagnation"},
		Row: func(in Row) (Row, error) {
			s, err := dhw.DeadLeg{Pieces: []dhw.Piece{{Outside: in.Num("outside"), Bore: in.Num("bore"), Length: in.Num("length")}}, Flow: in.Num("flow")}.Stagnation()
			return Row{"content": s.Content, "wait": s.Wait}, err
		},
	}
}

func dhwCirculation() Calculation {
	return Calculation{
		Name: "dhw/circulation",
		Doc:  "flow that keeps a pipe hot, exact and by the usual approximations",
		Inputs: []Column{
			{Name: "transmittance", Kind: unit.LinearConductance}, {Name: "length", Kind: unit.Length}, ambientColumn,
			{Name: "supply", Kind: unit.Temperature}, {Name: "end", Kind: unit.Temperature}, heatColumn,
		},
		Outputs: []Column{
			{Name: "flow", Kind: unit.VolumeFlow, Doc: "exact"}, {Name: "flow_mean", Kind: unit.VolumeFlow}, {Name: "flow_inlet", Kind: unit.VolumeFlow},
			{Name: "loss", Kind: unit.Power}, {Name: "end_again", Kind: unit.Temperature, Doc: "from the flow"},
		},
		Covers: []string{"dhw.Circulation.Flow", "dhw.Circulation.End"},
		Row: func(in Row) (Row, error) {
			c := dhw.Circulation{Length: in.Num("length"), Transmittance: in.Num("transmittance"), Ambient: in.Num("ambient"),
				Supply: in.Num("supply"), VolumetricHeat: in.Num("volumetric_heat")}
			f, err := c.Flow(in.Num("end"))
			if err != nil {
				return nil, err
			}
			end, err := c.End(f.Flow)
			return Row{"flow": f.Flow, "flow_mean": f.Mean, "flow_inlet": f.Inlet, "loss": f.Loss, "end_again": end}, err
		},
	}
}

func dhwBranchFlow() Calculation {
	return Calculation{
		Name: "dhw/branch_flow",
		Doc:  "flow into a branch of a circulation",
		Inputs: []Column{{Name: "flow", Kind: unit.VolumeFlow}, {Name: "loss_branch", Kind: unit.Power},
			{Name: "loss_through", Kind: unit.Power}},
		Outputs: []Column{{Name: "branch_flow", Kind: unit.VolumeFlow}},
		Covers:  []string{"dhw.BranchFlow"},
		Row: func(in Row) (Row, error) {
			v, err := dhw.BranchFlow(in.Num("flow"), in.Num("loss_branch"), in.Num("loss_through"))
			return Row{"branch_flow": v}, err
		},
	}
}

func dhwDisinfection() Calculation {
	return Calculation{
		Name: "dhw/disinfection",
		Doc:  "heat and time of a thermal disinfection",
		Inputs: []Column{
			volumeColumn, heatColumn, {Name: "start", Kind: unit.Temperature}, {Name: "end", Kind: unit.Temperature},
			{Name: "power", Kind: unit.Power}, {Name: "loss_coefficient", Kind: unit.HeatCapacityRate}, ambientColumn,
			{Name: "hold", Kind: unit.Time}, {Name: "pipe_loss", Kind: unit.Power, Optional: true},
		},
		Outputs: []Column{{Name: "heat_up", Kind: unit.Time}, {Name: "hold_heat", Kind: unit.Energy},
			{Name: "energy", Kind: unit.Energy}, {Name: "time", Kind: unit.Time}},
		Covers: []string{"dhw.Disinfection.Cost"},
		Row: func(in Row) (Row, error) {
			c, err := dhw.Disinfection{
				Cylinder: dhw.Cylinder{Volume: in.Num("volume"), Nodes: 1, VolumetricHeat: in.Num("volumetric_heat"), LossCoefficient: in.Num("loss_coefficient")},
				Heater:   dhw.Heater{{Power: in.Num("power")}}, From: in.Num("start"), To: in.Num("end"),
				Hold: in.Num("hold"), Pipes: in.NumOr("pipe_loss", 0), Ambient: in.Num("ambient"),
			}.Cost()
			return Row{"heat_up": c.HeatUp.Time, "hold_heat": c.Hold, "energy": c.Energy, "time": c.Time}, err
		},
	}
}

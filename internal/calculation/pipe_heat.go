package calculation

import (
	"errors"

	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

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

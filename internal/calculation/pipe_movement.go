package calculation

import (
	"errors"

	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

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

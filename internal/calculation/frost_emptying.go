package calculation

import (
	"math"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

func frostTorricelli() Calculation {
	return Calculation{
		Name: "frost/torricelli",
		Doc:  "time in which a water surface falls above an open valve or hole, without friction",
		Inputs: []Column{
			{Name: "surface_area", Kind: unit.Area},
			{Name: "valve_kv", Kind: unit.FlowCoefficient, Optional: true},
			{Name: "hole_area", Kind: unit.Area, Optional: true, Doc: "in place of valve_kv, with discharge_coefficient"},
			{Name: "discharge_coefficient", Kind: unit.Number, Optional: true},
			{Name: "initial_head", Kind: unit.Length},
			{Name: "final_head", Kind: unit.Length},
		},
		Outputs: []Column{{Name: "drain_time", Kind: unit.Time}},
		Covers:  []string{"frost.Torricelli", "frost.OrificeKv"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			kv := pipe.Kv(in.Num("valve_kv"))
			if !in.Has("valve_kv") {
				var err error
				if kv, err = frost.OrificeKv(in.Num("hole_area"), in.Num("discharge_coefficient")); err != nil {
					return nil, err
				}
			}
			t, err := frost.Torricelli(frost.Vessel{Area: in.Num("surface_area"), Kv: kv}, in.Num("initial_head"), in.Num("final_head"))
			return Row{"drain_time": t}, err
		},
	}
}

func frostEmptying() Calculation {
	leg := func(n string) []Column {
		optional := n != "1"
		return []Column{
			{Name: "leg_" + n + "_length", Kind: unit.Length, Optional: optional, Doc: "counted from the valve"},
			{Name: "leg_" + n + "_rise", Kind: unit.Length, Optional: optional},
		}
	}
	return Calculation{
		Name: "frost/emptying",
		Doc:  "a column of water leaves through an open drain valve at its foot, air following from above",
		Inputs: append(append([]Column{
			{Name: "bore", Kind: unit.SmallLength},
			{Name: "roughness", Kind: unit.SmallLength},
			{Name: "valve_kv", Kind: unit.FlowCoefficient},
			{Name: "final_head", Kind: unit.Length},
			{Name: "density", Kind: unit.Density},
			{Name: "dynamic_viscosity", Kind: unit.DynamicViscosity},
		}, leg("1")...), leg("2")...),
		Outputs: []Column{
			{Name: "drain_time", Kind: unit.Time},
			{Name: "drained_volume", Kind: unit.Volume},
			{Name: "initial_flow", Kind: unit.VolumeFlow},
			{Name: "stepped_time", Kind: unit.Time, Doc: "the same as a route in space, stepped in time"},
		},
		Covers: []string{"frost.Column.Empty", "frost.Reach.Empty"},
		Safety: true,
		Row: func(in Row) (Row, error) {
			c := frost.Column{Bore: in.Num("bore"), Roughness: in.Num("roughness"), Kv: pipe.Kv(in.Num("valve_kv")), Final: in.Num("final_head"),
				Legs: []frost.Leg{{Length: in.Num("leg_1_length"), Rise: in.Num("leg_1_rise")}}}
			if in.Has("leg_2_length") {
				c.Legs = append(c.Legs, frost.Leg{Length: in.Num("leg_2_length"), Rise: in.Num("leg_2_rise")})
			}
			p := fluid.Properties{Density: in.Num("density"), DynamicViscosity: in.Num("dynamic_viscosity")}
			e, err := c.Empty(p)
			if err != nil {
				return nil, err
			}
			route := pipe.Route{{}}
			for _, l := range c.Legs {
				last := route[len(route)-1]
				route = append(route, pipe.Point{X: last.X + math.Sqrt(max(0, l.Length*l.Length-l.Rise*l.Rise)), Z: last.Z + l.Rise})
			}
			d, err := frost.Reach{Route: route, Bore: c.Bore, Roughness: c.Roughness, Drains: []frost.Drain{{Kv: c.Kv}},
				Vents: []int{len(route) - 1}, Final: c.Final}.Empty(p)
			return Row{"drain_time": e.Time, "drained_volume": e.Volume, "initial_flow": e.Flow, "stepped_time": d.Time}, err
		},
	}
}

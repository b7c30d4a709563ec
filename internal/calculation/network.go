package calculation

import (
	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

// networkCalculations are the calculations of package pipe/network in row form.
func networkCalculations() []Calculation {
	return []Calculation{
		networkFlow(), networkOperatingPoint(), networkAffinity(), networkInlet(),
		networkBalance(), networkBypass(), networkValve(), networkSeparator(),
	}
}

// networkFlow solves a network of branches, one per row.
func networkFlow() Calculation {
	return Calculation{
		Name: "network/flow",
		Doc:  "flows and levels of a network, one branch per row; nodes are named in from and to",
		Inputs: []Column{
			{Name: "from", Kind: unit.Text}, {Name: "to", Kind: unit.Text},
			{Name: "length", Kind: unit.Length}, {Name: "bore", Kind: unit.SmallLength},
			{Name: "roughness", Kind: unit.SmallLength, Optional: true, Doc: "friction after Colebrook"},
			{Name: "darcy_f", Kind: unit.Number, Optional: true, Doc: "fixed friction factor, in place of roughness"},
			{Name: "zeta", Kind: unit.Number, Optional: true, Doc: "further losses"},
			{Name: "from_level", Kind: unit.Length, Optional: true, Doc: "given level of the liquid at the node from: a reservoir"},
			{Name: "to_level", Kind: unit.Length, Optional: true, Doc: "given level at the node to"},
			{Name: "to_height", Kind: unit.Length, Optional: true, Doc: "height of the node to, for its pressure"},
			{Name: "from_inflow", Kind: unit.VolumeFlow, Optional: true, Doc: "what enters from outside at the node from; what leaves leaves at given levels"},
			{Name: "initial_flow", Kind: unit.VolumeFlow, Optional: true, Doc: "flows of any distribution that balances: they say what enters and leaves the nodes"},
			{Name: "density", Kind: unit.Density, Optional: true, Doc: "1000 kg/m³ if missing"},
			{Name: "kinematic_viscosity", Kind: unit.KinematicViscosity, Optional: true, Doc: "1 mm²/s if missing; does not matter with darcy_f"},
		},
		Outputs: []Column{
			{Name: "flow", Kind: unit.VolumeFlow}, {Name: "velocity", Kind: unit.Velocity},
			{Name: "head_loss", Kind: unit.Length},
			{Name: "level_from", Kind: unit.Length, Doc: "level to which the liquid would rise at the node from"},
			{Name: "pressure_to", Kind: unit.GaugePressure, Doc: "at the node to, at to_height"},
		},
		Covers: []string{"network.Network.Solve", "network.Network.Prepare", "network.System.Solve"},
		Case:   solveNetwork,
	}
}

func solveNetwork(in []Row) ([]Row, error) {
	density := in[0].NumOr("density", 1000)
	n := network.Network{Liquid: fluid.Properties{Density: density, DynamicViscosity: density * in[0].NumOr("kinematic_viscosity", 1e-6)}}
	weight := density * hydronics.StandardGravity
	nodes := map[string]int{}
	node := func(name string) int {
		i, ok := nodes[name]
		if !ok {
			i = n.AddNode(network.Node{Name: name})
			nodes[name] = i
		}
		return i
	}
	level := func(i int, r Row, column string) {
		if r.Has(column) {
			n.Nodes[i].Fixed, n.Nodes[i].Pressure = true, hydronics.Gauge(weight*r.Num(column))
		}
	}
	for _, r := range in {
		from, to := node(r.Text("from")), node(r.Text("to"))
		level(from, r, "from_level")
		level(to, r, "to_level")
		q := r.NumOr("initial_flow", 0)
		n.Nodes[from].Inflow += density * (q + r.NumOr("from_inflow", 0))
		n.Nodes[to].Inflow -= density * q
		run := network.Run{Bore: r.Num("bore"), Length: r.Num("length"), Roughness: r.NumOr("roughness", 0), Zeta: r.NumOr("zeta", 0)}
		if r.Has("darcy_f") {
			run.Zeta += r.Num("darcy_f") * run.Length / run.Bore
			run.Length = 0
		}
		n.AddBranch(network.Branch{From: from, To: to, Elements: []network.Element{run}})
	}
	s, err := n.Solve()
	if err != nil {
		return nil, err
	}
	out := make([]Row, len(in))
	for b, branch := range s.Branches {
		// Nodes stand at height 0, so that pressure is level times weight.
		from, to := float64(s.Nodes[n.Branches[b].From].Pressure)/weight, float64(s.Nodes[n.Branches[b].To].Pressure)/weight
		out[b] = Row{
			"flow": branch.Flow, "velocity": branch.Velocity, "head_loss": branch.Loss / weight, "level_from": from,
			"pressure_to": weight * (to - in[b].NumOr("to_height", 0)),
		}
	}
	return out, nil
}

// networkOperatingPoint finds where a pump's curve meets the system's.
func networkOperatingPoint() Calculation {
	return Calculation{
		Name: "network/operating_point",
		Doc:  "operating point of a pump whose curve is the parabola through three points, on a static head and a loss that grows with the square of the flow",
		Inputs: []Column{
			{Name: "shutoff_head", Kind: unit.Length, Doc: "without flow"},
			{Name: "middle_flow", Kind: unit.VolumeFlow}, {Name: "middle_head", Kind: unit.Length},
			{Name: "end_flow", Kind: unit.VolumeFlow}, {Name: "end_head", Kind: unit.Length},
			{Name: "static_head", Kind: unit.Length},
			{Name: "system_flow", Kind: unit.VolumeFlow}, {Name: "system_loss", Kind: unit.Length, Doc: "at system_flow"},
		},
		Outputs: []Column{{Name: "flow", Kind: unit.VolumeFlow}, {Name: "head", Kind: unit.Length}},
		Covers:  []string{"network.Network.Solve", "network.Solution.Pump"},
		Row: func(in Row) (Row, error) {
			const density, points = 1000.0, 50
			weight := density * hydronics.StandardGravity
			// h = h0 + b q + c q²
			q1, q2, h0 := in.Num("middle_flow"), in.Num("end_flow"), in.Num("shutoff_head")
			s1, s2 := (in.Num("middle_head")-h0)/q1, (in.Num("end_head")-h0)/q2
			c := (s2 - s1) / (q2 - q1)
			b := s1 - c*q1
			curve := make([]network.PumpPoint, points+1)
			for i := range curve {
				q := q2 * float64(i) / points
				curve[i] = network.PumpPoint{Flow: q, Head: h0 + q*(b+c*q)}
			}
			kv, err := pipe.KvFor(in.Num("system_flow"), weight*in.Num("system_loss"), density)
			if err != nil {
				return nil, err
			}
			n := network.Network{Liquid: fluid.Properties{Density: density, DynamicViscosity: 1e-3}}
			low := n.AddNode(network.Node{Fixed: true})
			high := n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Gauge(weight * in.Num("static_head"))})
			pump := n.AddBranch(network.Branch{From: low, To: high, Elements: []network.Element{
				network.Pump{Curve: curve, Speed: 1}, network.Device{Kv: kv}}})
			s, err := n.Solve()
			if err != nil {
				return nil, err
			}
			state, err := s.Pump(pump)
			return Row{"flow": state.Flow, "head": state.Head}, err
		},
	}
}

// networkAffinity takes one point of a pump to another speed.
func networkAffinity() Calculation {
	return Calculation{
		Name: "network/affinity",
		Doc:  "a point of a pump's curve at another speed",
		Inputs: []Column{
			{Name: "flow", Kind: unit.VolumeFlow}, {Name: "head", Kind: unit.Length},
			{Name: "power", Kind: unit.Power, Optional: true},
			{Name: "speed_from", Kind: unit.Number}, {Name: "speed_to", Kind: unit.Number},
		},
		Outputs: []Column{
			{Name: "new_flow", Kind: unit.VolumeFlow}, {Name: "new_head", Kind: unit.Length}, {Name: "new_power", Kind: unit.Power},
		},
		Covers: []string{"network.Solution.Pump"},
		Row: func(in Row) (Row, error) {
			const density = 1000.0
			n := network.Network{Liquid: fluid.Properties{Density: density, DynamicViscosity: 1e-3}}
			q, h, speed := in.Num("flow"), in.Num("head"), in.Num("speed_to")/in.Num("speed_from")
			power := in.NumOr("power", 0)
			curve := []network.PumpPoint{{Head: h, Power: power}, {Flow: 1e-3, Head: h / 2, Power: power}}
			if q > 0 {
				curve = []network.PumpPoint{{Head: 2 * h, Power: power}, {Flow: q, Head: h, Power: power}, {Flow: 2 * q, Head: h / 2, Power: power}}
			}
			in1 := n.AddNode(network.Node{Fixed: true})
			out := n.AddNode(network.Node{Inflow: -density * q * speed})
			pump := n.AddBranch(network.Branch{From: in1, To: out, Elements: []network.Element{
				network.Pump{Curve: curve, Speed: speed}, network.Device{Kv: 1e4}}})
			s, err := n.Solve()
			if err != nil {
				return nil, err
			}
			state, err := s.Pump(pump)
			r := Row{"new_flow": state.Flow, "new_head": state.Head}
			if state.PowerKnown {
				r["new_power"] = state.Power
			}
			return r, err
		},
	}
}

// networkInlet finds the suction head of a pump that draws from a vessel.
func networkInlet() Calculation {
	return Calculation{
		Name: "network/inlet",
		Doc:  "net positive suction head available to a pump that draws water from a vessel",
		Inputs: []Column{
			{Name: "surface_gauge", Kind: unit.GaugePressure, Doc: "pressure on the surface in the vessel"},
			{Name: "atmosphere", Kind: unit.AbsolutePressure},
			{Name: "surface_height", Kind: unit.Length, Doc: "of the surface above the pump, negative below it"},
			{Name: "suction_loss", Kind: unit.Length},
			{Name: "density", Kind: unit.Density}, {Name: "temperature", Kind: unit.Temperature},
		},
		Outputs: []Column{
			{Name: "npsh", Kind: unit.Length},
			{Name: "vapour_pressure_abs", Kind: unit.AbsolutePressure},
		},
		Covers: []string{"network.Network.Inlet"},
		Row: func(in Row) (Row, error) {
			const flow = 1e-3
			density := in.Num("density")
			weight := density * hydronics.StandardGravity
			n := network.Network{Liquid: fluid.Properties{Temperature: in.Num("temperature"), Density: density, DynamicViscosity: 1e-3}}
			vessel := n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Gauge(in.Num("surface_gauge")), Height: in.Num("surface_height")})
			suction := n.AddNode(network.Node{})
			delivery := n.AddNode(network.Node{Inflow: -flow * density})
			kv, err := pipe.KvFor(flow, weight*in.Num("suction_loss"), density)
			if err != nil {
				return nil, err
			}
			n.AddBranch(network.Branch{From: vessel, To: suction, Elements: []network.Element{network.Device{Kv: kv}}})
			pump := n.AddBranch(network.Branch{From: suction, To: delivery, Elements: []network.Element{
				network.Pump{Speed: 1, Curve: []network.PumpPoint{{Head: 10}, {Flow: 2 * flow, Head: 1}}}, network.Device{Kv: 10}}})
			s, err := n.Solve()
			if err != nil {
				return nil, err
			}
			state, err := n.Inlet(s, pump, in.Num("atmosphere"))
			return Row{"npsh": state.Available, "vapour_pressure_abs": state.VapourPressureAbs}, err
		},
	}
}

// networkBalance sets the balancing valves of a two-pipe line, one emitter per row.
func networkBalance() Calculation {
	return Calculation{
		Name: "network/balance",
		Doc:  "pre-setting of the balancing valves on a two-pipe line, one emitter per row, from the pump on",
		Inputs: []Column{
			{Name: "available", Kind: unit.Pressure, Doc: "at the beginning of the line; that of the first row counts"},
			{Name: "main_length", Kind: unit.Length, Doc: "of the stretch before the emitter, in supply and return each"},
			{Name: "main_bore", Kind: unit.SmallLength}, {Name: "roughness", Kind: unit.SmallLength},
			{Name: "design_flow", Kind: unit.VolumeFlow},
			{Name: "circuit_kv", Kind: unit.FlowCoefficient, Doc: "of the emitter with its valve"},
			{Name: "density", Kind: unit.Density}, {Name: "kinematic_viscosity", Kind: unit.KinematicViscosity},
		},
		Outputs: []Column{
			{Name: "circuit_pressure", Kind: unit.Pressure, Doc: "available to the emitter at design flows"},
			{Name: "surplus", Kind: unit.Pressure}, {Name: "balancing_kv", Kind: unit.FlowCoefficient},
		},
		Covers: []string{"network.System.Balance"},
		Case: func(in []Row) ([]Row, error) {
			density := in[0].Num("density")
			n := network.Network{Liquid: fluid.Properties{Density: density, DynamicViscosity: density * in[0].Num("kinematic_viscosity")}}
			ret := n.AddNode(network.Node{Fixed: true})
			supply := n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Gauge(in[0].Num("available"))})
			designs := make([]network.Design, len(in))
			for i, r := range in {
				main := []network.Element{network.Run{Bore: r.Num("main_bore"), Roughness: r.Num("roughness"), Length: r.Num("main_length")}}
				nextSupply, nextReturn := n.AddNode(network.Node{}), n.AddNode(network.Node{})
				n.AddBranch(network.Branch{From: supply, To: nextSupply, Elements: main})
				n.AddBranch(network.Branch{From: nextReturn, To: ret, Elements: main})
				supply, ret = nextSupply, nextReturn
				designs[i] = network.Design{Flow: r.Num("design_flow"), Branch: n.AddBranch(network.Branch{
					From: supply, To: ret, Elements: []network.Element{network.Device{Kv: pipe.Kv(r.Num("circuit_kv"))}}})}
			}
			s, err := n.Prepare()
			if err != nil {
				return nil, err
			}
			b, err := s.Balance(designs, 1)
			if err != nil {
				return nil, err
			}
			out := make([]Row, len(in))
			for i, c := range b.Circuits {
				out[i] = Row{"circuit_pressure": c.Available, "surplus": c.Surplus, "balancing_kv": float64(c.Kv)}
			}
			return out, nil
		},
	}
}

// pumpAndZones are the inputs of a source with its pump that serves zones
// between two nodes.
var pumpAndZones = []Column{
	{Name: "shutoff_head", Kind: unit.Length, Doc: "of the pump without flow; its head falls in a straight line"},
	{Name: "end_flow", Kind: unit.VolumeFlow}, {Name: "end_head", Kind: unit.Length},
	{Name: "density", Kind: unit.Density},
}

// sourceOf returns a network with one branch, the source, from its first node
// to its second.
func sourceOf(in Row, kv float64) network.Network {
	n := network.Network{Liquid: fluid.Properties{Density: in.Num("density"), DynamicViscosity: 1e-3}}
	from, to := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{})
	n.AddBranch(network.Branch{From: from, To: to, Elements: []network.Element{
		network.Device{Kv: pipe.Kv(kv)},
		network.Pump{Speed: 1, Curve: []network.PumpPoint{{Head: in.Num("shutoff_head")}, {Flow: in.Num("end_flow"), Head: in.Num("end_head")}}}}})
	return n
}

func networkBypass() Calculation {
	return Calculation{
		Name: "network/bypass",
		Doc:  "set pressure of a bypass that keeps the minimum flow of a source with two zones",
		Inputs: append([]Column{
			{Name: "source_kv", Kind: unit.FlowCoefficient}, {Name: "first_kv", Kind: unit.FlowCoefficient}, {Name: "second_kv", Kind: unit.FlowCoefficient},
			{Name: "band", Kind: unit.Pressure, Doc: "above the set pressure"}, {Name: "band_flow", Kind: unit.VolumeFlow, Doc: "through the bypass at the end of the band"},
			{Name: "minimum_flow", Kind: unit.VolumeFlow},
		}, pumpAndZones...),
		Outputs: []Column{
			{Name: "set", Kind: unit.Pressure}, {Name: "leak", Kind: unit.VolumeFlow, Doc: "through the bypass with both zones open"},
			{Name: "zone_loss", Kind: unit.Number, Doc: "share of its flow that the first zone loses by that"},
		},
		Covers: []string{"network.System.BypassSetting"},
		Row: func(in Row) (Row, error) {
			n := sourceOf(in, in.Num("source_kv"))
			zones := make([]int, 2)
			for i, name := range [2]string{"first_kv", "second_kv"} {
				zones[i] = n.AddBranch(network.Branch{From: 1, To: 0, Elements: []network.Element{network.Device{Kv: pipe.Kv(in.Num(name))}}})
			}
			bypass := n.AddBranch(network.Branch{From: 1, To: 0, Elements: []network.Element{
				network.Bypass{Slope: in.Num("band") / in.Num("band_flow"), Kvs: 1e4}}})
			s, err := n.Prepare()
			if err != nil {
				return nil, err
			}
			r, err := s.BypassSetting(bypass, 0, zones, in.Num("minimum_flow"))
			if err != nil {
				return nil, err
			}
			return Row{"set": r.Set, "leak": r.Leak, "zone_loss": r.ZoneLoss[0]}, nil
		},
	}
}

func networkValve() Calculation {
	return Calculation{
		Name: "network/valve",
		Doc:  "a control valve in a zone beside another zone",
		Inputs: append([]Column{
			{Name: "common_kv", Kind: unit.FlowCoefficient, Doc: "of the source"}, {Name: "other_kv", Kind: unit.FlowCoefficient, Doc: "of the other zone"},
			{Name: "rest_kv", Kind: unit.FlowCoefficient, Doc: "of the valve's zone without it"},
			{Name: "kvs", Kind: unit.FlowCoefficient}, {Name: "characteristic", Kind: unit.Text, Doc: "linear or equal percentage"},
			{Name: "rangeability", Kind: unit.Number}, {Name: "position", Kind: unit.Number},
		}, pumpAndZones...),
		Outputs: []Column{
			{Name: "valve_kv", Kind: unit.FlowCoefficient},
			{Name: "open", Kind: unit.Pressure, Doc: "over the valve wide open"}, {Name: "shut", Kind: unit.Pressure, Doc: "over the valve shut"},
			{Name: "authority", Kind: unit.Number}, {Name: "zone_flow", Kind: unit.VolumeFlow},
			{Name: "installed_flow", Kind: unit.Number, Doc: "share of the flow wide open, for a constant pressure over zone and valve"},
		},
		Covers: []string{"network.System.Authority", "network.Valve.Kv", "network.InstalledFlow"},
		Row: func(in Row) (Row, error) {
			n := sourceOf(in, in.Num("common_kv"))
			n.AddBranch(network.Branch{From: 1, To: 0, Elements: []network.Element{network.Device{Kv: pipe.Kv(in.Num("other_kv"))}}})
			v := network.Valve{Kvs: pipe.Kv(in.Num("kvs")), Rangeability: in.Num("rangeability"), Position: in.Num("position")}
			if in.Text("characteristic") == network.EqualPercentage.String() {
				v.Characteristic = network.EqualPercentage
			}
			zone := n.AddBranch(network.Branch{From: 1, To: 0, Elements: []network.Element{v, network.Device{Kv: pipe.Kv(in.Num("rest_kv"))}}})
			kv, err := v.Kv()
			if err != nil {
				return nil, err
			}
			s, err := n.Prepare()
			if err != nil {
				return nil, err
			}
			a, err := s.Authority(zone)
			if err != nil {
				return nil, err
			}
			installed, err := network.InstalledFlow(a.Value, float64(kv/v.Kvs))
			if err != nil {
				return nil, err
			}
			r, err := s.Solve()
			if err != nil {
				return nil, err
			}
			return Row{"valve_kv": float64(kv), "open": a.Open, "shut": a.Shut, "authority": a.Value,
				"zone_flow": r.Branches[zone].Flow, "installed_flow": installed}, nil
		},
	}
}

func networkSeparator() Calculation {
	return Calculation{
		Name: "network/separator",
		Doc:  "temperatures on both sides of a hydraulic separator",
		Inputs: []Column{
			{Name: "primary_flow", Kind: unit.MassFlow}, {Name: "secondary_flow", Kind: unit.MassFlow},
			{Name: "source", Kind: unit.Temperature, Doc: "that the primary circuit delivers"},
			{Name: "heat", Kind: unit.Power, Doc: "that the secondary circuit gives off"},
			{Name: "specific_heat", Kind: unit.SpecificHeat},
		},
		Outputs: []Column{
			{Name: "secondary_supply", Kind: unit.Temperature}, {Name: "secondary_return", Kind: unit.Temperature},
			{Name: "primary_return", Kind: unit.Temperature},
		},
		Covers: []string{"network.Network.Temperatures"},
		Row: func(in Row) (Row, error) {
			const density, drive = 1000.0, 10 * hydronics.Kilopascal
			n := network.Network{Liquid: fluid.Properties{Density: density, DynamicViscosity: 1e-3, SpecificHeat: in.Num("specific_heat")}}
			top, bottom := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{})
			n.AddBranch(network.Branch{From: top, To: bottom, Elements: []network.Element{network.Device{Kv: 1e5}}})
			circuit := func(from, to int, mass float64) (int, error) {
				kv, err := pipe.KvFor(mass/density, drive, density)
				return n.AddBranch(network.Branch{From: from, To: to, Elements: []network.Element{network.Lift{Pressure: drive}, network.Device{Kv: kv}}}), err
			}
			primary, err := circuit(bottom, top, in.Num("primary_flow"))
			if err != nil {
				return nil, err
			}
			secondary, err := circuit(top, bottom, in.Num("secondary_flow"))
			if err != nil {
				return nil, err
			}
			s, err := n.Solve()
			if err != nil {
				return nil, err
			}
			t, err := n.Temperatures(s, in.Num("source"), []network.Heat{
				{Branch: primary, Exchange: network.Delivers, Temperature: in.Num("source")},
				{Branch: secondary, Exchange: network.GivesOff, Power: in.Num("heat")}})
			if err != nil {
				return nil, err
			}
			return Row{"secondary_supply": t.Branches[secondary].In, "secondary_return": t.Branches[secondary].Out,
				"primary_return": t.Branches[primary].In}, nil
		},
	}
}

// networkExempt names the exported functions and methods of package
// pipe/network that no published value can check, each with the reason.
func networkExempt() map[string]string {
	const (
		building = "puts a network together, no number to check"
		search   = "a search over solutions; tests assert that its answer, put back into the network, gives what was asked"
	)
	return map[string]string{
		"network.Network.AddNode":       building,
		"network.Network.AddBranch":     building,
		"network.Network.Clone":         building,
		"network.Network.Filled":        building,
		"network.Network.Fouled":        building,
		"network.System.Branch":         building,
		"network.System.Apply":          building,
		"network.System.Change":         building,
		"network.System.Shut":           building,
		"network.Balancing.Apply":       building,
		"network.TwoPipe":               "makes networks of any size for trials of speed, no number to check",
		"network.Characteristic.String": "words",
		"network.Inlet.Judge":           "words and bookkeeping; the limits are the maker's",
		"network.System.DesignSpeed":    search,
		"network.System.SpeedFor":       search,
		"network.System.Combinations":   search,
		"network.Network.Warm":          "repeats Solve and Temperatures until they agree, which a test asserts",
		"network.ThreePort.A":           building,
		"network.ThreePort.B":           building,
		"network.Thermostatic.Kv":       "the definition of the valve",
	}
}

package job

import (
	"errors"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

// The branches of the heating network, before the circuits.
const (
	branchUnit = iota // circulator and unit, from the return to the supply
	branchSupply
	branchReturn
	branchBypass
	branchCircuits // the first of them
)

// leastAtValve is what the balancing valve of the index circuit keeps, since
// valves are measured at about 3 kPa (common practice, see package network).
const leastAtValve = 3 * hydronics.Kilopascal

// balance solves the heating network: the pre-settings at which all design flows
// establish themselves, and what becomes of the unit's flow when circuits shut.
//
// The circulator keeps the pressure that the design needs as long as its curve
// allows. A fixed speed would give more flow with circuits shut, so this is the
// safe side for the unit's least flow.
func (p *plant) balance(s *Sheet) error {
	heating := &s.Modes[0]
	if p.parted() {
		for i := range p.mixtures {
			p.mixtures[i].difference = 0 // a buffer takes next to none
		}
		if p.straight() == 0 {
			return nil
		}
		heating = &s.Modes[1]
	}
	if !(heating.Required+leastAtValve <= float64(heating.Available)) {
		return nil // the circulator is judged too small: there is nothing to balance
	}
	outlets := p.outlets()
	n, err := p.network(heating, outlets)
	if err != nil {
		return err
	}
	system, err := n.Prepare()
	if err != nil {
		return err
	}
	designs := make([]network.Design, len(outlets))
	for i := range outlets {
		designs[i] = network.Design{Branch: branchCircuits + i, Flow: outlets[i].flow}
	}
	balanced, err := system.Balance(designs, 1)
	if err != nil {
		return err
	}
	s.Presets = slices.Grow(s.Presets, p.straight())
	for i, c := range balanced.Circuits {
		if outlets[i].mixture == nil { // a mixing valve finds its place by itself
			s.Presets = append(s.Presets, Preset{outlets[i].name, c.Flow, c.Surplus, float64(c.Kv)})
		}
	}
	if err := system.Apply(balanced); err != nil {
		return err
	}
	return p.cases(s, system, outlets)
}

// An outlet is what draws from the distributor: a circuit, or a mixing valve.
type outlet struct {
	name    string
	flow    float64
	liquid  fluid.Properties
	element network.Element
	shuts   bool
	mixture *mixture // or nil
}

// outlets are the circuits without a mixing valve and, where no buffer parts the
// waters, the mixing valves. A valve that gets what it needs shuts.
func (p *plant) outlets() []outlet {
	all := make([]outlet, 0, len(p.circuits)+len(p.mixtures))
	for i := range p.circuits {
		if l := &p.circuits[i]; l.mixture == nil {
			all = append(all, outlet{l.circuit.Name, l.flow, l.liquid, network.Run(l.run()), l.circuit.Shuts, nil})
		}
	}
	if p.parted() {
		return all
	}
	for i := range p.mixtures {
		m := &p.mixtures[i]
		all = append(all, outlet{m.group.Name, m.drawn, m.through, network.Device{Kv: openWay}, true, m})
	}
	return all
}

// network is the heating network with its circulator.
func (p *plant) network(heating *Mode, outlets []outlet) (network.Network, error) {
	const returnNode, unitNode, supplyNode, backNode = 0, 1, 2, 3
	density := p.returned.Density
	house := heating.Name == ModeHouse
	curve, unit := p.job.Unit.Pump, []network.Element{}
	if house {
		curve = p.job.Buffer.Pump
		unit = append(unit, network.Device{Kv: openWay}) // the buffer resists next to nothing
	} else {
		stated := []IndoorUnit{{LossFlow: p.job.Unit.LossFlow, Loss: p.job.Unit.Loss}}
		if x := p.job.Indoor; x != nil {
			stated = append(stated, *x)
		}
		for _, x := range stated {
			if x.Loss == 0 {
				continue
			}
			kv, err := pipe.KvFor(x.LossFlow, x.Loss, waterDensity)
			if err != nil {
				return network.Network{}, err
			}
			unit = append(unit, network.Device{Kv: kv})
		}
	}
	// A pressure below the end of the curve cannot be kept at every flow.
	set := math.Max(heating.Required+leastAtValve, curve[len(curve)-1].Head*(1+1e-9))
	pump := network.Pump{Curve: pumpCurve(curve, density), Speed: 1, Control: network.ConstantPressure, Set: set}
	n := network.Network{Liquid: p.supplied, Nodes: []network.Node{
		{Name: "return", Fixed: true, Pressure: hydronics.Bar}, {Name: "unit"}, {Name: "supply"}, {Name: "back"}}}
	n.Branches = make([]network.Branch, branchCircuits, branchCircuits+len(outlets))
	n.Branches[branchUnit] = network.Branch{Name: "unit", From: returnNode, To: unitNode, Liquid: p.returned, Elements: append(unit, pump)}
	n.Branches[branchSupply] = network.Branch{Name: "supply", From: unitNode, To: supplyNode}
	n.Branches[branchReturn] = network.Branch{Name: "return", From: backNode, To: returnNode, Liquid: p.returned}
	for i := range p.pieces {
		q := &p.pieces[i]
		if house || !q.flows(ModeHeating) {
			continue
		}
		run, err := q.run()
		if err != nil {
			return network.Network{}, err
		}
		b := &n.Branches[branchSupply]
		if q.route.Line == "return" {
			b = &n.Branches[branchReturn]
		}
		b.Elements = append(b.Elements, network.Run(run))
	}
	for _, b := range []int{branchSupply, branchReturn} {
		if len(n.Branches[b].Elements) == 0 {
			n.Branches[b].Elements = []network.Element{network.Device{Kv: openWay}}
		}
	}
	bypass, err := p.bypass(p.supplied)
	if err != nil {
		return network.Network{}, err
	}
	n.Branches[branchBypass] = network.Branch{Name: "bypass", From: supplyNode, To: backNode, Elements: []network.Element{bypass}, Shut: p.job.Bypass == nil}
	for i := range outlets {
		o := &outlets[i]
		n.Branches = append(n.Branches, network.Branch{Name: o.name, From: supplyNode, To: backNode, Liquid: o.liquid, Elements: []network.Element{o.element}})
	}
	return n, nil
}

// pumpCurve is a curve in heads of a liquid, as package network takes it.
func pumpCurve(curve []PumpPoint, density float64) []network.PumpPoint {
	points := make([]network.PumpPoint, len(curve))
	for i, x := range curve {
		points[i] = network.PumpPoint{Flow: x.Flow, Head: x.Head / (density * hydronics.StandardGravity)}
	}
	return points
}

// openWay stands for what resists next to nothing, m³/h.
const openWay = 200

// bypass is the bypass of the job as package network takes it; one that never
// opens where there is none.
func (p *plant) bypass(liquid fluid.Properties) (network.Bypass, error) {
	b := p.job.Bypass
	if b == nil {
		return network.Bypass{Set: hydronics.Bar, Slope: 1, Kvs: 1}, nil
	}
	open, err := pipe.Kv(b.Kv).Flow(b.Opens+b.Band, liquid.Density)
	return network.Bypass{Set: b.Opens, Slope: b.Band / open, Kvs: pipe.Kv(b.Kv)}, err
}

// cases shuts circuits and reports the flow that is left to the unit.
func (p *plant) cases(s *Sheet, system *network.System, outlets []outlet) error {
	var shutting []int
	for i := range outlets {
		if outlets[i].shuts {
			shutting = append(shutting, i)
		}
	}
	s.Cases = slices.Grow(s.Cases, 3)
	if err := solveCase(s, system, outlets, "all open"); err != nil {
		return err
	}
	if len(shutting) == 0 {
		return nil
	}
	// One open: the one that resists most, of those that can shut.
	last := shutting[0]
	for _, i := range shutting {
		if outlets[i].flow < outlets[last].flow {
			last = i
		}
	}
	for _, i := range shutting {
		if err := system.Shut(branchCircuits+i, i != last); err != nil {
			return err
		}
	}
	if err := solveCase(s, system, outlets, "one open: "+outlets[last].name); err != nil {
		return err
	}
	if err := system.Shut(branchCircuits+last, true); err != nil {
		return err
	}
	return solveCase(s, system, outlets, "all shut that can shut")
}

// solveCase adds a case. The first is the design: there the pressure between supply
// and return is read where mixing valves are joined.
func solveCase(s *Sheet, system *network.System, outlets []outlet, name string) error {
	first := len(s.Cases) == 0
	c := Case{Name: name}
	r, err := system.Solve()
	if errors.Is(err, hydronics.ErrNoSolution) { // nothing is open
		s.Cases = append(s.Cases, c)
		return nil
	}
	if err != nil {
		return err
	}
	unit := &r.Branches[branchUnit]
	c.UnitFlow, c.Bypass, c.Pressure = unit.Flow, r.Branches[branchBypass].Flow, unit.Gain
	for i := range outlets {
		branch := &r.Branches[branchCircuits+i]
		if v := math.Abs(branch.Velocity); v > c.Greatest {
			c.Greatest, c.In = v, outlets[i].name
		}
		if m := outlets[i].mixture; m != nil && first {
			m.difference = branch.Difference
		}
	}
	s.Cases = append(s.Cases, c)
	return nil
}

// judgeLeastFlow judges the unit's flow in the worst of the cases.
func (p *plant) judgeLeastFlow(s *Sheet) {
	f := hydronics.Finding{
		Rule: "the unit keeps its least flow whatever circuits are shut", Subject: "outdoor unit",
		Danger:   "with every controlled zone shut the unit stops on its flow switch, or cannot defrost",
		Quantity: "flow", Unit: "m³/s", Bound: hydronics.AtLeast, Value: p.neverShutFlow, Limit: p.job.Unit.LeastFlow,
		Source: stated("papers of the unit"),
	}
	switch b := p.job.Buffer; {
	case b != nil && b.Joined == between:
		f.Value = b.Flow
	case len(s.Cases) > 0:
		f.Value = math.Inf(1)
		for _, c := range s.Cases {
			f.Value = math.Min(f.Value, c.UnitFlow)
		}
		f.Uncertainty = flowUncertainty * f.Value
	}
	s.add(Circuits, groupLeastFlow, f.Judge())
}

// flowUncertainty is that of a flow where the losses are uncertain by a tenth: the
// flow goes with the root of the pressure.
const flowUncertainty = 0.05

package job

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

// A mixture is a group of circuits behind a mixing valve, with its words resolved.
// The valve takes hot liquid from the distributor, or from a buffer that stands
// between, and makes up the rest of the group's flow from the group's own return.
// Only what it draws comes from the unit and goes back to it. The group's circulator is
// taken to drive the group alone: on the distributor's side the valve passes what it
// draws and takes up the pressure that it finds there.
type mixture struct {
	group *MixingGroup
	loops []*loop

	heat       float64          // W, of its circuits
	ret        float64          // °C, mixed from its circuits
	flow       float64          // m³/s, of its circuits together
	drawn      float64          // m³/s at the mean of the unit's supply and the group's return
	share      float64          // of the hot liquid in what flows, by mass
	liquid     fluid.Properties // at the mixed temperature
	through    fluid.Properties // between the unit's supply and the group's return
	difference float64          // Pa between supply and return where it is joined; NaN while not known
}

// resolveMixing finds which circuits stand behind which valve.
func (p *plant) resolveMixing(f *Faults) {
	d := &p.job.Distribution
	p.mixtures = make([]mixture, len(d.Mixing))
	for i := range d.Mixing {
		g := &d.Mixing[i]
		path := place{"distribution.mixing_groups", i, "", 0}
		p.mixtures[i] = mixture{group: g, difference: math.NaN()}
		for k := range i {
			if d.Mixing[k].Name == g.Name {
				*f = append(*f, Fault{path.String() + ".name", fmt.Sprintf("%q", g.Name), "a name of its own"})
			}
		}
		checkCurve(g.Pump, path.String()+".pump_curve", f)
	}
	for i := range p.circuits {
		l := &p.circuits[i]
		if l.circuit.MixedBy == "" {
			continue
		}
		for k := range p.mixtures {
			if m := &p.mixtures[k]; m.group.Name == l.circuit.MixedBy && l.mixture == nil {
				l.mixture, m.loops = m, append(m.loops, l)
			}
		}
		if l.mixture == nil {
			*f = append(*f, Fault{place{"distribution.circuits", i, "", 0}.String() + ".mixed_by", fmt.Sprintf("%q", l.circuit.MixedBy), "the name of one of distribution.mixing_groups"})
		}
	}
	for i := range p.mixtures {
		if len(p.mixtures[i].loops) == 0 {
			*f = append(*f, Fault{place{"distribution.mixing_groups", i, "", 0}.String(), "no circuit", "at least one circuit that names it in mixed_by"})
		}
	}
}

// supply is the temperature that reaches the circuit, and its key in the file.
func (p *plant) supplyOf(l *loop) (supply float64, key string) {
	if l.mixture == nil {
		return p.job.Unit.Supply, "outdoor_unit.supply_c"
	}
	return l.mixture.group.Supply, "supply_c of its mixing group"
}

// findMixture adds up the circuits of a group and finds what it draws:
//
//	ṁ c (Tsupply - Treturn) = ṁgroup c (Tmixed - Treturn)
//
// the heat of the circuits on both sides. Where the unit's supply is no warmer than
// what is asked for, the valve stands wide open and draws all that flows.
func (p *plant) findMixture(m *mixture) error {
	mass, weighted := 0.0, 0.0
	for _, l := range m.loops {
		m.heat += l.circuit.Heat
		m.flow += l.flow
		mass += l.flow * l.liquid.Density
		weighted += l.flow * l.circuit.Return
	}
	m.ret = weighted / m.flow
	var err1, err2, err3 error
	m.liquid, err1 = p.liquid.At(m.group.Supply)
	m.drawn, m.share = m.flow, 1
	supply := m.group.Supply
	if p.job.Unit.Supply > supply {
		supply = p.job.Unit.Supply
		m.drawn, err2 = pipe.FlowForHeat(m.heat, supply, m.ret, p.liquid)
	}
	m.through, err3 = p.liquid.At((supply + m.ret) / 2)
	if err := errors.Join(err1, err2, err3); err != nil {
		return err
	}
	m.share = m.drawn * m.through.Density / mass
	return nil
}

// judgeMixing judges the groups: temperatures, circulator, valve and limiter.
func (p *plant) judgeMixing(s *Sheet) error {
	for i := range p.mixtures {
		if err := p.judgeMixture(s, &p.mixtures[i]); err != nil {
			return err
		}
	}
	return nil
}

func (p *plant) judgeMixture(s *Sheet, m *mixture) error {
	g := m.group
	valve, err := pipe.Kv(g.Kv).Loss(m.flow, m.liquid.Density)
	if err != nil {
		return err
	}
	index := m.loops[0]
	for _, l := range m.loops {
		if l.loss.Total > index.loss.Total {
			index = l
		}
	}
	line := MixedLine{Name: g.Name, Supply: g.Supply, Return: m.ret, Heat: m.heat, Flow: m.flow, Drawn: m.drawn, Share: m.share,
		Valve: valve, Others: g.Loss, Worst: index.loss.Total, Index: index.circuit.Name, Required: valve + g.Loss + index.loss.Total,
		Available: Number(headAt(g.Pump, m.flow)), Kept: Number(math.NaN()), Difference: Number(m.difference), Authority: Number(math.NaN()),
		Limiter: Number(g.Limiter), Content: g.Content}
	variance := square(lossUncertainty(index.loss)) + square(fittingUncertainty*valve) + square(fittingUncertainty*g.Loss)
	s.add(Circuits, groupMixedSupply, hydronics.Finding{
		Rule: "the unit's supply is at least as warm as what the mixing valve has to give", Subject: g.Name,
		Danger: "a mixing valve only cools: the circuits behind it stay colder than designed", Quantity: "supply temperature of the unit", Unit: "°C",
		Bound: hydronics.AtLeast, Value: p.job.Unit.Supply, Limit: g.Supply, Source: stated("supply temperatures of the unit and of the mixing group"),
	}.Judge())
	s.add(Circuits, groupMixedPump, hydronics.Finding{
		Rule: "the circulator of the mixing group overcomes the losses at its design flow", Subject: g.Name,
		Danger: "too little flow: the rooms stay cold, far circuits first", Quantity: "pressure that the group takes", Unit: "Pa",
		Bound: hydronics.AtMost, Value: line.Required, Limit: float64(line.Available), Uncertainty: math.Sqrt(variance),
		Source: hydronics.Source{Text: "C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133, for the losses; pump curve of the job file", Provenance: hydronics.SecondHand},
	}.Judge())
	if err := p.balanceMixture(s, m, &line); err != nil {
		return err
	}
	if !math.IsNaN(m.difference) {
		a := valveAuthority(valve, m.difference)
		line.Authority = Number(a)
		s.add(Circuits, groupMixedValve, hydronics.Finding{
			Rule: "the mixing valve rules its flow", Subject: g.Name,
			Danger: "the supply hunts between too hot and too cold, the valve wears, and hot liquid reaches the floor", Quantity: "authority",
			Bound: hydronics.AtLeast, Value: a, Limit: leastAuthority, Uncertainty: fittingUncertainty * a * (1 - a),
			Source: custom("authority of control valves, 0.3 to 0.5 or more"),
		}.Judge())
	}
	p.judgeLimiter(s, m)
	s.add(Circuits, groupNone, hydronics.OnSite("nothing flows through the group while its circulator rests", g.Name,
		custom("non-return valves about mixing valves"), "floors warm up in summer, and hot liquid gets behind the valve"))
	s.Mixed = append(s.Mixed, line)
	return nil
}

// leastAuthority is what package network gives as the lower end of the usual.
const leastAuthority = 0.3

// valveAuthority is the pressure over the valve wide open at the group's flow, as a
// share of that over its hot way shut: then the pressure between supply and return
// of the distributor stands over it besides what the liquid loses on its cold way.
// The pressure of the distributor drives the open valve too; without counting that
// the authority comes out on the safe side.
func valveAuthority(open, difference float64) float64 { return open / (open + difference) }

// judgeLimiter judges what keeps floors from getting too hot.
func (p *plant) judgeLimiter(s *Sheet, m *mixture) {
	g := m.group
	floor := false
	for _, l := range m.loops {
		floor = floor || l.circuit.Emitter == "floor"
	}
	if !floor {
		return
	}
	const danger = "cracked screed, burnt feet"
	practice := custom("floor heating beside hotter heat sources")
	has := !math.IsNaN(g.Limiter)
	s.add(Circuits, groupLimiter, hydronics.Statement("a limiter that depends on no controller stops the supply of the floors when it gets too hot", g.Name, has, practice, danger))
	if has {
		s.add(Circuits, groupNone, hydronics.Finding{
			Rule: "the limiter of the floors lets the design supply pass", Subject: g.Name, Danger: "the limiter stops the floors on every cold day",
			Quantity: "setting of the limiter", Unit: "°C", Bound: hydronics.AtLeast, Value: g.Limiter, Limit: g.Supply, Source: practice,
		}.Judge())
	}
	if math.IsNaN(g.Highest) {
		s.add(Circuits, groupNone, hydronics.OnSite("the limiter of the floors is set to what screed and covering stand", g.Name, practice, danger))
		return
	}
	papers := stated("papers of screed and covering")
	if has {
		s.add(Circuits, groupLimiter, hydronics.Finding{
			Rule: "the limiter of the floors is set to no more than screed and covering stand", Subject: g.Name, Danger: danger,
			Quantity: "setting of the limiter", Unit: "°C", Bound: hydronics.AtMost, Value: g.Limiter, Limit: g.Highest, Source: papers,
		}.Judge())
	}
	s.add(Circuits, groupNone, hydronics.Finding{
		Rule: "the supply of the floors is no hotter than screed and covering stand", Subject: g.Name, Danger: danger,
		Quantity: "mixed supply", Unit: "°C", Bound: hydronics.AtMost, Value: g.Supply, Limit: g.Highest, Source: papers,
	}.Judge())
}

// balanceMixture finds the pre-settings of the group's circuits. Liquid that mixes
// passes both ways of the valve side by side, which resist together as the one that
// is wide open does, so that the group is a ring of its own with the valve in it.
func (p *plant) balanceMixture(s *Sheet, m *mixture, line *MixedLine) error {
	if !(line.Required+leastAtValve <= float64(line.Available)) {
		return nil // the circulator is judged too small: there is nothing to balance
	}
	const back, out, ring = 0, 1, 0
	curve := m.group.Pump
	pump := network.Pump{Curve: pumpCurve(curve, m.liquid.Density), Speed: 1, Control: network.ConstantPressure,
		Set: math.Max(line.Required+leastAtValve, curve[len(curve)-1].Head*(1+1e-9))}
	drive := network.Branch{Name: m.group.Name, From: back, To: out, Elements: []network.Element{network.Device{Kv: pipe.Kv(m.group.Kv)}, pump}}
	if m.group.Loss > 0 {
		kv, err := pipe.KvFor(m.flow, m.group.Loss, m.liquid.Density)
		if err != nil {
			return err
		}
		drive.Elements = append(drive.Elements, network.Device{Kv: kv})
	}
	n := network.Network{Liquid: m.liquid, Nodes: []network.Node{{Name: "back", Fixed: true, Pressure: hydronics.Bar}, {Name: "out"}}, Branches: []network.Branch{drive}}
	designs := make([]network.Design, len(m.loops))
	for i, l := range m.loops {
		designs[i] = network.Design{Branch: ring + 1 + i, Flow: l.flow}
		n.Branches = append(n.Branches, network.Branch{Name: l.circuit.Name, From: out, To: back, Liquid: l.liquid, Elements: []network.Element{network.Run(l.run())}})
	}
	system, err := n.Prepare()
	if err != nil {
		return err
	}
	balanced, err := system.Balance(designs, 1)
	if err != nil {
		return err
	}
	for i, c := range balanced.Circuits {
		s.Presets = append(s.Presets, Preset{m.loops[i].circuit.Name, c.Flow, c.Surplus, float64(c.Kv)})
	}
	line.Kept = Number(pump.Set)
	return nil
}

package job

import (
	"example.com/hydronics"
	"example.com/hydronics/pipe"
)

// judgeService judges what makes the primary circuit serviceable: vents at its
// high points, a strainer, valves to shut, tubes that keep oxygen out.
func (p *plant) judgeService(s *Sheet) error {
	practice := custom("heating circuits with a heat pump")
	if err := p.judgeVents(s); err != nil {
		return err
	}
	shuts := map[string]bool{}
	filtered := false
	for i := range p.job.Routes {
		r := &p.job.Routes[i]
		for k := range r.Stretches {
			for _, d := range r.Stretches[k].Devices {
				shuts[r.Line] = shuts[r.Line] || d.Kind == shutOff || d.Kind == closingValve
				filtered = filtered || d.Kind == strainer && r.Line == "return" && r.Serves == "all"
			}
		}
	}
	s.add(Primary, groupService,
		hydronics.Statement("a strainer stands in the return to the unit", "return", filtered, practice, "dirt blocks the unit's exchanger, which then freezes in a defrost"),
		hydronics.Statement("supply and return can be shut for service", "routes", shuts["supply"] && shuts["return"], practice, "the whole house is emptied to clean a strainer"))
	p.judgeOxygen(s)
	return nil
}

// judgeVents judges whether air can leave the routes when they are filled. The two
// ends of a route count as vented: air goes on into the next route, the
// distributor or the unit, where it is judged again or let out by hand.
func (p *plant) judgeVents(s *Sheet) error {
	f := hydronics.Finding{
		Rule: "an air vent at every high point", Subject: "routes", Danger: "air blocks the flow, makes noise and rusts steel",
		Quantity: "length that keeps air", Unit: "m", Bound: hydronics.AtMost, Limit: 0, Source: custom("air vents at high points"),
	}
	for i := range p.job.Routes {
		r := &p.job.Routes[i]
		points, ends := r.points()
		vents := []int{0, len(points) - 1}
		for k := range r.Stretches {
			for _, d := range r.Stretches[k].Devices {
				if d.Kind == ventAutomatic || d.Kind == ventManual || d.Kind == airInlet {
					vents = append(vents, ends[k])
				}
			}
		}
		pockets, err := points.HeldAir(vents...)
		if err != nil {
			return err
		}
		held := 0.0
		for _, pocket := range pockets {
			held += pocket.Length
		}
		if held > f.Value {
			f.Subject, f.Value = r.Name, held
		}
	}
	s.add(Primary, groupVents, f.Judge())
	return nil
}

func (p *plant) judgeOxygen(s *Sheet) {
	tight, where := true, "plastic tubes"
	any := false
	check := func(t *pipe.Tube, barrier bool, name string) {
		if !t.OxygenPermeable {
			return
		}
		any = true
		if !barrier && tight {
			tight, where = false, name
		}
	}
	for i := range p.pieces {
		check(&p.pieces[i].tube, p.pieces[i].route.Barrier, p.pieces[i].route.Name)
	}
	for i := range p.circuits {
		check(&p.circuits[i].tube, p.circuits[i].circuit.Barrier, p.circuits[i].circuit.Name)
	}
	if any {
		s.add(Circuits, groupOxygen, hydronics.Statement("plastic tube has a layer that keeps oxygen out", where, tight,
			custom("plastic tubes in closed heating circuits"), "oxygen rusts steel in the circuit and the sludge blocks the unit"))
	}
}

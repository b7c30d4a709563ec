package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// trials returns what may help against a finding, the smallest change first.
func trials(j *Job, s *Sheet, f *Finding) []trial {
	switch f.group {
	case groupPump:
		return pumpTrials(j, s)
	case groupVelocity:
		return velocityTrials(j, f)
	case groupOutput:
		least := math.Ceil(f.Limit/500) * 500
		return []trial{{changes: []Change{amount("output of the unit, at least", least, "W")},
			apply: func(j *Job) { j.Unit.Output, j.Unit.GreatestOutput = least, max(least, j.Unit.GreatestOutput) }}}
	case groupLeastFlow:
		return leastFlowTrials(j, s)
	case groupBufferFlow:
		return bufferFlowTrials(f)
	case groupMixedSupply:
		return mixedSupplyTrials(j, f.Subject)
	case groupMixedPump:
		return mixedPumpTrials(j, s, f.Subject)
	case groupMixedValve:
		return mixedValveTrials(j, s, f.Subject)
	case groupLimiter:
		return limiterTrials(j, f.Subject)
	case groupContent:
		return bufferTrials(j)
	case groupOxygen:
		return []trial{{changes: []Change{words("plastic tubes", "with a layer that keeps oxygen out")}, apply: func(j *Job) {
			for i := range j.Routes {
				j.Routes[i].Barrier = true
			}
			for i := range j.Distribution.Circuits {
				j.Distribution.Circuits[i].Barrier = true
			}
		}}}
	case groupReliefSet, groupReliefSize:
		return reliefTrials(j, s)
	case groupVessel:
		return vesselTrials(j)
	case groupInlet:
		return inletTrials(j, s)
	case groupFilling:
		return fillingTrials()
	case groupFrost:
		return frostTrials(j)
	case groupAntifreeze:
		return antifreezeTrials(j)
	case groupBrine:
		return glycolTrials(s)
	case groupOutdoors:
		return append(append(moveTrials(j, f), outdoorTrials(j)...), completeTrials(0.04)...)
	case groupVents:
		return []trial{{changes: []Change{words("air vents, worked by hand", "at every high point of the routes")}, apply: addVents}}
	case groupService:
		return serviceTrials()
	case groupDemand:
		return demandTrials(j)
	case groupReheat:
		return reheatTrials(j)
	case groupPotableRelief:
		return dnTrials()
	case groupSetPressure, groupPotableVessel:
		return potableTrials(j)
	case groupDischarge:
		return dischargeTrials(j)
	case groupFeed:
		return feedTrials(j)
	case groupOverheating:
		return overheatingTrials(j)
	case groupHygiene:
		return hygieneTrials(j)
	}
	return nil
}

// larger returns the next tubes of the same series, smallest first.
func larger(designation string, most int) []string {
	t, err := pipe.Find(designation)
	if err != nil {
		return nil
	}
	var found []string
	for _, series := range pipe.AllSeries() {
		if !strings.HasPrefix(t.Designation, string(series)+" ") {
			continue
		}
		tubes, err := series.Tubes()
		if err != nil {
			return nil
		}
		bore := t.Bore()
		for len(found) < most {
			next := -1
			for i := range tubes {
				if tubes[i].Bore() > 1.08*bore && (next < 0 || tubes[i].Bore() < tubes[next].Bore()) {
					next = i
				}
			}
			if next < 0 {
				break
			}
			bore = tubes[next].Bore()
			found = append(found, tubes[next].Designation)
		}
	}
	return found
}

// widen replaces a tube everywhere in the routes that are not there yet.
func widen(j *Job, from, to string) bool {
	changed := false
	for i := range j.Routes {
		r := &j.Routes[i]
		if r.Exists {
			continue
		}
		if r.Tube == from {
			r.Tube, changed = to, true
		}
		for k := range r.Stretches {
			if r.Stretches[k].Tube == from {
				r.Stretches[k].Tube, changed = to, true
			}
		}
	}
	return changed
}

// routeTubes are the different tubes of the routes that are not there yet.
func routeTubes(j *Job) []string {
	var found []string
	add := func(t string) {
		if t != "" && !contains(found, t) {
			found = append(found, t)
		}
	}
	for i := range j.Routes {
		if j.Routes[i].Exists {
			continue
		}
		add(j.Routes[i].Tube)
		for k := range j.Routes[i].Stretches {
			add(j.Routes[i].Stretches[k].Tube)
		}
	}
	return found
}

func pumpTrials(j *Job, s *Sheet) []trial {
	var all []trial
	tubes := routeTubes(j)
	for step := 1; step <= 3; step++ {
		var changes []Change
		swap := map[string]string{}
		for _, t := range tubes {
			if next := larger(t, step); len(next) == step {
				swap[t] = next[step-1]
				changes = append(changes, words("tube of the routes, in place of "+t, next[step-1]))
			}
		}
		if len(changes) > 0 {
			all = append(all, trial{changes: changes, apply: func(j *Job) { widenAll(j, swap) }})
		}
	}
	for i := range j.Distribution.Circuits {
		c := &j.Distribution.Circuits[i]
		if c.Name != s.Modes[0].Index {
			continue
		}
		for _, next := range larger(c.Tube, 2) {
			all = append(all, trial{changes: []Change{words("tube of "+c.Name, next)}, apply: func(j *Job) { j.Distribution.Circuits[i].Tube = next }})
		}
		if c.Emitter == "floor" {
			all = append(all, trial{changes: []Change{words(c.Name, "two circuits of half the length")}, apply: func(j *Job) { halve(j, i) }})
		}
	}
	return all
}

// halve makes two circuits of one.
func halve(j *Job, i int) {
	c := &j.Distribution.Circuits[i]
	c.Length, c.Heat, c.Content = c.Length/2, c.Heat/2, c.Content/2
	other := *c
	c.Name, other.Name = c.Name+" 1", c.Name+" 2"
	j.Distribution.Circuits = append(j.Distribution.Circuits, other)
}

func widenAll(j *Job, swap map[string]string) {
	before := clone(j) // a size must not be swapped twice
	for from, to := range swap {
		for i := range before.Routes {
			if before.Routes[i].Exists {
				continue
			}
			if before.Routes[i].Tube == from {
				j.Routes[i].Tube = to
			}
			for k := range before.Routes[i].Stretches {
				if before.Routes[i].Stretches[k].Tube == from {
					j.Routes[i].Stretches[k].Tube = to
				}
			}
		}
	}
}

func velocityTrials(j *Job, f *Finding) []trial {
	var all []trial
	if f.Part == Primary {
		for _, t := range routeTubes(j) {
			for _, next := range larger(t, 3) {
				all = append(all, trial{changes: []Change{words("tube of the routes, in place of "+t, next)}, apply: func(j *Job) { widen(j, t, next) }})
			}
		}
		return all
	}
	for i := range j.Distribution.Circuits {
		if c := &j.Distribution.Circuits[i]; c.Name == f.Subject {
			for _, next := range larger(c.Tube, 3) {
				all = append(all, trial{changes: []Change{words("tube of "+c.Name, next)}, apply: func(j *Job) { j.Distribution.Circuits[i].Tube = next }})
			}
		}
	}
	return all
}

// leastFlowTrials open a bypass, or leave circuits open.
func leastFlowTrials(j *Job, s *Sheet) []trial {
	var all []trial
	if len(s.Cases) > 0 {
		design := s.Modes[0].Worst + leastAtValve // between supply and return at the distributor
		for _, over := range []float64{1.1, 1.05, 1} {
			opens := math.Ceil(over*design/500) * 500
			for _, kv := range []float64{1.6, 2.5, 4, 6.3} {
				b := Bypass{Opens: opens, Band: 5 * hydronics.Kilopascal, Kv: kv}
				all = append(all, trial{changes: []Change{amount("differential-pressure bypass, opens at", opens, "Pa"), amount("its Kv, fully open", kv, "m³/h")},
					apply: func(j *Job) { j.Bypass = &b }})
			}
		}
	}
	var names []string
	for i := range j.Distribution.Circuits {
		if c := &j.Distribution.Circuits[i]; c.Shuts && c.MixedBy == "" {
			names = append(names, j.Distribution.Circuits[i].Name)
			open := append([]string(nil), names...)
			all = append(all, trial{changes: []Change{words("circuits without a valve that shuts", strings.Join(open, ", "))}, apply: func(j *Job) {
				for i := range j.Distribution.Circuits {
					if contains(open, j.Distribution.Circuits[i].Name) {
						j.Distribution.Circuits[i].Shuts = false
					}
				}
			}})
		}
	}
	return all
}

func bufferTrials(j *Job) []trial {
	var all []trial
	for _, litres := range []float64{20, 30, 40, 50, 60, 80, 100, 150, 200, 300, 500, 800, 1000} {
		v := litres * hydronics.Litre
		if j.Buffer != nil && v <= j.Buffer.Content {
			continue
		}
		where := "in the return"
		if j.Buffer != nil {
			where = j.Buffer.Joined
		}
		all = append(all, trial{changes: []Change{amount("buffer "+where, v, "m³")}, apply: func(j *Job) {
			if j.Buffer == nil {
				j.Buffer = &Buffer{Joined: where, Flow: math.NaN()}
			}
			j.Buffer.Content = v
		}})
	}
	return all
}

func reliefTrials(j *Job, s *Sheet) []trial {
	var lower []trial
	for _, bar := range []float64{6, 5, 4, 3, 2.5, 2, 1.5} {
		if set := bar * hydronics.Bar; set < j.Relief.Set {
			lower = append(lower, trial{changes: []Change{amount("set pressure of the relief valve", set, "Pa gauge")}, apply: func(j *Job) { j.Relief.Set = set }})
		}
	}
	all := []trial{{changes: []Change{words("between heat sources and relief valve", "open tube only")}, apply: func(j *Job) { j.Relief.Between = []string{"open pipe"} }}}
	if c := j.Relief.Certificate; c != nil {
		for _, bore := range []float64{16, 20, 22, 25, 28, 32, 39, 50} {
			b := bore * hydronics.Millimetre
			if b > c.Outlet.Bore {
				all = append(all, trial{changes: []Change{amount("bore of the tube behind the relief valve", b, "m")}, apply: func(j *Job) { j.Relief.Certificate.Outlet.Bore = b }})
			}
			if b > c.Inlet.Bore {
				all = append(all, trial{changes: []Change{amount("bore of the tube before the relief valve", b, "m")}, apply: func(j *Job) { j.Relief.Certificate.Inlet.Bore = b }})
			}
		}
		for _, dn := range []int{15, 20, 25, 32} {
			// The seat grows with the size; the tubes have to follow it.
			seat := c.Seat * float64(dn) / float64(c.DN)
			if dn <= c.DN {
				continue
			}
			for _, bore := range []float64{22, 28, 39, 50} {
				b := bore * hydronics.Millimetre
				all = append(all, trial{changes: []Change{amount("nominal size of the relief valve", float64(dn)*hydronics.Millimetre, "m"),
					amount("its narrowest diameter, at least", seat, "m"), amount("bore of the tubes before and behind it, at least", b, "m")}, apply: func(j *Job) {
					c := j.Relief.Certificate
					c.DN, c.Seat, c.Inlet.Bore, c.Outlet.Bore = dn, seat, max(b, c.Inlet.Bore), max(b, c.Outlet.Bore)
				}})
			}
		}
		return append(all, lower...)
	}
	need := math.Ceil(s.Relief.Heat/hydronics.Kilowatt) * hydronics.Kilowatt
	all = append(all, trial{changes: []Change{amount("relief valve for a heat output of at least", need, "W")}, apply: func(j *Job) { j.Relief.Heat = max(need, j.Relief.Heat) }})
	return append(all, lower...)
}

func vesselTrials(j *Job) []trial {
	none := math.NaN()
	all := []trial{
		{apply: func(j *Job) { j.Vessel.Filled = none }, after: vesselChanges},
		{apply: func(j *Job) { j.Vessel.Filled, j.Vessel.Precharge = none, none }, after: vesselChanges},
	}
	if !j.Vessel.Exists {
		all = append(all, trial{apply: func(j *Job) { j.Vessel.Filled, j.Vessel.Precharge, j.Vessel.Nominal = none, none, none }, after: vesselChanges})
	}
	return all
}

// vesselChanges are the figures of the expansion vessel that was chosen.
func vesselChanges(s *Sheet) []Change {
	v := &s.Vessel
	return []Change{amount("nominal volume of the expansion vessel", v.Nominal, "m³"), amount("pre-charge", float64(v.Precharge), "Pa gauge"),
		amount("fill to", float64(v.Filling), "Pa gauge")}
}

// inletTrials join the vessel at the inlet of the circulator, raise its pre-charge
// and with it the pressure of the cold circuit, or join it nearer to the inlet.
func inletTrials(j *Job, s *Sheet) []trial {
	if j.Vessel.Exists {
		return nil
	}
	none := math.NaN()
	all := vesselTrials(j) // the charge or the filling may be wrong: chosen anew, as for the vessel's own faults
	slices.Reverse(all)
	if j.Vessel.Side == "outlet" {
		all = append(all, trial{changes: []Change{words("expansion vessel", "joined at the inlet side of the circulator")},
			apply: func(j *Job) { j.Vessel.Side = "inlet" }})
	}
	for step := 1; step <= 10; step++ {
		precharge := float64(stepUp(s.Vessel.Precharge)) + 2*float64(step)*settingStep
		all = append(all, trial{apply: func(j *Job) { j.Vessel.Precharge, j.Vessel.Filled, j.Vessel.Nominal = precharge, none, none },
			after: vesselChanges})
	}
	if r := lastReturn(j); r != "" && r != j.Vessel.StartOf {
		all = append(all, trial{changes: []Change{words("expansion vessel", "joined on the inlet side of the circulator, at the beginning of "+r+", at the height it has now")},
			apply: func(j *Job) { j.Vessel.Side, j.Vessel.StartOf = "inlet", r }})
	}
	return all
}

// lastReturn is the name of the return route that all modes share and that ends at
// the unit.
func lastReturn(j *Job) string {
	name := ""
	for i := range j.Routes {
		if r := &j.Routes[i]; r.Line == "return" && r.Serves == "all" {
			name = r.Name
		}
	}
	return name
}

func fillingTrials() []trial {
	return []trial{
		{changes: []Change{words("relief valve", "discharges into a container")}, apply: func(j *Job) { j.Relief.Into = "container" }},
		{changes: []Change{words("filling link", "taken off after filling")}, apply: func(j *Job) { j.FillingLink.Permanent = false }},
		{changes: []Change{words("backflow preventer of the filling link", "CA")}, apply: func(j *Job) { j.FillingLink.Unit = "CA" }},
		{changes: []Change{words("backflow preventer of the filling link", "BA")}, apply: func(j *Job) { j.FillingLink.Unit = "BA" }},
		{changes: []Change{words("coil of the cylinder", "two walls with a leak space")}, apply: func(j *Job) {
			if j.Cylinder != nil && !j.Cylinder.Exists {
				j.Cylinder.CoilWalls = 2
			}
		}},
	}
}

// outdoorStretches calls f for every stretch outdoors, with the insulation that it has.
func outdoorStretches(j *Job, f func(r *Route, k int, has Insulation)) {
	for i := range j.Routes {
		r := &j.Routes[i]
		has := Insulation{}
		if r.Insulation != nil {
			has = *r.Insulation
		}
		for k := range r.Stretches {
			if r.Stretches[k].Insulation != nil {
				has = *r.Stretches[k].Insulation
			}
			if r.Stretches[k].Outdoors {
				f(r, k, has)
			}
		}
	}
}

func frostTrials(j *Job) []trial {
	thinnest, conductivity := math.Inf(1), 0.04
	outdoorStretches(j, func(_ *Route, _ int, has Insulation) {
		thinnest = min(thinnest, has.Thickness)
		if has.Thickness > 0 {
			conductivity = has.Conductivity
		}
	})
	all := []trial{
		{changes: []Change{words("bodies of valves and connectors outdoors", "insulated like the tube")}, apply: func(j *Job) {
			eachDevice(j, func(_ *Stretch, d *Device) { d.Bare = false })
		}},
		{changes: []Change{words("drain valves", "such as let air in while water runs out")}, apply: func(j *Job) {
			eachDevice(j, func(_ *Stretch, d *Device) { d.AdmitsAir = true })
		}},
		{changes: []Change{words("thermostatic drain valves", "at every low point outdoors")}, apply: addDrains},
	}
	for _, mm := range []float64{20, 30, 40, 50, 60, 80, 100, 120, 150} {
		t := mm * hydronics.Millimetre
		if t > thinnest {
			all = append(all, trial{changes: []Change{amount("insulation outdoors", t, "m"), amount("its conductivity, at most", conductivity, "W/(m·K)")},
				apply: func(j *Job) { insulate(j, Insulation{t, conductivity}) }})
		}
	}
	return append(all, completeTrials(conductivity)...)
}

// completeTrials do everything outdoors at once: drains, fittings and insulation.
func completeTrials(conductivity float64) []trial {
	var all []trial
	for _, mm := range []float64{30, 40, 60, 80, 100, 150} {
		t := mm * hydronics.Millimetre
		all = append(all, trial{changes: []Change{words("thermostatic drain valves that let air in", "at every low point outdoors"),
			words("bodies of valves and connectors outdoors", "insulated like the tube"), amount("insulation outdoors, at least", t, "m"),
			words("valves that close without power", "just indoors in supply and return")}, apply: func(j *Job) {
			addDrains(j)
			addClosing(j)
			insulate(j, Insulation{t, conductivity})
			eachDevice(j, func(_ *Stretch, d *Device) {
				d.Bare = false
				d.AdmitsAir = d.AdmitsAir || d.Kind == drainThermostatic
			})
		}})
	}
	return all
}

// insulate gives the stretches outdoors at least an insulation, and those after
// them what they had.
func insulate(j *Job, with Insulation) {
	before := clone(j)
	outdoorStretches(before, func(r *Route, k int, has Insulation) {
		for i := range before.Routes {
			if &before.Routes[i] != r || has.Thickness >= with.Thickness {
				continue
			}
			to := &j.Routes[i].Stretches[k]
			to.Insulation = &Insulation{with.Thickness, with.Conductivity}
			if k+1 < len(r.Stretches) && j.Routes[i].Stretches[k+1].Insulation == nil {
				j.Routes[i].Stretches[k+1].Insulation = &Insulation{has.Thickness, conductivityOf(has)}
			}
		}
	})
}

// conductivityOf gives bare tube a conductivity that the file accepts.
func conductivityOf(i Insulation) float64 {
	if i.Conductivity == 0 {
		return 0.04
	}
	return i.Conductivity
}

// eachDevice calls f for every device.
func eachDevice(j *Job, f func(*Stretch, *Device)) {
	for i := range j.Routes {
		for k := range j.Routes[i].Stretches {
			s := &j.Routes[i].Stretches[k]
			for n := range s.Devices {
				f(s, &s.Devices[n])
			}
		}
	}
}

// newDevice is a device with the defaults of the file.
func newDevice(kind string) Device {
	return Device{Kind: kind, Kv: math.NaN(), Opens: 3, Tolerance: 1, OutletFree: true, Shaded: true, Stroke: 30}
}

// addDrains puts a drain valve at every low point outdoors that has none.
func addDrains(j *Job) {
	for i := range j.Routes {
		r := &j.Routes[i]
		for k := range r.Stretches {
			s := &r.Stretches[k]
			before := r.Start
			if k > 0 {
				before = r.Stretches[k-1].To
			}
			low := s.To[2] <= before[2] && (k+1 == len(r.Stretches) || r.Stretches[k+1].To[2] > s.To[2])
			if s.Outdoors && low && !holds(s, drainThermostatic) {
				d := newDevice(drainThermostatic)
				d.Kv, d.AdmitsAir = 1, true
				s.Devices = append(s.Devices, d)
			}
		}
	}
}

func holds(s *Stretch, kind string) bool {
	for i := range s.Devices {
		if s.Devices[i].Kind == kind {
			return true
		}
	}
	return false
}

func antifreezeTrials(j *Job) []trial {
	var all []trial
	for w := 5.0; w <= 60; w++ {
		mass := w / 100
		if !math.IsNaN(j.Liquid.Mass) && mass <= j.Liquid.Mass {
			continue
		}
		all = append(all, trial{changes: []Change{amount(j.Liquid.Kind+", by mass", mass, "")}, apply: func(j *Job) { j.Liquid.Mass, j.Liquid.Volume = mass, math.NaN() }})
	}
	return all
}

// glycolTrials replace a solution by propylene glycol that freezes no sooner.
func glycolTrials(s *Sheet) []trial {
	l, err := fluid.PropyleneGlycol.ByFreezingPoint(s.FreezingPoint)
	if err != nil {
		return nil
	}
	mass := math.Ceil(100*l.MassFraction()) / 100
	return []trial{{changes: []Change{amount("in place of this solution propylene glycol, by mass", mass, "")}, apply: func(j *Job) {
		j.Liquid.Kind, j.Liquid.Mass, j.Liquid.Volume = fluid.PropyleneGlycol.String(), mass, math.NaN()
	}}}
}

func outdoorTrials(j *Job) []trial {
	return []trial{
		{changes: []Change{words("thermostatic drain valves", "at every low point outdoors")}, apply: addDrains},
		{changes: []Change{words("outlet and air inlet of the drain valves", "freed of insulation")}, apply: func(j *Job) {
			eachDevice(j, func(_ *Stretch, d *Device) { d.OutletFree = true })
		}},
		{changes: []Change{words("drain valves", "shaded from sun, rain and other heat")}, apply: func(j *Job) {
			eachDevice(j, func(_ *Stretch, d *Device) { d.Shaded = true })
		}},
		{changes: []Change{words("valves that close without power", "just indoors in supply and return")}, apply: addClosing},
		{changes: []Change{words("relief valve", "on the unit's side of the closing valves")}, apply: func(j *Job) { j.Unit.ReliefInside = true }},
		{changes: []Change{words("unit", "makes heat only after open valves and flow are proved")}, apply: func(j *Job) { j.Unit.FlowProved = true }},
		{changes: []Change{words("air vents outdoors", "worked by hand")}, apply: func(j *Job) {
			eachDevice(j, func(s *Stretch, d *Device) {
				if s.Outdoors && d.Kind == ventAutomatic {
					d.Kind = ventManual
				}
			})
		}},
		{changes: []Change{amount("height of the tubes outdoors above the ground, at least", liftTo, "m")}, apply: lift},
	}
}

// addClosing puts a valve that closes without power beside the wall, indoors.
func addClosing(j *Job) {
	for i := range j.Routes {
		r := &j.Routes[i]
		first, last, has := -1, -1, false
		for k := range r.Stretches {
			if r.Stretches[k].Outdoors {
				if first < 0 {
					first = k
				}
				last = k
			}
			has = has || holds(&r.Stretches[k], closingValve)
		}
		if first < 0 || has {
			continue
		}
		at := last + 1 // behind the wall
		if first > 0 {
			at = first - 1
		}
		if at < len(r.Stretches) {
			r.Stretches[at].Devices = append(r.Stretches[at].Devices, newDevice(closingValve))
		}
	}
}

const liftTo = 0.2 // m, clear of the 0.15 m that is asked for

// lift raises what runs outdoors, from the unit to the wall.
func lift(j *Job) {
	low := math.Inf(1)
	outdoorStretches(j, func(r *Route, k int, _ Insulation) { low = min(low, r.Stretches[k].To[2]) })
	up := liftTo - low
	if !(up > 0) {
		return
	}
	for i := range j.Routes {
		r := &j.Routes[i]
		outside := false
		for k := range r.Stretches {
			outside = outside || r.Stretches[k].Outdoors
		}
		if !outside {
			continue
		}
		r.Start[2] += up
		for k := range r.Stretches {
			r.Stretches[k].To[2] += up
		}
	}
}

// addVents puts a vent at every point that is higher than its neighbours.
func addVents(j *Job) {
	for i := range j.Routes {
		r := &j.Routes[i]
		for k := 0; k+1 < len(r.Stretches); k++ {
			s := &r.Stretches[k]
			before := r.Start[2]
			if k > 0 {
				before = r.Stretches[k-1].To[2]
			}
			if s.To[2] >= before && s.To[2] >= r.Stretches[k+1].To[2] && !holds(s, ventManual) && !holds(s, ventAutomatic) {
				s.Devices = append(s.Devices, newDevice(ventManual))
			}
		}
	}
}

func serviceTrials() []trial {
	return []trial{
		{changes: []Change{words("strainer", "in the return to the unit")}, apply: func(j *Job) {
			for i := range j.Routes {
				if r := &j.Routes[i]; r.Line == "return" && r.Serves == "all" {
					d := newDevice(strainer)
					d.Kv = 12
					r.Stretches[0].Devices = append(r.Stretches[0].Devices, d)
					return
				}
			}
		}},
		{changes: []Change{words("valves to shut for service", "in supply and return, indoors")}, apply: func(j *Job) {
			for _, line := range []string{"supply", "return"} {
				for i := range j.Routes {
					r := &j.Routes[i]
					if r.Line != line || r.Serves != "all" {
						continue
					}
					k := len(r.Stretches) - 1
					if line == "return" {
						k = 0
					}
					d := newDevice(shutOff)
					d.Kv = 25
					r.Stretches[k].Devices = append(r.Stretches[k].Devices, d)
					break
				}
			}
		}},
	}
}

// storing says what sets the storage temperature.
const storing = "charging thermostat set so that the cylinder stores at"

func demandTrials(j *Job) []trial {
	var all []trial
	c := j.Cylinder
	for _, t := range []float64{60, 65} {
		if t > c.Stored && t <= c.Hottest && t <= c.Power[len(c.Power)-1].Store {
			all = append(all, trial{changes: []Change{amount(storing, t, "°C")}, apply: func(j *Job) { j.Cylinder.Stored = t }})
		}
	}
	if c.Exists {
		return all
	}
	for _, litres := range []float64{120, 150, 180, 200, 250, 300, 400, 500, 600, 800, 1000} {
		if v := litres * hydronics.Litre; v > c.Content {
			all = append(all, trial{changes: []Change{amount("content of the cylinder", v, "m³")}, apply: func(j *Job) { grow(j.Cylinder, v) }})
			stored := math.Max(c.Stored, math.Min(60, c.Hottest))
			all = append(all, trial{changes: []Change{amount("content of the cylinder", v, "m³"), amount(storing, stored, "°C"), words("its relief valve and vessel", "sized for it")},
				apply: func(j *Job) {
					grow(j.Cylinder, v)
					j.Cylinder.Stored = stored
					j.Cylinder.Potable.Vessel, j.Cylinder.Potable.Precharge = math.NaN(), math.NaN()
					j.Cylinder.Potable.DN = max(j.Cylinder.Potable.DN, 20*hydronics.Millimetre)
				}})
		}
	}
	return all
}

// grow enlarges a cylinder; its standing loss grows with its surface.
func grow(c *Cylinder, content float64) {
	c.Standing = min(500, c.Standing*math.Pow(content/c.Content, 2.0/3))
	c.Content = content
}

func reheatTrials(j *Job) []trial {
	var all []trial
	for _, more := range []float64{1.1, 1.2, 1.35, 1.5, 1.75, 2, 2.5, 3, 4} {
		mean := 0.0
		for _, x := range j.Cylinder.Power {
			mean += more * x.Power / float64(len(j.Cylinder.Power))
		}
		all = append(all, trial{changes: []Change{amount("power that reaches the cylinder, on average at least", math.Ceil(mean/100)*100, "W")}, apply: func(j *Job) {
			for i := range j.Cylinder.Power {
				j.Cylinder.Power[i].Power *= more
			}
		}})
	}
	return all
}

func dnTrials() []trial {
	var all []trial
	for _, mm := range []float64{15, 20, 25} {
		dn := mm * hydronics.Millimetre
		all = append(all, trial{changes: []Change{amount("nominal size of the cylinder's relief valve", dn, "m")}, apply: func(j *Job) {
			j.Cylinder.Potable.DN = max(dn, j.Cylinder.Potable.DN)
		}})
	}
	return all
}

func potableTrials(j *Job) []trial {
	none := math.NaN()
	vessel := func(s *Sheet) []Change {
		return []Change{amount("nominal volume of the potable vessel", s.HotWater.Vessel, "m³"), amount("its pre-charge", float64(s.HotWater.Precharge), "Pa gauge")}
	}
	all := []trial{
		{apply: func(j *Job) { j.Cylinder.Potable.Precharge = none }, after: vessel},
		{apply: func(j *Job) { j.Cylinder.Potable.Precharge, j.Cylinder.Potable.Vessel = none, none }, after: vessel},
	}
	set := j.Cylinder.Potable.Set
	for _, bar := range []float64{10, 9, 8, 7, 6, 5, 4} {
		if lower := bar * hydronics.Bar; lower < set {
			all = append(all, trial{changes: []Change{amount("set pressure of the cylinder's relief valve", lower, "Pa gauge")}, apply: func(j *Job) { j.Cylinder.Potable.Set = lower }})
		}
	}
	for bar := 6.0; bar >= 1.5; bar -= 0.5 {
		to := bar * hydronics.Bar
		if r := j.Cylinder.Potable.Reducer; to >= j.Site.Mains || !math.IsNaN(r) && to >= r {
			continue
		}
		set := func(j *Job) {
			j.Cylinder.Potable.Reducer = to
			if !contains(j.Cylinder.ColdFeed, "pressure reducer") {
				j.Cylinder.ColdFeed = append([]string{"shut-off valve", "pressure reducer"}, without(j.Cylinder.ColdFeed, "shut-off valve")...)
			}
		}
		all = append(all,
			trial{changes: []Change{amount("setting of the pressure reducer", to, "Pa gauge")}, apply: set},
			trial{apply: func(j *Job) {
				set(j)
				j.Cylinder.Potable.Precharge, j.Cylinder.Potable.Vessel = none, none
			}, after: func(s *Sheet) []Change {
				return append([]Change{amount("setting of the pressure reducer", to, "Pa gauge")}, vessel(s)...)
			}})
	}
	return all
}

// without returns the words without one of them.
func without(list []string, word string) []string {
	var rest []string
	for _, w := range list {
		if w != word {
			rest = append(rest, w)
		}
	}
	return rest
}

func dischargeTrials(j *Job) []trial {
	var all []trial
	if t := j.Cylinder.Tundish; t != nil {
		outlets := map[string]float64{"G1/2": 0.015, "G3/4": 0.022, "G1": 0.028}
		all = append(all,
			trial{changes: []Change{amount("discharge pipe to the tundish, outside diameter", outlets[t.Outlet], "m")}, apply: func(j *Job) { j.Cylinder.Tundish.D1 = max(t.D1, outlets[t.Outlet]) }},
			trial{apply: func(j *Job) { j.Cylinder.Tundish.D2 = math.NaN() }, after: func(s *Sheet) []Change {
				return []Change{amount("discharge pipe after the tundish, outside diameter", s.HotWater.D2, "m")}
			}},
			trial{changes: []Change{amount("distance of the tundish, at most", 0.6, "m")}, apply: func(j *Job) { j.Cylinder.Tundish.Tundish = min(t.Tundish, 0.6) }},
			trial{changes: []Change{amount("vertical pipe under the tundish, at least", 0.3, "m")}, apply: func(j *Job) { j.Cylinder.Tundish.Drop = max(t.Drop, 0.3) }},
			trial{changes: []Change{amount("fall of the discharge pipe in each metre, at least", 0.005, "m")}, apply: func(j *Job) { j.Cylinder.Tundish.Fall = max(t.Fall, 0.005) }})
	}
	if f := j.Cylinder.Funnel; f != nil {
		all = append(all,
			trial{changes: []Change{amount("air gap over the funnel", 0.03, "m")}, apply: func(j *Job) { j.Cylinder.Funnel.AirGap = 0.03 }})
		for _, dn := range []int{15, 20, 25, 32} {
			if dn > f.DN {
				all = append(all, trial{changes: []Change{amount("nominal size of the discharge pipe", float64(dn)*hydronics.Millimetre, "m"),
					amount("nominal size of the drain, at least", 2*float64(dn)*hydronics.Millimetre, "m")}, apply: func(j *Job) {
					j.Cylinder.Funnel.DN, j.Cylinder.Funnel.DrainDN = dn, max(f.DrainDN, 2*dn)
				}})
			}
		}
		for _, dn := range []int{32, 40, 50} {
			all = append(all, trial{changes: []Change{amount("nominal size of the drain", float64(dn)*hydronics.Millimetre, "m")}, apply: func(j *Job) { j.Cylinder.Funnel.DrainDN = max(dn, f.DrainDN) }})
		}
	}
	if e := j.Cylinder.OpenEnd; e != nil {
		all = append(all,
			trial{changes: []Change{words("discharge pipe", "falls all the way, without trap, valve, tee or thread at the end")}, apply: func(j *Job) { j.Cylinder.OpenEnd.Clear = true }},
			trial{changes: []Change{words("discharge pipe", "for this valve alone")}, apply: func(j *Job) { j.Cylinder.OpenEnd.OwnPipe = true }},
			trial{changes: []Change{amount("height of the end", 0.1, "m")}, apply: func(j *Job) { j.Cylinder.OpenEnd.End = 0.1 }},
			trial{changes: []Change{amount("bore of the discharge pipe", e.Outlet, "m")}, apply: func(j *Job) { j.Cylinder.OpenEnd.Bore = max(e.Bore, e.Outlet) }})
	}
	return all
}

func feedTrials(j *Job) []trial {
	order := []string{"shut-off valve", "strainer"}
	if !math.IsNaN(j.Cylinder.Potable.Reducer) {
		order = append(order, "pressure reducer")
	}
	if contains(j.Cylinder.ColdFeed, "cold branch") {
		order = append(order, "cold branch")
	}
	if contains(j.Cylinder.ColdFeed, "backflow preventer") {
		order = append(order, "backflow preventer")
	}
	order = append(order, "non-return valve", "pressure gauge", "expansion vessel", "relief valve", "drain cock")
	return []trial{
		{changes: []Change{words("cold feed, from the main", strings.Join(order, " > "))}, apply: func(j *Job) { j.Cylinder.ColdFeed = append([]string(nil), order...) }},
		{changes: []Change{words("pipe to the relief valve of the cylinder", "nothing in it that can shut, clog or close")}, apply: func(j *Job) { j.Cylinder.Potable.Shuts = false }},
		{changes: []Change{words("relief valve of the cylinder", "above the top of the cylinder")}, apply: func(j *Job) { j.Cylinder.Potable.Height = math.NaN() }},
		{changes: []Change{amount("pipe to the relief valve, at most", 10*j.Cylinder.Potable.DN, "m")}, apply: func(j *Job) {
			j.Cylinder.Potable.Branch = min(j.Cylinder.Potable.Branch, 10*j.Cylinder.Potable.DN)
		}},
	}
}

func overheatingTrials(j *Job) []trial {
	stored := math.Max(j.Cylinder.Stored, math.Min(60, j.Cylinder.Hottest)) // hygiene may ask for as much
	cutOut := math.Min(95, stored+20)
	control := func(t, c *float64, both bool) {
		if math.IsNaN(*t) || *t > cutOut {
			*t = stored + 2
		}
		if math.IsNaN(*c) || *c > 100 || both {
			*c = cutOut
		}
	}
	all := []trial{
		{changes: []Change{amount("temperature relief valve on the cylinder, opens at", 90, "°C")}, apply: func(j *Job) { j.Cylinder.ReliefTemp = 90 }},
		{changes: []Change{amount("charging by the heat pump: thermostat, at most", stored+2, "°C"), amount("charging by the heat pump: cut-out that does not reset itself", cutOut, "°C")},
			apply: func(j *Job) { control(&j.Cylinder.Thermostat, &j.Cylinder.CutOut, false) }},
	}
	for i := range j.Heaters {
		if j.Heaters[i].Heats != "cylinder" {
			continue
		}
		all = append(all, trial{changes: []Change{amount(j.Heaters[i].Name+": thermostat, at most", stored+2, "°C"), amount(j.Heaters[i].Name+": cut-out that does not reset itself", cutOut, "°C")},
			apply: func(j *Job) { control(&j.Heaters[i].Thermostat, &j.Heaters[i].CutOut, false) }})
	}
	return all
}

func hygieneTrials(j *Job) []trial {
	var all []trial
	for _, t := range []float64{60, 62, 65} {
		if t > j.Cylinder.Stored && t <= j.Cylinder.Hottest && t <= j.Cylinder.Power[len(j.Cylinder.Power)-1].Store {
			all = append(all, trial{changes: []Change{amount(storing, t, "°C")}, apply: func(j *Job) { j.Cylinder.Stored = t }})
		}
		if c := j.Cylinder.Demand.Circulation; t-5 > c {
			all = append(all, trial{changes: []Change{amount("circulation pump or balancing valve set so that its return comes back at", t-5, "°C")}, apply: func(j *Job) { j.Cylinder.Demand.Circulation = t - 5 }})
		}
	}
	return append(all,
		trial{changes: []Change{amount("pipe to the hot tap shortened, insulated or kept warm, and a mixing valve before it set, so that the tap runs after half a minute at", 50, "°C")}, apply: func(j *Job) { j.Cylinder.Demand.Outlet = max(50, j.Cylinder.Demand.Outlet) }},
		trial{changes: []Change{amount("thermostatic mixing valve at the bath, set to", 45, "°C")}, apply: func(j *Job) { j.Cylinder.Demand.Bath = 45 }})
}

// String returns a change in words and SI, for logs.
func (c Change) String() string {
	if c.To != "" {
		return c.What + ": " + c.To
	}
	return fmt.Sprintf("%s: %.4g %s", c.What, float64(c.Value), c.Unit)
}

package job

import (
	"math"
	"slices"

	"example.com/hydronics"
)

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

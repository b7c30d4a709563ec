package job

import "math"

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

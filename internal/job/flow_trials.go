package job

import (
	"math"
	"slices"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
)

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
		if t != "" && !slices.Contains(found, t) {
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
					if slices.Contains(open, j.Distribution.Circuits[i].Name) {
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

package job

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

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

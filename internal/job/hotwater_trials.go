package job

import (
	"math"
	"slices"
	"strings"

	"example.com/hydronics"
)

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
			if !slices.Contains(j.Cylinder.ColdFeed, "pressure reducer") {
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
	if slices.Contains(j.Cylinder.ColdFeed, "cold branch") {
		order = append(order, "cold branch")
	}
	if slices.Contains(j.Cylinder.ColdFeed, "backflow preventer") {
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

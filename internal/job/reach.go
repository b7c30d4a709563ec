package job

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
)

// A reach is the part of a route that drains when the power fails: from the unit
// to the valve that closes without power, or to the wall if there is none.
type reach struct {
	route    *Route
	frost    frost.Reach
	tube     pipe.Tube // the narrowest
	section  frost.Section
	worst    Exposure        // of its outdoor pieces, the one that cools first
	fittings []frost.Section // bodies without insulation
	drain    Device          // the slowest setting of its thermostatic drain valves
	drains   []Device
	closing  bool
	stroke   float64
	relief   bool // a relief valve between the unit and the closing valve
}

// reaches finds what runs outdoors.
func (p *plant) reaches() []reach {
	var all []reach
	for i := range p.job.Routes {
		r := &p.job.Routes[i]
		first, last := -1, -1
		for k := range r.Stretches {
			if r.Stretches[k].Outdoors {
				if first < 0 {
					first = k
				}
				last = k
			}
		}
		if first >= 0 {
			all = append(all, p.reach(r, first, last))
		}
	}
	return all
}

// points returns the points of a route, those inside the open marked as outdoors.
// pipe counts a leg as outdoors when either of its ends is, so a stretch between
// two indoor ones gets a point of its own in the middle.
func (r *Route) points() (route pipe.Route, ends []int) {
	n := len(r.Stretches)
	outdoors := func(i int) bool { return i >= 0 && i < n && r.Stretches[i].Outdoors }
	at := func(c [3]float64, out bool) pipe.Point { return pipe.Point{X: c[0], Y: c[1], Z: c[2], Outdoors: out} }
	route = append(make(pipe.Route, 0, n+2), at(r.Start, outdoors(0)))
	ends = make([]int, n) // the index of each stretch's end
	from := r.Start
	for i := range r.Stretches {
		to := r.Stretches[i].To
		if outdoors(i) && i > 0 && !outdoors(i-1) && i < n-1 && !outdoors(i+1) {
			route = append(route, at([3]float64{(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2}, true))
		}
		route = append(route, at(to, outdoors(i) && (i == n-1 || outdoors(i+1))))
		ends[i] = len(route) - 1
		from = to
	}
	return route, ends
}

// reach cuts a route at the closing valves on either side of its outdoor part.
func (p *plant) reach(r *Route, first, last int) reach {
	out := reach{route: r}
	points, ends := r.points()
	low, high := 0, ends[last]
	if first > 0 {
		low = ends[first-1]
	}
	after := false
	for k := range r.Stretches {
		for _, d := range r.Stretches[k].Devices {
			switch {
			case d.Kind != closingValve || after:
				continue
			case k < first: // the nearest before counts, which is the last one met
				low = ends[k]
			case k >= last:
				high, after = ends[k], true
			}
			out.closing, out.stroke = true, math.Max(out.stroke, d.Stroke)
		}
	}
	out.frost.Route = points[low : high+1]
	slowest := math.Inf(1)
	for k := range r.Stretches {
		at := ends[k] - low
		if at < 0 || ends[k] > high {
			continue
		}
		for _, d := range r.Stretches[k].Devices {
			switch d.Kind {
			case drainThermostatic:
				out.drains = append(out.drains, d)
				out.frost.Drains = append(out.frost.Drains, frost.Drain{Point: at, Kv: pipe.Kv(d.Kv), AdmitsAir: d.AdmitsAir})
				if t := d.Opens - d.Tolerance; t < slowest {
					slowest, out.drain = t, d
				}
			case airInlet:
				out.frost.Vents = append(out.frost.Vents, at)
			case reliefDevice:
				out.relief = true
			}
		}
	}
	p.fill(&out, r, first, last)
	return out
}

// fill finds the narrowest tube, and the piece and the fittings that cool first.
func (p *plant) fill(out *reach, r *Route, first, last int) {
	out.worst.CoolsTo0 = Number(math.Inf(1))
	for i := range p.pieces {
		q := &p.pieces[i]
		if q.route != r {
			continue
		}
		if out.tube.Outside == 0 || q.tube.Bore() < out.tube.Bore() {
			out.tube = q.tube
		}
		if !q.outdoors {
			continue
		}
		if out.section.Bore == 0 || q.exposure.CoolsTo0 < out.worst.CoolsTo0 {
			out.worst, out.section = q.exposure, q.section()
		}
	}
	out.frost.Bore, out.frost.Roughness = out.tube.Bore(), out.tube.Roughness
	for k := first; k <= last; k++ {
		for _, d := range r.Stretches[k].Devices {
			if d.Bare && inLine(d.Kind) {
				out.fittings = append(out.fittings, sectionOf(&out.tube, Insulation{}))
				return // all are bare tube: one stands for them
			}
		}
	}
}

// judgeReaches judges the lines outdoors against the power cut.
func (p *plant) judgeReaches(s *Sheet, reaches []reach) error {
	if !p.liquid.IsWater() {
		return nil
	}
	judged, err := p.nights.follow(p.drained(reaches))
	if err != nil {
		return err
	}
	for i := range reaches {
		r := &reaches[i]
		if len(r.frost.Drains) == 0 {
			s.add(Frost, groupFrost, p.survives(r.route.Name, &r.worst))
			continue
		}
		s.addNight(r.route.Name, &judged[0])
		judged = judged[1:]
	}
	return nil
}

// drained returns the nights of the lines that drain.
func (p *plant) drained(reaches []reach) []frost.Night {
	var all []frost.Night
	for i := range reaches {
		if r := &reaches[i]; len(r.frost.Drains) > 0 {
			all = append(all, p.night(r))
		}
	}
	return all
}

func (s *Sheet) addNight(name string, judged *frost.Judged) {
	for _, f := range judged.Findings {
		switch {
		case f.Subject == "outdoor section":
			f.Subject = name
		case identities[f.Rule].id == saidBetter, s.has(f.Rule):
			continue // judgeFrost asks for it with the papers of the unit; the rest is said once
		}
		s.add(Frost, groupFrost, f)
	}
	o := &judged.Outcome
	line := NightLine{Name: name, EarliestIce: seconds(o.EarliestIce), LatestOpening: seconds(o.LatestOpening),
		Emptying: o.Emptying, Margin: o.Margin, NoIce: o.NoIce, Unopened: o.Unopened,
		Left: o.Drainage.Volume, Stays: o.Drainage.Trapped + o.Drainage.Held, Events: make([]NightEvent, len(o.Events))}
	for i, e := range o.Events {
		line.Events[i] = NightEvent{e.Time, e.What}
	}
	s.Nights = append(s.Nights, line)
}

// nights are those that were followed already, by all that goes into them: a night
// takes long to follow, and most remedies that are tried leave it as it is.
type nights map[string]frost.Judged

// follow follows and judges the nights that are not known yet.
func (known nights) follow(all []frost.Night) ([]frost.Judged, error) {
	if known == nil {
		return frost.Nights(all, frost.CommonDoubts())
	}
	var fresh []frost.Night
	var freshKeys []string
	keys := make([]string, len(all))
	for i := range all {
		keys[i] = fmt.Sprint(all[i])
		if _, ok := known[keys[i]]; !ok {
			fresh, freshKeys = append(fresh, all[i]), append(freshKeys, keys[i])
		}
	}
	judged, err := frost.Nights(fresh, frost.CommonDoubts())
	if err != nil {
		return nil, err
	}
	for i, key := range freshKeys {
		known[key] = judged[i]
	}
	result := make([]frost.Judged, len(all))
	for i, key := range keys {
		result[i] = known[key]
	}
	return result, nil
}

// night is the power cut of the job for a reach.
func (p *plant) night(r *reach) frost.Night {
	site := &p.job.Site
	weather := []frost.Air{p.air()}
	if len(site.Hourly) > 0 {
		weather = make([]frost.Air, len(site.Hourly))
		for i, t := range site.Hourly {
			weather[i] = p.air()
			weather[i].Temperature = t
		}
	}
	setting := frost.CommonSetting()
	setting.Opens, setting.Tolerance = r.drain.Opens, r.drain.Tolerance
	cut := site.PowerCut
	if math.IsNaN(cut) {
		cut = 0 // without end
	}
	return frost.Night{Section: r.section, Fittings: r.fittings, Medium: frost.Water(), Start: p.ret, Weather: weather, Cut: cut,
		Setting: setting, Reach: r.frost, Stroke: r.stroke}
}

// has reports whether a finding with the rule is there already.
func (s *Sheet) has(rule string) bool {
	for i := range s.Findings {
		if s.Findings[i].Rule == rule {
			return true
		}
	}
	return false
}

// judgeOutdoors judges the arrangement outdoors: package frost on the routes, and
// here what the routes do not show.
func (p *plant) judgeOutdoors(s *Sheet, reaches []reach) error {
	a := frost.Arrangement{Liquid: p.liquid}
	drains := false
	for i := range reaches {
		r := &reaches[i]
		a.Reaches = append(a.Reaches, r.frost)
		a.Names = append(a.Names, r.route.Name)
		drains = drains || len(r.drains) > 0
	}
	found, err := a.Findings(frost.CommonRules())
	if err != nil {
		return err
	}
	for _, f := range found {
		if f.Verdict == hydronics.SeeOnSite && (f.Subject == "filling line" || f.Subject == "relief valve") {
			continue // the job file knows: judged beside the parts
		}
		s.add(Outdoors, groupOutdoors, f)
	}
	practice := custom("outdoor tubes that drain")
	for i := range reaches {
		r := &reaches[i]
		for _, d := range r.drains {
			s.add(Outdoors, groupOutdoors,
				hydronics.Statement("outlet and air inlet of the drain valve are left free of insulation", r.route.Name, d.OutletFree, practice, "the valve cannot let water out or air in"),
				hydronics.Statement("the drain valve is shaded from sun, rain and other heat", r.route.Name, d.Shaded, practice, "the valve feels another temperature than the water's"))
		}
		if !drains || !p.liquid.IsWater() {
			continue
		}
		s.add(Outdoors, groupOutdoors, hydronics.Statement("a valve that closes without power stands just indoors, so that only the outdoor water drains", r.route.Name, r.closing,
			practice, "the whole house runs out through the drain valve"))
	}
	if drains && p.liquid.IsWater() {
		relief := p.job.Unit.ReliefInside
		for i := range reaches {
			relief = relief || reaches[i].relief
		}
		s.add(Outdoors, groupOutdoors,
			hydronics.Statement("a relief valve stands on the unit's side of the closing valves", "outdoor unit", relief,
				practice, "with the valves closed the unit heats a space without relief and bursts"),
			hydronics.Statement("no heat before the position of the closing valves and the flow are proved", "outdoor unit", p.job.Unit.FlowProved,
				practice, "the unit heats against closed valves or an empty tube"))
	}
	for i := range p.job.Routes {
		r := &p.job.Routes[i]
		for k := range r.Stretches {
			for _, d := range r.Stretches[k].Devices {
				if d.Kind == ventAutomatic && r.Stretches[k].Outdoors {
					s.add(Outdoors, groupOutdoors, hydronics.Statement("air vents outdoors are worked by hand", r.Name, false,
						practice, "an automatic vent outdoors freezes, leaks, and with a leaking exchanger blows refrigerant out beside the unit"))
				}
			}
		}
	}
	if p.job.Unit.Flammable {
		s.add(Outdoors, groupOutdoors, hydronics.OnSite("vents, relief outlets, gullies, shafts and openings keep the distance from the unit that its instructions state", "outdoor unit",
			custom("instructions of units with a flammable refrigerant"), "refrigerant heavier than air collects and ignites"))
	}
	s.add(Outdoors, groupOutdoors, hydronics.OnSite("condensate runs off free of frost and away from walkways", "outdoor unit", practice, "ice under the fan stops the unit, ice on the path breaks legs"))
	return nil
}

package job

import (
	"fmt"
	"math"
	"strings"

	"example.com/hydronics/frost"
)

// Rules of package frost that name what to move.
const (
	ruleFall    = "every leg outdoors has a fall"
	ruleOutlet  = "the outlet of the drain valve stands clear of ground, snow and ice"
	ruleSpacing = "drain valves keep their distance"
)

// moveTrials move single points of the routes outdoors: what can be bent on site
// before the whole line is laid anew.
func moveTrials(j *Job, f *Finding) []trial {
	switch f.Rule {
	case ruleFall:
		return fallTrials(j, f.Subject)
	case ruleOutlet:
		return outletTrials(j, f.Subject)
	case ruleSpacing:
		return spacingTrials(j)
	}
	return nil
}

// A line is the heights of a route's points while they are moved. Its two ends
// belong to what is connected there and stay.
type line struct {
	route *Route
	z     []float64
	up    float64 // 1, or -1 to lower instead: heights then count downwards
}

func newLine(r *Route, up float64) *line {
	l := &line{route: r, z: make([]float64, len(r.Stretches)+1), up: up}
	for k := range l.z {
		l.z[k] = up * r.point(k)[2]
	}
	return l
}

// point is the beginning of the route, or the end of the stretch before.
func (r *Route) point(k int) [3]float64 {
	if k == 0 {
		return r.Start
	}
	return r.Stretches[k-1].To
}

// fallStep is how finely a tube is set, m. Heights are moved to the rule of package
// frost and up to a whole step.
const fallStep = 0.01

func stepsUp(z float64) float64 { return math.Ceil(z/fallStep-1e-6) * fallStep }

// fall is the rise that a leg needs.
func (l *line) fall(leg int) float64 {
	return frost.CommonRules().Fall * distance(l.route.point(leg), l.route.point(leg+1))
}

// raise brings a point to a height, and those behind it, away from it in one
// direction, as far as they must follow so that what rose still rises enough. It
// reports whether the ends could stay.
func (l *line) raise(k, direction int, z float64) bool {
	for {
		if k == 0 || k == len(l.z)-1 {
			return z <= l.z[k]
		}
		before := l.z[k]
		if z <= before {
			return true
		}
		l.z[k] = z
		leg := k
		if direction < 0 {
			leg = k - 1
		}
		next := k + direction
		if l.z[next] < before {
			return true // falls away, and more now
		}
		need := 0.0
		if l.route.Stretches[leg].Outdoors {
			need = l.fall(leg)
		}
		k, z = next, stepsUp(z+need)
	}
}

// changes are what became of the heights.
func (l *line) changes() []Change {
	word := "raise"
	if l.up < 0 {
		word = "lower"
	}
	var all []Change
	for k := range l.z {
		if by := l.z[k] - l.up*l.route.point(k)[2]; by > 1e-9 {
			p := l.route.point(k)
			all = append(all, amount(fmt.Sprintf("%s: %s the point at (%.4g, %.4g) m by", l.route.Name, word, p[0], p[1]), by, "m"))
		}
	}
	return all
}

// trial applies the heights to the route with that index.
func (l *line) trial(i int) trial {
	z := l.z
	return trial{changes: l.changes(), apply: func(j *Job) {
		r := &j.Routes[i]
		for k := 1; k < len(z) && k <= len(r.Stretches); k++ {
			r.Stretches[k-1].To[2] = l.up * z[k]
		}
	}}
}

// fallTrials give every leg outdoors of a route its fall: by raising upper ends, or
// by lowering lower ones.
func fallTrials(j *Job, name string) []trial {
	var all []trial
	for i := range j.Routes {
		r := &j.Routes[i]
		if r.Name != name || r.Exists {
			continue
		}
		for _, up := range []float64{1, -1} {
			if l := newLine(r, up); l.grade() && len(l.changes()) > 0 {
				all = append(all, l.trial(i))
			}
		}
	}
	return all
}

// grade goes over the legs until all outdoors have their fall; false if that would
// move an end.
func (l *line) grade() bool {
	for range l.z {
		done := true
		for k := range l.route.Stretches {
			rise := l.z[k+1] - l.z[k]
			if !l.route.Stretches[k].Outdoors || math.Abs(rise) >= l.fall(k)-1e-9 {
				continue
			}
			done = false
			ok := false
			if l.rises(k) {
				ok = l.raise(k+1, 1, stepsUp(l.z[k]+l.fall(k)))
			} else {
				ok = l.raise(k, -1, stepsUp(l.z[k+1]+l.fall(k)))
			}
			if !ok {
				return false
			}
		}
		if done {
			return true
		}
	}
	return false
}

// rises reports whether a leg rises, in the heights of the line, towards its end. A
// level one rises away from the nearer drain valve.
func (l *line) rises(leg int) bool {
	if rise := l.z[leg+1] - l.z[leg]; math.Abs(rise) > 1e-9 {
		return rise > 0
	}
	behind, before := math.Inf(1), math.Inf(1)
	for k := range l.route.Stretches {
		if !holds(&l.route.Stretches[k], drainThermostatic) {
			continue
		}
		if at := k + 1; at <= leg {
			behind = float64(leg - at)
		} else {
			before = min(before, float64(at-leg-1))
		}
	}
	return (behind <= before) == (l.up > 0)
}

// outletTrials raise the low point at which a drain valve stands, and what has to
// follow.
func outletTrials(j *Job, subject string) []trial {
	var all []trial
	rules := frost.CommonRules()
	for i := range j.Routes {
		r := &j.Routes[i]
		if r.Exists || !strings.HasPrefix(subject, r.Name+", point ") {
			continue
		}
		l := newLine(r, 1)
		ok := true
		for k := range r.Stretches {
			s := &r.Stretches[k]
			if !s.Outdoors || !holds(s, drainThermostatic) || s.To[2] >= rules.OutletHeight {
				continue
			}
			// Twice from the same height: the legs on both sides follow.
			at, z := k+1, stepsUp(rules.OutletHeight)
			ok = ok && l.raise(at, -1, z)
			l.z[at] = s.To[2]
			ok = ok && l.raise(at, 1, z)
		}
		if ok && len(l.changes()) > 0 {
			all = append(all, l.trial(i))
		}
	}
	return all
}

// spacingTrials move the low point of one of two drain valves that stand too close
// along its tube.
func spacingTrials(j *Job) []trial {
	var all []trial
	least := frost.CommonRules().Spacing
	for i := range j.Routes {
		r := &j.Routes[i]
		if r.Exists {
			continue
		}
		for k := range r.Stretches {
			s := &r.Stretches[k]
			if !s.Outdoors || !holds(s, drainThermostatic) || k == len(r.Stretches)-1 || room(j, s, s.To) >= least {
				continue
			}
			for _, toward := range [2][3]float64{r.point(k + 2), r.point(k)} {
				if to, by, ok := aside(j, s, toward, least); ok {
					all = append(all, trial{
						changes: []Change{amount(fmt.Sprintf("%s: move the low point with its drain valve towards (%.4g, %.4g) m by", r.Name, toward[0], toward[1]), by, "m")},
						apply:   func(j *Job) { j.Routes[i].Stretches[k].To = to },
					})
				}
			}
		}
	}
	return all
}

// aside is the nearest place, level with where a drain valve stands and towards
// another point, at which it keeps its distance from all others.
func aside(j *Job, s *Stretch, toward [3]float64, least float64) (to [3]float64, by float64, ok bool) {
	plan := math.Hypot(toward[0]-s.To[0], toward[1]-s.To[1])
	for by = 0.05; by < plan/2; by += 0.05 {
		to = s.To
		to[0] += by / plan * (toward[0] - s.To[0])
		to[1] += by / plan * (toward[1] - s.To[1])
		if room(j, s, to) >= least {
			return to, by, true
		}
	}
	return s.To, 0, false
}

// room is the distance from a point to the nearest drain valve of any other stretch.
func room(j *Job, not *Stretch, at [3]float64) float64 {
	nearest := math.Inf(1)
	eachDevice(j, func(s *Stretch, d *Device) {
		if s != not && s.Outdoors && d.Kind == drainThermostatic {
			nearest = min(nearest, distance(at, s.To))
		}
	})
	return nearest
}

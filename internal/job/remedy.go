package job

import (
	"math"
	"slices"

	"example.com/hydronics"
)

// A Remedy is a change to the installation that was tried by assessing it again.
type Remedy struct {
	Changes []Change `json:"changes,omitempty"`
	None    bool     `json:"none"` // no safe remedy within the calculation
}

// A Change is one thing to change, and what it becomes.
type Change struct {
	What  string `json:"what"`
	To    string `json:"to,omitempty"` // words; empty where Value counts
	Value Number `json:"value"`        // SI; null for words
	Unit  string `json:"unit,omitempty"`
}

// words is a change to something that is no number.
func words(what, to string) Change { return Change{What: what, To: to, Value: Number(math.NaN())} }

// amount is a change of a number.
func amount(what string, value float64, unit string) Change {
	return Change{What: what, Value: Number(value), Unit: unit}
}

// A trial is a remedy that is not verified yet. after, if there is one, reads the
// figures of the changes from the new sheet.
type trial struct {
	changes []Change
	apply   func(*Job)
	after   func(*Sheet) []Change
}

// Remedies looks for a remedy of every requirement that is not met: each trial of
// its kind is applied to a copy of the job, the smallest change first, and the
// copy assessed. The first that meets the requirement, and breaks no other, is
// taken. It returns the job with all remedies applied together and its sheet, nil
// if there was nothing to do or they do not go together.
//
// No remedy raises a relief setting, lowers a temperature that hygiene asks for or
// removes a protection; parts that exist already are left alone.
func Remedies(j *Job, s *Sheet) (*Job, *Sheet) {
	failed := s.failedIDs()
	known := nights{}
	all := clone(j)
	found := false
	for i := range s.Findings {
		f := &s.Findings[i]
		if f.Verdict != hydronics.NotMet {
			continue
		}
		f.Remedy = &Remedy{None: true}
		if t, after := best(j, trials(j, s, f), failed, f, known); t != nil {
			*f.Remedy = Remedy{Changes: t.changes}
			if t.after != nil {
				f.Remedy.Changes = t.after(after)
			}
			t.apply(all)
			found = true
		}
	}
	if !found {
		return nil, nil
	}
	together, err := assess(all, known)
	if err != nil {
		return nil, nil
	}
	// Remedies ask for each other: a larger cylinder needs a larger relief valve.
	for range 8 {
		changed := false
		for i := range together.Findings {
			f := &together.Findings[i]
			if f.Verdict != hydronics.NotMet {
				continue
			}
			t, after := best(all, trials(all, together, f), together.failedIDs(), f, known)
			if t == nil {
				continue
			}
			changes := t.changes
			if t.after != nil {
				changes = t.after(after)
			}
			s.Further = append(s.Further, changes...)
			t.apply(all)
			together, changed = after, true
			break
		}
		if !changed {
			break
		}
	}
	left := together.Count(hydronics.NotMet)
	s.AfterRemedies = &left
	return all, together
}

// best returns the first trial that works, with its sheet. Settings of a vessel
// pull in different directions: there one that meets all of its requirements goes
// before one that meets a single one.
func best(j *Job, trials []trial, failed map[string]bool, f *Finding, known nights) (*trial, *Sheet) {
	g := f.group
	var single *trial
	var singleSheet *Sheet
	for i := range trials {
		s := trials[i].works(j, failed, f.ID, known)
		if s == nil {
			continue
		}
		if g != groupVessel && g != groupPotableVessel {
			return &trials[i], s
		}
		rest := false
		for k := range s.Findings {
			rest = rest || s.Findings[k].group == g && s.Findings[k].Verdict == hydronics.NotMet
		}
		if !rest {
			return &trials[i], s
		}
		if single == nil {
			single, singleSheet = &trials[i], s
		}
	}
	return single, singleSheet
}

// works returns the sheet after the trial if it meets the requirement and breaks
// no other, and nil otherwise.
func (t *trial) works(j *Job, failed map[string]bool, id string, known nights) *Sheet {
	changed := clone(j)
	t.apply(changed)
	if !keepsProtection(j, changed) {
		return nil
	}
	s, err := assess(changed, known)
	if err != nil {
		return nil // the change leads out of what can be calculated
	}
	for now := range s.failedIDs() {
		if now == id || !failed[now] {
			return nil
		}
	}
	return s
}

// failedIDs are the ids of the requirements that are not met.
func (s *Sheet) failedIDs() map[string]bool {
	failed := map[string]bool{}
	for i := range s.Findings {
		if s.Findings[i].Verdict == hydronics.NotMet {
			failed[s.Findings[i].ID] = true
		}
	}
	return failed
}

// keepsProtection guards every remedy, whatever its trial does.
func keepsProtection(before, after *Job) bool {
	ok := after.Relief.Set <= before.Relief.Set && after.Liquid.Hottest == before.Liquid.Hottest
	for kind, n := range deviceCount(before) {
		ok = ok && deviceCount(after)[kind] >= n
	}
	ok = ok && len(after.Heaters) == len(before.Heaters)
	for i := range before.Heaters {
		a, b := &after.Heaters[i], &before.Heaters[i]
		ok = ok && kept(b.Thermostat, a.Thermostat) && kept(b.CutOut, a.CutOut)
	}
	ok = ok && len(after.Distribution.Mixing) == len(before.Distribution.Mixing)
	for i := range before.Distribution.Mixing {
		ok = ok && kept(before.Distribution.Mixing[i].Limiter, after.Distribution.Mixing[i].Limiter)
	}
	c, d := before.Cylinder, after.Cylinder
	if (c == nil) != (d == nil) {
		return false
	}
	if c == nil {
		return ok
	}
	ok = ok && d.Potable.Set <= c.Potable.Set && d.Stored >= c.Stored && kept(c.Thermostat, d.Thermostat) && kept(c.CutOut, d.CutOut) && kept(c.ReliefTemp, d.ReliefTemp) &&
		notLower(c.Demand.Outlet, d.Demand.Outlet) && notLower(c.Demand.Circulation, d.Demand.Circulation)
	for _, fitting := range []string{"relief valve", "non-return valve", "expansion vessel", "backflow preventer", "pressure reducer"} {
		ok = ok && (!slices.Contains(c.ColdFeed, fitting) || slices.Contains(d.ColdFeed, fitting))
	}
	return ok
}

// protective devices of a route: none of them may become fewer.
func deviceCount(j *Job) map[string]int {
	n := map[string]int{}
	for i := range j.Routes {
		for k := range j.Routes[i].Stretches {
			for _, d := range j.Routes[i].Stretches[k].Devices {
				switch d.Kind {
				case drainThermostatic, closingValve, reliefDevice, airInlet, strainer:
					n[d.Kind]++
				case ventAutomatic, ventManual:
					n["air vent"]++
				}
			}
		}
	}
	return n
}

// kept reports whether a control that was there is there, set no higher.
func kept(before, after float64) bool { return math.IsNaN(before) || after <= before }

// notLower reports whether a temperature that was stated is not lower now.
func notLower(before, after float64) bool { return math.IsNaN(before) || after >= before }

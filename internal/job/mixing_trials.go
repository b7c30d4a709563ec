package job

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// groupNamed is the index of the mixing group with a name, -1 if there is none.
func groupNamed(j *Job, name string) int {
	for i := range j.Distribution.Mixing {
		if j.Distribution.Mixing[i].Name == name {
			return i
		}
	}
	return -1
}

// mixedSupplyTrials make the unit's supply as warm as the group needs it. Whether the
// unit gives its output at that temperature is for its papers to say.
func mixedSupplyTrials(j *Job, name string) []trial {
	i := groupNamed(j, name)
	if i < 0 {
		return nil
	}
	warm := math.Ceil(j.Distribution.Mixing[i].Supply)
	if warm > j.Liquid.Hottest {
		return nil
	}
	return []trial{{changes: []Change{amount("supply temperature of the unit", warm, "°C"), words("output of the unit at that supply", "as stated, to be confirmed by its papers")},
		apply: func(j *Job) { j.Unit.Supply = warm }}}
}

// mixedPumpTrials take losses away from the group's circulator, or give it more head.
func mixedPumpTrials(j *Job, s *Sheet, name string) []trial {
	i := groupNamed(j, name)
	line := s.mixedNamed(name)
	if i < 0 || line == nil {
		return nil
	}
	var all []trial
	for _, kv := range valveSizes {
		if kv > j.Distribution.Mixing[i].Kv && kv < 7*j.Distribution.Mixing[i].Kv {
			all = append(all, trial{changes: []Change{amount("mixing valve of "+name+", Kv", kv, "m³/h")}, apply: func(j *Job) { j.Distribution.Mixing[i].Kv = kv }})
		}
	}
	for k := range j.Distribution.Circuits {
		c := &j.Distribution.Circuits[k]
		if c.MixedBy != name || c.Name != line.Index {
			continue
		}
		if c.Emitter == "floor" {
			all = append(all, trial{changes: []Change{words(c.Name, "two circuits of half the length")}, apply: func(j *Job) { halve(j, k) }})
		}
		for _, next := range larger(c.Tube, 2) {
			all = append(all, trial{changes: []Change{words("tube of "+c.Name, next)}, apply: func(j *Job) { j.Distribution.Circuits[k].Tube = next }})
		}
	}
	return append(all, strongerPump(i, line, line.Required))
}

// strongerPump gives the circulator of a group the head that the group takes, a tenth
// more, and what a balancing valve keeps.
func strongerPump(i int, line *MixedLine, required float64) trial {
	head := math.Ceil((1.1*required+leastAtValve)/hydronics.Kilopascal) * hydronics.Kilopascal
	flow := line.Flow
	return trial{changes: []Change{amount(fmt.Sprintf("circulator of %s, head at its design flow, at least", line.Name), head, "Pa"), amount("its design flow", flow, "m³/s")},
		apply: func(j *Job) {
			curve := j.Distribution.Mixing[i].Pump
			if end := curve[len(curve)-1].Flow; end < 1.3*flow {
				for k := range curve {
					curve[k].Flow *= 1.3 * flow / end
				}
			}
			if has := headAt(curve, flow); has < head {
				for k := range curve {
					curve[k].Head *= head / has
				}
			}
		}}
}

// valveSizes are the usual Kv of mixing valves: the series R5 (ISO 3).
var valveSizes = [...]float64{0.25, 0.4, 0.63, 1, 1.6, 2.5, 4, 6.3, 10, 16, 25}

// mixedValveTrials take a smaller mixing valve, the largest that does first, and a
// circulator that overcomes it.
func mixedValveTrials(j *Job, s *Sheet, name string) []trial {
	i := groupNamed(j, name)
	line := s.mixedNamed(name)
	if i < 0 || line == nil {
		return nil
	}
	var all []trial
	now := j.Distribution.Mixing[i].Kv
	for n := len(valveSizes) - 1; n >= 0; n-- {
		kv := valveSizes[n]
		if kv >= now {
			continue
		}
		smaller := trial{changes: []Change{amount("mixing valve of "+name+", Kv", kv, "m³/h")}, apply: func(j *Job) { j.Distribution.Mixing[i].Kv = kv }}
		pump := strongerPump(i, line, line.Required+line.Valve*(square(now/kv)-1))
		both := trial{changes: append(append([]Change(nil), smaller.changes...), pump.changes...), apply: func(j *Job) { smaller.apply(j); pump.apply(j) }}
		all = append(all, smaller, both)
	}
	return all
}

// limiterTrials set the limiter of a floor, never higher than it is.
func limiterTrials(j *Job, name string) []trial {
	i := groupNamed(j, name)
	if i < 0 {
		return nil
	}
	g := &j.Distribution.Mixing[i]
	set := math.Ceil(g.Supply + 5)
	if set > g.Highest {
		set = g.Highest
	}
	if g.Limiter <= set {
		return nil
	}
	return []trial{{changes: []Change{amount("limiter of "+name+", stops its supply at", set, "°C")}, apply: func(j *Job) { j.Distribution.Mixing[i].Limiter = set }}}
}

// bufferFlowTrials raise the flow between unit and buffer to what is drawn.
func bufferFlowTrials(f *Finding) []trial {
	flow := math.Ceil(f.Limit/hydronics.LitrePerMinute) * hydronics.LitrePerMinute
	return []trial{{changes: []Change{amount("flow between unit and buffer, at least", flow, "m³/s")}, apply: func(j *Job) { j.Buffer.Flow = flow }}}
}

// mixedNamed is the line of a mixing group, nil if there is none.
func (s *Sheet) mixedNamed(name string) *MixedLine {
	for i := range s.Mixed {
		if s.Mixed[i].Name == name {
			return &s.Mixed[i]
		}
	}
	return nil
}

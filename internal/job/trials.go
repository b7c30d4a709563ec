package job

import (
	"fmt"
	"math"
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

func holds(s *Stretch, kind string) bool {
	for i := range s.Devices {
		if s.Devices[i].Kind == kind {
			return true
		}
	}
	return false
}

// String returns a change in words and SI, for logs.
func (c Change) String() string {
	if c.To != "" {
		return c.What + ": " + c.To
	}
	return fmt.Sprintf("%s: %.4g %s", c.What, float64(c.Value), c.Unit)
}

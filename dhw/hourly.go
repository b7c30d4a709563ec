package dhw

import (
	"fmt"

	"example.com/hydronics"
)

// FixtureUse is the hot water that draw-off points of one kind take in an hour.
type FixtureUse struct {
	Count  int     // 0 to 100,000 (guard)
	Hourly float64 // m³ an hour each, at the store's temperature, 0 to 10 (guard)
}

// An HourlyDemand sizes store and recovery of a building of many dwellings by the
// American method: all draw-off points at once, times a factor for how many of them
// meet in an hour, times the hours that the store has to help out.
type HourlyDemand struct {
	Uses          []FixtureUse // 1 to 1000
	DemandFactor  float64      // probable over possible demand, above 0 to 1: 0.30 for apartments
	StorageFactor float64      // h of probable demand in the store, above 0 to 24: 1.25 for apartments
	UsableShare   float64      // of the store's content that comes out hot, above 0 to 1: 0.7 is usual
}

// An HourlySize is a store and its recovery.
type HourlySize struct {
	Possible float64 // m³ an hour, all draw-off points
	Probable float64 // m³ an hour, what the heater has to recover
	Usable   float64 // m³ of hot water to store
	Store    float64 // m³, content of the store
}

// Size returns store and recovery. Fields outside their limits return a
// [hydronics.RangeError].
//
// Source: ASHRAE Handbook, HVAC Applications, Service Water Heating, hot-water
// demand per fixture, as attributed.
func (d HourlyDemand) Size() (HourlySize, error) {
	const fn = "dhw.HourlyDemand.Size"
	if err := count(fn, "uses", len(d.Uses), 1, 1000); err != nil {
		return HourlySize{}, err
	}
	err := together(hydronics.Within(fn, "demand factor", "", d.DemandFactor, 1e-3, 1, "share of the possible demand"),
		hydronics.Within(fn, "storage factor", "h", d.StorageFactor, 1e-3, 24, hydronics.Guard),
		hydronics.Within(fn, "usable share", "", d.UsableShare, 0.01, 1, "share of the content"))
	var s HourlySize
	for i, u := range d.Uses {
		if e := together(count(fn, "draw-off points", u.Count, 0, 100_000),
			hydronics.Within(fn, "hourly use", "m³", u.Hourly, 0, 10, hydronics.Guard)); e != nil {
			err = together(err, fmt.Errorf("use %d: %w", i+1, e))
		}
		s.Possible += float64(u.Count) * u.Hourly
	}
	if err != nil {
		return HourlySize{}, err
	}
	s.Probable = s.Possible * d.DemandFactor
	s.Usable = s.Probable * d.StorageFactor
	s.Store = s.Usable / d.UsableShare
	return s, nil
}

package pipe

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// A Part is a piece of the content of a system: tube ([Run.Content]), emitters,
// the coil of a cylinder, a buffer vessel. Emitters' contents are their
// makers' to state.
type Part struct {
	Name   string
	Volume float64 // m³, 0 to 1000 (guard)

	// Valve names the valve that can shut the part off, such as the zone it
	// belongs to; parts with the same Valve are shut together. Empty means that
	// nothing can. A bypass keeps the flow going past shut valves but stores
	// nothing: of it only its own tube is a part.
	Valve string
}

// A Circulation is how much of a content circulates.
type Circulation struct {
	Total float64  // of all parts, m³
	Least float64  // in the worst combination of valves, m³
	Shut  []string // the valves that are shut in it
}

// LeastContent returns the content that circulates in the worst combination of
// valves, when the control keeps at least keptOpen of them open (0: all may
// shut): what nothing can shut off, and the smallest groups that stay open.
func LeastContent(parts []Part, keptOpen int) (Circulation, error) {
	const fn = "pipe.LeastContent"
	groups := map[string]float64{}
	var c Circulation
	var errs []error
	for _, p := range parts {
		if !(p.Volume >= 0 && p.Volume <= maxVolume) {
			errs = append(errs, within(fn, fmt.Sprintf("volume of part %q", p.Name), "m³", p.Volume, 0, maxVolume))
		}
		c.Total += p.Volume
		if p.Valve == "" {
			c.Least += p.Volume
		} else {
			groups[p.Valve] += p.Volume
		}
	}
	if keptOpen < 0 || keptOpen > len(groups) {
		errs = append(errs, within(fn, "number of valves kept open", "", float64(keptOpen), 0, float64(len(groups))))
	}
	if err := errors.Join(errs...); err != nil {
		return Circulation{}, err
	}
	valves := make([]string, 0, len(groups))
	for v := range groups {
		valves = append(valves, v)
	}
	slices.SortFunc(valves, func(a, b string) int {
		return cmp.Or(cmp.Compare(groups[a], groups[b]), cmp.Compare(a, b))
	})
	for i, v := range valves {
		if i < keptOpen {
			c.Least += groups[v]
		} else {
			c.Shut = append(c.Shut, v)
		}
	}
	slices.Sort(c.Shut)
	return c, nil
}

// BufferFor returns the volume in m³ that a buffer has to add to a content that
// circulates in m³ to reach the required one; 0 where it suffices. Both may be 0
// to 1000 (guard).
func BufferFor(required, circulating float64) (float64, error) {
	const fn = "pipe.BufferFor"
	if err := errors.Join(within(fn, "required content", "m³", required, 0, maxVolume),
		within(fn, "circulating content", "m³", circulating, 0, maxVolume)); err != nil {
		return math.NaN(), err
	}
	return max(0, required-circulating), nil
}

package frost

import (
	"math"
	"strconv"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// Rules are the figures against which an [Arrangement] is judged. No standard
// states them; replace them by those of the valve's or the unit's instructions.
type Rules struct {
	OutletHeight float64 // m of a drain outlet above the ground, 0 to 5
	Snow         float64 // m of snow and of ice from drained water that the outlet must stand clear of, on top, 0 to 5
	Spacing      float64 // m between drain valves, 0 to 5
	Fall         float64 // rise over length of every outdoor leg, 0 to 1
}

// CommonRules returns 15 cm above the ground, 10 cm apart, a fall of 1 in 200.
// Source: common practice; the fall from memory (1 in 200 to 1 in 100).
func CommonRules() Rules { return Rules{OutletHeight: 0.15, Spacing: 0.10, Fall: 0.005} }

// An Arrangement is what stands outdoors: the flow, the return and whatever
// else holds water, each a reach in the same coordinates.
type Arrangement struct {
	Liquid  fluid.Liquid
	Reaches []Reach
	Names   []string // of the reaches, such as "flow"; as many as reaches, or none
	Ground  float64  // m, level of the ground in the coordinates of the routes
}

// Findings judges the arrangement on its routes. What common practice asks for
// gets [hydronics.MetUnconfirmed] at best; what geometry settles (a pocket keeps
// its water) can be met; what no drawing shows is to be seen on site.
//
// Errors: [hydronics.RangeError] for rules out of range and routes that cannot
// be surveyed.
func (a Arrangement) Findings(rules Rules) ([]hydronics.Finding, error) {
	const fn = "frost.Arrangement.Findings"
	if err := joined(
		hydronics.Within(fn, "height of the outlet", "m", rules.OutletHeight, 0, 5, hydronics.Guard),
		hydronics.Within(fn, "depth of snow", "m", rules.Snow, 0, 5, hydronics.Guard),
		hydronics.Within(fn, "spacing of drain valves", "m", rules.Spacing, 0, 5, hydronics.Guard),
		hydronics.Within(fn, "fall", "", rules.Fall, 0, 1, hydronics.Guard),
		hydronics.Within(fn, "ground", "m", a.Ground, -1e4, 1e4, hydronics.Guard),
		hydronics.Within(fn, "number of reaches", "", float64(len(a.Reaches)), 1, 100, hydronics.Guard)); err != nil {
		return nil, err
	}
	drains := 0
	for _, r := range a.Reaches {
		drains += len(r.Drains)
	}
	if _, err := a.Liquid.At(20); err != nil {
		return nil, err // the zero Liquid
	}
	if !a.Liquid.IsWater() {
		return a.antifreeze(drains), nil
	}
	found := make([]hydronics.Finding, 0, 8+6*len(a.Reaches)) // as many as most houses have
	for i := range a.Reaches {
		var err error
		if found, err = a.reach(found, i, rules); err != nil {
			return nil, err
		}
	}
	found = a.spacing(found, rules)
	if drains == 0 {
		return found, nil
	}
	for _, rule := range [...]string{
		"each drain valve stands at the coldest place of its low point",
		"drain valves stand out of the sun and away from sources of heat",
		"drain valves are insulated except at air inlet and outlet",
		"nothing can be put, grow or drift against outlet and air inlet",
		"normally closed isolating valves just indoors shut without power",
	} {
		found = append(found, hydronics.OnSite(rule, "drain valves", custom, bursts))
	}
	return append(found,
		hydronics.OnSite("drained water does not reach a walkway or a neighbour", "drain valves", custom, "people slip on the ice")), nil
}

// antifreeze judges drains in a solution: they would let it go into the ground,
// and mains water would come in its place.
func (a Arrangement) antifreeze(drains int) []hydronics.Finding {
	const poison = "antifreeze is lost into the ground, and the mains water in its place freezes"
	return []hydronics.Finding{
		hydronics.Statement("no automatic drain valve in an antifreeze solution", "outdoor section", drains == 0, custom, poison),
		hydronics.OnSite("no automatic top-up from the mains", "filling line", custom, poison),
		hydronics.OnSite("relief valve discharges into a container", "relief valve", custom, poison),
	}
}

func (a Arrangement) name(i int) string {
	if i < len(a.Names) {
		return a.Names[i]
	}
	return "reach " + strconv.Itoa(i+1)
}

// reach adds what is found about one reach.
func (a Arrangement) reach(found []hydronics.Finding, i int, rules Rules) ([]hydronics.Finding, error) {
	r, name := a.Reaches[i], a.name(i)
	survey, err := r.Route.Survey()
	if err != nil {
		return nil, err
	}
	outlets := make([]int, 0, len(r.Drains))
	for _, d := range r.Drains {
		if d.Point < 0 || d.Point >= len(r.Route) {
			return nil, hydronics.Within("frost.Arrangement.Findings", "point of a drain valve", "",
				float64(d.Point), 0, float64(len(r.Route)-1), "the points of the route")
		}
		outlets = append(outlets, d.Point)
		found = append(found, hydronics.Finding{
			Rule: "the outlet of the drain valve stands clear of ground, snow and ice", Subject: name + ", point " + strconv.Itoa(d.Point),
			Danger: "ice from the drained water shuts the outlet", Quantity: "height above the ground", Unit: "m",
			Bound: hydronics.AtLeast, Value: r.Route[d.Point].Z - a.Ground, Limit: rules.OutletHeight + rules.Snow, Source: custom,
		}.Judge())
	}
	for _, low := range survey.LowPoints {
		if !low.Outdoors {
			continue
		}
		has := false
		for p := low.From; p <= low.To; p++ {
			has = has || r.drainAt(p) >= 0
		}
		found = append(found, hydronics.Statement("a drain valve at the low point", name+", point "+strconv.Itoa(low.From), has, custom, bursts))
	}
	pockets, err := r.Route.HeldWater(outlets...)
	if err != nil {
		return nil, err
	}
	held := 0.0
	for _, p := range pockets {
		held += p.OutdoorLength
	}
	found = append(found, hydronics.Finding{Rule: "no pocket outdoors keeps its water", Subject: name, Danger: bursts,
		Quantity: "length that stays full", Unit: "m", Bound: hydronics.AtMost, Value: held, Limit: 0, Source: shape}.Judge())
	least := math.Inf(1)
	for _, l := range survey.Legs {
		if l.Outdoors {
			least = min(least, math.Abs(l.Slope))
		}
	}
	if !math.IsInf(least, 1) {
		found = append(found, hydronics.Finding{Rule: "every leg outdoors has a fall", Subject: name, Danger: bursts,
			Quantity: "least fall", Bound: hydronics.AtLeast, Value: least, Limit: rules.Fall,
			Source: hydronics.Source{Text: "fall of 1 in 200 to 1 in 100 to the drain", Provenance: hydronics.FromMemory}}.Judge())
	}
	return found, nil
}

// spacing adds what is found about the distances of the drain valves.
func (a Arrangement) spacing(found []hydronics.Finding, rules Rules) []hydronics.Finding {
	type place struct {
		name    string
		x, y, z float64
	}
	var places []place
	for i, r := range a.Reaches {
		for _, d := range r.Drains {
			p := r.Route[d.Point]
			places = append(places, place{a.name(i) + ", point " + strconv.Itoa(d.Point), p.X, p.Y, p.Z})
		}
	}
	for i, p := range places {
		for _, q := range places[:i] {
			found = append(found, hydronics.Finding{Rule: "drain valves keep their distance", Subject: q.name + " and " + p.name,
				Danger: "the warmth and the ice of one disturb the other", Quantity: "distance", Unit: "m", Bound: hydronics.AtLeast,
				Value: math.Hypot(math.Hypot(p.x-q.x, p.y-q.y), p.z-q.z), Limit: rules.Spacing, Source: custom}.Judge())
		}
	}
	return found
}

// A Case is something else that can go wrong with a drain, in figures.
type Case struct {
	What   string
	Flow   float64 // m³/s that runs out at first; 0 where none does
	Volume float64 // m³ that is lost; 0 where it is nothing or without end
	Ends   bool    // false: it runs until someone comes
}

// Cases returns what a drain that opens at the wrong moment or into an open
// system loses. mains is the pressure behind the filling link, indoors the
// volume in m³ (0 to 100) that stands above the lowest drain in the house.
//
// Sources: Kv is defined by IEC 60534; the cases are common practice.
func (r Reach) Cases(mains hydronics.Gauge, indoors float64) ([]Case, error) {
	const fn = "frost.Reach.Cases"
	water, err := fluid.Water().At(10)
	if err != nil {
		return nil, err
	}
	if err := joined(
		hydronics.Within(fn, "mains pressure", "Pa", float64(mains), 0, 2e6, hydronics.Guard),
		hydronics.Within(fn, "volume indoors", "m³", indoors, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "number of drain valves", "", float64(len(r.Drains)), 1, 1000, hydronics.Guard)); err != nil {
		return nil, err
	}
	d, err := r.Empty(water)
	if err != nil {
		return nil, err
	}
	largest := r.Drains[0].Kv
	for _, drain := range r.Drains {
		largest = max(largest, drain.Kv)
	}
	flow, err := largest.Flow(float64(mains), water.Density)
	if err != nil {
		return nil, err
	}
	return []Case{
		{"a drain valve sticks open, isolating valves shut", d.Flow, d.Volume, true},
		{"an isolating valve stays open: the house runs out with the section", d.Flow, d.Volume + indoors, true},
		{"the filling link is connected: mains water runs out", flow, 0, false},
	}, nil
}

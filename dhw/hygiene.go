package dhw

import (
	"fmt"
	"slices"

	"example.com/hydronics"
)

// Cautions that belong beside the values they are about.
const (
	// ScaldCaution belongs beside every outlet temperature of 45 °C and more.
	ScaldCaution = "Water of 60 °C scalds within seconds, of 50 °C within minutes; children, old and numb people sooner. " +
		"Fit thermostatic mixing valves where they bathe, and warn before a thermal disinfection."
	// LegionellaCaution belongs beside every storage and return temperature.
	LegionellaCaution = "Legionella multiply between about 25 and 50 °C. A temperature that meets a rule is no proof of a safe system: " +
		"biofilm, dead legs and sludge protect them. Hospitals, homes for the old and people with weak lungs need a specialist."
	// PressureCaution belongs beside every relief valve and every vessel.
	PressureCaution = "A closed cylinder without a working relief valve and cut-out can burst with the force of an explosion. " +
		"Work on it is for competent, in many countries licensed, persons; local codes come first."
)

// A Point is where a temperature is measured.
type Point uint8

// The points that rules on temperatures name.
const (
	StoredWater   Point = iota + 1 // in the cylinder, or leaving it
	Distribution                   // in the pipes that are kept warm, or at the farthest draw-off's supply
	ReturnFlow                     // of the circulation, where it comes back to the cylinder
	HotOutlet                      // at a hot tap that was opened fully
	ColdOutlet                     // at a cold tap that was opened fully
	BathOutlet                     // at the outlet that fills a bath
	MixedDelivery                  // in pipes that carry water mixed for a group of showers
)

var pointNames = [...]string{"unknown", "stored water", "distribution", "circulation return", "hot outlet", "cold outlet",
	"bath outlet", "mixed distribution"}

// String returns the point in words.
func (p Point) String() string {
	if int(p) < len(pointNames) {
		return pointNames[p]
	}
	return pointNames[0]
}

// A TemperatureRule is a published limit of a temperature.
type TemperatureRule struct {
	Book   Rulebook
	Point  Point
	Bound  hydronics.Bound
	Limit  float64 // °C
	Within float64 // s after the tap was opened fully; 0: at any time
	Clause string
}

var temperatureRules = [...]TemperatureRule{
	{WaterRegulations1999, StoredWater, hydronics.AtLeast, 60, 0, "G18.2"},
	{WaterRegulations1999, StoredWater, hydronics.AtMost, 100, 0, "G18.1"},
	{WaterRegulations1999, Distribution, hydronics.AtLeast, 55, 0, "G18.2"},
	{WaterRegulations1999, HotOutlet, hydronics.AtLeast, 50, 30, "G18.4"},
	{HSEL8, StoredWater, hydronics.AtLeast, 60, 0, ""},
	{HSEL8, ReturnFlow, hydronics.AtLeast, 50, 0, ""},
	{HSEL8, HotOutlet, hydronics.AtLeast, 50, 60, ""},
	{HSEL8, ColdOutlet, hydronics.AtMost, 20, 120, ""},
	{HTM0401, StoredWater, hydronics.AtLeast, 60, 0, ""},
	{HTM0401, Distribution, hydronics.AtLeast, 55, 0, ""},
	{HTM0401, ReturnFlow, hydronics.AtLeast, 50, 0, ""},
	{SIA385, StoredWater, hydronics.AtLeast, 60, 0, ""},
	{SIA385, Distribution, hydronics.AtLeast, 55, 0, ""},
	{SIA385, HotOutlet, hydronics.AtLeast, 50, 0, ""},
	{W551, StoredWater, hydronics.AtLeast, 60, 0, ""},
	{W551, ReturnFlow, hydronics.AtLeast, 55, 0, ""},
	{DIN1988Part200, ColdOutlet, hydronics.AtMost, 25, 30, ""},
	{UFC342001, StoredWater, hydronics.AtLeast, 60, 0, ""},
	{UFC342001, MixedDelivery, hydronics.AtMost, 43, 0, "barracks"},
	{ApprovedDocumentG, BathOutlet, hydronics.AtMost, 48, 0, "bath outlets in new dwellings"},
}

// Source cites the rule.
func (r TemperatureRule) Source() hydronics.Source {
	return r.Book.source(r.Clause, hydronics.SecondHand)
}

// danger says what the rule is against.
func (r TemperatureRule) danger() string {
	switch {
	case r.Point == BathOutlet || r.Point == MixedDelivery:
		return "scalds. " + ScaldCaution
	case r.Point == StoredWater && r.Bound == hydronics.AtMost:
		return dangerBoil
	case r.Point == ColdOutlet:
		return "legionella in cold water that has warmed. " + LegionellaCaution
	default:
		return "legionella. " + LegionellaCaution + " " + ScaldCaution
	}
}

// text says in words what the rule asks for.
func (r TemperatureRule) text() string {
	text := r.Point.String() + " hot enough"
	switch {
	case r.Point == ColdOutlet:
		text = r.Point.String() + " cold enough"
	case r.Bound == hydronics.AtMost:
		text = r.Point.String() + " not too hot"
	}
	if r.Within > 0 {
		text += fmt.Sprintf(", within %.0f s of opening", r.Within)
	}
	return text
}

// temperatureFindings are what the findings of each rule have in common.
var temperatureFindings = func() (all [len(temperatureRules)]hydronics.Finding) {
	for i, r := range temperatureRules {
		all[i] = hydronics.Finding{Rule: r.text(), Danger: r.danger(), Quantity: "temperature", Unit: "°C", Bound: r.Bound, Limit: r.Limit, Source: r.Source()}
	}
	return all
}()

// TemperatureRules returns the book's limits as far as they were seen, none for a
// book without any.
func (r Rulebook) TemperatureRules() []TemperatureRule {
	var rules []TemperatureRule
	for _, t := range temperatureRules {
		if t.Book == r {
			rules = append(rules, t)
		}
	}
	return rules
}

// A Reading is a temperature at a point, measured or planned.
type Reading struct {
	Point       Point
	Name        string  // which tap or pipe; may be empty
	Temperature float64 // °C, 0 to 130 (guard)
	After       float64 // s since the tap was opened fully, 0 to 3600 (guard); 0 for planned values
	Uncertainty float64 // K, 0 to 20 (guard)
}

// Findings judges at most 1000 readings by the book's rules. A rule about a point without a
// reading is to be seen on site; so is a rule with a time when its reading meets it
// too late, or misses it before the time is up. A book without rules on temperatures returns a [hydronics.RangeError], as
// do fields outside their limits.
//
// The limits are those of the documents. How fast legionella die, or skin burns, at
// a temperature is not calculated here: the published figures scatter by factors
// of two and three.
//
// Sources: the books of [Rulebook.TemperatureRules], as attributed; every finding
// cites its own.
func (r Rulebook) Findings(readings []Reading) ([]hydronics.Finding, error) {
	const fn = "dhw.Rulebook.Findings"
	if !slices.ContainsFunc(temperatureRules[:], func(t TemperatureRule) bool { return t.Book == r }) {
		return nil, noRule(fn, r, "WaterRegulations1999, HSEL8, HTM0401, SIA385, W551, DIN1988Part200, UFC342001, ApprovedDocumentG")
	}
	if err := count(fn, "readings", len(readings), 0, 1000); err != nil {
		return nil, err
	}
	var err error
	for i, x := range readings {
		if e := together(count(fn, "point", int(x.Point), int(StoredWater), int(MixedDelivery)),
			hydronics.Within(fn, "temperature", "°C", x.Temperature, 0, maxPrimary, hydronics.Guard),
			hydronics.Within(fn, "time after opening", "s", x.After, 0, hydronics.Hour, hydronics.Guard),
			hydronics.Within(fn, "uncertainty", "K", x.Uncertainty, 0, 20, hydronics.Guard)); e != nil {
			err = together(err, fmt.Errorf("reading %d: %w", i+1, e))
		}
	}
	if err != nil {
		return nil, err
	}
	found := make([]hydronics.Finding, 0, 4+len(readings)) // no book has more than four rules
	for i, rule := range temperatureRules {
		if rule.Book != r {
			continue
		}
		seen := false
		for _, x := range readings {
			if x.Point != rule.Point {
				continue
			}
			seen = true
			f := temperatureFindings[i]
			f.Subject, f.Value, f.Uncertainty = x.Name, x.Temperature, x.Uncertainty
			f = f.Judge()
			// The water at a tap nears its final temperature: a late reading that
			// misses the limit missed it in time too, one that keeps it proves
			// nothing, and of an early one the reverse holds.
			early := x.After > 0 && x.After < rule.Within
			late := rule.Within > 0 && x.After > rule.Within
			if failed := f.Verdict == hydronics.NotMet; late && !failed || early && failed {
				f.Verdict = hydronics.SeeOnSite
			}
			found = append(found, f)
		}
		if !seen {
			t := &temperatureFindings[i]
			f := hydronics.OnSite(t.Rule, "", t.Source, t.Danger)
			f.Quantity, f.Unit, f.Bound, f.Limit = t.Quantity, t.Unit, t.Bound, t.Limit
			found = append(found, f)
		}
	}
	return found, nil
}

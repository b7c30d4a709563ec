package dhw

import (
	"math"

	"example.com/hydronics"
)

// MaxSetPressure is the highest set pressure of a relief valve on a closed
// cylinder of potable water: 1 MPa (EN 806-2 and EN 12897, from memory).
const MaxSetPressure hydronics.Gauge = 1 * hydronics.Megapascal

// A SupplyRule limits the cold water pressure to a fraction of the relief
// valve's set pressure. Nearer to it, the pressure that the mains reach at night
// and the rise while heating make the valve drip, scale and stick.
type SupplyRule struct {
	Book     Rulebook
	Fraction float64 // of the set pressure, both above the atmosphere
	Reducer  bool    // the limit is the setting of the pressure reducer, not the pressure itself
	Source   hydronics.Source
}

var supplyRules = [...]SupplyRule{
	{DIN1988Part200, 0.80, false, hydronics.Source{
		Text:       "DIN 1988-200 and EN 806-2: service pressure at most 80 % of the relief valve's setting",
		Provenance: hydronics.SecondHand}},
	{DIN1988Part2, 0.80, false, DIN1988Part2.source("80 % of the relief valve's setting", hydronics.SecondHand)},
	{AustrianPractice, 0.75, true, AustrianPractice.source("75 % of the relief valve's setting", hydronics.SecondHand)},
}

// SupplyRule returns the book's limit of the cold water pressure; false if the
// book has none that was seen, as in England, where the cylinder's maker sets it.
//
// Sources: DIN 1988-200 with EN 806-2, and DIN 1988-2 (80 %); an Austrian school
// book for the trade (75 %, for the reducer); all as attributed.
func (r Rulebook) SupplyRule() (SupplyRule, bool) {
	for _, rule := range supplyRules {
		if rule.Book == r {
			return rule, true
		}
	}
	return SupplyRule{}, false
}

// MaxSupply returns the highest cold water pressure in Pa above the atmosphere
// for a relief valve of the set pressure in Pa above the atmosphere, 0.2 to 20
// bar (guard); outside it returns NaN and a [hydronics.RangeError].
//
// Source: definition (fraction times set pressure); the fraction's own is in
// [SupplyRule].
func (r SupplyRule) MaxSupply(set hydronics.Gauge) (hydronics.Gauge, error) {
	const fn = "dhw.SupplyRule.MaxSupply"
	err := together(gauge(fn, "set pressure", set),
		hydronics.Within(fn, "fraction", "", r.Fraction, 0.01, 1, hydronics.Guard))
	if err != nil {
		return hydronics.Gauge(math.NaN()), err
	}
	return hydronics.Gauge(r.Fraction) * set, nil
}

// A SetPressure gathers what the relief valve's setting has to fit. All are
// pressures above the atmosphere in Pa, 0.2 to 20 bar (guard), at the height of
// the cylinder.
type SetPressure struct {
	Book     Rulebook
	Set      hydronics.Gauge // of the relief valve
	Cylinder hydronics.Gauge // rated pressure of the cylinder
	Lowest   hydronics.Gauge // lowest rated pressure of all other components that see the pressure
	Mains    hydronics.Gauge // highest static pressure of the mains
	Reducer  hydronics.Gauge // setting of the pressure reducer; 0: none
}

// Findings judges the setting: against the cylinder, the weakest component, 1
// MPa, and the cold water pressure by the book's [SupplyRule] where it has one.
// Fields outside the guards return a [hydronics.RangeError].
func (s SetPressure) Findings() ([]hydronics.Finding, error) {
	const fn = "dhw.SetPressure.Findings"
	err := together(s.Book.check(fn), gauge(fn, "set pressure", s.Set), gauge(fn, "rated pressure of the cylinder", s.Cylinder),
		gauge(fn, "lowest rated pressure of the components", s.Lowest), gauge(fn, "mains pressure", s.Mains))
	if s.Reducer != 0 {
		err = together(err, gauge(fn, "setting of the pressure reducer", s.Reducer))
	}
	if err != nil {
		return nil, err
	}
	const burst = "a cylinder or a component whose rating is passed can burst"
	most := func(rule, subject string, value, limit hydronics.Gauge, source hydronics.Source, danger string) hydronics.Finding {
		return hydronics.Finding{Rule: rule, Subject: subject, Danger: danger, Quantity: "gauge pressure", Unit: "Pa",
			Bound: hydronics.AtMost, Value: float64(value), Limit: float64(limit), Source: source}.Judge()
	}
	custom := hydronics.Source{Text: "a relief valve protects what is rated for its setting", Provenance: hydronics.CommonPractice}
	found := []hydronics.Finding{
		most("set pressure at most the rated pressure of the cylinder", "relief valve", s.Set, s.Cylinder,
			hydronics.Source{Text: "TRD 721: set at most to the allowable pressure of the heater", Provenance: hydronics.SecondHand}, burst),
		most("set pressure at most the lowest rating of all components", "relief valve", s.Set, s.Lowest, custom, burst),
		most("set pressure at most 1 MPa", "relief valve", s.Set, MaxSetPressure,
			hydronics.Source{Text: "EN 806-2 and EN 12897", Provenance: hydronics.FromMemory}, burst),
	}
	supply, subject := s.Mains, "mains"
	if s.Reducer != 0 {
		supply, subject = s.Reducer, "pressure reducer"
		found = append(found, hydronics.Finding{Rule: "the reducer's setting lies below the mains pressure", Subject: subject,
			Danger: "a reducer set above its inlet pressure limits nothing", Quantity: "gauge pressure", Unit: "Pa",
			Bound: hydronics.AtMost, Value: float64(s.Reducer), Limit: float64(s.Mains),
			Source: hydronics.Source{Text: "a pressure reducer can only lower", Provenance: hydronics.CommonPractice}}.Judge())
	}
	const drip = "the relief valve drips, scales and sticks"
	if rule, ok := s.Book.SupplyRule(); ok {
		limit := hydronics.Gauge(rule.Fraction) * s.Set
		found = append(found, most("cold water pressure at most its share of the set pressure", subject, supply, limit, rule.Source, drip))
	} else {
		found = append(found, most("cold water pressure below the set pressure", subject, supply, s.Set,
			hydronics.Source{Text: "a relief valve at its setting runs all the time", Provenance: hydronics.CommonPractice}, drip))
	}
	if s.Book == IRC2021 {
		found = append(found, most("static pressure at most 80 psi", subject, supply, 80*hydronics.PoundPerSquareIn,
			IRC2021.source("section P2903.3.1", hydronics.SecondHand), drip))
	}
	return found, nil
}

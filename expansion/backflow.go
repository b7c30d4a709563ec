package expansion

import (
	"fmt"

	"example.com/hydronics"
)

// A FluidCategory says how much harm a liquid does if it gets back into drinking
// water, after EN 1717: 1 is drinking water, 2 is changed in taste, smell or
// temperature, 3 is of some harm, 4 is toxic, 5 carries germs.
type FluidCategory uint8

// Contents is what a heating circuit holds, as the filling link sees it.
type Contents uint8

// The contents. Corrosion inhibitors, biocides and glycols count as additives.
const (
	PlainHeatingWater Contents = iota + 1
	InhibitedHeatingWater
	PropyleneGlycolWater
	EthyleneGlycolWater
)

var contentsNames = [...]string{"", "heating water without additives", "heating water with inhibitors",
	"propylene glycol in water", "ethylene glycol in water"}

// String returns the contents in words.
func (c Contents) String() string {
	if int(c) < len(contentsNames) && c > 0 {
		return contentsNames[c]
	}
	return "unknown contents"
}

// A Backflow is one published classification of a heating circuit's contents.
type Backflow struct {
	Place    string        // whose practice it is
	Contents Contents      // what the circuit holds
	Category FluidCategory // 3 or 4
	Unit     string        // the protection unit named with it, by its letters in EN 1717; "" where the source names none
	Source   hydronics.Source
}

var backflows = [...]Backflow{
	{"Germany", PlainHeatingWater, 3, "CA", hydronics.Source{Text: "EN 1717 as explained in SBZ Monteur", Provenance: hydronics.SecondHand}},
	{"Germany", InhibitedHeatingWater, 4, "BA", hydronics.Source{Text: "EN 1717 as explained in SBZ Monteur", Provenance: hydronics.SecondHand}},
	{"Sweden", PlainHeatingWater, 3, "", hydronics.Source{Text: "Swedish classification list to SS-EN 1717", Provenance: hydronics.SecondHand}},
	{"Sweden", PropyleneGlycolWater, 4, "", hydronics.Source{Text: "Swedish classification list to SS-EN 1717, water with antifreeze, depending on content", Provenance: hydronics.SecondHand}},
	{"Sweden", EthyleneGlycolWater, 4, "", hydronics.Source{Text: "Swedish classification list to SS-EN 1717, water with antifreeze, depending on content", Provenance: hydronics.SecondHand}},
	{"United Kingdom", EthyleneGlycolWater, 3, "", hydronics.Source{Text: "Water Supply (Water Fittings) Regulations 1999, Schedule 1", Provenance: hydronics.Original}},
}

// BackflowOpinions returns every published classification of the contents, in the
// order they were gathered. They disagree: the United Kingdom has ethylene glycol in
// category 3, Sweden has antifreeze in category 4.
func BackflowOpinions(c Contents) []Backflow {
	var found []Backflow
	for _, b := range backflows {
		if b.Contents == c {
			found = append(found, b)
		}
	}
	return found
}

// BackflowProtection returns the strictest published classification of the contents
// in the place, or of all places for "". Unknown contents, and a place of which no
// classification was seen, are refused: its water authority has to be asked.
//
// Where the source names a category but no unit, the German one for the category is
// taken: CA for 3, BA for 4.
func BackflowProtection(c Contents, place string) (Backflow, error) {
	const fn = "expansion.BackflowProtection"
	var strictest Backflow
	for _, b := range BackflowOpinions(c) {
		if (place == "" || place == b.Place) && b.Category > strictest.Category {
			strictest = b
		}
	}
	switch {
	case strictest.Category == 0:
		return Backflow{}, fmt.Errorf("%s: no published category was seen for %v in %q: %w", fn, c, place, hydronics.ErrRange)
	case strictest.Unit == "" && strictest.Category == 3:
		strictest.Unit = "CA"
	case strictest.Unit == "":
		strictest.Unit = "BA"
	}
	return strictest, nil
}

// A ProtectionUnit is a backflow preventer by its letters in EN 1717, with the
// highest category it protects against.
type ProtectionUnit struct {
	Letters string
	Most    FluidCategory
	Source  hydronics.Source
}

// The capability of the units: those that a seen text pairs with a category carry
// its source, the rest of the table of EN 1717 is from memory.
var protectionUnits = [...]ProtectionUnit{
	{"AA", 5, hydronics.Source{Text: "Water Regs UK guidance, type AA or AB air gap", Provenance: hydronics.Original}},
	{"AB", 5, hydronics.Source{Text: "Water Regs UK guidance, type AA or AB air gap", Provenance: hydronics.Original}},
	{"AD", 5, hydronics.Source{Text: "EN 1717, table 2", Provenance: hydronics.FromMemory}},
	{"AF", 4, hydronics.Source{Text: "Water Regs UK guidance, type AF air gap", Provenance: hydronics.Original}},
	{"BA", 4, hydronics.Source{Text: "EN 1717 as explained in SBZ Monteur; Water Regs UK guidance", Provenance: hydronics.SecondHand}},
	{"GB", 4, hydronics.Source{Text: "EN 1717 as explained in SBZ Monteur", Provenance: hydronics.SecondHand}},
	{"CA", 3, hydronics.Source{Text: "EN 1717 as explained in SBZ Monteur", Provenance: hydronics.SecondHand}},
	{"GA", 3, hydronics.Source{Text: "EN 1717 as explained in SBZ Monteur", Provenance: hydronics.SecondHand}},
	{"EC", 3, hydronics.Source{Text: "Water Regs UK guidance, double check valve (United Kingdom only)", Provenance: hydronics.Original}},
	{"ED", 3, hydronics.Source{Text: "Water Regs UK guidance, double check valve (United Kingdom only)", Provenance: hydronics.Original}},
	{"EA", 2, hydronics.Source{Text: "Water Regs UK guidance, single check valve", Provenance: hydronics.Original}},
	{"EB", 2, hydronics.Source{Text: "Water Regs UK guidance, single check valve", Provenance: hydronics.Original}},
}

// ProtectionUnits returns the units known here, strongest first.
func ProtectionUnits() []ProtectionUnit { return append([]ProtectionUnit(nil), protectionUnits[:]...) }

// JudgeFilling judges the backflow preventer of a filling link by its letters
// against the contents of the circuit, in the place or by the strictest opinion for
// "". A hose that is coupled for filling only needs the same unit as a fixed pipe.
func JudgeFilling(c Contents, place, unit string) (hydronics.Finding, error) {
	need, err := BackflowProtection(c, place)
	if err != nil {
		return hydronics.Finding{}, err
	}
	for _, u := range protectionUnits {
		if u.Letters == unit {
			if (u.Letters == "EC" || u.Letters == "ED") && need.Place != "United Kingdom" {
				// Elsewhere a pair of check valves counts for less, as remembered.
				u.Most, u.Source = 2, hydronics.Source{Text: "EN 1717, table 2", Provenance: hydronics.FromMemory}
			}
			return hydronics.Finding{
				Rule:    "the backflow preventer of the filling link protects against the circuit's fluid category",
				Subject: c.String() + ", unit " + unit, Danger: "heating water in the drinking water",
				Quantity: "fluid category", Bound: hydronics.AtLeast,
				Value: float64(u.Most), Limit: float64(need.Category), Source: worst(need.Source, u.Source),
			}.Judge(), nil
		}
	}
	return hydronics.Finding{}, fmt.Errorf("expansion.JudgeFilling: protection unit %q is not known: %w", unit, hydronics.ErrRange)
}

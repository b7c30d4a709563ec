package dhw

import (
	"fmt"

	"example.com/hydronics"
)

// A SeldomUsed is a branch that may stand for a long time.
type SeldomUsed struct {
	Name       string
	Interval   float64 // s, longest time between two draw-offs that change all its water, 0 to a year (guard)
	Vulnerable bool    // people with weak lungs or defences use the building: hospital, home for the old
}

// flushing are the rules for branches that stand, all from memory.
var flushing = [...]struct {
	book     Rulebook
	interval float64
	clause   string
}{
	{W551, 72 * hydronics.Hour, "with VDI/DVGW 6023: water changed every 72 h"},
	{HSEL8, 7 * hydronics.Day, "with HSG274 part 2: seldom used outlets flushed weekly"},
}

// Findings judges branches that stand by the flush rule of the book, [W551] or
// [HSEL8]; both rules are from memory, so that no finding reads met. Where
// vulnerable people are, a specialist has to judge. Another book, and intervals
// outside the guard, return a [hydronics.RangeError].
func (s SeldomUsed) Findings(book Rulebook) ([]hydronics.Finding, error) {
	const fn = "dhw.SeldomUsed.Findings"
	if err := duration(fn, "interval", s.Interval); err != nil {
		return nil, err
	}
	for _, r := range flushing {
		if r.book != book {
			continue
		}
		f := hydronics.Finding{Rule: "water of a seldom used branch is changed in time", Subject: s.Name,
			Danger: "legionella. " + LegionellaCaution, Quantity: "interval", Unit: "s", Bound: hydronics.AtMost,
			Value: s.Interval, Limit: r.interval, Source: book.source(r.clause, hydronics.FromMemory)}.Judge()
		found := []hydronics.Finding{f}
		if s.Vulnerable {
			found = append(found, hydronics.OnSite("a specialist in hygiene judges a building with vulnerable people", s.Name,
				hydronics.Source{Text: "limits for healthy people do not hold here", Provenance: hydronics.CommonPractice}, "legionella. "+LegionellaCaution))
		}
		return found, nil
	}
	return nil, fmt.Errorf("%w; take a branch out rather than flush it", noRule(fn, book, "W551, HSEL8"))
}

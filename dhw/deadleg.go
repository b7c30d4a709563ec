package dhw

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Piece is a length of tube of one size.
type Piece struct {
	Outside float64 // m, outside diameter, 0.005 to 0.5 (guard), above Bore
	Bore    float64 // m, 0.002 to 0.5 (guard)
	Length  float64 // m, 0 to 1000 (guard)
}

// A DeadLeg is hot water pipe from the circulated part, or from the cylinder, to
// one tap: what stands in it goes cold, and has to be run off.
type DeadLeg struct {
	Pieces []Piece // in any order, 1 to 100
	Flow   float64 // m³/s at the tap, 1e-7 to 0.1 (guard)
}

// A Stagnation is what a dead leg holds and how long it takes to run off.
type Stagnation struct {
	Length  float64 // m
	Content float64 // m³
	Wait    float64 // s, content over flow; the pipe takes heat as well, so that it is longer in truth
	Widest  float64 // m, largest outside diameter
}

// Stagnation returns length, content and waiting time. Fields outside their limits
// return a [hydronics.RangeError].
//
// Source: definition (content π/4 d² L of the bore, wait content over flow).
func (d DeadLeg) Stagnation() (Stagnation, error) {
	const fn = "dhw.DeadLeg.Stagnation"
	if err := count(fn, "pieces", len(d.Pieces), 1, 100); err != nil {
		return Stagnation{}, err
	}
	err := hydronics.Within(fn, "flow", "m³/s", d.Flow, minFlow, maxFlow, hydronics.Guard)
	var s Stagnation
	for i, p := range d.Pieces {
		if e := together(hydronics.Within(fn, "bore", "m", p.Bore, 0.002, 0.5, hydronics.Guard),
			hydronics.Within(fn, "outside diameter", "m", p.Outside, max(0.005, p.Bore), 0.5, "guard, not below the bore"),
			length(fn, "length", p.Length)); e != nil {
			err = together(err, fmt.Errorf("piece %d: %w", i+1, e))
		}
		s.Length += p.Length
		s.Content += math.Pi / 4 * p.Bore * p.Bore * p.Length
		s.Widest = max(s.Widest, p.Outside)
	}
	if err != nil {
		return Stagnation{}, err
	}
	s.Wait = s.Content / d.Flow
	return s, nil
}

// stagnationLimit is one published limit of dead legs.
type stagnationLimit struct {
	book     Rulebook
	rule     string
	quantity string
	unit     string
	value    func(Stagnation) float64
	limit    func(Stagnation) float64
	clause   string
}

func fixed(v float64) func(Stagnation) float64 { return func(Stagnation) float64 { return v } }

// pipeLengths is Table 8.1 of the UK guidance: outside diameters not exceeding, and lengths, m.
var pipeLengths = [...]struct{ outside, length float64 }{{0.012, 20}, {0.022, 12}, {0.028, 8}, {math.Inf(1), 3}}

func stagnationLimits() []stagnationLimit {
	length := func(s Stagnation) float64 { return s.Length }
	wait := func(s Stagnation) float64 { return s.Wait }
	return []stagnationLimit{
		{WaterRegulations1999, "uninsulated hot pipe no longer than its widest tube allows", "length", "m", length,
			func(s Stagnation) float64 {
				for _, p := range pipeLengths {
					if s.Widest <= p.outside+1e-9 {
						return p.length
					}
				}
				return math.NaN()
			}, "Table 8.1"},
		{WaterRegulations1999, "hot water within 30 s", "waiting time", "s", wait, fixed(30), "G18.4"},
		{W551, "at most 3 l in a flow path without circulation", "content", "m³",
			func(s Stagnation) float64 { return s.Content }, fixed(3 * hydronics.Litre), "pipes without circulation"},
		{IPC2018, "source of hot water within 50 ft", "length", "m", length, fixed(50 * hydronics.Foot), "section 607.2"},
		{IRC2021, "source of hot water within 100 ft", "length", "m", length, fixed(100 * hydronics.Foot), "section P2905.3"},
	}
}

// Findings judges the dead leg by a book: [WaterRegulations1999], [W551], [IPC2018]
// or [IRC2021]; another book has no rule and returns a [hydronics.RangeError], as do
// fields outside their limits. The waiting time counts the water alone; the tube
// has to be warmed too, so that a leg near the limit fails in truth.
//
// Sources: guidance to the Water Supply (Water Fittings) Regulations 1999, Table
// 8.1 and G18.4; DVGW W 551; International Plumbing Code 2018, section 607.2;
// International Residential Code 2021, section P2905.3; all as attributed.
func (d DeadLeg) Findings(book Rulebook) ([]hydronics.Finding, error) {
	s, err := d.Stagnation()
	if err != nil {
		return nil, err
	}
	var found []hydronics.Finding
	for _, l := range stagnationLimits() {
		if l.book != book {
			continue
		}
		found = append(found, hydronics.Finding{Rule: l.rule, Subject: "dead leg", Danger: "water that stands lukewarm breeds legionella, and water is run off until it is hot",
			Quantity: l.quantity, Unit: l.unit, Bound: hydronics.AtMost, Value: l.value(s), Limit: l.limit(s),
			Source: book.source(l.clause, hydronics.SecondHand)}.Judge())
	}
	if found == nil {
		return nil, noRule("dhw.DeadLeg.Findings", book, "WaterRegulations1999, W551, IPC2018, IRC2021")
	}
	return found, nil
}

// noRule is the error of asking a book for what it does not rule.
func noRule(fn string, book Rulebook, want string) error {
	return fmt.Errorf("%s: rulebook %q has no such rule, want one of %s: %w", fn, book, want, hydronics.ErrRange)
}

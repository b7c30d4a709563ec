package dhw

import (
	"math"
	"slices"

	"example.com/hydronics"
)

// A Funnel describes the discharge of a relief valve over a funnel, as German and
// Austrian rules want it.
type Funnel struct {
	Book     Rulebook // DIN1988Part2 or AustrianPractice
	OutletDN int      // nominal size of the valve's outlet, mm, one of 10 to 50
	DN       int      // nominal size of the discharge pipe, mm, one of 10 to 50
	Length   float64  // m of the discharge pipe, 0 to 1000 (guard)
	Bends    int      // 0 to 100 (guard)
	AirGap   float64  // m between its end and the funnel's rim, 0 to 1 (guard)
	DrainDN  int      // nominal size of the drain after the funnel, mm, 1 to 200 (guard)
}

// nominalSizes are the sizes of which one is the next larger of another.
var nominalSizes = [...]int{10, 15, 20, 25, 32, 40, 50}

// Findings judges the discharge. Fields outside their limits, and another
// jurisdiction's book, return a [hydronics.RangeError].
func (d Funnel) Findings() ([]hydronics.Finding, error) {
	const fn = "dhw.Funnel.Findings"
	outlet, pipe := slices.Index(nominalSizes[:], d.OutletDN), slices.Index(nominalSizes[:], d.DN)
	err := together(hydronics.Within(fn, "rulebook", "", float64(d.Book), float64(DIN1988Part2), float64(AustrianPractice), "books with a funnel"),
		length(fn, "length of the discharge pipe", d.Length), count(fn, "number of bends", d.Bends, 0, 100),
		hydronics.Within(fn, "air gap", "m", d.AirGap, 0, 1, hydronics.Guard), count(fn, "nominal size of the drain", d.DrainDN, 1, 200))
	for _, s := range []struct {
		quantity  string
		dn, place int
	}{{"nominal size of the outlet", d.OutletDN, outlet}, {"nominal size of the discharge pipe", d.DN, pipe}} {
		if s.place < 0 {
			err = together(err, &hydronics.RangeError{Func: fn, Quantity: s.quantity, Value: float64(s.dn), Min: 10, Max: 50,
				Source: "nominal sizes 10, 15, 20, 25, 32, 40, 50"})
		}
	}
	if err != nil {
		return nil, err
	}
	const (
		back  = "a discharge pipe that is too narrow or too long holds the relief valve back"
		gap   = "without an air gap waste water is sucked into the cylinder, and the discharge is not seen"
		spill = "the drain overflows with boiling water"
	)
	judge := func(rule, subject, quantity, unit string, bound hydronics.Bound, value, limit float64, p hydronics.Provenance, danger string) hydronics.Finding {
		return hydronics.Finding{Rule: rule, Subject: subject, Danger: danger, Quantity: quantity, Unit: unit, Bound: bound,
			Value: value, Limit: limit, Source: d.Book.source("discharge of the safety valve", p)}.Judge()
	}
	seen := hydronics.SecondHand
	found := []hydronics.Finding{
		judge("end of the discharge at least 20 mm above the funnel", "discharge pipe", "air gap", "m", hydronics.AtLeast, d.AirGap, 20*hydronics.Millimetre, seen, gap)}
	if d.Book == AustrianPractice {
		narrow := judge("discharge pipe no narrower than the outlet", "discharge pipe", "nominal size", "m", hydronics.AtLeast,
			float64(d.DN)*hydronics.Millimetre, float64(d.OutletDN)*hydronics.Millimetre, seen, back)
		narrow.Source = customOfTheTrade
		return append(found, narrow.Judge(),
			judge("drain of at least DN 30", "drain", "nominal size", "m", hydronics.AtLeast, float64(d.DrainDN)*hydronics.Millimetre, 30*hydronics.Millimetre, seen, spill)), nil
	}
	longest, bends := 0.0, 0.0 // of a pipe narrower than the outlet
	switch {
	case pipe > outlet:
		longest, bends = 4, 3
	case pipe == outlet:
		longest, bends = 2, 2
	}
	return append(found,
		judge("end of the discharge at most 40 mm above the funnel", "discharge pipe", "air gap", "m", hydronics.AtMost, d.AirGap, 40*hydronics.Millimetre, seen, spill),
		judge("discharge pipe no narrower than the outlet", "discharge pipe", "nominal size", "m", hydronics.AtLeast,
			float64(d.DN)*hydronics.Millimetre, float64(d.OutletDN)*hydronics.Millimetre, seen, back),
		judge("discharge pipe at most 2 m of the outlet's size, 4 m one size larger", "discharge pipe", "length", "m", hydronics.AtMost, d.Length, longest, seen, back),
		judge("at most 2 bends of the outlet's size, 3 one size larger", "discharge pipe", "bends", "", hydronics.AtMost, float64(d.Bends), bends, seen, back),
		judge("drain after the funnel of twice the cross-section", "drain", "nominal size", "m", hydronics.AtLeast,
			float64(d.DrainDN)*hydronics.Millimetre, math.Sqrt2*float64(d.DN)*hydronics.Millimetre, seen, spill)), nil
}

// An OpenEnd describes a discharge pipe that ends in the open, as the
// International Plumbing Code and New Zealand's G12/AS1 want it.
type OpenEnd struct {
	Book    Rulebook // IPC2018 or NewZealandG12
	Outlet  float64  // m, bore of the valve's outlet, 0.005 to 0.1 (guard)
	Bore    float64  // m, of the discharge pipe, 0.005 to 0.1 (guard)
	End     float64  // m, height of its end above floor, receptor or gully grate, 0 to 10 (guard)
	AirGap  float64  // m above the rim of a tundish, 0 to 1 (guard); New Zealand only
	OwnPipe bool     // the pipe serves this valve alone
	Clear   bool     // no trap, valve, tee or thread at the end, falling all the way
}

// Findings judges the discharge. Fields outside their limits, and another
// jurisdiction's book, return a [hydronics.RangeError].
func (d OpenEnd) Findings() ([]hydronics.Finding, error) {
	const fn = "dhw.OpenEnd.Findings"
	err := together(hydronics.Within(fn, "rulebook", "", float64(d.Book), float64(IPC2018), float64(NewZealandG12), "books with an open end"),
		hydronics.Within(fn, "bore of the outlet", "m", d.Outlet, 0.005, 0.1, hydronics.Guard),
		hydronics.Within(fn, "bore of the discharge pipe", "m", d.Bore, 0.005, 0.1, hydronics.Guard),
		hydronics.Within(fn, "height of the end", "m", d.End, 0, 10, hydronics.Guard),
		hydronics.Within(fn, "air gap", "m", d.AirGap, 0, 1, hydronics.Guard))
	if err != nil {
		return nil, err
	}
	clause, lowest, highest := "section 504.6", 2*d.Bore, 6*hydronics.Inch
	if d.Book == NewZealandG12 {
		clause, lowest, highest = "section 6.7, guidance on relief valve drains", 75*hydronics.Millimetre, 300*hydronics.Millimetre
	}
	source := d.Book.source(clause, hydronics.SecondHand)
	const (
		back   = "a discharge that is held back keeps the pressure in the cylinder"
		splash = "boiling water hits whoever stands by"
		suck   = "waste water is sucked back"
	)
	judge := func(rule string, bound hydronics.Bound, value, limit float64, quantity, danger string) hydronics.Finding {
		return hydronics.Finding{Rule: rule, Subject: "discharge pipe", Danger: danger, Quantity: quantity, Unit: "m", Bound: bound,
			Value: value, Limit: limit, Source: source}.Judge()
	}
	found := []hydronics.Finding{
		judge("discharge pipe no smaller than the valve's outlet", hydronics.AtLeast, d.Bore, d.Outlet, "bore", back),
		judge("end high enough above floor, receptor or grate", hydronics.AtLeast, d.End, lowest, "height", suck),
		judge("end low enough above floor, receptor or grate", hydronics.AtMost, d.End, highest, "height", splash),
		hydronics.Statement("no trap, valve, tee or thread at the end, falling all the way", "discharge pipe", d.Clear, source, back),
	}
	if d.Book == NewZealandG12 {
		return append(found, judge("air gap over the tundish of at least two bores", hydronics.AtLeast, d.AirGap, 2*d.Bore, "air gap", suck)), nil
	}
	return append(found,
		hydronics.Statement("the pipe serves this valve alone", "discharge pipe", d.OwnPipe, source, back),
		hydronics.OnSite("the end is in the same room, in sight, where it can scald nobody and harm no building", "discharge pipe", source, splash)), nil
}

package dhw

import (
	"example.com/hydronics"
)

// A Tundish describes the discharge of a temperature or expansion relief valve
// through a tundish, as Approved Document G wants it: pipe D1 from the valve to
// the tundish, an air gap that shows every discharge, pipe D2 from there to a
// safe and visible end.
type Tundish struct {
	Book     Rulebook // ApprovedDocumentG or ApprovedDocumentG1992
	Outlet   Outlet   // of the relief valve
	D1       float64  // m, outside diameter of the copper tube from valve to tundish, 0.005 to 0.1 (guard)
	Distance float64  // m, of tube from valve to tundish, 0 to 100 (guard)
	Vertical float64  // m, straight down below the tundish before the first bend, 0 to 100 (guard)
	D2       float64  // m, outside diameter of the copper tube after the tundish, one of the sizes of [DischargeResistance]
	Run      Straight // course after the tundish
	Fall     float64  // fall over length of the flattest part after the tundish, 0 to 1
}

// Findings judges the discharge pipe. Fields outside the guards, a book that
// has no tundish and a tube that its table does not know return a
// [hydronics.RangeError].
func (d Tundish) Findings() ([]hydronics.Finding, error) {
	const fn = "dhw.Tundish.Findings"
	err := together(
		hydronics.Within(fn, "rulebook", "", float64(d.Book), float64(ApprovedDocumentG), float64(ApprovedDocumentG1992), "the editions of Approved Document G"),
		hydronics.Within(fn, "diameter D1", "m", d.D1, 0.005, 0.1, hydronics.Guard),
		hydronics.Within(fn, "distance of the tundish", "m", d.Distance, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "vertical pipe below the tundish", "m", d.Vertical, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "fall", "", d.Fall, 0, 1, hydronics.Guard))
	if err != nil {
		return nil, err
	}
	p, err := DischargeResistance(d.Outlet, d.D2, d.Run)
	if err != nil {
		return nil, err
	}
	distance := 600 * hydronics.Millimetre
	if d.Book == ApprovedDocumentG1992 {
		distance = 500 * hydronics.Millimetre
	}
	const (
		blocked = "a discharge that cannot run off backs up over the tundish and scalds, or holds the pressure back in the cylinder"
		splash  = "boiling water splashes out of the tundish instead of running off"
	)
	table := d.Book.source("Table 3.1", hydronics.SecondHand)
	text := d.Book.source("requirement G3, guidance on discharge pipes", hydronics.SecondHand)
	in := func(rule, subject, quantity string, bound hydronics.Bound, value, limit float64, s hydronics.Source, danger string) hydronics.Finding {
		return hydronics.Finding{Rule: rule, Subject: subject, Danger: danger, Quantity: quantity, Unit: "m",
			Bound: bound, Value: value, Limit: limit, Source: s}.Judge()
	}
	fall := in("fall of at least 1 in 200 after the tundish", "discharge pipe D2", "fall", hydronics.AtLeast, d.Fall, 1./200, text, blocked)
	fall.Unit = ""
	return []hydronics.Finding{
		in("no smaller than the valve's outlet", "discharge pipe D1", "outside diameter", hydronics.AtLeast, d.D1, p.D1, table, blocked),
		in("tundish near the valve", "discharge pipe D1", "length", hydronics.AtMost, d.Distance, distance, text, blocked),
		in("vertical pipe of at least 300 mm below the tundish", "discharge pipe D2", "length", hydronics.AtLeast,
			d.Vertical, 300*hydronics.Millimetre, text, splash),
		in("resistance with bends at most that of the table", "discharge pipe D2", "length of straight tube", hydronics.AtMost,
			p.Resistance, p.MaxResistance, table, blocked),
		fall,
		hydronics.OnSite("tundish upright and in sight, pipe of metal, end visible where it can scald nobody", "tundish", text,
			"a discharge that nobody sees runs until the cylinder bursts; one in the wrong place scalds"),
	}, nil
}

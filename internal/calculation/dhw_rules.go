package calculation

import (
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/internal/unit"
)

// dhwRuleCalculations judge a value by a published rule: the verdict in words.
func dhwRuleCalculations() []Calculation {
	return []Calculation{dhwTemperatureRule(), dhwDeadLegRule()}
}

// rulebookNamed returns the rulebook whose document is called name.
func rulebookNamed(name string) (dhw.Rulebook, error) {
	for b := dhw.DIN1988Part200; b.String() != ""; b++ {
		if b.String() == name {
			return b, nil
		}
	}
	return 0, fmt.Errorf("no rulebook %q: %w", name, hydronics.ErrRange)
}

var rulebookColumn = Column{Name: "rulebook", Kind: unit.Text, Doc: "the document with its edition, as dhw.Rulebook names it"}

func dhwTemperatureRule() Calculation {
	return Calculation{
		Name: "dhw/temperature_rule",
		Doc:  "hot water temperature judged by a named document",
		Inputs: []Column{
			rulebookColumn, {Name: "point", Kind: unit.Text, Doc: "stored water, distribution, circulation return, hot outlet, cold outlet, bath outlet or mixed distribution"},
			{Name: "reading", Kind: unit.Temperature}, {Name: "after", Kind: unit.Time, Optional: true, Doc: "since the tap was opened fully"},
		},
		Outputs: []Column{{Name: "verdict", Kind: unit.Text, Doc: "the worst, where the document has several limits for the point"}},
		Covers:  []string{"dhw.Rulebook.Findings"},
		Safety:  true,
		Row: func(in Row) (Row, error) {
			book, err := rulebookNamed(in.Text("rulebook"))
			if err != nil {
				return nil, err
			}
			reading := dhw.Reading{Temperature: in.Num("reading"), After: in.NumOr("after", 0)}
			for p := dhw.StoredWater; p <= dhw.MixedDelivery; p++ {
				if p.String() == in.Text("point") {
					reading.Point = p
				}
			}
			found, err := book.Findings([]dhw.Reading{reading})
			if err != nil {
				return nil, err
			}
			return worstVerdict(found, reading.Temperature)
		},
	}
}

// worstVerdict returns the worst verdict of the findings about a value: not met,
// then to be seen on site, then met.
func worstVerdict(found []hydronics.Finding, value float64) (Row, error) {
	var worst hydronics.Verdict
	seen := false
	rank := map[hydronics.Verdict]int{hydronics.NotMet: 4, hydronics.SeeOnSite: 3, hydronics.MetWithinUncertainty: 2, hydronics.MetUnconfirmed: 1}
	for _, f := range found {
		if f.Value == value && (!seen || rank[f.Verdict] > rank[worst]) {
			worst, seen = f.Verdict, true
		}
	}
	if !seen {
		return nil, fmt.Errorf("no rule for this point: %w", hydronics.ErrNoSolution)
	}
	return Row{"verdict": worst.String()}, nil
}

func dhwDeadLegRule() Calculation {
	return Calculation{
		Name: "dhw/dead_leg_rule",
		Doc:  "hot water pipe without circulation judged by a named document",
		Inputs: []Column{
			rulebookColumn, {Name: "outside", Kind: unit.SmallLength, Doc: "of the widest tube"}, {Name: "bore", Kind: unit.SmallLength},
			{Name: "length", Kind: unit.Length}, {Name: "flow", Kind: unit.VolumeFlow},
		},
		Outputs: []Column{{Name: "verdict", Kind: unit.Text, Doc: "the worst of the document's limits"}},
		Covers:  []string{"dhw.DeadLeg.Findings"},
		Row: func(in Row) (Row, error) {
			book, err := rulebookNamed(in.Text("rulebook"))
			if err != nil {
				return nil, err
			}
			found, err := dhw.DeadLeg{Pieces: []dhw.Piece{{Outside: in.Num("outside"), Bore: in.Num("bore"), Length: in.Num("length")}},
				Flow: in.Num("flow")}.Findings(book)
			if err != nil {
				return nil, err
			}
			for i := range found { // all of them are about this pipe
				found[i].Value = 0
			}
			return worstVerdict(found, 0)
		},
	}
}

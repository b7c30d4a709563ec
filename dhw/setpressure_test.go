package dhw

import (
	"testing"

	"example.com/hydronics/expansion"
)

// The vessel's rules and the relief valve's state the same shares of the set
// pressure, each after its own document.
func TestSupplySharesAgree(t *testing.T) {
	for book, rules := range map[Rulebook]expansion.PotableRules{
		DIN1988Part200:   expansion.PotablePractice(),
		DIN1988Part2:     expansion.PotablePractice(),
		AustrianPractice: expansion.PotablePracticeAustria(),
	} {
		rule, ok := book.SupplyRule()
		if !ok || rule.Fraction != rules.SupplyShare.Value {
			t.Errorf("%v: %v of the set pressure, vessel %v", book, rule.Fraction, rules.SupplyShare.Value)
		}
	}
}

package hydronics

// Provenance says how close to its source a published figure, rule or method
// was seen by whoever brought it in.
type Provenance uint8

// The grades of provenance, best first. Only those before CommonPractice can
// carry a verdict [Met]; the others lead to [MetUnconfirmed] at best.
const (
	// ProvenanceUnknown is the zero value; nothing rests on it.
	ProvenanceUnknown Provenance = iota
	// Original was seen in the source itself, or in the text of the law.
	Original
	// SecondHand was seen in a reproduction or quotation of the source.
	SecondHand
	// Measured is open experimental data, judged statistically.
	Measured
	// ReferenceLibrary comes from a named general-purpose library.
	ReferenceLibrary
	// ComputedApart was evaluated from a stated equation by another program.
	ComputedApart
	// CommonPractice is a custom of the trade without a citable source.
	CommonPractice
	// FromMemory is recalled and was not confirmed by anyone.
	FromMemory
)

var provenanceNames = [...]string{"unknown", "original", "second-hand", "measured",
	"reference library", "computed apart", "common practice", "from memory"}

// String returns the word that the reference tables use, such as "second-hand".
func (p Provenance) String() string {
	if int(p) < len(provenanceNames) {
		return provenanceNames[p]
	}
	return provenanceNames[0]
}

// ParseProvenance returns the provenance named by a word of [Provenance.String],
// and false for any other word.
func ParseProvenance(word string) (Provenance, bool) {
	for p, name := range provenanceNames {
		if name == word && p != int(ProvenanceUnknown) {
			return Provenance(p), true
		}
	}
	return ProvenanceUnknown, false
}

// Confirmed reports whether the source was seen well enough to carry a verdict
// [Met]: neither common practice nor memory nor unknown.
func (p Provenance) Confirmed() bool { return p >= Original && p <= ComputedApart }

// A Source says where a rule, a table or a method comes from: author, title,
// edition and clause in Text, and how closely it was seen.
type Source struct {
	Text       string
	Provenance Provenance
}

// String returns the text, preceded by "attributed to" for second-hand sources,
// and followed by the provenance where the source is not confirmed.
func (s Source) String() string {
	switch {
	case s.Provenance == SecondHand:
		return "attributed to " + s.Text
	case s.Provenance.Confirmed():
		return s.Text
	case s.Text == "":
		return s.Provenance.String()
	default:
		return s.Text + " (" + s.Provenance.String() + ")"
	}
}

package dhw

import "example.com/hydronics"

// A Rulebook is one document, in one edition, for one jurisdiction. Rules of
// different books are never mixed: ask each book by itself, and follow the one
// that is in force where the cylinder stands.
type Rulebook uint8

// The rulebooks, each as far as its rules were seen.
const (
	// DIN1988Part200 is the German DIN 1988-200:2012, which completes EN 806-2.
	DIN1988Part200 Rulebook = iota + 1
	// DIN1988Part2 is the German DIN 1988-2:1988, withdrawn.
	DIN1988Part2
	// AustrianPractice is what an Austrian school book for the trade teaches.
	AustrianPractice
	// ApprovedDocumentG is Approved Document G of England and Wales in its 2010
	// edition with the amendments to 2015, requirement G3.
	ApprovedDocumentG
	// ApprovedDocumentG1992 is the guidance that the 2010 edition replaced.
	ApprovedDocumentG1992
	// IPC2018 is the International Plumbing Code of 2018 (United States).
	IPC2018
	// NewZealandG12 is G12/AS1 of New Zealand with the guidance of 2024.
	NewZealandG12
	// IRC2021 is the International Residential Code of 2021 (United States).
	IRC2021
	// WaterRegulations1999 is the guidance to the Water Supply (Water Fittings)
	// Regulations 1999 (United Kingdom).
	WaterRegulations1999
	// HSEL8 is the Approved Code of Practice L8 of the Health and Safety Executive
	// (Great Britain) with its technical guidance.
	HSEL8
	// HTM0401 is the Health Technical Memorandum 04-01 for health care (United Kingdom).
	HTM0401
	// SIA385 is the Swiss SIA 385/1.
	SIA385
	// W551 is the German DVGW W 551 of 2004.
	W551
	// UFC342001 is UFC 3-420-01 of the US Department of Defense, 2004, and its
	// handbook MIL-HDBK-1191.
	UFC342001
)

var rulebooks = [...]struct{ name, jurisdiction, withdrawn string }{
	{},
	{"DIN 1988-200:2012", "Germany", ""},
	{"DIN 1988-2:1988", "Germany", "withdrawn; replaced by EN 806-2 and DIN 1988-200"},
	{"Installations- und Gebäudetechnik, school book, Westermann", "Austria", ""},
	{"Approved Document G, 2010 edition with amendments to 2015", "England and Wales", ""},
	{"Approved Document G, editions before 2010", "England and Wales", "withdrawn; replaced by the 2010 edition"},
	{"International Plumbing Code 2018", "United States", ""},
	{"G12/AS1 and guidance on relief valve drains, 2024", "New Zealand", ""},
	{"International Residential Code 2021", "United States", ""},
	{"Water Supply (Water Fittings) Regulations 1999, guidance", "United Kingdom", ""},
	{"HSE Approved Code of Practice L8", "Great Britain", ""},
	{"HTM 04-01", "United Kingdom", ""},
	{"SIA 385/1", "Switzerland", ""},
	{"DVGW W 551:2004", "Germany", ""},
	{"UFC 3-420-01:2004 and MIL-HDBK-1191", "United States, Department of Defense", ""},
}

func (r Rulebook) check(fn string) error {
	return count(fn, "rulebook", int(r), 1, len(rulebooks)-1)
}

func (r Rulebook) valid() Rulebook {
	if int(r) < len(rulebooks) {
		return r
	}
	return 0
}

// String returns the document with its edition, or "" for no rulebook.
func (r Rulebook) String() string { return rulebooks[r.valid()].name }

// Jurisdiction returns where the rulebook applies.
func (r Rulebook) Jurisdiction() string { return rulebooks[r.valid()].jurisdiction }

// Withdrawn returns what became of a document that is no longer in force, and
// "" for one that was in force when last seen.
func (r Rulebook) Withdrawn() string { return rulebooks[r.valid()].withdrawn }

// source cites a clause of the rulebook and says if it was withdrawn.
func (r Rulebook) source(clause string, p hydronics.Provenance) hydronics.Source {
	text := r.String()
	if clause != "" {
		text += ", " + clause
	}
	if w := r.Withdrawn(); w != "" {
		text += " (" + w + ")"
	}
	return hydronics.Source{Text: text, Provenance: p}
}

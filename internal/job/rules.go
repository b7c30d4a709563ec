package job

import (
	"example.com/hydronics/dhw"
	"example.com/hydronics/expansion"
)

// rulebooks says whose margins, potable rules and temperatures a jurisdiction
// takes. A zero potable book means that none was seen: the local rules are to be
// looked up, and the sheet says so.
type rulebooks struct {
	closed  func() expansion.Rules
	potable dhw.Rulebook
	hygiene []dhw.Rulebook
}

var jurisdictions = map[string]rulebooks{
	"AT":     {closed: expansion.EN12828, potable: dhw.AustrianPractice},
	"DE":     {closed: expansion.EN12828, potable: dhw.DIN1988Part200, hygiene: []dhw.Rulebook{dhw.W551}},
	"ES":     {closed: expansion.UNE100155},
	"GB-EAW": {closed: expansion.EN12828, potable: dhw.ApprovedDocumentG, hygiene: []dhw.Rulebook{dhw.WaterRegulations1999, dhw.HSEL8, dhw.ApprovedDocumentG}},
	"IT":     {closed: expansion.RaccoltaR2009},
	"NZ":     {closed: expansion.EN12828, potable: dhw.NewZealandG12},
	"US":     {closed: expansion.USPractice, potable: dhw.IPC2018},
}

package job

import (
	"example.com/hydronics/dhw"
	"example.com/hydronics/expansion"
)

// rulebooks says whose margins and whose potable rules a jurisdiction takes.
// A zero potable book means that none was seen: the local rules are to be looked
// up, and the sheet says so.
type rulebooks struct {
	closed  func() expansion.Rules
	potable dhw.Rulebook
}

var jurisdictions = map[string]rulebooks{
	"AT":     {expansion.EN12828, dhw.AustrianPractice},
	"DE":     {expansion.EN12828, dhw.DIN1988Part200},
	"ES":     {expansion.UNE100155, 0},
	"GB-EAW": {expansion.EN12828, dhw.ApprovedDocumentG},
	"IT":     {expansion.RaccoltaR2009, 0},
	"NZ":     {expansion.EN12828, dhw.NewZealandG12},
	"US":     {expansion.USPractice, dhw.IPC2018},
}

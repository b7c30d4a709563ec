package calculation

// frostCalculations are the calculations of package frost in row form.
func frostCalculations() []Calculation {
	return []Calculation{
		frostHeatFlow(), frostNusselt(), frostCooling(), frostHandbook(), frostStanding(),
		frostResolved(), frostCylinder(), frostPlane(),
		frostTorricelli(), frostEmptying(), frostAlong(), frostCondensation(), frostHeld(),
		frostGround(), frostChill(), frostBerggren(), frostPair(),
	}
}

// frostExempt names the exported functions and methods of package frost that no
// published value can check, each with the reason.
func frostExempt() map[string]string {
	const (
		words    = "a setting or a comparison, no calculation"
		history  = "reads the history that the tables check through the fraction of ice"
		judged   = "puts together resolved cooling, emptying and geometry, each checked by tables of its own; what it adds is held by property tests"
		inverted = "inverse or multiple of a calculation that tables check; property tests hold it"
		memory   = "a criterion from memory: it informs and carries no verdict"
	)
	return map[string]string{
		"frost.Time.Within":             words,
		"frost.InTheOpen":               words,
		"frost.CommonDoubts":            words,
		"frost.CommonSetting":           words,
		"frost.CommonRules":             words,
		"frost.Outcome.Kept":            words,
		"frost.History.MeanTime":        history,
		"frost.History.Slushed":         history,
		"frost.Night.Run":               judged,
		"frost.Night.Worst":             judged,
		"frost.Night.Findings":          judged,
		"frost.Nights":                  judged,
		"frost.Night.Remedies":          judged,
		"frost.Night.Instead":           judged,
		"frost.Arrangement.Findings":    judged,
		"frost.Reach.Cases":             judged,
		"frost.AntifreezeFor":           judged,
		"frost.BurstProtectionFor":      judged,
		"frost.Section.TracePower":      inverted,
		"frost.Section.ThicknessToHold": inverted,
		"frost.BubbleSpeed":             memory,
	}
}

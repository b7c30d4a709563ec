package calculation

// pipeCalculations are the calculations of package pipe in row form.
func pipeCalculations() []Calculation {
	return []Calculation{
		pipeFriction(), pipeRun(), pipeFlow(), pipeBore(), pipeTubeLoss(), pipeCircuit(),
		pipeKv(), pipeKvLoss(), pipeFitting(), pipeChange(), pipeTaper(), pipeTee(), pipeOrifice(), pipeCraneFactor(),
		pipeGrowth(), pipeLeg(), pipeSurge(), pipeHeat(), pipeGravity(), pipeShortestRun(), pipeDefrost(), pipeSelect(), pipeCriterion(),
	}
}

// pipeExempt names the exported functions and methods of package pipe that no
// published value can check, each with the reason.
func pipeExempt() map[string]string {
	const (
		words     = "words, no number to check"
		catalogue = "hands out the catalogue, whose figures are data"
		geometry  = "plain geometry, held by property tests"
		sum       = "a sum, held by property tests"
	)
	return map[string]string{
		"pipe.Regime.String":            words,
		"pipe.Transition.String":        words,
		"pipe.Method.String":            words,
		"pipe.Method.Names":             words,
		"pipe.AllSeries":                catalogue,
		"pipe.Catalogue":                catalogue,
		"pipe.Series.Tubes":             catalogue,
		"pipe.Search":                   catalogue,
		"pipe.Materials":                catalogue,
		"pipe.MaterialOf":               catalogue,
		"pipe.Threads":                  catalogue,
		"pipe.ThreadOf":                 catalogue,
		"pipe.Thread.Pitch":             "one inch divided by a whole number",
		"pipe.Material.Tube":            "puts the figures of the material into a tube",
		"pipe.Tube.Check":               "guards only",
		"pipe.Tube.Surge":               "hands the tube's own figures on",
		"pipe.Route.Survey":             geometry,
		"pipe.Route.HeldWater":          geometry,
		"pipe.Route.HeldAir":            geometry,
		"pipe.LeastContent":             sum,
		"pipe.Resistances.LossAndSlope": sum,
		"pipe.BufferFor":                sum,
		"pipe.Sizing.Choices":           "the list behind Sizing.Select",
		"pipe.Choice.Suits":             "reads verdicts",
		"pipe.Tee.DividingFromBranch":   "a value from memory, marked so",
		"pipe.Tee.CombiningIntoBranch":  "a value from memory, marked so",
	}
}

package calculation

// fluidCalculations are the calculations of package fluid in row form.
func fluidCalculations() []Calculation {
	return nil
}

// fluidExempt names the exported functions and methods of package fluid that no
// published value can check, each with the reason.
func fluidExempt() map[string]string {
	return map[string]string{}
}

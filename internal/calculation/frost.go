package calculation

// frostCalculations are the calculations of package frost in row form.
func frostCalculations() []Calculation {
	return nil
}

// frostExempt names the exported functions and methods of package frost that no
// published value can check, each with the reason.
func frostExempt() map[string]string {
	return map[string]string{}
}

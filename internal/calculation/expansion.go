package calculation

// expansionCalculations are the calculations of package expansion in row form.
func expansionCalculations() []Calculation {
	return nil
}

// expansionExempt names the exported functions and methods of package expansion that no
// published value can check, each with the reason.
func expansionExempt() map[string]string {
	return map[string]string{}
}

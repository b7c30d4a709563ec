package calculation

// dhwCalculations are the calculations of package dhw in row form.
func dhwCalculations() []Calculation {
	return nil
}

// dhwExempt names the exported functions and methods of package dhw that no
// published value can check, each with the reason.
func dhwExempt() map[string]string {
	return map[string]string{}
}

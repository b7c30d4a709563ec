package calculation

import (
	"maps"
	"slices"
)

// All returns every calculation of the library, in the order of the packages.
func All() []Calculation {
	return slices.Concat(
		unitCalculations(),
		fluidCalculations(),
		pipeCalculations(),
		networkCalculations(),
		expansionCalculations(),
		frostCalculations(),
		dhwCalculations(),
	)
}

// Exempt returns the exported names that no published value can check, with
// the reason for each: conversions of representation, accessors of a
// catalogue, identities that property tests hold.
func Exempt() map[string]string {
	all := map[string]string{}
	for _, area := range []map[string]string{
		unitExempt(), fluidExempt(), pipeExempt(), networkExempt(), expansionExempt(), frostExempt(), dhwExempt(),
	} {
		maps.Copy(all, area)
	}
	return all
}

// Named returns the calculation called name.
func Named(name string) (Calculation, bool) {
	for _, c := range All() {
		if c.Name == name {
			return c, true
		}
	}
	return Calculation{}, false
}

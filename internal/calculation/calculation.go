package calculation

import (
	"fmt"
	"math"
	"strings"

	"example.com/hydronics/internal/unit"
)

// A Column is one named quantity of a calculation.
type Column struct {
	Name     string // without unit: "temperature"; the CSV column is "temperature_c"
	Kind     unit.Kind
	Optional bool   // an input that may be missing
	Doc      string // what it means, where the name does not say it
}

// A Row holds the quantities of one row by the names of their columns: float64
// in SI, or string.
type Row map[string]any

// Num returns the number called name, or NaN where the row has none.
func (r Row) Num(name string) float64 {
	if v, ok := r[name].(float64); ok {
		return v
	}
	return math.NaN()
}

// NumOr returns the number called name, or fallback where the row has none.
func (r Row) NumOr(name string, fallback float64) float64 {
	if v, ok := r[name].(float64); ok {
		return v
	}
	return fallback
}

// Text returns the word called name, or "" where the row has none.
func (r Row) Text(name string) string {
	s, _ := r[name].(string)
	return s
}

// Has reports whether the row holds name.
func (r Row) Has(name string) bool { _, ok := r[name]; return ok }

// A Calculation is one entry of the library in row form.
type Calculation struct {
	Name    string // area and name, "fluid/water"
	Doc     string // one line
	Inputs  []Column
	Outputs []Column
	Covers  []string // exported names that a table of this calculation checks
	Safety  bool     // relief, frost, scald or hygiene: wants two independent origins

	// Exactly one of the two is set.
	Row  func(in Row) (Row, error)
	Case func(in []Row) ([]Row, error)
}

// Evaluate runs the calculation over the rows of one case, or over each row by
// itself. Both results have an entry for each row: its outputs, or its error.
// The rows of a case fail together.
func (c Calculation) Evaluate(in []Row) ([]Row, []error) {
	out, errs := make([]Row, len(in)), make([]error, len(in))
	if c.Case == nil {
		for i, row := range in {
			out[i], errs[i] = c.Row(row)
		}
		return out, errs
	}
	together, err := c.Case(in)
	if err == nil && len(together) != len(in) {
		err = fmt.Errorf("%s: %d output rows for %d input rows", c.Name, len(together), len(in))
	}
	for i := range in {
		if errs[i] = err; err == nil {
			out[i] = together[i]
		}
	}
	return out, errs
}

// Input returns the input column called name.
func (c Calculation) Input(name string) (Column, bool) { return find(c.Inputs, name) }

// Output returns the output column called name.
func (c Calculation) Output(name string) (Column, bool) { return find(c.Outputs, name) }

func find(columns []Column, name string) (Column, bool) {
	for _, c := range columns {
		if c.Name == name {
			return c, true
		}
	}
	return Column{}, false
}

// MatchInput returns the input that a CSV column holds, and its unit.
func (c Calculation) MatchInput(header string) (Column, unit.Unit, bool) {
	return match(c.Inputs, header)
}

// MatchOutput returns the output that a CSV column holds, and its unit.
func (c Calculation) MatchOutput(header string) (Column, unit.Unit, bool) {
	return match(c.Outputs, header)
}

// match prefers the longest name, so that pressure_abs_bar is never read as
// the quantity "pressure" with a suffix "abs_bar".
func match(columns []Column, header string) (Column, unit.Unit, bool) {
	var best Column
	var with unit.Unit
	found := false
	for _, c := range columns {
		if u, ok := c.Kind.Match(header, c.Name); ok && (!found || len(c.Name) > len(best.Name)) {
			best, with, found = c, u, true
		}
	}
	return best, with, found
}

// Header names a column in the unit that programs print first.
func (c Column) Header() string {
	if units := c.Kind.Units(); len(units) > 0 {
		return units[0].Column(c.Name)
	}
	return c.Name
}

// Accepted lists the CSV columns accepted for the inputs, for error messages.
func (c Calculation) Accepted() string {
	parts := make([]string, len(c.Inputs))
	for i, in := range c.Inputs {
		parts[i] = in.Kind.Accepted(in.Name)
	}
	return strings.Join(parts, "; ")
}

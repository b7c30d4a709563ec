package calculation

import (
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

// pipeCriterion prints the limit of a named criterion, so that a table can hold it
// against what its source says.
func pipeCriterion() Calculation {
	return Calculation{
		Name:    "pipe/criterion",
		Doc:     "limit of a named criterion for the flow in a tube, a velocity or a gradient",
		Inputs:  []Column{{Name: "criterion", Kind: unit.Text}},
		Outputs: []Column{{Name: "velocity", Kind: unit.Velocity}, {Name: "gradient", Kind: unit.PressureGradient}},
		Covers:  []string{"pipe.Criteria", "pipe.CriterionNamed"},
		Row: func(in Row) (Row, error) {
			c, err := pipe.CriterionNamed(in.Text("criterion"))
			if err != nil {
				return nil, err
			}
			if c.Quantity == pipe.Gradient {
				return Row{"gradient": c.Limit}, nil
			}
			return Row{"velocity": c.Limit}, nil
		},
	}
}

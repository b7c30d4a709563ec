package hydronics

import (
	"errors"
	"fmt"
	"strconv"
)

var (
	// ErrRange matches every [RangeError]: an input, or a result, that no
	// method of the package covers.
	ErrRange = errors.New("value outside the valid range")

	// ErrNoSolution matches errors of problems that are well posed but have no
	// answer: an iteration without convergence, a catalogue without a size
	// large enough.
	ErrNoSolution = errors.New("no solution")
)

// Guard is the Source of a [RangeError] whose limit is this library's own,
// there to catch a slip of unit, and not published by anyone.
const Guard = "guard"

// A RangeError reports one number outside its limits.
type RangeError struct {
	Func     string  // the calculation, such as "pipe.FrictionFactor"
	Quantity string  // what the number means, such as "relative roughness"
	Unit     string  // SI unit of the three numbers, "" for a pure number
	Value    float64 // the number given, possibly NaN
	Min, Max float64 // the limits, both of them allowed
	Source   string  // who sets the limit: a standard's clause, or Guard
}

// Error names the calculation, the quantity, the value, the limits and who sets them.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%s: %s = %s%s, want %s to %s%s (%s)", e.Func, e.Quantity,
		number(e.Value), unit, number(e.Min), number(e.Max), unit, e.Source)
}

// Is reports whether target is [ErrRange].
func (e *RangeError) Is(target error) bool { return target == ErrRange }

func number(v float64) string { return strconv.FormatFloat(v, 'g', 8, 64) }

// Within returns nil if min <= v <= max, and otherwise a [RangeError] that names
// the calculation fn, the quantity, its unit and the source of the limit. NaN
// lies within nothing.
func Within(fn, quantity, unit string, v, min, max float64, source string) error {
	if v >= min && v <= max {
		return nil
	}
	return &RangeError{fn, quantity, unit, v, min, max, source}
}

// Package edge tries calculations at the limits that they document.
package edge

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/hydronics"
)

// Check tries a quantity at its limits. From low to high, both included, the number
// has to be taken, though the rest of the case may have no solution. Just outside,
// and where it is no number, a RangeError has to name the quantity and the number.
// An infinite limit is none: there the quantity has to be finite, no more.
//
// The margin is 0, or how far from the limits to stay where the calculation derives
// what it limits from the number given, with rounding.
func Check(t *testing.T, quantity string, low, high, margin float64, try func(x float64) error) {
	t.Helper()
	taken := []float64{low + margin, high - margin}
	refused := []float64{low - margin, high + margin, math.Inf(-1), math.Inf(1), math.NaN()}
	if margin == 0 {
		refused[0], refused[1] = math.Nextafter(low, math.Inf(-1)), math.Nextafter(high, math.Inf(1))
	}
	for _, x := range taken {
		if math.IsInf(x, 0) {
			continue
		}
		if err := inside(try(x)); err != nil {
			t.Errorf("%s = %v is inside: %v", quantity, x, err)
		}
	}
	for _, x := range refused {
		if err := outside(try(x), quantity, x, margin == 0); err != nil {
			t.Errorf("%s = %v is outside: %v", quantity, x, err)
		}
	}
}

func inside(err error) error {
	if errors.Is(err, hydronics.ErrNoSolution) && !errors.Is(err, hydronics.ErrRange) {
		return nil
	}
	return err
}

func outside(err error, quantity string, x float64, exact bool) error {
	found := Named(err, quantity)
	switch {
	case found == nil:
		return fmt.Errorf("no RangeError names it: %v", err)
	case exact && found.Value != x && !math.IsNaN(x):
		return fmt.Errorf("reported as %v", found.Value)
	case found.Value >= found.Min && found.Value <= found.Max:
		return fmt.Errorf("reported within %v to %v", found.Min, found.Max)
	case found.Source == "":
		return errors.New("nobody sets the limit")
	}
	return nil
}

// Named returns the RangeError in err, joined or wrapped, that names the quantity,
// or nil.
func Named(err error, quantity string) *hydronics.RangeError {
	switch e := err.(type) {
	case *hydronics.RangeError:
		if e.Quantity == quantity {
			return e
		}
	case interface{ Unwrap() error }:
		return Named(e.Unwrap(), quantity)
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			if r := Named(one, quantity); r != nil {
				return r
			}
		}
	}
	return nil
}

// Err drops the result of a calculation.
func Err[T any](_ T, err error) error { return err }

// With returns a trial that changes one field of a valid value.
func With[T any](valid T, set func(v *T, x float64), try func(v T) error) func(x float64) error {
	return func(x float64) error {
		v := valid
		set(&v, x)
		return try(v)
	}
}

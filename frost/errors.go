package frost

import (
	"errors"
	"fmt"

	"example.com/hydronics"
)

// joined is errors.Join that hands a lone error back as it is.
func joined(errs ...error) error {
	var one error
	for _, err := range errs {
		switch {
		case err == nil:
		case one != nil:
			return errors.Join(errs...)
		default:
			one = err
		}
	}
	return one
}

func noThickness(fn string, short float64) error {
	return fmt.Errorf("%w: %s: %g m of insulation are not enough, by %.3g", hydronics.ErrNoSolution, fn, thickest, -short)
}

func isNoSolution(err error) bool { return errors.Is(err, hydronics.ErrNoSolution) }

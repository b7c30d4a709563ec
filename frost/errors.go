package frost

import "errors"

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

package edge

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
)

func limited(quantity, source string, x, low, high float64) error {
	return hydronics.Within("edge.test", quantity, "", x, low, high, source)
}

func TestSoundLimit(t *testing.T) {
	Check(t, "length", 1, 2, 0, func(x float64) error { return limited("length", hydronics.Guard, x, 1, 2) })
	Check(t, "length", 1, 2, 1e-9, func(x float64) error { return limited("length", hydronics.Guard, x+1e-12, 1, 2) })
	Check(t, "length", 1, math.Inf(1), 0, func(x float64) error { return limited("length", hydronics.Guard, x, 1, math.MaxFloat64) })
}

func TestNamed(t *testing.T) {
	length := limited("length", hydronics.Guard, 3, 1, 2)
	all := errors.Join(limited("width", hydronics.Guard, 9, 1, 2), fmt.Errorf("deep: %w", errors.Join(errors.New("other"), length)))
	assert.Equal(t, length, error(Named(all, "length")))
	assert.Nil(t, Named(all, "height"))
	assert.Nil(t, Named(nil, "length"))
}

func TestInside(t *testing.T) {
	assert.NoError(t, inside(nil))
	assert.NoError(t, inside(fmt.Errorf("no tube: %w", hydronics.ErrNoSolution)))
	assert.Error(t, inside(errors.New("other")))
	assert.Error(t, inside(limited("length", hydronics.Guard, 3, 1, 2)))
	assert.Error(t, inside(errors.Join(hydronics.ErrNoSolution, limited("length", hydronics.Guard, 3, 1, 2))))
}

func TestOutside(t *testing.T) {
	for name, err := range map[string]error{
		"taken":          nil,
		"other quantity": limited("width", hydronics.Guard, 3, 1, 2),
		"other number":   limited("length", hydronics.Guard, 4, 1, 2),
		"wrong limits":   &hydronics.RangeError{Quantity: "length", Value: 3, Min: 1, Max: 5, Source: hydronics.Guard},
		"no source":      limited("length", "", 3, 1, 2),
	} {
		assert.Error(t, outside(err, "length", 3, true), name)
	}
	assert.NoError(t, outside(limited("length", hydronics.Guard, 3, 1, 2), "length", 3, true))
	assert.NoError(t, outside(limited("length", hydronics.Guard, 3.1, 1, 2), "length", 3, false))
	assert.NoError(t, outside(limited("length", hydronics.Guard, math.NaN(), 1, 2), "length", math.NaN(), true))
}

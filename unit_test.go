package hydronics_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
)

// NIST SP 811 (2008), appendix B.8, to the digits printed there.
func TestUnitConstantsAgainstDefinitions(t *testing.T) {
	assert.InEpsilon(t, 6.894757e3, hydronics.PoundPerSquareIn, 1e-7)
	assert.InEpsilon(t, 6.309020e-5, hydronics.USGallonPerMinute, 1e-7)
	assert.InEpsilon(t, 9.80665e3, hydronics.MetreOfWater, 1e-12)
	assert.InEpsilon(t, 1.0/3600, hydronics.CubicMetrePerHour, 1e-15)
	assert.InEpsilon(t, 1e-3/3600, hydronics.LitrePerHour, 1e-15)
}

func TestWithinRefusesNaN(t *testing.T) {
	assert.NoError(t, hydronics.Within("f", "q", "m", 1, 1, 2, hydronics.Guard))
	assert.NoError(t, hydronics.Within("f", "q", "m", 2, 1, 2, hydronics.Guard))
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.Nextafter(1, 0), math.Nextafter(2, 3)} {
		err := hydronics.Within("pipe.Velocity", "bore", "m", v, 1, 2, hydronics.Guard)
		assert.ErrorIs(t, err, hydronics.ErrRange)
		var r *hydronics.RangeError
		assert.True(t, errors.As(err, &r))
		assert.Equal(t, "bore", r.Quantity)
	}
	err := hydronics.Within("pipe.Velocity", "bore", "m", 20, 0.002, 0.5, hydronics.Guard)
	assert.EqualError(t, err, "pipe.Velocity: bore = 20 m, want 0.002 to 0.5 m (guard)")
	err = hydronics.Within("pipe.FrictionFactor", "relative roughness", "", 0.2, 0, 0.05, "Colebrook 1939")
	assert.EqualError(t, err, "pipe.FrictionFactor: relative roughness = 0.2, want 0 to 0.05 (Colebrook 1939)")
}

func TestWithinAllocatesNothing(t *testing.T) {
	assert.Zero(t, testing.AllocsPerRun(100, func() { _ = hydronics.Within("f", "q", "m", 1, 0, 2, hydronics.Guard) }))
}

func ExampleGauge_Abs() {
	fill := hydronics.Gauge(1.5 * hydronics.Bar)
	fmt.Printf("%.3f bar absolute\n", fill.Abs(hydronics.StandardAtmosphere)/hydronics.Bar)
	// Output: 2.513 bar absolute
}

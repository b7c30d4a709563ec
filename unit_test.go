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

// GNU Units 2.22 (the program units of Debian), ten digits, by its own names; its
// constants are those of CODATA 2018.
func TestUnitConstantsAgainstGNUUnits(t *testing.T) {
	for name, c := range map[string]struct{ want, got float64 }{
		"mm":              {1.000000000e-03, hydronics.Millimetre},
		"cm":              {1.000000000e-02, hydronics.Centimetre},
		"inch":            {2.540000000e-02, hydronics.Inch},
		"ft":              {3.048000000e-01, hydronics.Foot},
		"mm^2":            {1.000000000e-06, hydronics.SquareMillimetre},
		"litre":           {1.000000000e-03, hydronics.Litre},
		"usgallon":        {3.785411784e-03, hydronics.USGallon},
		"litre/s":         {1.000000000e-03, hydronics.LitrePerSecond},
		"litre/min":       {1.666666667e-05, hydronics.LitrePerMinute},
		"litre/hour":      {2.777777778e-07, hydronics.LitrePerHour},
		"m^3/hour":        {2.777777778e-04, hydronics.CubicMetrePerHour},
		"usgallon/min":    {6.309019640e-05, hydronics.USGallonPerMinute},
		"millibar":        {1.000000000e+02, hydronics.Millibar},
		"kPa":             {1.000000000e+03, hydronics.Kilopascal},
		"bar":             {1.000000000e+05, hydronics.Bar},
		"MPa":             {1.000000000e+06, hydronics.Megapascal},
		"meter water":     {9.806650000e+03, hydronics.MetreOfWater},
		"psi":             {6.894757293e+03, hydronics.PoundPerSquareIn},
		"kJ":              {1.000000000e+03, hydronics.Kilojoule},
		"MJ":              {1.000000000e+06, hydronics.Megajoule},
		"watt hour":       {3.600000000e+03, hydronics.WattHour},
		"kWh":             {3.600000000e+06, hydronics.KilowattHour},
		"kW":              {1.000000000e+03, hydronics.Kilowatt},
		"mPa s":           {1.000000000e-03, hydronics.MillipascalSecond},
		"mm^2/s":          {1.000000000e-06, hydronics.SquareMillimetrePerSecond},
		"minute":          {6.000000000e+01, hydronics.Minute},
		"hour":            {3.600000000e+03, hydronics.Hour},
		"day":             {8.640000000e+04, hydronics.Day},
		"percent":         {1.000000000e-02, hydronics.Percent},
		"gravity":         {9.806650000e+00, hydronics.StandardGravity},
		"atm":             {1.013250000e+05, hydronics.StandardAtmosphere},
		"stefanboltzmann": {5.670374419e-08, hydronics.StefanBoltzmann},
		"R":               {8.314462618e+00, hydronics.GasConstant},
		"stdtemp":         {2.731500000e+02, hydronics.ZeroCelsius},
	} {
		assert.InEpsilon(t, c.want, c.got, 1e-9, name)
	}
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

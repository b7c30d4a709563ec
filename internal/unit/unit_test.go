package unit_test

import (
	"testing"

	"example.com/hydronics/internal/unit"
	"github.com/stretchr/testify/assert"
)

// The factors are definitions: NIST SP 811 (2008), appendix B.8, and for the
// conventional metre of water the standard gravity of the 3rd CGPM (1901).
func TestUnitsAgainstDefinitions(t *testing.T) {
	for _, c := range []struct {
		kind   unit.Kind
		suffix string
		value  float64
		si     float64
	}{
		{unit.Temperature, "f", 212, 100},
		{unit.Temperature, "f", -40, -40},
		{unit.Temperature, "k", 273.15, 0},
		{unit.TemperatureDifference, "f", 18, 10},
		{unit.VolumeFlow, "us_gpm", 1, 6.30902e-5},
		{unit.Pressure, "psi", 1, 6894.757},
		{unit.Pressure, "ft_water", 1, 2989.067},
		{unit.Energy, "btu", 1, 1055.056},
		{unit.Power, "btu_h", 1, 0.2930711},
		{unit.Density, "lb_ft3", 1, 16.01846},
		{unit.HeatPerLength, "btu_hft", 1, 0.961520},
		{unit.VolumeFlow, "m3_h", 3.6, 1e-3},
	} {
		u, ok := c.kind.Lookup(c.suffix)
		assert.True(t, ok, c.suffix)
		assert.InEpsilon(t, c.si+1000, u.SI(c.value)+1000, 1e-6, c.suffix)
		if c.si != 0 {
			assert.InEpsilon(t, c.si, u.SI(c.value), 1e-6, c.suffix)
		}
		assert.InDelta(t, c.value, u.From(u.SI(c.value)), 1e-12*(1+c.value*c.value), c.suffix)
	}
}

func TestMatch(t *testing.T) {
	u, ok := unit.AbsolutePressure.Match("pressure_abs_mpa", "pressure_abs")
	assert.True(t, ok)
	assert.Equal(t, "mpa", u.Suffix)
	_, ok = unit.AbsolutePressure.Match("pressure_abs", "pressure_abs")
	assert.False(t, ok, "a pressure without its unit")
	_, ok = unit.Temperature.Match("temperature_kpa", "temperature")
	assert.False(t, ok)
	_, ok = unit.Number.Match("zeta", "zeta")
	assert.True(t, ok)
	_, ok = unit.Text.Match("tube", "tube")
	assert.True(t, ok)
	_, ok = unit.Text.Match("tube_mm", "tube")
	assert.False(t, ok)
}

package frost

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Gauss and Legendre with five points integrate every power up to the ninth
// exactly: that is how nodes and weights are defined.
func TestGaussIntegratesPowersExactly(t *testing.T) {
	for power := range 10 {
		sum := 0.0
		for _, g := range gauss5 {
			sum += g[1] * math.Pow(g[0], float64(power))
		}
		want := 0.0
		if power%2 == 0 {
			want = 2 / float64(power+1)
		}
		assert.InDelta(t, want, sum, 2e-15, "power %d", power)
	}
}

// The formulas of TM 5-852-6 in their own units, 100 lb/ft³ of soil with 15 % of
// water: 100 (0.17 + 0.75 0.15) = 28.25 Btu/(ft³ °F) and 144 0.15 100 = 2160 Btu/ft³,
// converted by GNU Units 2.22 with the Btu of the International Table.
func TestMoistSoilInItsOwnUnits(t *testing.T) {
	soil, err := MoistSoil(1601.84633740, 0.15, 1.2)
	require.NoError(t, err)
	assert.InEpsilon(t, 1894617.394, soil.HeatCapacity, 1e-7)
	assert.InEpsilon(t, 80479322.94, soil.LatentHeat, 1e-7)
}

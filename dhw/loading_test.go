package dhw

import (
	"fmt"
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
)

// EN 806-3:2006, clause 5: one loading unit stands for a draw-off flow of 0.1 l/s.
func TestLoadingUnitsFollowTheFlow(t *testing.T) {
	for _, p := range loadingPoints {
		assert.InEpsilon(t, 0.1*float64(p.Units)*hydronics.LitrePerSecond, p.Flow, 1e-9, p.Name)
		assert.LessOrEqual(t, p.MinFlow, p.Flow, p.Name)
	}
}

// The size of plastic tube is outside diameter and wall, which the bore has to
// agree with.
func TestLoadingTubesHaveTheBoreOfTheirSize(t *testing.T) {
	for _, tube := range loadingTubes {
		var outside, wall float64
		_, err := fmt.Sscanf(tube.Size, "%fx%f", &outside, &wall)
		assert.NoError(t, err, tube.Size)
		assert.InEpsilon(t, (outside-2*wall)*hydronics.Millimetre, tube.Bore, 1e-9, "%s %s", tube.Material, tube.Size)
	}
}

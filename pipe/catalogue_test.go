package pipe_test

import (
	"math"
	"strings"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every tube makes sense, is found under its designation, and names its source.
func TestCatalogue(t *testing.T) {
	seen := map[string]bool{}
	for _, tube := range pipe.Catalogue() {
		require.NoError(t, tube.Check(), tube.Designation)
		assert.False(t, seen[tube.Designation], "%s stands twice", tube.Designation)
		seen[tube.Designation] = true
		assert.NotEmpty(t, tube.Source.Text, tube.Designation)
		assert.NotEqual(t, hydronics.ProvenanceUnknown, tube.Source.Provenance, tube.Designation)
		for _, d := range []string{tube.Designation, strings.ToLower(tube.Designation), strings.ReplaceAll(tube.Designation, " ", "")} {
			found, err := pipe.Find(d)
			require.NoError(t, err)
			assert.Equal(t, tube, found)
		}
		m, err := pipe.MaterialOf(tube.Material)
		require.NoError(t, err)
		assert.Equal(t, m.Roughness.Value, tube.Roughness)
		assert.Positive(t, tube.Run(1).Content())
	}
	for _, s := range pipe.AllSeries() {
		tubes, err := s.Tubes()
		require.NoError(t, err)
		for i := 1; i < len(tubes); i++ {
			a, b := tubes[i-1], tubes[i]
			assert.True(t, a.Outside < b.Outside || a.Outside == b.Outside && a.Wall < b.Wall, "%s before %s", a.Designation, b.Designation)
		}
		// The list belongs to the caller.
		tubes[0].Outside = 1
		again, err := s.Tubes()
		require.NoError(t, err)
		assert.NotEqual(t, 1.0, again[0].Outside)
	}
}

// ISO 4065: the least wall is OD/(2 S + 1) with S = 10^(n/10), rounded up to
// 0.1 mm. EN 12201 sets least walls of its own for small tubes and is no case.
func TestPlasticWallsFollowISO4065(t *testing.T) {
	for series, s := range map[pipe.Series]float64{
		pipe.ENISO15875S5: 5, pipe.ENISO22391S5: 5, pipe.ENISO15876S5: 5,
		pipe.ENISO15875S32: 3.1623, pipe.ENISO22391S32: 3.1623, pipe.ENISO15874S32: 3.1623, pipe.ENISO15874S25: 2.5119,
	} {
		tubes, err := series.Tubes()
		require.NoError(t, err)
		for _, tube := range tubes {
			exact := tube.Outside / (2*s + 1) * 1000
			// The rule does not round up when the second decimal is zero.
			want := math.Ceil(math.Floor(exact*100)/10) / 10
			assert.InDelta(t, want, tube.Wall*1000, 1e-9, tube.Designation)
		}
	}
}

func TestMaterials(t *testing.T) {
	for _, m := range pipe.Materials() {
		for name, f := range map[string]pipe.Figure{"roughness": m.Roughness, "conductivity": m.Conductivity, "density": m.Density,
			"specific heat": m.SpecificHeat, "expansion": m.Expansion, "modulus": m.Modulus} {
			assert.True(t, 0 < f.Min && f.Min <= f.Value && f.Value <= f.Max, "%s of %s: %+v", name, m.Name, f)
			assert.NotEmpty(t, f.Source.Text, "%s of %s", name, m.Name)
		}
	}
	copper, err := pipe.MaterialOf("copper")
	require.NoError(t, err)
	own, err := copper.Tube(0.025, 0.0012)
	require.NoError(t, err)
	assert.InDelta(t, 0.0226, own.Bore(), 1e-15)
	assert.Equal(t, copper.Expansion.Value, own.Expansion)
	_, err = copper.Tube(25, 1.2) // millimetres
	assert.ErrorIs(t, err, hydronics.ErrRange)
	_, err = pipe.MaterialOf("lead")
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
}

func TestFindRefuses(t *testing.T) {
	for _, d := range []string{"", "EN 1057 23x1", "22", "nonsense"} {
		_, err := pipe.Find(d)
		assert.ErrorIs(t, err, hydronics.ErrNoSolution, d)
	}
	_, err := pipe.Series("EN 0").Tubes()
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	assert.Empty(t, pipe.Search(" "))
	assert.Len(t, pipe.Search("EN 1057 22x"), 5)
}

func TestThreads(t *testing.T) {
	g, err := pipe.ThreadOf("1")
	require.NoError(t, err)
	assert.Equal(t, 0.033249, g.Major)
	assert.InDelta(t, 2.309e-3, g.Pitch(), 0.5e-6) // ISO 228-1, from memory
	_, err = pipe.ThreadOf("7/8")
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
}

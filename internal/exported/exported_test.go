package exported

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRead(t *testing.T) {
	name, chapter, all, err := Read("../../fluid")
	require.NoError(t, err)
	assert.Equal(t, "fluid", name)
	assert.True(t, strings.HasPrefix(chapter, "Package fluid "))
	for _, want := range []string{"fluid.SaturationPressure", "fluid.Water", "fluid.Liquid.At"} {
		i := slices.IndexFunc(all, func(c Calculation) bool { return c.Name == want })
		require.GreaterOrEqual(t, i, 0, want)
		c := all[i]
		assert.Contains(t, c.Doc, want[strings.LastIndexByte(want, '.')+1:])
		assert.True(t, strings.HasSuffix(c.At.Filename, ".go") && c.At.Line > 0, "%v", c.At)
		assert.Equal(t, want == "fluid.SaturationPressure", c.TypeDoc == "", want)
	}
	for _, c := range all {
		assert.NotContains(t, c.Name, "Test")
		assert.NotContains(t, c.Name, "Fuzz")
	}
}

func TestReadNothing(t *testing.T) {
	_, _, _, err := Read(t.TempDir())
	assert.ErrorContains(t, err, "no Go files")
}

package pipe_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Added up by hand.
func TestLeastContent(t *testing.T) {
	parts := []pipe.Part{
		{Name: "primary", Volume: 20e-3},
		{Name: "buffer", Volume: 50e-3},
		{Name: "ground floor", Volume: 60e-3, Valve: "ground"},
		{Name: "upper floor", Volume: 30e-3, Valve: "upper"},
		{Name: "upper floor, radiators", Volume: 5e-3, Valve: "upper"},
		{Name: "coil", Volume: 10e-3, Valve: "cylinder"},
	}
	for kept, want := range []struct {
		least float64
		shut  []string
	}{
		{70e-3, []string{"cylinder", "ground", "upper"}},
		{80e-3, []string{"ground", "upper"}},
		{115e-3, []string{"ground"}},
		{175e-3, nil},
	} {
		c, err := pipe.LeastContent(parts, kept)
		require.NoError(t, err)
		assert.InDelta(t, 175e-3, c.Total, 1e-12)
		assert.InDelta(t, want.least, c.Least, 1e-12)
		assert.Equal(t, want.shut, c.Shut)
	}
	for _, kept := range []int{-1, 4} {
		_, err := pipe.LeastContent(parts, kept)
		assert.ErrorIs(t, err, hydronics.ErrRange)
	}
	parts[0].Volume = -1
	_, err := pipe.LeastContent(parts, 0)
	assert.ErrorIs(t, err, hydronics.ErrRange)
	buffer, err := pipe.BufferFor(0.1, 0.07)
	require.NoError(t, err)
	assert.InDelta(t, 0.03, buffer, 1e-15)
}

// With the content required, the water ends exactly at the lowest temperature;
// with less it ends below, and the buffer makes up for it.
func TestDefrostRequired(t *testing.T) {
	d := pipe.Defrost{Frost: 2, FrostTemperature: -6, Coil: 60e3, Input: 1500, Load: 3000, Backup: 500, Time: 300, Start: 30, Lowest: 18}
	first, err := d.Balance(40e-3, fluid.Water())
	require.NoError(t, err)
	assert.InDelta(t, first.Water, first.Warming+first.Melting+first.Coil+first.Stated+first.Load+first.Input+first.Backup, 1e-6)
	enough, err := d.Balance(first.Required, fluid.Water())
	require.NoError(t, err)
	assert.InDelta(t, d.Lowest, enough.End, 1e-9)
	assert.Zero(t, enough.Buffer)
	less, err := d.Balance(first.Required/2, fluid.Water())
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, less.Finding.Verdict)
	assert.InDelta(t, first.Required/2, less.Buffer, 1e-9)
	more, err := d.Balance(first.Required*1.5, fluid.Water())
	require.NoError(t, err)
	assert.Equal(t, hydronics.Met, more.Finding.Verdict)
	d.Start = d.Lowest
	_, err = d.Balance(40e-3, fluid.Water())
	assert.ErrorIs(t, err, hydronics.ErrRange)
}

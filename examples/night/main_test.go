package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPictureAndStory(t *testing.T) {
	for name, args := range map[string][]string{
		"winter.png": {"-start", "20"},
		"cold.svg":   {"-cold", "-15"},
		"bare.png":   {"-cold", "-10", "-foam", "0"},
		"mild.png":   {"-cold", "3"},
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), name)
			var out, wrong bytes.Buffer
			require.Equal(t, 0, run(append([]string{"-draw", file}, args...), &out, &wrong), wrong.String())
			assert.Contains(t, out.String(), "power fails")
			picture, err := os.Stat(file)
			require.NoError(t, err)
			assert.Greater(t, picture.Size(), int64(5000))
		})
	}
}

func TestUnusable(t *testing.T) {
	for _, args := range [][]string{{"-cold", "icy"}, {"-cold", "-200"}, {"-foam", "-3"}, {"-start", "0"}, {"-draw", "x.bogus"}, {"more"}} {
		var out, wrong bytes.Buffer
		assert.Equal(t, 2, run(args, &out, &wrong), args)
		assert.NotEmpty(t, wrong.String(), args)
	}
}

// The sample is a week of hours; the figures are those its head states.
func TestWinterWeek(t *testing.T) {
	hours, err := weather(winter)
	require.NoError(t, err)
	require.Len(t, hours, 168)
	mean := 0.0
	for _, h := range hours {
		mean += h.Temperature / 168
	}
	assert.InDelta(t, -10.85, mean, 0.005)
}

package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The picture names every size and velocity it draws, and is not empty.
func TestDiagram(t *testing.T) {
	for _, s := range []pipe.Series{pipe.EN10255Medium, pipe.ENISO15875S5, pipe.F876} {
		out := filepath.Join(t.TempDir(), "loss.svg")
		var errs bytes.Buffer
		require.Zero(t, run([]string{"-draw", out, "-series", string(s)}, &errs), errs.String())
		picture, err := os.ReadFile(out)
		require.NoError(t, err)
		tubes, err := choose(s, "")
		require.NoError(t, err)
		for _, tube := range tubes {
			assert.Contains(t, string(picture), tube.Nominal+" (", s)
		}
		assert.Contains(t, string(picture), "0.5 m/s")
		assert.Greater(t, strings.Count(string(picture), "<path"), 2*len(tubes))
	}
}

func TestPNG(t *testing.T) {
	out := filepath.Join(t.TempDir(), "loss.png")
	var errs bytes.Buffer
	require.Zero(t, run([]string{"-draw", out, "-series", "EN 1057", "-only", "22x1, 15x1"}, &errs), errs.String())
	f, err := os.Open(out)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	_, err = png.Decode(f)
	assert.NoError(t, err)
}

// What is refused leaves no file behind.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		file string
		args []string
	}{
		{"", nil}, {"x.png", []string{"-series", "none"}}, {"x.png", []string{"-temperature", "900"}},
		{"x.nonsense", nil}, {"x", nil}, {"x.png", []string{"-only", "23x1"}}, {"none/x.png", nil},
	} {
		args, out := c.args, ""
		if c.file != "" {
			out = filepath.Join(t.TempDir(), c.file)
			args = append([]string{"-draw", out}, args...)
		}
		var errs bytes.Buffer
		assert.NotZero(t, run(args, &errs), args)
		assert.NotEmpty(t, errs.String(), args)
		assert.NoFileExists(t, out, args)
	}
}

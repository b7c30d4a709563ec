package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWordsAndDrawing(t *testing.T) {
	var out, errs bytes.Buffer
	file := filepath.Join(t.TempDir(), "course.png")
	require.Equal(t, 0, run([]string{"-draw", file}, &out, &errs), errs.String())
	for _, words := range []string{"right     charge 0.8 bar: 2.3 bar at 70 °C", "lifts at 61 °C and spills 1.6 l", "vacuum at the top"} {
		assert.Contains(t, out.String(), words)
	}
	drawing, err := os.Open(file)
	require.NoError(t, err)
	defer drawing.Close()
	picture, err := png.Decode(drawing)
	require.NoError(t, err)
	assert.Greater(t, picture.Bounds().Dx(), 500)
	dark := 0
	for y := range picture.Bounds().Dy() {
		for x := range picture.Bounds().Dx() {
			if r, _, _, _ := picture.At(x, y).RGBA(); r < 0x4000 {
				dark++
			}
		}
	}
	assert.Greater(t, dark, 2000, "lines and letters")
}

func TestWrongUse(t *testing.T) {
	var out, errs bytes.Buffer
	assert.Equal(t, 2, run([]string{"-draw", filepath.Join(t.TempDir(), "course.xyz")}, &out, &errs))
	assert.Contains(t, errs.String(), "xyz")
	assert.Equal(t, 2, run([]string{"spare"}, &out, &errs))
	assert.Equal(t, 2, run([]string{"-nonsense"}, &out, &errs))
}

package picture

import (
	"bytes"
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func blank(draw.Canvas) error { return nil }

func TestFormats(t *testing.T) {
	for file, starts := range map[string]string{"a.png": "\x89PNG", "a.SVG": "<?xml", "a.pdf": "%PDF"} {
		file = filepath.Join(t.TempDir(), file)
		require.NoError(t, Save(file, 4*vg.Centimeter, 3*vg.Centimeter, blank))
		content, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(content, []byte(starts)), file)
	}
}

func TestWhitePage(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.png")
	require.NoError(t, Save(file, 2.54*vg.Centimeter, 2.54*vg.Centimeter, blank))
	content, err := os.ReadFile(file)
	require.NoError(t, err)
	page, err := png.Decode(bytes.NewReader(content))
	require.NoError(t, err)
	r, g, b, a := page.At(10, 10).RGBA()
	assert.Equal(t, [4]uint32{0xffff, 0xffff, 0xffff, 0xffff}, [4]uint32{r, g, b, a})
}

func TestRefusalLeavesNoFile(t *testing.T) {
	folder := t.TempDir()
	broken := errors.New("cannot be painted")
	for _, file := range []string{"a", "a.bmp", "png", filepath.Join("no", "such", "a.png")} {
		assert.Error(t, Save(filepath.Join(folder, file), vg.Inch, vg.Inch, blank), file)
	}
	assert.ErrorIs(t, Save(filepath.Join(folder, "a.png"), vg.Inch, vg.Inch, func(draw.Canvas) error { return broken }), broken)
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Empty(t, left)
}

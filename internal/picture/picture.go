// Package picture writes the drawings of the example programs to files.
package picture

import (
	"errors"
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	_ "gonum.org/v1/plot/vg/vgimg" // each makes its formats known
	_ "gonum.org/v1/plot/vg/vgpdf"
	_ "gonum.org/v1/plot/vg/vgsvg"
)

// Usage explains the flag -draw, which all programs that draw have.
const Usage = "write the drawing to `file`, by its ending .png, .svg or .pdf"

// Save paints a white page and writes it to the file. The file is made only when
// the whole page is painted, so that a refusal leaves none behind.
func Save(file string, width, height vg.Length, paint func(draw.Canvas) error) error {
	format := strings.TrimPrefix(strings.ToLower(filepath.Ext(file)), ".")
	switch format {
	case "png", "svg", "pdf":
	default:
		return fmt.Errorf("file %q: want a name that ends in .png, .svg or .pdf", file)
	}
	canvas, err := draw.NewFormattedCanvas(width, height, format)
	if err != nil {
		return err
	}
	page := draw.New(canvas)
	page.SetColor(color.White)
	page.Fill(page.Path())
	if err := paint(page); err != nil {
		return err
	}
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	_, err = canvas.WriteTo(f)
	return errors.Join(err, f.Close())
}

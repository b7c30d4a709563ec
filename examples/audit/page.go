package main

import (
	"bytes"
	"cmp"
	"embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/internal/reference"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

//go:embed page.tmpl
var pageFiles embed.FS

// page is what the template shows.
type page struct {
	Version    string
	Share      string
	Covered    int
	Exported   int
	Values     int
	Gating     int
	Failed     int
	Disputed   int
	Provenance []count
	Areas      []area
}

type count struct {
	Name string
	N    int
}

type area struct {
	Name    string
	Tables  []table
	Figures []figure
}

type table struct {
	Name, Title, Source, Calculation, Provenance, Used, Verdict string
	Values                                                      int
	Remarks                                                     []string
}

type figure struct {
	Caption, Alt string
	SVG          template.HTML
}

// writePage writes the report as one self-contained page, with a parity plot
// per calculation and result.
func writePage(w io.Writer, r reference.Report) error {
	t, err := template.ParseFS(pageFiles, "page.tmpl")
	if err != nil {
		return err
	}
	totals := r.Totals()
	p := page{
		Version: hydronics.Version, Covered: r.Covered, Exported: r.Exported, Share: fmt.Sprintf("%.0f", 100*r.Share()),
		Values: totals.Values, Gating: totals.Gating, Failed: r.Failed(), Disputed: totals.Disputed,
	}
	for _, result := range r.Results {
		if len(p.Areas) == 0 || p.Areas[len(p.Areas)-1].Name != result.Area() {
			p.Areas = append(p.Areas, area{Name: result.Area()})
		}
		a := &p.Areas[len(p.Areas)-1]
		a.Tables = append(a.Tables, tableOf(result))
	}
	for prov := hydronics.Original; prov <= hydronics.FromMemory; prov++ {
		p.Provenance = append(p.Provenance, count{prov.String(), totals.ByProvenance[prov]})
	}
	for i := range p.Areas {
		if p.Areas[i].Figures, err = figures(r, p.Areas[i].Name); err != nil {
			return err
		}
	}
	return t.Execute(w, p)
}

func tableOf(r reference.Result) table {
	t := table{
		Name: r.File[strings.LastIndexByte(r.File, '/')+1:], Title: r.Title,
		Source:      hydronics.Source{Text: r.Source, Provenance: r.Provenance}.String() + "; " + r.Locator,
		Calculation: r.Calculation.Name, Provenance: r.Provenance.String(), Used: "–", Verdict: r.Verdict(), Remarks: r.Remarks(),
		Values: r.Published(),
	}
	if v, ok := r.Worst(); ok {
		t.Used = fmt.Sprintf("%.0f %%", 100*v.Used())
	}
	return t
}

// pair is one published number beside the computed one.
type pair struct {
	want, got float64
	kind      int // gating, informative, failed
}

const (
	gating = iota
	informative
	failed
)

// figures draws a parity plot for each calculation and result column of an area.
func figures(r reference.Report, areaName string) ([]figure, error) {
	type key struct{ calculation, column string }
	pairs := map[key][]pair{}
	var order []key
	for _, result := range r.Results {
		if result.Area() != areaName {
			continue
		}
		for _, v := range result.Values {
			var p pair
			if n, _ := fmt.Sscan(v.Want, &p.want); n != 1 || v.Line == 0 {
				continue
			}
			if n, _ := fmt.Sscan(v.Got, &p.got); n != 1 {
				continue
			}
			switch {
			case v.Gates && !v.OK:
				p.kind = failed
			case !v.Gates:
				p.kind = informative
			}
			k := key{result.Calculation.Name, v.Column}
			if pairs[k] == nil {
				order = append(order, k)
			}
			pairs[k] = append(pairs[k], p)
		}
	}
	slices.SortFunc(order, func(a, b key) int {
		return cmp.Or(strings.Compare(a.calculation, b.calculation), strings.Compare(a.column, b.column))
	})
	var all []figure
	for _, k := range order {
		svg, err := parity(pairs[k])
		if err != nil {
			return nil, err
		}
		caption := fmt.Sprintf("%s, %s", k.calculation, k.column)
		all = append(all, figure{caption, fmt.Sprintf("Computed against published values of %s: %d points.", caption, len(pairs[k])), svg})
	}
	return all, nil
}

// parity plots computed over published values, on logarithms where they span
// more than two decades.
func parity(points []pair) (template.HTML, error) {
	p := plot.New()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range points {
		lo, hi = math.Min(lo, math.Min(q.want, q.got)), math.Max(hi, math.Max(q.want, q.got))
	}
	if lo > 0 && hi > 100*lo {
		p.X.Scale, p.Y.Scale = plot.LogScale{}, plot.LogScale{}
		p.X.Tick.Marker, p.Y.Tick.Marker = plot.LogTicks{Prec: 1}, plot.LogTicks{Prec: 1}
		lo, hi = lo/1.3, hi*1.3
	} else {
		pad := 0.05*(hi-lo) + 1e-9*math.Abs(hi) + 1e-12
		lo, hi = lo-pad, hi+pad
	}
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = lo, hi, lo, hi
	p.X.Label.Text, p.Y.Label.Text = "published", "computed"
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font.Size, axis.Tick.Label.Font.Size = 8, 7
	}
	diagonal, err := plotter.NewLine(plotter.XYs{{X: lo, Y: lo}, {X: hi, Y: hi}})
	if err != nil {
		return "", err
	}
	diagonal.Width = vg.Points(0.4)
	p.Add(diagonal)
	for kind, shape := range []draw.GlyphDrawer{draw.RingGlyph{}, draw.CrossGlyph{}, draw.BoxGlyph{}} {
		var xys plotter.XYs
		for _, q := range points {
			if q.kind == kind {
				xys = append(xys, plotter.XY{X: q.want, Y: q.got})
			}
		}
		if len(xys) == 0 {
			continue
		}
		s, err := plotter.NewScatter(xys)
		if err != nil {
			return "", err
		}
		s.GlyphStyle = draw.GlyphStyle{Color: diagonal.Color, Radius: vg.Points(1.8), Shape: shape}
		p.Add(s)
	}
	canvas := vgsvg.New(6*vg.Centimeter, 6*vg.Centimeter)
	const edge = 3 * vg.Millimeter // room for half a tick label beyond the axis
	p.Draw(draw.Crop(draw.New(canvas), 0, -edge, 0, -edge))
	var b bytes.Buffer
	if _, err := canvas.WriteTo(&b); err != nil {
		return "", err
	}
	// Inside a page an SVG element stands without its XML prologue.
	return template.HTML(prologue.ReplaceAll(b.Bytes(), []byte("$1"))), nil // drawn here, from numbers
}

var prologue = regexp.MustCompile(`(?s)^.*?(<svg)`)

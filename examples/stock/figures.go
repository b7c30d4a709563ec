package main

import (
	"bytes"
	"fmt"
	"html/template"
	"image/color"
	"regexp"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// A figure is a drawing with words for those who cannot see it.
type figure struct {
	Caption, Alt string
	SVG          template.HTML
}

const (
	figureWidth  = 17 * vg.Centimeter
	figureHeight = 6.2 * vg.Centimeter
)

// Lines and bars are told apart by dashes, marks and greys, for paper without colour.
var (
	dashes = [][]vg.Length{nil, {6, 2}, {2, 2}, {8, 2, 2, 2}, {10, 4}, {1, 2}, {8, 2, 2, 2, 2, 2}, {4, 4}}
	marks  = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.BoxGlyph{}, draw.TriangleGlyph{}, draw.CrossGlyph{}, draw.RingGlyph{}, draw.SquareGlyph{}, draw.PyramidGlyph{}, draw.PlusGlyph{}}
	greys  = []color.Gray{{0}, {110}, {175}, {230}}
)

const mostDrawn = 8 // designs in a figure; the tables hold them all

func newPlot(x, y string) *plot.Plot {
	p := plot.New()
	p.X.Label.Text, p.Y.Label.Text = x, y
	for _, style := range []*draw.TextStyle{&p.X.Label.TextStyle, &p.Y.Label.TextStyle, &p.X.Tick.Label, &p.Y.Tick.Label, &p.Legend.TextStyle} {
		style.Font.Variant, style.Font.Size = "Sans", font.Points(8)
	}
	p.X.Padding, p.Y.Padding = 2, 2
	// Marks before words: wider letters on another machine then run into free room.
	p.Legend.Left, p.Legend.Top = true, true
	p.Legend.XOffs = 11.5 * vg.Centimeter
	p.Legend.Padding = 0.7 * vg.Millimeter
	p.Legend.ThumbnailWidth = vg.Centimeter
	p.Y.Min = 0
	p.Y.Tick.Marker = percentTicks{}
	return p
}

// percentTicks are the usual ticks without those above 100 %.
type percentTicks struct{}

// Ticks returns the ticks from min to max.
func (percentTicks) Ticks(min, max float64) []plot.Tick {
	return slices.DeleteFunc(plot.DefaultTicks{}.Ticks(min, max), func(t plot.Tick) bool { return t.Value > 100 })
}

// drawing renders a plot for a place inside a page.
func drawing(p *plot.Plot) (template.HTML, error) {
	canvas := vgsvg.New(figureWidth, figureHeight)
	const edge = 3 * vg.Millimeter // room for half a tick label beyond the axis
	p.Draw(draw.Crop(draw.New(canvas), 0, -edge, 0, -edge))
	var b bytes.Buffer
	if _, err := canvas.WriteTo(&b); err != nil {
		return "", err
	}
	// Inside a page an SVG element stands without its XML prologue. It was drawn
	// here from numbers and names that the canvas has escaped.
	return template.HTML(prologue.ReplaceAll(b.Bytes(), []byte(`<svg aria-hidden="true"`))), nil
}

var prologue = regexp.MustCompile(`(?s)^.*?<svg`)

// frequencyFigure draws the share of dwelling-winters with ice over the length of
// the cut, which the shortest times to the first ice give for every full hour.
func frequencyFigure(tallies []*tally, o *Options) (figure, error) {
	p := newPlot("length of the power cut, h", "winters with ice, %")
	longest := o.Cuts[len(o.Cuts)-1]
	top := 0.0
	for i, t := range tallies[:min(len(tallies), mostDrawn)] {
		line := plotter.XYs{{X: 0, Y: 0}}
		n := int64(0)
		for h := 1; h <= longest; h++ {
			n += t.FirstIce[h]
			line = append(line, plotter.XY{X: float64(h), Y: percent(n, t.Winters)})
		}
		top = max(top, line[longest].Y)
		l, s, err := plotter.NewLinePoints(line)
		if err != nil {
			return figure{}, err
		}
		l.Width, l.Dashes = 1, dashes[i]
		s.Shape, s.Radius = marks[i], 1.8
		p.Add(l, s)
		p.Legend.Add(t.Design, l, s)
	}
	p.X.Max, p.Y.Max = float64(longest), max(1, 1.05*top)
	p.Legend.Top = false
	svg, err := drawing(p)
	return figure{
		"How often ice forms somewhere outdoors, at the worst hour of the winter, by design and length of the cut",
		fmt.Sprintf("Lines rising with the length of the cut, up to %.0f %% of dwelling-winters at %d hours; the table above gives the numbers.", top, longest), svg,
	}, err
}

// marginFigure draws the distribution of margins of all designs, for the
// shortest and the longest cut.
func marginFigure(tallies []*tally, o *Options) (figure, error) {
	p := newPlot("margin to the freezing point, K (classes of 1 K; below 0: ice)", "dwelling-winters, %")
	all := int64(0)
	for _, t := range tallies {
		all += t.Winters
	}
	low, high := margins, 0
	for n, i := range []int{0, len(o.Cuts) - 1} {
		if n == 1 && i == 0 {
			break
		}
		var sums [margins]int64
		for _, t := range tallies {
			addTo(sums[:], t.Cuts[i].Margins[:])
		}
		line := plotter.XYs{}
		for k, c := range sums {
			line = append(line, plotter.XY{X: float64(leastMargin+k) + 0.5, Y: percent(c, all)})
			if c > 0 {
				low, high = min(low, k), max(high, k)
			}
		}
		l, err := plotter.NewLine(line)
		if err != nil {
			return figure{}, err
		}
		l.StepStyle, l.Width, l.Dashes = plotter.MidStep, 1, dashes[2*n]
		p.Add(l)
		p.Legend.Add(fmt.Sprintf("cut of %d h", o.Cuts[i]), l)
	}
	p.X.Min, p.X.Max = float64(leastMargin+low-1), float64(leastMargin+high+2)
	zero, err := plotter.NewLine(plotter.XYs{{X: 0, Y: 0}, {X: 0, Y: p.Y.Max}})
	if err != nil {
		return figure{}, err
	}
	zero.Color, zero.Width = greys[1], 0.5
	p.Add(zero)
	svg, err := drawing(p)
	return figure{
		"Margins: how far the coldest water stays above its freezing point at the worst hour of the winter",
		fmt.Sprintf("Two stepped curves for cuts of %d and %d hours; the longer cut lies further to the left, below 0 K is ice. Numbers in %s.", o.Cuts[0], o.Cuts[len(o.Cuts)-1], marginsFile), svg,
	}, err
}

// remedyFigure draws what each remedy leaves of the dwelling-winters with ice, at
// the longest cut, in the designs that it suits.
func remedyFigure(tallies []*tally, o *Options) (figure, error) {
	last := len(o.Cuts) - 1
	p := newPlot("", fmt.Sprintf("winters with ice, %% (cut of %d h)", o.Cuts[last]))
	drawn := tallies[:min(len(tallies), mostDrawn)]
	var names []string
	series := make([]plotter.Values, 1+remedies)
	for _, t := range drawn {
		names = append(names, t.Design)
		series[0] = append(series[0], percent(t.Cuts[last].Ice, t.Winters))
		for r := range t.Remedies {
			v := 0.0
			if t.Remedies[r].Winters > 0 {
				v = percent(t.Remedies[r].Ice[last], t.Remedies[r].Winters)
			}
			series[1+r] = append(series[1+r], v)
		}
	}
	width := 11 * vg.Centimeter / vg.Length(len(drawn)) / vg.Length(len(series))
	for i, v := range series {
		bars, err := plotter.NewBarChart(v, width)
		if err != nil {
			return figure{}, err
		}
		bars.Color, bars.LineStyle.Width = greys[i], 0.5
		bars.Offset = width * (vg.Length(i) - vg.Length(len(series)-1)/2)
		p.Add(bars)
		name := "as built"
		if i > 0 {
			name = "with " + remedyNames[i-1]
		}
		p.Legend.Add(name, bars)
	}
	p.NominalX(names...)
	p.Y.Max = 1.35 * max(1, p.Y.Max) // room for the legend
	svg, err := drawing(p)
	return figure{
		"What each remedy leaves, by itself, of the winters with ice",
		"Bars in groups, one group for each design: as built and with each remedy. A remedy that does not suit a design has no bar; the table below gives the numbers.", svg,
	}, err
}

// winterFigure draws which winters were hard.
func winterFigure(years []yearRow, o *Options) (figure, error) {
	p := newPlot("winter that began in", "dwellings with ice, %")
	var names []string
	picks := []int{0, len(o.Cuts) / 2, len(o.Cuts) - 1}
	for _, y := range years {
		name := fmt.Sprint(y.Year)
		if len(years) > 15 && y.Year%5 != 0 {
			name = ""
		}
		names = append(names, name)
	}
	for n, i := range picks {
		if n > 0 && i == picks[n-1] {
			continue
		}
		line := plotter.XYs{}
		for k, y := range years {
			line = append(line, plotter.XY{X: float64(k), Y: percent(y.Ice[i], y.Winters)})
		}
		l, s, err := plotter.NewLinePoints(line)
		if err != nil {
			return figure{}, err
		}
		l.Width, l.Dashes = 1, dashes[n]
		s.Shape, s.Radius = marks[n], 1.8
		p.Add(l, s)
		p.Legend.Add(fmt.Sprintf("cut of %d h", o.Cuts[i]), l, s)
	}
	p.NominalX(names...)
	p.X.Min, p.X.Max = -0.5, float64(len(years))-0.5
	p.Y.Max = 1.4 * max(1, p.Y.Max)
	svg, err := drawing(p)
	return figure{"Which winters were hard: dwellings in which ice forms at the worst hour, all designs",
		"Lines over the winters, one for each of up to three lengths of cut; the peaks are the hard winters.", svg}, err
}

// percent returns a share in %, and 0 of nothing.
func percent(part, whole int64) float64 {
	if whole == 0 {
		return 0
	}
	return 100 * float64(part) / float64(whole)
}

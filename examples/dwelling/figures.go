package main

import (
	"bytes"
	"html/template"
	"image/color"
	"math"
	"slices"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/internal/job"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// A figure is a drawing with the words that stand under it, and those that
// replace it for who cannot see it.
type figure struct {
	Caption string
	Alt     string
	SVG     template.HTML
}

// Lines differ in dashes and width, so that the page loses nothing in black and
// white.
var (
	solid  = draw.LineStyle{Color: color.Black, Width: vg.Points(1.4)}
	thin   = draw.LineStyle{Color: color.Gray{0x60}, Width: vg.Points(0.6)}
	dashed = draw.LineStyle{Color: color.Black, Width: vg.Points(1.2), Dashes: []vg.Length{vg.Points(6), vg.Points(3)}}
	dotted = draw.LineStyle{Color: color.Black, Width: vg.Points(1.4), Dashes: []vg.Length{vg.Points(1.5), vg.Points(2.5)}}
	chain  = draw.LineStyle{Color: color.Black, Width: vg.Points(1), Dashes: []vg.Length{vg.Points(8), vg.Points(2.5), vg.Points(1.5), vg.Points(2.5)}}
	wide   = draw.LineStyle{Color: color.Gray{0xb0}, Width: vg.Points(6)}
)

var styles = []draw.LineStyle{solid, dashed, dotted, chain}

const (
	figureWidth  = 17 * vg.Centimeter
	figureHeight = 7.2 * vg.Centimeter
)

// figures draws what there is to draw.
func figures(d *job.Drawing) ([]figure, error) {
	var all []figure
	parts := []func(*job.Drawing) (*plot.Plot, string, string, error){elevationFigure, pumpFigure}
	for i := range d.Mixed {
		parts = append(parts, func(*job.Drawing) (*plot.Plot, string, string, error) { return mixedFigure(&d.Mixed[i]) })
	}
	for _, one := range append(parts, coolingFigure, pressureFigure, dayFigure) {
		p, caption, alt, err := one(d)
		if err != nil {
			return nil, err
		}
		if p == nil {
			continue
		}
		svg, err := render(p, alt)
		if err != nil {
			return nil, err
		}
		all = append(all, figure{caption, alt, svg})
	}
	return all, nil
}

func render(p *plot.Plot, alt string) (template.HTML, error) {
	c := vgsvg.New(figureWidth, figureHeight)
	p.Draw(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return "", err
	}
	svg := b.String()
	svg = svg[strings.Index(svg, "<svg"):]
	svg = strings.Replace(svg, "<svg", `<svg role="img" aria-label="`+template.HTMLEscapeString(alt)+`"`, 1)
	return template.HTML(svg), nil
}

func newPlot(x, y string) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	face := font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Points(8.5)}
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Label.TextStyle.Font = face
		a.Tick.Label.Font = face
		a.LineStyle = thin
		a.Tick.LineStyle = thin
		a.Padding = 0
		a.Tick.Marker = ticks{}
	}
	p.X.Label.Text, p.Y.Label.Text = x, y
	p.Legend.TextStyle.Font = face
	return p
}

// ticks are the ones of gonum/plot with plain numbers.
type ticks struct{}

func (ticks) Ticks(low, high float64) []plot.Tick {
	all := plot.DefaultTicks{}.Ticks(low, high)
	for i := range all {
		if all[i].Label != "" {
			all[i].Label = plain(all[i].Value)
		}
	}
	return all
}

// curve adds a line.
func curve(p *plot.Plot, style draw.LineStyle, points plotter.XYs) error {
	l, err := plotter.NewLine(points)
	if err != nil {
		return err
	}
	l.LineStyle = style
	p.Add(l)
	return nil
}

// note adds words beside a point.
func note(p *plot.Plot, x, y float64, words string, align text.XAlignment, up float64) error {
	l, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: x, Y: y}}, Labels: []string{words}})
	if err != nil {
		return err
	}
	l.TextStyle[0].Font = font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Points(8.5)}
	l.TextStyle[0].XAlign = align
	beside := vg.Points(5)
	if align == text.XRight {
		// Browsers without the font take a wider one; the words must not run over the point.
		beside = -beside - 0.15*l.TextStyle[0].Width(words)
	}
	l.Offset = vg.Point{X: beside, Y: vg.Points(up)}
	p.Add(l)
	return nil
}

// spot adds a marker.
func spot(p *plot.Plot, x, y float64, shape draw.GlyphDrawer, size float64) error {
	s, err := plotter.NewScatter(plotter.XYs{{X: x, Y: y}})
	if err != nil {
		return err
	}
	s.GlyphStyle = draw.GlyphStyle{Color: color.Black, Radius: vg.Points(size), Shape: shape}
	p.Add(s)
	return nil
}

func scaled(points []job.Point, x, y float64) plotter.XYs {
	out := make(plotter.XYs, len(points))
	for i, q := range points {
		out[i] = plotter.XY{X: q.X / x, Y: q.Y / y}
	}
	return out
}

// first returns the first error there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func pumpFigure(d *job.Drawing) (*plot.Plot, string, string, error) {
	p := newPlot("flow, l/min", "pressure, kPa")
	const x, y = hydronics.LitrePerMinute, hydronics.Kilopascal
	pump := scaled(d.Pump, x, y)
	end := pump[len(pump)-1]
	p.X.Min, p.Y.Min, p.X.Max, p.Y.Max = 0, 0, 1.12*end.X, 1.25*pump[0].Y
	err := first(curve(p, solid, pump), note(p, end.X, end.Y, "circulator", text.XLeft, 2))
	var alt strings.Builder
	alt.WriteString("The circulator's pressure falls from " + fixed(pump[0].Y) + " kPa at rest to " + fixed(end.Y) + " kPa at " + fixed(end.X) + " l/min.")
	for i, s := range d.Systems {
		var inside plotter.XYs
		for _, q := range scaled(s.Points, x, y) {
			if q.Y <= p.Y.Max {
				inside = append(inside, q)
			}
		}
		last, side := inside[max(0, len(inside)-1-2*i)], text.XRight // the names stand at different heights
		if i > 0 && i == len(d.Systems)-1 {
			last, side = inside[len(inside)-1], text.XLeft // clear of the lines before
		}
		design := scaled([]job.Point{s.Design}, x, y)[0]
		err = first(err, curve(p, styles[1+i%3], inside), note(p, last.X, last.Y, s.Name, side, 1),
			spot(p, design.X, design.Y, draw.CircleGlyph{}, 3.2), note(p, design.X, design.Y, "design, "+s.Name, text.XLeft, -9))
		alt.WriteString(" " + s.Name + " takes " + fixed(design.Y) + " kPa at its design flow of " + fixed(design.X) + " l/min.")
	}
	signs := []draw.GlyphDrawer{draw.RingGlyph{}, draw.SquareGlyph{}, draw.TriangleGlyph{}}
	var words []string
	for i, c := range d.Cases {
		at := scaled([]job.Point{c.At}, x, y)[0]
		err = first(err, spot(p, at.X, at.Y, signs[i%3], 4))
		words = append(words, []string{"ring", "square", "triangle"}[i%3]+" "+c.Kind+" ("+fixed(at.X)+" l/min)")
	}
	cases := ""
	if len(words) > 0 {
		cases = " Open signs: the unit with the circuits balanced and the circulator at constant pressure, " + strings.Join(words, ", ") + "."
		alt.WriteString(cases)
	}
	return p, "Circulator at full speed, and what the circuit takes from it. The dots are the design flows; the distance from a dot up to the circulator's line is what balancing and control have to take away." + cases, alt.String(), err
}

// mixedFigure is the pump figure of a mixing group.
func mixedFigure(m *job.MixedCurve) (*plot.Plot, string, string, error) {
	p, _, alt, err := pumpFigure(&job.Drawing{Pump: m.Pump, Systems: []job.SystemCurve{m.System}})
	return p, "Circulator of the mixing group " + m.System.Name + " at full speed, and what the group takes from it, mixing valve included.",
		"Mixing group: " + alt, err
}

func coolingFigure(d *job.Drawing) (*plot.Plot, string, string, error) {
	if len(d.Cooling) == 0 {
		return nil, "", "", nil
	}
	p := newPlot("hours after the power fails", "water standing outdoors, °C")
	end, top := 0.0, 0.0
	var alt strings.Builder
	alt.WriteString("Standing water outdoors after the power fails:")
	var err error
	var events []job.NightEvent
	for i, c := range d.Cooling {
		points := scaled(c.Points, hydronics.Hour, 1)
		last := points[len(points)-1]
		end, top = math.Max(end, last.X), math.Max(top, points[0].Y)
		err = first(err, curve(p, styles[i%len(styles)], points))
		alt.WriteString(" " + c.Name + " from " + fixed(points[0].Y) + " °C to " + fixed(last.Y) + " °C in " + fixed(last.X) + " hours;")
		if events == nil {
			events = c.Events
		}
	}
	caption := "Water that stands outdoors after the power fails, in the cold and wind of the job file. Slush can block a tube from 0 °C on."
	for _, e := range events {
		end = math.Max(end, e.Time/hydronics.Hour)
	}
	// The words of a mark end at it. The later it is the higher they stand, so that
	// they pass over the marks before it. What comes early has its words behind it.
	height := 0.92 - 0.11*float64(len(events)-1)
	for _, e := range events {
		t := e.Time / hydronics.Hour
		switch {
		case t < 0.02*end: // the first moments: power fails, valves close
		case t < 0.4*end:
			err = first(err, curve(p, thin, plotter.XYs{{X: t, Y: 0}, {X: t, Y: top}}), note(p, t, top, e.What, text.XLeft, -3))
			alt.WriteString(" " + e.What + " after " + fixed2(t) + " hours;")
		default:
			err = first(err, curve(p, thin, plotter.XYs{{X: t, Y: 0}, {X: t, Y: height * top}}), note(p, t, height*top, e.What, text.XRight, -3))
			alt.WriteString(" " + e.What + " after " + fixed2(t) + " hours;")
		}
		height += 0.11
	}
	if len(events) > 0 {
		caption += " The marks are those of " + d.Cooling[0].Name + "."
	}
	end *= 1.1
	if cut := d.Cut / hydronics.Hour; cut <= 2*end {
		end = math.Max(end, 1.1*cut)
		err = first(err, curve(p, dotted, plotter.XYs{{X: cut, Y: 0}, {X: cut, Y: top}}), note(p, cut, top, "power returns", text.XRight, -3))
		alt.WriteString(" the power returns after " + fixed(cut) + " hours.")
	}
	err = first(err, curve(p, thin, plotter.XYs{{X: 0, Y: 3}, {X: end, Y: 3}}), note(p, 0, 3, "3 °C", text.XLeft, 2))
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = 0, end, 0, 1.08*top
	return p, caption, alt.String(), err
}

func dayFigure(d *job.Drawing) (*plot.Plot, string, string, error) {
	c := d.Day
	if c == nil {
		return nil, "", "", nil
	}
	p := newPlot("hour of the day", "cylinder, °C")
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = 0, 24, 0, 1.15*c.Wanted
	most := 0.0
	for _, q := range c.Drawn {
		most = math.Max(most, q.Y)
	}
	var err error
	for _, q := range c.Drawn { // a stroke from below for each minute of a draw-off
		x := q.X / hydronics.Hour
		err = first(err, curve(p, thin, plotter.XYs{{X: x, Y: 0}, {X: x, Y: 0.25 * c.Wanted * q.Y / most}}))
	}
	topLine, bottom := scaled(c.Top, hydronics.Hour, 1), scaled(c.Bottom, hydronics.Hour, 1)
	lowest := c.Wanted
	for _, q := range topLine {
		lowest = math.Min(lowest, q.Y)
	}
	err = first(err, curve(p, solid, topLine), curve(p, dashed, bottom), note(p, 0.5, topLine[0].Y, "outlet", text.XLeft, 4), note(p, 0.5, bottom[0].Y, "bottom", text.XLeft, -10))
	return p, "The cylinder through the worst day of load profile " + c.Profile + ": full line outlet, broken line bottom, strokes the draw-offs (the longest " + fixed(most/hydronics.Kilowatt) + " kW).",
		"The outlet of the cylinder through the worst day of load profile " + c.Profile + " stays above " + fixed(lowest) + " °C.", err
}

func pressureFigure(d *job.Drawing) (*plot.Plot, string, string, error) {
	c := &d.Pressure
	if len(c.Points) == 0 {
		return nil, "", "", nil
	}
	p := newPlot("mean temperature of the circuit, °C", "pressure at the vessel, bar")
	points := scaled(c.Points, 1, hydronics.Bar)
	a, b := points[0], points[len(points)-1]
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = a.X, b.X+0.02*(b.X-a.X), 0, 1.12*c.Set/hydronics.Bar
	level := func(y float64, style draw.LineStyle, words string) error {
		y /= hydronics.Bar
		return first(curve(p, style, plotter.XYs{{X: a.X, Y: y}, {X: b.X, Y: y}}), note(p, b.X, y, words+" "+fixed2(y)+" bar", text.XRight, 2))
	}
	err := first(curve(p, solid, points),
		spot(p, c.FilledAt, c.Filling/hydronics.Bar, draw.CircleGlyph{}, 3.2), note(p, c.FilledAt, c.Filling/hydronics.Bar, "filled here", text.XLeft, 6),
		level(c.Set, dashed, "relief valve"), level(c.Final, chain, "highest allowed at the vessel"), level(c.Precharge, dotted, "pre-charge"))
	return p, "Pressure of the closed circuit at the vessel, the circulator at rest, once it is filled and shut.",
		"The pressure rises from " + fixed2(a.Y) + " bar at " + fixed(a.X) + " °C to " + fixed2(b.Y) + " bar at " + fixed(b.X) +
			" °C; the pre-charge is " + fixed2(c.Precharge/hydronics.Bar) + " bar and the relief valve opens at " + fixed2(c.Set/hydronics.Bar) + " bar.", err
}

func elevationFigure(d *job.Drawing) (*plot.Plot, string, string, error) {
	p := newPlot("plan length along the tubes from the unit, m", "height above the ground, m")
	var err error
	var alt strings.Builder
	alt.WriteString("Routes in elevation:")
	low, high, far := 0.0, 0.0, 0.0
	var letters []job.Point
	kinds := map[string]bool{}
	var caption strings.Builder
	caption.WriteString("Routes stretched out flat from the unit at the left: full line supply, broken line return, grey band outdoors, thin line ground.")
	for i := range d.Routes {
		r := &d.Routes[i]
		style, up := solid, 4.0
		if r.Line == "return" {
			style, up = dashed, -10
		}
		for _, piece := range r.Pieces {
			points := scaled(piece.Points, 1, 1)
			for _, q := range points {
				low, high, far = math.Min(low, q.Y), math.Max(high, q.Y), math.Max(far, q.X)
			}
			if piece.Outdoors {
				err = first(err, curve(p, wide, points))
			}
			err = first(err, curve(p, style, points))
		}
		letter := string(rune('A' + i%26))
		longest := longestLeg(r)
		for slices.ContainsFunc(letters, func(q job.Point) bool {
			return math.Abs(q.X-longest.X) < 0.03*far && math.Abs(q.Y-longest.Y) < 0.1*(high-low)
		}) {
			longest.X += 0.01 * far
		}
		letters = append(letters, longest)
		err = first(err, note(p, longest.X, longest.Y, letter, text.XLeft, up))
		caption.WriteString(" " + letter + " " + r.Name + ".")
		alt.WriteString(" " + letter + ", " + r.Name + ", with " + marksIn(r) + ";")
		for _, m := range r.Marks {
			kinds[m.Kind] = true
			err = first(err, spot(p, m.At.X, m.At.Y, glyphOf(m.Kind), 3.4))
		}
	}
	p.X.Min, p.X.Max = -0.04*far, 1.05*far
	for _, q := range letters {
		p.X.Max = math.Max(p.X.Max, q.X+0.05*far)
	}
	p.Y.Min, p.Y.Max = low-0.1*(high-low)-0.1, high+0.15*(high-low)+0.1
	err = first(err, curve(p, thin, plotter.XYs{{X: p.X.Min, Y: 0}, {X: p.X.Max, Y: 0}}))
	return p, caption.String() + " " + glyphWords(kinds), alt.String(), err
}

// longestLeg returns the middle of the longest leg of a route, where its letter
// has room.
func longestLeg(r *job.Elevation) job.Point {
	var middle job.Point
	most := -1.0
	for _, piece := range r.Pieces {
		for i := 1; i < len(piece.Points); i++ {
			a, b := piece.Points[i-1], piece.Points[i]
			if l := math.Hypot(b.X-a.X, b.Y-a.Y); l > most {
				most, middle = l, job.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
			}
		}
	}
	return middle
}

func marksIn(r *job.Elevation) string {
	if len(r.Marks) == 0 {
		return "no devices"
	}
	var words []string
	for _, m := range r.Marks {
		words = append(words, m.Kind)
	}
	return strings.Join(words, ", ")
}

// glyphOf and glyphWords agree on the signs of the elevation.
func glyphOf(kind string) draw.GlyphDrawer {
	switch {
	case strings.HasPrefix(kind, "drain"):
		return draw.TriangleGlyph{}
	case strings.HasPrefix(kind, "air"):
		return draw.RingGlyph{}
	case strings.HasPrefix(kind, "closing"), kind == "shut-off valve", kind == "non-return valve", kind == "diverting valve":
		return draw.SquareGlyph{}
	default:
		return draw.CrossGlyph{}
	}
}

func glyphWords(kinds map[string]bool) string {
	var words []string
	for _, g := range []struct {
		sign  string
		holds func(kind string) bool
	}{
		{"triangle: drain valve", func(k string) bool { return strings.HasPrefix(k, "drain") }},
		{"ring: air vent or inlet", func(k string) bool { return strings.HasPrefix(k, "air") }},
		{"square: valve in the line", func(k string) bool { _, ok := glyphOf(k).(draw.SquareGlyph); return ok }},
		{"cross: other devices", func(k string) bool { _, ok := glyphOf(k).(draw.CrossGlyph); return ok }},
	} {
		for k := range kinds {
			if g.holds(k) {
				words = append(words, g.sign)
				break
			}
		}
	}
	if len(words) == 0 {
		return ""
	}
	return strings.ToUpper(words[0][:1]) + strings.Join(words, ", ")[1:] + "."
}

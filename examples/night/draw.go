package main

import (
	"fmt"
	"image/color"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/picture"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// One grey scale and one dash pattern per curve, so that the picture reads in
// black and white; colour only repeats what the dashes say.
var (
	ink   = color.Gray{20}
	faint = color.Gray{150}
	pale  = color.Gray{215}
	blue  = color.RGBA{R: 20, G: 80, B: 150, A: 255}
	brown = color.RGBA{R: 150, G: 70, B: 10, A: 255}
)

// page draws three panels above each other, temperatures and ice over the hours
// of the night and the outflow over the minutes after the opening, and below
// them the events by number.
func page(file string, n frost.Night, o frost.Outcome) error {
	end := span(o)
	w, err := stays(n, o, end)
	if err != nil {
		return err
	}
	var rows [][]*plot.Plot
	for _, panel := range []func(frost.Night, frost.Outcome, *water, float64) (*plot.Plot, error){temperatures, ice, outflow} {
		p, err := panel(n, o, w, end)
		if err != nil {
			return err
		}
		p.BackgroundColor = color.Transparent
		rows = append(rows, []*plot.Plot{p})
	}
	return picture.Save(file, 18*vg.Centimeter, 23*vg.Centimeter, func(page draw.Canvas) error {
		const key = 2.6 * vg.Centimeter
		body := draw.Crop(page, 4*vg.Millimeter, -8*vg.Millimeter, key, -3*vg.Millimeter)
		tiles := draw.Tiles{Rows: len(rows), Cols: 1, PadY: 5 * vg.Millimeter}
		for i, c := range plot.Align(rows, tiles, body) {
			rows[i][0].Draw(c[0])
		}
		events(page, o, key)
		return nil
	})
}

// water is what would become of the water if it stayed in the tube, well mixed or
// conducting only.
type water struct{ mixed, conducting frost.History }

// stays follows the water on after the moments that decide.
func stays(n frost.Night, o frost.Outcome, end float64) (*water, error) {
	s := frost.Standing{Section: n.Section, Medium: n.Medium, Start: n.Start, Flowing: !o.Warm, Weather: n.Weather, Until: end}
	conducting, err := s.Resolve()
	if err != nil {
		return nil, err
	}
	s.Mixed = true
	mixed, err := s.Resolve()
	return &water{mixed, conducting}, err
}

// events lists the numbered events at the foot of the page.
func events(page draw.Canvas, o frost.Outcome, key vg.Length) {
	style := plot.New().Legend.TextStyle
	style.Font.Size = vg.Points(9)
	half := (len(o.Events) + 1) / 2
	for i, e := range o.Events {
		at := vg.Point{X: page.Min.X + 12*vg.Millimeter, Y: page.Min.Y + key - 5*vg.Millimeter - vg.Length(i%half)*5*vg.Millimeter}
		if i >= half {
			at.X = page.Center().X
		}
		page.FillText(style, at, fmt.Sprintf("%d  %s: %.2f h", i+1, e.What, e.Time/hydronics.Hour))
	}
}

// span returns the seconds to show: past the last event, so far as the night
// goes.
func span(o frost.Outcome) float64 {
	last := hydronics.Hour
	for _, e := range o.Events {
		last = max(last, e.Time)
	}
	return 1.25 * last
}

func line(points plotter.XYs, c color.Color, width vg.Length, dashes ...vg.Length) (*plotter.Line, error) {
	l, err := plotter.NewLine(points)
	if err != nil {
		return nil, err
	}
	l.Color, l.Width, l.Dashes = c, width, dashes
	return l, nil
}

// curve picks one figure of a history up to the end shown.
func curve(h frost.History, end float64, f func(frost.State) float64) plotter.XYs {
	var xy plotter.XYs
	for i, s := range h.States {
		if s.Time > end {
			before := h.States[i-1]
			share := (end - before.Time) / (s.Time - before.Time)
			return append(xy, plotter.XY{X: end / hydronics.Hour, Y: f(before) + share*(f(s)-f(before))})
		}
		xy = append(xy, plotter.XY{X: s.Time / hydronics.Hour, Y: f(s)})
	}
	return xy
}

func temperatures(n frost.Night, o frost.Outcome, w *water, end float64) (*plot.Plot, error) {
	p := plot.New()
	p.Title.Text = "The night without power: if the water stayed in the tube"
	p.Y.Label.Text = "°C"
	p.X.Label.Text = "hours after the power fails"
	p.X.Max = end / hydronics.Hour
	var outdoor plotter.XYs
	for i := 0; float64(i)*hydronics.Hour < end; i++ {
		t := n.Weather[min(i, len(n.Weather)-1)].Temperature
		outdoor = append(outdoor, plotter.XY{X: float64(i), Y: t}, plotter.XY{X: math.Min(float64(i+1), end/hydronics.Hour), Y: t})
	}
	curves := []struct {
		name   string
		points plotter.XYs
		color  color.Color
		width  vg.Length
		dashes []vg.Length
	}{
		{"water, well mixed", curve(w.mixed, end, func(s frost.State) float64 { return s.Mean }), blue, vg.Points(1.8), nil},
		{"water at the wall, conducting", curve(w.conducting, end, func(s frost.State) float64 { return s.Wall }), blue, vg.Points(1.2), []vg.Length{vg.Points(5), vg.Points(3)}},
		{"outer surface", curve(w.conducting, end, func(s frost.State) float64 { return s.Surface }), brown, vg.Points(1.2), []vg.Length{vg.Points(1.5), vg.Points(2.5)}},
		{"outdoor air", outdoor, ink, vg.Points(1), nil},
	}
	p.Add(plotter.NewGrid())
	for _, c := range curves {
		l, err := line(c.points, c.color, c.width, c.dashes...)
		if err != nil {
			return nil, err
		}
		p.Add(l)
		p.Legend.Add(c.name, l)
	}
	zero, err := line(plotter.XYs{{X: 0, Y: 0}, {X: p.X.Max, Y: 0}}, ink, vg.Points(0.6))
	if err != nil {
		return nil, err
	}
	opens := n.Setting.Opens - n.Setting.Tolerance
	setting, err := line(plotter.XYs{{X: 0, Y: opens}, {X: p.X.Max, Y: opens}}, faint, vg.Points(0.8), vg.Points(8), vg.Points(4))
	if err != nil {
		return nil, err
	}
	p.Add(zero, setting)
	p.Legend.Add(fmt.Sprintf("drain opens by %g °C", opens), setting)
	p.Legend.Top = true
	p.Legend.Padding = vg.Points(2)
	p.Legend.TextStyle.Font.Size = vg.Points(9)
	p.Y.Tick.Marker = every(10)
	err = mark(p, o)
	p.Y.Max += 0.5 * (p.Y.Max - p.Y.Min) // room for the legend
	return p, err
}

// every marks the multiples of a step.
func every(step float64) plot.TickerFunc {
	return func(low, high float64) []plot.Tick {
		var ticks []plot.Tick
		for v := math.Ceil(low/step) * step; v <= high; v += step {
			ticks = append(ticks, plot.Tick{Value: v, Label: fmt.Sprintf("%g", v)})
		}
		return ticks
	}
}

// mark draws the events as numbered upright lines.
func mark(p *plot.Plot, o frost.Outcome) error {
	p.X.Tick.Marker = every(max(1, math.Ceil(p.X.Max/12)))
	low, high := p.Y.Min, p.Y.Max
	p.Y.Min, p.Y.Max = low, high+0.02*(high-low)
	var at plotter.XYs
	var numbers []string
	last, level := math.Inf(-1), 0
	for i, e := range o.Events {
		x := e.Time / hydronics.Hour
		if x > p.X.Max {
			continue
		}
		l, err := line(plotter.XYs{{X: x, Y: low}, {X: x, Y: p.Y.Max}}, faint, vg.Points(0.7), vg.Points(2), vg.Points(2))
		if err != nil {
			return err
		}
		p.Add(l)
		// Events close together climb, so that their numbers do not cover each other.
		if x-last < 0.03*p.X.Max {
			level++
		} else {
			level = 0
		}
		last = x
		at = append(at, plotter.XY{X: x + 0.004*p.X.Max, Y: low + (0.01+0.09*float64(level))*(high-low)})
		numbers = append(numbers, fmt.Sprint(i+1))
	}
	labels, err := plotter.NewLabels(plotter.XYLabels{XYs: at, Labels: numbers})
	if err != nil {
		return err
	}
	p.Add(labels)
	return nil
}

func ice(_ frost.Night, o frost.Outcome, w *water, end float64) (*plot.Plot, error) {
	p := plot.New()
	p.Y.Label.Text = "ice, % of the water"
	p.X.Label.Text = "hours after the power fails"
	p.X.Max, p.Y.Min, p.Y.Max = end/hydronics.Hour, 0, 10
	p.Add(plotter.NewGrid())
	for _, c := range []struct {
		name   string
		h      frost.History
		dashes []vg.Length
	}{{"well mixed", w.mixed, nil}, {"conducting", w.conducting, []vg.Length{vg.Points(5), vg.Points(3)}}} {
		xy := curve(c.h, end, func(s frost.State) float64 { return 100 * s.Ice })
		l, err := line(xy, blue, vg.Points(1.5), c.dashes...)
		if err != nil {
			return nil, err
		}
		p.Add(l)
		p.Legend.Add(c.name, l)
	}
	p.Legend.Top, p.Legend.Left = true, true
	p.Legend.TextStyle.Font.Size = vg.Points(9)
	err := mark(p, o)
	p.Y.Max += 0.25 * (p.Y.Max - p.Y.Min) // room for the legend
	return p, err
}

func outflow(_ frost.Night, o frost.Outcome, _ *water, _ float64) (*plot.Plot, error) {
	p := plot.New()
	p.Title.Text = fmt.Sprintf("Emptying: %.1f of %.1f l leave in %.1f min", o.Drainage.Volume/hydronics.Litre,
		o.Drainage.Content/hydronics.Litre, o.Drainage.Time/hydronics.Minute)
	p.Y.Label.Text = "outflow, l/min"
	p.X.Label.Text = "minutes after the drain valve opens"
	p.Y.Min = 0
	p.X.Tick.Marker = every(1)
	p.Add(plotter.NewGrid())
	var xy plotter.XYs
	for _, f := range o.Drainage.Outflows {
		xy = append(xy, plotter.XY{X: f.Time / hydronics.Minute, Y: f.Flow / hydronics.LitrePerMinute})
	}
	if len(xy) == 0 {
		return p, nil
	}
	l, err := line(xy, ink, vg.Points(1.5))
	if err != nil {
		return nil, err
	}
	area, err := plotter.NewPolygon(append(append(plotter.XYs{{X: xy[0].X}}, xy...), plotter.XY{X: xy[len(xy)-1].X}))
	if err != nil {
		return nil, err
	}
	area.Color, area.LineStyle.Width = pale, 0
	p.Add(area, l)
	return p, nil
}

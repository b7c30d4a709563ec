package main

import (
	"fmt"
	"image/color"

	"example.com/hydronics"
	"example.com/hydronics/internal/picture"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

var (
	ink    = color.RGBA{0x26, 0x2b, 0x33, 0xff}
	grid   = color.RGBA{0xe3, 0xe5, 0xe8, 0xff}
	hot    = color.RGBA{0xb4, 0x3a, 0x1e, 0xff}
	middle = color.RGBA{0xc9, 0x94, 0x2e, 0xff}
	bottom = color.RGBA{0x2f, 0x6f, 0x9f, 0xff}
	wanted = color.RGBA{0x4b, 0x5b, 0x3c, 0xff}
	short  = color.NRGBA{0x9b, 0x1c, 0x5a, 0x50}
	heater = color.RGBA{0x8a, 0xa8, 0x6c, 0xff}
)

// draw writes the picture: temperatures above, powers below, over one day.
func (c course) draw(file string) error {
	temperatures, err := c.temperatures()
	if err != nil {
		return err
	}
	powers, err := c.powers()
	if err != nil {
		return err
	}
	return picture.Save(file, 24*vg.Centimeter, 15*vg.Centimeter, func(page draw.Canvas) error {
		both := [][]*plot.Plot{{temperatures}, {powers}}
		tiles := draw.Tiles{Rows: 2, Cols: 1, PadY: 4 * vg.Millimeter, PadTop: 3 * vg.Millimeter, PadBottom: 3 * vg.Millimeter,
			PadLeft: 3 * vg.Millimeter, PadRight: 5 * vg.Millimeter}
		canvases := plot.Align(both, tiles, page)
		temperatures.Draw(canvases[0][0])
		powers.Draw(canvases[1][0])
		return nil
	})
}

// panel returns an empty panel over the hours of the day.
func panel(title, y string) *plot.Plot {
	p := plot.New()
	p.Title.Text, p.Y.Label.Text = title, y
	p.X.Min, p.X.Max = 0, 24
	p.X.Tick.Marker = plot.TickerFunc(func(_, _ float64) []plot.Tick {
		var ticks []plot.Tick
		for h := 0; h <= 24; h += 3 {
			ticks = append(ticks, plot.Tick{Value: float64(h), Label: fmt.Sprintf("%02d:00", h)})
		}
		return ticks
	})
	lines := plotter.NewGrid()
	lines.Vertical.Color, lines.Horizontal.Color = grid, grid
	p.Add(lines)
	p.Legend.Left = true
	p.Legend.Padding = vg.Points(2)
	for _, f := range []*font.Font{&p.Title.TextStyle.Font, &p.X.Label.TextStyle.Font, &p.Y.Label.TextStyle.Font,
		&p.X.Tick.Label.Font, &p.Y.Tick.Label.Font, &p.Legend.TextStyle.Font} {
		f.Variant = "Sans"
	}
	p.Legend.TextStyle.Font.Size = vg.Points(9)
	return p
}

// every returns ticks at the multiples of step.
func every(step, last int) plot.Ticker {
	return plot.TickerFunc(func(_, _ float64) []plot.Tick {
		var ticks []plot.Tick
		for v := 0; v <= last; v += step {
			ticks = append(ticks, plot.Tick{Value: float64(v), Label: fmt.Sprint(v)})
		}
		return ticks
	})
}

// curve adds a line through one figure of every state.
func (c course) curve(p *plot.Plot, name string, col color.Color, figure func(i int) float64) error {
	points := make(plotter.XYs, len(c.states))
	for i, s := range c.states {
		points[i] = plotter.XY{X: s.Time / hydronics.Hour, Y: figure(i)}
	}
	line, err := plotter.NewLine(points)
	if err != nil {
		return err
	}
	line.Color, line.Width = col, vg.Points(1.6)
	p.Add(line)
	p.Legend.Add(name, line)
	return nil
}

// temperatures shows the layers, what each draw-off wants and where it runs cold.
func (c course) temperatures() (*plot.Plot, error) {
	p := panel(fmt.Sprintf("Load profile %s drawn from a cylinder of %.0f l", c.day.Profile.Name, c.day.Cylinder.Volume/hydronics.Litre), "temperature, °C")
	p.Y.Min, p.Y.Max = 0, 70
	p.Y.Tick.Marker = every(10, 70)
	if err := c.shade(p); err != nil {
		return nil, err
	}
	for _, l := range []struct {
		name   string
		col    color.Color
		figure func(i int) float64
	}{
		{"bottom of the cylinder", bottom, func(i int) float64 { return c.states[i].Bottom }},
		{"mean of the cylinder", middle, func(i int) float64 { return c.states[i].Mean }},
		{"top, where the taps draw", hot, func(i int) float64 { return c.states[i].Top }},
	} {
		if err := c.curve(p, l.name, l.col, l.figure); err != nil {
			return nil, err
		}
	}
	points := make(plotter.XYs, len(c.day.Profile.Draws))
	for i, d := range c.day.Profile.Draws {
		points[i] = plotter.XY{X: d.Start / hydronics.Hour, Y: d.Wanted()}
	}
	marks, err := plotter.NewScatter(points)
	if err != nil {
		return nil, err
	}
	marks.Shape, marks.Color, marks.Radius = draw.PyramidGlyph{}, wanted, vg.Points(2.6)
	p.Add(marks)
	p.Legend.Add("wanted by a draw-off", marks)
	return p, nil
}

// shade marks the minutes in which the taps got less than they wanted.
func (c course) shade(p *plot.Plot) error {
	named := false
	for i := 0; i < len(c.states); {
		if !c.cold(i) {
			i++
			continue
		}
		from := i
		for i < len(c.states) && c.cold(i) {
			i++
		}
		start := 0.0
		if from > 0 {
			start = c.states[from-1].Time
		}
		// A few minutes would not be seen: at least a tenth of an hour wide.
		left, right := start/hydronics.Hour, max(c.states[i-1].Time, start+0.1*hydronics.Hour)/hydronics.Hour
		area, err := plotter.NewPolygon(plotter.XYs{{X: left, Y: p.Y.Min}, {X: right, Y: p.Y.Min}, {X: right, Y: p.Y.Max}, {X: left, Y: p.Y.Max}})
		if err != nil {
			return err
		}
		area.Color, area.LineStyle.Width = short, 0
		p.Add(area)
		if !named {
			p.Legend.Add("colder than wanted", area)
			named = true
		}
	}
	return nil
}

// cold reports whether the taps got less than they wanted in step i.
func (c course) cold(i int) bool {
	s := c.states[i]
	return s.Wanted-s.Delivered > 1e-6*s.Wanted
}

// powers shows what the taps want, what they get and what the heater gives.
func (c course) powers() (*plot.Plot, error) {
	p := panel("", "power, kW")
	p.X.Label.Text = "time of day"
	highest := 0.0
	for _, s := range c.states {
		highest = max(highest, s.Wanted, s.Power)
	}
	p.Legend.Top = true
	p.Y.Min, p.Y.Max = 0, max(1, 1.15*highest/hydronics.Kilowatt)
	if err := c.shade(p); err != nil {
		return nil, err
	}
	for _, l := range []struct {
		name   string
		col    color.Color
		figure func(i int) float64
	}{
		{"heat pump", heater, func(i int) float64 { return c.states[i].Power / hydronics.Kilowatt }},
		{"wanted at the taps (where more than given)", ink, func(i int) float64 { return c.states[i].Wanted / hydronics.Kilowatt }},
		{"given at the taps", hot, func(i int) float64 { return c.states[i].Delivered / hydronics.Kilowatt }},
	} {
		if err := c.curve(p, l.name, l.col, l.figure); err != nil {
			return nil, err
		}
	}
	return p, nil
}

package main

import (
	"fmt"
	"image/color"
	"math"
	"strconv"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// The frame of the diagram: what heating works with.
const (
	minGradient, maxGradient = 10.0, 1000.0 // Pa/m
)

var (
	tubeColour     = color.RGBA{R: 0x10, G: 0x3a, B: 0x5c, A: 0xff}
	velocityColour = color.RGBA{R: 0xb0, G: 0x52, B: 0x10, A: 0xff}
	gridColour     = color.Gray{Y: 0xdd}
	shadeColour    = color.RGBA{R: 0xe6, G: 0xf0, B: 0xe4, A: 0xff}
)

func diagram(title string, tubes []pipe.Tube, water fluid.Properties) (*plot.Plot, error) {
	p := plot.New()
	p.Title.Text = title
	p.Title.Padding = vg.Points(6)
	p.X.Label.Text = "flow, l/min (kinks: transition from laminar flow, known to ±20 %)"
	p.Y.Label.Text = "friction, Pa/m"
	p.X.Scale, p.Y.Scale = plot.LogScale{}, plot.LogScale{}
	p.X.Tick.Marker, p.Y.Tick.Marker = decades{}, decades{}

	// flowAt is the flow in l/min at which a tube reaches a gradient.
	flowAt := func(t pipe.Tube, gradient float64) (float64, error) {
		q, err := t.Run(1).Flow(gradient, water)
		return q / hydronics.LitrePerMinute, err
	}
	left, err := flowAt(tubes[0], minGradient)
	if err != nil {
		return nil, err
	}
	right, err := flowAt(tubes[len(tubes)-1], maxGradient)
	if err != nil {
		return nil, err
	}
	p.X.Min, p.X.Max = left, right*1.05
	p.Y.Min, p.Y.Max = minGradient, maxGradient

	// Common practice for heating lies between 50 and 150 Pa/m.
	shade, err := plotter.NewPolygon(plotter.XYs{{X: p.X.Min, Y: 50}, {X: p.X.Max, Y: 50}, {X: p.X.Max, Y: 150}, {X: p.X.Min, Y: 150}})
	if err != nil {
		return nil, err
	}
	shade.Color, shade.LineStyle.Width = shadeColour, 0
	grid := plotter.NewGrid()
	grid.Horizontal.Color, grid.Vertical.Color = gridColour, gridColour
	p.Add(shade, grid)

	if err := addLabel(p, plotter.XY{X: p.X.Min, Y: 52}, " common practice, 50 to 150 Pa/m", color.Gray{Y: 0x60}, 0); err != nil {
		return nil, err
	}
	for _, t := range tubes {
		if err := addTube(p, t, flowAt); err != nil {
			return nil, err
		}
	}
	for _, v := range []float64{0.2, 0.3, 0.5, 0.7, 1, 1.5, 2} {
		if err := addVelocity(p, v, tubes, water); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// addTube draws the line of one tube and writes its size and bore above it.
func addTube(p *plot.Plot, t pipe.Tube, flowAt func(pipe.Tube, float64) (float64, error)) error {
	const steps = 200
	var line plotter.XYs
	for i := range steps + 1 {
		gradient := minGradient * math.Pow(maxGradient/minGradient, float64(i)/steps)
		q, err := flowAt(t, gradient)
		if err != nil {
			return err
		}
		line = append(line, plotter.XY{X: q, Y: gradient})
	}
	l, err := plotter.NewLine(line)
	if err != nil {
		return err
	}
	l.Color, l.Width = tubeColour, vg.Points(1)
	p.Add(l)
	size := fmt.Sprintf("%s (%.1f mm)", t.Nominal, t.Bore()/hydronics.Millimetre)
	return addLabel(p, line[steps], "  "+size, tubeColour, math.Pi/3)
}

// addVelocity joins the points of equal velocity in all tubes.
func addVelocity(p *plot.Plot, v float64, tubes []pipe.Tube, water fluid.Properties) error {
	var line plotter.XYs
	for _, t := range tubes {
		flow := v * t.Content()
		l, err := t.Run(1).Loss(flow, water)
		if err != nil {
			return err
		}
		if l.Gradient >= minGradient && l.Gradient <= maxGradient {
			line = append(line, plotter.XY{X: flow / hydronics.LitrePerMinute, Y: l.Gradient})
		}
	}
	if len(line) < 2 {
		return nil
	}
	l, err := plotter.NewLine(line)
	if err != nil {
		return err
	}
	l.Color, l.Width, l.Dashes = velocityColour, vg.Points(0.8), []vg.Length{vg.Points(5), vg.Points(3)}
	p.Add(l)
	return addLabel(p, line[len(line)-1], fmt.Sprintf("  %g m/s", v), velocityColour, 0)
}

func addLabel(p *plot.Plot, at plotter.XY, words string, c color.Color, angle float64) error {
	l, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{at}, Labels: []string{words}})
	if err != nil {
		return err
	}
	style := &l.TextStyle[0]
	style.Color, style.Rotation, style.XAlign, style.YAlign = c, angle, draw.XLeft, draw.YBottom
	style.Font.Size = vg.Points(8)
	p.Add(l)
	return nil
}

// decades marks 1, 2 and 5 of every decade with numbers, the rest without.
type decades struct{}

// Ticks places the marks between min and max.
func (decades) Ticks(min, max float64) []plot.Tick {
	var ticks []plot.Tick
	for e := math.Floor(math.Log10(min)); e <= math.Ceil(math.Log10(max)); e++ {
		for m := 1.0; m < 10; m++ {
			v := m * math.Pow(10, e)
			if v < min*(1-1e-9) || v > max*(1+1e-9) {
				continue
			}
			tick := plot.Tick{Value: v}
			if m == 1 || m == 2 || m == 5 {
				tick.Label = strconv.FormatFloat(v, 'g', 5, 64)
			}
			ticks = append(ticks, tick)
		}
	}
	return ticks
}

package main

import (
	"fmt"
	"image/color"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/internal/picture"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// The lines differ in their dashes as well as in their colour, so that the
// drawing can be read in black and white.
var styles = []draw.LineStyle{
	{Color: color.RGBA{0x10, 0x50, 0x90, 0xff}, Width: vg.Points(2)},
	{Color: color.RGBA{0xb0, 0x40, 0x10, 0xff}, Width: vg.Points(1.6), Dashes: []vg.Length{vg.Points(7), vg.Points(3)}},
	{Color: color.RGBA{0x50, 0x50, 0x50, 0xff}, Width: vg.Points(1.6), Dashes: []vg.Length{vg.Points(2), vg.Points(2.5)}},
}

// addCourses adds the way up and the way back of every case.
func addCourses(p *plot.Plot, cases []charge) error {
	for i, c := range cases {
		up, err := trace(&c.course, c.cycle, true)
		if err != nil {
			return err
		}
		back, err := trace(&c.after, c.cycle, false)
		if err != nil {
			return err
		}
		for k, points := range []plotter.XYs{up, back} {
			line, err := plotter.NewLine(points)
			if err != nil {
				return err
			}
			line.LineStyle = styles[i]
			if k == 1 {
				if !c.cycle.Lifts {
					break // the way back is the way up
				}
				line.Width /= 2
			}
			p.Add(line)
		}
	}
	return nil
}

// trace samples a course; on the way up it stops where the relief valve lifts and
// runs on at the valve's set pressure.
func trace(c *expansion.Course, cycle expansion.Cycle, up bool) (plotter.XYs, error) {
	var points plotter.XYs
	const steps = 1300 // 0.05 K, so that jumps stand upright
	for i := 0; i <= steps; i++ {
		t := system.Coldest + (system.Hottest-system.Coldest)*float64(i)/steps
		p := system.ReliefSet
		if !(up && cycle.Lifts && t > cycle.LiftsAt) {
			state, err := c.At(t)
			if err != nil {
				return nil, err
			}
			p = min(p, state.Pressure)
		}
		points = append(points, plotter.XY{X: t, Y: float64(p / hydronics.Bar)})
	}
	return points, nil
}

// level draws a line across, with its name standing on it from the temperature t.
func level(p *plot.Plot, bar, t float64, name string) error {
	line, err := plotter.NewLine(plotter.XYs{{X: system.Coldest, Y: bar}, {X: system.Hottest, Y: bar}})
	if err != nil {
		return err
	}
	line.LineStyle = draw.LineStyle{Color: color.Gray{0xa0}, Width: vg.Points(0.7)}
	p.Add(line)
	return note(p, t, bar, name, color.Gray{0x60})
}

// note writes a word just above a point.
func note(p *plot.Plot, t, bar float64, words string, ink color.Color) error {
	labels, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: t, Y: bar}}, Labels: []string{words}})
	if err != nil {
		return err
	}
	for i := range labels.TextStyle {
		labels.TextStyle[i].Color = ink
		labels.TextStyle[i].Font.Size = vg.Points(9)
		labels.TextStyle[i].YAlign = text.YBottom
	}
	labels.Offset.Y = vg.Points(2)
	p.Add(labels)
	return nil
}

// figure draws pressure against temperature to a file.
func figure(file string, cases []charge, need expansion.Sizing) error {
	p := plot.New()
	p.Title.Text = fmt.Sprintf("One vessel of %.0f l, three charges: heating up (thick) and cooling down (thin)", nominal/hydronics.Litre)
	p.Title.TextStyle.Font.Size = vg.Points(11)
	p.Title.Padding = vg.Points(6)
	p.X.Label.Text = "mean water temperature, °C"
	p.Y.Label.Text = "pressure at the vessel, bar above the atmosphere"
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = system.Coldest, system.Hottest, -0.6, 3.4
	p.X.Tick.Marker, p.Y.Tick.Marker = plot.ConstantTicks(ticks(5, 70, 5)), plot.ConstantTicks(ticks(-0.5, 3, 0.5))
	for _, l := range []struct {
		pressure hydronics.Gauge
		at       float64 // °C
		name     string
	}{
		{system.ReliefSet, 6, "relief valve opens"},
		{need.Final, 6, "highest pressure wanted"},
		{need.Precharge, 52, "least charge wanted"},
		{0, 52, "atmosphere"},
	} {
		if err := level(p, float64(l.pressure/hydronics.Bar), l.at, l.name); err != nil {
			return err
		}
	}
	if err := addCourses(p, cases); err != nil {
		return err
	}
	for i, at := range [...]struct{ t, bar float64 }{{57, 1.6}, {22.5, 1.62}, {11.5, 2.14}} {
		words := fmt.Sprintf("%s charge, %.1f bar", cases[i].name, cases[i].precharge/hydronics.Bar)
		if err := note(p, at.t, at.bar, words, styles[i].Color); err != nil {
			return err
		}
	}
	return picture.Save(file, 17*vg.Centimeter, 11*vg.Centimeter, func(c draw.Canvas) error {
		p.Draw(c)
		return nil
	})
}

func ticks(from, to, step float64) []plot.Tick {
	var t []plot.Tick
	for v := from; v <= to+step/2; v += step {
		t = append(t, plot.Tick{Value: v, Label: fmt.Sprintf("%g", v)})
	}
	return t
}

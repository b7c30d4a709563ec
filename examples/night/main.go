// Night draws a power cut: what becomes of the water in an outdoor tube, from
// the failure of the power to the last water out or the first ice.
//
//	go run ./examples/night                          in words
//	go run ./examples/night -draw night.png          and as a drawing (.png, .svg or .pdf)
//	go run ./examples/night -cold -15                constant cold instead of the winter week
//	go run ./examples/night -foam 0                  a bare tube
//
// The installation is an invented one; the winter week is a public sample (its
// source is in winter.csv), with the cut at its worst hour. What a calculation
// shows releases nothing: the outdoor unit itself is to be seen on site.
package main

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"

	"example.com/hydronics"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/picture"
	"example.com/hydronics/pipe"
)

//go:embed winter.csv
var winter []byte

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("night", flag.ContinueOnError)
	flags.SetOutput(stderr)
	file := flags.String("draw", "", picture.Usage)
	cold := flags.String("cold", "", "constant outdoor `temperature` in °C instead of the winter week")
	foam := flags.Float64("foam", 25, "`thickness` of the foam in mm, 0 for a bare tube")
	start := flags.Float64("start", 30, "`temperature` of the water in °C when the power fails")
	kv := flags.Float64("kv", 1, "Kv of the drain valves in m³/h")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		flags.Usage()
		return 2
	}
	n := installation(*foam*hydronics.Millimetre, *start, pipe.Kv(*kv))
	var o frost.Outcome
	var err error
	if *cold != "" {
		var t float64
		if t, err = strconv.ParseFloat(*cold, 64); err == nil {
			n.Weather = []frost.Air{{Temperature: t}}
			o, err = n.Run()
		}
	} else if n.Weather, err = weather(winter); err == nil {
		_, o, err = n.Worst()
	}
	if err != nil {
		fmt.Fprintln(stderr, "night:", err)
		return 2
	}
	if *file != "" {
		cut := n
		cut.Weather = n.Weather[o.Hour:]
		if err := page(*file, cut, o); err != nil {
			fmt.Fprintln(stderr, "night:", err)
			return 2
		}
	}
	if err := tell(stdout, n, o); err != nil {
		fmt.Fprintln(stderr, "night:", err)
		return 2
	}
	return 0
}

// installation is 8 m of copper tube 28 × 1.5 from the wall to the unit, with a
// drain valve at its low point and air inlets at both high ones.
func installation(foam, start float64, kv pipe.Kv) frost.Night {
	s := frost.Section{
		Bore:    25 * hydronics.Millimetre,
		Layers:  []frost.Layer{{Thickness: 1.5 * hydronics.Millimetre, Conductivity: 380, HeatCapacity: 3.44e6}},
		Surface: frost.InTheOpen(),
	}
	if foam != 0 {
		s.Layers = append(s.Layers, frost.Layer{Thickness: foam, Conductivity: 0.036, HeatCapacity: 90e3})
	}
	return frost.Night{
		Section: s, Medium: frost.Water(), Start: start, Setting: frost.CommonSetting(), Stroke: hydronics.Minute,
		Reach: frost.Reach{
			Route: pipe.Route{
				{Z: 0.9}, {X: 0.4, Z: 0.9, Outdoors: true}, {X: 0.4, Z: 0.3, Outdoors: true},
				{X: 6.4, Z: 0.42, Outdoors: true}, {X: 6.4, Z: 1.2, Outdoors: true},
			},
			Bore: s.Bore, Roughness: 1.5e-6,
			Drains: []frost.Drain{{Point: 2, Kv: kv}}, Vents: []int{1, 4},
		},
	}
}

// weather reads the sample: a comment, a line of names, four numbers a line.
func weather(sample []byte) ([]frost.Air, error) {
	r := csv.NewReader(bytes.NewReader(sample))
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	var hours []frost.Air
	for _, line := range lines[1:] {
		var v [4]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(line[i], 64); err != nil {
				return nil, err
			}
		}
		hours = append(hours, frost.Air{Temperature: v[0], Wind: v[1], Infrared: v[2], PressureAbs: v[3]})
	}
	return hours, nil
}

// tell prints the time line and the verdicts.
func tell(w io.Writer, n frost.Night, o frost.Outcome) error {
	findings, err := n.Findings(o, frost.CommonDoubts())
	if err != nil {
		return err
	}
	if air := n.Weather[o.Hour]; len(n.Weather) > 1 {
		fmt.Fprintf(w, "The power fails %d h into the week, its worst hour: %.1f °C outdoors, wind %.1f m/s.\n",
			o.Hour, air.Temperature, air.Wind)
	} else {
		fmt.Fprintf(w, "The power fails at %.1f °C outdoors, and the cold stays.\n", air.Temperature)
	}
	for _, e := range o.Events {
		fmt.Fprintf(w, "%6.2f h  %s\n", e.Time/hydronics.Hour, e.What)
	}
	switch {
	case o.NoIce:
		fmt.Fprintln(w, "No ice forms.")
	case o.Unopened:
		fmt.Fprintln(w, "Ice forms before the drain valves need have opened.")
	default:
		fmt.Fprintf(w, "Margin: %.0f min between the last water and the first ice, each taken on its unsafe side.\n", o.Margin/hydronics.Minute)
	}
	for _, f := range findings {
		fmt.Fprintf(w, "- %s: %s\n", f.Rule, f.Verdict)
	}
	return nil
}

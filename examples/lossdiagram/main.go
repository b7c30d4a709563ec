// Lossdiagram draws the friction of water in the tubes of one series: gradient
// over flow, one line a tube, with lines of equal velocity across.
//
//	go run ./examples/lossdiagram -draw loss.png
//	go run ./examples/lossdiagram -draw loss.svg -series "EN 1057" -only 12x1,15x1,18x1,22x1,28x1.5
//
// The ending of the name chooses the format: png, svg or pdf.
package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/picture"
	"example.com/hydronics/pipe"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func main() { os.Exit(run(os.Args[1:], os.Stderr)) }

func run(args []string, stderr io.Writer) int {
	flags := flag.NewFlagSet("lossdiagram", flag.ContinueOnError)
	flags.SetOutput(stderr)
	file := flags.String("draw", "", picture.Usage)
	series := flags.String("series", string(pipe.EN10255Medium), "tube `series` of the catalogue")
	only := flags.String("only", "", "draw only these `sizes`, as in their designations, separated by commas")
	temperature := flags.Float64("temperature", 35, "of the water, `°C`")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if *file == "" || flags.NArg() > 0 {
		flags.Usage()
		return 2
	}
	if err := save(*file, pipe.Series(*series), *only, *temperature); err != nil {
		fmt.Fprintln(stderr, "lossdiagram:", err)
		return 1
	}
	return 0
}

func save(file string, series pipe.Series, only string, temperature float64) error {
	tubes, err1 := choose(series, only)
	water, err2 := fluid.Water().At(temperature)
	if err := errors.Join(err1, err2); err != nil {
		return err
	}
	title := fmt.Sprintf("%s: friction of water at %g °C, clean new tube", series, temperature)
	p, err := diagram(title, tubes, water)
	if err != nil {
		return err
	}
	return picture.Save(file, 24*vg.Centimeter, 17*vg.Centimeter, func(c draw.Canvas) error {
		p.Draw(c)
		return nil
	})
}

// choose returns the sizes asked for, or one wall of each outside diameter:
// with all of them the lines would hide each other.
func choose(series pipe.Series, only string) ([]pipe.Tube, error) {
	if only != "" {
		var tubes []pipe.Tube
		for size := range strings.SplitSeq(only, ",") {
			t, err := pipe.Find(string(series) + " " + strings.TrimSpace(size))
			if err != nil {
				return nil, err
			}
			tubes = append(tubes, t)
		}
		slices.SortFunc(tubes, func(a, b pipe.Tube) int { return cmp.Compare(a.Bore(), b.Bore()) })
		return tubes, nil
	}
	tubes, err := series.Tubes()
	var kept []pipe.Tube
	for first := 0; first < len(tubes); {
		next := first
		for next < len(tubes) && tubes[next].Outside == tubes[first].Outside {
			next++
		}
		kept = append(kept, tubes[(first+next-1)/2])
		first = next
	}
	return kept, err
}

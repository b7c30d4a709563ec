package main

import (
	"bufio"
	"context"
	_ "embed"
	"fmt"
	"io"
	"math/rand/v2"
	"strconv"
	"strings"

	"example.com/hydronics"
)

//go:embed job.tmpl.json
var jobTemplate string

// A Generator makes a stock of our own invention, with weather to match. The
// dwelling of a number is the same for every size of stock with that seed.
type Generator struct {
	Dwellings int     // 1,000 to 10,000,000; tests take fewer
	Stations  int     // 1 to 1,000
	Winters   int     // 1 to 100, the last of them beginning in 2024
	Seed      uint64  // of all that is drawn
	Spoiled   float64 // share of lines that are broken on purpose, 0 to 1
}

const (
	linesAFile = 25_000
	lastWinter = 2024
)

func (g *Generator) check() error {
	const fn = "stock -generate"
	for _, err := range []error{
		hydronics.Within(fn, "dwellings", "", float64(g.Dwellings), 1, 10_000_000, hydronics.Guard),
		hydronics.Within(fn, "stations", "", float64(g.Stations), 1, 1000, hydronics.Guard),
		hydronics.Within(fn, "winters", "", float64(g.Winters), 1, 100, hydronics.Guard),
		hydronics.Within(fn, "share of spoiled lines", "", g.Spoiled, 0, 1, hydronics.Guard),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// write writes the stock and the weather into a folder and returns the run that
// reads them.
func (g *Generator) write(ctx context.Context, folder string) (Run, error) {
	run := Run{Jobs: join(folder, "stock-*.tsv"), Weather: join(folder, "weather/*.csv")}
	if err := g.check(); err != nil {
		return run, err
	}
	var models []*weatherModel
	for _, name := range []string{"chicago", "denver"} {
		m, err := readSample(name)
		if err != nil {
			return run, err
		}
		models = append(models, m)
	}
	for i := range g.Stations {
		err := writeFile(ctx, join(folder, "weather/"+stationName(i)+".csv"), func(w *bufio.Writer) error {
			models[i%len(models)].write(w, g.random(-1-i), lastWinter-g.Winters+1, g.Winters)
			return nil
		})
		if err != nil {
			return run, err
		}
	}
	parts := compile(jobTemplate)
	for first := 0; first < g.Dwellings; first += linesAFile {
		err := writeFile(ctx, join(folder, fmt.Sprintf("stock-%05d.tsv", first/linesAFile)), func(w *bufio.Writer) error {
			for i := first; i < min(first+linesAFile, g.Dwellings); i++ {
				g.dwelling(w, i, parts)
			}
			return nil
		})
		if err != nil {
			return run, err
		}
	}
	return run, nil
}

func (g *Generator) random(stream int) *rand.Rand {
	return rand.New(rand.NewPCG(g.Seed, uint64(stream)*0x9E3779B97F4A7C15+1))
}

func stationName(i int) string { return fmt.Sprintf("station-%03d", i+1) }

// The designs of the stock, with their shares in it.
var designs = []struct {
	name        string
	share       float64
	least, most float64 // mm of insulation
	antifreeze  bool
}{
	{"0 bare", 0.05, 0, 0, false},
	{"1 thin, 9 to 13 mm", 0.20, 9, 13, false},
	{"2 middle, 19 to 25 mm", 0.30, 19, 25, false},
	{"3 thick, 32 to 50 mm", 0.20, 32, 50, false},
	{"4 antifreeze", 0.25, 13, 25, true},
}

// dwelling writes the line of dwelling number i.
func (g *Generator) dwelling(w *bufio.Writer, i int, parts []string) {
	r := g.random(i)
	draw, d := r.Float64(), 0
	for d < len(designs)-1 && draw >= designs[d].share {
		draw -= designs[d].share
		d++
	}
	design := &designs[d]
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	returns := between(26, 36)
	far := between(1.2, 12)
	fall := between(0.002, 0.02) * far // over the long stretch
	z1 := 0.5
	z2 := z1 - fall
	if r.Float64() < 0.25 { // over a sill: a pocket on one side
		z1 = 0.62
	}
	tube := []string{"EN 1057 22x1.0", "EN 1057 28x1.5", "EN 1057 35x1.5", "EN ISO 15875 S5 32x2.9"}[r.IntN(4)]
	liquid := `"kind": "water"`
	if design.antifreeze {
		liquid = `"kind": "propylene glycol", "mass_percent": ` + number(between(20, 40), 1)
	}
	values := map[string]string{
		"NAME":         fmt.Sprintf("dwelling %08d", i),
		"ALTITUDE":     number(between(0, 900), 0),
		"DESIGN":       number(between(-12, -4), 1),
		"COLDEST":      number(between(-24, -14), 1),
		"WIND":         number(between(2, 9), 1),
		"LIQUID":       liquid,
		"SUPPLY":       number(returns+between(5, 8), 1),
		"RETURN":       number(returns, 1),
		"TUBE":         tube,
		"THICKNESS":    number(between(design.least, design.most), 0),
		"CONDUCTIVITY": number(between(0.033, 0.045), 4),
		"FAR":          number(far, 2),
		"Z1":           number(z1, 3),
		"Z2":           number(z2, 3),
		"Z3":           number(z2+0.3, 3),
	}
	station := stationName(r.IntN(g.Stations))
	spoil := r.Float64() < g.Spoiled
	if spoil { // a different fault each
		switch r.IntN(4) {
		case 0:
			station = "nowhere"
		case 1:
			values["WIND"] = "600"
		case 2:
			values["TUBE"] = "hose"
		case 3:
			values["LIQUID"] = `"kind": "brandy"`
		}
	}
	w.WriteString(station)
	w.WriteByte('\t')
	w.WriteString(design.name)
	w.WriteByte('\t')
	for k, part := range parts {
		if k%2 == 1 {
			part = values[part]
		}
		io.WriteString(w, part)
	}
	w.WriteByte('\n')
}

// compile makes one line of the template and splits it: text and names in turn.
func compile(template string) []string {
	return strings.Split(strings.ReplaceAll(template, "\n", ""), "%")
}

func number(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }

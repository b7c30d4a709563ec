package main

import (
	"bytes"
	"os"
	"testing"
)

func benchmarkInput(b *testing.B) ([][]byte, []*winter) {
	b.Helper()
	g := Generator{Dwellings: 64, Stations: 1, Winters: 1, Seed: 1}
	dir := b.TempDir()
	if _, err := g.write(b.Context(), dir); err != nil {
		b.Fatal(err)
	}
	data, err := os.ReadFile(dir + "/stock-00000.tsv")
	if err != nil {
		b.Fatal(err)
	}
	run := Run{Options: defaults()}
	winters, _, _, err := run.readWeather(b.Context(), dir+"/weather/station-001.csv")
	if err != nil {
		b.Fatal(err)
	}
	return bytes.Split(bytes.TrimSpace(data), []byte("\n")), winters
}

// BenchmarkParse reads a line of the stock and works out its tubes.
func BenchmarkParse(b *testing.B) {
	lines, _ := benchmarkInput(b)
	o := defaults()
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := parseDwelling(lines[i%len(lines)], &o); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkWinter assesses a dwelling in a winter, remedies included.
func BenchmarkWinter(b *testing.B) {
	lines, winters := benchmarkInput(b)
	o := defaults()
	var all []*dwelling
	for _, line := range lines {
		d, err := parseDwelling(line, &o)
		if err != nil {
			b.Fatal(err)
		}
		all = append(all, d)
	}
	a := newAssessor(&o)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := a.assess(all[i%len(all)], winters[0]); err != nil {
			b.Fatal(err)
		}
	}
}

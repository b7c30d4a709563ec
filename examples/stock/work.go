package main

import (
	"fmt"
	"hash/fnv"
	"io"
	"slices"
	"strings"
)

// Counts say what came in and what went out. Each is counted where it happens,
// and check holds them against each other.
type Counts struct {
	Lines     int64 // of the stock, counted when the files were cut
	Dwellings int64 // assessed
	Broken    int64 // lines of the stock that cannot be used
	Outcomes  int64 // dwellings times winters, when they were assessed
	Rows      int64 // written
	Stations  int64 // weather files
	Winters   int64 // of all stations
	Weather   weatherCounts
}

func (c Counts) plus(d Counts) Counts {
	c.Lines += d.Lines
	c.Dwellings += d.Dwellings
	c.Broken += d.Broken
	c.Outcomes += d.Outcomes
	c.Rows += d.Rows
	c.Stations += d.Stations
	c.Winters += d.Winters
	c.Weather.Lines += d.Weather.Lines
	c.Weather.Headers += d.Weather.Headers
	c.Weather.Used += d.Weather.Used
	c.Weather.LeftOut += d.Weather.LeftOut
	c.Weather.Broken += d.Weather.Broken
	return c
}

// check reports an error unless everything that came in is accounted for.
func (c Counts) check(tallies []*tally) error {
	var dwellings, outcomes int64
	for _, t := range tallies {
		dwellings += t.Dwellings
		outcomes += t.Winters
	}
	w := c.Weather
	if c.Lines != c.Dwellings+c.Broken || c.Dwellings != dwellings || c.Outcomes != outcomes || c.Rows != outcomes ||
		w.Lines != w.Headers+w.Used+w.LeftOut+w.Broken {
		return fmt.Errorf("what came in is not what went out: %+v, in the tallies %d dwellings and %d outcomes", c, dwellings, outcomes)
	}
	return nil
}

// A climate is the winters of each station, by year.
type climate map[string][]*winter

// newClimate orders winters that came in any order.
func newClimate(all []*winter) (climate, error) {
	c := climate{}
	for _, w := range all {
		c[w.Station] = append(c[w.Station], w)
	}
	for station, ws := range c {
		slices.SortFunc(ws, func(a, b *winter) int { return a.Year - b.Year })
		for i := range ws[1:] {
			if ws[i].Year == ws[i+1].Year {
				return nil, fmt.Errorf("station %s has two winters %d: is there one file for each station?", station, ws[i].Year)
			}
		}
	}
	return c, nil
}

// A yield is what comes of a block.
type yield struct {
	tallies  map[string]*tally // by design
	rows     map[int][]byte    // by shard, unsorted
	breaches []breach
	counts   Counts
}

// assessBlock assesses the dwellings of a block.
func (a *assessor) assessBlock(b *block, r io.Reader, c climate) (*yield, error) {
	y := &yield{tallies: map[string]*tally{}, rows: map[int][]byte{}}
	var all []outcome
	err := b.eachLine(r, func(number int64, line []byte) {
		d, err := parseDwelling(line, a.options)
		if err == nil && len(c[d.Station]) == 0 {
			err = fmt.Errorf("no weather for station %q", d.Station)
		}
		all = all[:0]
		for i := 0; err == nil && i < len(c[d.Station]); i++ {
			var out outcome
			out, err = a.assess(d, c[d.Station][i])
			all = append(all, out)
		}
		if err != nil {
			y.counts.Broken++
			y.breaches = append(y.breaches, breach{b.File, int(number), err.Error()})
			return
		}
		y.counts.Dwellings++
		y.counts.Outcomes += int64(len(all))
		t := y.tallies[d.Design]
		if t == nil {
			t = newTally(d.Design, a.options)
			y.tallies[d.Design] = t
		}
		t.add(d, all, a.options)
		shard := shardOf(d.Name, a.options.Shards)
		for i := range all {
			y.rows[shard] = appendRow(y.rows[shard], d, &all[i])
		}
	})
	return y, err
}

// shardOf says in which file the outcomes of a dwelling stand.
func shardOf(name string, shards int) int {
	h := fnv.New32a()
	_, _ = io.WriteString(h, name) // never fails
	return int(h.Sum32() % uint32(shards))
}

// row returns the breach as a line of CSV.
func (b *breach) row() string {
	line := appendText(nil, b.File)
	line = fmt.Appendf(line, ",%d,", b.Line)
	return string(append(appendText(line, strings.ReplaceAll(b.Reason, "\n", "; ")), '\n'))
}

package main

import (
	"cmp"
	"math"
	"slices"
)

// A tally counts the outcomes of one design. It holds whole numbers and extremes
// only, so that tallies can be put together in any order, by any number of
// workers, and come out the same to the last digit.
type tally struct {
	Design    string
	Dwellings int64
	Winters   int64            // dwellings times winters
	FirstIce  []int64          // winters by the first full hour at which there is ice, 1 to the longest cut; [0]: none
	Cuts      []cutTally       // for each length of cut
	Remedies  [remedies]counts // with each remedy
	Years     map[int]yearTally
	Worst     []severe // the dwellings with the quickest first ice, the worst winter of each
}

// A cutTally counts one length of cut.
type cutTally struct {
	Ice, Burst                   int64          // winters in which some hour of failure leads there
	DwellingsIced, DwellingBurst int64          // dwellings that meet such a winter
	Margins                      [margins]int64 // winters by margin: see marginBin
}

// counts are what a remedy leaves.
type counts struct {
	Winters   int64   // in dwellings that the remedy suits
	Ice       []int64 // of these with ice in spite of it, for each length of cut
	Dwellings int64
	Iced      []int64
}

// A yearTally counts all dwellings in one winter.
type yearTally struct {
	Winters int64
	Ice     []int64 // for each length of cut
}

// severe is the worst winter of a dwelling.
type severe struct {
	FirstIce                  float64
	Dwelling, Station, Design string
	Year                      int
	Hour                      string  // at which the power fails
	Margin, Ice               float64 // of the longest cut; Ice -1: not known
	Remedies                  [remedies]string
}

// margins are counted in classes of 1 K from leastMargin up, the first and the
// last open to their sides.
const (
	leastMargin = -30
	margins     = 60
)

func marginBin(m float64) int { return int(min(max(math.Floor(m)-leastMargin, 0), margins-1)) }

func newTally(design string, o *Options) *tally {
	return sizedTally(design, len(o.Cuts), o.Cuts[len(o.Cuts)-1])
}

// emptyLike returns a tally of the same design and size as t without any count.
func emptyLike(t *tally) *tally { return sizedTally(t.Design, len(t.Cuts), len(t.FirstIce)-1) }

func sizedTally(design string, n, longest int) *tally {
	t := &tally{Design: design, FirstIce: make([]int64, longest+1), Cuts: make([]cutTally, n), Years: map[int]yearTally{}}
	for i := range t.Remedies {
		t.Remedies[i] = counts{Ice: make([]int64, n), Iced: make([]int64, n)}
	}
	return t
}

// add counts a dwelling with all its winters.
func (t *tally) add(d *dwelling, all []outcome, o *Options) {
	t.Dwellings++
	t.Winters += int64(len(all))
	iced, burst := make([]bool, len(o.Cuts)), make([]bool, len(o.Cuts))
	var after [remedies][]bool
	for r := range after {
		after[r] = make([]bool, len(o.Cuts))
		if all[0].Possible[r] {
			t.Remedies[r].Dwellings++
			t.Remedies[r].Winters += int64(len(all))
		}
	}
	worst := 0
	for k := range all {
		out := &all[k]
		hour := 0
		if !math.IsInf(out.FirstIce, 1) {
			hour = int(max(1, math.Ceil(out.FirstIce)))
		}
		t.FirstIce[hour]++
		year := t.Years[out.Winter.Year]
		if year.Ice == nil {
			year.Ice = make([]int64, len(o.Cuts))
		}
		year.Winters++
		for i, length := range o.Cuts {
			c := &t.Cuts[i]
			c.Margins[marginBin(out.Cuts[i].Margin)]++
			if out.FirstIce <= float64(length) {
				c.Ice++
				iced[i] = true
				year.Ice[i]++
			}
			if out.Cuts[i].Ice >= o.BurstFraction {
				c.Burst++
				burst[i] = true
			}
			for r := range after {
				if out.Possible[r] && out.After[r] <= float64(length) {
					t.Remedies[r].Ice[i]++
					after[r][i] = true
				}
			}
		}
		t.Years[out.Winter.Year] = year
		if out.FirstIce < all[worst].FirstIce {
			worst = k
		}
	}
	for i := range o.Cuts {
		t.Cuts[i].DwellingsIced += one(iced[i])
		t.Cuts[i].DwellingBurst += one(burst[i])
		for r := range after {
			t.Remedies[r].Iced[i] += one(after[r][i])
		}
	}
	if w := &all[worst]; !math.IsInf(w.FirstIce, 1) {
		last := w.Cuts[len(w.Cuts)-1]
		s := severe{FirstIce: w.FirstIce, Dwelling: d.Name, Station: d.Station, Design: d.Design,
			Year: w.Winter.Year, Hour: w.Winter.hourName(w.FirstIceStart), Margin: last.Margin, Ice: last.Ice}
		if math.IsNaN(s.Ice) {
			s.Ice = -1
		}
		for r := range s.Remedies {
			s.Remedies[r] = afterRemedy(all, r)
		}
		t.Worst = keepWorst(append(t.Worst, s))
	}
}

// afterRemedy says in a word how the dwelling fares over all winters with a remedy.
func afterRemedy(all []outcome, remedy int) string {
	first := math.Inf(1)
	for i := range all {
		if !all[i].Possible[remedy] {
			return "does not suit"
		}
		first = min(first, all[i].After[remedy])
	}
	if math.IsInf(first, 1) {
		return "no ice"
	}
	return hours(first)
}

func one(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// keepWorst orders by the quickest ice and keeps the top of the list. Names and
// years decide between equals, so that the order never depends on who came first.
func keepWorst(all []severe) []severe {
	slices.SortFunc(all, func(a, b severe) int {
		return cmp.Or(cmp.Compare(a.FirstIce, b.FirstIce), cmp.Compare(a.Dwelling, b.Dwelling), cmp.Compare(a.Year, b.Year),
			cmp.Compare(a.Station, b.Station), cmp.Compare(a.Design, b.Design), cmp.Compare(a.Hour, b.Hour),
			cmp.Compare(a.Margin, b.Margin), cmp.Compare(a.Ice, b.Ice))
	})
	return all[:min(len(all), worstListed)]
}

// merge adds u to t. The design of t stays.
func (t *tally) merge(u *tally) {
	t.Dwellings += u.Dwellings
	t.Winters += u.Winters
	addTo(t.FirstIce, u.FirstIce)
	for i := range u.Cuts {
		a, b := &t.Cuts[i], &u.Cuts[i]
		a.Ice += b.Ice
		a.Burst += b.Burst
		a.DwellingsIced += b.DwellingsIced
		a.DwellingBurst += b.DwellingBurst
		addTo(a.Margins[:], b.Margins[:])
	}
	for r := range u.Remedies {
		a, b := &t.Remedies[r], &u.Remedies[r]
		a.Winters += b.Winters
		a.Dwellings += b.Dwellings
		addTo(a.Ice, b.Ice)
		addTo(a.Iced, b.Iced)
	}
	for year, b := range u.Years {
		a := t.Years[year]
		if a.Ice == nil {
			a.Ice = make([]int64, len(b.Ice))
		}
		a.Winters += b.Winters
		addTo(a.Ice, b.Ice)
		t.Years[year] = a
	}
	t.Worst = keepWorst(append(t.Worst, u.Worst...))
}

func addTo(sum, more []int64) {
	for i, n := range more {
		sum[i] += n
	}
}

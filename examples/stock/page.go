package main

import (
	"bufio"
	_ "embed"
	"fmt"
	"html/template"
	"maps"
	"slices"
	"strconv"
)

//go:embed page.html
var pageText string

// page is what the template shows.
type page struct {
	Run      *Run
	Counts   Counts
	Longest  int
	Burst    int // %
	Added    int // mm
	Mass     int // %
	Cuts     []int
	Designs  []designRow
	Remedies []remedyRow
	Worst    []severeRow
	Figures  struct{ Frequency, Margin, Remedy, Winter figure }
	Broken   []breach // the first few
	More     int      // and so many others
	Files    struct{ Broken, Summary, Margins, Worst string }
}

type designRow struct {
	Design             string
	Dwellings, Winters int64
	Cuts               []cutRow
}

type cutRow struct {
	Length                int
	Ice, Dwellings        string // shares in %
	Burst, BurstDwellings string
}

type remedyRow struct {
	Design, Remedy string
	Dwellings      int64
	Before, After  []string // shares of dwellings with ice in some winter, for each length of cut
}

type severeRow struct {
	severe
	First, IceText string
}

type yearRow struct {
	Year int
	yearTally
}

func writePage(w *bufio.Writer, run *Run, tallies []*tally, worst []severe, counts Counts, breaches []breach) error {
	o := &run.Options
	p := page{Run: run, Counts: counts, Cuts: o.Cuts, Longest: o.Cuts[len(o.Cuts)-1],
		Burst: int(100*o.BurstFraction + 0.5), Added: int(1000*o.Insulation + 0.5), Mass: int(100*o.Antifreeze + 0.5)}
	p.Files.Broken, p.Files.Summary, p.Files.Margins, p.Files.Worst = brokenFile, summaryFile, marginsFile, worstFile
	years := map[int]yearTally{}
	for _, t := range tallies {
		d := designRow{Design: t.Design, Dwellings: t.Dwellings, Winters: t.Winters}
		suits := [remedies]remedyRow{}
		for r := range suits {
			suits[r] = remedyRow{Design: t.Design, Remedy: remedyNames[r], Dwellings: t.Remedies[r].Dwellings}
		}
		for i, length := range o.Cuts {
			c := &t.Cuts[i]
			d.Cuts = append(d.Cuts, cutRow{length, share(c.Ice, t.Winters), share(c.DwellingsIced, t.Dwellings),
				share(c.Burst, t.Winters), share(c.DwellingBurst, t.Dwellings)})
			for r := range suits {
				suits[r].Before = append(suits[r].Before, share(c.DwellingsIced, t.Dwellings))
				suits[r].After = append(suits[r].After, share(t.Remedies[r].Iced[i], t.Remedies[r].Dwellings))
			}
		}
		p.Designs = append(p.Designs, d)
		for _, r := range suits {
			if r.Dwellings > 0 {
				p.Remedies = append(p.Remedies, r)
			}
		}
		for year, b := range t.Years {
			a := years[year]
			if a.Ice == nil {
				a.Ice = make([]int64, len(b.Ice))
			}
			a.Winters += b.Winters
			addTo(a.Ice, b.Ice)
			years[year] = a
		}
	}
	for _, s := range worst {
		row := severeRow{s, hours(s.FirstIce), "slush"}
		if s.Ice >= 0 {
			row.IceText = strconv.Itoa(int(100*s.Ice)) + " %"
		}
		p.Worst = append(p.Worst, row)
	}
	const shown = 8
	p.Broken = breaches[:min(len(breaches), shown)]
	p.More = len(breaches) - len(p.Broken)
	if len(tallies) > 0 {
		var order []yearRow
		for _, year := range slices.Sorted(maps.Keys(years)) {
			order = append(order, yearRow{year, years[year]})
		}
		for _, f := range []struct {
			to   *figure
			draw func() (figure, error)
		}{
			{&p.Figures.Frequency, func() (figure, error) { return frequencyFigure(tallies, o) }},
			{&p.Figures.Margin, func() (figure, error) { return marginFigure(tallies, o) }},
			{&p.Figures.Remedy, func() (figure, error) { return remedyFigure(tallies, o) }},
			{&p.Figures.Winter, func() (figure, error) { return winterFigure(order, o) }},
		} {
			var err error
			if *f.to, err = f.draw(); err != nil {
				return err
			}
		}
	}
	t, err := template.New("page").Parse(pageText)
	if err != nil {
		return err
	}
	return t.Execute(w, p)
}

// share writes a share in %, with a digit that tells few from none.
func share(part, whole int64) string {
	v := percent(part, whole)
	switch {
	case whole == 0:
		return "–"
	case part == 0:
		return "0"
	case part == whole:
		return "100"
	case v < 0.1:
		return "< 0.1"
	case v > 99.9:
		return "> 99.9"
	}
	return fmt.Sprintf("%.1f", v)
}

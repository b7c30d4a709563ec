package main

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// report holds what came in against what went out and writes the tables and the
// page. The same tallies give the same files, byte for byte.
func (run *Run) report(ctx context.Context, tallies []*tally, counts Counts, breaches []breach) error {
	slices.SortFunc(tallies, func(a, b *tally) int { return strings.Compare(a.Design, b.Design) })
	if err := counts.check(tallies); err != nil {
		return err
	}
	var worst []severe
	for _, t := range tallies {
		worst = keepWorst(append(worst, t.Worst...))
	}
	if err := writeBroken(ctx, run.Out, breaches); err != nil {
		return err
	}
	for _, table := range []struct {
		file string
		rows func(*bufio.Writer)
	}{
		{summaryFile, func(w *bufio.Writer) { summaryRows(w, tallies, &run.Options) }},
		{marginsFile, func(w *bufio.Writer) { marginRows(w, tallies, &run.Options) }},
		{worstFile, func(w *bufio.Writer) { worstRows(w, worst, &run.Options) }},
	} {
		err := writeFile(ctx, join(run.Out, table.file), func(w *bufio.Writer) error {
			table.rows(w) // errors stay with w and come out of Flush
			return nil
		})
		if err != nil {
			return err
		}
	}
	return writeFile(ctx, join(run.Out, pageFile), func(w *bufio.Writer) error {
		return writePage(w, run, tallies, worst, counts, breaches)
	})
}

// summaryRows writes the counts of each design and length of cut.
func summaryRows(w *bufio.Writer, tallies []*tally, o *Options) {
	fmt.Fprint(w, "design,cut_h,dwellings,dwelling_winters,ice_winters,ice_dwellings,burst_winters,burst_dwellings")
	for _, name := range remedyNames {
		name = strings.ReplaceAll(name, " ", "_")
		fmt.Fprintf(w, ",%s_suits_dwellings,%[1]s_ice_winters,%[1]s_ice_dwellings", name)
	}
	fmt.Fprintln(w)
	for _, t := range tallies {
		for i, length := range o.Cuts {
			c := &t.Cuts[i]
			fmt.Fprintf(w, "%s,%d,%d,%d,%d,%d,%d,%d", appendText(nil, t.Design), length, t.Dwellings, t.Winters,
				c.Ice, c.DwellingsIced, c.Burst, c.DwellingBurst)
			for r := range t.Remedies {
				fmt.Fprintf(w, ",%d,%d,%d", t.Remedies[r].Dwellings, t.Remedies[r].Ice[i], t.Remedies[r].Iced[i])
			}
			fmt.Fprintln(w)
		}
	}
}

// marginRows writes the distribution of margins.
func marginRows(w *bufio.Writer, tallies []*tally, o *Options) {
	fmt.Fprintln(w, "design,cut_h,margin_from_k,margin_to_k,dwelling_winters")
	for _, t := range tallies {
		for i, length := range o.Cuts {
			for k, n := range t.Cuts[i].Margins {
				if n == 0 {
					continue
				}
				from, to := strconv.Itoa(leastMargin+k), strconv.Itoa(leastMargin+k+1)
				switch k {
				case 0:
					from = ""
				case margins - 1:
					to = ""
				}
				fmt.Fprintf(w, "%s,%d,%s,%s,%d\n", appendText(nil, t.Design), length, from, to, n)
			}
		}
	}
}

// worstRows writes the list of the worst.
func worstRows(w *bufio.Writer, worst []severe, o *Options) {
	last := o.Cuts[len(o.Cuts)-1]
	fmt.Fprintf(w, "dwelling,station,design,winter,power_fails,first_ice_h,margin_%dh_k,ice_%[1]dh_percent", last)
	for _, name := range remedyNames {
		fmt.Fprintf(w, ",with_%s", strings.ReplaceAll(name, " ", "_"))
	}
	fmt.Fprintln(w)
	for i := range worst {
		s := &worst[i]
		ice := ""
		if s.Ice >= 0 {
			ice = strconv.FormatFloat(100*s.Ice, 'f', 1, 64)
		}
		fmt.Fprintf(w, "%s,%s,%s,%d,%s,%.3f,%.2f,%s", appendText(nil, s.Dwelling), appendText(nil, s.Station), appendText(nil, s.Design),
			s.Year, s.Hour, s.FirstIce, s.Margin, ice)
		for _, r := range s.Remedies {
			fmt.Fprintf(w, ",%s", r)
		}
		fmt.Fprintln(w)
	}
}

// hours writes hours and minutes, downwards: less time is the safe side.
func hours(h float64) string {
	m := int(math.Floor(h * 60))
	return fmt.Sprintf("%d:%02d h", m/60, m%60)
}

package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.com/hydronics"
)

// The remedies, each judged by itself.
const (
	insulated = iota // more insulation on every outdoor tube
	filled           // antifreeze
	drained          // drain valves
	remedies
)

var remedyNames = [remedies]string{"more insulation", "antifreeze", "drain valves"}

// An outcome is one dwelling in one winter, its worst tube for each figure.
type outcome struct {
	Winter        *winter
	FirstIce      float64 // h from the failure of power, at the worst hour; +Inf: not within the longest cut
	FirstIceStart int     // that hour
	Cuts          []cutResult
	Possible      [remedies]bool    // whether the remedy suits the dwelling
	After         [remedies]float64 // h to the first ice with the remedy; +Inf as above. Only looked at where there is ice without
}

// A cutResult is an outcome for one length of cut.
type cutResult struct {
	Margin   float64 // K, lowest temperature of the liquid less its freezing point
	Start    int     // hour at which that cut begins
	Ice      float64 // largest fraction of ice at its end; NaN for antifreeze
	IceStart int     // hour at which that cut begins
}

// An assessor works out outcomes. Each goroutine has its own.
type assessor struct {
	options *Options
	search  searcher
	answer  answer
}

func newAssessor(o *Options) *assessor {
	return &assessor{options: o, search: searcher{lengths: o.Cuts}}
}

// assess finds how the dwelling fares in the winter.
func (a *assessor) assess(d *dwelling, w *winter) (outcome, error) {
	out := outcome{Winter: w, FirstIce: math.Inf(1), Cuts: make([]cutResult, len(a.options.Cuts))}
	for i := range out.Cuts {
		out.Cuts[i].Margin = math.Inf(1)
	}
	for i := range d.Tubes {
		q := &d.Tubes[i]
		a.search.search(q, w, &a.answer)
		if a.answer.FirstIce < out.FirstIce {
			out.FirstIce, out.FirstIceStart = a.answer.FirstIce, a.answer.FirstIceStart
		}
		for k := range a.answer.Cuts {
			c, r := &a.answer.Cuts[k], &out.Cuts[k]
			if m := c.Lowest - q.Freezing; m < r.Margin {
				r.Margin, r.Start = m, c.LowestStart
			}
			if !q.Water {
				r.Ice = math.NaN()
				continue
			}
			ice, err := iceAfter(&q.Lump, c.Frost)
			if err != nil {
				return outcome{}, err
			}
			if ice > r.Ice {
				r.Ice, r.IceStart = ice, c.FrostStart
			}
		}
	}
	for i, tubes := range [...][]standing{insulated: d.Insulated, filled: d.Antifreeze} {
		out.After[i] = math.Inf(1)
		out.Possible[i] = len(tubes) > 0
		if math.IsInf(out.FirstIce, 1) {
			continue // a remedy never makes it worse
		}
		for k := range tubes {
			a.search.firstIce(&tubes[k], w, &a.answer)
			out.After[i] = min(out.After[i], a.answer.FirstIce)
		}
	}
	out.Possible[drained] = len(d.Drains) > 0
	out.After[drained] = math.Inf(1)
	if !math.IsInf(out.FirstIce, 1) {
		for i := range d.Drains {
			dry, err := d.Drains[i].dry(w, a.options)
			if err != nil {
				return outcome{}, err
			}
			if !dry {
				out.After[drained] = out.FirstIce
			}
		}
	}
	return out, nil
}

// dry reports whether the tube has run empty before its water freezes, in the
// coldest hour of the winter: from the opening of the valve to 0 °C takes no
// less in any other.
func (d *drain) dry(w *winter, o *Options) (bool, error) {
	t, err := d.Lump.CoolingTime(o.DrainOpens, 0, w.Coldest)
	if err != nil {
		return false, err
	}
	return t.Never || d.Empties <= t.Seconds, nil
}

// rowHeader returns the columns of outcomes, one row a dwelling and winter.
func rowHeader(o *Options) []byte {
	h := []byte("dwelling,station,design,winter,first_ice_h,first_ice_start")
	for _, c := range o.Cuts {
		h = fmt.Appendf(h, ",margin_%dh_k,margin_%[1]dh_start,ice_%[1]dh_percent,ice_%[1]dh_start", c)
	}
	return append(h, ",insulated_first_ice_h,antifreeze_first_ice_h,drained_first_ice_h"...)
}

// appendRow appends the outcome as a line of CSV. Empty cells: no ice within the
// longest cut, no ring of ice in an antifreeze, a remedy that does not suit.
func appendRow(b []byte, d *dwelling, out *outcome) []byte {
	number := func(v float64, digits int) {
		b = append(b, ',')
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			b = strconv.AppendFloat(b, v, 'f', digits, 64)
		}
	}
	start := func(hour int, known bool) {
		b = append(b, ',')
		if known {
			b = append(b, out.Winter.hourName(hour)...)
		}
	}
	b = appendText(b, d.Name)
	b = append(b, ',')
	b = appendText(b, d.Station)
	b = append(b, ',')
	b = appendText(b, d.Design)
	b = append(b, ',')
	b = strconv.AppendInt(b, int64(out.Winter.Year), 10)
	iced := !math.IsInf(out.FirstIce, 1)
	number(out.FirstIce, 3)
	start(out.FirstIceStart, iced)
	for i := range out.Cuts {
		c := &out.Cuts[i]
		number(c.Margin, 2)
		start(c.Start, true)
		number(c.Ice/hydronics.Percent, 1)
		start(c.IceStart, c.Ice > 0)
	}
	for i := range out.After {
		if out.Possible[i] && iced {
			number(out.After[i], 3)
		} else {
			b = append(b, ',')
		}
	}
	return append(b, '\n')
}

// appendText appends a cell of CSV, quoted where it has to be.
func appendText(b []byte, s string) []byte {
	if !slices.ContainsFunc([]byte(s), func(c byte) bool { return c == ',' || c == '"' || c < ' ' }) {
		return append(b, s...)
	}
	b = append(b, '"')
	for i := range len(s) {
		switch c := s[i]; {
		case c == '"':
			b = append(b, '"', '"')
		case c < ' ': // keeps one row on one line
			b = append(b, ' ')
		default:
			b = append(b, c)
		}
	}
	return append(b, '"')
}

package main

import (
	"math"
	"time"

	"example.com/hydronics"
	"example.com/hydronics/frost"
)

// A standing is water that stands in an outdoor tube once the power has failed.
type standing struct {
	Lump     frost.Lump
	Start    float64 // °C at the failure of power, above Freezing
	Freezing float64 // °C at which the first ice forms
	Water    bool    // plain water, whose ice grows as a ring; an antifreeze turns to slush instead
}

// A winter is one winter at one station, hour by hour without a gap.
type winter struct {
	Station string
	Year    int       // in which it begins
	Begins  time.Time // its first hour, local standard time
	Air     []float64 // °C, each for the hour that begins then
	Warmest float64   // °C, the largest of Air
	Coldest float64   // °C, the smallest of Air
	Frost   []float64 // K·h, sum of what Air lay below 0 °C before the hour; one more than Air
}

// A cutOutcome is the worst that power cuts of one length do to standing water,
// over every hour of a winter at which the power may fail.
type cutOutcome struct {
	Lowest      float64 // °C that the water meets; below Freezing it means supercooled
	LowestStart int     // hour of the winter at which that cut begins; the first of several
	Frost       float64 // K·h of frost after the first ice: see iceAfter
	FrostStart  int     // hour at which that cut begins; the first of several
}

// An answer says how one tube fares in one winter.
type answer struct {
	FirstIce      float64 // h from the failure of power to Freezing in the cut that is quickest; +Inf: no cut up to the longest length gets there
	FirstIceStart int     // hour of the winter at which that cut begins; the first of several
	Cuts          []cutOutcome
}

// A searcher finds the worst hours. It keeps its memory from one search to the
// next; each goroutine has its own.
type searcher struct {
	lengths  []int     // h, rising: the cuts asked for
	response []float64 // °C, Y of search
	powers   []float64 // aᵏ of search
}

// search finds, for each length of power cut, the hour at which its beginning
// harms the water most, and the shortest time to the first ice. Every hour of
// the winter is looked at; nothing is sampled. Cuts lie within the winter.
//
// The tube is a lump of one time constant τ in air of one temperature an hour:
//
//	τ dT/dt = T_air − T,  a = exp(−1 h/τ)
//
// which is linear until ice forms. With the response Y of the lump to the whole
// winter, Y[n+1] = a Y[n] + (1 − a) T_air[n], water that has stood for k hours
// from hour s on has the temperature
//
//	T(s, k) = Y[s+k] + aᵏ (start − Y[s])
//
// so that a winter costs one pass for Y and one for each length, however long
// the cut. Within an hour T moves in one direction: extremes lie at full hours.
//
// Of two lumps in the same air the colder stays the colder. While no air is
// warmer than start, of two cuts the one that began earlier is the colder, and
// only cuts of full length count, besides those that begin with the winter; with
// warmer hours in the winter every shorter length is looked at as well.
func (x *searcher) search(q *standing, w *winter, out *answer) {
	x.firstIce(q, w, out)
	for i, length := range x.lengths {
		c := &out.Cuts[i]
		c.Lowest, c.LowestStart = math.Inf(1), 0
		for k := 1; k < length; k++ {
			last := 0
			if w.Warmest > q.Start {
				last = len(w.Air) - k
			}
			x.lower(c, q.Start, k, last)
		}
		x.lower(c, q.Start, length, len(w.Air)-length)
	}
}

// respond fills response and powers.
func (x *searcher) respond(air []float64, a float64) {
	if cap(x.response) <= len(air) {
		x.response = make([]float64, len(air)+1)
	}
	x.response = x.response[:len(air)+1]
	y := air[0] // any value serves; this one keeps the differences small
	x.response[0] = y
	for n, t := range air {
		y = float64(a*y) + float64((1-a)*t)
		x.response[n+1] = y
	}
	x.powers = x.powers[:0]
	for k := range x.lengths[len(x.lengths)-1] + 1 {
		x.powers = append(x.powers, math.Pow(a, float64(k)))
	}
}

// lower takes the coldest T(s, k) with s from 0 to last into c.
func (x *searcher) lower(c *cutOutcome, start float64, k, last int) {
	begin := x.response[:last+1]
	end := x.response[k:][:len(begin)]
	power, lowest, at := x.powers[k], c.Lowest, -1
	for s, y := range begin {
		if t := end[s] + float64(power*(start-y)); t < lowest {
			lowest, at = t, s
		}
	}
	if at >= 0 {
		c.Lowest, c.LowestStart = lowest, at
	}
}

// firstIce does the part of search that deals with ice: the first hour e(s) at
// which the water of a cut from hour s on has met its freezing point, and the
// frost from then on. A cut that begins an hour later meets it no earlier,
// unless that hour was warmer than start: e never turns back, and one pass
// serves all.
func (x *searcher) firstIce(q *standing, w *winter, out *answer) {
	tau := q.Lump.Capacity * q.Lump.Resistance / hydronics.Hour // h
	x.respond(w.Air, math.Exp(-1/tau))
	out.FirstIce, out.FirstIceStart = math.Inf(1), 0
	if len(out.Cuts) != len(x.lengths) {
		out.Cuts = make([]cutOutcome, len(x.lengths))
	}
	for i := range out.Cuts {
		out.Cuts[i].Frost, out.Cuts[i].FrostStart = 0, 0
	}
	hours, longest := len(w.Air), x.lengths[len(x.lengths)-1]
	e := 1
	for s := range hours {
		if s > 0 && w.Air[s-1] > q.Start {
			e = s + 1
		}
		e = max(e, s+1)
		most := min(s+longest, hours)
		apart := q.Start - x.response[s]
		for e <= most && x.response[e]+float64(x.powers[e-s]*apart) > q.Freezing {
			e++
		}
		if e > most {
			continue
		}
		if float64(e-1-s) < out.FirstIce {
			if t := float64(e-1-s) + x.within(q, w, tau, s, e); t < out.FirstIce {
				out.FirstIce, out.FirstIceStart = t, s
			}
		}
		if q.Water {
			x.sumFrost(q, w, tau, s, e, out)
		}
	}
}

// within returns the part of the hour before e after which the water of a cut
// from hour s on meets its freezing point.
func (x *searcher) within(q *standing, w *winter, tau float64, s, e int) float64 {
	before := x.response[e-1] + float64(x.powers[e-1-s]*(q.Start-x.response[s]))
	air := w.Air[e-1]
	return min(1, tau*math.Log((before-air)/(q.Freezing-air)))
}

// sumFrost takes the frost of the cuts from hour s on into out, if it is more
// than any before.
func (x *searcher) sumFrost(q *standing, w *winter, tau float64, s, e int, out *answer) {
	before := -1.0 // K·h until the first ice, not yet known
	for i, length := range x.lengths {
		end := s + length
		if end < e || end >= len(w.Frost) || w.Frost[end]-w.Frost[e-1] <= out.Cuts[i].Frost {
			continue
		}
		if before < 0 {
			before = w.Frost[e-1] + float64(x.within(q, w, tau, s, e)*(q.Freezing-w.Air[e-1]))
		}
		if f := w.Frost[end] - before; f > out.Cuts[i].Frost {
			out.Cuts[i].Frost, out.Cuts[i].FrostStart = f, s
		}
	}
}

// iceAfter returns the fraction of ice that a sum of frost in K·h leaves in the
// lump, from the moment of the first ice. Quasi-steady growth depends on that
// sum alone: frost.Lump.FreezingTime at 1 K below 0 °C, turned round. A thaw in
// between is not counted, which errs on the safe side.
func iceAfter(l *frost.Lump, frosts float64) (float64, error) {
	if frosts <= 0 {
		return 0, nil
	}
	low, high := 0.0, 1.0
	all, err := l.FreezingTime(1, -1)
	if err != nil || frosts >= all.Seconds/hydronics.Hour {
		return 1, err
	}
	for range 40 { // to 1e-12
		middle := (low + high) / 2
		t, err := l.FreezingTime(middle, -1)
		if err != nil {
			return math.NaN(), err
		}
		if t.Seconds/hydronics.Hour <= frosts {
			low = middle
		} else {
			high = middle
		}
	}
	return low, nil
}

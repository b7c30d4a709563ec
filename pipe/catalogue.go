package pipe

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"example.com/hydronics"
)

// AllSeries returns the series of the catalogue in its order.
func AllSeries() []Series {
	all := make([]Series, len(catalogue().lines))
	for i, l := range catalogue().lines {
		all[i] = l.series
	}
	return all
}

// Catalogue returns every tube of the catalogue, series by series, each
// ordered by outside diameter and then by wall.
func Catalogue() []Tube { return append([]Tube(nil), catalogue().all...) }

// Tubes returns the tubes of the series, ordered by outside diameter and then
// by wall. A series that is not in the catalogue gives [hydronics.ErrNoSolution].
func (s Series) Tubes() ([]Tube, error) {
	tubes, ok := catalogue().series[s]
	if !ok {
		return nil, fmt.Errorf("pipe.Series.Tubes: %w: no tube series %q", hydronics.ErrNoSolution, string(s))
	}
	return append([]Tube(nil), tubes...), nil
}

// Find returns the tube of that designation, such as "EN 1057 22x1.0" or
// "EN 10255 M DN 20". Case, spaces and a trailing ".0" do not matter, a comma
// counts as a point. An unknown designation gives [hydronics.ErrNoSolution]
// with the nearest ones.
// Source: the standard that the tube names; its field Source says how the
// dimensions are known, and [MaterialOf] where the figures of the wall come
// from.
func Find(designation string) (Tube, error) {
	x := catalogue()
	i, ok := x.key[designation]
	if !ok {
		i, ok = x.key[loose(designation)]
	}
	if !ok {
		hint := ""
		if near := Search(designation); len(near) > 0 {
			hint = ", did you mean " + near[0].Designation
		}
		return Tube{}, fmt.Errorf("pipe.Find: %w: no tube %q in the catalogue%s", hydronics.ErrNoSolution, designation, hint)
	}
	return x.all[i], nil
}

// Search returns the tubes whose designation, standard, nominal size and
// material together contain every word of the text, in the catalogue's order:
// "copper 22" or "EN 10255 DN 20".
func Search(text string) []Tube {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 {
		return nil
	}
	var found []Tube
next:
	for _, t := range catalogue().all {
		in := strings.ToLower(t.Designation + " " + t.Standard + " " + t.Material)
		for _, w := range words {
			if !strings.Contains(in, w) {
				continue next
			}
		}
		found = append(found, t)
	}
	return found
}

// loose strips a designation of what does not matter.
func loose(s string) string {
	s = strings.NewReplacer(" ", "", "×", "x", ",", ".").Replace(strings.ToLower(s))
	return strings.TrimSuffix(s, ".0")
}

type index struct {
	lines  []line
	all    []Tube
	series map[Series][]Tube
	key    map[string]int // by designation and by its loose form
}

// catalogue is built once and not changed afterwards.
var catalogue = sync.OnceValue(func() *index {
	x := &index{lines: catalogueLines(), series: map[Series][]Tube{}, key: map[string]int{}}
	for i := range x.lines {
		l := &x.lines[i]
		first := len(x.all)
		for _, s := range l.sizes {
			t := l.tube(s)
			x.key[t.Designation] = len(x.all)
			x.key[loose(t.Designation)] = len(x.all)
			x.all = append(x.all, t)
		}
		x.series[l.series] = x.all[first:len(x.all):len(x.all)]
	}
	return x
})

// tube writes a size out in SI, with the figures of its material.
func (l *line) tube(s size) Tube {
	m, err := MaterialOf(l.material)
	if err != nil {
		panic(err) // the catalogue names a material that is not in its own list
	}
	t := Tube{
		Standard: l.standard, Nominal: s.nominal, Source: l.source, MinimumWall: l.minimumWall,
		Outside: metres(s.outside, l.unit), Wall: metres(s.wall, l.unit),
	}
	if l.prefix == "" {
		t.Designation = string(l.series) + " " + s.nominal + "x" + strconv.FormatFloat(s.wall, 'f', 1, 64)
	} else {
		t.Designation = string(l.series) + " " + l.prefix + s.nominal
	}
	if s.memory {
		t.Source.Provenance = hydronics.FromMemory
	}
	return t.of(m)
}

// metres converts to the float64 nearest to the decimal value, so that 22 mm
// is 0.022 and not 0.022000000000000002.
func metres(v, unit float64) float64 { return math.Round(v*unit*1e9) / 1e9 }

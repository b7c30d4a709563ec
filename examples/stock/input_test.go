package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"example.com/hydronics/internal/job"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const fiveHours = weatherHeader + `
2020-11-01T00:00,1.5
2020-11-01T01:00,0.5
2020-11-01T02:00,-2
2020-11-01T03:00,-4
2020-11-01T04:00,-1
`

func TestReadWeather(t *testing.T) {
	for name, c := range map[string]struct {
		text    string
		winters int
		counts  weatherCounts
		reasons []string // of line numbers and words
	}{
		"whole":           {fiveHours, 1, weatherCounts{Lines: 6, Headers: 1, Used: 5}, nil},
		"carriage return": {strings.ReplaceAll(fiveHours, "\n", "\r\n"), 1, weatherCounts{Lines: 6, Headers: 1, Used: 5}, nil},
		"gap": {strings.Replace(fiveHours, "2020-11-01T02:00,-2\n", "", 1), 0, weatherCounts{Lines: 5, Headers: 1, LeftOut: 4},
			[]string{"4: winter 2020 is left out: 2020-11-01T03:00 does not follow 2020-11-01T01:00"}},
		"no number": {strings.Replace(fiveHours, "-2\n", "cold\n", 1), 0, weatherCounts{Lines: 6, Headers: 1, LeftOut: 4, Broken: 1},
			[]string{`4: temperature "cold", want -90 to 60 °C`, "4: winter 2020 is left out: it holds a broken line"}},
		"not a number": {strings.Replace(fiveHours, "-2\n", "NaN\n", 1), 0, weatherCounts{Lines: 6, Headers: 1, LeftOut: 4, Broken: 1},
			[]string{`4: temperature "NaN", want -90 to 60 °C`, "4: winter 2020 is left out: it holds a broken line"}},
		"short": {strings.Join(strings.SplitAfter(fiveHours, "\n")[:4], ""), 0, weatherCounts{Lines: 4, Headers: 1, LeftOut: 3},
			[]string{"4: winter 2020 is left out: 3 hours, want at least 4"}},
		"two winters": {fiveHours + strings.ReplaceAll(strings.TrimPrefix(fiveHours, weatherHeader+"\n"), "2020", "2021"), 2,
			weatherCounts{Lines: 11, Headers: 1, Used: 10}, nil},
		"new year": {weatherHeader + "\n2020-12-31T22:00,1\n2020-12-31T23:00,1\n2021-01-01T00:00,1\n2021-01-01T01:00,1\n", 1,
			weatherCounts{Lines: 5, Headers: 1, Used: 4}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			winters, breaches, counts, err := readWeather("a/north.csv", strings.NewReader(c.text), 7, 4)
			require.NoError(t, err)
			assert.Len(t, winters, c.winters)
			assert.Equal(t, c.counts, counts)
			var reasons []string
			for _, b := range breaches {
				assert.Equal(t, "a/north.csv", b.File)
				reasons = append(reasons, fmt.Sprintf("%d: %s", b.Line, b.Reason))
			}
			assert.Equal(t, c.reasons, reasons)
			for _, w := range winters {
				assert.Equal(t, "north", w.Station)
			}
		})
	}
	winters, _, _, err := readWeather("north.csv", strings.NewReader(fiveHours), 7, 4)
	require.NoError(t, err)
	w := winters[0]
	assert.Equal(t, 1.5, w.Warmest)
	assert.Equal(t, -4.0, w.Coldest)
	assert.Equal(t, []float64{0, 0, 0, 2, 6, 7}, w.Frost)
	assert.Equal(t, "2020-11-01T03:00", w.hourName(3))
	data, err := encodeWinter(*w)
	require.NoError(t, err)
	back, err := decodeWinter(data)
	require.NoError(t, err)
	assert.Equal(t, *w, back)
}

// However the file is cut, every line comes out once, with its number.
func TestBlocks(t *testing.T) {
	long := strings.Repeat("x", 600_000) // longer than the buffers
	for _, text := range []string{"", "a", "a\n", "a\nb", "\n\n", "a\r\nb\r\n", "one\ntwo\n" + long + "\nfour", long} {
		want := strings.Split(strings.TrimSuffix(strings.ReplaceAll(text, "\r", ""), "\n"), "\n")
		if text == "" {
			want = nil
		}
		for _, size := range []int64{1, 3, 7, 1 << 20} {
			var got []string
			err := cutBlocks("f", strings.NewReader(text), size, func(b block) {
				r := strings.NewReader(text[b.Offset:])
				require.NoError(t, b.eachLine(r, func(number int64, line []byte) {
					got = append(got, string(line))
					require.EqualValues(t, len(got), number)
				}))
			})
			require.NoError(t, err)
			assert.Equal(t, want, got)
		}
	}
}

func TestParseDwelling(t *testing.T) {
	o := defaults()
	lines := stockLines(t, Generator{Dwellings: 200, Stations: 3, Winters: 1, Seed: 5})
	for _, line := range lines {
		d, err := parseDwelling(line, &o)
		require.NoError(t, err, "%s", line)
		assert.NotEmpty(t, d.Tubes)
		assert.Len(t, d.Insulated, len(d.Tubes))
		if d.Tubes[0].Water {
			assert.Len(t, d.Antifreeze, len(d.Tubes))
			assert.NotEmpty(t, d.Drains)
		} else {
			assert.Empty(t, d.Antifreeze)
			assert.Empty(t, d.Drains)
			assert.Less(t, d.Tubes[0].Freezing, -3.0)
		}
		for i := range d.Tubes {
			assert.Greater(t, d.Insulated[i].Lump.Resistance, d.Tubes[i].Lump.Resistance)
		}
		// The third field is a job file as examples/dwelling reads it.
		j, err := job.Decode(bytes.SplitN(line, []byte("\t"), 3)[2])
		require.NoError(t, err)
		_, err = job.Assess(j)
		require.NoError(t, err)
	}
	good := string(lines[0])
	for _, c := range []struct{ line, reason string }{
		{"", "1 fields, want 3"},
		{"a\tb", "2 fields, want 3"},
		{"\tb\t{}", "a station of 0 characters"},
		{strings.Repeat("s", 41) + "\tb\t{}", "a station of 41 characters"},
		{"a\tb\t{}", "title holds nothing"},
		{"a\tb\tnonsense", "no valid JSON"},
		{strings.ReplaceAll(good, `"outdoors": true`, `"outdoors": false`), "no stretch outdoors"},
		{good[:len(good)/2], "no valid JSON"},
	} {
		_, err := parseDwelling([]byte(c.line), &o)
		assert.ErrorContains(t, err, c.reason)
	}
}

func FuzzParseDwelling(f *testing.F) {
	o := defaults()
	for _, line := range stockLines(f, Generator{Dwellings: 4, Stations: 1, Winters: 1, Seed: 5, Spoiled: 0.5}) {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line []byte) {
		d, err := parseDwelling(line, &o)
		if err != nil {
			return
		}
		a := newAssessor(&o)
		w := winterOf([]float64{3, -5, -20, -30, -10, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, -3, -8, 1})
		if _, err := a.assess(d, w); err != nil {
			t.Fatal(err)
		}
	})
}

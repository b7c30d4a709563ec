package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"path"
	"strconv"
	"strings"
	"time"
)

// hourLayout is the first column of a weather file: the beginning of the hour in
// local standard time, all the year round.
const hourLayout = "2006-01-02T15:04"

const weatherHeader = "time,temperature_c"

// A breach is a line that cannot be used, and why.
type breach struct {
	File   string
	Line   int
	Reason string
}

// weatherCounts says what became of the lines of weather files.
type weatherCounts struct {
	Lines, Headers, Used, LeftOut, Broken int64 // Lines is the sum of the others
}

// readWeather reads the weather file of one station, which has the file's name
// without its ending. Its winters come out whole: one that lacks an hour, holds
// a broken line or is shorter than need hours is left out, with a breach that
// says so.
func readWeather(file string, r io.Reader, from, need int) (winters []*winter, breaches []breach, n weatherCounts, err error) {
	station := strings.TrimSuffix(path.Base(file), path.Ext(file))
	if !strings.HasSuffix(file, ".csv") || len(station) > 40 {
		return nil, nil, n, fmt.Errorf("%s: want a file named after its station, of 1 to 40 characters, and .csv", file)
	}
	in := bufio.NewScanner(r)
	in.Buffer(nil, 1<<20)
	var now *winter
	var refused string // why the winter now is left out
	var last time.Time
	lines := map[*winter]int{}
	line := 0
	refuse := func(reason string) {
		if now != nil && refused == "" {
			refused = reason
			breaches = append(breaches, breach{file, line, fmt.Sprintf("winter %d is left out: %s", now.Year, reason)})
		}
	}
	finish := func() {
		if now == nil {
			return
		}
		if len(now.Air) < need {
			refuse(fmt.Sprintf("%d hours, want at least %d", len(now.Air), need))
		}
		if refused == "" {
			now.complete()
			winters = append(winters, now)
			n.Used += int64(lines[now])
		} else {
			n.LeftOut += int64(lines[now])
		}
		now, refused = nil, ""
	}
	for in.Scan() {
		line++
		n.Lines++
		text := strings.TrimSuffix(in.Text(), "\r")
		if line == 1 && text == weatherHeader {
			n.Headers++
			continue
		}
		hour, t, err := parseHour(text)
		if err != nil {
			n.Broken++
			breaches = append(breaches, breach{file, line, err.Error()})
			refuse("it holds a broken line")
			continue
		}
		year := hour.Year()
		if int(hour.Month()) < from {
			year--
		}
		if now == nil || now.Year != year {
			finish()
			now = &winter{Station: station, Year: year}
		} else if !hour.Equal(last.Add(time.Hour)) {
			refuse(fmt.Sprintf("%s does not follow %s", hour.Format(hourLayout), last.Format(hourLayout)))
		}
		lines[now]++
		now.Air = append(now.Air, t)
		if len(now.Air) == 1 {
			now.Begins = hour
		}
		last = hour
	}
	if err := in.Err(); err != nil {
		if !errors.Is(err, bufio.ErrTooLong) {
			return nil, nil, n, fmt.Errorf("%s: %w", file, err)
		}
		return nil, nil, n, fmt.Errorf("%s: line %d is longer than a megabyte: no weather file", file, line+1)
	}
	finish()
	return winters, breaches, n, nil
}

func parseHour(text string) (time.Time, float64, error) {
	first, second, found := strings.Cut(text, ",")
	if !found || strings.Contains(second, ",") {
		return time.Time{}, 0, fmt.Errorf("%d columns, want 2: %s", strings.Count(text, ",")+1, weatherHeader)
	}
	hour, err := time.Parse(hourLayout, first)
	if err != nil || hour.Minute() != 0 {
		return time.Time{}, 0, fmt.Errorf("time %q, want a full hour such as 2014-01-26T03:00", excerpt(first))
	}
	t, err := strconv.ParseFloat(second, 64)
	if err != nil || !(t >= -90 && t <= 60) {
		return time.Time{}, 0, fmt.Errorf("temperature %q, want -90 to 60 °C", excerpt(second))
	}
	return hour, t, nil
}

// complete works out what the searches need besides the hours.
func (w *winter) complete() {
	w.Warmest, w.Coldest = math.Inf(-1), math.Inf(1)
	w.Frost = make([]float64, len(w.Air)+1)
	sum := 0.0
	for i, t := range w.Air {
		w.Warmest, w.Coldest = max(w.Warmest, t), min(w.Coldest, t)
		sum += max(0, -t)
		w.Frost[i+1] = sum
	}
}

// hourName returns the beginning of an hour of the winter.
func (w *winter) hourName(hour int) string {
	return w.Begins.Add(time.Duration(hour) * time.Hour).Format(hourLayout)
}

func excerpt(s string) string {
	const most = 40
	if len(s) > most {
		s = s[:most] + "..."
	}
	return strings.ToValidUTF8(s, "?")
}

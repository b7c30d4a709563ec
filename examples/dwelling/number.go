package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/hydronics"
)

// A scale turns SI into the unit in which the trade reads a quantity.
type scale struct {
	factor float64
	unit   string
	digits int
}

var scales = map[string]scale{
	"Pa": {hydronics.Kilopascal, "kPa", 1}, "Pa gauge": {hydronics.Bar, "bar", 2}, "m³": {hydronics.Litre, "l", 1},
	"Pa absolute": {hydronics.Kilopascal, "kPa absolute", 1},
	"m³/s":        {hydronics.LitrePerMinute, "l/min", 1}, "m/s": {1, "m/s", 2}, "W": {hydronics.Kilowatt, "kW", 2},
	"°C": {1, "°C", 1}, "K": {1, "K", 1}, "m": {hydronics.Millimetre, "mm", 0}, "": {1, "", 3},
	"J": {hydronics.KilowattHour, "kWh", 2}, "kg/s": {1.0 / 3600, "kg/h", 1}, "s": {hydronics.Minute, "min", 0},
}

// scaleOf returns the scale for the numbers of a finding.
func scaleOf(f *hydronics.Finding) scale {
	unit := f.Unit
	switch {
	case unit == "Pa" && strings.Contains(f.Quantity, "gauge"):
		unit = "Pa gauge"
	case unit == "Pa" && strings.Contains(f.Quantity, "absolute"):
		unit = "Pa absolute"
	case unit == "" && whole(f.Value) == plain(f.Value) && whole(f.Limit) == plain(f.Limit):
		return scale{1, "", 0} // a number of things, a category
	case unit == "":
		return scale{0.01, "%", 1} // a share, a fall
	}
	sc, ok := scales[unit]
	if !ok {
		return scale{1, unit, 3}
	}
	big := math.Max(math.Abs(f.Value), math.Abs(f.Limit))
	if math.IsInf(big, 0) {
		big = math.Min(math.Abs(f.Value), math.Abs(f.Limit))
	}
	switch {
	case unit == "s" && big >= 2*hydronics.Hour:
		return scale{hydronics.Hour, "h", 1}
	case unit == "m" && big >= 2:
		return scale{1, "m", 1}
	case unit == "m³" && big >= 100*hydronics.Litre:
		sc.digits = 0
	case unit == "W" && big >= 10*hydronics.Kilowatt:
		sc.digits = 1
	}
	return sc
}

func (s scale) bare(v float64) string {
	switch {
	case math.IsInf(v, 1):
		return "without end"
	case math.IsNaN(v):
		return "none"
	}
	return digits(v/s.factor, s.digits)
}

func (s scale) show(v float64) string {
	t := s.bare(v)
	if s.unit == "" || math.IsInf(v, 0) || math.IsNaN(v) {
		return t
	}
	return t + " " + s.unit
}

// plain writes at most four significant digits and no more than there are.
func plain(v float64) string {
	t := strconv.FormatFloat(v, 'g', 4, 64)
	f, err := strconv.ParseFloat(t, 64)
	if err != nil {
		return t
	}
	if f == 0 {
		f = 0 // no minus zero
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}

func digits(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "none"
	}
	t := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-") // no minus zero
	}
	return t
}

// trimmed writes at most n digits after the point and no zeros at the end.
func trimmed(v float64, n int) string {
	t := digits(v, n)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	return t
}

func degrees(t float64) string { return trimmed(t, 1) + " °C" }

func whole(v float64) string  { return digits(v, 0) }
func fixed(v float64) string  { return digits(v, 1) }
func fixed2(v float64) string { return digits(v, 2) }

func bar(pa float64) string     { return fixed2(pa/hydronics.Bar) + " bar" }
func kilowatt(w float64) string { return fixed(w/hydronics.Kilowatt) + " kW" }

// span writes hours and minutes in words.
func span(s float64) string {
	if math.IsNaN(s) || math.IsInf(s, 0) {
		return duration(s)
	}
	m := int(math.Round(s / hydronics.Minute))
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

// duration writes hours and minutes as a clock does.
func duration(s float64) string {
	switch {
	case math.IsNaN(s):
		return "-"
	case math.IsInf(s, 1):
		return "never"
	}
	m := int(s / hydronics.Minute) // downwards: less time is the safe side
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}

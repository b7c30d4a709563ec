package main

import (
	"bufio"
	"embed"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"time"
)

//go:embed sample_*.csv
var sampleFiles embed.FS

// A weatherModel makes winters of our own invention that swing like a real cold
// week. From a public sample of one week it takes
//
//   - the mean course of the day around the week's mean,
//   - what is left of each hour after that, as a first-order autoregression:
//     r[h+1] = φ r[h] + σ √(1 − φ²) z with φ and σ of the sample, z normal.
//
// The rest is invented: the middle of a winter is milder than the coldest week
// of a typical year by 10 K, autumn and spring are milder by up to 21 K more
// along a cosine with its trough on 20 January, a winter as a whole is colder or
// milder by 2.5 K (normal), cold and mild spells of some days follow another
// autoregression (time constant 80 h, 4.5 K), and a station lies up to 4 K to
// either side of its sample. No forecast and no climate: it serves to try the
// program out.
type weatherModel struct {
	mean     float64     // °C, of the sample
	day      [24]float64 // K around it
	phi      float64     // of the next hour on this one
	residual float64     // K, standard deviation σ
}

const (
	milder       = 10.0 // K, middle of a winter above the coldest week
	seasonSwing  = 16.0 // K, half of what midsummer would lie above midwinter
	winterSpread = 2.5  // K
	spellSpread  = 4.5  // K
	spellHours   = 80.0 // h
	stationReach = 4.0  // K
	firstMonth   = time.October
	winterHours  = 212 * 24 // 1 October to 30 April
)

// readSample fits the model to a file of the sample.
func readSample(name string) (*weatherModel, error) {
	data, err := sampleFiles.ReadFile("sample_" + name + ".csv")
	if err != nil {
		return nil, err
	}
	var t []float64
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") || line == "dry_bulb_c" {
			continue
		}
		v, err := strconv.ParseFloat(line, 64)
		if err != nil {
			return nil, fmt.Errorf("sample %s: %w", name, err)
		}
		t = append(t, v)
	}
	m := new(weatherModel)
	for _, v := range t {
		m.mean += v / float64(len(t))
	}
	for h, v := range t {
		m.day[h%24] += (v - m.mean) * 24 / float64(len(t))
	}
	var square, next float64
	rest := func(h int) float64 { return t[h] - m.mean - m.day[h%24] }
	for h := range t {
		square += rest(h) * rest(h)
		if h > 0 {
			next += rest(h) * rest(h-1)
		}
	}
	m.phi = next / square
	m.residual = math.Sqrt(square / float64(len(t)))
	return m, nil
}

// write writes the winters of a station that begin in the years from first on.
func (m *weatherModel) write(w *bufio.Writer, random *rand.Rand, first, winters int) {
	fmt.Fprintln(w, weatherHeader)
	station := stationReach * (2*random.Float64() - 1)
	fast, slow := m.residual*random.NormFloat64(), spellSpread*random.NormFloat64()
	slowPhi := math.Exp(-1 / spellHours)
	var line []byte
	for year := first; year < first+winters; year++ {
		offset := station + winterSpread*random.NormFloat64()
		hour := time.Date(year, firstMonth, 1, 0, 0, 0, 0, time.UTC)
		trough := time.Date(year+1, time.January, 20, 0, 0, 0, 0, time.UTC)
		for range winterHours {
			season := 1 - math.Cos(2*math.Pi*hour.Sub(trough).Hours()/(365.25*24)) // 0 in the trough
			t := m.mean + milder + seasonSwing*season + offset + m.day[hour.Hour()] + fast + slow
			line = hour.AppendFormat(line[:0], hourLayout)
			line = append(line, ',')
			line = strconv.AppendFloat(line, min(max(t, -60), 45), 'f', 1, 64)
			line = append(line, '\n')
			w.Write(line) // the error stays with w
			fast = m.phi*fast + m.residual*math.Sqrt(1-m.phi*m.phi)*random.NormFloat64()
			slow = slowPhi*slow + spellSpread*math.Sqrt(1-slowPhi*slowPhi)*random.NormFloat64()
			hour = hour.Add(time.Hour)
		}
	}
}

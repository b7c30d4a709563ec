package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Vessel is an expansion vessel as it hangs on the wall. A tank with a free
// water surface is one with a pre-charge of 0.
type Vessel struct {
	Nominal   float64         // m³, gas volume without any water, 0.0005 to 20 (guard)
	Precharge hydronics.Gauge // Pa gauge, measured with the water side relieved, -0.2 to 16 bar
	Charged   float64         // °C, gas when the pre-charge was measured
	InService float64         // °C, gas in service; only the ratio to Charged counts, both left out: no change
}

// precharge returns the absolute gas pressure in service of the vessel without water.
func (v *Vessel) precharge(patm float64) (float64, error) {
	const fn = "expansion.Vessel"
	if err := errors.Join(
		hydronics.Within(fn, "nominal volume", "m³", v.Nominal, 0.0005, 20, hydronics.Guard),
		hydronics.Within(fn, "pre-charge", "Pa", float64(v.Precharge), lowestGauge, highestGauge, hydronics.Guard),
		gasTemperature(fn, "temperature when charged", v.Charged),
		gasTemperature(fn, "temperature in service", v.InService)); err != nil {
		return math.NaN(), err
	}
	return v.Precharge.Abs(patm) * gasRatio(v.Charged, v.InService), nil
}

// A Series is a range of nominal volumes in m³, ascending.
type Series struct {
	Nominal []float64
	Source  hydronics.Source
}

// UsualSeries returns the nominal volumes from 2 to 1000 l that are usual in the
// trade. No standard fixes them, and heating and potable ranges differ: choose
// from what can be bought.
func UsualSeries() Series {
	litres := [...]float64{2, 5, 8, 12, 18, 25, 35, 50, 80, 100, 140, 200, 250, 300, 400, 500, 600, 800, 1000}
	s := Series{make([]float64, len(litres)), hydronics.Source{Text: "nominal volumes usual in the trade", Provenance: hydronics.CommonPractice}}
	for i, l := range litres {
		s.Nominal[i] = l * hydronics.Litre
	}
	return s
}

// AtLeast returns the smallest nominal volume of the series that is not below
// least, in m³, 0 to 20 (guard); if there is none, NaN and an error that matches
// [hydronics.ErrNoSolution]. Source: definition.
func (s Series) AtLeast(least float64) (float64, error) {
	const fn = "expansion.Series.AtLeast"
	if err := hydronics.Within(fn, "least nominal volume", "m³", least, 0, 20, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	for i, v := range s.Nominal {
		if !(v > 0) || i > 0 && !(v > s.Nominal[i-1]) {
			return math.NaN(), fmt.Errorf("%s: volumes are not ascending at %g m³: %w", fn, v, hydronics.ErrRange)
		}
		if v >= least {
			return v, nil
		}
	}
	return math.NaN(), fmt.Errorf("%s: no vessel of %.4g m³ or more among %d: %w", fn, least, len(s.Nominal), hydronics.ErrNoSolution)
}

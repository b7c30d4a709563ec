package dhw

import (
	"math"
	"slices"

	"example.com/hydronics"
)

// A PeakCurve is the peak flow of DIN 1988-300 as a function of the sum of the
// design flows, for one type of building:
//
//	V_peak = a (sum)^b - c,  both in l/s
//
// Only the constants of residential buildings were seen: [ResidentialPeak]. For
// other buildings take them from the standard, and name it as the Source.
type PeakCurve struct {
	Building string
	A, B, C  float64 // the standard's constants, for l/s: A 0 to 5, B 0 to 1, C -1 to 5 (guards)
	Source   hydronics.Source
}

// ResidentialPeak returns the curve of residential buildings.
func ResidentialPeak() PeakCurve {
	return PeakCurve{"residential building", 1.48, 0.19, 0.94, hydronics.Source{
		Text: "DIN 1988-300:2012-05, peak flow, constants of residential buildings", Provenance: hydronics.SecondHand}}
}

// Flow returns the peak flow in m³/s for the sum of the design flows in m³/s, from
// 0 to 0.5 m³/s. Below 0.2 l/s, where the curve does not hold, it is the sum
// itself, and nowhere more than that. The two do not meet: the residential curve
// starts at 0.15 l/s for 0.2 l/s, less than the sum just below.
// Outside the limits, and for constants that make the flow negative, it returns
// NaN and a [hydronics.RangeError].
//
// Source: DIN 1988-300:2012-05, as attributed; valid from 0.2 to 500 l/s.
func (c PeakCurve) Flow(sum float64) (float64, error) {
	const fn = "dhw.PeakCurve.Flow"
	err := together(hydronics.Within(fn, "sum of design flows", "m³/s", sum, 0, 0.5, "DIN 1988-300: at most 500 l/s"),
		hydronics.Within(fn, "constant a", "", c.A, 1e-6, 5, hydronics.Guard),
		hydronics.Within(fn, "constant b", "", c.B, 0, 1, hydronics.Guard),
		hydronics.Within(fn, "constant c", "", c.C, -1, 5, hydronics.Guard))
	if err != nil {
		return math.NaN(), err
	}
	if sum < 0.2*hydronics.LitrePerSecond {
		return sum, nil
	}
	flow := (c.A*math.Pow(sum/hydronics.LitrePerSecond, c.B) - c.C) * hydronics.LitrePerSecond
	if err := hydronics.Within(fn, "peak flow", "m³/s", flow, 0, 0.5, "constants of the curve"); err != nil {
		return math.NaN(), err
	}
	return math.Min(flow, sum), nil
}

// A PeakFlow is the peak flow of a pipe and how it came about.
type PeakFlow struct {
	Sum   float64 // m³/s, all design flows
	Curve float64 // m³/s, by the curve
	Units float64 // m³/s, by the use units
	Flow  float64 // m³/s, the smaller of the two
}

// Peak returns the peak flow of a pipe that serves use units, each given by the
// design flows in m³/s of its draw-off points that count (0 to 0.01, guard). A use
// unit is a room or a dwelling in which no more than two draw-off points run at a
// time: its own peak is that of the two largest, and the units' peaks are added as
// long as their sum stays below the curve. A second washbasin, a shower beside a
// bath, a bidet and a urinal do not count, and are to be left out.
//
// Source: DIN 1988-300:2012-05, rule for use units, as attributed.
func (c PeakCurve) Peak(units [][]float64) (PeakFlow, error) {
	const fn = "dhw.PeakCurve.Peak"
	if err := count(fn, "use units", len(units), 1, 10000); err != nil {
		return PeakFlow{}, err
	}
	var p PeakFlow
	for _, unit := range units {
		var first, second float64
		for _, v := range unit {
			if err := hydronics.Within(fn, "design flow", "m³/s", v, 0, 0.01, hydronics.Guard); err != nil {
				return PeakFlow{}, err
			}
			p.Sum += v
			switch {
			case v > first:
				first, second = v, first
			case v > second:
				second = v
			}
		}
		p.Units += first + second
	}
	var err error
	if p.Curve, err = c.Flow(p.Sum); err != nil {
		return PeakFlow{}, err
	}
	p.Flow = math.Min(p.Curve, p.Units)
	return p, nil
}

// A DrawPoint is the design flow of a draw-off point and the flow pressure that it
// needs.
type DrawPoint struct {
	Name     string
	DN       int     // nominal size, mm
	Flow     float64 // m³/s, per side (cold or hot) of a mixing tap
	Pressure float64 // Pa above the atmosphere while flowing, at least
}

var drawPoints = [...]DrawPoint{
	{"valve without aerator", 15, 0.30e-3, 50e3},
	{"valve without aerator", 20, 0.50e-3, 50e3},
	{"valve without aerator", 25, 1.00e-3, 50e3},
	{"valve with aerator", 10, 0.15e-3, 100e3},
	{"valve with aerator", 15, 0.15e-3, 100e3},
	{"shower", 15, 0.15e-3, 100e3},
	{"bath", 15, 0.15e-3, 100e3},
	{"kitchen sink", 15, 0.07e-3, 100e3},
	{"washbasin", 15, 0.07e-3, 100e3},
	{"bidet", 15, 0.07e-3, 100e3},
	{"washing machine", 15, 0.15e-3, 50e3},
	{"dishwasher", 15, 0.07e-3, 50e3},
	{"WC cistern", 15, 0.13e-3, 50e3},
	{"urinal flush valve", 15, 0.30e-3, 100e3},
	{"WC flush valve", 20, 1.00e-3, 120e3},
}

// DrawPoints returns the reference values of DIN 1988-300:2012-05, Table 2, and
// their source. What the maker of a tap states comes first.
func DrawPoints() ([]DrawPoint, hydronics.Source) {
	return slices.Clone(drawPoints[:]), hydronics.Source{
		Text: "DIN 1988-300:2012-05, Table 2", Provenance: hydronics.SecondHand}
}

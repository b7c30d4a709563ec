package fluid

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// IceFraction returns the share of ice by mass, 0 to 1, in a solution that has
// come to equilibrium at the temperature t in °C below its freezing point: the
// slush that can no longer be pumped but, up to a point, does not burst pipes. It is
// 0 at the freezing point and above. Where the liquid between the crystals would be
// stronger than the limit of the solute it returns NaN and a [hydronics.RangeError],
// and for water below 0 °C 1.
//
// Source: lever rule on the freezing curve of Melinder 2010. Ice is pure water, so
// that the solute stays in the liquid.
func (l Liquid) IceFraction(t float64) (float64, error) {
	const fn = "fluid.Liquid.IceFraction"
	if l.isZero() {
		return math.NaN(), l.outside(fn, t)
	}
	if !(t >= -hydronics.ZeroCelsius && t <= l.max) {
		return math.NaN(), hydronics.Within(fn, "temperature of "+l.String(), "°C", t, -hydronics.ZeroCelsius, l.max, melinder2010)
	}
	if t >= l.freezing {
		return 0, nil
	}
	if l.IsWater() {
		return 1, nil
	}
	if lowest := solutions[l.solute].freezing(solutions[l.solute].maxMass); t < lowest {
		return math.NaN(), hydronics.Within(fn, "temperature of "+l.String(), "°C", t, lowest, l.max, melinder2010+", freezing curve")
	}
	rest, err := l.solute.ByFreezingPoint(math.Min(t, 0))
	if err != nil {
		return math.NaN(), err
	}
	return math.Max(0, 1-l.mass/rest.mass), nil
}

// burst is the chart of freeze and burst protection: temperature in °C, then
// volume percent of ethylene and propylene glycol. Its row of -40 °F is illegible in
// the reproduction and left out.
var burst = [...]struct{ t, ethylene, propylene float64 }{
	{-6.6, 12, 12}, {-12.2, 18, 20}, {-17.8, 23, 24}, {-23.3, 27, 28}, {-28.9, 30, 31},
	{-34.4, 31, 33}, {-45.5, 31, 35}, {-51, 31, 35},
}

// ByBurstProtection returns the glycol solution that protects pipes from bursting
// down to t in °C, 0 to -51, though it turns to slush on the way and the pump must
// not start in it. It serves systems that stand idle and unattended in winter; where
// a pump has to run or restart in the cold, an outdoor heat pump among them, use
// [Solute.ByFreezingPoint].
//
// Between the rows of the chart the next colder one counts. The percent of the chart
// are read as volume percent, which is common practice; it does not say so. Other
// solutes, and temperatures outside, get the zero Liquid and an error matching
// [hydronics.ErrRange].
// Source: attributed to Math for HVACR, Goodheart-Willcox, 2018, exercise 5-4,
// chart of hydronic system mixtures.
func (s Solute) ByBurstProtection(t float64) (Liquid, error) {
	const fn = "fluid.ByBurstProtection"
	if s != PropyleneGlycol && s != EthyleneGlycol {
		return Liquid{}, fmt.Errorf("%s: no figures for %v, only for propylene and ethylene glycol: %w", fn, s, hydronics.ErrRange)
	}
	coldest := burst[len(burst)-1].t
	if !(t >= coldest && t <= 0) {
		return Liquid{}, hydronics.Within(fn, "temperature", "°C", t, coldest, 0, "chart, Math for HVACR 2018")
	}
	i := 0
	for burst[i].t > t {
		i++
	}
	percent := burst[i].propylene
	if s == EthyleneGlycol {
		percent = burst[i].ethylene
	}
	return s.ByVolume(percent / 100)
}

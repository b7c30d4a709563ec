package expansion

import (
	"example.com/hydronics"
)

// Judge judges the vessel v in s, filled to the given gauge pressure at
// s.FillTemperature, and returns one finding per requirement, always the same ones
// in the same order: nominal volume; pre-charge high enough; pre-charge below the
// filling pressure; filling pressure; water reserve at the least volume; pressure at
// the hottest; relief valve shut; the vessel's rating and its isolation, to be seen
// on site.
//
// A requirement that is not met is a finding and not an error; the error reports
// inputs that cannot be used, or a relief setting too low for any vessel. The
// uncertainty of a finding is that of the content, s.ContentUncertainty: the change
// when the content is that much larger.
func (s System) Judge(v Vessel, filling hydronics.Gauge) ([]hydronics.Finding, error) {
	j, err := s.judged(v, filling)
	if err != nil {
		return nil, err
	}
	more := j
	if s.ContentUncertainty > 0 {
		larger := s
		larger.Content *= 1 + s.ContentUncertainty
		if more, err = larger.judged(v, filling); err != nil {
			return nil, err
		}
	}
	z, y, c := &j.sizing, &j.cycle, &j.course
	p0 := hydronics.GaugeOf(c.p0, c.patm)
	reserve, reserveRule := s.reserve(&v, z)
	low, lowRule := s.fillingLow(p0)
	const vessel = "expansion vessel"
	// The law is in any textbook; what a verdict rests on is the margin beside it.
	boyle := hydronics.Source{Text: "Boyle's law on absolute pressures", Provenance: hydronics.SecondHand}
	size := worst(hydronics.Source{Text: "Boyle's law on absolute pressures with the margins of " + s.Rules.Name, Provenance: z.FinalRule.Provenance}, reserveRule)
	return []hydronics.Finding{
		hydronics.Finding{
			Rule: "the vessel takes expansion and reserve between its pre-charge and the final pressure", Subject: vessel,
			Danger:   "the relief valve spills on every heating-up and the system loses its water",
			Quantity: "nominal volume", Unit: "m³", Bound: hydronics.AtLeast,
			Value: v.Nominal, Limit: j.nominal * (1 - 1e-9), Uncertainty: more.nominal - j.nominal, Source: size,
		}.Judge(),
		hydronics.Finding{
			Rule: "the pre-charge holds the weight of the liquid above, the vapour pressure and the margin", Subject: vessel,
			Danger:   "vacuum and air at the highest point, boiling and noise",
			Quantity: "pre-charge at its temperature in service", Unit: "Pa gauge", Bound: hydronics.AtLeast,
			Value: float64(p0), Limit: float64(z.Precharge) - 1e-3, Source: z.PrechargeRule,
		}.Judge(),
		hydronics.Finding{
			Rule: "the pre-charge lies below the filling pressure, so that water stands in the vessel", Subject: vessel,
			Danger:   "no reserve: the pressure collapses on the first cooling",
			Quantity: "pre-charge at its temperature in service", Unit: "Pa gauge", Bound: hydronics.AtMost,
			Value: float64(p0), Limit: float64(filling), Source: boyle,
		}.Judge(),
		hydronics.Finding{
			Rule: "the filling pressure is at least what the rules ask for", Subject: vessel,
			Danger:   "air at the highest point",
			Quantity: "filling pressure", Unit: "Pa gauge", Bound: hydronics.AtLeast,
			Value: float64(filling), Limit: float64(low) - 1e-3, Source: lowRule,
		}.Judge(),
		hydronics.Finding{
			Rule: "the water reserve is still in the vessel when the liquid takes its least room", Subject: vessel,
			Danger:   "leaks and air release empty the vessel and the pressure collapses",
			Quantity: "water in the vessel", Unit: "m³", Bound: hydronics.AtLeast,
			Value: c.leastWater(z.Contraction, y.Coldest.Water), Limit: reserve * (1 - 1e-9),
			Uncertainty: more.sizing.Contraction - z.Contraction, Source: reserveRule,
		}.Judge(),
		hydronics.Finding{
			Rule: "the pressure at the hottest keeps its distance from the relief valve's setting", Subject: vessel,
			Danger:   "the relief valve seeps, scales up and no longer shuts or no longer opens",
			Quantity: "pressure at the vessel at the hottest", Unit: "Pa gauge", Bound: hydronics.AtMost,
			Value: float64(j.hot), Limit: float64(z.Final) + 1e-3, Uncertainty: float64(more.hot - j.hot), Source: z.FinalRule,
		}.Judge(),
		hydronics.Statement("the relief valve does not lift in normal operation", "relief valve", !y.Lifts, boyle,
			"scalding water or steam at the outlet, loss of water, corrosion by the water topped up"),
		hydronics.OnSite("the vessel is rated for the relief valve's setting and for its place (liquid, temperature), and can be shut off only by a fitting secured against closing",
			vessel, hydronics.Source{Text: "EN 12828 and common practice", Provenance: hydronics.CommonPractice},
			"a shut-off vessel is no vessel: the pressure rises by bars per kelvin"),
	}, nil
}

// judged is what the findings rest on.
type judged struct {
	sizing  Sizing
	course  Course
	cycle   Cycle
	nominal float64         // m³, needed with the pre-charge that the vessel has, if that is higher than asked
	hot     hydronics.Gauge // at the hottest, as if there were no relief valve
}

func (s *System) judged(v Vessel, filling hydronics.Gauge) (j judged, err error) {
	if j.sizing, err = s.Size(); err != nil {
		return judged{}, err
	}
	if j.course, err = s.Course(v, filling); err != nil {
		return judged{}, err
	}
	if j.cycle, err = j.course.Cycle(); err != nil {
		return judged{}, err
	}
	z, c := &j.sizing, &j.course
	p0 := hydronics.GaugeOf(c.p0, c.patm)
	reserve, _ := s.reserve(&v, z)
	low, _ := s.fillingLow(p0)
	need := Demand{z.Expansion, reserve + z.Contraction, max(p0, z.Precharge), low, z.Final, c.patm}
	if j.nominal, err = need.nominal(); err != nil { // its pre-charge leaves no room at all
		j.nominal = z.Nominal
	}
	j.hot = j.cycle.Hot.Pressure
	if j.cycle.Lifts {
		j.hot = s.ReliefSet // if the water would fill the vessel there is no finite pressure
		if free, err := c.at(s.Hottest, 1); err == nil {
			j.hot = free.Pressure
		}
	}
	return j, nil
}

// leastWater is the water left when the liquid takes its least room, which for
// water is at 4 °C and not at the coldest.
func (c *Course) leastWater(contraction, coldest float64) float64 {
	return max(0, min(coldest, c.water-contraction))
}

// worst returns the source of the two that was seen less well.
func worst(a, b hydronics.Source) hydronics.Source {
	if b.Provenance > a.Provenance || b.Provenance == hydronics.ProvenanceUnknown {
		return b
	}
	return a
}

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
// uncertainty of a finding is that of the content, s.ContentUncertainty: what it
// takes off the margin when the content is that much larger.
func (s System) Judge(v Vessel, filling hydronics.Gauge) ([]hydronics.Finding, error) {
	findings, err := s.findings(v, filling)
	if err != nil || !(s.ContentUncertainty > 0) {
		return findings, err
	}
	larger := s
	larger.Content *= 1 + s.ContentUncertainty
	other, err := larger.findings(v, filling)
	if err != nil {
		return nil, err
	}
	for i, f := range findings {
		if f.Bound != hydronics.Holds { // a statement has no size to be uncertain in
			f.Uncertainty = max(0, f.Margin()-other[i].Margin())
			findings[i] = f.Judge()
		}
	}
	return findings, nil
}

func (s *System) findings(v Vessel, filling hydronics.Gauge) ([]hydronics.Finding, error) {
	z, err := s.Size()
	if err != nil {
		return nil, err
	}
	c, err := s.Course(v, filling)
	if err != nil {
		return nil, err
	}
	y, err := c.Cycle()
	if err != nil {
		return nil, err
	}
	p0 := hydronics.GaugeOf(c.p0, c.patm)
	reserve, reserveRule := s.reserve(&v, &z)
	low, lowRule := s.fillingLow(p0)
	// The volume needed with the pre-charge that the vessel has, if that is higher than asked.
	need := Demand{z.Expansion, reserve + z.Contraction, max(p0, z.Precharge), low, z.Final, c.patm}
	nominal, err := need.nominal()
	if err != nil { // it leaves no room at all, which another finding says
		nominal = z.Nominal
	}
	// The pressure when hot as if there were no relief valve.
	hot := y.Hot.Pressure
	if y.Lifts {
		if free, err := c.at(s.Hottest, 1); err == nil { // else the vessel would be full: no finite pressure
			hot = free.Pressure
		}
	}
	const vessel = "expansion vessel"
	// The law is in any textbook; what a verdict rests on is the margin beside it.
	boyle := hydronics.Source{Text: "Boyle's law on absolute pressures", Provenance: hydronics.SecondHand}
	size := worst(hydronics.Source{Text: "Boyle's law on absolute pressures with the margins of " + s.Rules.Name, Provenance: z.FinalRule.Provenance}, reserveRule)
	return []hydronics.Finding{
		hydronics.Finding{
			Rule: "the vessel takes expansion and reserve between its pre-charge and the final pressure", Subject: vessel,
			Danger:   "the relief valve spills on every heating-up and the system loses its water",
			Quantity: "nominal volume", Unit: "m³", Bound: hydronics.AtLeast,
			Value: v.Nominal, Limit: nominal * (1 - 1e-9), Source: size,
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
			Value: c.leastWater(z.Contraction, y.Coldest.Water), Limit: reserve * (1 - 1e-9), Source: reserveRule,
		}.Judge(),
		hydronics.Finding{
			Rule: "the pressure at the hottest keeps its distance from the relief valve's setting", Subject: vessel,
			Danger:   "the relief valve seeps, scales up and no longer shuts or no longer opens",
			Quantity: "pressure at the vessel at the hottest", Unit: "Pa gauge", Bound: hydronics.AtMost,
			Value: float64(hot), Limit: float64(z.Final) + 1e-3, Source: z.FinalRule,
		}.Judge(),
		hydronics.Statement("the relief valve does not lift in normal operation", "relief valve", !y.Lifts, boyle,
			"scalding water or steam at the outlet, loss of water, corrosion by the water topped up"),
		hydronics.OnSite("the vessel is rated for the relief valve's setting and for its place (liquid, temperature), and can be shut off only by a fitting secured against closing",
			vessel, hydronics.Source{Text: "EN 12828 and common practice", Provenance: hydronics.CommonPractice},
			"a shut-off vessel is no vessel: the pressure rises by bars per kelvin"),
	}, nil
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

package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A Potable is a closed hot-water cylinder as the expansion vessel on its cold
// feed sees it. The vessel stands between the non-return valve and the cylinder,
// its pre-charge a little below the pressure that the reducer holds.
type Potable struct {
	Volume     float64         // m³, water that is heated, 0.005 to 10 (guard)
	Cold       float64         // °C, cold water, 0 to 30
	Hot        float64         // °C, above Cold, up to the cut-out's setting, at most 100
	Supply     hydronics.Gauge // Pa gauge, at the cylinder at rest: the reducer's setting, 0.5 to 10 bar
	ReliefSet  hydronics.Gauge // Pa gauge, set pressure of the expansion or safety valve, 1 to 10 bar
	Atmosphere float64         // Pa absolute, 0: the standard atmosphere
	Rules      PotableRules    // the margins
}

// PotableRules are the margins of a potable vessel. The zero value is refused.
type PotableRules struct {
	Name            string
	PrechargeBelow  Setting // Pa below the supply pressure, 0 to 2 bar
	FinalBelow      Setting // Pa below the set pressure, 0 to 2 bar
	FinalBelowShare Setting // of the set pressure, 0 to 0.5; the larger of the two counts
	SupplyShare     Setting // highest supply pressure, of the set pressure, 0.1 to 1
}

// PotablePractice returns margins that are usual with DIN 4807-5: pre-charge 0.2 bar
// below the supply pressure, final pressure 10 % below the set pressure, supply at
// most 80 % of the set pressure.
//
// Sources: common practice; R. W. Griffith, Thermal expansion tanks, part 2; DIN
// 1988-200 and EN 806-2, as quoted; in this order.
func PotablePractice() PotableRules {
	return PotableRules{
		Name: "usual potable margins",
		PrechargeBelow: Setting{0.2 * hydronics.Bar, hydronics.Source{
			Text: "German practice with DIN 4807-5", Provenance: hydronics.CommonPractice}},
		FinalBelowShare: Setting{10 * hydronics.Percent, us10},
		SupplyShare: Setting{80 * hydronics.Percent, hydronics.Source{
			Text: "DIN 1988-200 and EN 806-2: supply at most 80 % of the relief valve's setting, as quoted in manuals", Provenance: hydronics.SecondHand}},
	}
}

// PotablePracticeAustria returns [PotablePractice] with the reducer at no more than
// 75 % of the set pressure. Source: an Austrian school book, Installations- und
// Gebäudetechnik (Westermann).
func PotablePracticeAustria() PotableRules {
	r := PotablePractice()
	r.Name = "usual potable margins, Austria"
	r.SupplyShare = Setting{75 * hydronics.Percent, hydronics.Source{
		Text: "Installations- und Gebäudetechnik (Westermann): reducer at 75 % of the relief valve's setting", Provenance: hydronics.SecondHand}}
	return r
}

func (r *PotableRules) check() error {
	const fn = "expansion.PotableRules"
	if r.Name == "" {
		return fmt.Errorf("%s: no rules chosen, want for example expansion.PotablePractice(): %w", fn, hydronics.ErrRange)
	}
	return errors.Join(
		hydronics.Within(fn, "pre-charge below supply", "Pa", r.PrechargeBelow.Value, 0, 2*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "final pressure below set pressure", "Pa", r.FinalBelow.Value, 0, 2*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "final pressure below set pressure, share", "", r.FinalBelowShare.Value, 0, 0.5, hydronics.Guard),
		hydronics.Within(fn, "supply pressure, share of set pressure", "", r.SupplyShare.Value, 0.1, 1, hydronics.Guard))
}

// check returns the atmospheric pressure and every wrong field.
func (p *Potable) check() (patm float64, err error) {
	const fn = "expansion.Potable"
	patm, erra := atmosphere(fn, p.Atmosphere)
	return patm, errors.Join(erra, p.Rules.check(),
		hydronics.Within(fn, "volume", "m³", p.Volume, 0.005, 10, hydronics.Guard),
		hydronics.Within(fn, "cold water", "°C", p.Cold, 0, 30, hydronics.Guard),
		hydronics.Within(fn, "hot water", "°C", p.Hot, math.Nextafter(p.Cold, 200), 100, "above the cold water, unvented cylinders at most 100 °C"),
		hydronics.Within(fn, "supply pressure", "Pa", float64(p.Supply), 0.5*hydronics.Bar, 10*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "relief valve's set pressure", "Pa", float64(p.ReliefSet), hydronics.Bar, 10*hydronics.Bar, hydronics.Guard))
}

// A PotableSizing is the vessel that a cylinder needs.
type PotableSizing struct {
	Expansion float64         // m³ per heating-up from Cold to Hot; without a vessel it leaves by the relief valve
	Precharge hydronics.Gauge // Pa gauge
	Final     hydronics.Gauge // Pa gauge, highest at the vessel
	Nominal   float64         // m³, least nominal volume
	Reserve   float64         // m³ that stand in that vessel at the supply pressure
}

// Size returns the vessel that p needs, the whole cylinder heated at once, pipes
// and cylinder rigid, densities at 0.5 MPa absolute:
//
//	V = Ve/(P0/Pi - P0/Pe), absolute pressures; Pi the supply pressure
//
// If the reducer is set too near the relief valve there is no such vessel and the
// error matches [hydronics.ErrNoSolution]: set the reducer lower, never the
// relief valve higher. Rules that put the pre-charge below -0.2 bar get an error
// that matches [hydronics.ErrRange].
//
// Source: Boyle's law; the same formula in gauge form, V = Ve(pi+1)(pe+1)/((p0+1)(pe-pi)),
// is printed in French trade notes.
func (p Potable) Size() (PotableSizing, error) {
	patm, err := p.check()
	if err != nil {
		return PotableSizing{}, err
	}
	z, err := p.size()
	if err != nil {
		return PotableSizing{}, err
	}
	d := Demand{Expansion: z.Expansion, Precharge: z.Precharge, Filling: p.Supply, Final: z.Final, Atmosphere: patm}
	if z.Nominal, err = d.Nominal(); err != nil { // the rules may have led outside its limits
		return PotableSizing{}, err
	}
	z.Reserve = z.Nominal * (1 - z.Precharge.Abs(patm)/p.Supply.Abs(patm))
	return z, nil
}

// size fills in everything but the nominal volume.
func (p *Potable) size() (z PotableSizing, err error) {
	water, err := fluid.WaterAt(0.5 * hydronics.Megapascal)
	if err != nil {
		return PotableSizing{}, err
	}
	f, err := HotVolume.Fraction(water, p.Cold, p.Hot)
	if err != nil {
		return PotableSizing{}, err
	}
	z.Expansion = p.Volume * max(0, f) // between 0 and 4 °C water shrinks
	z.Precharge = p.Supply - hydronics.Gauge(p.Rules.PrechargeBelow.Value)
	z.Final = p.ReliefSet - hydronics.Gauge(max(p.Rules.FinalBelow.Value, p.Rules.FinalBelowShare.Value*float64(p.ReliefSet)))
	return z, nil
}

// PressureHot returns the gauge pressure at the vessel v when the whole cylinder has gone
// from Cold to Hot without any draw-off. Where the vessel could not hold the
// water the error matches [hydronics.ErrNoSolution]: the relief valve lifts.
// Source: Boyle's law.
func (p Potable) PressureHot(v Vessel) (hydronics.Gauge, error) {
	fail := hydronics.Gauge(math.NaN())
	patm, err := p.check()
	if err != nil {
		return fail, err
	}
	p0, err := v.precharge(patm)
	if err != nil {
		return fail, err
	}
	z, err := p.size()
	if err != nil {
		return fail, err
	}
	pi := p.Supply.Abs(patm)
	gas := v.Nominal*min(1, p0/pi) - z.Expansion
	if !(gas > 1e-6*v.Nominal) {
		return fail, fmt.Errorf("expansion.Potable: %.4g l of expansion would fill the vessel of %.4g l: %w",
			z.Expansion/hydronics.Litre, v.Nominal/hydronics.Litre, hydronics.ErrNoSolution)
	}
	if z.Expansion == 0 {
		return p.Supply, nil
	}
	return hydronics.GaugeOf(p0*v.Nominal/gas, patm), nil
}

// A WithoutVessel is what happens in a cylinder that has no vessel, or a waterlogged
// one, behind its non-return valve.
type WithoutVessel struct {
	PerKelvin  float64 // Pa/K at the start, rigid walls
	Lifts      bool    // the relief valve lifts on the way to Hot
	LiftsAt    float64 // °C, where it lifts; 0 if it does not
	Discharged float64 // m³ that leave by the relief valve on each heating-up
}

// WithoutVessel returns what p does without a vessel, walls rigid: the relief valve
// lifts after a degree or two and drips on every heating-up, until scale keeps it
// from shutting, or from opening. Source: mass balance with IAPWS-IF97.
func (p Potable) WithoutVessel() (WithoutVessel, error) {
	if _, err := p.check(); err != nil {
		return WithoutVessel{}, err
	}
	if err := hydronics.Within("expansion.Potable.WithoutVessel", "relief valve's set pressure", "Pa",
		float64(p.ReliefSet), float64(p.Supply), 10*hydronics.Bar, "not below the supply pressure"); err != nil {
		return WithoutVessel{}, err
	}
	s := Section{Temperature: p.Cold, Pressure: p.Supply, Atmosphere: p.Atmosphere}
	var w WithoutVessel
	var err error
	if w.PerKelvin, err = s.PerKelvin(); err != nil {
		return WithoutVessel{}, err
	}
	at, err := s.Reaches(p.ReliefSet)
	switch {
	case errors.Is(err, hydronics.ErrNoSolution) || err == nil && at >= p.Hot:
		return w, nil // not reached
	case err != nil:
		return WithoutVessel{}, err
	}
	patm, err := atmosphere("", p.Atmosphere)
	if err != nil {
		return WithoutVessel{}, err
	}
	water, err := fluid.WaterAt(p.ReliefSet.Abs(patm))
	if err != nil {
		return WithoutVessel{}, err
	}
	f, err := HotVolume.Fraction(water, at, p.Hot)
	if err != nil {
		return WithoutVessel{}, err
	}
	w.Lifts, w.LiftsAt, w.Discharged = true, at, p.Volume*f
	return w, nil
}

// Judge judges the vessel v on the cold feed of p: supply pressure against the
// relief valve's setting, nominal volume, pre-charge against the supply, pressure
// hot, and the arrangement, to be seen on site. If no vessel would do because the
// supply pressure is too high, the error matches [hydronics.ErrNoSolution].
func (p Potable) Judge(v Vessel) ([]hydronics.Finding, error) {
	z, err := p.Size()
	if err != nil {
		return nil, err
	}
	hot, err := p.PressureHot(v)
	switch {
	case errors.Is(err, hydronics.ErrNoSolution):
		hot = p.ReliefSet // the relief valve holds it
	case err != nil:
		return nil, err
	}
	patm, err := atmosphere("", p.Atmosphere)
	if err != nil {
		return nil, err
	}
	p0, err := v.precharge(patm)
	if err != nil {
		return nil, err
	}
	const vessel = "potable expansion vessel"
	const drips = "the relief valve drips on every heating-up, scales and sticks"
	r := &p.Rules
	final := r.FinalBelow.Source
	if r.FinalBelowShare.Value*float64(p.ReliefSet) >= r.FinalBelow.Value {
		final = r.FinalBelowShare.Source
	}
	custom := hydronics.Source{Text: "usual requirements for vessels on potable water (DIN 4807-5)", Provenance: hydronics.CommonPractice}
	return []hydronics.Finding{
		hydronics.Finding{Rule: "the supply pressure keeps its distance from the relief valve's setting", Subject: "pressure reducer", Danger: drips,
			Quantity: "supply pressure", Unit: "Pa gauge", Bound: hydronics.AtMost,
			Value: float64(p.Supply), Limit: r.SupplyShare.Value * float64(p.ReliefSet), Source: r.SupplyShare.Source}.Judge(),
		hydronics.Finding{Rule: "the vessel takes the expansion of one heating-up", Subject: vessel, Danger: drips,
			Quantity: "nominal volume", Unit: "m³", Bound: hydronics.AtLeast,
			Value: v.Nominal, Limit: z.Nominal * (1 - 1e-9), Source: worst(r.PrechargeBelow.Source, final)}.Judge(),
		hydronics.Finding{Rule: "the pre-charge lies below the supply pressure", Subject: vessel, Danger: "pressure surges on every draw-off, a membrane that slams",
			Quantity: "pre-charge at its temperature in service", Unit: "Pa gauge", Bound: hydronics.AtMost,
			Value: p0 - patm, Limit: float64(p.Supply), Source: r.PrechargeBelow.Source}.Judge(),
		hydronics.Finding{Rule: "the pressure hot keeps its distance from the relief valve's setting", Subject: vessel, Danger: drips,
			Quantity: "pressure at the vessel, hot", Unit: "Pa gauge", Bound: hydronics.AtMost,
			Value: float64(hot), Limit: float64(z.Final) + 1e-3, Source: final}.Judge(),
		hydronics.OnSite("the vessel is approved for drinking water and flushed by it, stands between the non-return valve and the cylinder, and can be shut off only by a fitting secured against closing",
			vessel, custom, "germs in stagnant water; a shut-off vessel is no vessel"),
	}, nil
}

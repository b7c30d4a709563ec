package job

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/expansion"
)

// judgeHotWater judges the cylinder and its potable side.
func (p *plant) judgeHotWater(s *Sheet) error {
	c := p.job.Cylinder
	if c == nil {
		return nil
	}
	line := &HotLine{Stored: c.Stored, Mixed: c.Demand.Mixed, ReheatFrom: c.Demand.ReheatFrom,
		Relief: hydronics.Gauge(c.Potable.Set), ReliefDN: c.Potable.DN, ColdFeed: c.ColdFeed}
	s.HotWater = line
	line.Supply = hydronics.Gauge(p.job.Site.Mains)
	if r := c.Potable.Reducer; !math.IsNaN(r) {
		line.Supply = hydronics.Gauge(min(r, p.job.Site.Mains))
	}
	return errors.Join(
		p.judgeDemand(s, c, line),
		p.judgePotableRelief(s, c),
		p.judgePotableVessel(s, c, line),
		p.judgeDischarge(s, c, line),
	)
}

// store returns the cylinder as package dhw sees it, fully mixed: the least that
// it can give.
func (c *Cylinder) store(cold float64) (dhw.Cylinder, error) {
	heat, err1 := dhw.VolumetricHeat(cold, c.Stored)
	loss, err2 := dhw.LossCoefficient(c.Standing)
	return dhw.Cylinder{Volume: c.Content, Nodes: 1, VolumetricHeat: heat, LossCoefficient: loss}, errors.Join(err1, err2)
}

func (p *plant) judgeDemand(s *Sheet, c *Cylinder, line *HotLine) error {
	cold := p.job.Site.ColdWater
	store, err := c.store(cold)
	if err != nil {
		return err
	}
	line.Standing = store.LossCoefficient * (c.Stored - c.Room)
	amount, err := dhw.Amount{Volume: c.Content, Temperature: c.Stored}.At(c.Demand.Mixed, cold)
	if err != nil {
		return err
	}
	line.Volume = amount.Volume
	const balance = "heat balance of mixed water (UFC 3-420-01, clause 506.1.3)"
	s.add(HotWater, hydronics.Finding{
		Rule: "one charge gives the mixed water that is asked for", Subject: "cylinder", Danger: "the shower runs cold",
		Quantity: "mixed water from one charge, no mixing in the cylinder", Unit: "m³", Bound: hydronics.AtLeast,
		Value: amount.Volume, Limit: c.Demand.Volume,
		// A cylinder mixed through gives V less of mixed water; real ones lie between.
		Uncertainty: c.Content,
		Source:      hydronics.Source{Text: balance, Provenance: hydronics.Original},
	}.Judge())

	heater := make(dhw.Heater, len(c.Power))
	for i, point := range c.Power {
		heater[i] = dhw.HeaterPoint{Store: point.Store, Power: point.Power}
	}
	r, err := store.Reheat(heater, c.Demand.ReheatFrom, c.Stored, c.Room)
	rule := hydronics.Finding{
		Rule: "the cylinder is hot again within the time that is asked for", Subject: "cylinder", Danger: "no hot water when it is wanted",
		Quantity: "reheat time", Unit: "s", Bound: hydronics.AtMost, Value: r.Time, Limit: c.Demand.ReheatWithin, Uncertainty: 0.05 * r.Time,
		Source: hydronics.Source{Text: "energy balance of a mixed store, as in BS 6700:2006, annex C", Provenance: hydronics.SecondHand},
	}
	switch {
	case errors.Is(err, hydronics.ErrNoSolution):
		r.Time, rule.Value, rule.Uncertainty = math.Inf(1), math.Inf(1), 0
	case err != nil:
		return err
	}
	line.ReheatTime, line.ReheatHeat = Number(r.Time), r.Supplied
	s.add(HotWater, rule.Judge())
	return nil
}

func (p *plant) judgePotableRelief(s *Sheet, c *Cylinder) error {
	heat := 0.0
	for _, point := range c.Power {
		heat = max(heat, point.Power)
	}
	for _, h := range p.job.Heaters {
		if h.Heats == "cylinder" {
			heat += h.Power
		}
	}
	_, source := dhw.ReliefValves()
	size := hydronics.Finding{
		Rule: "relief valve large enough for the content and the heat of all sources", Subject: "relief valve of the cylinder",
		Danger: "a heated cylinder bursts", Quantity: "nominal size of the inlet", Unit: "m", Bound: hydronics.AtLeast,
		Value: c.Potable.DN, Source: source,
	}
	valve, err := dhw.ReliefValveFor(c.Content, heat)
	switch {
	case errors.Is(err, hydronics.ErrNoSolution):
		size.Limit = math.NaN() // beyond the table: not met
	case err != nil:
		return err
	default:
		size.Limit = float64(valve.DN) * hydronics.Millimetre
	}
	s.add(HotWater, size.Judge())
	if p.rules.potable == 0 {
		s.add(HotWater, hydronics.OnSite("set pressure, cold water pressure, discharge and arrangement follow the local code", "cylinder",
			custom("no rules of this jurisdiction were seen"), "a cylinder bursts, or its discharge scalds"))
		return nil
	}
	set := dhw.SetPressure{Book: p.rules.potable, Set: hydronics.Gauge(c.Potable.Set), Cylinder: hydronics.Gauge(c.Rating),
		Lowest: hydronics.Gauge(c.Lowest), Mains: hydronics.Gauge(p.job.Site.Mains)}
	if !math.IsNaN(c.Potable.Reducer) {
		set.Reducer = hydronics.Gauge(c.Potable.Reducer)
	}
	found, err := set.Findings()
	if err != nil {
		return err
	}
	s.add(HotWater, found...)
	return nil
}

func (p *plant) judgePotableVessel(s *Sheet, c *Cylinder, line *HotLine) error {
	potable := expansion.Potable{Volume: c.Content, Cold: p.job.Site.ColdWater, Hot: c.Hottest, Supply: line.Supply,
		ReliefSet: line.Relief, Atmosphere: p.atmosphere, Rules: expansion.PotablePractice()}
	size, err := potable.Size()
	if errors.Is(err, hydronics.ErrNoSolution) {
		s.add(HotWater, hydronics.Statement("the cold water pressure leaves room for expansion below the relief valve's setting",
			"potable expansion vessel", false, custom("Boyle's law; margins of "+potable.Rules.Name), "the relief valve drips on every heating-up, scales and sticks"))
		return nil
	}
	if err != nil {
		return err
	}
	v := expansion.Vessel{Nominal: c.Potable.Vessel, Precharge: hydronics.Gauge(c.Potable.Precharge)}
	if math.IsNaN(float64(v.Precharge)) {
		v.Precharge = size.Precharge
	}
	if math.IsNaN(v.Nominal) {
		line.Chosen = true
		if v.Nominal, err = expansion.UsualSeries().AtLeast(size.Nominal); err != nil {
			return err
		}
	}
	line.Expansion, line.VesselNeed, line.Vessel, line.Precharge = size.Expansion, size.Nominal, v.Nominal, v.Precharge
	hot, err := potable.PressureHot(v)
	f := hydronics.Finding{
		Rule: "the vessel takes the expansion of one heating-up below the relief valve's setting", Subject: "potable expansion vessel",
		Danger: "the relief valve drips on every heating-up, scales and sticks", Quantity: "pressure after heating up without a draw", Unit: "Pa gauge",
		Bound: hydronics.AtMost, Value: float64(hot), Limit: float64(size.Final),
		Source: hydronics.Source{Text: "Boyle's law; " + potable.Rules.FinalBelowShare.Source.Text, Provenance: potable.Rules.FinalBelowShare.Source.Provenance},
	}
	switch {
	case errors.Is(err, hydronics.ErrNoSolution):
		f.Value = math.Inf(1)
	case err != nil:
		return err
	}
	s.add(HotWater, f.Judge(), hydronics.Finding{
		Rule: "pre-charge below the cold water pressure, so that the vessel takes water only while heating", Subject: "potable expansion vessel",
		Danger: "a charge too high leaves no cushion, one too low no room", Quantity: "pre-charge", Unit: "Pa gauge", Bound: hydronics.AtMost,
		Value: float64(v.Precharge), Limit: float64(size.Precharge), Source: potable.Rules.PrechargeBelow.Source,
	}.Judge())
	return nil
}

func (p *plant) judgeDischarge(s *Sheet, c *Cylinder, line *HotLine) error {
	d := c.Discharge
	if d == nil || p.rules.potable != dhw.ApprovedDocumentG {
		s.add(HotWater, hydronics.OnSite("the relief valve discharges downhill through a visible air gap, in metal, where it can scald nobody", "discharge pipe",
			custom("discharge of relief valves"), "a blocked discharge bursts the cylinder, a misplaced one scalds"))
		return nil
	}
	outlet, _ := dhw.ParseOutlet(d.Outlet) // the decoder took no other word
	course := dhw.Straight{Length: d.Length, Bends: d.Bends}
	line.D1, line.D2 = d.D1, d.D2
	if math.IsNaN(d.D2) {
		pipe, err := dhw.SizeDischarge(outlet, course)
		if errors.Is(err, hydronics.ErrNoSolution) {
			s.add(HotWater, hydronics.Statement("a discharge pipe of the table suits its length and bends", "discharge pipe", false,
				hydronics.Source{Text: "Approved Document G, Table 3.1", Provenance: hydronics.SecondHand}, "boiling water backs up at the tundish"))
			return nil
		}
		if err != nil {
			return err
		}
		line.D2, line.D2Chosen = pipe.D2, true
	}
	found, err := dhw.Tundish{Book: p.rules.potable, Outlet: outlet, D1: d.D1, Distance: d.Tundish, Vertical: d.Drop,
		D2: line.D2, Run: course, Fall: d.Fall}.Findings()
	if err != nil {
		return err
	}
	s.add(HotWater, found...)
	return nil
}

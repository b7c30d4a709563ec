package job

import (
	"errors"
	"math"
	"strings"

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
		Relief: hydronics.Gauge(c.Potable.Set), ReliefDN: c.Potable.DN, ColdFeed: c.ColdFeed, LowestOutlet: Number(math.NaN())}
	s.HotWater = line
	set := p.setPressure(c)
	line.Supply = hydronics.Gauge(math.Min(float64(set.Supply()), p.job.Site.Mains))
	if err := errors.Join(
		p.judgeDemand(s, c, line),
		p.judgePotableRelief(s, c, &set),
		p.judgePotableVessel(s, c, line),
	); err != nil {
		return err
	}
	if p.rules.potable == 0 {
		s.add(HotWater, groupNone, hydronics.OnSite("set pressure, cold water pressure, protection against overheating, discharge and arrangement follow the local code", "cylinder",
			custom("no rules of this jurisdiction were seen"), "a cylinder bursts, or its discharge scalds"))
		return nil
	}
	return errors.Join(
		p.judgeFeed(s, c),
		p.judgeOverheating(s, c),
		p.judgeDischarge(s, c, line),
		p.judgeHygiene(s, c),
	)
}

// store returns the cylinder as package dhw sees it.
func (c *Cylinder) store(cold float64) (dhw.Cylinder, error) {
	heat, err1 := dhw.VolumetricHeat(cold, c.Stored)
	loss, err2 := dhw.LossCoefficient(c.Standing)
	return dhw.Cylinder{Volume: c.Content, Nodes: c.Layers, VolumetricHeat: heat, LossCoefficient: loss}, errors.Join(err1, err2)
}

func (c *Cylinder) heater() dhw.Heater {
	h := make(dhw.Heater, len(c.Power))
	for i, point := range c.Power {
		h[i] = dhw.HeaterPoint{Store: point.Store, Power: point.Power}
	}
	return h
}

func (p *plant) judgeDemand(s *Sheet, c *Cylinder, line *HotLine) error {
	cold := p.job.Site.ColdWater
	store, err := c.store(cold)
	if err != nil {
		return err
	}
	line.Standing = store.LossCoefficient * (c.Stored - c.Room)
	water, err := store.MixedWater(c.Stored, c.Demand.Mixed, cold)
	if err != nil {
		return err
	}
	line.Volume = water.Volume
	fewer := store
	fewer.Nodes = max(1, c.Layers/2)
	less, err := fewer.MixedWater(c.Stored, c.Demand.Mixed, cold)
	if err != nil {
		return err
	}
	s.add(HotWater, groupDemand, hydronics.Finding{
		Rule: "one charge gives the mixed water that is asked for", Subject: "cylinder", Danger: "the shower runs cold",
		Quantity: "mixed water from one charge", Unit: "m³", Bound: hydronics.AtLeast,
		Value: water.Volume, Limit: c.Demand.Volume,
		Uncertainty: water.Volume - less.Volume, // half as many layers: stratification is not known better
		Source: hydronics.Source{Text: "V40 of Commission Regulation (EU) No 814/2013, annex I; chain of mixed layers, O. Levenspiel, Chemical Reaction Engineering",
			Provenance: hydronics.SecondHand},
	}.Judge())
	return errors.Join(p.judgeReheat(s, c, &store, line), p.judgeDay(s, c, &store, line))
}

func (p *plant) judgeReheat(s *Sheet, c *Cylinder, store *dhw.Cylinder, line *HotLine) error {
	r, err := store.Reheat(c.heater(), c.Demand.ReheatFrom, c.Stored, c.Room)
	rule := hydronics.Finding{
		Rule: "the cylinder is hot again within the time that is asked for", Subject: "cylinder", Danger: "no hot water when it is wanted",
		Quantity: "reheat time", Unit: "s", Bound: hydronics.AtMost, Value: r.Time, Limit: c.Demand.ReheatWithin, Uncertainty: reheatUncertainty * r.Time,
		Source: hydronics.Source{Text: "energy balance of a mixed store, as in BS 6700:2006, annex C", Provenance: hydronics.SecondHand},
	}
	switch {
	case errors.Is(err, hydronics.ErrNoSolution):
		r.Time, rule.Value, rule.Uncertainty = math.Inf(1), math.Inf(1), 0
	case err != nil:
		return err
	}
	line.ReheatTime, line.ReheatHeat = Number(r.Time), r.Supplied
	s.add(HotWater, groupReheat, rule.Judge())
	return nil
}

// reheatUncertainty is how well papers state the power that reaches a cylinder.
const reheatUncertainty = 0.05

// day is the cylinder through the days of its load profile, ten at most.
func (p *plant) day(c *Cylinder, store *dhw.Cylinder) (dhw.Day, error) {
	profile, err := dhw.LoadProfile(c.Demand.Profile)
	if err != nil {
		return dhw.Day{}, err
	}
	return dhw.Day{Cylinder: *store, Profile: profile, Heater: c.heater(), Coil: c.CoilTop, Sensor: c.Sensor,
		On: c.Stored - c.Hysteresis, Off: c.Stored, Start: c.Stored, Cold: p.job.Site.ColdWater, Ambient: c.Room,
		Step: hydronics.Minute, Days: 10}, nil
}

func (p *plant) judgeDay(s *Sheet, c *Cylinder, store *dhw.Cylinder, line *HotLine) error {
	if c.Demand.Profile == "" {
		return nil
	}
	day, err := p.day(c, store)
	if err != nil {
		return err
	}
	r, err := day.Worst()
	if err != nil {
		return err
	}
	line.Profile, line.Unmet, line.LowestOutlet, line.Starts = c.Demand.Profile, r.Missing(), Number(r.LowestOutlet), r.Starts
	s.add(HotWater, groupDemand, hydronics.Finding{
		Rule: "every draw-off of the day gets its heat, load profile " + c.Demand.Profile, Subject: "cylinder", Danger: "the tap runs cold",
		Quantity: "heat that is missing in the worst day", Unit: "J", Bound: hydronics.AtMost, Value: line.Unmet, Limit: 0, Source: day.Profile.Source,
	}.Judge())
	return nil
}

func (p *plant) setPressure(c *Cylinder) dhw.SetPressure {
	set := dhw.SetPressure{Book: p.rules.potable, Set: hydronics.Gauge(c.Potable.Set), Cylinder: hydronics.Gauge(c.Rating),
		Lowest: hydronics.Gauge(c.Lowest), Mains: hydronics.Gauge(p.job.Site.Mains)}
	if !math.IsNaN(c.Potable.Reducer) {
		set.Reducer = hydronics.Gauge(c.Potable.Reducer)
	}
	return set
}

func (p *plant) judgePotableRelief(s *Sheet, c *Cylinder, set *dhw.SetPressure) error {
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
	s.add(HotWater, groupPotableRelief, size.Judge())
	if p.rules.potable == 0 {
		return nil
	}
	found, err := set.Findings()
	if err != nil {
		return err
	}
	s.add(HotWater, groupSetPressure, found...)
	return nil
}

func (p *plant) judgePotableVessel(s *Sheet, c *Cylinder, line *HotLine) error {
	potable := expansion.Potable{Volume: c.Content, Cold: p.job.Site.ColdWater, Hot: c.Hottest, Supply: line.Supply,
		ReliefSet: line.Relief, Atmosphere: p.atmosphere, Rules: expansion.PotablePractice()}
	size, err := potable.Size()
	if errors.Is(err, hydronics.ErrNoSolution) {
		s.add(HotWater, groupPotableVessel, hydronics.Statement("the cold water pressure leaves room for expansion below the relief valve's setting",
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
	s.add(HotWater, groupPotableVessel, f.Judge(), hydronics.Finding{
		Rule: "pre-charge below the cold water pressure, so that the vessel takes water only while heating", Subject: "potable expansion vessel",
		Danger: "a charge too high leaves no cushion, one too low no room", Quantity: "pre-charge", Unit: "Pa gauge", Bound: hydronics.AtMost,
		Value: float64(v.Precharge), Limit: float64(size.Precharge), Source: potable.Rules.PrechargeBelow.Source,
	}.Judge())
	return nil
}

func (p *plant) judgeFeed(s *Sheet, c *Cylinder) error {
	feed := dhw.Feed{Book: p.rules.potable, Content: c.Content, Branch: c.Potable.Branch,
		BranchShuts: c.Potable.Shuts, ReliefDN: int(math.Round(c.Potable.DN / hydronics.Millimetre))}
	if !math.IsNaN(c.Potable.Height) {
		feed.Height = c.Potable.Height - c.Top
	}
	for _, word := range c.ColdFeed {
		device, _ := dhw.ParseDevice(word) // the decoder took no other word
		feed.Chain = append(feed.Chain, device)
	}
	feed.Chain = append(feed.Chain, dhw.Store)
	found, err := feed.Findings()
	if err != nil {
		return err
	}
	s.add(HotWater, groupFeed, found...)
	return nil
}

func (p *plant) judgeOverheating(s *Sheet, c *Cylinder) error {
	setting := func(t float64) float64 {
		if math.IsNaN(t) {
			return 0 // none
		}
		return t
	}
	o := dhw.Overheating{Book: p.rules.potable, Content: c.Content, ReliefTemp: setting(c.ReliefTemp),
		Sources: []dhw.HeatSource{{Name: "charging by the heat pump", Thermostat: setting(c.Thermostat), CutOut: setting(c.CutOut)}}}
	for _, h := range p.job.Heaters {
		if h.Heats == "cylinder" {
			o.Sources = append(o.Sources, dhw.HeatSource{Name: h.Name, Thermostat: setting(h.Thermostat), CutOut: setting(h.CutOut)})
		}
	}
	found, err := o.Findings()
	if err != nil {
		return err
	}
	s.add(HotWater, groupOverheating, found...)
	return nil
}

func (p *plant) judgeDischarge(s *Sheet, c *Cylinder, line *HotLine) error {
	var found []hydronics.Finding
	var err error
	switch book := p.rules.potable; {
	case c.Tundish != nil && book == dhw.ApprovedDocumentG:
		found, err = p.judgeTundish(s, c.Tundish, line)
	case c.Funnel != nil && (book == dhw.DIN1988Part200 || book == dhw.AustrianPractice):
		if book == dhw.DIN1988Part200 {
			book = dhw.DIN1988Part2 // the figures for the funnel were seen in the older edition only, and say so
		}
		f := c.Funnel
		found, err = dhw.Funnel{Book: book, OutletDN: f.OutletDN, DN: f.DN, Length: f.Length, Bends: f.Bends, AirGap: f.AirGap, DrainDN: f.DrainDN}.Findings()
	case c.OpenEnd != nil && (book == dhw.IPC2018 || book == dhw.NewZealandG12):
		e := c.OpenEnd
		found, err = dhw.OpenEnd{Book: book, Outlet: e.Outlet, Bore: e.Bore, End: e.End, AirGap: e.AirGap, OwnPipe: e.OwnPipe, Clear: e.Clear}.Findings()
	default:
		found = []hydronics.Finding{hydronics.OnSite("size and course of the relief valve's discharge pipe follow the local code", "discharge pipe",
			custom("discharge of relief valves"), "a blocked discharge bursts the cylinder, a misplaced one scalds")}
	}
	s.add(HotWater, groupDischarge, found...)
	return err
}

func (p *plant) judgeTundish(s *Sheet, d *Tundish, line *HotLine) ([]hydronics.Finding, error) {
	outlet, _ := dhw.ParseOutlet(d.Outlet) // the decoder took no other word
	course := dhw.Straight{Length: d.Length, Bends: d.Bends}
	line.D1, line.D2 = d.D1, d.D2
	if math.IsNaN(d.D2) {
		pipe, err := dhw.SizeDischarge(outlet, course)
		if errors.Is(err, hydronics.ErrNoSolution) {
			line.D2 = 0 // none
			return []hydronics.Finding{hydronics.Statement("a discharge pipe of the table suits its length and bends", "discharge pipe", false,
				hydronics.Source{Text: "Approved Document G, Table 3.1", Provenance: hydronics.SecondHand}, "boiling water backs up at the tundish")}, nil
		}
		if err != nil {
			return nil, err
		}
		line.D2, line.D2Chosen = pipe.D2, true
	}
	return dhw.Tundish{Book: p.rules.potable, Outlet: outlet, D1: d.D1, Distance: d.Tundish, Vertical: d.Drop,
		D2: line.D2, Run: course, Fall: d.Fall}.Findings()
}

// judgeHygiene holds the temperatures against the rules of the jurisdiction.
func (p *plant) judgeHygiene(s *Sheet, c *Cylinder) error {
	readings := []dhw.Reading{{Point: dhw.StoredWater, Name: "cylinder", Temperature: c.Stored}}
	add := func(point dhw.Point, name string, t, after float64) {
		if !math.IsNaN(t) {
			readings = append(readings, dhw.Reading{Point: point, Name: name, Temperature: t, After: after})
		}
	}
	add(dhw.HotOutlet, "hot tap", c.Demand.Outlet, 30)
	add(dhw.BathOutlet, "bath", c.Demand.Bath, 0)
	add(dhw.ReturnFlow, "circulation", c.Demand.Circulation, 0)
	for _, book := range p.rules.hygiene {
		found, err := book.Findings(readings)
		if err != nil {
			return err
		}
		for _, f := range found {
			if f.Verdict == hydronics.SeeOnSite && strings.HasPrefix(f.Rule, dhw.ReturnFlow.String()) {
				continue // there is no circulation
			}
			s.addOf(bookKeys[book], HotWater, groupHygiene, &f)
		}
	}
	if len(p.rules.hygiene) == 0 {
		s.add(HotWater, groupHygiene, hydronics.OnSite("storage, return and tap temperatures follow the local rules on hygiene and scalding", "hot water",
			custom("no such rules of this jurisdiction were seen"), "legionella; scalds"))
	}
	return nil
}

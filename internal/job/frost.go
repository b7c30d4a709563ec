package job

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
)

// judgeFrost judges what stands outdoors without power. Everything starts at the
// return temperature, the lower of the two.
func (p *plant) judgeFrost(s *Sheet) error {
	if err := p.exposeAll(); err != nil {
		return err
	}
	for i := range p.pieces {
		if q := &p.pieces[i]; q.outdoors {
			s.Frost = append(s.Frost, q.exposure)
		}
	}
	reaches := p.reaches()
	if !p.liquid.IsWater() {
		if err := p.judgeAntifreeze(s); err != nil {
			return err
		}
	}
	if err := p.judgeReaches(s, reaches); err != nil {
		return err
	}
	if len(reaches) == 0 {
		return nil
	}
	s.add(Frost, groupInsulation, hydronics.OnSite("insulation outdoors is closed, dry, of the stated thickness on tubes, valves, brackets and wall passages, and proof against sun and birds", "outdoor tubes",
		custom("insulation outdoors"), "one bare valve freezes hours before the tube does"))
	if p.liquid.IsWater() {
		s.add(Frost, groupInsulation, hydronics.OnSite("exchanger, pump and strainer of the unit drain, or survive the power cut, as its papers say", "outdoor unit",
			custom("papers of the unit"), "the plates of the exchanger freeze before any tube and leak refrigerant into the house"))
	}
	return p.judgeOutdoors(s, reaches)
}

func (q *piece) section() frost.Section {
	return sectionOf(&q.tube, q.insulation)
}

func sectionOf(tube *pipe.Tube, insulation Insulation) frost.Section {
	layers := make([]frost.Layer, 1, 2)
	layers[0] = frost.Layer{Thickness: tube.Wall, Conductivity: tube.Conductivity, HeatCapacity: tube.Density * tube.SpecificHeat}
	if insulation.Thickness > 0 {
		layers = append(layers, frost.Layer{Thickness: insulation.Thickness, Conductivity: insulation.Conductivity})
	}
	return frost.Section{Bore: tube.Bore(), Layers: layers, Surface: frost.InTheOpen()}
}

// air is the site's coldest, with its wind.
func (p *plant) air() frost.Air {
	return frost.Air{Temperature: p.job.Site.Coldest, Wind: p.job.Site.Wind, PressureAbs: p.atmosphere}
}

// exposeAll finds how the outdoor pieces cool without power.
func (p *plant) exposeAll() error {
	for i := range p.pieces {
		q := &p.pieces[i]
		if !q.outdoors {
			continue
		}
		// One of the same tube and insulation cools as one before. No house has more
		// than a few kinds: a file with thousands is not searched for them.
		alike := -1
		for k := max(0, i-50); k < i && alike < 0; k++ {
			if b := &p.pieces[k]; b.outdoors && b.tube.Designation == q.tube.Designation && b.insulation == q.insulation {
				alike = k
			}
		}
		var err error
		if alike >= 0 {
			q.exposure = p.pieces[alike].exposure
		} else if q.exposure, err = p.expose(q); err != nil {
			return err
		}
		q.exposure.Name, q.exposure.Length = q.route.Name, q.length
	}
	return nil
}

func (p *plant) expose(q *piece) (Exposure, error) {
	x := Exposure{Tube: q.tube.Designation, Insulation: q.insulation.Thickness, Start: p.ret}
	air := p.air()
	section := q.section()
	if !p.liquid.IsWater() {
		flow, err := section.HeatFlow(x.Start, air)
		none := Number(math.NaN())
		x.HeatFlow, x.CoolsTo3, x.CoolsTo0, x.FreezesHalf = flow.PerMetre, none, none, none
		return x, err
	}
	lump, err := section.Lump(frost.Water(), x.Start, air)
	if err != nil {
		return x, err
	}
	x.HeatFlow = (x.Start - air.Temperature) / lump.Resistance // sky and ground are as warm as the air
	to3, err := p.cools(lump, x.Start, 3)
	if err != nil {
		return x, err
	}
	to0, err := p.cools(lump, x.Start, 0)
	if err != nil {
		return x, err
	}
	x.CoolsTo3, x.CoolsTo0, x.Never = seconds(to3), seconds(to0), to0.Never
	freezing, err := lump.FreezingTime(0.5, air.Temperature)
	if err != nil {
		return x, err
	}
	x.FreezesHalf = x.CoolsTo0 + seconds(freezing)
	return x, nil
}

// cools returns the time to a temperature, in the cold of the site or through
// its hourly temperatures.
func (p *plant) cools(l frost.Lump, start, target float64) (frost.Time, error) {
	if h := p.job.Site.Hourly; len(h) > 0 {
		return l.CoolingTimeThrough(start, target, h)
	}
	return l.CoolingTime(start, target, p.job.Site.Coldest)
}

func seconds(t frost.Time) Number {
	if t.Never {
		return Number(math.Inf(1))
	}
	return Number(t.Seconds)
}

// insulationUncertainty is how well the conductivity of insulation outdoors is
// known: ageing and moisture aside, declared values scatter by about a tenth.
const insulationUncertainty = 0.10

// survives judges water that stands without power and without drains. A restarted
// pump meets slush from the first ice on, so the limit is 0 °C and no share of ice.
func (p *plant) survives(name string, worst *Exposure) hydronics.Finding {
	f := hydronics.Finding{
		Rule: "the water stays above 0 °C for the whole power cut", Subject: name,
		Danger: "slush blocks the restart, ice bursts the tube", Quantity: "time from the failure of power to 0 °C", Unit: "s",
		Bound: hydronics.AtLeast, Value: float64(worst.CoolsTo0), Limit: p.job.Site.PowerCut, Uncertainty: insulationUncertainty * float64(worst.CoolsTo0),
		Source: hydronics.Source{Text: "lumped cooling with the wall's heat, ASHRAE Handbook, Fundamentals 2021, chapter 23, eq. 1, extended (package frost)",
			Provenance: hydronics.SecondHand},
	}
	if math.IsNaN(f.Limit) {
		f.Limit = math.Inf(1)
	}
	if worst.Never {
		f.Value, f.Uncertainty = math.Inf(1), 0
		if math.IsInf(f.Limit, 1) { // forever against forever
			return hydronics.Statement(f.Rule, f.Subject, true, f.Source, f.Danger)
		}
	}
	return f.Judge()
}

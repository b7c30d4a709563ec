package job

import (
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// What an antifreeze can do besides failing to protect.
const (
	poisonous = "poisonous"
	flammable = "flammable"
	corrosive = "corrosive"
)

// hazards are those that package fluid names beside its solutes.
var hazards = map[fluid.Solute][]string{
	fluid.EthyleneGlycol:     {poisonous},
	fluid.Ethanol:            {flammable},
	fluid.Methanol:           {poisonous, flammable},
	fluid.PotassiumFormate:   {corrosive},
	fluid.PotassiumAcetate:   {corrosive},
	fluid.PotassiumCarbonate: {corrosive},
	fluid.CalciumChloride:    {corrosive},
	fluid.MagnesiumChloride:  {corrosive},
	fluid.SodiumChloride:     {corrosive},
}

// has reports whether the liquid of the circuit has the hazard.
func (p *plant) has(hazard string) bool { return slices.Contains(hazards[p.liquid.Solute()], hazard) }

// glycol reports whether the circuit holds one of the two that are made for it.
func (p *plant) glycol() bool {
	s := p.liquid.Solute()
	return s == fluid.PropyleneGlycol || s == fluid.EthyleneGlycol
}

// checkWarm refuses temperatures at which there are no figures of the liquid.
func checkWarm(j *Job, l fluid.Liquid, f *Faults) {
	_, most := l.Range()
	if l == (fluid.Liquid{}) || l.IsWater() {
		return // found out before, or left to the calculations
	}
	check := func(path string, t float64) {
		if t > most {
			accepted := fmt.Sprintf("at most %g °C with %s: beyond it there are no figures", most, j.Liquid.Kind)
			*f = append(*f, Fault{path, trim(t), accepted})
		}
	}
	check("liquid.hottest_c", j.Liquid.Hottest)
	check("outdoor_unit.supply_c", j.Unit.Supply)
}

// warmest is how warm solutions other than the glycols may get, °C.
const warmest = 40

// judgeBrine judges what alcohols, salts and glycerol ask for, which are brines for
// the ground rather than liquids for a heating circuit.
func (p *plant) judgeBrine(s *Sheet) {
	if p.glycol() {
		return
	}
	practice := custom("alcohols, salts and glycerol in heating circuits")
	cool := func(what string, t float64) {
		s.add(Pressure, groupBrine, hydronics.Finding{
			Rule: "a solution that is no glycol gets no hotter than 40 °C", Subject: what,
			Danger:   "alcohol boils off and its vapour burns, salt eats the metal, and nobody knows how the solution flows and expands",
			Quantity: "highest temperature that can be reached", Unit: "°C", Bound: hydronics.AtMost, Value: t, Limit: warmest, Source: practice,
		}.Judge())
	}
	cool("outdoor unit", math.Max(p.job.Unit.Supply, p.job.Liquid.Hottest))
	for _, h := range p.job.Heaters {
		if h.Heats == "circuit" {
			cool(h.Name, limited(h.Thermostat, h.CutOut))
		}
	}
	if c := p.job.Cylinder; c != nil {
		cool("coil of the cylinder", c.Hottest) // takes on what the store has, whoever heated it
	}
	s.add(Pressure, groupNone, hydronics.OnSite("the papers of unit, circulator, vessel, valves and seals allow this solution", "liquid",
		custom("papers of the parts"), "seals swell, metals corrode, and the circuit leaks"))
	if p.has(flammable) {
		s.add(Pressure, groupNone, hydronics.OnSite("filling, vents and the relief valve's container are kept away from flames, sparks and heat, as the rules on fire ask", "liquid",
			custom("handling of alcohol"), "the vapour of alcohol catches fire or explodes, of thin solutions too"))
	}
	if p.has(corrosive) {
		s.add(Pressure, groupNone, hydronics.OnSite("inhibitor and pH of the salt solution suit every metal of the circuit, and no air gets in", "liquid",
			custom("handling of salt solutions"), "salt solutions eat steel, aluminium and solder, fastest where there is air"))
	}
}

// limited is the highest temperature that a source can reach: that of its cut-out,
// or, with none, of its thermostat; without either there is no limit.
func limited(thermostat, cutOut float64) float64 {
	switch {
	case !math.IsNaN(cutOut):
		return cutOut
	case !math.IsNaN(thermostat):
		return thermostat
	}
	return math.Inf(1)
}

// vapourPressure bounds the absolute vapour pressure of the liquid from above. Salts
// and glycols lower that of water. Of an alcohol that of the pure substance at 40 °C
// is taken, which no solution exceeds that may be no hotter.
func (p *plant) vapourPressure(t float64) (float64, hydronics.Source, error) {
	remembered := func(pressure float64) (float64, hydronics.Source, error) {
		return pressure, hydronics.Source{Text: "vapour pressure of pure " + p.liquid.Solute().String() + " at 40 °C; Boyle's law and the losses of the sheet", Provenance: hydronics.FromMemory}, nil
	}
	switch p.liquid.Solute() {
	case fluid.Ethanol:
		return remembered(18e3)
	case fluid.Methanol:
		return remembered(36e3)
	}
	vapour, err := fluid.SaturationPressure(t)
	return vapour, hydronics.Source{Text: "IAPWS R7-97(2012), region 4, eq. 30, for the vapour pressure of water; Boyle's law and the losses of the sheet", Provenance: hydronics.SecondHand}, err
}

// judgeCoil judges what parts the antifreeze from the potable water.
func (p *plant) judgeCoil(s *Sheet) {
	c := p.job.Cylinder
	switch {
	case c == nil:
	case p.has(poisonous):
		s.add(Pressure, groupFilling, hydronics.Statement("two walls and a leak space between them part a poisonous antifreeze from potable water", "coil of the cylinder",
			c.CoilWalls == 2, custom("poisonous antifreeze beside potable water"), "a leaking coil poisons the drinking water"))
	case c.CoilWalls == 1:
		s.add(Pressure, groupNone, hydronics.OnSite("the water authority allows a single wall between this antifreeze, its additives and potable water", "coil of the cylinder",
			custom("EN 1717 and the local water authority"), "a leaking coil puts antifreeze and its additives into the drinking water"))
	}
}

// judgeAntifreeze judges the concentration.
func (p *plant) judgeAntifreeze(s *Sheet) error {
	doubt, err := p.liquid.Uncertainty()
	if err != nil {
		return err
	}
	source := hydronics.Source{Text: "A. Melinder, Properties of Secondary Working Fluids, IIR 2010", Provenance: hydronics.SecondHand}
	if p := doubt.Source.Provenance; !p.Confirmed() {
		source = hydronics.Source{Text: source.Text + "; uncertainty " + doubt.Source.Text, Provenance: p}
	}
	s.add(Frost, groupAntifreeze, hydronics.Finding{
		Rule: "the first ice forms below the extreme minimum outdoors", Subject: "liquid", Danger: "slush blocks the circuit, ice bursts it",
		Quantity: "freezing point", Unit: "°C", Bound: hydronics.AtMost, Value: p.liquid.FreezingPoint(), Limit: p.job.Site.Coldest,
		Uncertainty: doubt.FreezingPoint,
		Source:      source,
	}.Judge(), hydronics.OnSite("a sample from the circuit, by a refractometer or hydrometer for this antifreeze, shows the concentration of the job file", "liquid",
		custom("tests of antifreeze"), "too little antifreeze freezes, too much starves the unit of flow"))
	return nil
}

package main

import (
	"fmt"
	"math"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/internal/job"
)

// A document is the sheet in words, for the terminal and for the page alike.
type document struct {
	Title    string
	Remark   string
	Rules    string
	Liquid   string
	Origin   string // what calculated the sheet, and from which file
	Summary  string
	Warning  string
	Sections []section
	How      string // to read the requirements
	Parts    []part // the requirements
	Sources  []string
	Readings []reading
	Handover []string
	Cautions []string
	Release  string
}

// A section holds some of: pairs, a table, paragraphs.
type section struct {
	Title string
	Intro string
	Table *table
	Pairs []pair
	Words []string
}

type pair struct{ Label, Value string }

// A table has a lead over each row, because names are long and lines are short.
type table struct {
	Head, Units []string
	Rows        []row
}

type row struct {
	Lead  string
	Cells []string
}

type part struct {
	Name         string
	Requirements []requirement
}

type requirement struct {
	Number  int
	Text    string
	Compare string
	Source  int
	Verdict string
	Open    bool // to be seen on site
	Failed  bool
	Danger  string
	Remedy  string
}

// A reading is something to be set or measured on site, with what is expected.
type reading struct{ What, Expected, Unit string }

// writer collects sources while the document grows.
type writer struct {
	doc    *document
	number map[hydronics.Source]int
}

func documentOf(s *job.Sheet) *document {
	w := &writer{doc: &document{}, number: map[hydronics.Source]int{}}
	w.head(s)
	w.flows(s)
	w.tubes(s)
	w.mixed(s)
	w.balance(s)
	w.pressure(s)
	w.frost(s)
	w.hotWater(s)
	w.requirements(s)
	w.readings(s)
	w.doc.Cautions = cautionsOf(s)
	if s.AfterRemedies != nil {
		after := "every calculated requirement would be met."
		if n := *s.AfterRemedies; n > 0 {
			after = fmt.Sprintf("%d would still not be met.", n)
		}
		w.doc.Summary += " With all remedies together " + after
		if len(s.Further) > 0 {
			w.doc.Summary += " Together they also ask for: " + changeWords(s.Further) + "."
		}
	}
	w.doc.Release = fmt.Sprintf("%d requirements are to be seen on site and %d are not met. While one of either is open, nothing is released. %s",
		s.Count(hydronics.SeeOnSite), s.Count(hydronics.NotMet), w.doc.Origin)
	return w.doc
}

func (w *writer) head(s *job.Sheet) {
	d := w.doc
	d.Title, d.Remark = s.Title, s.Remark
	rules := s.Rules
	if s.HotWater != nil && s.PotableRules != "" {
		rules += "; " + s.PotableRules
	}
	d.Origin = "Calculated by hydronics " + s.Version + "."
	if s.JobHash != "" {
		d.Origin = "Calculated by hydronics " + s.Version + " from the job file whose SHA-256 begins with " + s.JobHash + "."
	}
	d.Rules = "Jurisdiction " + s.Jurisdiction + ": " + rules + "."
	d.Liquid = "The circuit is filled with " + s.Liquid + ", which begins to freeze at " + degrees(s.FreezingPoint) + "."
	d.Summary = fmt.Sprintf("%d requirements: %d met, %d met on an unconfirmed source, %d met only within the uncertainty, %d NOT MET, %d to be seen on site.",
		len(s.Findings), s.Count(hydronics.Met), s.Count(hydronics.MetUnconfirmed), s.Count(hydronics.MetWithinUncertainty), s.Count(hydronics.NotMet), s.Count(hydronics.SeeOnSite))
	d.Warning = "THIS CALCULATION ALONE RELEASES NOTHING. It rests on the figures of the job file; what is marked \"on site\" has to be seen there, and a competent person has to check and sign."
}

func (w *writer) section(s section) { w.doc.Sections = append(w.doc.Sections, s) }

func (w *writer) flows(s *job.Sheet) {
	t := &table{Head: []string{"flow", "unit", "tubes", "valves", "worst", "needed", "available"}, Units: []string{"l/min", "kPa", "kPa", "kPa", "kPa", "kPa", "kPa"}}
	pairs := []pair{{"supply at the design temperature", degrees(s.Supply)}, {"return, mixed from all circuits", degrees(s.Return)}}
	for _, m := range s.Modes {
		kpa := func(v float64) string { return fixed(v / hydronics.Kilopascal) }
		if m.Indoor > 0 {
			pairs = append(pairs, pair{"of the loss in the unit, indoor part, " + m.Name, kpa(m.Indoor) + " kPa"})
		}
		lead := m.Name + ", worst circuit: " + m.Index
		if m.Worst == 0 {
			lead = m.Name + ", as far as the " + m.Index
		}
		t.Rows = append(t.Rows, row{lead,
			[]string{fixed(m.Flow / hydronics.LitrePerMinute), kpa(m.Unit + m.Indoor), kpa(m.Tubes), kpa(m.Devices), kpa(m.Worst), kpa(m.Required), kpa(float64(m.Available))}})
	}
	w.section(section{
		Title: "Flow and circulator",
		Intro: "Losses in the unit, in tubes with their bends, in valves and strainers, in the worst circuit; what that needs together, and what the circulator has available at that flow.",
		Table: t,
		Pairs: pairs,
	})
}

var tubeHead = []string{"length", "flow", "velocity", "gradient", "loss", "content", "kind of"}
var tubeUnits = []string{"m", "l/min", "m/s", "Pa/m", "kPa", "l", "flow"}

func (w *writer) tubes(s *job.Sheet) {
	routes := &table{Head: tubeHead, Units: tubeUnits}
	for i := range s.Tubes {
		t := &s.Tubes[i]
		where := "indoors"
		if t.Outdoors {
			where = "OUTDOORS"
		}
		routes.Rows = append(routes.Rows, row{t.Name + ": " + t.Tube + ", " + where + ", " + coat(t.Insulation), tubeCells(t)})
	}
	w.section(section{Title: "Tube schedule", Table: routes})
	circuits := &table{Head: tubeHead, Units: tubeUnits}
	for i := range s.Circuits {
		t := &s.Circuits[i]
		lead := fmt.Sprintf("%s: %s, %s W, return %s", t.Name, t.Tube, whole(t.Heat), degrees(t.Temperature))
		if t.MixedBy != "" {
			lead += ", mixed by " + t.MixedBy
		}
		circuits.Rows = append(circuits.Rows, row{lead, tubeCells(t)})
	}
	w.section(section{Title: "Heating circuits", Table: circuits})
}

// mixed writes what the mixing valves do.
func (w *writer) mixed(s *job.Sheet) {
	if len(s.Mixed) == 0 {
		return
	}
	t := &table{Head: []string{"flow", "drawn", "hot part", "valve", "worst", "needed", "there is", "authority"},
		Units: []string{"l/min", "l/min", "%", "kPa", "kPa", "kPa", "kPa", ""}}
	var pairs []pair
	for i := range s.Mixed {
		m := &s.Mixed[i]
		kpa := func(v float64) string { return fixed(v / hydronics.Kilopascal) }
		t.Rows = append(t.Rows, row{fmt.Sprintf("%s: %s W, supply %s °C, return %s °C, worst circuit: %s", m.Name, whole(m.Heat), plain(m.Supply), fixed(m.Return), m.Index),
			[]string{fixed(m.Flow / hydronics.LitrePerMinute), fixed(m.Drawn / hydronics.LitrePerMinute), whole(100 * m.Share), kpa(m.Valve), kpa(m.Worst),
				kpa(m.Required), kpa(float64(m.Available)), fixed2(float64(m.Authority))}})
		if m.Others > 0 {
			pairs = append(pairs, pair{m.Name + ", loss in its tubes and fittings", kpa(m.Others) + " kPa"})
		}
		if !math.IsNaN(float64(m.Difference)) {
			pairs = append(pairs, pair{m.Name + ", pressure where it is joined", kpa(float64(m.Difference)) + " kPa"})
		}
		if !math.IsNaN(float64(m.Kept)) {
			pairs = append(pairs, pair{m.Name + ", circulator keeps", kpa(float64(m.Kept)) + " kPa"})
		}
		if !math.IsNaN(float64(m.Limiter)) {
			pairs = append(pairs, pair{m.Name + ", limiter stops it at", plain(float64(m.Limiter)) + " °C"})
		}
	}
	w.section(section{Title: "Circuits behind mixing valves", Table: t, Pairs: pairs,
		Intro: "Flow of the circuits and what the valve draws of it at the unit's supply of " + plain(s.Supply) + " °C, the rest being the circuits' own return; losses against the group's own circulator; authority of the mixing valve."})
}

func (w *writer) balance(s *job.Sheet) {
	if len(s.Presets) == 0 {
		return
	}
	kept := ""
	if len(s.Cases) > 0 {
		kept = " The circulator keeps "
		if len(s.Mixed) > 0 {
			kept = " The circulator of those without a mixing valve keeps "
		}
		kept += fixed(s.Cases[0].Pressure/hydronics.Kilopascal) + " kPa."
	}
	t := &table{Head: []string{"flow", "to take up", "Kv"}, Units: []string{"l/min", "kPa", "m³/h"}}
	for _, x := range s.Presets {
		t.Rows = append(t.Rows, row{x.Circuit, []string{fixed2(x.Flow / hydronics.LitrePerMinute), fixed(x.Surplus / hydronics.Kilopascal), fixed2(x.Kv)}})
	}
	w.section(section{Title: "Balancing", Table: t,
		Intro: "Setting of the balancing valve of each circuit, at which all have their design flow together." + kept})
	if len(s.Cases) == 0 {
		return
	}
	cases := &table{Head: []string{"unit", "bypass", "circulator", "fastest"}, Units: []string{"l/min", "l/min", "kPa", "m/s"}}
	for _, c := range s.Cases {
		name := c.Name
		if c.In != "" {
			name += " (fastest: " + c.In + ")"
		}
		cases.Rows = append(cases.Rows, row{name, []string{fixed(c.UnitFlow / hydronics.LitrePerMinute), fixed(c.Bypass / hydronics.LitrePerMinute),
			fixed(c.Pressure / hydronics.Kilopascal), fixed2(c.Greatest)}})
	}
	w.section(section{Title: "Circuits shut", Table: cases, Intro: "The balanced circuits, solved as one network, with the circulator at the same pressure."})
}

func coat(thickness float64) string {
	if thickness == 0 {
		return "bare"
	}
	return "insulated " + plain(thickness/hydronics.Millimetre) + " mm"
}

func tubeCells(t *job.TubeLine) []string {
	return []string{fixed(t.Length), fixed(t.Flow / hydronics.LitrePerMinute), fixed2(t.Velocity), whole(t.Gradient),
		fixed2(t.Loss / hydronics.Kilopascal), fixed(t.Content / hydronics.Litre), t.Regime}
}

func litres(v float64) string {
	if v >= 100*hydronics.Litre {
		return whole(v/hydronics.Litre) + " l"
	}
	return fixed(v/hydronics.Litre) + " l"
}

func (w *writer) pressure(s *job.Sheet) {
	c := &s.Content
	pairs := []pair{{"outdoor unit", litres(c.Unit)}}
	if c.Indoor > 0 {
		pairs = append(pairs, pair{"indoor unit", litres(c.Indoor)})
	}
	pairs = append(pairs, pair{"tubes of the routes", litres(c.Tubes)}, pair{"heating circuits", litres(c.Circuits)}, pair{"distributor", litres(c.Distributor)})
	if c.Mixing > 0 {
		pairs = append(pairs, pair{"mixing groups without their circuits", litres(c.Mixing)})
	}
	if c.Buffer > 0 {
		pairs = append(pairs, pair{"buffer", litres(c.Buffer)})
	}
	if c.Coil > 0 {
		pairs = append(pairs, pair{"coil of the cylinder", litres(c.Coil)})
	}
	pairs = append(pairs, pair{"content in all", litres(c.Total)}, pair{"of it always circulating", litres(c.Always)})
	w.section(section{Title: "Content of the heating circuit", Pairs: pairs})

	v := &s.Vessel
	relief := []pair{{"relief valve, set pressure", bar(float64(s.Relief.Set))}, {"heat of all sources that can run", kilowatt(s.Relief.Heat)}}
	out := section{Title: "Pressure and relief of the heating circuit"}
	if v.NoVessel != "" {
		out.Intro, out.Pairs = "No vessel fits: "+v.NoVessel, relief
		w.section(out)
		return
	}
	out.Pairs = []pair{
		{"static pressure above the vessel", bar(v.Static)},
		{"expansion from filling to hottest", litres(v.Expansion)},
		{"water reserve", litres(v.Reserve)},
		{"expansion vessel, least nominal volume", litres(v.Needed)},
		{"expansion vessel, " + chosen(v.Chosen), litres(v.Nominal)},
		{"PRE-CHARGE, water side relieved", bar(float64(v.Precharge))},
		{"FILL TO, at " + degrees(v.FilledAt) + ", circulator at rest", bar(float64(v.Filling))},
	}
	if v.FillMost > 0 {
		out.Pairs = append(out.Pairs, pair{"allowed filling pressures", bar(float64(v.FillLeast)) + " to " + bar(float64(v.FillMost))})
	}
	out.Pairs = append(append(out.Pairs,
		pair{"pressure at the coldest", bar(float64(v.Cold))},
		pair{"pressure at the hottest", bar(float64(v.Hot))},
		pair{"highest pressure allowed at the vessel", bar(float64(v.Final))}), relief...)
	if v.Chosen {
		out.Words = append(out.Words, "The vessel was chosen for a content 10 % higher than calculated, since contents are not known better.")
	}
	w.section(out)
}

func chosen(yes bool) string {
	if yes {
		return "chosen"
	}
	return "given"
}

func (w *writer) frost(s *job.Sheet) {
	if len(s.Frost) == 0 {
		return
	}
	if s.FreezingPoint < 0 {
		w.cold(s)
		return
	}
	t := &table{Head: []string{"length", "heat flow", "to 3 °C", "to 0 °C", "to half ice"}, Units: []string{"m", "W/m", "h:min", "h:min", "h:min"}}
	for i := range s.Frost {
		x := &s.Frost[i]
		t.Rows = append(t.Rows, row{x.Name + ": " + x.Tube + ", " + coat(x.Insulation),
			[]string{fixed(x.Length), fixed(x.HeatFlow), duration(float64(x.CoolsTo3)), duration(float64(x.CoolsTo0)), duration(float64(x.FreezesHalf))}})
	}
	w.section(section{Title: "Outdoors without power", Table: t,
		Intro: "Times from the failure of power, in the cold and the wind of the job file, from " + degrees(s.Frost[0].Start) + ", the water standing still."})
	for i := range s.Nights {
		w.night(&s.Nights[i])
	}
}

// cold is what the tubes outdoors lose where nothing freezes.
func (w *writer) cold(s *job.Sheet) {
	t := &table{Head: []string{"length", "heat flow"}, Units: []string{"m", "W/m"}}
	for i := range s.Frost {
		x := &s.Frost[i]
		t.Rows = append(t.Rows, row{x.Name + ": " + x.Tube + ", " + coat(x.Insulation), []string{fixed(x.Length), fixed(x.HeatFlow)}})
	}
	w.section(section{Title: "Heat lost outdoors", Table: t,
		Intro: "In the cold and the wind of the job file, the liquid at " + degrees(s.Frost[0].Start) + ". Without power it cools down to the air and does not freeze before " + degrees(s.FreezingPoint) + "."})
}

func (w *writer) night(n *job.NightLine) {
	out := section{Title: "The power cut: " + n.Name}
	for _, e := range n.Events {
		out.Pairs = append(out.Pairs, pair{e.What, duration(e.Time)})
	}
	out.Intro = "Times in h:min after the power fails, each bounded on its own side."
	switch {
	case n.NoIce:
		out.Words = append(out.Words, "No ice forms before the power returns.")
	case n.Unopened:
		out.Words = append(out.Words, "Ice may form although the drain valves need not have opened.")
	case !(n.Left > 0):
		out.Words = append(out.Words, "The line does not empty: "+fixed2(n.Stays/hydronics.Litre)+" l stay in it.")
	default:
		words := "The line empties in " + whole(math.Ceil(n.Emptying)) + " s; "
		if minutes := n.Margin / hydronics.Minute; minutes >= 0 {
			words += "between its last water and the first ice lie at least " + whole(math.Floor(minutes)) + " min. "
		} else {
			words += "the first ice may come " + whole(math.Ceil(-minutes)) + " min before its last water is out. "
		}
		out.Words = append(out.Words, words+fixed2(n.Left/hydronics.Litre)+" l run out, "+fixed2(n.Stays/hydronics.Litre)+" l stay in pockets.")
	}
	w.section(out)
}

func (w *writer) hotWater(s *job.Sheet) {
	h := s.HotWater
	if h == nil {
		return
	}
	out := section{Title: "Hot water", Pairs: []pair{
		{"stored at", degrees(h.Stored)},
		{"one charge mixed to " + degrees(h.Mixed) + ", at most", litres(h.Volume)},
		{"reheating from " + degrees(h.ReheatFrom), span(float64(h.ReheatTime))},
		{"heat for that", fixed(h.ReheatHeat/hydronics.KilowattHour) + " kWh"},
		{"standing loss", whole(h.Standing) + " W"},
		{"cold water pressure at the cylinder", bar(float64(h.Supply))},
		{"relief valve", "DN " + whole(h.ReliefDN/hydronics.Millimetre) + ", set to " + bar(float64(h.Relief))},
		{"expansion in one heating-up", litres(h.Expansion)},
	}}
	if h.Vessel > 0 {
		out.Pairs = append(out.Pairs, pair{"potable expansion vessel, least volume", litres(h.VesselNeed)},
			pair{"potable expansion vessel, " + chosen(h.Chosen), litres(h.Vessel)},
			pair{"its PRE-CHARGE, water side relieved", bar(float64(h.Precharge))})
	}
	if h.D2 > 0 {
		out.Pairs = append(out.Pairs, pair{"discharge pipe to the tundish", whole(h.D1/hydronics.Millimetre) + " mm copper"},
			pair{"discharge pipe after it, " + chosen(h.D2Chosen), whole(h.D2/hydronics.Millimetre) + " mm copper"})
	}
	out.Words = []string{"Cold feed, from the main: " + strings.Join(h.ColdFeed, " > ") + " > cylinder."}
	w.section(out)
}

var marks = map[hydronics.Verdict]string{
	hydronics.Met: "met", hydronics.MetUnconfirmed: "met, unconfirmed source", hydronics.MetWithinUncertainty: "met within uncertainty only",
	hydronics.NotMet: "NOT MET", hydronics.SeeOnSite: "on site [  ]",
}

func (w *writer) requirements(s *job.Sheet) {
	d := w.doc
	d.How = "Each with its value, its limit, ± the uncertainty of their difference, the number of its source (see the list) and the verdict."
	if s.Count(hydronics.NotMet) > 0 {
		d.How += " Every remedy was tried by assessing the installation with it again."
	}
	for i := range s.Findings {
		f := &s.Findings[i]
		name := f.Part.String()
		if len(d.Parts) == 0 || d.Parts[len(d.Parts)-1].Name != name {
			d.Parts = append(d.Parts, part{Name: name})
		}
		last := &d.Parts[len(d.Parts)-1]
		r := requirement{Number: i + 1, Text: strings.TrimPrefix(f.Subject+": "+f.Rule, ": "), Compare: compare(&f.Finding), Source: w.cite(f.Source),
			Verdict: marks[f.Verdict], Open: f.Verdict == hydronics.SeeOnSite, Failed: f.Verdict == hydronics.NotMet}
		if r.Failed {
			r.Danger, r.Remedy = firstSentence(f.Danger), remedyWords(f.Remedy)
		}
		last.Requirements = append(last.Requirements, r)
	}
}

// firstSentence is what fits beside a requirement; the cautions say the rest.
func firstSentence(words string) string {
	first, _, _ := strings.Cut(words, ". ")
	return strings.TrimRight(first, ".")
}

func remedyWords(r *job.Remedy) string {
	switch {
	case r == nil:
		return ""
	case r.None:
		return "there is no safe remedy within this calculation"
	}
	return changeWords(r.Changes)
}

func changeWords(changes []job.Change) string {
	var all []string
	for _, c := range changes {
		to := c.To
		if to == "" {
			sc := scale{0.01, "%", 1}
			if c.Unit != "" {
				sc = scaleOf(&hydronics.Finding{Unit: c.Unit, Value: float64(c.Value), Limit: float64(c.Value)})
			}
			to = trimmed(float64(c.Value)/sc.factor, max(1, sc.digits)) + " " + sc.unit
		}
		all = append(all, c.What+": "+to)
	}
	return strings.Join(all, "; ")
}

// compare writes value, limit and uncertainty in units of the trade.
func compare(f *hydronics.Finding) string {
	if f.Bound == hydronics.Holds {
		return ""
	}
	sc := scaleOf(f)
	word := "at most "
	if f.Bound == hydronics.AtLeast {
		word = "at least "
	}
	switch {
	case math.IsNaN(f.Value):
		return word + sc.show(f.Limit) // to be measured
	case math.IsNaN(f.Limit) && f.Bound == hydronics.AtMost:
		return sc.show(f.Value) + ", nothing available"
	case math.IsNaN(f.Limit):
		return sc.show(f.Value) + ", nothing suffices"
	}
	text := sc.show(f.Value) + ", " + word + sc.show(f.Limit)
	if f.Unit == "" {
		text = f.Quantity + " " + text
	}
	if f.Uncertainty > 0 && !math.IsInf(f.Uncertainty, 0) && sc.bare(f.Uncertainty) != sc.bare(0) {
		text += ", ± " + sc.bare(f.Uncertainty)
	}
	return text
}

func (w *writer) cite(s hydronics.Source) int {
	n, ok := w.number[s]
	if !ok {
		w.doc.Sources = append(w.doc.Sources, s.String())
		n = len(w.doc.Sources)
		w.number[s] = n
	}
	return n
}

// readings lists what is set and measured on site.
func (w *writer) readings(s *job.Sheet) {
	add := func(what, expected, unit string) {
		w.doc.Readings = append(w.doc.Readings, reading{what, expected, unit})
	}
	v := &s.Vessel
	add("pressure test, before vessel and relief valve are fitted", "as the code asks", "bar, h")
	if v.NoVessel == "" {
		add("pre-charge, water side relieved", fixed2(float64(v.Precharge)/hydronics.Bar), "bar")
		add("filled to, circulator at rest", fixed2(float64(v.Filling)/hydronics.Bar), "bar")
	}
	add("temperature of the circuit when filled", trimmed(v.FilledAt, 1), "°C")
	for _, m := range s.Modes {
		add("flow, "+m.Name, fixed(m.Flow/hydronics.LitrePerMinute), "l/min")
	}
	for i := range s.Mixed {
		m := &s.Mixed[i]
		add("flow, "+m.Name, fixed(m.Flow/hydronics.LitrePerMinute), "l/min")
		add("mixed supply on the coldest day, "+m.Name, plain(m.Supply), "°C")
		if !math.IsNaN(float64(m.Limiter)) {
			add("limiter tried, stops the supply of "+m.Name, plain(float64(m.Limiter)), "°C")
		}
	}
	add("loss of the strainer, clean", "", "kPa")
	add("filling water: hardness", "as the unit's papers ask", "mmol/l")
	add("circuit after a week: conductivity, pH", "as the unit's papers ask", "µS/cm, -")
	if s.FreezingPoint < 0 {
		add("antifreeze, a sample begins to freeze at", trimmed(s.FreezingPoint, 1), "°C")
		add("premix and label of the antifreeze", "", "")
	}
	add("relief valve of the circuit lifted by hand, closes tight", "", "")
	if len(s.Frost) > 0 {
		add("power-cut trial: valves, alarm, restart", "", "")
	}
	if h := s.HotWater; h != nil {
		add("cold water pressure at the cylinder, at rest", fixed2(float64(h.Supply)/hydronics.Bar), "bar")
		if h.Vessel > 0 {
			add("pre-charge of the potable vessel, water side relieved", fixed2(float64(h.Precharge)/hydronics.Bar), "bar")
		}
		add("relief valve of the cylinder lifted by hand, runs off, closes tight", "", "")
		add("water stored at", trimmed(h.Stored, 1), "°C")
		add("hot taps after 30 s and after 60 s", "", "°C")
		add("mixed taps, highest", "", "°C")
	}
	w.doc.Handover = []string{"this sheet, signed, with the readings", "papers of unit, vessel, relief valves, cylinder", "how to read the pressure and when to call",
		"what to do in a power cut and before leaving the house in winter", "what never to close, cap or turn"}
}

// cautionsOf are those that hold everywhere, and those of the liquid.
func cautionsOf(s *job.Sheet) []string {
	all := append([]string(nil), cautions...)
	if s.FreezingPoint < 0 {
		all = append(all, "Antifreeze: the figures are for the plain substance in water. Keep it, its leaks and its rinsings out of potable water, drains and soil, and say on a label what the circuit holds.")
	}
	for _, h := range s.Hazards {
		all = append(all, hazardCautions[h])
	}
	return append(all, lastCaution)
}

var hazardCautions = map[string]string{
	"poisonous": "Poison: ethylene glycol and methanol kill when they are drunk, in small amounts too. Nothing of them may reach potable water or stand about in open or unlabelled containers.",
	"flammable": "Fire: alcohols and their solutions give off vapour that burns and explodes, sooner the stronger and the warmer they are. No flame, spark or hot surface where they are mixed, filled, vented or let out; air the room.",
	"corrosive": "Corrosion: salt solutions eat metals, above all where air gets in or drops dry. Rinse what was wetted, and watch pH and inhibitor every year.",
}

const lastCaution = "Local codes come first; work on pressure vessels, unvented cylinders, refrigerant and electricity belongs to licensed persons."

var cautions = []string{
	"Pressure: a shut, blocked or wrongly set relief valve can burst a circuit or a cylinder. Never close, cap or set a relief valve higher to stop it from dripping: find out why it drips.",
	"Tests with air or gas store enough energy to kill. Test with water; where air is used, only at the low pressure and with the distance that the code gives.",
	"Scalding: water of 60 °C scalds within seconds. Mix it down where people draw it, above all for children and the old.",
	"Legionella: they multiply in water between about 25 and 50 °C. Keep the store hot, flush what is seldom used, ask a specialist where people are vulnerable.",
	"Frost: calculated times hold for the tube, the wind and the dry insulation of the job file. A bare valve, a gap or wet insulation freezes earlier.",
}

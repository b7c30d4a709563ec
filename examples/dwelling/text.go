package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/hydronics"
	"example.com/hydronics/internal/job"
)

const width = 78 // readable at 80 columns

// A page collects lines and the sources that they refer to.
type page struct {
	b       strings.Builder
	sources []hydronics.Source
	number  map[hydronics.Source]int
	section int
}

func writeText(out io.Writer, s *job.Sheet) error {
	p := &page{number: map[hydronics.Source]int{}}
	p.head(s)
	p.flows(s)
	p.tubes(s)
	p.circuits(s)
	p.pressure(s)
	p.frost(s)
	p.hotWater(s)
	p.findings(s)
	p.cautions()
	p.sourceList()
	p.signature(s)
	_, err := io.WriteString(out, p.b.String())
	return err
}

func (p *page) line(format string, args ...any) {
	p.b.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

// title begins a section.
func (p *page) title(name string) {
	p.section++
	p.line("")
	p.line("%d  %s", p.section, name)
	p.line("%s", strings.Repeat("-", width))
}

// fold writes text between the indent and the width.
func (p *page) fold(indent int, text string) {
	for _, l := range folded(text, width-indent) {
		p.line("%s%s", strings.Repeat(" ", indent), l)
	}
}

func folded(text string, width int) []string {
	var lines []string
	current := ""
	for _, word := range strings.Fields(text) {
		if current != "" && utf8.RuneCountInString(current)+1+utf8.RuneCountInString(word) > width {
			lines = append(lines, current)
			current = ""
		}
		if current != "" {
			current += " "
		}
		current += word
	}
	return append(lines, current)
}

// row writes a label, dots and a value.
func (p *page) row(label, value string) {
	const middle = 46
	dots := max(2, middle-utf8.RuneCountInString(label))
	lead := "   " + label + " " + strings.Repeat(".", dots) + " "
	for i, l := range folded(value, width-utf8.RuneCountInString(lead)) {
		if i > 0 {
			lead = strings.Repeat(" ", utf8.RuneCountInString(lead))
		}
		p.line("%s%s", lead, l)
	}
}

func (p *page) head(s *job.Sheet) {
	p.line("%s", s.Title)
	p.line("%s", strings.Repeat("=", utf8.RuneCountInString(s.Title)))
	if s.Remark != "" {
		p.fold(0, s.Remark)
	}
	p.line("")
	rules := s.Rules
	if s.HotWater != nil && s.PotableRules != "" {
		rules += "; " + s.PotableRules
	}
	p.fold(0, "Jurisdiction "+s.Jurisdiction+": "+rules+".")
	p.fold(0, "The circuit is filled with "+s.Liquid+", which begins to freeze at "+figure(s.FreezingPoint)+" °C.")
	p.line("")
	open := s.Count(hydronics.SeeOnSite)
	p.fold(0, fmt.Sprintf("%d requirements: %d met, %d met on an unconfirmed source, %d met only within the uncertainty, %d NOT MET, %d to be seen on site.",
		len(s.Findings), s.Count(hydronics.Met), s.Count(hydronics.MetUnconfirmed), s.Count(hydronics.MetWithinUncertainty), s.Count(hydronics.NotMet), open))
	p.line("")
	p.fold(0, "THIS CALCULATION ALONE RELEASES NOTHING. It rests on the figures of the job file; what is marked \"on site\" has to be seen there, and a competent person has to check and sign.")
}

func (p *page) flows(s *job.Sheet) {
	p.title("Flow and circulator")
	p.line("   %-34s%s", "", columns(s.Modes, func(m job.Mode) string { return m.Name }))
	for _, r := range []struct {
		label string
		value func(m job.Mode) float64
		unit  string
	}{
		{"flow", func(m job.Mode) float64 { return m.Flow / hydronics.LitrePerMinute }, "l/min"},
		{"loss in the unit", func(m job.Mode) float64 { return m.Unit / hydronics.Kilopascal }, "kPa"},
		{"loss in tubes and bends", func(m job.Mode) float64 { return m.Tubes / hydronics.Kilopascal }, "kPa"},
		{"loss in valves and strainers", func(m job.Mode) float64 { return m.Devices / hydronics.Kilopascal }, "kPa"},
		{"loss in the worst circuit", func(m job.Mode) float64 { return m.Worst / hydronics.Kilopascal }, "kPa"},
		{"what the circulator has to give", func(m job.Mode) float64 { return m.Required / hydronics.Kilopascal }, "kPa"},
		{"what it can give at that flow", func(m job.Mode) float64 { return float64(m.Available) / hydronics.Kilopascal }, "kPa"},
	} {
		p.line("   %-34s%s", r.label, columns(s.Modes, func(m job.Mode) string { return fixed(r.value(m)) + " " + r.unit }))
	}
	for _, m := range s.Modes {
		p.row("worst circuit, "+m.Name, m.Index)
	}
	p.row("supply at the design temperature", figure(s.Supply)+" °C")
	p.row("return, mixed from all circuits", figure(s.Return)+" °C")
}

func columns(modes []job.Mode, cell func(job.Mode) string) string {
	var b strings.Builder
	for _, m := range modes {
		b.WriteString(padLeft(cell(m), 20))
	}
	return b.String()
}

func padLeft(s string, n int) string {
	return strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s))) + s
}

func padRight(s string, n int) string {
	return s + strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s)))
}

func (p *page) tubes(s *job.Sheet) {
	p.title("Tube schedule")
	p.line("   %8s %9s %9s %9s %9s %9s  %s", "length", "flow", "velocity", "gradient", "loss", "content", "kind of")
	p.line("   %8s %9s %9s %9s %9s %9s  %s", "m", "l/min", "m/s", "Pa/m", "kPa", "l", "flow")
	for _, t := range s.Tubes {
		where := "indoors"
		if t.Outdoors {
			where = "OUTDOORS"
		}
		coat := "bare"
		if t.Insulation > 0 {
			coat = "insulated " + figure(t.Insulation/hydronics.Millimetre) + " mm"
		}
		p.fold(1, t.Name+": "+t.Tube+", "+where+", "+coat)
		p.numbers(&t)
	}
}

func (p *page) numbers(t *job.TubeLine) {
	p.line("   %8s %9s %9s %9s %9s %9s  %s", fixed(t.Length), fixed(t.Flow/hydronics.LitrePerMinute), fixed2(t.Velocity), whole(t.Gradient),
		fixed2(t.Loss/hydronics.Kilopascal), fixed(t.Content/hydronics.Litre), t.Regime)
}

func (p *page) circuits(s *job.Sheet) {
	p.title("Heating circuits")
	p.line("   %8s %9s %9s %9s %9s %9s  %s", "length", "flow", "velocity", "gradient", "loss", "content", "kind of")
	p.line("   %8s %9s %9s %9s %9s %9s  %s", "m", "l/min", "m/s", "Pa/m", "kPa", "l", "flow")
	for _, t := range s.Circuits {
		p.fold(1, fmt.Sprintf("%s: %s, %s W, return %s °C", t.Name, t.Tube, whole(t.Heat), figure(t.Temperature)))
		p.numbers(&t)
	}
}

func (p *page) pressure(s *job.Sheet) {
	p.title("Content, pressure and relief of the heating circuit")
	c := &s.Content
	litres := func(v float64) string { return fixed(v/hydronics.Litre) + " l" }
	p.row("outdoor unit", litres(c.Unit))
	p.row("tubes of the routes", litres(c.Tubes))
	p.row("heating circuits", litres(c.Circuits))
	p.row("distributor", litres(c.Distributor))
	if c.Coil > 0 {
		p.row("coil of the cylinder", litres(c.Coil))
	}
	p.row("content in all", litres(c.Total))
	p.row("of it always circulating", litres(c.Always))
	p.line("")
	v := &s.Vessel
	if v.NoVessel != "" {
		p.fold(3, "No vessel fits: "+v.NoVessel)
	} else {
		chosen := "given"
		if v.Chosen {
			chosen = "chosen for a content 10 % higher"
		}
		p.row("static pressure above the vessel", bar(v.Static))
		p.row("expansion from filling to hottest", litres(v.Expansion))
		p.row("water reserve", litres(v.Reserve))
		p.row("expansion vessel, least nominal volume", litres(v.Needed))
		p.row("expansion vessel", litres(v.Nominal)+", "+chosen)
		p.row("PRE-CHARGE, water side relieved", bar(float64(v.Precharge)))
		p.row("FILL TO, at "+figure(v.FilledAt)+" °C and the pump at rest", bar(float64(v.Filling)))
		if v.FillMost > 0 {
			p.row("allowed filling pressures", bar(float64(v.FillLeast))+" to "+bar(float64(v.FillMost)))
		}
		p.row("pressure at the coldest / at the hottest", bar(float64(v.Cold))+" / "+bar(float64(v.Hot)))
		p.row("highest final pressure at the vessel", bar(float64(v.Final)))
	}
	p.row("relief valve, set pressure", bar(float64(s.Relief.Set)))
	p.row("heat of all sources that can run at once", kilowatt(s.Relief.Heat))
}

func (p *page) frost(s *job.Sheet) {
	if len(s.Frost) == 0 {
		return
	}
	p.title("Outdoors without power")
	p.fold(3, "Times from the failure of power, in the cold and the wind of the job file, from "+figure(s.Frost[0].Start)+" °C. Water that stands still.")
	p.line("   %9s %12s %12s %12s %16s", "length", "heat flow", "to 3 °C", "to 0 °C", "to half ice")
	for _, x := range s.Frost {
		p.fold(1, x.Name+": "+x.Tube+", insulated "+figure(x.Insulation/hydronics.Millimetre)+" mm")
		p.line("   %9s %12s %12s %12s %16s", fixed(x.Length)+" m", fixed(x.HeatFlow)+" W/m", duration(float64(x.CoolsTo3)), duration(float64(x.CoolsTo0)), duration(float64(x.FreezesHalf)))
	}
}

func (p *page) hotWater(s *job.Sheet) {
	h := s.HotWater
	if h == nil {
		return
	}
	p.title("Hot water")
	p.row("stored at", figure(h.Stored)+" °C")
	p.row(fmt.Sprintf("one charge mixed to %s °C, at most", figure(h.Mixed)), fixed(h.Volume/hydronics.Litre)+" l")
	p.row("reheating from "+figure(h.ReheatFrom)+" °C", duration(float64(h.ReheatTime))+", "+fixed(h.ReheatHeat/hydronics.KilowattHour)+" kWh")
	p.row("standing loss", whole(h.Standing)+" W")
	p.row("cold water pressure at the cylinder", bar(float64(h.Supply)))
	p.row("relief valve", "DN "+whole(h.ReliefDN/hydronics.Millimetre)+", set to "+bar(float64(h.Relief)))
	p.row("expansion in one heating-up", fixed(h.Expansion/hydronics.Litre)+" l")
	if h.Vessel > 0 {
		p.row("potable expansion vessel, least volume", fixed(h.VesselNeed/hydronics.Litre)+" l")
		chosen := "given"
		if h.Chosen {
			chosen = "chosen"
		}
		p.row("potable expansion vessel", fixed(h.Vessel/hydronics.Litre)+" l, "+chosen+", PRE-CHARGE "+bar(float64(h.Precharge)))
	}
	if h.D2 > 0 {
		chosen := ""
		if h.D2Chosen {
			chosen = ", chosen"
		}
		p.row("discharge pipe before / after the tundish", whole(h.D1/hydronics.Millimetre)+" / "+whole(h.D2/hydronics.Millimetre)+" mm copper"+chosen)
	}
	p.fold(3, "Cold feed, from the main: "+strings.Join(h.ColdFeed, " > ")+" > cylinder.")
}

var marks = map[hydronics.Verdict]string{
	hydronics.Met: "met", hydronics.MetUnconfirmed: "met, unconfirmed source", hydronics.MetWithinUncertainty: "met within uncertainty only",
	hydronics.NotMet: "NOT MET", hydronics.SeeOnSite: "on site [  ]",
}

func (p *page) findings(s *job.Sheet) {
	p.title("Requirements")
	p.fold(3, "Each with its value, its limit, ± the uncertainty of their difference, the number of its source (see the list) and the verdict.")
	last := job.Part(255)
	for i, f := range s.Findings {
		if f.Part != last {
			p.line("")
			p.line("   %s", strings.ToUpper(f.Part.String()))
			last = f.Part
		}
		number := strconv.Itoa(i + 1)
		lines := folded(f.Subject+": "+f.Rule, width-6)
		for k, l := range lines {
			if k > 0 {
				number = ""
			}
			p.line("%4s  %s", number, l)
		}
		left := strings.Repeat(" ", 6) + strings.TrimSpace(fmt.Sprintf("%s [%d]", compare(&f.Finding), p.cite(f.Source)))
		verdict := marks[f.Verdict]
		gap := width - utf8.RuneCountInString(left) - utf8.RuneCountInString(verdict)
		if gap < 1 {
			p.line("%s", left)
			p.line("%s", padLeft(verdict, width))
		} else {
			p.line("%s%s%s", left, strings.Repeat(" ", gap), verdict)
		}
		if f.Verdict == hydronics.NotMet && f.Danger != "" {
			p.fold(6, "Danger: "+f.Danger+".")
		}
	}
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
	text := sc.show(f.Value) + ", " + word + sc.show(f.Limit)
	if f.Uncertainty > 0 && !math.IsInf(f.Uncertainty, 0) && sc.bare(f.Uncertainty) != sc.bare(0) {
		text += ", ± " + sc.bare(f.Uncertainty)
	}
	return text
}

func (p *page) cite(s hydronics.Source) int {
	if n, ok := p.number[s]; ok {
		return n
	}
	p.sources = append(p.sources, s)
	p.number[s] = len(p.sources)
	return len(p.sources)
}

func (p *page) sourceList() {
	p.title("Sources")
	for i, s := range p.sources {
		lines := folded(s.String(), width-6)
		for k, l := range lines {
			if k == 0 {
				p.line("%4d  %s", i+1, l)
			} else {
				p.line("      %s", l)
			}
		}
	}
}

func (p *page) cautions() {
	p.title("Cautions")
	for _, c := range cautions {
		for k, l := range folded(c, width-6) {
			mark := "   *  "
			if k > 0 {
				mark = "      "
			}
			p.line("%s%s", mark, l)
		}
	}
}

var cautions = []string{
	"Pressure: a shut, blocked or wrongly set relief valve can burst a circuit or a cylinder. Never close, cap or set a relief valve higher to stop it from dripping: find out why it drips.",
	"Scalding: water of 60 °C scalds within seconds. Mix it down where people draw it, above all for children and the old.",
	"Legionella: water that stands between 25 and 50 °C breeds them. Keep the store hot, flush what is seldom used, ask a specialist where people are vulnerable.",
	"Frost: calculated times hold for the tube, the wind and the dry insulation of the job file. A bare valve, a gap or wet insulation freezes earlier.",
	"Antifreeze: ethylene glycol is poisonous. Nothing of it may reach potable water, drains or soil.",
	"Local codes come first; work on pressure vessels, unvented cylinders, refrigerant and electricity belongs to licensed persons.",
}

func (p *page) signature(s *job.Sheet) {
	p.title("Release")
	p.fold(3, fmt.Sprintf("%d requirements are to be seen on site and %d are not met. While one of either is open, nothing is released.", s.Count(hydronics.SeeOnSite), s.Count(hydronics.NotMet)))
	p.line("")
	p.line("   checked and seen on site by: ______________________________________")
	p.line("")
	p.line("   place, date: ______________________  signature: ___________________")
}

package reference

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/unit"
)

// A Report is a set of tables compared, and what the figures of the whole say.
type Report struct {
	Results []Result
	// Headline figures, from tables inside the project only.
	Covered, Exported int               // exported calculations with a gating table, and all that can have one
	Uncovered         []Uncovered       // exported calculations without a gating table
	Exempt            map[string]string // exported names that no published value can check, with the reason
	Calculations      []CalculationUse
}

// Uncovered is an exported calculation without a gating table, and what tables
// it has that do not gate, each with its provenance.
type Uncovered struct {
	Name   string
	Tables []string
}

// CalculationUse says how well the tables cover one calculation.
type CalculationUse struct {
	Calculation calculation.Calculation
	Tables      int
	Origins     int // different sources among its gating tables
	Ranges      []InputRange
}

// InputRange is the span of one numeric input over all gating tables.
type InputRange struct {
	Column   calculation.Column
	Min, Max float64 // SI
}

// NewReport compares the tables and weighs them against the calculations.
func NewReport(tables []*Table, calculations []calculation.Calculation, exempt map[string]string) Report {
	r := Report{Exempt: exempt}
	covered := map[string]bool{}
	gating, informative := map[string][]*Table{}, map[string][]string{}
	for _, t := range tables {
		result := t.Compare()
		r.Results = append(r.Results, result)
		name := t.Calculation.Name
		if slices.ContainsFunc(result.Values, func(v Value) bool { return v.Gates }) {
			gating[name] = append(gating[name], t)
			for _, n := range t.Calculation.Covers {
				covered[n] = true
			}
		} else {
			informative[name] = append(informative[name], fmt.Sprintf("%s (%s)", t.File, t.Provenance))
		}
	}
	seen := map[string]bool{}
	for _, c := range calculations {
		r.Calculations = append(r.Calculations, useOf(c, gating[c.Name]))
		for _, n := range c.Covers {
			if seen[n] {
				continue
			}
			seen[n] = true
			r.Exported++
			if covered[n] {
				r.Covered++
			} else {
				r.Uncovered = append(r.Uncovered, Uncovered{n, informative[c.Name]})
			}
		}
	}
	return r
}

func useOf(c calculation.Calculation, tables []*Table) CalculationUse {
	use := CalculationUse{Calculation: c, Tables: len(tables)}
	origins := map[string]bool{}
	for _, t := range tables {
		origins[t.Source] = true
	}
	use.Origins = len(origins)
	for _, in := range c.Inputs {
		if !in.Kind.Text() {
			use.Ranges = append(use.Ranges, InputRange{in, math.Inf(1), math.Inf(-1)})
		}
	}
	for _, t := range tables {
		for i := range t.rows {
			if t.cell(i, "expect") != "" {
				continue // a row that has to be refused covers nothing
			}
			row := t.input(i)
			for k := range use.Ranges {
				span := &use.Ranges[k]
				if v := row.Num(span.Column.Name); !math.IsNaN(v) {
					span.Min, span.Max = math.Min(span.Min, v), math.Max(span.Max, v)
				}
			}
		}
	}
	use.Ranges = slices.DeleteFunc(use.Ranges, func(s InputRange) bool { return s.Min > s.Max })
	return use
}

// Failed returns the number of gating values outside their tolerance.
func (r Report) Failed() int {
	n := 0
	for _, result := range r.Results {
		n += result.count(func(v Value) bool { return v.Gates && !v.OK })
	}
	return n
}

func (r Result) count(which func(Value) bool) int {
	n := 0
	for _, v := range r.Values {
		if which(v) {
			n++
		}
	}
	return n
}

// Worst returns the value that uses the largest share of its tolerance, failures
// first; false where nothing numeric was compared.
func (r Result) Worst() (Value, bool) {
	var worst Value
	found := false
	rank := func(v Value) float64 {
		if math.IsNaN(v.Used()) {
			return -1
		}
		return v.Used()
	}
	for _, v := range r.Values {
		if !math.IsNaN(v.Tolerance) && (!found || rank(v) > rank(worst)) {
			worst, found = v, true
		}
	}
	return worst, found
}

// Bias returns "above" or "below" where all of at least eight deviations lie on
// one side, and "" otherwise.
func (r Result) Bias() string {
	above, below := 0, 0
	for _, v := range r.Values {
		switch {
		case v.Deviation > 0:
			above++
		case v.Deviation < 0:
			below++
		}
	}
	switch {
	case above >= 8 && below == 0:
		return "above"
	case below >= 8 && above == 0:
		return "below"
	}
	return ""
}

// Verdict says in a word or two how the table came out.
func (r Result) Verdict() string {
	switch failed, gates := r.count(func(v Value) bool { return v.Gates && !v.OK }), r.count(func(v Value) bool { return v.Gates }); {
	case failed > 0:
		return fmt.Sprintf("%d FAILED", failed)
	case gates == 0 && r.count(func(v Value) bool { return v.Disputed != "" }) > 0:
		return "disputed"
	case gates == 0:
		return "informative"
	}
	return "ok"
}

// Remarks lists what an auditor should look at although nothing failed.
func (r Result) Remarks() []string {
	var remarks []string
	loose := map[string]float64{}
	for _, v := range r.Values {
		used := v.Used()
		if v.Gates && v.OK && used > 0.9 && v.Limit > 0 {
			remarks = append(remarks, fmt.Sprintf("line %d, %s: %.0f %% of the tolerance is used", v.Line, v.Column, 100*used))
		}
		if v.Limit > 0 && v.Line > 0 {
			loose[v.Column] = math.Max(loose[v.Column], math.Abs(v.Deviation)/v.Limit)
		}
		if v.Disputed != "" && !v.OK {
			remarks = append(remarks, fmt.Sprintf("line %d, %s: printed %s, computed %s: %s", v.Line, v.Column, v.Want, v.Got, oneLine(v.Disputed)))
		}
		if !v.Gates && v.Disputed == "" && !v.OK && v.Line > 0 {
			remarks = append(remarks, fmt.Sprintf("line %d, %s: %s gives %s, computed %s", v.Line, v.Column, v.Provenance, v.Want, v.Got))
		}
	}
	columns := make([]string, 0, len(loose))
	for c := range loose {
		columns = append(columns, c)
	}
	slices.Sort(columns)
	for _, c := range columns {
		if loose[c] < 0.01 {
			remarks = append(remarks, fmt.Sprintf("%s: the declared limit is too loose, less than 1 %% of it is used", c))
		}
	}
	return remarks
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// WriteMarkdown writes the report. Its figures carry two or three digits, so
// that it reads the same on every platform.
func (r Report) WriteMarkdown(w io.Writer) error {
	p := &printer{w: w}
	p.line("# Audit of the reference tables\n")
	p.line("hydronics %s\n", hydronics.Version)
	r.headline(p)
	r.tables(p)
	r.remarks(p)
	r.calculations(p)
	r.sources(p)
	return p.err
}

// WriteTables writes the tables and remarks alone, for tables from outside the
// project, which have no part in its headline.
func (r Report) WriteTables(w io.Writer) error {
	p := &printer{w: w}
	p.line("# Audit of tables from outside the project")
	r.tables(p)
	r.remarks(p)
	return p.err
}

// WriteValues writes every computed number with all its digits as CSV: table,
// line, column, value. Two machines that agree write nearly the same file.
func (r Report) WriteValues(w io.Writer) error {
	p := &printer{w: w}
	p.line("table,line,column,value")
	for _, result := range r.Results {
		for _, v := range result.Values {
			if v.Line > 0 && !math.IsNaN(v.Computed) {
				p.line("%s,%d,%s,%.17g", result.File, v.Line, v.Column, v.Computed)
			}
		}
	}
	return p.err
}

func (r Report) tables(p *printer) {
	area := ""
	for _, result := range r.Results {
		if a := result.Area(); a != area {
			area = a
			p.line("\n## %s\n", area)
			p.line("| table | calculation | provenance | values | worst at | deviation | tolerance | used | bias | verdict |")
			p.line("|---|---|---|---|---|---|---|---|---|---|")
		}
		result.writeRow(p)
	}
}

type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// Totals counts the published values of a report.
type Totals struct {
	Values, Gating, Disputed int
	ByProvenance             [hydronics.FromMemory + 1]int
}

// Totals counts the values. The points of measured data gate as a whole; the
// summary that judges them is no value of its own.
func (r Report) Totals() Totals {
	var t Totals
	for _, result := range r.Results {
		for _, v := range result.Values {
			if v.Line == 0 {
				continue
			}
			t.Values++
			t.ByProvenance[v.Provenance]++
			switch {
			case v.Disputed != "":
				t.Disputed++
			case v.Gates || v.Provenance == hydronics.Measured:
				t.Gating++
			}
		}
	}
	return t
}

// Share returns the share of the exported calculations that have a gating table.
func (r Report) Share() float64 {
	if r.Exported == 0 {
		return 1
	}
	return float64(r.Covered) / float64(r.Exported)
}

// Published returns the number of values that the table holds.
func (r Result) Published() int { return r.count(func(v Value) bool { return v.Line > 0 }) }

func (r Report) headline(p *printer) {
	t := r.Totals()
	p.line("**%d of %d exported calculations (%.0f %%) have at least one gating table.**", r.Covered, r.Exported, 100*r.Share())
	p.line("**%d tables, %d values: %d gate, %d failed, %d disputed.**\n", len(r.Results), t.Values, t.Gating, r.Failed(), t.Disputed)
	p.line("| provenance | values |")
	p.line("|---|---|")
	for prov := hydronics.Original; prov <= hydronics.FromMemory; prov++ {
		p.line("| %s | %d |", prov, t.ByProvenance[prov])
	}
	if len(r.Uncovered) > 0 {
		p.line("\nWithout a gating table, since nothing published was found that would not be what the code was copied from:\n")
	}
	for _, u := range r.Uncovered {
		p.line("- %s, reported only: %s", u.Name, cmp.Or(strings.Join(u.Tables, ", "), "no table"))
	}
}

func (r Result) writeRow(p *printer) {
	at, deviation, tolerance, used := "–", "–", "–", "–"
	if v, ok := r.Worst(); ok {
		at = v.Column
		if v.Line > 0 {
			at = fmt.Sprintf("line %d, %s", v.Line, v.Column)
		}
		deviation, tolerance = fmt.Sprintf("%.2g", v.Deviation), fmt.Sprintf("%.2g", v.Tolerance)
		used = fmt.Sprintf("%.0f %%", 100*v.Used())
	}
	p.line("| %s | %s | %s | %d | %s | %s | %s | %s | %s | %s |", strings.TrimSuffix(r.File[strings.LastIndexByte(r.File, '/')+1:], ".csv"),
		r.Calculation.Name, r.Provenance, r.Published(), at, deviation, tolerance, used, cmp.Or(r.Bias(), "–"), r.Verdict())
}

func (r Report) remarks(p *printer) {
	p.line("\n## Remarks\n")
	none := true
	for _, result := range r.Results {
		for _, v := range result.Values {
			if v.Gates && !v.OK {
				none = false
				reason := fmt.Sprintf("deviation %.3g, tolerance %.3g", v.Deviation, v.Tolerance)
				if v.Err != nil {
					reason = v.Err.Error()
				}
				p.line("- **%s, line %d, %s: printed %s, computed %s: %s**", result.File, v.Line, v.Column, v.Want, cmp.Or(v.Got, "nothing"), oneLine(reason))
			}
		}
		for _, remark := range result.Remarks() {
			none = false
			p.line("- %s, %s", result.File, remark)
		}
	}
	if none {
		p.line("None.")
	}
}

func (r Report) calculations(p *printer) {
	p.line("\n## Calculations and the range of inputs their tables cover\n")
	p.line("| calculation | tables | sources | inputs covered |")
	p.line("|---|---|---|---|")
	for _, use := range r.Calculations {
		spans := make([]string, 0, len(use.Ranges))
		for _, s := range use.Ranges {
			u := first(s.Column.Kind)
			spans = append(spans, fmt.Sprintf("%s %.4g to %.4g", s.Column.Header(), u.From(s.Min), u.From(s.Max)))
		}
		origins := fmt.Sprint(use.Origins)
		if use.Calculation.Safety && use.Origins < 2 {
			origins += " (a safety figure: wants two)"
		}
		p.line("| %s | %d | %s | %s |", use.Calculation.Name, use.Tables, origins, strings.Join(spans, "; "))
	}
}

func first(k unit.Kind) unit.Unit { return k.Units()[0] }

func (r Report) sources(p *printer) {
	p.line("\n## Sources\n")
	for _, result := range r.Results {
		p.line("- **%s** %s. %s. %s.", result.File, oneLine(result.Title), strings.TrimSuffix(hydronics.Source{Text: oneLine(result.Source), Provenance: result.Provenance}.String(), "."),
			strings.TrimSuffix(oneLine(result.Locator), "."))
	}
	if len(r.Exempt) > 0 {
		p.line("\n## Exported names that no published value can check\n")
		names := make([]string, 0, len(r.Exempt))
		for n := range r.Exempt {
			names = append(names, n)
		}
		slices.Sort(names)
		for _, n := range names {
			p.line("- %s: %s", n, r.Exempt[n])
		}
	}
}

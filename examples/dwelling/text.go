package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"example.com/hydronics/internal/job"
)

const width = 78 // readable at 80 columns

// A textPage writes a document as plain text.
type textPage struct {
	b       strings.Builder
	section int
}

func writeText(out io.Writer, s *job.Sheet) error {
	d := documentOf(s)
	p := &textPage{}
	p.line("%s", d.Title)
	p.line("%s", strings.Repeat("=", min(width, utf8.RuneCountInString(d.Title))))
	if d.Remark != "" {
		p.fold("", d.Remark)
	}
	for _, words := range []string{d.Rules + " " + d.Liquid, d.Origin, d.Summary, d.Warning} {
		p.line("")
		p.fold("", words)
	}
	for _, s := range d.Sections {
		p.write(&s)
	}
	p.requirements(d)
	p.readings(d)
	p.list("Cautions", "   *  ", d.Cautions)
	p.list("Sources", "", d.Sources)
	p.title("Release")
	p.fold("   ", d.Release)
	p.line("")
	p.line("   checked and seen on site by: ______________________________________")
	p.line("")
	p.line("   place, date: ______________________  signature: ___________________")
	_, err := io.WriteString(out, p.b.String())
	return err
}

func (p *textPage) line(format string, args ...any) {
	p.b.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

// title begins a section.
func (p *textPage) title(name string) {
	p.section++
	p.line("")
	p.line("%d  %s", p.section, name)
	p.line("%s", strings.Repeat("-", width))
}

// fold writes words behind a lead, and what does not fit below it.
func (p *textPage) fold(lead, words string) {
	n := utf8.RuneCountInString(lead)
	for _, l := range folded(words, width-n) {
		p.line("%s%s", lead, l)
		lead = strings.Repeat(" ", n)
	}
}

func folded(words string, width int) []string {
	var lines []string
	current := ""
	for word := range strings.FieldsSeq(words) {
		if current != "" && utf8.RuneCountInString(current)+1+utf8.RuneCountInString(word) > width {
			lines = append(lines, current)
			current = ""
		}
		for utf8.RuneCountInString(word) > width { // a word that fits nowhere
			r := []rune(word)
			lines = append(lines, string(r[:width]))
			word = string(r[width:])
		}
		if current != "" {
			current += " "
		}
		current += word
	}
	return append(lines, current)
}

func (p *textPage) write(s *section) {
	p.title(s.Title)
	if s.Intro != "" {
		p.fold("   ", s.Intro)
	}
	if s.Table != nil {
		p.table(s.Table)
	}
	middle := 46
	for _, q := range s.Pairs {
		middle = min(56, max(middle, utf8.RuneCountInString(q.Label)+3))
	}
	for _, q := range s.Pairs {
		p.fold("   "+q.Label+" "+strings.Repeat(".", max(2, middle-utf8.RuneCountInString(q.Label)))+" ", q.Value)
	}
	for _, words := range s.Words {
		p.fold("   ", words)
	}
}

func (p *textPage) table(t *table) {
	const narrow = 11
	cell, first := min(16, (width-3)/len(t.Head)), 0
	for _, r := range t.Rows {
		first = max(first, utf8.RuneCountInString(r.Lead))
	}
	beside := first+narrow*len(t.Head) <= width-3 // names and cells fit into one line
	if beside {
		cell = narrow
	} else {
		first = 0
	}
	write := func(lead string, cells []string) {
		var b strings.Builder
		b.WriteString(lead + strings.Repeat(" ", first-utf8.RuneCountInString(lead)))
		for _, c := range cells {
			b.WriteString(strings.Repeat(" ", max(1, cell-utf8.RuneCountInString(c))) + c)
		}
		p.line("   %s", b.String())
	}
	write("", t.Head)
	write("", t.Units)
	for _, r := range t.Rows {
		if beside {
			write(r.Lead, r.Cells)
			continue
		}
		p.fold(" ", r.Lead)
		write("", r.Cells)
	}
}

func (p *textPage) requirements(d *document) {
	p.title("Requirements")
	p.fold("   ", d.How)
	for _, part := range d.Parts {
		p.line("")
		p.line("   %s", strings.ToUpper(part.Name))
		for i := range part.Requirements {
			r := &part.Requirements[i]
			p.fold(fmt.Sprintf("%4d  ", r.Number), r.Text)
			left := "      " + strings.TrimSpace(fmt.Sprintf("%s [%d]", r.Compare, r.Source))
			gap := width - utf8.RuneCountInString(left) - utf8.RuneCountInString(r.Verdict)
			if gap < 1 {
				p.line("%s", left)
				left, gap = "", width-utf8.RuneCountInString(r.Verdict)
			}
			p.line("%s%s%s", left, strings.Repeat(" ", gap), r.Verdict)
			if r.Danger != "" {
				p.fold("      ", "Danger: "+r.Danger+".")
			}
			if r.Remedy != "" {
				p.fold("      ", "Remedy: "+r.Remedy+".")
			}
		}
	}
}

func (p *textPage) readings(d *document) {
	p.title("Settings and readings, to be filled in on site")
	p.line("%57s  %s", "calculated", "measured")
	for _, r := range d.Readings {
		expected := strings.TrimSpace(r.Expected)
		blank := "________"
		if r.Unit != "" {
			blank += " " + r.Unit
		}
		lines := folded(r.What, 34)
		for i, l := range lines {
			if i < len(lines)-1 {
				p.line("   %s", l)
				continue
			}
			gap := max(1, 54-utf8.RuneCountInString(l)-utf8.RuneCountInString(expected))
			p.line("   %s%s%s  %s", l, strings.Repeat(" ", gap), expected, blank)
		}
	}
	p.line("")
	for i, h := range d.Handover {
		lead := "                "
		if i == 0 {
			lead = "   Handed over: "
		}
		p.fold(lead+"[  ] ", h)
	}
}

// list writes words behind a mark, or behind numbers.
func (p *textPage) list(title, mark string, words []string) {
	p.title(title)
	for i, w := range words {
		lead := mark
		if lead == "" {
			lead = fmt.Sprintf("%4d  ", i+1)
		}
		p.fold(lead, w)
	}
}

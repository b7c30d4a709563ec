package reference

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/unit"
)

// A Table is one published table, linted but not yet compared.
type Table struct {
	File                                string // "fluid/if97_region1.csv"
	Title, Source, Locator, Seen, Notes string
	Why, Disputed                       string
	Provenance                          hydronics.Provenance
	Calculation                         calculation.Calculation

	given   calculation.Row
	inputs  []inputColumn
	checks  []checkColumn
	special map[string]int // column index by name: expect, provenance, ...
	groupBy int            // column index of the case, or -1
	rows    [][]string
	lines   []int // line number of each row in the file
}

type inputColumn struct {
	index  int
	column calculation.Column
	unit   unit.Unit
	exact  bool
}

type mode uint8

const (
	printed mode = iota + 1
	discrete
	relative
	absolute
	measured
)

type checkColumn struct {
	index     int
	header    string
	column    calculation.Column
	unit      unit.Unit
	mode      mode
	limit     float64 // relative or absolute
	mean, rms float64 // measured
}

// Area returns the folder of the table, such as "fluid".
func (t *Table) Area() string { return path.Dir(t.File) }

// Rows returns the number of rows.
func (t *Table) Rows() int { return len(t.rows) }

var specialColumns = []string{"expect", "provenance", "disputed", "label", "note", "source", "locator", "seen"}

// Load reads and lints every CSV file below dir, in lexical order. Its error
// joins all that is wrong with all of them.
func Load(fsys fs.FS, dir string, calculations []calculation.Calculation) ([]*Table, error) {
	var tables []*Table
	var wrong []error
	err := fs.WalkDir(fsys, dir, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path.Ext(name) != ".csv" {
			return err
		}
		content, err := fs.ReadFile(fsys, name)
		if err != nil {
			return err
		}
		table, err := Parse(name, content, calculations)
		if err != nil {
			wrong = append(wrong, err)
			return nil
		}
		tables = append(tables, table)
		return nil
	})
	return tables, errors.Join(append(wrong, err)...)
}

// Parse reads and lints one table.
func Parse(name string, content []byte, calculations []calculation.Calculation) (*Table, error) {
	t := &Table{File: strings.TrimPrefix(name, "data/"), groupBy: -1, special: map[string]int{}}
	h, body, headerLines, err := splitHeader(content)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	reader := csv.NewReader(bytes.NewReader(body))
	columns, err := reader.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: no row of column names: %w", name, err)
	}
	wrong := append(t.setHeader(h, calculations), t.setColumns(h, columns)...)
	for {
		row, err := reader.Read()
		if row == nil {
			if err != nil && err.Error() != "EOF" {
				wrong = append(wrong, err)
			}
			break
		}
		line, _ := reader.FieldPos(0)
		if err != nil {
			wrong = append(wrong, err)
			break
		}
		t.rows, t.lines = append(t.rows, row), append(t.lines, line+headerLines)
	}
	if len(t.rows) == 0 {
		wrong = append(wrong, errors.New("no rows"))
	}
	if len(wrong) == 0 {
		wrong = t.lintCells()
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return t, nil
}

// splitHeader returns the header keys with their values, the CSV after them and
// the number of header lines.
func splitHeader(content []byte) (map[string][]string, []byte, int, error) {
	header := map[string][]string{}
	lines := 0
	for len(content) > 0 && content[0] == '#' {
		line, rest, _ := bytes.Cut(content, []byte("\n"))
		key, value, ok := strings.Cut(strings.TrimPrefix(string(line), "#"), ":")
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		lines++
		if !ok || !slices.Contains(headerKeys, key) {
			return nil, nil, 0, fmt.Errorf("line %d: unknown header key %q", lines, key)
		}
		if value != "" {
			header[key] = append(header[key], value)
		}
		content = rest
	}
	return header, content, lines, nil
}

var headerKeys = []string{"title", "source", "locator", "provenance", "seen", "calculation",
	"exact", "given", "case", "check", "why", "disputed", "notes"}

// setHeader takes the keys that do not depend on the columns.
func (t *Table) setHeader(h map[string][]string, calculations []calculation.Calculation) (wrong []error) {
	one := func(key string) string {
		if len(h[key]) != 1 {
			wrong = append(wrong, fmt.Errorf("header key %q: want exactly one, have %d", key, len(h[key])))
			return ""
		}
		return h[key][0]
	}
	t.Title, t.Source, t.Locator, t.Seen = one("title"), one("source"), one("locator"), one("seen")
	t.Notes, t.Why, t.Disputed = strings.Join(h["notes"], "\n"), strings.Join(h["why"], "\n"), strings.Join(h["disputed"], "\n")
	word := one("provenance")
	var ok bool
	if t.Provenance, ok = hydronics.ParseProvenance(word); !ok {
		wrong = append(wrong, fmt.Errorf("provenance %q is none of the seven words", word))
	}
	called := one("calculation")
	i := slices.IndexFunc(calculations, func(c calculation.Calculation) bool { return c.Name == called })
	if i < 0 {
		return append(wrong, fmt.Errorf("no calculation %q", called))
	}
	t.Calculation = calculations[i]
	t.given = calculation.Row{}
	for _, g := range h["given"] {
		column, cell, _ := strings.Cut(g, " ")
		in, u, ok := t.Calculation.MatchInput(column)
		if !ok {
			wrong = append(wrong, fmt.Errorf("given %q is no input of %s (accepted: %s)", column, called, t.Calculation.Accepted()))
			continue
		}
		if in.Kind.Text() {
			t.given[in.Name] = strings.TrimSpace(cell)
			continue
		}
		v, err := number(strings.TrimSpace(cell))
		if err != nil {
			wrong = append(wrong, fmt.Errorf("given %s: %w", column, err))
		}
		t.given[in.Name] = u.SI(v)
	}
	return wrong
}

// setColumns gives every column its role; a column without one is an error.
func (t *Table) setColumns(h map[string][]string, columns []string) (wrong []error) {
	var exact []string
	for _, list := range h["exact"] {
		for name := range strings.SplitSeq(list, ",") {
			exact = append(exact, strings.TrimSpace(name))
		}
	}
	checks := map[string]string{}
	for _, c := range h["check"] {
		column, rule, _ := strings.Cut(c, " ")
		if _, twice := checks[column]; twice {
			wrong = append(wrong, fmt.Errorf("check %q stands twice", column))
		}
		checks[column] = strings.TrimSpace(rule)
	}
	var group string
	if len(h["case"]) > 0 {
		group = h["case"][0]
	}
	for i, name := range columns {
		if slices.Contains(columns[:i], name) {
			wrong = append(wrong, fmt.Errorf("column %q stands twice", name))
			continue
		}
		if name == group {
			t.groupBy = i
		}
		if rule, ok := checks[name]; ok {
			check, err := t.check(i, name, rule)
			if err != nil {
				wrong = append(wrong, err)
			}
			t.checks = append(t.checks, check)
			delete(checks, name)
			continue
		}
		if in, u, ok := t.Calculation.MatchInput(name); ok {
			t.inputs = append(t.inputs, inputColumn{i, in, u, slices.Contains(exact, name) || in.Kind.Text()})
			continue
		}
		switch _, _, output := t.Calculation.MatchOutput(name); {
		case slices.Contains(specialColumns, name):
			t.special[name] = i
		case output:
			wrong = append(wrong, fmt.Errorf("output column %q has no check", name))
		case name != group:
			wrong = append(wrong, fmt.Errorf("column %q is no input of %s (accepted: %s)", name, t.Calculation.Name, t.Calculation.Accepted()))
		}
	}
	for name := range checks {
		wrong = append(wrong, fmt.Errorf("check %q has no column", name))
	}
	for _, name := range exact {
		if !slices.Contains(columns, name) {
			wrong = append(wrong, fmt.Errorf("exact %q has no column", name))
		}
	}
	if group != "" && t.groupBy < 0 {
		wrong = append(wrong, fmt.Errorf("case %q has no column", group))
	}
	if _, expects := t.special["expect"]; len(t.checks) == 0 && !expects {
		wrong = append(wrong, errors.New("nothing is checked"))
	}
	for _, in := range t.Calculation.Inputs {
		_, given := t.given[in.Name]
		present := slices.ContainsFunc(t.inputs, func(c inputColumn) bool { return c.column.Name == in.Name })
		switch {
		case !in.Optional && !given && !present:
			wrong = append(wrong, fmt.Errorf("input %q of %s is missing (accepted: %s)", in.Name, t.Calculation.Name, in.Kind.Accepted(in.Name)))
		case given && present:
			wrong = append(wrong, fmt.Errorf("input %q is given and has a column", in.Name))
		}
	}
	return wrong
}

// check reads one rule, such as "rel 0.01".
func (t *Table) check(index int, header, rule string) (checkColumn, error) {
	out, u, ok := t.Calculation.MatchOutput(header)
	if !ok {
		return checkColumn{}, fmt.Errorf("check %q is no output of %s", header, t.Calculation.Name)
	}
	c := checkColumn{index: index, header: header, column: out, unit: u}
	var err error
	switch n, _ := fmt.Sscanf(rule, "mean %g rms %g", &c.mean, &c.rms); {
	case rule == "print":
		c.mode = printed
	case rule == "exact":
		c.mode = discrete
	case n == 2:
		c.mode = measured
	case strings.HasPrefix(rule, "rel "):
		c.mode = relative
		c.limit, err = number(strings.TrimPrefix(rule, "rel "))
	case strings.HasPrefix(rule, "abs "):
		c.mode = absolute
		c.limit, err = number(strings.TrimPrefix(rule, "abs "))
	default:
		err = fmt.Errorf("rule %q is none of print, exact, rel X, abs X, mean A rms B", rule)
	}
	if err == nil && c.mode >= relative && t.Why == "" {
		err = errors.New("a limit wider than print needs why")
	}
	if err == nil && out.Kind.Text() && c.mode != discrete {
		err = errors.New("words are checked with exact")
	}
	if err != nil {
		return c, fmt.Errorf("check %q: %w", header, err)
	}
	return c, nil
}

// lintCells reads every number once, so that comparing cannot fail on one.
func (t *Table) lintCells() (wrong []error) {
	bad := func(row int, header string, err error) {
		wrong = append(wrong, fmt.Errorf("line %d, %s: %w", t.lines[row], header, err))
	}
	for i, row := range t.rows {
		for _, in := range t.inputs {
			cell := row[in.index]
			if cell == "" && !in.column.Optional {
				bad(i, in.column.Name, errors.New("empty"))
			} else if cell != "" && !in.column.Kind.Text() {
				if _, err := number(cell); err != nil {
					bad(i, in.column.Name, err)
				}
			}
		}
		for _, c := range t.checks {
			if cell := row[c.index]; cell != "" && !c.column.Kind.Text() {
				if _, err := number(cell); err != nil {
					bad(i, c.header, err)
				}
			}
		}
		if p := t.cell(i, "provenance"); p != "" {
			if _, ok := hydronics.ParseProvenance(p); !ok {
				bad(i, "provenance", fmt.Errorf("%q is none of the seven words", p))
			}
		}
		if e := t.cell(i, "expect"); e != "" && e != outOfRange && e != noSolution {
			bad(i, "expect", fmt.Errorf("%q is neither %q nor %q", e, outOfRange, noSolution))
		}
	}
	return wrong
}

const (
	outOfRange = "out of range"
	noSolution = "no solution"
)

// cell returns a cell of a special column, or "".
func (t *Table) cell(row int, special string) string {
	if i, ok := t.special[special]; ok {
		return t.rows[row][i]
	}
	return ""
}

// input returns row i as the calculation takes it.
func (t *Table) input(i int) calculation.Row {
	r := make(calculation.Row, len(t.given)+len(t.inputs))
	maps.Copy(r, t.given)
	for _, in := range t.inputs {
		cell := t.rows[i][in.index]
		switch {
		case cell == "":
		case in.column.Kind.Text():
			r[in.column.Name] = cell
		default:
			v, _ := number(cell) // linted
			r[in.column.Name] = in.unit.SI(v)
		}
	}
	return r
}

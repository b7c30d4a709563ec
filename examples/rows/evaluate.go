package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/unit"
)

type options struct {
	keep, out []string
	group     string
}

// bound is a CSV column tied to a column of the calculation.
type bound struct {
	index  int // in the CSV row, for inputs
	header string
	column calculation.Column
	unit   unit.Unit
}

// evaluate reads CSV from in and writes it with the results to out. It returns
// the number of rows that failed; its error means that the input is unusable.
func evaluate(c calculation.Calculation, o options, in io.Reader, out, report io.Writer) (failed int, err error) {
	reader := csv.NewReader(in)
	reader.Comment = '#'
	header, err := reader.Read()
	if err != nil {
		return 0, fmt.Errorf("no row of column names: %w", err)
	}
	header[0] = strings.TrimPrefix(header[0], "\ufeff") // spreadsheets write a byte-order mark
	inputs, err := bindInputs(c, header, o)
	if err != nil {
		return 0, err
	}
	outputs, err := bindOutputs(c, header, o.out)
	if err != nil {
		return 0, err
	}
	groupIndex := -1
	if o.group != "" {
		if groupIndex = slices.Index(header, o.group); groupIndex < 0 {
			return 0, fmt.Errorf("case column %q is not in the input", o.group)
		}
	}
	w := csv.NewWriter(out)
	names := slices.Clone(header)
	for _, b := range outputs {
		names = append(names, b.header)
	}
	if err := w.Write(append(names, "error")); err != nil {
		return 0, err
	}
	batch := &batch{calculation: c, inputs: inputs, outputs: outputs, w: w, report: report}
	for {
		row, err := reader.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil && !errors.Is(err, csv.ErrFieldCount) {
			return batch.failed, errors.Join(err, batch.flush())
		}
		line, _ := reader.FieldPos(0)
		if batch.ends(row, groupIndex) {
			if err := batch.flush(); err != nil {
				return batch.failed, err
			}
		}
		batch.add(line, fit(row, len(header)), err)
	}
	err = batch.flush()
	w.Flush()
	return batch.failed, errors.Join(err, w.Error())
}

// fit gives a ragged row the width of the header; it is reported all the same.
func fit(row []string, width int) []string {
	row = slices.Clone(row[:min(len(row), width)])
	for len(row) < width {
		row = append(row, "")
	}
	return row
}

func bindInputs(c calculation.Calculation, header []string, o options) ([]bound, error) {
	var inputs []bound
	var wrong []error
	for i, name := range header {
		in, u, ok := c.MatchInput(name)
		switch {
		case slices.Contains(header[:i], name):
			wrong = append(wrong, fmt.Errorf("column %q stands twice", name))
		case ok && slices.ContainsFunc(inputs, func(b bound) bool { return b.column.Name == in.Name }):
			wrong = append(wrong, fmt.Errorf("column %q: %s is there already in another unit", name, in.Name))
		case ok:
			inputs = append(inputs, bound{i, name, in, u})
		case !slices.Contains(o.keep, name) && name != o.group:
			wrong = append(wrong, fmt.Errorf("column %q is no input of %s; accepted: %s; or carry it through with -keep", name, c.Name, c.Accepted()))
		}
	}
	for _, in := range c.Inputs {
		if !in.Optional && !slices.ContainsFunc(inputs, func(b bound) bool { return b.column.Name == in.Name }) {
			wrong = append(wrong, fmt.Errorf("input %q is missing; accepted: %s", in.Name, in.Kind.Accepted(in.Name)))
		}
	}
	for _, name := range o.keep {
		if !slices.Contains(header, name) {
			wrong = append(wrong, fmt.Errorf("-keep %q is not in the input", name))
		}
	}
	return inputs, errors.Join(wrong...)
}

func bindOutputs(c calculation.Calculation, header, wanted []string) ([]bound, error) {
	var outputs []bound
	var wrong []error
	if wanted == nil {
		for _, col := range c.Outputs {
			wanted = append(wanted, col.Header())
		}
	}
	for _, name := range wanted {
		col, u, ok := c.MatchOutput(name)
		switch {
		case !ok:
			accepted := make([]string, len(c.Outputs))
			for i, out := range c.Outputs {
				accepted[i] = out.Kind.Accepted(out.Name)
			}
			wrong = append(wrong, fmt.Errorf("-out %q is no result of %s; accepted: %s", name, c.Name, strings.Join(accepted, "; ")))
		case slices.Contains(header, name):
			wrong = append(wrong, fmt.Errorf("result column %q is already in the input", name))
		default:
			outputs = append(outputs, bound{header: name, column: col, unit: u})
		}
	}
	return outputs, errors.Join(wrong...)
}

// batch collects the rows that are evaluated together: one, or those of a case.
type batch struct {
	calculation     calculation.Calculation
	inputs, outputs []bound
	w               *csv.Writer
	report          io.Writer
	failed          int

	lines []int
	cells [][]string
	rows  []calculation.Row
	wrong []error // why a row could not be read
}

// ends reports whether row belongs to another batch than the rows collected.
func (b *batch) ends(row []string, group int) bool {
	if len(b.rows) == 0 {
		return false
	}
	if b.calculation.Case == nil {
		return true
	}
	return group >= 0 && group < len(row) && row[group] != b.cells[0][group]
}

func (b *batch) add(line int, cells []string, wrong error) {
	row := calculation.Row{}
	for _, in := range b.inputs {
		cell := strings.TrimSpace(cells[in.index])
		switch {
		case cell == "" && in.column.Optional:
		case in.column.Kind.Text():
			row[in.column.Name] = cell
		default:
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				wrong = errors.Join(wrong, fmt.Errorf("column %s: %q is not a number", in.header, cell))
			}
			row[in.column.Name] = in.unit.SI(v)
		}
	}
	b.lines, b.cells = append(b.lines, line), append(b.cells, cells)
	b.rows, b.wrong = append(b.rows, row), append(b.wrong, wrong)
}

// flush evaluates the batch and writes its rows.
func (b *batch) flush() error {
	if len(b.rows) == 0 {
		return nil
	}
	var out []calculation.Row
	errs := b.wrong
	unread := errors.Join(b.wrong...)
	if unread == nil {
		out, errs = b.calculation.Evaluate(b.rows)
	}
	for i, cells := range b.cells {
		reason, err := "", errs[i]
		if err == nil {
			err = unread // the rows of a case fail together
		}
		if err != nil {
			reason = strings.ReplaceAll(err.Error(), "\n", "; ")
			b.failed++
			fmt.Fprintf(b.report, "line %d: %s\n", b.lines[i], reason)
		}
		for _, o := range b.outputs {
			cell := ""
			if err == nil {
				cell = format(out[i], o)
			}
			cells = append(cells, cell)
		}
		if err := b.w.Write(append(cells, reason)); err != nil {
			return err
		}
	}
	b.lines, b.cells, b.rows, b.wrong = b.lines[:0], b.cells[:0], b.rows[:0], b.wrong[:0]
	return nil
}

// format writes a result with ten significant digits, more than any input holds
// and few enough to hide the rounding of the unit's conversion.
func format(row calculation.Row, o bound) string {
	if o.column.Kind.Text() {
		return row.Text(o.column.Name)
	}
	v := row.Num(o.column.Name)
	if math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(o.unit.From(v), 'g', 10, 64)
}

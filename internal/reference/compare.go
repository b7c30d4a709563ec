package reference

import (
	"errors"
	"fmt"
	"maps"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/calculation"
)

// A Value is one published figure beside the computed one, both in the unit of
// the table.
type Value struct {
	Line       int // in the file
	Column     string
	Want, Got  string
	Computed   float64 // Got as a number, NaN for words and failures
	Deviation  float64 // got - want; for measured data the mean of got/want-1
	Tolerance  float64
	InputShare float64 // the part of Tolerance that comes from rounded inputs
	Limit      float64 // the part that the table declares
	OK         bool
	Provenance hydronics.Provenance
	Gates      bool   // a failure fails the audit
	Disputed   string // why sources disagree
	Err        error  // what the calculation said instead of a value
}

// Used returns the share of the tolerance that the deviation takes; NaN
// where there is none, as for words.
func (v Value) Used() float64 { return math.Abs(v.Deviation) / v.Tolerance }

// A Result is a table compared.
type Result struct {
	*Table
	Values []Value
}

// Compare evaluates every row of the table and compares it.
func (t *Table) Compare() Result {
	r := Result{Table: t}
	for _, group := range t.groups() {
		in := make([]calculation.Row, len(group))
		for k, i := range group {
			in[k] = t.input(i)
		}
		out, errs := t.Calculation.Evaluate(in)
		share := t.inputShares(group, in, out, errs)
		for k, i := range group {
			var o calculation.Row
			if errs[k] == nil {
				o = out[k]
			}
			r.Values = append(r.Values, t.compareRow(i, o, errs[k], share[k])...)
		}
	}
	for c, check := range t.checks {
		if check.mode == measured {
			r.Values = append(r.Values, t.summarise(c, r.Values))
		}
	}
	return r
}

// groups returns the row indices evaluated together: each row by itself, or
// consecutive rows with the same case.
func (t *Table) groups() [][]int {
	var groups [][]int
	for i := range t.rows {
		last := len(groups) - 1
		switch {
		case t.Calculation.Case != nil && t.groupBy < 0 && i > 0,
			t.groupBy >= 0 && i > 0 && t.rows[i][t.groupBy] == t.rows[i-1][t.groupBy]:
			groups[last] = append(groups[last], i)
		default:
			groups = append(groups, []int{i})
		}
	}
	return groups
}

// inputShares returns, for each row of a group and each check, how far the
// result moves when the rounded inputs go to the ends of their printed digits.
func (t *Table) inputShares(group []int, in, out []calculation.Row, errs []error) [][]float64 {
	shares := make([][]float64, len(group))
	for k := range shares {
		shares[k] = make([]float64, len(t.checks))
	}
	for k, i := range group {
		for _, c := range t.inputs {
			cell := t.rows[i][c.index]
			if c.exact || cell == "" {
				continue
			}
			v, _ := number(cell) // linted
			largest := make([][]float64, len(group))
			for _, sign := range [...]float64{-1, 1} {
				moved := append([]calculation.Row(nil), in...)
				moved[k] = calculation.Row{}
				maps.Copy(moved[k], in[k])
				moved[k][c.column.Name] = c.unit.SI(v + sign*halfDigit(cell))
				t.grow(largest, moved, out, errs)
			}
			for g := range group {
				for j := range largest[g] {
					shares[g][j] += largest[g][j]
				}
			}
		}
	}
	return shares
}

// grow raises largest to the change between out and the outputs of the moved
// inputs. A moved input that is refused (a rounded limit, say) changes nothing.
func (t *Table) grow(largest [][]float64, moved, out []calculation.Row, errs []error) {
	o, refused := t.Calculation.Evaluate(moved)
	for g := range out {
		if errs[g] != nil || refused[g] != nil {
			continue
		}
		if largest[g] == nil {
			largest[g] = make([]float64, len(t.checks))
		}
		for j, c := range t.checks {
			if c.column.Kind.Text() {
				continue
			}
			change := math.Abs(c.unit.From(o[g].Num(c.column.Name)) - c.unit.From(out[g].Num(c.column.Name)))
			if change > largest[g][j] { // NaN is no change
				largest[g][j] = change
			}
		}
	}
}

// compareRow compares one row; out is nil where the calculation failed.
func (t *Table) compareRow(i int, out calculation.Row, err error, share []float64) []Value {
	base := Value{Line: t.lines[i], Computed: math.NaN(), Provenance: t.Provenance, Disputed: t.Disputed, Err: err}
	if p, ok := hydronics.ParseProvenance(t.cell(i, "provenance")); ok {
		base.Provenance = p
	}
	if d := t.cell(i, "disputed"); d != "" {
		base.Disputed = d
	}
	base.Gates = base.Provenance.Confirmed() && base.Disputed == ""
	if expect := t.cell(i, "expect"); expect != "" {
		v := base
		v.Column, v.Want, v.Got = "expect", expect, "a value"
		if err != nil {
			v.Got = err.Error()
		}
		target := hydronics.ErrRange
		if expect == noSolution {
			target = hydronics.ErrNoSolution
		}
		v.OK = errors.Is(err, target)
		v.Deviation, v.Tolerance = math.NaN(), math.NaN()
		return []Value{v}
	}
	var values []Value
	for j, c := range t.checks {
		cell := t.rows[i][c.index]
		if cell == "" {
			continue
		}
		v := base
		v.Column, v.Want = c.header, cell
		v.Deviation, v.Tolerance = math.NaN(), math.NaN()
		if out != nil && c.column.Kind.Text() {
			v.Got = out.Text(c.column.Name)
			v.OK = out.Has(c.column.Name) && v.Got == cell
		} else if out != nil {
			t.compareNumber(&v, c, out.Num(c.column.Name), share[j])
		}
		values = append(values, v)
	}
	return values
}

// compareNumber fills v. The comparison is written so that NaN fails.
func (t *Table) compareNumber(v *Value, c checkColumn, si, share float64) {
	want, _ := number(v.Want) // linted
	got := c.unit.From(si)
	v.Computed, v.Got = got, fmt.Sprintf("%.9g", got)
	v.Deviation = got - want
	switch c.mode {
	case printed, relative, absolute:
		v.InputShare = share
		switch c.mode {
		case relative:
			v.Limit = c.limit * math.Abs(want)
		case absolute:
			v.Limit = c.limit
		}
		v.Tolerance = halfDigit(v.Want) + share + v.Limit
		// Rounding of the conversion into the table's unit, far below any printed digit.
		v.OK = math.Abs(v.Deviation) <= v.Tolerance*(1+1e-12)
	case discrete:
		// A nominal size comes out of a catalogue in SI; only the conversion rounds.
		v.OK = math.Abs(v.Deviation) <= 1e-12*math.Max(1, math.Abs(want))
	case measured:
		// One point of measured data is never judged by itself.
		v.Gates, v.OK = false, !math.IsNaN(got)
		v.Deviation = got/want - 1
	}
}

// summarise judges measured data as a whole: bias and scatter.
func (t *Table) summarise(c int, values []Value) Value {
	check := t.checks[c]
	v := Value{Column: check.header, Provenance: t.Provenance, Disputed: t.Disputed, Limit: check.mean, Tolerance: check.mean}
	var n, sum, squares float64
	for _, p := range values {
		if p.Column == check.header {
			n, sum, squares = n+1, sum+p.Deviation, squares+p.Deviation*p.Deviation
		}
	}
	v.Deviation = sum / n
	rms := math.Sqrt(squares / n)
	v.Want = fmt.Sprintf("mean within %g, rms within %g", check.mean, check.rms)
	v.Got = fmt.Sprintf("mean %.2g, rms %.2g", v.Deviation, rms)
	v.OK = math.Abs(v.Deviation) <= check.mean && rms <= check.rms
	v.Gates = v.Provenance.Confirmed() && v.Disputed == ""
	return v
}

package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"

	"example.com/hydronics/internal/reference"
)

// agreement is what two machines may differ by, as a share of the largest value
// of the column: rounding, and no more. Values near zero that come out of
// larger terms have no digits of their own to agree in.
const agreement = 1e-12

// against compares the report's values with those that another machine wrote
// with -values, prints the worst difference and returns an error above agreement.
func against(name string, r reference.Report, stdout io.Writer) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	rows, err := csv.NewReader(f).ReadAll()
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	type place struct{ file, line, column string }
	other := map[place]float64{}
	for _, row := range rows[min(1, len(rows)):] {
		v, err := strconv.ParseFloat(row[3], 64)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		other[place{row[0], row[1], row[2]}] = v
	}
	compared := 0
	worst, at := 0.0, "nowhere"
	for _, result := range r.Results {
		scale := map[string]float64{}
		for _, v := range result.Values {
			scale[v.Column] = math.Max(scale[v.Column], math.Abs(v.Computed)) // a NaN stays out: it is compared below
		}
		for _, v := range result.Values {
			if v.Line == 0 || math.IsNaN(v.Computed) {
				continue
			}
			theirs, ok := other[place{result.File, strconv.Itoa(v.Line), v.Column}]
			if !ok {
				return fmt.Errorf("%s has no value for %s, line %d, %s", name, result.File, v.Line, v.Column)
			}
			compared++
			if d := math.Abs(v.Computed-theirs) / math.Max(scale[v.Column], math.SmallestNonzeroFloat64); !(d <= worst) {
				worst, at = d, fmt.Sprintf("%s, line %d, %s", result.File, v.Line, v.Column)
			}
		}
	}
	if compared != len(other) {
		return fmt.Errorf("%s has %d values, here are %d", name, len(other), compared)
	}
	if _, err := fmt.Fprintf(stdout, "%d values, differences as a share of the column's largest value: worst %.1e, %s\n",
		compared, worst, at); err != nil {
		return err
	}
	if !(worst <= agreement) {
		return fmt.Errorf("the machines differ by more than %g", agreement)
	}
	return nil
}

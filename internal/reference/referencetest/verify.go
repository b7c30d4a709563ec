// Package referencetest runs the reference tables of one area inside go test,
// and holds the area to account for what it exports.
package referencetest

import (
	"strings"
	"testing"

	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/exported"
	"example.com/hydronics/internal/reference"
)

// Verify compares every table in data/<area>, one subtest per table, and checks
// that each function and method which the package in the working directory
// exports is covered by a calculation or exempt with a reason.
func Verify(t *testing.T, area string) {
	tables, err := reference.Load(reference.Data(), area, calculation.All())
	if err != nil {
		t.Fatal(err)
	}
	if len(tables) == 0 {
		t.Fatalf("no tables in %s", area)
	}
	for _, table := range tables {
		t.Run(strings.TrimSuffix(table.File, ".csv"), func(t *testing.T) {
			for _, v := range table.Compare().Values {
				if v.OK || !v.Gates {
					continue
				}
				if v.Err != nil {
					t.Errorf("line %d, %s: want %s: %v", v.Line, v.Column, v.Want, v.Err)
					continue
				}
				t.Errorf("line %d, %s: got %s, want %s: deviation %.3g, tolerance %.3g",
					v.Line, v.Column, v.Got, v.Want, v.Deviation, v.Tolerance)
			}
		})
	}
	t.Run("every exported calculation is covered", coverage)
}

func coverage(t *testing.T) {
	pkg, _, all, err := exported.Read(".")
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, c := range all {
		names[c.Name] = true
	}
	exempt := calculation.Exempt()
	covered := map[string]bool{}
	for _, c := range calculation.All() {
		for _, name := range c.Covers {
			covered[name] = true
		}
	}
	for name := range names {
		reason, isExempt := exempt[name]
		switch {
		case covered[name] && isExempt:
			t.Errorf("%s is covered and exempt", name)
		case !covered[name] && !isExempt:
			t.Errorf("%s is neither covered by a calculation nor exempt", name)
		case isExempt && reason == "":
			t.Errorf("%s is exempt without a reason", name)
		}
	}
	for _, list := range []map[string]bool{covered, keys(exempt)} {
		for name := range list {
			if strings.HasPrefix(name, pkg+".") && !names[name] {
				t.Errorf("%s is listed but not exported", name)
			}
		}
	}
}

func keys(m map[string]string) map[string]bool {
	k := make(map[string]bool, len(m))
	for name := range m {
		k[name] = true
	}
	return k
}

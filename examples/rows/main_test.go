package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func rows(input string, args ...string) (status int, out, errs string) {
	var stdout, stderr strings.Builder
	status = run(args, strings.NewReader(input), &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestUnitsPerColumn(t *testing.T) {
	// 1 bar above 1.01325 bar, ISO 2533:1975.
	status, out, errs := rows("\ufeffroom,pressure_gauge_kpa,atmosphere_pa\nattic,100,101325\n", "-keep", "room", "-out", "pressure_abs_mpa", "hydronics/gauge")
	assert.Equal(t, 0, status, errs)
	assert.Equal(t, "room,pressure_gauge_kpa,atmosphere_pa,pressure_abs_mpa,error\nattic,100,101325,0.201325,\n", out)
}

func TestBadRowsAreReportedAndKept(t *testing.T) {
	status, out, errs := rows("pressure_gauge_bar,atmosphere_bar\n1,1\nmany,1\n2\n3,1\n", "hydronics/gauge")
	assert.Equal(t, 1, status)
	assert.Contains(t, errs, `line 3: column pressure_gauge_bar: "many" is not a number`)
	assert.Contains(t, errs, "line 4: ")
	assert.Contains(t, errs, "2 rows failed")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	assert.Len(t, lines, 5)
	assert.Equal(t, "3,1,4,3,", lines[4])
}

func TestUnusableInput(t *testing.T) {
	for _, c := range []struct {
		input, says string
		args        []string
	}{
		{"", "no row of column names", []string{"hydronics/gauge"}},
		{"a\n", "no calculation", []string{"hydronics/nothing"}},
		{"pressure_gauge_bar\n1\n", `input "atmosphere" is missing; accepted: atmosphere_bar`, []string{"hydronics/gauge"}},
		{"pressure_gauge,atmosphere_bar\n1,1\n", `column "pressure_gauge" is no input`, []string{"hydronics/gauge"}},
		{"pressure_gauge_bar,pressure_gauge_pa,atmosphere_bar\n1,1,1\n", "in another unit", []string{"hydronics/gauge"}},
		{"pressure_gauge_bar,atmosphere_bar\n1,1\n", "is no result", []string{"-out", "mood", "hydronics/gauge"}},
		{"pressure_gauge_bar,atmosphere_bar\n1,1\n", "is not in the input", []string{"-keep", "room", "hydronics/gauge"}},
		{"pressure_gauge_bar,atmosphere_bar\n1,1\n", "case column", []string{"-case", "net", "hydronics/gauge"}},
		{"", "usage:", nil},
	} {
		status, _, errs := rows(c.input, c.args...)
		assert.Equal(t, 2, status, c.says)
		assert.Contains(t, errs, c.says)
	}
}

func TestList(t *testing.T) {
	status, out, _ := rows("", "-list")
	assert.Equal(t, 0, status)
	assert.Contains(t, out, "hydronics/gauge")
	status, out, _ = rows("", "-list", "hydronics/gauge")
	assert.Equal(t, 0, status)
	assert.Contains(t, out, "pressure_gauge ")
	assert.Contains(t, out, "{_bar _kpa")
}

func FuzzRows(f *testing.F) {
	f.Add("pressure_gauge_bar,atmosphere_bar\n1,1\n")
	f.Add("pressure_gauge_bar,atmosphere_bar\n1\n\"\n")
	f.Fuzz(func(t *testing.T, input string) {
		status, _, errs := rows(input, "hydronics/gauge")
		if (status == 0) != (errs == "") {
			t.Fatalf("status %d with %q", status, errs)
		}
	})
}

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const outsideTable = `# title: a table from outside the module
# source: ISO 2533:1975
# locator: table 1
# provenance: second-hand
# seen: a test
# calculation: hydronics/gauge
# exact: pressure_gauge_bar, atmosphere_pa
# check: pressure_abs_pa print
pressure_gauge_bar,atmosphere_pa,pressure_abs_pa
3,101325,PRINTED
`

func runOn(t *testing.T, printed string) (status int, out, errs string) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "x.csv"), []byte(strings.Replace(outsideTable, "PRINTED", printed, 1)), 0o600))
	var stdout, stderr strings.Builder
	status = run([]string{"-data", dir}, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

func TestTablesFromOutside(t *testing.T) {
	status, out, _ := runOn(t, "401325")
	assert.Equal(t, 0, status)
	assert.Contains(t, out, "| ok |")
	assert.NotContains(t, out, "exported calculations", "tables from outside never enter the headline")
}

func TestFalsifiedTableFails(t *testing.T) {
	status, out, errs := runOn(t, "401327")
	assert.Equal(t, 1, status)
	assert.Contains(t, out, "1 FAILED")
	assert.Contains(t, errs, "1 gating values outside")
}

func TestUnusableInput(t *testing.T) {
	status, _, errs := runOn(t, "much")
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, `"much" is not a decimal number`)
	var stdout, stderr strings.Builder
	assert.Equal(t, 2, run([]string{"-data", t.TempDir()}, &stdout, &stderr))
	assert.Equal(t, 2, run([]string{"nonsense"}, &stdout, &stderr))
	assert.Equal(t, 2, run([]string{"-nonsense"}, &stdout, &stderr))
}

func TestProjectTablesPass(t *testing.T) {
	var stdout, stderr strings.Builder
	assert.Equal(t, 0, run(nil, &stdout, &stderr), stderr.String())
	assert.Contains(t, stdout.String(), "have at least one gating table")
}

func TestPage(t *testing.T) {
	file := filepath.Join(t.TempDir(), "audit.html")
	var stdout, stderr strings.Builder
	require.Equal(t, 0, run([]string{"-html", file}, &stdout, &stderr), stderr.String())
	content, err := os.ReadFile(file)
	require.NoError(t, err)
	html := string(content)
	assert.Contains(t, html, "have at least one gating table")
	assert.Contains(t, html, "<svg")
	assert.Equal(t, strings.Count(html, "<figure"), strings.Count(html, "aria-label"), "a text for every figure")
	for _, outside := range []string{"src=", "href=\"http", "@import", "<script", "<?xml"} {
		assert.NotContains(t, html, outside, "the page stands alone")
	}
}

func TestValues(t *testing.T) {
	var stdout, stderr strings.Builder
	require.Equal(t, 0, run([]string{"-values"}, &stdout, &stderr), stderr.String())
	assert.True(t, strings.HasPrefix(stdout.String(), "table,line,column,value\n"))
	assert.Contains(t, stdout.String(), "root/gauge_zero.csv,12,pressure_abs_pa,101325\n")
}

func TestAgainstAnotherMachine(t *testing.T) {
	var values, stdout, stderr strings.Builder
	require.Equal(t, 0, run([]string{"-values"}, &values, &stderr))
	file := filepath.Join(t.TempDir(), "values.csv")
	require.NoError(t, os.WriteFile(file, []byte(values.String()), 0o600))
	assert.Equal(t, 0, run([]string{"-against", file}, &stdout, &stderr), stderr.String())
	assert.Contains(t, stdout.String(), "worst 0.0e+00")

	changed := strings.Replace(values.String(), ",101325\n", ",101325.00001\n", 1)
	require.NotEqual(t, values.String(), changed)
	require.NoError(t, os.WriteFile(file, []byte(changed), 0o600))
	assert.Equal(t, 1, run([]string{"-against", file}, &stdout, &stderr))
	assert.Contains(t, stderr.String(), "differ by more than 1e-12")
	require.NoError(t, os.WriteFile(file, []byte("table,line,column,value\n"), 0o600))
	assert.Equal(t, 1, run([]string{"-against", file}, &stdout, &stderr))
}

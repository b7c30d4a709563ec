package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
)

var handUnits = map[string]float64{
	"l/min": hydronics.LitrePerMinute, "m/s": 1, "kPa": hydronics.Kilopascal, "bar": hydronics.Bar, "m³/h": 1, "l": hydronics.Litre,
	"kW": hydronics.Kilowatt, "W/m": 1, "s": 1, "kWh": hydronics.KilowattHour, "mm": hydronics.Millimetre,
}

// The document beside the job files calculates one installation by hand, after
// published methods. The last table of it has to agree with the program.
func TestHandCalculation(t *testing.T) {
	status, out, _ := output(t, "-json", filepath.Join("jobs", "hand-calculation.json"))
	assert.Equal(t, allMet, status)
	var sheet any
	require.NoError(t, json.Unmarshal([]byte(out), &sheet))
	text, err := os.ReadFile(filepath.Join("jobs", "hand-calculation.md"))
	require.NoError(t, err)
	_, table, ok := strings.Cut(string(text), "## What has to come out")
	require.True(t, ok)
	n := 0
	for line := range strings.Lines(table) {
		cells := strings.Split(strings.TrimSpace(line), "|")
		if len(cells) != 7 || strings.Contains(line, "---") || strings.Contains(line, "by hand") {
			continue
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		hand, err := strconv.ParseFloat(cells[2], 64)
		require.NoError(t, err)
		within, err := strconv.ParseFloat(cells[4], 64)
		require.NoError(t, err)
		factor, known := handUnits[cells[3]]
		require.True(t, known, cells[3])
		got := at(t, sheet, cells[5])
		assert.LessOrEqual(t, math.Abs(got/(hand*factor)-1), within/100, "%s: by hand %s %s, the program %g", cells[1], cells[2], cells[3], got/factor)
		n++
	}
	assert.GreaterOrEqual(t, n, 30)
}

// at follows a path such as circuits.0.loss_pa.
func at(t *testing.T, v any, path string) float64 {
	t.Helper()
	for key := range strings.SplitSeq(path, ".") {
		switch x := v.(type) {
		case map[string]any:
			v = x[key]
		case []any:
			i, err := strconv.Atoi(key)
			require.NoError(t, err)
			v = x[i]
		}
	}
	n, ok := v.(float64)
	require.True(t, ok, path)
	return n
}

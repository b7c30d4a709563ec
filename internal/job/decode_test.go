package job

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func demo(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("../../examples/dwelling/demo.json")
	require.NoError(t, err)
	return data
}

func TestDecodeGivesSI(t *testing.T) {
	j, err := Decode(demo(t))
	require.NoError(t, err)
	assert.InDelta(t, 6*60, j.Unit.Defrost.Time, 1e-9)
	assert.InDelta(t, 4.5e5, j.Site.Mains, 1e-6)
	assert.InDelta(t, 24e-3/60, j.Unit.LossFlow, 1e-15)
	assert.InDelta(t, 0.040, j.Routes[0].Insulation.Thickness, 1e-15)
	assert.Equal(t, [3]float64{4.4, 0, 0.58}, j.Routes[0].Stretches[1].To)
	assert.Equal(t, "all", j.Routes[0].Serves, "a default")
	assert.Equal(t, "heating", j.Routes[1].Serves)
	assert.True(t, j.Distribution.Circuits[4].Shuts, "a default in a list")
	assert.False(t, j.Distribution.Circuits[0].Shuts)
	assert.Nil(t, j.Routes[0].Stretches[0].Insulation)
	assert.True(t, math.IsNaN(j.Vessel.Nominal), "left out")
	assert.True(t, math.IsNaN(j.Liquid.Mass), "left out")
	assert.Equal(t, 3, j.Cylinder.Tundish.Bends)
}

// edit replaces one piece of the demonstration's text.
func edit(t *testing.T, old, fresh string) []byte {
	t.Helper()
	text := string(demo(t))
	require.Equal(t, 1, strings.Count(text, old), old)
	return []byte(strings.Replace(text, old, fresh, 1))
}

func TestFaultsNameThePath(t *testing.T) {
	for _, c := range []struct{ old, fresh, path, holds, accepted string }{
		{`"altitude_m": 280`, `"altitude_m": 9000`, "site.altitude_m", "9000", "a number from -400 to 4000 m"},
		{`"altitude_m": 280`, `"altitude_m": "280"`, "site.altitude_m", `"280"`, "a number"},
		{`"altitude_m": 280`, `"altitude_m": null`, "site.altitude_m", "null", "a number"},
		{`"altitude_m": 280`, `"altitude_m": 1e999`, "site.altitude_m", "1e999", "a number"},
		{`"altitude_m": 280`, `"altitude_ft": 900`, "site.altitude_ft", "not known", "altitude_m"},
		{`"altitude_m": 280`, `"Altitude_m": 280`, "site.Altitude_m", "not known", "altitude_m"},
		{`"altitude_m": 280`, `"altitude_m": 280, "altitude_m": 280`, "site.altitude_m", "second time", "once"},
		{`"mains_pressure_bar": 4.5,`, ``, "site.mains_pressure_bar", "nothing", "bar"},
		{`"jurisdiction": "GB-EAW",`, ``, "jurisdiction", "nothing", "GB-EAW"},
		{`"jurisdiction": "GB-EAW"`, `"jurisdiction": "UK"`, "jurisdiction", `"UK"`, `"AT", "DE"`},
		{`"to_m": [8.4, 2.2, 1.2]`, `"to_m": [8.4, 2.2]`, "routes[2].stretches[0].to_m", "[8.4, 2.2]", "[x, y, z]"},
		{`"to_m": [8.4, 2.2, 1.2]`, `"to_m": [8.4, 2.2, 1.2, 4]`, "routes[2].stretches[0].to_m", "1.2, 4]", "[x, y, z]"},
		{`"to_m": [8.4, 2.2, 1.2]`, `"to_m": [8.4, true, 1.2]`, "routes[2].stretches[0].to_m[1]", "true", "a number"},
		{`"bends": 3`, `"bends": 2.5`, "cylinder.discharge_tundish.bends", "2.5", "a whole number"},
		{`"flammable_refrigerant": true`, `"flammable_refrigerant": 1`, "outdoor_unit.flammable_refrigerant", "1", "true or false"},
		{`"kind": "water"`, `"kind": "ammonia"`, "liquid.kind", `"ammonia"`, `"potassium formate"`},
		{`{"kind": "strainer"`, `{"kind": "strainr"`, "routes[5].stretches[0].devices[0].kind", `"strainr"`, "strainer"},
		{`"heaters": [`, `"heaters": 3, "x": [`, "heaters", "3", "a list"},
	} {
		_, err := Decode(edit(t, c.old, c.fresh))
		var faults Faults
		require.True(t, errors.As(err, &faults), c.fresh)
		found := false
		for _, f := range faults {
			if f.Path == c.path {
				found = true
				assert.Contains(t, f.Holds, c.holds, c.fresh)
				assert.Contains(t, f.Accepted, c.accepted, c.fresh)
			}
		}
		assert.True(t, found, "%s: no fault at %s in %v", c.fresh, c.path, err)
	}
}

func TestFaultsComeTogether(t *testing.T) {
	data := edit(t, `"altitude_m": 280`, `"altitude_m": 9000, "colour": "red"`)
	data = []byte(strings.Replace(string(data), `"rated_bar": 3,`, ``, 1))
	_, err := Decode(data)
	var faults Faults
	require.True(t, errors.As(err, &faults))
	assert.Len(t, faults, 3)
	assert.Len(t, strings.Split(err.Error(), "\n"), 3)
}

func TestBrokenSyntax(t *testing.T) {
	for text, want := range map[string]string{
		"":                    "nothing",
		"  \n ":               "nothing",
		"{\n \"title\": ,\n}": "line 2, column 11",
		"{":                   "line 1",
		"{}{}":                "after the end",
		"[1]":                 "[1]",
		"3":                   "3",
		"\"\\ud800\"":         "",
	} {
		_, err := Decode([]byte(text))
		var faults Faults
		require.True(t, errors.As(err, &faults), text)
		assert.Contains(t, faults[0].Holds, want, text)
	}
	_, err := Decode(make([]byte, MaxFileSize+1))
	assert.Error(t, err)
}

func TestFaultsAcrossKeys(t *testing.T) {
	for _, c := range []struct{ old, fresh, path string }{
		{`"kind": "water"`, `"kind": "propylene glycol"`, "liquid"},
		{`"kind": "water"`, `"kind": "water", "mass_percent": 20`, "liquid"},
		{`"kind": "water"`, `"kind": "propylene glycol", "mass_percent": 20, "volume_percent": 20`, "liquid"},
		{`"kind": "water"`, `"kind": "potassium formate", "volume_percent": 20`, "liquid"},
		{`"kind": "water"`, `"kind": "calcium chloride", "mass_percent": 35`, "liquid"},
		{`"kind": "water"`, `"kind": "ethanol", "mass_percent": 20`, "liquid.hottest_c"},
		{`"tube": "EN ISO 15875 S5 16x1.5", "length_m": 64`, `"tube": "EN 9999 16", "length_m": 64`, "distribution.circuits[4].tube"},
		{`{"flow_l_min": 46, "head_kpa": 28}`, `{"flow_l_min": 30, "head_kpa": 28}`, "outdoor_unit.pump_curve[4]"},
		{`"heat_w": 980, "return_c": 33`, `"heat_w": 980, "return_c": 40`, "distribution.circuits[0].return_c"},
		{`"to_m": [8.4, 2.2, 1.2]`, `"to_m": [8.4, 0.7, 1.2]`, "routes[2].stretches[0].to_m"},
		{`"hot_water_flow_l_min": 24,`, ``, "outdoor_unit.hot_water_flow_l_min"},
		{`"store_c": 45`, `"store_c": 4`, "cylinder.charging_power[1].store_c"},
		{`"greatest_output_kw": 11`, `"greatest_output_kw": 8`, "outdoor_unit.greatest_output_kw"},
	} {
		j, err := Decode(edit(t, c.old, c.fresh))
		require.NoError(t, err, c.fresh)
		_, err = Assess(j)
		var faults Faults
		require.True(t, errors.As(err, &faults), "%s: %v", c.fresh, err)
		assert.Equal(t, c.path, faults[0].Path)
	}
}

// The schema and the decoder read the same definitions; the demonstration has to
// pass both.
func TestSchemaAcceptsTheDemonstration(t *testing.T) {
	raw, err := json.Marshal(Schema())
	require.NoError(t, err)
	var schema, file any
	require.NoError(t, json.Unmarshal(raw, &schema))
	require.NoError(t, json.Unmarshal(demo(t), &file))
	assert.Empty(t, validate("", schema.(map[string]any), file))
	broken := file.(map[string]any)
	broken["site"].(map[string]any)["altitude_m"] = 9000.0
	broken["colour"] = "red"
	delete(broken, "liquid")
	assert.Len(t, validate("", schema.(map[string]any), broken), 3)
}

// validate knows the words of JSON Schema that Schema uses.
func validate(path string, s map[string]any, v any) []string {
	var wrong []string
	bad := func(why string) { wrong = append(wrong, path+": "+why) }
	switch s["type"] {
	case "object":
		m, ok := v.(map[string]any)
		if !ok {
			bad("no object")
			return wrong
		}
		properties := s["properties"].(map[string]any)
		for key, inner := range m {
			if p, ok := properties[key]; ok {
				wrong = append(wrong, validate(path+"."+key, p.(map[string]any), inner)...)
			} else {
				bad("unknown " + key)
			}
		}
		for _, key := range s["required"].([]any) {
			if _, ok := m[key.(string)]; !ok {
				bad("missing " + key.(string))
			}
		}
	case "array":
		l, ok := v.([]any)
		if n, limited := s["minItems"].(float64); !ok || limited && len(l) != int(n) {
			bad("no list")
			return wrong
		}
		for _, inner := range l {
			wrong = append(wrong, validate(path+"[]", s["items"].(map[string]any), inner)...)
		}
	case "number", "integer":
		if n, ok := v.(float64); !ok || n < s["minimum"].(float64) || n > s["maximum"].(float64) {
			bad("number")
		}
	case "string":
		word, ok := v.(string)
		if words, limited := s["enum"].([]any); limited {
			ok = false
			for _, w := range words {
				ok = ok || w == word
			}
		}
		if !ok {
			bad("word")
		}
	case "boolean":
		if _, ok := v.(bool); !ok {
			bad("no boolean")
		}
	default:
		bad("type")
	}
	return wrong
}

// Every job file of the project goes the fast way, and one changed byte changes
// nothing about what is accepted, nor what is read.
func TestFastAndCarefulAgree(t *testing.T) {
	files, err := filepath.Glob("../../examples/dwelling/jobs/*.json")
	require.NoError(t, err)
	random := rand.New(rand.NewPCG(1, 1))
	for _, name := range append(files, "../../examples/dwelling/demo.json") {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		_, ok := fast(data)
		assert.True(t, ok, name)
		for range 500 {
			changed := slices.Clone(data)
			at := random.IntN(len(changed))
			changed[at] = ` "\,:[]{}0-.e+tx`[random.IntN(16)]
			a, ok := fast(changed)
			b, err := decode(changed)
			require.Equal(t, err == nil, ok, "%s: %q at %d", name, changed[at], at)
			if ok {
				require.True(t, cmp.Equal(a, b, cmpopts.EquateNaNs()), "%s: %q at %d", name, changed[at], at)
			}
		}
	}
}

// Keys may stand in any order, and be written with escapes and blanks.
func TestFastTakesKeysAnyhow(t *testing.T) {
	want, ok := fast(demo(t))
	require.True(t, ok)
	var file any
	require.NoError(t, json.Unmarshal(demo(t), &file))
	sorted, err := json.Marshal(file)
	require.NoError(t, err)
	for _, data := range [][]byte{sorted, edit(t, `"altitude_m":`, `"altit\u0075de_m"  : `)} {
		got, ok := fast(data)
		assert.True(t, ok)
		assert.Empty(t, cmp.Diff(want, got, cmpopts.EquateNaNs()))
	}
}

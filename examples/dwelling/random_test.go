package main

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/hydronics/internal/job"
)

// Whatever figures a job file holds within its limits: a sheet, its page and its
// JSON, or an error that says why not.
func TestAnyFigures(t *testing.T) {
	var files [][]byte
	for _, name := range []string{"long-outdoor-run.json", "mixed-floor-radiators.json"} {
		data, err := os.ReadFile(filepath.Join("jobs", name))
		require.NoError(t, err)
		files = append(files, data)
	}
	random := rand.New(rand.NewPCG(1, 2))
	sheets := 0
	for i := range 400 {
		var file any
		require.NoError(t, json.Unmarshal(files[i%len(files)], &file))
		shake(random, job.Schema(), file)
		text, err := json.Marshal(file)
		require.NoError(t, err)
		j, err := job.Decode(text)
		require.NoError(t, err, "%s", text)
		s, err := job.Assess(j)
		if err != nil {
			require.NotEmpty(t, err.Error())
			continue
		}
		sheets++
		ids := map[string]bool{}
		for i := range s.Findings {
			id := s.Findings[i].ID
			require.False(t, ids[id], "twice: %s", id)
			require.NotContains(t, id, "unnamed")
			ids[id] = true
		}
		_, err = json.Marshal(s)
		require.NoError(t, err)
		require.NoError(t, writeText(&bytes.Buffer{}, s))
		if sheets%10 == 0 {
			_ = writeHTML(filepath.Join(t.TempDir(), "x.html"), j, s) // may find no figure, must not panic
		}
	}
	require.Greater(t, sheets, 50)
}

// shake changes some numbers of a file, a little or to anything that its schema
// accepts.
func shake(random *rand.Rand, schema map[string]any, v any) {
	m, ok := v.(map[string]any)
	if !ok {
		return
	}
	properties, _ := schema["properties"].(map[string]any)
	for key, inner := range m {
		p, _ := properties[key].(map[string]any)
		switch x := inner.(type) {
		case float64:
			if random.IntN(12) > 0 || p["type"] != "number" {
				continue
			}
			low, high := p["minimum"].(float64), p["maximum"].(float64)
			x *= math.Exp(random.NormFloat64() / 2)
			if random.IntN(6) == 0 {
				x = low + random.Float64()*(high-low)
			}
			m[key] = math.Max(low, math.Min(high, x))
		case []any:
			items, _ := p["items"].(map[string]any)
			for _, one := range x {
				shake(random, items, one)
			}
		case map[string]any:
			shake(random, p, x)
		}
	}
}

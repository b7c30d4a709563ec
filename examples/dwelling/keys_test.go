package main

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// The keys of the output are promised in output.md: none goes away, and a new one
// is there for good.
func TestKeysOfTheOutput(t *testing.T) {
	keys := map[string]bool{}
	files, err := filepath.Glob(filepath.Join("jobs", "*.json"))
	require.NoError(t, err)
	high := filepath.Join(t.TempDir(), "high.json") // no vessel suits it
	require.NoError(t, os.WriteFile(high, regexp.MustCompile(`"highest_point_m": [\d.]+`).ReplaceAll(demo, []byte(`"highest_point_m": 60`)), 0o644))
	var lines bytes.Buffer
	for _, f := range append(files, "demo.json", high) {
		_, out, report := output(t, "-json", f)
		require.Empty(t, report)
		collect(t, keys, "sheet", []byte(out))
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		require.NoError(t, json.Compact(&lines, data))
		lines.WriteByte('\n')
	}
	lines.WriteString("{}\n") // has faults
	lines.Write(bytes.Replace(oneLine(t, "antifreeze under rules for water", -10), []byte("GB-EAW"), []byte("ES"), 1))
	var out bytes.Buffer
	s := stream{in: &lines, out: &out, workers: 2}
	_, _, err = s.run(t.Context())
	require.NoError(t, err)
	for line := range bytes.Lines(out.Bytes()) {
		collect(t, keys, "stream", line)
	}
	got := strings.Join(slices.Sorted(maps.Keys(keys)), "\n") + "\n"
	if diff := cmp.Diff(golden(t, "keys.txt", got), got); diff != "" {
		t.Error(diff)
	}
}

// collect notes the path of every key.
func collect(t *testing.T, keys map[string]bool, path string, data []byte) {
	t.Helper()
	var v any
	require.NoError(t, json.Unmarshal(data, &v))
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch x := v.(type) {
		case map[string]any:
			for k, inner := range x {
				keys[path+" "+k] = true
				walk(path+" "+k, inner)
			}
		case []any:
			for _, inner := range x {
				walk(path+"[]", inner)
			}
		}
	}
	walk(path, v)
}

package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference before you commit it")

// TestMain takes the compiled program away again.
func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if wasBuilt.Load() {
		if program, err := build(); err == nil {
			_ = os.RemoveAll(filepath.Dir(program))
		}
	}
	os.Exit(code)
}

var wasBuilt atomic.Bool

func output(t *testing.T, args ...string) (status int, out, report string) {
	t.Helper()
	var o, r bytes.Buffer
	status = run(t.Context(), args, &o, &r)
	return status, o.String(), r.String()
}

func golden(t *testing.T, name, got string) string {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(want)
}

func TestDemonstrationText(t *testing.T) {
	status, out, report := output(t)
	assert.Equal(t, allMet, status)
	assert.Empty(t, report)
	if diff := cmp.Diff(golden(t, "demo.txt", out), out); diff != "" {
		t.Error(diff)
	}
	for i, line := range strings.Split(out, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "line %d", i+1)
	}
	assert.Contains(t, out, "RELEASES NOTHING")
	assert.Contains(t, out, "demonstration")
}

// The section on mixing valves, which the demonstration does not have.
func TestMixedText(t *testing.T) {
	_, out, report := output(t, filepath.Join("jobs", "mixed-floor-radiators.json"))
	assert.Empty(t, report)
	begin, end := strings.Index(out, "Circuits behind mixing valves"), strings.Index(out, "6  Circuits shut")
	require.Less(t, begin, end)
	var got strings.Builder
	got.WriteString(out[begin:end])
	for line := range strings.Lines(out[end:]) {
		if strings.Contains(line, "floors") {
			got.WriteString(line)
		}
	}
	if diff := cmp.Diff(golden(t, "mixed.txt", got.String()), got.String()); diff != "" {
		t.Error(diff)
	}
}

// Numbers may differ in the last bits from processor to processor.
func TestDemonstrationJSON(t *testing.T) {
	status, out, report := output(t, "-json")
	assert.Equal(t, allMet, status)
	assert.Empty(t, report)
	var got, want any
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.NoError(t, json.Unmarshal([]byte(golden(t, "demo.golden.json", out)), &want))
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(1e-9, 0)); diff != "" {
		t.Error(diff)
	}
}

// build compiles the program once for all tests.
var build = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "dwelling")
	if err != nil {
		return "", err
	}
	program := filepath.Join(dir, "dwelling")
	out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput()
	if err != nil {
		return dir, fmt.Errorf("%w\n%s", err, out)
	}
	return program, nil
})

// built returns the compiled program, whose exit status go run would hide.
func built(t *testing.T) string {
	t.Helper()
	wasBuilt.Store(true)
	program, err := build()
	require.NoError(t, err)
	return program
}

func TestExitStatusOfTheBuiltProgram(t *testing.T) {
	program := built(t)
	dir := t.TempDir()
	file := func(name, old, fresh string) string {
		text := string(demo)
		require.Contains(t, text, old)
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(strings.Replace(text, old, fresh, 1)), 0o644))
		return path
	}
	for _, c := range []struct {
		name   string
		args   []string
		status int
		says   string
	}{
		{"demonstration", nil, 0, "RELEASES NOTHING"},
		{"the same from a file", []string{file("same.json", `"title"`, `"title"`)}, 0, "House above the mill"},
		{"a weaker circulator", []string{file("weak.json", `"head_kpa": 66`, `"head_kpa": 52`)}, 1, "NOT MET"},
		{"the same as JSON", []string{"-json", filepath.Join(dir, "weak.json")}, 1, `"not met"`},
		{"an unknown key", []string{file("key.json", `"altitude_m": 280`, `"altitude_ft": 280`)}, 2, "site.altitude_ft"},
		{"a number outside its limits", []string{file("far.json", `"altitude_m": 280`, `"altitude_m": 28000`)}, 2, "site.altitude_m holds 28000; accepted: a number from -400 to 4000 m"},
		{"an unknown tube", []string{file("tube.json", `"tube": "EN 1057 15x1.0", "length_m": 26`, `"tube": "15 mm", "length_m": 26`)}, 2, "distribution.circuits[5].tube"},
		{"no such file", []string{filepath.Join(dir, "none.json")}, 2, "none.json"},
		{"two files", []string{"a", "b"}, 2, "2 files"},
		{"an unknown flag", []string{"-nonsense"}, 2, "usage"},
		{"schema", []string{"-schema"}, 0, "additionalProperties"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := exec.Command(program, c.args...).CombinedOutput()
			status := 0
			if exit, ok := err.(*exec.ExitError); ok {
				status = exit.ExitCode()
			} else {
				require.NoError(t, err)
			}
			assert.Equal(t, c.status, status, "%s", out)
			assert.Contains(t, string(out), c.says)
		})
	}
}

// The starting point is assessed as it stands, its companion knows every key of
// it, and neither overwrites anything.
func TestNew(t *testing.T) {
	name := filepath.Join(t.TempDir(), "house.json")
	status, _, report := output(t, "-new", name)
	assert.Equal(t, allMet, status, report)
	guide, err := os.ReadFile(strings.TrimSuffix(name, ".json") + ".txt")
	require.NoError(t, err)
	for i, line := range strings.Split(string(guide), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "line %d", i+1)
	}
	for _, key := range []string{"* jurisdiction", "* site.mains_pressure_bar", "  routes[].stretches[].devices[].opens_c", "left out: 3 °C", "EN 1057: 6x0.6", "* routes[].start_m"} {
		assert.Contains(t, string(guide), key)
	}
	status, _, report = output(t, name)
	assert.Equal(t, allMet, status, report)
	status, _, report = output(t, "-new", name)
	assert.Equal(t, unusable, status)
	assert.Contains(t, report, "exist")
	status, _, _ = output(t, "-new", filepath.Join(t.TempDir(), "house"))
	assert.Equal(t, unusable, status)
}

// A sheet that cannot be written is no sheet.
func TestBrokenOutput(t *testing.T) {
	var report bytes.Buffer
	assert.Equal(t, unusable, run(t.Context(), nil, brokenPipe{}, &report))
	assert.NotEmpty(t, report.String())
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, os.ErrClosed }

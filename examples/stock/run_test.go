package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/log"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMain(m *testing.M) {
	beam.Init() // this process is its own worker
	log.SetupLogging("warn", "text")
	os.Exit(m.Run())
}

func stockLines(t testing.TB, g Generator) [][]byte {
	t.Helper()
	dir := t.TempDir()
	_, err := g.write(t.Context(), dir)
	require.NoError(t, err)
	data, err := os.ReadFile(filepath.Join(dir, "stock-00000.tsv"))
	require.NoError(t, err)
	return bytes.Split(bytes.TrimSpace(data), []byte("\n"))
}

// files reads all that a run has written.
func files(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	all := map[string]string{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		all[e.Name()] = string(data)
	}
	return all
}

// The engine and the plain loop give the same files, to the last digit, and so
// does the same stock in other files and another order.
func TestEngineEqualsPlainLoop(t *testing.T) {
	g := Generator{Dwellings: 600, Stations: 5, Winters: 3, Seed: 11, Spoiled: 0.03}
	dir := t.TempDir()
	run, err := g.write(t.Context(), dir)
	require.NoError(t, err)
	run.Options = defaults()

	run.Out = filepath.Join(t.TempDir(), "loop")
	require.NoError(t, run.do(t.Context(), "", new(bytes.Buffer)))
	want := files(t, run.Out)
	require.Len(t, want, run.Options.Shards+5)

	run.Out = filepath.Join(t.TempDir(), "engine")
	require.NoError(t, run.do(t.Context(), embedded, new(bytes.Buffer)))
	assert.Equal(t, want, files(t, run.Out))

	// What came in went out: each line is a dwelling with a row for each winter,
	// or broken.
	rows := 0
	for name, text := range want {
		if strings.HasPrefix(name, shardPrefix) {
			lines := strings.Split(strings.TrimSpace(text), "\n")[1:]
			assert.True(t, slices.IsSorted(lines))
			rows += len(lines)
		}
	}
	broken := strings.Count(want[brokenFile], "\n") - 1
	assert.Positive(t, broken)
	assert.Equal(t, g.Dwellings, broken+rows/g.Winters)

	// The lines of the stock in reverse, in many small files.
	lines := stockLines(t, g)
	other := t.TempDir()
	for i := 0; i < len(lines); i += 50 {
		part := slices.Clone(lines[i:min(i+50, len(lines))])
		slices.Reverse(part)
		name := filepath.Join(other, "stock-"+string(rune('z'-i/50))+".tsv")
		require.NoError(t, os.WriteFile(name, append(bytes.Join(part, []byte("\n")), '\n'), 0o600))
	}
	run.Jobs, run.Out = filepath.Join(other, "stock-*.tsv"), filepath.Join(t.TempDir(), "shuffled")
	require.NoError(t, run.do(t.Context(), embedded, new(bytes.Buffer)))
	got := files(t, run.Out)
	for name := range want {
		if name != brokenFile && name != pageFile { // these name the files of the stock
			assert.Equal(t, want[name], got[name], name)
		}
	}
}

// A run over its own results of before replaces them and leaves other files alone.
func TestClearOutput(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"outcomes-00000-of-00099.csv", "summary.csv", "mine.csv"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o600))
	}
	require.NoError(t, clearOutput(t.Context(), dir))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 1)
	assert.Equal(t, "mine.csv", entries[0].Name())
}

func TestRefusals(t *testing.T) {
	ctx := t.Context()
	run := Run{Jobs: filepath.Join(t.TempDir(), "*.tsv"), Weather: "nowhere/*.csv", Out: t.TempDir(), Options: defaults()}
	assert.ErrorContains(t, run.plain(ctx), "no file matches nowhere/*.csv")
	_, err := newClimate([]*winter{{Station: "a", Year: 2020}, {Station: "a", Year: 2020}})
	assert.ErrorContains(t, err, "two winters 2020")
	for _, cuts := range [][]int{nil, {0}, {4, 2}, {3, 3}, {200}} {
		o := defaults()
		o.Cuts = cuts
		assert.Error(t, o.check(), "%v", cuts)
	}
	_, err = parseCuts("2,x")
	assert.Error(t, err)
	assert.Error(t, (&Generator{}).check())
	counts := Counts{Lines: 3, Dwellings: 1, Broken: 1}
	assert.ErrorContains(t, counts.check(nil), "not what went out")
}

// A dwelling of a number is the same in a stock of any size, and other seeds
// give other stocks.
func TestGenerator(t *testing.T) {
	small := stockLines(t, Generator{Dwellings: 10, Stations: 2, Winters: 1, Seed: 1})
	large := stockLines(t, Generator{Dwellings: 100, Stations: 2, Winters: 1, Seed: 1})
	other := stockLines(t, Generator{Dwellings: 10, Stations: 2, Winters: 1, Seed: 2})
	assert.Equal(t, small, large[:10])
	assert.NotEqual(t, small, other)
}

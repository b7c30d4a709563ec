package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/hydronics"
	"example.com/hydronics/internal/job"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// oneLine is the demonstration as a line of a stream, filled with antifreeze and
// without drain valves, whose night takes long to follow.
func oneLine(t testing.TB, title string, coldest float64) []byte {
	t.Helper()
	var job map[string]any
	require.NoError(t, json.Unmarshal(demo, &job))
	job["title"] = title
	job["site"].(map[string]any)["coldest_temperature_c"] = coldest
	job["liquid"] = map[string]any{"kind": "propylene glycol", "mass_percent": 30, "hottest_c": 70}
	job["relief_valve"].(map[string]any)["discharges_into"] = "container"
	job["filling_link"] = map[string]any{"backflow_unit": "BA"}
	for _, r := range job["routes"].([]any) {
		for _, s := range r.(map[string]any)["stretches"].([]any) {
			stretch := s.(map[string]any)
			devices, ok := stretch["devices"].([]any)
			if !ok {
				continue
			}
			stretch["devices"] = slices.DeleteFunc(devices, func(d any) bool {
				return d.(map[string]any)["kind"] == "drain valve, thermostatic"
			})
		}
	}
	line, err := json.Marshal(job)
	require.NoError(t, err)
	return append(line, '\n')
}

func results(t *testing.T, out []byte) []result {
	t.Helper()
	var all []result
	for line := range bytes.Lines(out) {
		// Findings are written for readers of JSON and not read back.
		var r struct {
			result
			Failed []json.RawMessage `json:"failed"`
		}
		require.NoError(t, json.Unmarshal(line, &r), "%s", line)
		assert.Len(t, r.Failed, r.NotMet)
		all = append(all, r.result)
	}
	return all
}

func TestStreamKeepsOrderAndGoesOn(t *testing.T) {
	var in bytes.Buffer
	const n = 500
	lines := [][]byte{oneLine(t, "even", -10), oneLine(t, "odd", -30)}
	for i := 1; i <= n; i++ {
		switch {
		case i%50 == 0:
			in.WriteString("{\"title\": \n")
		case i%70 == 0:
			in.WriteString("\n")
		case i%60 == 0:
			in.WriteString(strings.Repeat("x", longLine+10) + "\n")
		default:
			in.Write(lines[i%2])
		}
	}
	for _, workers := range []int{1, 4} {
		var out bytes.Buffer
		s := stream{in: bytes.NewReader(in.Bytes()), out: &out, workers: workers}
		last, worst, err := s.run(t.Context())
		require.NoError(t, err)
		assert.Equal(t, n, last)
		assert.Equal(t, unusable, worst)
		all := results(t, out.Bytes())
		require.Len(t, all, n)
		for i, r := range all {
			assert.Equal(t, i+1, r.Line)
			switch k := i + 1; {
			case k%50 == 0, k%70 == 0, k%60 == 0:
				assert.Equal(t, unusable, r.Status)
				assert.NotEmpty(t, r.Faults)
			default:
				assert.Equal(t, []string{"even", "odd"}[k%2], r.Title)
				assert.Equal(t, k%2 == 1, r.Status == notMet)
				assert.NotZero(t, r.Met)
				assert.NotZero(t, r.OnSite)
			}
		}
	}
}

// The findings of a line are those of the sheet.
func TestStreamWritesFindingsAsTheSheetDoes(t *testing.T) {
	var line, out bytes.Buffer
	require.NoError(t, json.Compact(&line, demo))
	edited := strings.NewReplacer(`"coldest_temperature_c":-12`, `"coldest_temperature_c":-40`, `"title":"`, `"title":"A & <b> `,
		"supply, unit to diverting valve", "supply & <unit>").Replace(line.String())
	j, err := job.Decode([]byte(edited))
	require.NoError(t, err)
	sheet, err := job.Assess(j)
	require.NoError(t, err)
	failed := slices.DeleteFunc(sheet.Findings, func(f job.Finding) bool { return f.Verdict != hydronics.NotMet })
	want, err := json.Marshal(failed)
	require.NoError(t, err)

	s := stream{in: strings.NewReader(edited), out: &out, workers: 1}
	_, _, err = s.run(t.Context())
	require.NoError(t, err)
	assert.Len(t, results(t, out.Bytes()), 1)
	var written struct{ Failed json.RawMessage }
	require.NoError(t, json.Unmarshal(out.Bytes(), &written))
	assert.JSONEq(t, string(want), string(written.Failed))
	assert.Contains(t, out.String(), `"title":"A & <b> `)
	assert.Contains(t, out.String(), `"subject":"supply & <unit>"`)
}

func TestStreamSkips(t *testing.T) {
	var in, whole, first, rest bytes.Buffer
	line := oneLine(t, "x", -10)
	for range 90 {
		in.Write(line)
	}
	data := bytes.TrimSuffix(in.Bytes(), []byte("\n")) // a last line without its end counts
	s := stream{in: bytes.NewReader(data), out: &whole, workers: 2}
	_, worst, err := s.run(t.Context())
	require.NoError(t, err)
	assert.Equal(t, allMet, worst)
	assert.Len(t, results(t, whole.Bytes()), 90)

	ctx, cancel := context.WithCancel(t.Context())
	s = stream{in: &stopper{r: bytes.NewReader(data), after: len(data) / 2, stop: cancel}, out: &first, workers: 2}
	last, _, err := s.run(ctx)
	assert.ErrorIs(t, err, context.Canceled)
	assert.Len(t, results(t, first.Bytes()), last)
	s = stream{in: bytes.NewReader(data), out: &rest, skip: last, workers: 2}
	_, _, err = s.run(t.Context())
	require.NoError(t, err)
	assert.Equal(t, whole.String(), first.String()+rest.String())
}

// stopper ends the context after some bytes.
type stopper struct {
	r     io.Reader
	after int
	stop  func()
}

func (s *stopper) Read(p []byte) (int, error) {
	n, err := s.r.Read(p[:min(len(p), 4096)])
	if s.after -= n; s.after <= 0 {
		s.stop()
	}
	return n, err
}

func TestStreamStopsWhenTheOutputBreaks(t *testing.T) {
	endless := io.MultiReader(bytes.NewReader(bytes.Repeat(oneLine(t, "x", -10), 200)), neverEnding(oneLine(t, "y", -10)))
	s := stream{in: endless, out: brokenPipe{}, workers: 2}
	_, _, err := s.run(t.Context())
	assert.ErrorIs(t, err, os.ErrClosed)
}

type neverEnding []byte

func (n neverEnding) Read(p []byte) (int, error) { return copy(p, n), nil }

// A stream that waits for input ends all the same, with what it has read done.
func TestStreamStopsWhileItWaits(t *testing.T) {
	r, w := io.Pipe()
	defer w.Close()
	ctx, cancel := context.WithCancel(t.Context())
	var out bytes.Buffer
	s := stream{in: r, out: &out, workers: 2}
	ended := make(chan int)
	go func() {
		last, _, err := s.run(ctx)
		assert.ErrorIs(t, err, context.Canceled)
		ended <- last
	}()
	for range 3 {
		_, err := w.Write(oneLine(t, "x", -10))
		require.NoError(t, err)
	}
	time.Sleep(50 * time.Millisecond)
	cancel()
	last := <-ended
	assert.Len(t, results(t, out.Bytes()), last)
}

// The memory that a stream holds does not grow with its length.
func TestStreamInConstantMemory(t *testing.T) {
	line := oneLine(t, "x", -10)
	held := func(n int) uint64 {
		s := stream{in: bytes.NewReader(bytes.Repeat(line, n)), out: io.Discard, workers: 2}
		_, _, err := s.run(t.Context())
		require.NoError(t, err)
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	few := held(100)
	many := held(1500)
	assert.Less(t, many, few+8<<20)
}

func TestInterruptOfTheBuiltProgram(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no interrupt signal to send")
	}
	program := built(t)
	command := exec.Command(program, "-stream")
	in, err := command.StdinPipe()
	require.NoError(t, err)
	out, err := command.StdoutPipe()
	require.NoError(t, err)
	var report bytes.Buffer
	command.Stderr = &report
	require.NoError(t, command.Start())
	fed := make(chan struct{})
	go func() {
		defer close(fed)
		line := oneLine(t, "x", -10)
		for range 1 << 20 {
			if _, err := in.Write(line); err != nil {
				return
			}
		}
	}()
	time.Sleep(300 * time.Millisecond)
	require.NoError(t, command.Process.Signal(os.Interrupt))
	lines := 0
	data, err := io.ReadAll(out)
	require.NoError(t, err)
	lines = bytes.Count(data, []byte("\n"))
	err = command.Wait()
	var exit *exec.ExitError
	require.True(t, errors.As(err, &exit), "%v", err)
	assert.Equal(t, interrupted, exit.ExitCode())
	assert.Contains(t, report.String(), fmt.Sprintf("-skip %d", lines))
	in.Close()
	<-fed
}

func TestStreamOfTheBuiltProgram(t *testing.T) {
	program := built(t)
	path := filepath.Join(t.TempDir(), "jobs.ndjson")
	require.NoError(t, os.WriteFile(path, append(oneLine(t, "a", -10), oneLine(t, "b", -30)...), 0o644))
	out, err := exec.Command(program, "-stream", path).Output()
	var exit *exec.ExitError
	require.True(t, errors.As(err, &exit))
	assert.Equal(t, notMet, exit.ExitCode())
	all := results(t, out)
	require.Len(t, all, 2)
	assert.Equal(t, []string{"a", "b"}, []string{all[0].Title, all[1].Title})
}

// Every installation beside the program, and all in turn. With -cpu 1 it is the rate
// of one core, reading and writing included.
func BenchmarkStream(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(800)) // as the program does
	rate := func(name string, lines []byte) {
		n := 0
		var data []byte
		for ; n < 1000; n += bytes.Count(lines, []byte("\n")) {
			data = append(data, lines...)
		}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				s := stream{in: bytes.NewReader(data), out: io.Discard, workers: runtime.GOMAXPROCS(0)}
				if _, _, err := s.run(b.Context()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.N*n)/b.Elapsed().Seconds(), "installations/s")
		})
	}
	files, err := filepath.Glob("jobs/*.json")
	require.NoError(b, err)
	var all []byte
	for _, file := range append(files, "demo.json") {
		data, err := os.ReadFile(file)
		require.NoError(b, err)
		var line bytes.Buffer
		require.NoError(b, json.Compact(&line, data))
		line.WriteByte('\n')
		all = append(all, line.Bytes()...)
		rate(strings.TrimSuffix(filepath.Base(file), ".json"), line.Bytes())
	}
	rate("all", all)
}

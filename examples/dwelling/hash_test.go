package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
)

// sum is the SHA-256 of the standard library, as far as the sheet shows it.
func sum(data []byte) string { return fmt.Sprintf("%x", sha256.Sum256(data))[:16] }

// Sheet, page and JSON name the file that was read, byte for byte, and the version.
func TestEveryOutputNamesVersionAndFile(t *testing.T) {
	name := filepath.Join("jobs", "radiators.json")
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	changed := filepath.Join(t.TempDir(), "changed.json")
	require.NoError(t, os.WriteFile(changed, append(bytes.Clone(data), ' '), 0o644))
	for file, hash := range map[string]string{name: sum(data), changed: sum(append(bytes.Clone(data), ' '))} {
		_, text, _ := output(t, file)
		assert.Contains(t, strings.Join(strings.Fields(text), " "), "hydronics "+hydronics.Version+" from the job file whose SHA-256 begins with "+hash)
		assert.Contains(t, pageOf(t, file), hash)
		_, out, _ := output(t, "-json", file)
		var s struct {
			Version string `json:"version"`
			Hash    string `json:"job_sha256"`
		}
		require.NoError(t, json.Unmarshal([]byte(out), &s))
		assert.Equal(t, hash, s.Hash)
		assert.Equal(t, hydronics.Version, s.Version)
	}
	assert.NotEqual(t, sum(data), sum(append(bytes.Clone(data), ' ')))
}

// A stream names every line, the unusable ones too, whatever its line break is;
// a line that was not read to its end has no hash.
func TestStreamNamesItsLines(t *testing.T) {
	good, broken := bytes.TrimSpace(oneLine(t, "x", -10)), []byte(`{"title": `)
	var in, out bytes.Buffer
	in.Write(append(bytes.Clone(good), '\n'))
	in.Write(append(bytes.Clone(good), '\r', '\n'))
	in.Write(append(bytes.Clone(broken), '\n'))
	in.WriteString(strings.Repeat("x", longLine+10) + "\n")
	in.Write(good)
	s := stream{in: &in, out: &out, workers: 2}
	_, _, err := s.run(t.Context())
	require.NoError(t, err)
	want := []string{sum(good), sum(good), sum(broken), "", sum(good)}
	all := results(t, out.Bytes())
	require.Len(t, all, len(want))
	for i, r := range all {
		assert.Equal(t, want[i], r.JobHash, "line %d", i+1)
		assert.Equal(t, hydronics.Version, r.Version)
	}
}

package hydronics_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The Go examples of the README are copies of tests that run.
func TestReadmeExamplesAreCompiled(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	require.NoError(t, err)
	var examples strings.Builder
	files, err := filepath.Glob("*/example_test.go")
	require.NoError(t, err)
	for _, file := range files {
		content, err := os.ReadFile(file)
		require.NoError(t, err)
		examples.Write(content)
	}
	blocks := strings.Split(string(readme), "```go\n")[1:]
	assert.Len(t, blocks, 3)
	for _, block := range blocks {
		code, _, closed := strings.Cut(block, "```")
		require.True(t, closed)
		assert.Contains(t, code, "func Example")
		assert.Contains(t, examples.String(), code, "an example of the README is no copy of a compiled one")
	}
}

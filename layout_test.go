package hydronics_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "example.com/hydronics"

// below lists, for every library package, the packages of this module that it
// may import: those below it, and nothing beside or above.
var below = map[string][]string{
	".":            nil,
	"fluid":        {"", "internal/numeric"},
	"pipe":         {"", "internal/numeric", "fluid"},
	"pipe/network": {"", "internal/numeric", "fluid", "pipe"},
	"expansion":    {"", "internal/numeric", "fluid", "pipe"},
	"frost":        {"", "internal/numeric", "fluid", "pipe"},
	"dhw":          {"", "internal/numeric", "fluid", "pipe", "expansion"},
}

func TestImportsPointDownwards(t *testing.T) {
	for folder, allowed := range below {
		files, err := filepath.Glob(filepath.Join(folder, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, files, folder)
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			for _, path := range importsOf(t, file) {
				own, isOwn := strings.CutPrefix(path, module)
				switch own = strings.TrimPrefix(own, "/"); {
				case isOwn:
					assert.Contains(t, allowed, own, "%s imports %s", file, path)
				case strings.Contains(strings.SplitN(path, "/", 2)[0], "."):
					assert.True(t, strings.HasPrefix(path, "gonum.org/v1/gonum/"), "%s imports %s", file, path)
				}
			}
		}
	}
}

func importsOf(t *testing.T, file string) []string {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	require.NoError(t, err)
	paths := make([]string, len(f.Imports))
	for i, spec := range f.Imports {
		paths[i], err = strconv.Unquote(spec.Path.Value)
		require.NoError(t, err)
	}
	return paths
}

// The module's users carry its direct requirements, so the list stays short.
func TestDirectRequirements(t *testing.T) {
	content, err := os.ReadFile("go.mod")
	require.NoError(t, err)
	var direct []string
	for line := range strings.Lines(string(content)) {
		fields := strings.Fields(line)
		if len(fields) == 2 && strings.HasPrefix(fields[1], "v") {
			direct = append(direct, fields[0])
		}
	}
	assert.Equal(t, []string{
		"github.com/google/go-cmp",
		"github.com/schollz/progressbar/v3",
		"github.com/stretchr/testify",
		"gonum.org/v1/gonum",
		"gonum.org/v1/plot",
	}, direct)
}

// Everything at the top has its place; nothing else gathers there.
func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	want := []string{
		"CHANGELOG.md", "DEVELOPERS.md", "LICENSE", "README.md", "dhw", "doc.go", "errors.go", "examples", "expansion",
		"finding.go", "fluid", "frost", "go.mod", "go.sum", "internal", "pipe", "source.go", "staticcheck.conf", "unit.go", "version.go",
	}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") || strings.HasSuffix(name, "_test.go") || isOutput(e) {
			continue
		}
		assert.Contains(t, want, name)
	}
	for _, name := range want {
		assert.True(t, slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == name }), "%s is missing", name)
	}
}

// isOutput spares what a test run leaves behind, which git ignores.
func isOutput(e fs.DirEntry) bool {
	switch filepath.Ext(e.Name()) {
	case ".test", ".out", ".prof":
		return !e.IsDir()
	}
	return false
}

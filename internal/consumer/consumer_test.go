package consumer_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// library lists what a user of the library needs of this repository.
var library = []string{".", "fluid", "pipe", "pipe/network", "expansion", "frost", "dhw", "internal/numeric"}

const program = `package main

import (
	"fmt"

	"example.com/hydronics"
	_ "example.com/hydronics/dhw"
	_ "example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	_ "example.com/hydronics/frost"
	_ "example.com/hydronics/pipe"
	_ "example.com/hydronics/pipe/network"
)

func main() {
	rho, err := fluid.Water().Density(20)
	if err != nil {
		panic(err)
	}
	fmt.Printf("%.1f kg/m³, %.3f bar\n", rho, hydronics.StandardAtmosphere/hydronics.Bar)
}
`

func TestAnotherModuleUsesTheLibrary(t *testing.T) {
	if runtime.GOOS == "js" {
		t.Skip("no processes here")
	}
	folder := t.TempDir()
	copied, user := filepath.Join(folder, "hydronics"), filepath.Join(folder, "user")
	root := filepath.Join("..", "..")
	for _, p := range library {
		files, err := filepath.Glob(filepath.Join(root, p, "*.go"))
		require.NoError(t, err)
		for _, file := range files {
			if !strings.HasSuffix(file, "_test.go") {
				copyFile(t, file, filepath.Join(copied, p, filepath.Base(file)))
			}
		}
	}
	copyFile(t, filepath.Join(root, "go.mod"), filepath.Join(copied, "go.mod"))
	copyFile(t, filepath.Join(root, "go.sum"), filepath.Join(copied, "go.sum"))
	copyFile(t, filepath.Join(root, "go.sum"), filepath.Join(user, "go.sum"))
	write(t, filepath.Join(user, "main.go"), program)
	write(t, filepath.Join(user, "go.mod"), "module example.org/user\n\ngo 1.26\n\n"+
		"require example.com/hydronics v0.0.0\n\nreplace example.com/hydronics => ../hydronics\n")

	// NIST WebBook: water at 20 °C weighs 998.2 kg/m³.
	assert.Equal(t, "998.3 kg/m³, 1.013 bar\n", run(t, user, "run", "."), "at 3 bar absolute")
	for line := range strings.Lines(run(t, user, "list", "-deps", "-f", "{{if not .Standard}}{{.ImportPath}}{{end}}", ".")) {
		path := strings.TrimSpace(line)
		own := path == "" || path == "example.org/user" || path == "example.com/hydronics" || strings.HasPrefix(path, "example.com/hydronics/")
		assert.True(t, own || strings.HasPrefix(path, "gonum.org/v1/gonum/"), "the library pulls in %s", path)
	}
}

// run runs the go command in a folder, offline, and returns what it prints.
func run(t *testing.T, folder string, args ...string) string {
	t.Helper()
	command := exec.Command("go", args...)
	command.Dir = folder
	command.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOPROXY=off", "GOWORK=off", "PWD="+folder)
	var complaints strings.Builder
	command.Stderr = &complaints
	output, err := command.Output()
	require.NoError(t, err, complaints.String())
	return string(output)
}

func copyFile(t *testing.T, from, to string) {
	t.Helper()
	content, err := os.ReadFile(from)
	require.NoError(t, err)
	write(t, to, string(content))
}

func write(t *testing.T, name, content string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(content), 0o600))
}

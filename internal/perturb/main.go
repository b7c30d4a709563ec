// Perturb asks which numbers of a package no reference table notices. It
// replaces one literal after the other by a slightly different one, through the
// overlay of go test, and runs the package's reference tables: a literal whose
// change goes unnoticed stands unguarded.
//
//	go run ./internal/perturb [-by 0.01] [-file NAME] fluid
//
// It compiles once per literal, so a package takes minutes to an hour; it is
// run by hand, and its result stands in DEVELOPERS.md. Whole numbers 0, 1 and 2
// and the arguments of limit checks are left alone: exponents and indices are
// structure, and limits have tests of their own.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

func main() {
	by := flag.Float64("by", 0.01, "relative change of each literal")
	only := flag.String("file", "", "only this file")
	run := flag.String("run", "^TestReference", "tests that have to notice")
	flag.Parse()
	if flag.NArg() != 1 {
		flag.Usage()
		os.Exit(2)
	}
	if err := perturb(flag.Arg(0), *only, *run, *by); err != nil {
		fmt.Fprintln(os.Stderr, "perturb:", err)
		os.Exit(2)
	}
}

// literal is one number in the source.
type literal struct {
	file     string
	position token.Position
	text     string
}

func perturb(folder, only, run string, by float64) error {
	literals, err := find(folder, only)
	if err != nil {
		return err
	}
	scratch, err := os.MkdirTemp("", "perturb")
	if err != nil {
		return err
	}
	unnoticed, broken := 0, 0
	for i, l := range literals {
		result, err := try(scratch, folder, run, l, by)
		if err != nil {
			return errors.Join(err, os.RemoveAll(scratch))
		}
		switch result {
		case passes:
			unnoticed++
			fmt.Printf("%s:%d:%d: %s: no table notices\n", l.file, l.position.Line, l.position.Column, l.text)
		case doesNotBuild:
			broken++ // an array length, say: no number of the calculation
		case fails:
		}
		fmt.Fprintf(os.Stderr, "\r%d of %d, %d unnoticed ", i+1, len(literals), unnoticed)
	}
	fmt.Fprintln(os.Stderr)
	fmt.Printf("%s: %d literals changed by %g, %d unnoticed, %d are structure\n", folder, len(literals)-broken, by, unnoticed, broken)
	return os.RemoveAll(scratch)
}

// find lists the numbers of the package that belong to a calculation.
func find(folder, only string) ([]literal, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		return nil, err
	}
	var literals []literal
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || (only != "" && filepath.Base(file) != only) {
			continue
		}
		set := token.NewFileSet()
		parsed, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			return nil, err
		}
		ast.Inspect(parsed, func(n ast.Node) bool {
			if skip(n) {
				return false
			}
			b, ok := n.(*ast.BasicLit)
			if !ok || (b.Kind != token.FLOAT && b.Kind != token.INT) || b.Value == "0" || b.Value == "1" || b.Value == "2" {
				return true
			}
			literals = append(literals, literal{file, set.Position(b.Pos()), b.Value})
			return true
		})
	}
	if len(literals) == 0 {
		return nil, fmt.Errorf("no numbers in %q", folder)
	}
	return literals, nil
}

// skip leaves out what is no number of a calculation: limit checks, indices,
// array types and slices.
func skip(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.IndexExpr, *ast.ArrayType, *ast.SliceExpr:
		return true
	case *ast.CallExpr:
		name := ""
		switch f := n.Fun.(type) {
		case *ast.Ident:
			name = f.Name
		case *ast.SelectorExpr:
			name = f.Sel.Name
		}
		return strings.EqualFold(name, "within")
	}
	return false
}

type outcome uint8

const (
	fails outcome = iota
	passes
	doesNotBuild
)

func try(scratch, folder, run string, l literal, by float64) (outcome, error) {
	source, err := os.ReadFile(l.file)
	if err != nil {
		return 0, err
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(l.text, "_", ""), 64)
	if err != nil {
		return doesNotBuild, nil // hexadecimal and the like: no decimal coefficient
	}
	changed := strconv.FormatFloat(v*(1+by), 'g', -1, 64)
	at := l.position.Offset
	mutated := string(source[:at]) + changed + string(source[at+len(l.text):])
	copyName, overlay := filepath.Join(scratch, "mutated.go"), filepath.Join(scratch, "overlay.json")
	absolute, err := filepath.Abs(l.file)
	if err != nil {
		return 0, err
	}
	replace, err := json.Marshal(map[string]map[string]string{"Replace": {absolute: copyName}})
	if err != nil {
		return 0, err
	}
	if err := errors.Join(os.WriteFile(copyName, []byte(mutated), 0o600), os.WriteFile(overlay, replace, 0o600)); err != nil {
		return 0, err
	}
	binary := filepath.Join(scratch, "reference.test")
	build := exec.Command("go", "test", "-c", "-vet=off", "-overlay", overlay, "-o", binary, "./"+filepath.ToSlash(folder))
	if build.Run() != nil {
		return doesNotBuild, nil
	}
	test := exec.Command(binary, "-test.run", run, "-test.timeout", "60s")
	test.Dir = folder
	output, err := test.CombinedOutput()
	switch {
	case err == nil && strings.Contains(string(output), "no tests to run"):
		return 0, fmt.Errorf("%s has no test %s", folder, run)
	case err == nil:
		return passes, nil
	case errors.As(err, new(*exec.ExitError)):
		return fails, nil
	default:
		return 0, err
	}
}

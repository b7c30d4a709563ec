package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
)

// The names by which the test binary learns what to change.
const (
	numberKey = "PERTURB_NUMBER"
	factorKey = "PERTURB_FACTOR"
)

// helper is the file that the overlay adds to the package.
const helper = `package %s

import (
	perturbedOS "os"
	perturbedConv "strconv"
)

var (
	perturbedNumber    = perturbedWhich()
	perturbedFactor, _ = perturbedConv.ParseFloat(perturbedOS.Getenv("` + factorKey + `"), 64)
)

func perturbedWhich() int {
	n, err := perturbedConv.Atoi(perturbedOS.Getenv("` + numberKey + `"))
	if err != nil {
		return -1
	}
	return n
}

func perturbed(number int, v float64) float64 {
	if number == perturbedNumber {
		return v * perturbedFactor
	}
	return v
}
`

// build compiles the tests of the package with every number replaced by a call
// that may change it. The constants that other packages use stay as they are.
func build(s *source, numbers []*number, scratch, folder string) (string, error) {
	type edit struct {
		place
		number int
	}
	edits := map[string][]edit{}
	for i, n := range numbers {
		for _, p := range n.places {
			if !p.declares {
				edits[p.file] = append(edits[p.file], edit{p, i})
			}
		}
	}
	changed := map[string]string{}
	for file, list := range edits {
		slices.SortFunc(list, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
		content, text, at := s.content[file], "", 0
		for _, e := range list {
			call := "perturbed(" + strconv.Itoa(e.number) + ", " + string(content[e.from:e.to]) + ")"
			if e.as != "" {
				call = e.as + "(perturbed(" + strconv.Itoa(e.number) + ", float64(" + string(content[e.from:e.to]) + ")))"
			}
			text, at = text+string(content[at:e.from])+call, e.to
		}
		changed[file] = text + string(content[at:])
	}
	inside := filepath.Dir(s.files.Position(s.syntax[0].Pos()).Filename)
	changed[filepath.Join(inside, "perturbed_numbers.go")] = fmt.Sprintf(helper, s.types.Name())
	return compile(changed, scratch, folder, "all.test")
}

// buildDeclared compiles the tests with one declared constant multiplied.
func buildDeclared(s *source, p place, factor float64, scratch, folder, name string) (string, error) {
	content := s.content[p.file]
	text := fmt.Sprintf("%s(%s)*%v%s", content[:p.from], content[p.from:p.to], factor, content[p.to:])
	return compile(map[string]string{p.file: text}, scratch, folder, name)
}

// compile builds the tests of the package in a folder, with some files of other
// content, and returns the path of the binary.
func compile(changed map[string]string, scratch, folder, name string) (string, error) {
	replace := map[string]string{}
	for file, text := range changed {
		copied := filepath.Join(scratch, name+"_"+filepath.Base(file))
		if err := os.WriteFile(copied, []byte(text), 0o600); err != nil {
			return "", err
		}
		replace[file] = copied
	}
	overlay, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	list, binary := filepath.Join(scratch, name+".json"), filepath.Join(scratch, name)
	if err := os.WriteFile(list, overlay, 0o600); err != nil {
		return "", err
	}
	output, err := exec.Command("go", "test", "-c", "-vet=off", "-overlay", list, "-o", binary, "./"+filepath.ToSlash(folder)).CombinedOutput()
	if err != nil {
		err = errors.Join(fmt.Errorf("building %s: %w", folder, err), errors.New(string(output)))
	}
	return binary, err
}

package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
)

// The tests that compare with reference tables, and all of them.
const (
	tables   = "^TestReference"
	anyTests = "."
)

// unchanged is the number of no number.
const unchanged = -1

// perturb changes every number of the package in turn, tells what notices it, and
// returns them all.
func perturb(folder, file string, by float64, workers int, tell func(*number)) ([]*number, error) {
	s, err := load(folder)
	if err != nil {
		return nil, err
	}
	scratch, err := os.MkdirTemp("", "perturb")
	if err != nil {
		return nil, err
	}
	numbers := find(s)
	binary, err := build(s, numbers, scratch, folder)
	if err == nil {
		// Nothing changed: all has to pass, and the binary must be able to fail.
		err = sound(binary, folder)
	}
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(scratch))
	}
	tried, err := tryAll(s, numbers, binary, scratch, folder, file, by, workers, tell)
	return tried, errors.Join(err, os.RemoveAll(scratch))
}

// tryAll tries the numbers of one file, or of all where file is empty.
func tryAll(s *source, numbers []*number, binary, scratch, folder, file string, by float64, workers int, tell func(*number)) ([]*number, error) {
	var tried []*number
	var work sync.WaitGroup
	var failed error
	var lock sync.Mutex
	free := make(chan struct{}, workers)
	for i, n := range numbers {
		if file != "" && filepath.Base(n.at.Filename) != file {
			continue
		}
		tried = append(tried, n)
		free <- struct{}{}
		work.Go(func() {
			defer func() { <-free }()
			noticed, err := try(s, n, i, binary, scratch, folder, by)
			n.noticed = noticed
			lock.Lock()
			defer lock.Unlock()
			failed = errors.Join(failed, err)
			tell(n)
		})
	}
	work.Wait()
	return tried, failed
}

// try changes one number up and down. It is noticed if either change is.
func try(s *source, n *number, i int, binary, scratch, folder string, by float64) (notice, error) {
	factors := []float64{1 + by, 1 - by}
	binaries := []string{binary, binary}
	if n.places[0].declares {
		for f := range factors {
			var err error
			name := fmt.Sprintf("declared%d_%d", i, f)
			if binaries[f], err = buildDeclared(s, n.places[0], factors[f], scratch, folder, name); err != nil {
				return 0, err
			}
		}
		i = unchanged
	}
	for noticed, tests := range []string{byTables: tables, byTests: anyTests} {
		for f := range factors {
			passes, err := test(binaries[f], folder, tests, i, factors[f])
			if err != nil {
				return 0, err
			}
			if !passes {
				return notice(noticed), nil
			}
		}
	}
	return byNothing, nil
}

func sound(binary, folder string) error {
	for _, tests := range []string{tables, anyTests} {
		if passes, err := test(binary, folder, tests, unchanged, 1); err != nil || !passes {
			return errors.Join(fmt.Errorf("%s: the tests %q fail before anything is changed", folder, tests), err)
		}
	}
	return nil
}

// test runs the binary and tells whether the tests pass. One that runs for too
// long, or is killed, has noticed as well.
func test(binary, folder, tests string, number int, factor float64) (bool, error) {
	cmd := exec.Command(binary, "-test.run", tests, "-test.failfast", "-test.timeout", "60s")
	cmd.Dir = folder
	cmd.Env = append(os.Environ(), numberKey+"="+strconv.Itoa(number), factorKey+"="+strconv.FormatFloat(factor, 'g', -1, 64))
	output, err := cmd.CombinedOutput()
	switch {
	case err == nil && strings.Contains(string(output), "no tests to run"):
		return false, fmt.Errorf("%s has no test %s", folder, tests)
	case err != nil && !errors.As(err, new(*exec.ExitError)):
		return false, err
	}
	return err == nil, nil
}

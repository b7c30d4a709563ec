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

// trial is what to try.
type trial struct {
	folder  string
	file    string  // only this one, or all
	by      float64 // relative change
	slow    string  // tests that are tried last, and not on entries of lists
	workers int
}

// perturb changes every number of the package in turn, tells what notices it, and
// returns them all.
func (t trial) perturb(tell func(*number)) ([]*number, error) {
	s, err := load(t.folder)
	if err != nil {
		return nil, err
	}
	scratch, err := os.MkdirTemp("", "perturb")
	if err != nil {
		return nil, err
	}
	numbers := find(s)
	binary, err := build(s, numbers, scratch, t.folder)
	if err == nil {
		// Nothing changed: all has to pass, and the binary must be able to fail.
		err = t.sound(binary)
	}
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(scratch))
	}
	tried, err := t.all(s, numbers, binary, scratch, tell)
	return tried, errors.Join(err, os.RemoveAll(scratch))
}

// all tries the numbers, a few at a time.
func (t trial) all(s *source, numbers []*number, binary, scratch string, tell func(*number)) ([]*number, error) {
	var tried []*number
	var work sync.WaitGroup
	var failed error
	var lock sync.Mutex
	free := make(chan struct{}, t.workers)
	for i, n := range numbers {
		if t.file != "" && filepath.Base(n.at.Filename) != t.file {
			continue
		}
		tried = append(tried, n)
		free <- struct{}{}
		work.Go(func() {
			defer func() { <-free }()
			noticed, err := t.one(s, n, i, binary, scratch)
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

// one changes one number up and down. It is noticed if either change is.
func (t trial) one(s *source, n *number, i int, binary, scratch string) (notice, error) {
	phases := []struct {
		notice
		run, skip string
	}{{byTables, tables, ""}, {byTests, anyTests, t.slow}}
	if t.slow != "" && n.role() != entry {
		phases = append(phases, phases[1])
		phases[2].run, phases[2].skip = t.slow, ""
	}
	declared := map[float64]string{} // binaries
	for _, p := range phases {
		for _, factor := range []float64{1 + t.by, 1 - t.by} {
			changed := i
			if place := n.places[0]; place.declares {
				if declared[factor] == "" {
					var err error
					if declared[factor], err = buildDeclared(s, place, factor, scratch, t.folder, fmt.Sprintf("declared%d_%g", i, factor)); err != nil {
						return 0, err
					}
				}
				binary, changed = declared[factor], unchanged
			}
			passes, err := t.test(binary, p.run, p.skip, changed, factor)
			if err != nil {
				return 0, err
			}
			if !passes {
				return p.notice, nil
			}
		}
	}
	return byNothing, nil
}

func (t trial) sound(binary string) error {
	for _, tests := range []string{tables, anyTests} {
		if passes, err := t.test(binary, tests, "", unchanged, 1); err != nil || !passes {
			return errors.Join(fmt.Errorf("%s: the tests %q fail before anything is changed", t.folder, tests), err)
		}
	}
	return nil
}

// test runs the binary and tells whether the tests pass. One that runs for too
// long, or is killed, has noticed as well.
func (t trial) test(binary, run, skip string, number int, factor float64) (bool, error) {
	cmd := exec.Command(binary, "-test.run", run, "-test.skip", skip, "-test.failfast", "-test.timeout", "120s")
	cmd.Dir = t.folder
	cmd.Env = append(os.Environ(), numberKey+"="+strconv.Itoa(number), factorKey+"="+strconv.FormatFloat(factor, 'g', -1, 64))
	output, err := cmd.CombinedOutput()
	switch {
	case err == nil && strings.Contains(string(output), "no tests to run"):
		return false, fmt.Errorf("%s has no test %s", t.folder, run)
	case err != nil && !errors.As(err, new(*exec.ExitError)):
		return false, err
	}
	return err == nil, nil
}

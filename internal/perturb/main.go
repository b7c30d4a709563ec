// Perturb asks which numbers of a package nothing notices. It changes one
// number after the other by a small fraction, up and down, and runs the tests
// of the package each time: first its reference tables, then, where no table
// fails, all its tests. A number whose change goes unnoticed stands unguarded.
//
//	go run ./internal/perturb [-by 0.001] [-file NAME] [-slow TESTS] fluid
//
// What counts as a number is decided by the compiler's types and not by a list
// (number.go). The test binary is built once, with every number replaced by a
// call that reads the change from the environment (overlay.go), so a package
// takes a few minutes. It is run by hand; the result stands in DEVELOPERS.md.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	by := flag.Float64("by", 1e-3, "relative change of each number")
	file := flag.String("file", "", "only this file of the package")
	slow := flag.String("slow", "", "slow tests, to be tried last (a regular expression)")
	workers := flag.Int("workers", 2, "tests that run at the same time")
	flag.Parse()
	if flag.NArg() != 1 || !(*by > 0 && *by < 1) || *workers < 1 {
		flag.Usage()
		os.Exit(2)
	}
	if err := run(trial{folder: flag.Arg(0), file: *file, by: *by, slow: *slow, workers: *workers}); err != nil {
		fmt.Fprintln(os.Stderr, "perturb:", err)
		os.Exit(2)
	}
}

func run(t trial) error {
	var count [byNothing + 1]int
	var unnoticed [entry + 1]int
	found, err := t.perturb(func(n *number) {
		count[n.noticed]++
		if n.noticed == byNothing {
			unnoticed[n.role()]++
		}
		if n.noticed != byTables {
			fmt.Printf("%s:%d:%d: %s: %v, noticed by %v\n", filepath.Base(n.at.Filename), n.at.Line, n.at.Column, n.text, n.role(), n.noticed)
		}
	})
	if err != nil {
		return err
	}
	_, err = fmt.Printf("%s, changed by %g: %d numbers, %d noticed by tables, %d by other tests only, %d by nothing (%d coefficients, %d limits, %d tolerances, %d entries)\n",
		t.folder, t.by, len(found), count[byTables], count[byTests], count[byNothing],
		unnoticed[coefficient], unnoticed[limit], unnoticed[tolerance], unnoticed[entry])
	return err
}

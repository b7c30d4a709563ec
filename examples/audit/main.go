// Audit compares every published value that the project holds with the value
// the library computes, and prints the report.
//
//	go run ./examples/audit            all tables of the project
//	go run ./examples/audit -data DIR  the tables in DIR instead
//	go run ./examples/audit -html FILE the report as one printable page as well
//	go run ./examples/audit -values    every computed value to the last digit, as CSV,
//	                                   to hold one machine against another
//	go run ./examples/audit -against FILE   compare with the values of another machine
//
// The exit status is 1 when a gating value lies outside its tolerance, 2 when a
// table cannot be read (both of the built binary: go run turns 2 into 1).
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/reference"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("audit", flag.ContinueOnError)
	flags.SetOutput(stderr)
	dir := flags.String("data", "", "compare the tables in this `folder` instead of the project's own; they never enter the headline")
	html := flags.String("html", "", "also write the report to this `file`, as one printable page with parity plots")
	values := flags.Bool("values", false, "print every computed value instead of the report, as CSV")
	other := flags.String("against", "", "compare with the values in this `file`, written with -values on another machine, instead of reporting")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "audit: unexpected argument %q\n", flags.Arg(0))
		return 2
	}
	files, calculations, exempt := reference.Data(), calculation.All(), calculation.Exempt()
	if *dir != "" {
		files = os.DirFS(*dir)
	}
	tables, err := reference.Load(files, ".", calculations)
	if err != nil {
		fmt.Fprintln(stderr, "audit:", err)
		return 2
	}
	if len(tables) == 0 {
		fmt.Fprintln(stderr, "audit: no tables found")
		return 2
	}
	report := reference.NewReport(tables, calculations, exempt)
	if *other != "" {
		if err := against(*other, report, stdout); err != nil {
			fmt.Fprintln(stderr, "audit:", err)
			return 1
		}
		return 0
	}
	write := report.WriteMarkdown
	switch {
	case *values:
		write = report.WriteValues
	case *dir != "":
		write = report.WriteTables
	}
	if err := write(stdout); err != nil {
		fmt.Fprintln(stderr, "audit:", err)
		return 2
	}
	if *html != "" {
		if err := toFile(*html, report); err != nil {
			fmt.Fprintln(stderr, "audit:", err)
			return 2
		}
	}
	if failed := report.Failed(); failed > 0 {
		fmt.Fprintf(stderr, "audit: %d gating values outside their tolerance\n", failed)
		return 1
	}
	return 0
}

func toFile(name string, report reference.Report) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	return errors.Join(writePage(f, report), f.Close())
}

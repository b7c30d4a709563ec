// Rows evaluates one calculation of the library over the rows of a CSV file.
//
//	go run ./examples/rows -list                      every calculation in a line
//	go run ./examples/rows -list NAME                 its columns and their units
//	go run ./examples/rows NAME <in.csv >out.csv
//
// Columns are named after their quantity and end in the unit, any of the units
// that -list NAME shows: flow_l_min, bore_mm, temperature_c. The output holds
// the columns of the input, then the results, then a column error. A row that
// fails is reported with its line on the standard error, keeps empty results and
// its reason in the column error, and the work goes on; the exit status is then
// 1. It is 2 when the input cannot be used at all (of the built binary: go run
// turns 2 into 1).
package main

import (
	"bufio"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/unit"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

const usage = `usage: rows -list [NAME]
       rows [-keep COLUMNS] [-case COLUMN] [-out COLUMNS] NAME <in.csv >out.csv
`

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("rows", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, usage)
		flags.PrintDefaults()
	}
	list := flags.Bool("list", false, "list the calculations, or the columns of the one named")
	keep := flags.String("keep", "", "`columns` that are no inputs, to be carried through (comma separated)")
	group := flags.String("case", "", "`column` whose equal neighbours are evaluated together, for calculations over several rows")
	out := flags.String("out", "", "result `columns` wanted, each with its unit (comma separated); default all")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	name := flags.Arg(0)
	if flags.NArg() > 1 || (name == "" && !*list) {
		flags.Usage()
		return 2
	}
	buffered := bufio.NewWriter(stdout)
	failed, err := do(name, *list, options{split(*keep), split(*out), *group}, stdin, buffered, stderr)
	if err := errors.Join(err, buffered.Flush()); err != nil {
		fmt.Fprintln(stderr, "rows:", err)
		return 2
	}
	if failed > 0 {
		fmt.Fprintf(stderr, "rows: %d rows failed\n", failed)
		return 1
	}
	return 0
}

func do(name string, list bool, o options, in io.Reader, out, report io.Writer) (failed int, err error) {
	if name == "" {
		return 0, listAll(out)
	}
	c, ok := calculation.Named(name)
	if !ok {
		return 0, fmt.Errorf("no calculation %q; rows -list shows all", name)
	}
	if list {
		return 0, listOne(out, c)
	}
	return evaluate(c, o, in, out, report)
}

func split(list string) []string {
	if list == "" {
		return nil
	}
	names := strings.Split(list, ",")
	for i := range names {
		names[i] = strings.TrimSpace(names[i])
	}
	return slices.Compact(names)
}

func listAll(w io.Writer) error {
	for _, c := range calculation.All() {
		if _, err := fmt.Fprintf(w, "%-34s %s\n", c.Name, c.Doc); err != nil {
			return err
		}
	}
	return nil
}

func listOne(w io.Writer, c calculation.Calculation) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\nA column is named after its quantity and ends in one of the units in braces;\na question mark says that the bare name will do.\n", c.Name, c.Doc)
	if c.Case != nil {
		b.WriteString("The rows of a case (-case COLUMN) are evaluated together.\n")
	}
	for _, part := range []struct {
		title   string
		columns []calculation.Column
	}{{"takes", c.Inputs}, {"gives", c.Outputs}} {
		fmt.Fprintf(&b, "\n%s\n", part.title)
		for _, col := range part.columns {
			meaning := col.Kind.Name()
			if col.Doc != "" {
				meaning += ": " + col.Doc
			}
			if col.Optional {
				meaning += " (may be missing)"
			}
			fmt.Fprintf(&b, "  %-24s %s\n", col.Name, meaning)
			if s := suffixes(col.Kind); s != "" {
				fmt.Fprintf(&b, "  %24s %s\n", "", s)
			}
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// suffixes lists the unit suffixes of a kind, the preferred one first: the
// column pressure_bar is the quantity pressure with the suffix _bar.
func suffixes(k unit.Kind) string {
	var list []string
	for _, u := range k.Units() {
		if u.Suffix != "" {
			list = append(list, "_"+u.Suffix)
		}
	}
	if len(list) == 0 {
		return ""
	}
	optional := ""
	if _, bare := k.Lookup(""); bare {
		optional = "?"
	}
	return "{" + strings.Join(list, " ") + "}" + optional
}

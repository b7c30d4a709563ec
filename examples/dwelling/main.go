// Dwelling assesses the water side of an air-to-water heat pump in a house and
// prints a sheet for the signature of a heating engineer.
//
//	dwelling                 the embedded demonstration, all of it invented
//	dwelling FILE.json       an installation of yours
//	dwelling -json [FILE]    the same for machines: SI units, stable keys (output.md)
//	dwelling -html PAGE [FILE]  beside the text, a page with figures to print on A4
//	dwelling -new FILE.json  a starting point to be changed, and beside it FILE.txt,
//	                         which explains every key
//	dwelling -schema         the JSON Schema of the job file, for editors
//	dwelling -stream [FILE]  one job a line in (standard input without a file), one
//	                         result a line out, in the order of the input
//	dwelling -stream -skip N go on after line N
//
// The exit status is 0 if every calculated requirement is met, 1 if one is not,
// and 2 if the input cannot be used. It holds for the built program: go run turns
// 2 into 1. A stream has the highest status of its lines; a line that cannot be
// used gets a result that says why, and the stream goes on. A stream that is
// interrupted finishes the lines under way, says where to go on, and has 130.
//
// Sheet, page and JSON name the version of the module and the job file: the first
// 16 hexadecimal digits of the SHA-256 of its bytes, as sha256sum prints them. In a
// stream they are of the bytes of the line, without its line break.
//
// A calculation alone releases nothing: what the sheet leaves to be seen on site
// has to be seen, and local codes and licensed persons come first.
package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"

	"example.com/hydronics/internal/job"
)

//go:embed demo.json
var demo []byte

// Exit statuses.
const (
	allMet   = 0
	notMet   = 1
	unusable = 2

	interrupted = 130
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

func run(ctx context.Context, args []string, out, report io.Writer) int {
	flags := flag.NewFlagSet("dwelling", flag.ContinueOnError)
	flags.SetOutput(report)
	machine := flags.Bool("json", false, "print the sheet as JSON, in SI units")
	html := flags.String("html", "", "write the sheet as a page to `PAGE`, to be printed on A4")
	fresh := flags.String("new", "", "write a starting point to `FILE.json` and an explanation of every key beside it")
	schema := flags.Bool("schema", false, "print the JSON Schema of the job file")
	many := flags.Bool("stream", false, "read one job a line, write one result a line")
	skip := flags.Int("skip", 0, "with -stream: pass over the first `N` lines")
	flags.Usage = func() {
		fmt.Fprintln(report, "usage: dwelling [-json] [-html PAGE] [FILE.json]\n       dwelling -new FILE.json\n       dwelling -schema\n       dwelling -stream [-skip N] [FILE]\nWithout a file: the embedded demonstration. Exit status 0 all calculated\nrequirements met, 1 one not met, 2 input that cannot be used.")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		return unusable
	}
	if *skip < 0 || *skip > 0 && !*many {
		return finish(report, errors.New("-skip takes the number of lines to pass over, with -stream"), unusable)
	}
	if *many {
		return runStream(ctx, flags.Args(), *skip, out, report)
	}
	if *fresh != "" {
		return finish(report, writeNew(*fresh, report), allMet)
	}
	if *schema {
		return finish(report, writeJSON(out, job.Schema()), allMet)
	}
	data, err := input(flags.Args())
	if err != nil {
		return finish(report, err, unusable)
	}
	j, err := job.Decode(data)
	if err != nil {
		return finish(report, err, unusable)
	}
	sheet, err := job.Assess(j)
	if err != nil {
		return finish(report, err, unusable)
	}
	sheet.JobHash = job.Hash(data)
	job.Remedies(j, sheet)
	if *html != "" {
		if err := writeHTML(*html, j, sheet); err != nil {
			return finish(report, err, unusable)
		}
	}
	if *machine {
		err = writeJSON(out, sheet)
	} else {
		err = writeText(out, sheet)
	}
	status := allMet
	if !sheet.AllMet() {
		status = notMet
	}
	return finish(report, err, status)
}

// writeNew writes the demonstration as a starting point, with its explanation. It
// overwrites nothing.
func writeNew(name string, report io.Writer) error {
	base, ok := strings.CutSuffix(name, ".json")
	guide := base + ".txt"
	if !ok {
		return fmt.Errorf("%s: a job file is called something.json", name)
	}
	if err := create(name, demo); err != nil {
		return err
	}
	if err := create(guide, []byte(job.Guide())); err != nil {
		return err
	}
	_, err := fmt.Fprintf(report, "%s is the demonstration: put your figures in place of its own. %s explains every key.\n", name, guide)
	return err
}

func create(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// input returns the job file, or the demonstration without one.
func input(args []string) ([]byte, error) {
	switch len(args) {
	case 0:
		return demo, nil
	case 1:
		return readFile(args[0])
	default:
		return nil, fmt.Errorf("%d files given, want one", len(args))
	}
}

// readFile reads at most a byte more than a job file may have.
func readFile(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, job.MaxFileSize+1))
}

func writeJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// finish reports an error, which makes any status unusable.
func finish(report io.Writer, err error, status int) int {
	if err != nil {
		fmt.Fprintln(report, err)
		return unusable
	}
	return status
}

// Sourcemap prints, for auditors, one line per exported calculation: the
// source that its documentation names, the place of its code, the calculations
// in row form that cover it and the reference tables that check it.
//
//	go run ./internal/sourcemap >map.md     from the root of a checkout
//
// The exit status is 1 when a calculation names no source in its documentation,
// in that of its type or in its package's chapter.
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/hydronics/internal/calculation"
	"example.com/hydronics/internal/exported"
	"example.com/hydronics/internal/reference"
)

var packages = []string{"fluid", "pipe", "pipe/network", "expansion", "frost", "dhw"}

func main() {
	without, err := write(os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, "sourcemap:", err)
		os.Exit(2)
	}
	if without > 0 {
		fmt.Fprintf(os.Stderr, "sourcemap: %d calculations name no source\n", without)
		os.Exit(1)
	}
}

// entry is one exported function or method that a calculation covers.
type entry struct {
	name, source, place string
	calculations        []string
	tables              []string
}

func write(w io.Writer) (without int, err error) {
	tables, err := reference.Load(reference.Data(), ".", calculation.All())
	if err != nil {
		return 0, err
	}
	byCalculation := map[string][]string{}
	for _, t := range tables {
		byCalculation[t.Calculation.Name] = append(byCalculation[t.Calculation.Name], strings.TrimSuffix(t.File, ".csv"))
	}
	covering := map[string][]string{}
	for _, c := range calculation.All() {
		for _, name := range c.Covers {
			covering[name] = append(covering[name], c.Name)
		}
	}
	fmt.Fprintln(w, "# Formula, source, code, table")
	for _, folder := range packages {
		entries, err := read(folder)
		if err != nil {
			return 0, err
		}
		fmt.Fprintf(w, "\n## %s\n\n| calculation | source | code | row form | tables |\n|---|---|---|---|---|\n", folder)
		for _, e := range entries {
			e.calculations = covering[e.name]
			if len(e.calculations) == 0 {
				continue // exempt: no number to check
			}
			for _, c := range e.calculations {
				e.tables = append(e.tables, byCalculation[c]...)
			}
			if e.source == "" {
				without++
				e.source = "**none named**"
			}
			if _, err := fmt.Fprintf(w, "| %s | %s | %s | %s | %s |\n", e.name, e.source, e.place,
				strings.Join(e.calculations, ", "), strings.Join(e.tables, ", ")); err != nil {
				return 0, err
			}
		}
	}
	return without, nil
}

// read returns the exported functions and methods of a package with the source
// that their documentation, or else their type's, names.
func read(folder string) ([]entry, error) {
	_, chapter, all, err := exported.Read(folder)
	if err != nil {
		return nil, fmt.Errorf("%w: run it from the root of a checkout", err)
	}
	var entries []entry
	for _, c := range all {
		e := entry{name: c.Name, place: fmt.Sprintf("%s:%d", filepath.ToSlash(c.At.Filename), c.At.Line)}
		for _, text := range []string{c.Doc, c.TypeDoc, sourceSection(chapter)} {
			if e.source = sourceIn(text); e.source != "" {
				break
			}
		}
		entries = append(entries, e)
	}
	slices.SortFunc(entries, func(a, b entry) int { return strings.Compare(a.name, b.name) })
	return entries, nil
}

// sourceIn returns what follows "Source:" or "Sources:" in a doc comment, up to
// the end of its paragraph.
func sourceIn(text string) string {
	for _, mark := range []string{"Source: ", "Sources: ", "Source:\n", "Sources:\n"} {
		if _, after, ok := strings.Cut(text, mark); ok {
			paragraph, _, _ := strings.Cut(strings.TrimLeft(after, "\n"), "\n\n")
			return strings.Join(strings.Fields(paragraph), " ")
		}
	}
	return ""
}

// sourceSection returns the section "# Sources" of a package's chapter as if it
// followed the word.
func sourceSection(chapter string) string {
	_, after, ok := strings.Cut(chapter, "# Sources\n")
	if !ok {
		return ""
	}
	section, _, _ := strings.Cut(after, "\n# ")
	return "Sources: package chapter: " + strings.Join(strings.Fields(section), " ")
}

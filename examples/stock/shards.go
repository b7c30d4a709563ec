package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
)

// Names of what a run writes into its folder.
const (
	shardPrefix = "outcomes-"
	brokenFile  = "broken.csv"
	summaryFile = "summary.csv"
	worstFile   = "worst.csv"
	marginsFile = "margins.csv"
	pageFile    = "page.html"
)

// writeShard writes one file of outcomes, its lines sorted, and returns their number.
func writeShard(ctx context.Context, folder string, shard int, o *Options, rows []byte) (int64, error) {
	lines := slices.Collect(bytes.Lines(rows))
	slices.SortFunc(lines, bytes.Compare)
	file := join(folder, fmt.Sprintf("%s%05d-of-%05d.csv", shardPrefix, shard, o.Shards))
	return int64(len(lines)), writeFile(ctx, file, func(w *bufio.Writer) error {
		fmt.Fprintf(w, "%s\n", rowHeader(o))
		for _, line := range lines {
			w.Write(line) // the error stays with w and comes out of Flush
		}
		return nil
	})
}

// writeBroken writes the lines that cannot be used, by file and line.
func writeBroken(ctx context.Context, folder string, all []breach) error {
	slices.SortFunc(all, func(a, b breach) int {
		if c := strings.Compare(a.File, b.File); c != 0 {
			return c
		}
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return strings.Compare(a.Reason, b.Reason)
	})
	return writeFile(ctx, join(folder, brokenFile), func(w *bufio.Writer) error {
		fmt.Fprintln(w, "file,line,reason")
		for i := range all {
			w.WriteString(all[i].row())
		}
		return nil
	})
}

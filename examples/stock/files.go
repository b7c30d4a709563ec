package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem/local" // paths without a scheme
)

// listFiles returns the files that the pattern stands for, sorted; none is an error.
func listFiles(ctx context.Context, pattern string) ([]string, error) {
	fs, err := filesystem.New(ctx, pattern)
	if err != nil {
		return nil, err
	}
	defer fs.Close()
	files, err := fs.List(ctx, pattern)
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("no file matches %s", pattern)
	}
	slices.Sort(files)
	return files, nil
}

// withFile opens a file at an offset for the time of do.
func withFile(ctx context.Context, file string, offset int64, do func(io.Reader) error) error {
	fs, err := filesystem.New(ctx, file)
	if err != nil {
		return err
	}
	defer fs.Close()
	r, err := fs.OpenRead(ctx, file)
	if err != nil {
		return err
	}
	defer r.Close()
	switch s, seeks := r.(io.Seeker); {
	case seeks:
		_, err = s.Seek(offset, io.SeekStart)
	default:
		_, err = io.CopyN(io.Discard, r, offset)
	}
	if err != nil {
		return err
	}
	return do(r)
}

// writeFile writes a file as a whole: under another name first, where the file
// system can rename, so that a worker that dies leaves no half file behind.
func writeFile(ctx context.Context, file string, do func(*bufio.Writer) error) error {
	fs, err := filesystem.New(ctx, file)
	if err != nil {
		return err
	}
	defer fs.Close()
	renamer, renames := fs.(filesystem.Renamer)
	name := file
	if renames {
		name += ".part"
	}
	out, err := fs.OpenWrite(ctx, name)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(out, 1<<18)
	if err := errors.Join(do(w), w.Flush(), out.Close()); err != nil || !renames {
		return err
	}
	return renamer.Rename(ctx, name, file)
}

// clearOutput removes the files that an earlier run left in the folder, and no others.
func clearOutput(ctx context.Context, folder string) error {
	fs, err := filesystem.New(ctx, folder)
	if err != nil {
		return err
	}
	defer fs.Close()
	remover, removes := fs.(filesystem.Remover)
	if !removes {
		return nil
	}
	for _, pattern := range []string{shardPrefix + "*.csv", brokenFile, summaryFile, worstFile, marginsFile, pageFile} {
		files, err := fs.List(ctx, join(folder, pattern))
		if err != nil {
			return err
		}
		for _, file := range files {
			if err := remover.Remove(ctx, file); err != nil {
				return err
			}
		}
	}
	return nil
}

// join puts a file name behind a folder, which may have a scheme.
func join(folder, name string) string { return strings.TrimSuffix(folder, "/") + "/" + name }

package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"example.com/hydronics/internal/job"
)

// blockSize is about how many bytes of the stock one worker takes at a time:
// some hundred dwellings.
const blockSize = 1 << 20

// A block is a run of whole lines of one file.
type block struct {
	File   string
	Offset int64 // of its first byte
	Length int64
	Line   int64 // number of its first line, from 1
	Lines  int64
}

// cutBlocks cuts a file into blocks of about size bytes and hands each to emit.
// It counts lines and nothing else, so that any worker can start in the middle
// of a file and still name the line that is broken.
func cutBlocks(file string, r io.Reader, size int64, emit func(block)) error {
	in := bufio.NewReaderSize(r, 1<<18)
	b := block{File: file, Line: 1}
	within := int64(0) // bytes of a line whose end has not come
	for {
		part, err := in.ReadSlice('\n')
		b.Length += int64(len(part))
		within += int64(len(part))
		if err == nil || errors.Is(err, io.EOF) && within > 0 {
			b.Lines++
			within = 0
		}
		if b.Lines > 0 && within == 0 && (b.Length >= size || errors.Is(err, io.EOF)) {
			emit(b)
			b = block{File: file, Offset: b.Offset + b.Length, Line: b.Line + b.Lines}
		}
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil && !errors.Is(err, bufio.ErrBufferFull):
			return fmt.Errorf("%s: %w", file, err)
		}
	}
}

// eachLine hands the lines of a block to do, without their ends. Of a line
// longer than any job file no more is kept than it takes to refuse it.
func (b *block) eachLine(r io.Reader, do func(number int64, line []byte)) error {
	in := bufio.NewReaderSize(io.LimitReader(r, b.Length), 1<<18)
	var line []byte
	for n := range b.Lines {
		line = line[:0]
		for {
			part, err := in.ReadSlice('\n')
			if room := longest - len(line); room > 0 {
				line = append(line, part[:min(room, len(part))]...)
			}
			if err == nil || errors.Is(err, io.EOF) && n == b.Lines-1 {
				break
			}
			if !errors.Is(err, bufio.ErrBufferFull) {
				return fmt.Errorf("%s, line %d: %w", b.File, b.Line+n, err)
			}
		}
		do(b.Line+n, bytes.TrimRight(line, "\r\n"))
	}
	return nil
}

const longest = job.MaxFileSize + 128 // bytes of a line: job file, station and design

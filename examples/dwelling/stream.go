package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"sync"

	"example.com/hydronics"
	"example.com/hydronics/internal/job"
	"github.com/schollz/progressbar/v3"
)

// A result is what the stream writes for one line. The verdicts are counted;
// what is not met comes in full.
type result struct {
	Line        int          `json:"line"`                 // counted from 1 over the whole input
	Version     string       `json:"version"`              // of the module
	JobHash     string       `json:"job_sha256,omitempty"` // of the line without its line break; none of a line too long to be read
	Title       string       `json:"title,omitempty"`
	Status      int          `json:"status"` // as the exit status for a single file
	Met         int          `json:"met"`
	Unconfirmed int          `json:"met_unconfirmed"`
	Narrow      int          `json:"met_within_uncertainty"`
	NotMet      int          `json:"not_met"`
	OnSite      int          `json:"on_site"`
	Failed      []job.Record `json:"failed,omitempty"`
	Faults      job.Faults   `json:"faults,omitempty"` // why the line cannot be used
	Error       string       `json:"error,omitempty"`  // the same where no key is to blame
}

// A batch is some lines on their way through a worker. Batches are written in
// the order in which they were read.
type batch struct {
	first int    // line number of the first
	text  []byte // the lines, one behind the other
	ends  []int  // where each ends in it
	out   bytes.Buffer
	worst int
	done  chan struct{}
}

const (
	batchLines = 32
	longLine   = job.MaxFileSize + 1
	mostKept   = 1 << 20 // bytes of a batch that is filled again
)

// A stream is one run over many jobs.
type stream struct {
	in      io.Reader
	out     io.Writer
	skip    int // lines to pass over
	workers int
	bar     *progressbar.ProgressBar // nil: none
	written chan *batch              // to be filled again
}

// run assesses one job a line. It returns the number of the last line whose
// result was written, the worst status met, and an error of input or output. If
// ctx ends it stops reading, finishes what is under way and returns ctx's error.
func (s *stream) run(ctx context.Context) (last, worst int, err error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	work := make(chan *batch, s.workers)
	order := make(chan *batch, 4*s.workers) // bounds the memory
	s.written = make(chan *batch, cap(order))
	var group sync.WaitGroup
	for range s.workers {
		group.Go(func() {
			var series job.Series
			for b := range work {
				b.assess(&series)
				close(b.done)
			}
		})
	}
	var readErr error
	group.Go(func() {
		defer close(order)
		defer close(work)
		readErr = s.dispatch(ctx, order, work)
	})
	w := bufio.NewWriterSize(s.out, 1<<16)
	last = s.skip
	var writeErr error
	for b := range order {
		<-b.done
		if writeErr != nil {
			continue
		}
		if _, writeErr = b.out.WriteTo(w); writeErr == nil && len(order) == 0 {
			writeErr = w.Flush() // nobody waits for what is ready
		}
		if writeErr != nil {
			cancel()
			continue
		}
		last, worst = b.first+len(b.ends)-1, max(worst, b.worst)
		if s.bar != nil {
			_ = s.bar.Add(len(b.ends)) // a broken bar is no reason to stop
		}
		if cap(b.text) <= mostKept && b.out.Cap() <= mostKept {
			select {
			case s.written <- b:
			default:
			}
		}
	}
	group.Wait()
	if writeErr != nil {
		return last, worst, writeErr
	}
	return last, worst, readErr
}

// dispatch hands batches on until the input or ctx ends. A reader that waits for
// input is left behind when ctx ends.
func (s *stream) dispatch(ctx context.Context, order, work chan<- *batch) error {
	read := make(chan *batch)
	ended := make(chan error, 1)
	go func() {
		ended <- s.read(func(b *batch) bool {
			select {
			case read <- b:
				return true
			case <-ctx.Done():
				return false
			}
		})
	}()
	for {
		select {
		case b := <-read:
			order <- b
			work <- b
		case err := <-ended:
			return errors.Join(err, ctx.Err())
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// read cuts the input into batches until send refuses one. A batch is sent when
// it is full, or when there is nothing more to read for the moment.
func (s *stream) read(send func(*batch) bool) error {
	r := bufio.NewReaderSize(s.in, 1<<18)
	b := s.empty()
	for n := 1; ; n++ {
		begin := len(b.text)
		text, err := appendLine(b.text, r)
		if len(text) > begin && n > s.skip {
			if len(b.ends) == 0 {
				b.first = n
			}
			b.text, b.ends = text, append(b.ends, len(text))
		}
		if len(b.ends) > 0 && (len(b.ends) == batchLines || err != nil || r.Buffered() == 0) {
			if !send(b) {
				return nil
			}
			b = s.empty()
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

// empty returns a batch to be filled, in the room of one that was written if there
// is one.
func (s *stream) empty() *batch {
	b := new(batch)
	select {
	case old := <-s.written:
		b.text, b.ends, b.out = old.text[:0], old.ends[:0], old.out
	default:
	}
	b.done = make(chan struct{})
	return b
}

// appendLine appends a line with its end. Of a line longer than any job file it
// keeps no more than it takes to refuse it.
func appendLine(text []byte, r *bufio.Reader) ([]byte, error) {
	longest := len(text) + longLine
	for {
		part, err := r.ReadSlice('\n')
		text = append(text, part[:min(len(part), longest-len(text))]...)
		if !errors.Is(err, bufio.ErrBufferFull) {
			return text, err
		}
	}
}

func (b *batch) assess(series *job.Series) {
	e := json.NewEncoder(&b.out)
	e.SetEscapeHTML(false)
	begin := 0
	for i, end := range b.ends {
		r := resultOf(b.text[begin:end], series)
		r.Line = b.first + i
		b.worst = max(b.worst, r.Status)
		if err := e.Encode(&r); err != nil {
			panic(err) // every field can be written
		}
		begin = end
	}
}

func resultOf(line []byte, series *job.Series) (r result) {
	r.Version = hydronics.Version
	if len(line) < longLine {
		r.JobHash = job.Hash(bytes.TrimSuffix(bytes.TrimSuffix(line, []byte("\n")), []byte("\r")))
	}
	j, err := job.Decode(line)
	var sheet *job.Sheet
	if err == nil {
		sheet, err = series.Assess(j)
	}
	if err != nil {
		r.Status = unusable
		if !errors.As(err, &r.Faults) {
			r.Error = err.Error()
		}
		return r
	}
	r.Title = sheet.Title
	r.Met, r.Unconfirmed, r.Narrow = sheet.Count(hydronics.Met), sheet.Count(hydronics.MetUnconfirmed), sheet.Count(hydronics.MetWithinUncertainty)
	r.OnSite = sheet.Count(hydronics.SeeOnSite)
	r.NotMet = len(sheet.Findings) - r.Met - r.Unconfirmed - r.Narrow - r.OnSite
	if r.NotMet > 0 {
		r.Status, r.Failed = notMet, sheet.Failed()
	}
	return r
}

// runStream is the -stream mode of the program.
func runStream(ctx context.Context, args []string, skip int, out, report io.Writer) int {
	in := io.Reader(os.Stdin)
	total := -1
	if len(args) > 1 {
		return finish(report, fmt.Errorf("%d files given, want one, or none for standard input", len(args)), unusable)
	}
	if len(args) == 1 {
		f, err := os.Open(args[0])
		if err != nil {
			return finish(report, err, unusable)
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.Mode().IsRegular() && terminal(report) {
			if total, err = countLines(f); err != nil {
				return finish(report, err, unusable)
			}
		}
		in = f
	}
	// Every line leaves some garbage and nothing else: collect it less often.
	defer debug.SetGCPercent(debug.SetGCPercent(800))
	s := stream{in: in, out: out, skip: skip, workers: runtime.GOMAXPROCS(0)}
	if terminal(report) {
		if total >= 0 {
			total = max(0, total-skip)
		}
		s.bar = progressbar.NewOptions(total, progressbar.OptionSetWriter(report), progressbar.OptionSetDescription("installations"),
			progressbar.OptionShowCount(), progressbar.OptionShowIts(), progressbar.OptionSetItsString("installations"),
			progressbar.OptionSetPredictTime(true), progressbar.OptionThrottle(200e6), progressbar.OptionClearOnFinish())
	}
	last, worst, err := s.run(ctx)
	if s.bar != nil {
		_ = s.bar.Finish()
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintf(report, "stopped; the results up to line %d are written: go on with -skip %d\n", last, last)
		return interrupted
	}
	return finish(report, err, worst)
}

// terminal reports whether w is one.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// countLines counts the lines of a file and goes back to its beginning.
func countLines(f *os.File) (int, error) {
	n, last := 0, byte('\n')
	buffer := make([]byte, 1<<18)
	for {
		k, err := f.Read(buffer)
		n += bytes.Count(buffer[:k], []byte("\n"))
		if k > 0 {
			last = buffer[k-1]
		}
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return 0, err
		}
	}
	if last != '\n' {
		n++
	}
	_, err := f.Seek(0, io.SeekStart)
	return n, err
}

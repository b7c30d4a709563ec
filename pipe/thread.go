package pipe

import (
	"fmt"

	"example.com/hydronics"
)

// A Thread is a Whitworth pipe thread. Its size names the bore of a tube that
// once went with it, not the thread: G 1 measures 33.249 mm.
type Thread struct {
	Size    string  // such as "3/4"
	Nominal string  // DN of the steel tube that goes with it, such as "20"
	Major   float64 // major diameter, m; for taper threads at the gauge plane
	PerInch int
	Source  hydronics.Source
}

// Pitch returns the distance between two turns in m: one inch by PerInch.
func (t Thread) Pitch() float64 { return hydronics.Inch / float64(t.PerInch) }

// Threads returns the sizes 1/8 to 2 of ISO 228-1 (G, parallel, not sealing in
// the thread) and ISO 7-1 (R, taper, and Rp, parallel, sealing in the thread),
// which share their numbers; from memory.
func Threads() []Thread {
	source := hydronics.Source{Text: "ISO 228-1:2000 and ISO 7-1:1994, Table 1", Provenance: hydronics.FromMemory}
	rows := []struct {
		size, dn string
		major    float64
		perInch  int
	}{
		{"1/8", "6", 9.728, 28}, {"1/4", "8", 13.157, 19}, {"3/8", "10", 16.662, 19},
		{"1/2", "15", 20.955, 14}, {"3/4", "20", 26.441, 14}, {"1", "25", 33.249, 11},
		{"1 1/4", "32", 41.91, 11}, {"1 1/2", "40", 47.803, 11}, {"2", "50", 59.614, 11},
	}
	threads := make([]Thread, len(rows))
	for i, r := range rows {
		threads[i] = Thread{r.size, r.dn, metres(r.major, hydronics.Millimetre), r.perInch, source}
	}
	return threads
}

// ThreadOf returns the thread of that size, such as "3/4", and
// [hydronics.ErrNoSolution] for any other.
func ThreadOf(size string) (Thread, error) {
	for _, t := range Threads() {
		if t.Size == size {
			return t, nil
		}
	}
	return Thread{}, fmt.Errorf("pipe.ThreadOf: %w: no thread %q from 1/8 to 2", hydronics.ErrNoSolution, size)
}

// Package calls runs lists of calculations again and again: as benchmarks, and as
// tests that they allocate nothing.
package calls

import (
	"maps"
	"slices"
	"testing"
)

// A List holds calculations with inputs inside their ranges, by name.
type List map[string]func() error

// AllocateNothing demands that every calculation of the list succeeds, and
// allocates nothing on the way.
func (l List) AllocateNothing(t *testing.T) {
	t.Helper()
	for name, call := range l {
		if err := call(); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if n := testing.AllocsPerRun(100, func() { _ = call() }); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

// Benchmark runs each calculation of the list as a benchmark of its own.
func (l List) Benchmark(b *testing.B) {
	for _, name := range slices.Sorted(maps.Keys(l)) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := l[name](); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

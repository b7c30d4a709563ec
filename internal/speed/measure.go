package main

import (
	"math"
	"runtime"
	"time"
)

// A loop runs a calculation n times and returns something that depends on every
// result, so that no run can be left out.
type loop func(n int) float64

// each is the loop over a calculation whose input may vary with the run.
func each(calculate func(run int) float64) loop {
	return func(n int) (sum float64) {
		for i := range n {
			sum += calculate(i)
		}
		return sum
	}
}

// compare returns the least time in seconds that one run of each loop takes. The
// loops take turns in short slices, so that a busy machine slows all of them
// alike, and the least of many slices is nearly what a quiet machine would need.
func compare(rounds int, loops ...loop) []float64 {
	const slice = 500 * time.Microsecond
	runs := make([]int, len(loops))
	least := make([]float64, len(loops))
	for i, f := range loops {
		least[i] = math.Inf(1)
		for runs[i] = 1; seconds(f, runs[i]) < slice.Seconds(); runs[i] *= 2 {
		}
	}
	for range rounds {
		for i, f := range loops {
			least[i] = min(least[i], seconds(f, runs[i])/float64(runs[i]))
		}
	}
	return least
}

func seconds(f loop, n int) float64 {
	start := time.Now()
	runtime.KeepAlive(f(n))
	return time.Since(start).Seconds()
}

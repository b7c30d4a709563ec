package network_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/require"
)

func twoPipe(tb testing.TB, emitters int) network.Network {
	n, err := network.TwoPipe(emitters, liquid(tb, 50))
	require.NoError(tb, err)
	return n
}

// BenchmarkTwoPipe solves two-pipe systems from a cold start.
func BenchmarkTwoPipe(b *testing.B) {
	for _, emitters := range []int{10, 100, 1000, 10_000, 100_000} {
		b.Run(fmt.Sprint(emitters), func(b *testing.B) {
			s, err := twoPipe(b, emitters).Prepare()
			require.NoError(b, err)
			b.ReportAllocs()
			iterations := 0
			for b.Loop() {
				r, err := s.Solve()
				if err != nil {
					b.Fatal(err)
				}
				iterations = r.Iterations
			}
			b.ReportMetric(float64(iterations), "iterations")
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*iterations*emitters), "ns/(iteration·emitter)")
		})
	}
}

func BenchmarkPrepare(b *testing.B) {
	for _, emitters := range []int{10, 1000, 100_000} {
		n := twoPipe(b, emitters)
		b.Run(fmt.Sprint(emitters), func(b *testing.B) {
			for b.Loop() {
				if _, err := n.Prepare(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkScaling reports the exponent of the work per iteration between 100
// and 10,000 emitters.
func BenchmarkScaling(b *testing.B) {
	perIteration := func(emitters int) float64 {
		s, err := twoPipe(b, emitters).Prepare()
		require.NoError(b, err)
		least := math.Inf(1)
		for range 5 {
			start, iterations := time.Now(), 0
			for range max(1, 10_000/emitters) {
				r, err := s.Solve()
				if err != nil {
					b.Fatal(err)
				}
				iterations += r.Iterations
			}
			least = math.Min(least, time.Since(start).Seconds()/float64(iterations))
		}
		return least
	}
	exponent := 0.0
	for b.Loop() {
		exponent = math.Log(perIteration(10_000)/perIteration(100)) / math.Log(100)
	}
	b.ReportMetric(exponent, "exponent")
}

// BenchmarkHouse solves a heat pump with four zones and a bypass: prepared, and
// with everything that building it anew costs.
func BenchmarkHouse(b *testing.B) {
	h := newHouse(b, liquid(b, 32))
	s, err := h.Prepare()
	require.NoError(b, err)
	b.Run("prepared", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := s.Solve(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("anew", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := h.Solve(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("sixteen combinations", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := s.Combinations(h.zones, h.source); err != nil {
				b.Fatal(err)
			}
		}
	})
}

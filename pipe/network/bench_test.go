package network_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"example.com/hydronics/internal/calls"
	"example.com/hydronics/internal/edge"
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

// BenchmarkHouse asks everything that can be asked about a heat pump with four zones and
// a bypass: of the prepared system but for "anew", which builds it each time.
func BenchmarkHouse(b *testing.B) {
	h := newHouse(b, liquid(b, 32))
	s, err := h.Prepare()
	require.NoError(b, err)
	r, err := s.Solve()
	require.NoError(b, err)
	shut := newHouse(b, liquid(b, 32)) // balanced with the bypass shut
	shut.Branches[h.bypass].Shut = true
	unbalanced, err := shut.Prepare()
	require.NoError(b, err)
	zone := s.Branch(h.zones[0])
	heats := []network.Heat{{Branch: h.source, Exchange: network.Delivers, Temperature: 35}}
	for _, b := range h.zones {
		heats = append(heats, network.Heat{Branch: b, Exchange: network.GivesOff, Power: 1200})
	}
	calls.List{
		"Solve":         func() error { return edge.Err(s.Solve()) },
		"anew":          func() error { return edge.Err(h.Solve()) },
		"Prepare":       func() error { return edge.Err(h.Prepare()) },
		"Change":        func() error { return s.Change(h.zones[0], zone) },
		"Combinations":  func() error { return edge.Err(s.Combinations(h.zones, h.source)) },
		"Balance":       func() error { return edge.Err(unbalanced.Balance(h.designs, 3000)) },
		"DesignSpeed":   func() error { return edge.Err(unbalanced.DesignSpeed(h.source, h.designs, 3000)) },
		"SpeedFor":      func() error { return edge.Err(unbalanced.SpeedFor(h.source, h.zones[0], 6e-5)) },
		"BypassSetting": func() error { return edge.Err(s.BypassSetting(h.bypass, h.source, h.zones, 1e-4)) },
		"Authority":     func() error { return edge.Err(s.Authority(h.zones[3])) },
		"Temperatures":  func() error { return edge.Err(h.Temperatures(r, 30, heats)) },
		"Inlet":         func() error { return edge.Err(h.Inlet(r, h.source, 101325)) },
		"Solution.Pump": func() error { return edge.Err(r.Pump(h.source)) },
	}.Benchmark(b)
}

func TestScalarsAllocateNothing(t *testing.T) {
	valve := network.Valve{Kvs: 1.6, Characteristic: network.EqualPercentage, Rangeability: 50, Position: 0.5}
	calls.List{
		"Valve.Kv":        func() error { return edge.Err(valve.Kv()) },
		"Thermostatic.Kv": func() error { return edge.Err(network.Thermostatic{Kv2: 0.4, Kvs: 0.8, Closing: 22, Room: 20}.Kv()) },
		"InstalledFlow":   func() error { return edge.Err(network.InstalledFlow(0.5, 0.3)) },
	}.AllocateNothing(t)
}

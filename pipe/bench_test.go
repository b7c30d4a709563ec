package pipe_test

import (
	"testing"

	"example.com/hydronics/pipe"
)

func BenchmarkFrictionFactor(b *testing.B) {
	re, sum := 3000.0, 0.0
	for b.Loop() {
		f, err := pipe.FrictionFactor(re, 1e-3)
		if err != nil {
			b.Fatal(err)
		}
		sum += f
		if re += 10; re > 1e6 {
			re = 3000
		}
	}
}

func BenchmarkRunLoss(b *testing.B) {
	p := water(b, 35)
	run := pipe.Run{Bore: 0.026, Roughness: 1.5e-6, Length: 12, Zeta: 6}
	flow := 1e-4
	for b.Loop() {
		if _, err := run.Loss(flow, p); err != nil {
			b.Fatal(err)
		}
		if flow += 1e-7; flow > 1e-3 {
			flow = 1e-4
		}
	}
}

func BenchmarkLossAndSlope(b *testing.B) {
	c, err := pipe.Run{Bore: 0.026, Roughness: 1.5e-6, Length: 12, Zeta: 6}.Prepare(water(b, 35))
	if err != nil {
		b.Fatal(err)
	}
	flow, sum := 1e-4, 0.0
	for b.Loop() {
		loss, slope := c.LossAndSlope(flow)
		sum += loss * slope
		if flow += 1e-7; flow > 1e-3 {
			flow = 1e-4
		}
	}
}

package pipe_test

import (
	"math"
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

func water(t testing.TB, temperature float64) fluid.Properties {
	t.Helper()
	p, err := fluid.Water().At(temperature)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The loss grows strictly with the flow through every regime, is odd, and its
// slope is the derivative.
func TestLossMonotone(t *testing.T) {
	p := water(t, 40)
	for rule := pipe.LinearTransition; rule <= pipe.StepTransition; rule++ {
		for _, rough := range []float64{0, 1.5e-6, 45e-6, 0.8e-3} {
			run := pipe.Run{Bore: 0.02, Roughness: rough, Length: 10, Zeta: 0.5, ZetaLaminar: 800, Kv: 4, Transition: rule}
			c, err := run.Prepare(p)
			if err != nil {
				t.Fatal(err)
			}
			last := 0.0
			for flow := 1e-6; flow < 2e-3; flow *= 1.001 {
				l, err := run.Loss(flow, p)
				if err != nil {
					t.Fatal(err)
				}
				if !(l.Total > last) {
					t.Fatalf("%v, roughness %g: loss %g at Re %.1f is not above %g", rule, rough, l.Total, l.Reynolds, last)
				}
				last = l.Total
				loss, slope := c.LossAndSlope(-flow)
				if math.Abs(loss/l.Total+1) > 1e-14 || math.Abs(slope/l.Slope-1) > 1e-14 {
					t.Fatalf("prepared %g, %g; want %g, %g", loss, slope, -l.Total, l.Slope)
				}
				h := flow * 1e-6
				up, _ := c.LossAndSlope(flow + h)
				down, _ := c.LossAndSlope(flow - h)
				kink := math.Abs(l.Reynolds-2000) < 1 || math.Abs(l.Reynolds-3000) < 1 || math.Abs(l.Reynolds-2320) < 1
				if d := (up - down) / (2 * h); !kink && math.Abs(d/slope-1) > 1e-6 {
					t.Fatalf("%v, Re %g: slope %g, difference quotient %g", rule, l.Reynolds, slope, d)
				}
			}
		}
	}
}

func TestNoFlowNoLoss(t *testing.T) {
	tube, err := pipe.Find("EN 1057 22x1")
	if err != nil {
		t.Fatal(err)
	}
	l, err := tube.Run(12).Loss(0, water(t, 35))
	if err != nil || l.Total != 0 || l.Regime != pipe.Still || !(l.Slope > 0) {
		t.Errorf("%+v, %v", l, err)
	}
	c, _ := tube.Run(12).Prepare(water(t, 35))
	if loss, slope := c.LossAndSlope(0); loss != 0 || slope != l.Slope {
		t.Errorf("%g, %g", loss, slope)
	}
	if n := testing.AllocsPerRun(100, func() { _, _ = tube.Run(12).Loss(1e-4, water(t, 35)) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

package pipe_test

import (
	"math"
	"strings"
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

// Runs in series lose to the last bit what they lose one by one, whether or not they
// share a friction factor.
func TestResistances(t *testing.T) {
	p := water(t, 40)
	for rule := pipe.LinearTransition; rule <= pipe.StepTransition; rule++ {
		var s pipe.Resistances
		for _, r := range []pipe.Run{
			{Bore: 0.020, Roughness: 1.5e-6, Length: 3, Zeta: 2},
			{Bore: 0.020, Roughness: 1.5e-6, Length: 7, Kv: 6},
			{Bore: 0.020, Roughness: 1.5e-6, Zeta: 1},
			{Bore: 0.020, Roughness: 45e-6, Length: 2},
			{Bore: 0.026, Roughness: 1.5e-6, Length: 5, ZetaLaminar: 800},
			{Bore: 0.026, Roughness: 1.5e-6, Length: 5, Transition: (rule + 1) % 4},
			{Bore: 0.020, Roughness: 1.5e-6, Length: 4},
		} {
			r.Transition = (r.Transition + rule) % 4
			c, err := r.Prepare(p)
			if err != nil {
				t.Fatal(err)
			}
			s = append(s, c)
		}
		for _, flow := range []float64{0, 1e-320, 1e-7, 1e-5, 2.5e-5, 3e-5, 4e-5, 1e-4, -1e-4, 1e-3, math.NaN()} {
			loss, slope := s.LossAndSlope(flow)
			var wantLoss, wantSlope float64
			for i := range s {
				l, d := s[i].LossAndSlope(flow)
				wantLoss += l
				wantSlope += d
			}
			if math.Float64bits(loss) != math.Float64bits(wantLoss) || math.Float64bits(slope) != math.Float64bits(wantSlope) {
				t.Errorf("%v, %g m³/s: %g, %g; want %g, %g", rule, flow, loss, slope, wantLoss, wantSlope)
			}
		}
	}
	if loss, slope := (pipe.Resistances{}).LossAndSlope(1); loss != 0 || slope != 0 {
		t.Errorf("nothing in series: %g, %g", loss, slope)
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

// Solvers may ask for anything: the prepared loss answers every flow.
func TestLossAndSlopeNeverFails(t *testing.T) {
	for rule := pipe.LinearTransition; rule <= pipe.StepTransition; rule++ {
		c, err := pipe.Run{Bore: 0.02, Roughness: 1e-4, Length: 10, Transition: rule}.Prepare(water(t, 40))
		if err != nil {
			t.Fatal(err)
		}
		last := 0.0
		for _, flow := range []float64{5e-324, 1e-200, 1e-12, 1e-6, 1, 1e3, 1e9, 1e50} {
			loss, slope := c.LossAndSlope(flow)
			if !(loss >= last) || !(slope > 0) || math.IsInf(slope, 0) {
				t.Errorf("%v at %g m³/s: %g, %g after %g", rule, flow, loss, slope, last)
			}
			last = loss
		}
	}
}

// The rules but the step are continuous where they change.
func TestContinuousTransition(t *testing.T) {
	for rule := range pipe.StepTransition {
		for _, rr := range []float64{0, 1e-4, 0.05} {
			for _, re := range []float64{2000, 3000} {
				below, _, err1 := rule.FrictionFactor(re*(1-1e-12), rr)
				above, _, err2 := rule.FrictionFactor(re*(1+1e-12), rr)
				if err1 != nil || err2 != nil || math.Abs(above/below-1) > 1e-10 {
					t.Errorf("%v, Re %g, rr %g: %g and %g (%v, %v)", rule, re, rr, below, above, err1, err2)
				}
			}
		}
	}
}

func TestRegimes(t *testing.T) {
	for _, c := range []struct {
		rule pipe.Transition
		re   float64
		want pipe.Regime
	}{
		{pipe.LinearTransition, 2000, pipe.Laminar}, {pipe.LinearTransition, 2001, pipe.Transitional},
		{pipe.LinearTransition, 3000, pipe.Turbulent}, {pipe.StepTransition, 2320, pipe.Laminar}, {pipe.StepTransition, 2321, pipe.Turbulent},
	} {
		_, got, err := c.rule.FrictionFactor(c.re, 0)
		if err != nil || got != c.want {
			t.Errorf("%v at %g: %v, %v; want %v", c.rule, c.re, got, err, c.want)
		}
	}
	if _, _, err := pipe.Transition(9).FrictionFactor(1e4, 0); err == nil {
		t.Error("unknown rule accepted")
	}
}

// Every wrong field is named.
func TestRunRefuses(t *testing.T) {
	_, err := pipe.Run{Bore: 20, Roughness: -1, Length: math.NaN(), Zeta: 1e9, ZetaLaminar: -1, Kv: -1, Transition: 7}.
		Loss(1e-4, fluid.Properties{})
	if err == nil {
		t.Fatal("accepted")
	}
	for _, word := range []string{"bore = 20 m", "roughness", "length", "sum of loss", "laminar sum", "Kv", "transition", "density", "viscosity"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("%q is not in %v", word, err)
		}
	}
	run := pipe.Run{Bore: 0.02, Length: 1}
	for _, flow := range []float64{0.3, -0.3, math.NaN(), math.Inf(1)} {
		if l, err := run.Loss(flow, water(t, 40)); err == nil || l != (pipe.Loss{}) {
			t.Errorf("%g m³/s in 20 mm: %+v, %v", flow, l, err)
		}
	}
	run.Zeta = -1
	if _, err := run.Prepare(water(t, 40)); err == nil {
		t.Error("a negative loss coefficient prepared")
	}
}

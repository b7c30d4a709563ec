package pipe_test

import (
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// What bulk users call allocates nothing.
func TestNoAllocations(t *testing.T) {
	p, liquid := water(t, 35), fluid.Water()
	tube, err := pipe.Find("EN 1057 28x1.5")
	if err != nil {
		t.Fatal(err)
	}
	run := tube.Run(12)
	c, err := run.Prepare(p)
	if err != nil {
		t.Fatal(err)
	}
	surge := tube.Surge(2.2e9, 998)
	for name, f := range map[string]func() error{
		"FrictionFactor": func() error { _, err := pipe.FrictionFactor(1e4, 1e-4); return err },
		"Run.Loss":       func() error { _, err := run.Loss(3e-4, p); return err },
		"Run.Prepare":    func() error { _, err := run.Prepare(p); return err },
		"LossAndSlope":   func() error { c.LossAndSlope(3e-4); return nil },
		"Find":           func() error { _, err := pipe.Find("EN 1057 28x1.5"); return err },
		"FlowForHeat":    func() error { _, err := pipe.FlowForHeat(8e3, 35, 30, liquid); return err },
		"Kv.Loss":        func() error { _, err := pipe.Kv(4).Loss(3e-4, 995); return err },
		"Surge.Close": func() error {
			_, err := surge.Close(pipe.Closure{Length: 10, Velocity: 1, Time: 0.1})
			return err
		},
		"Tee.Dividing": func() error {
			_, _, err := pipe.Tee{Run: 0.026, Branch: 0.016, Share: 0.3}.Dividing()
			return err
		},
		"Enlargement": func() error { _, err := pipe.Enlargement(0.02, 0.026); return err },
		"Growth":      func() error { _, err := tube.Growth(12, 10, 60); return err },
	} {
		if err := f(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if n := testing.AllocsPerRun(100, func() { _ = f() }); n != 0 {
			t.Errorf("%s: %g allocations", name, n)
		}
	}
}

package pipe_test

import (
	"math"
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// finite fails the test unless the numbers are finite exactly when err is nil.
func finite(t *testing.T, err error, numbers ...float64) {
	t.Helper()
	all := true
	for _, v := range numbers {
		all = all && !math.IsNaN(v) && !math.IsInf(v, 0)
	}
	if err == nil && !all {
		t.Fatalf("%v without an error", numbers)
	}
	if err != nil && len(numbers) == 1 && !math.IsNaN(numbers[0]) {
		t.Fatalf("%v with the error %v", numbers, err)
	}
}

func FuzzFrictionFactor(f *testing.F) {
	f.Add(1e5, 1e-3, uint8(0))
	f.Add(2000.0, 0.0, uint8(1))
	f.Add(1e-300, 0.05, uint8(2))
	f.Add(math.NaN(), 0.0, uint8(3))
	f.Fuzz(func(t *testing.T, re, rr float64, rule uint8) {
		v, _, err := pipe.Transition(rule).FrictionFactor(re, rr)
		finite(t, err, v)
		if err == nil && !(v > 0) {
			t.Fatalf("f = %g", v)
		}
	})
}

func FuzzRun(f *testing.F) {
	f.Add(0.02, 1e-6, 10.0, 2.0, 800.0, 4.0, 1e-4, 1000.0, 1e-3)
	f.Add(0.0005, 0.0, 0.0, -10.0, 0.0, 0.0, 0.0, 2000.0, 1e-5)
	f.Fuzz(func(t *testing.T, bore, rough, length, zeta, laminar, kv, flow, density, viscosity float64) {
		r := pipe.Run{Bore: bore, Roughness: rough, Length: length, Zeta: zeta, ZetaLaminar: laminar, Kv: pipe.Kv(kv)}
		p := fluid.Properties{Density: density, DynamicViscosity: viscosity}
		l, err := r.Loss(flow, p)
		finite(t, err, l.Velocity, l.Reynolds, l.FrictionFactor, l.Gradient, l.Friction, l.Fittings, l.Valves, l.Total, l.Slope, l.Uncertainty)
		if err != nil && l != (pipe.Loss{}) {
			t.Fatalf("%+v with the error %v", l, err)
		}
		if err != nil || zeta < 0 || l.Total == 0 || math.Abs(l.Total) > 1e8 || math.Abs(l.Total) < 1e-200 {
			return
		}
		back, err := r.Flow(l.Total, p)
		if err != nil || math.Abs(back/flow-1) > 1e-9 {
			t.Fatalf("%+v: %g m³/s lose %g Pa, which %g m³/s lose (%v)", r, flow, l.Total, back, err)
		}
	})
}

func FuzzBoreFor(f *testing.F) {
	f.Add(1e-6, 10.0, 2.0, 1e-4, 5000.0)
	f.Fuzz(func(t *testing.T, rough, length, zeta, flow, loss float64) {
		p := fluid.Properties{Density: 990, DynamicViscosity: 6e-4}
		bore, err := pipe.Run{Roughness: rough, Length: length, Zeta: zeta}.BoreFor(flow, loss, p)
		finite(t, err, bore)
	})
}

func FuzzFitting(f *testing.F) {
	f.Add(2.0, 100.0, 0.02, 0.026, 5000.0, 0.3)
	f.Fuzz(func(t *testing.T, zeta, laminar, bore, other, re, share float64) {
		on, err := pipe.Fitting{Zeta: zeta, ZetaLaminar: laminar, Bore: bore}.On(other)
		finite(t, err, on.Zeta, on.ZetaLaminar, on.Bore)
		if err == nil {
			at, err := on.At(re)
			finite(t, err, at)
		}
		tee := pipe.Tee{Run: bore, Branch: other, Share: share}
		a, b, err := tee.Dividing()
		finite(t, err, a.Zeta, b.Zeta)
		a, b, err = tee.Combining()
		finite(t, err, a.Zeta, b.Zeta)
		c, err := pipe.SharpContraction(bore, other)
		finite(t, err, c.Zeta, c.Bore)
		w, err := pipe.Taper{Small: bore, Large: other, Angle: share}.Narrowing()
		finite(t, err, w.Zeta, w.Bore)
		o, err := pipe.Orifice{Bore: bore, Hole: other, Discharge: share}.Fitting()
		finite(t, err, o.Zeta, o.Bore)
	})
}

func FuzzSurge(f *testing.F) {
	f.Add(2.2e9, 998.0, 0.02, 0.001, 120e9, 10.0, 1.0, 0.1)
	f.Fuzz(func(t *testing.T, bulk, density, bore, wall, modulus, length, velocity, time float64) {
		r, err := pipe.Surge{Bulk: bulk, Density: density, Bore: bore, Wall: wall, Modulus: modulus}.
			Close(pipe.Closure{Length: length, Velocity: velocity, Time: time})
		finite(t, err, r.WaveSpeed, r.CriticalTime, r.Rise)
	})
}

func FuzzMovement(f *testing.F) {
	f.Add(0.028, 0.0015, 16e-6, 120e9, 10.0, 5.0, 60.0, 50e6)
	f.Fuzz(func(t *testing.T, outside, wall, expansion, modulus, length, from, to, stress float64) {
		tube := pipe.Tube{Outside: outside, Wall: wall, Expansion: expansion, Modulus: modulus}
		growth, err := tube.Growth(length, from, to)
		finite(t, err, growth)
		force, err := tube.FixedPointForce(from, to)
		finite(t, err, force)
		leg, err := tube.Leg(pipe.Offset{Growth: growth, Stress: stress})
		finite(t, err, leg)
		leg, err = tube.LegByConstant(growth, stress)
		finite(t, err, leg)
	})
}

func FuzzDefrost(f *testing.F) {
	f.Add(1.5, -5.0, 0.0, 1000.0, 500.0, 300.0, 35.0, 20.0, 0.08)
	f.Fuzz(func(t *testing.T, frost, temperature, stated, input, load, time, start, lowest, content float64) {
		b, err := pipe.Defrost{Frost: frost, FrostTemperature: temperature, Stated: stated, Input: input, Load: load,
			Time: time, Start: start, Lowest: lowest}.Balance(content, fluid.Water())
		finite(t, err, b.Water, b.Required, b.Buffer, b.End)
		v, err := pipe.ShortestRun{Output: input, Load: load, Time: time, From: lowest, To: start}.Content(fluid.Water())
		finite(t, err, v)
		q, err := pipe.FlowForHeat(input, start, lowest, fluid.Water())
		finite(t, err, q)
	})
}

func FuzzRoute(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 2.0, 0.0, 1.0, 0)
	f.Fuzz(func(t *testing.T, x0, y0, z0, x1, y1, z1, x2, y2, z2 float64, outlet int) {
		r := pipe.Route{{X: x0, Y: y0, Z: z0}, {X: x1, Y: y1, Z: z1}, {X: x2, Y: y2, Z: z2}}
		s, err := r.Survey()
		finite(t, err, s.Length, s.Plan, s.Rise, s.Lowest, s.Highest)
		pockets, err := r.HeldWater(outlet)
		held := 0.0
		for _, p := range pockets {
			finite(t, err, p.From, p.To, p.Length, p.Level)
			held += p.Length
		}
		if held > s.Length*(1+1e-9) {
			t.Fatalf("%g m held of %g m", held, s.Length)
		}
	})
}

func FuzzFind(f *testing.F) {
	f.Add("EN 1057 22x1.0")
	f.Add("  ×,,.0")
	f.Fuzz(func(t *testing.T, s string) {
		tube, err := pipe.Find(s)
		if (err == nil) != (tube.Outside > 0) {
			t.Fatalf("%+v, %v", tube, err)
		}
		pipe.Search(s)
	})
}

package pipe_test

import (
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/calls"
	"example.com/hydronics/internal/edge"
	"example.com/hydronics/pipe"
)

func scalars(tb testing.TB) calls.List {
	p, liquid := water(tb, 35), fluid.Water()
	tube, err := pipe.Find("EN 1057 28x1.5")
	if err != nil {
		tb.Fatal(err)
	}
	run := tube.Run(12)
	run.Zeta = 6
	prepared, err := run.Prepare(p)
	if err != nil {
		tb.Fatal(err)
	}
	kind := pipe.TwoK.Names()[0]
	bend, err := pipe.TwoK.Fitting(kind, tube.Bore())
	if err != nil {
		tb.Fatal(err)
	}
	series := pipe.InSeries{&prepared, &prepared}
	parallel := pipe.InParallel{&prepared, &series}
	surge := tube.Surge(2.2e9, 998)
	defrost := pipe.Defrost{Frost: 1, FrostTemperature: -5, Time: 300, Start: 30, Lowest: 20}
	offset := pipe.Offset{Growth: 0.01, Stress: 5e7}
	tee := pipe.Tee{Run: 0.026, Branch: 0.016, Share: 0.3}
	taper := pipe.Taper{Small: 0.02, Large: 0.03, Angle: 0.3}
	return calls.List{
		"FrictionFactor, turbulent":    func() error { return edge.Err(pipe.FrictionFactor(1e4, 1e-4)) },
		"FrictionFactor, transitional": func() error { return edge.Err(pipe.FrictionFactor(2500, 1e-4)) },
		"FrictionFactor, laminar":      func() error { return edge.Err(pipe.FrictionFactor(1500, 1e-4)) },
		"Transition.FrictionFactor": func() error {
			_, _, err := pipe.ChurchillTransition.FrictionFactor(1e4, 1e-4)
			return err
		},
		"Run.Loss":                func() error { return edge.Err(run.Loss(3e-4, p)) },
		"Run.Prepare":             func() error { return edge.Err(run.Prepare(p)) },
		"Run.Flow":                func() error { return edge.Err(run.Flow(3e3, p)) },
		"Run.BoreFor":             func() error { return edge.Err(run.BoreFor(3e-4, 3e3, p)) },
		"Run.With":                func() error { return edge.Err(run.With(bend)) },
		"Resistance.LossAndSlope": func() error { prepared.LossAndSlope(3e-4); return nil },
		"InSeries.LossAndSlope":   func() error { series.LossAndSlope(3e-4); return nil },
		"InParallel.LossAndSlope": func() error { parallel.LossAndSlope(3e-4); return nil },
		"FlowAt":                  func() error { return edge.Err(pipe.FlowAt(&prepared, 3e3)) },
		"FlowForHeat":             func() error { return edge.Err(pipe.FlowForHeat(8e3, 35, 30, liquid)) },
		"HeatCarried":             func() error { return edge.Err(pipe.HeatCarried(4e-4, 35, 30, liquid)) },
		"TemperatureSpread":       func() error { return edge.Err(pipe.TemperatureSpread(8e3, 4e-4, p)) },
		"GravityCirculation":      func() error { return edge.Err(pipe.GravityCirculation(999, 985, 5)) },
		"Kv.Loss":                 func() error { return edge.Err(pipe.Kv(4).Loss(3e-4, 995)) },
		"Kv.Flow":                 func() error { return edge.Err(pipe.Kv(4).Flow(3e3, 995)) },
		"Kv.Zeta":                 func() error { return edge.Err(pipe.Kv(4).Zeta(0.026)) },
		"KvFor":                   func() error { return edge.Err(pipe.KvFor(3e-4, 3e3, 995)) },
		"KvOfZeta":                func() error { return edge.Err(pipe.KvOfZeta(6, 0.026)) },
		"KvInSeries":              func() error { return edge.Err(pipe.KvInSeries(2, 3, 4)) },
		"KvInParallel":            func() error { return edge.Err(pipe.KvInParallel(2, 3, 4)) },
		"EquivalentLength":        func() error { return edge.Err(pipe.EquivalentLength(6, 0.026, 0.02)) },
		"CraneTurbulentFactor":    func() error { return edge.Err(pipe.CraneTurbulentFactor(0.026)) },
		"Enlargement":             func() error { return edge.Err(pipe.Enlargement(0.02, 0.026)) },
		"Contraction":             func() error { return edge.Err(pipe.Contraction(0.026, 0.02)) },
		"SharpContraction":        func() error { return edge.Err(pipe.SharpContraction(0.026, 0.02)) },
		"Fitting.At":              func() error { return edge.Err(bend.At(1e4)) },
		"Fitting.On":              func() error { return edge.Err(bend.On(0.02)) },
		"Method.Fitting":          func() error { return edge.Err(pipe.TwoK.Fitting(kind, 0.026)) },
		"Orifice.Fitting":         func() error { return edge.Err(pipe.Orifice{Bore: 0.1, Hole: 0.05, Discharge: 0.6}.Fitting()) },
		"Taper.Widening":          func() error { return edge.Err(taper.Widening()) },
		"Taper.Narrowing":         func() error { return edge.Err(taper.Narrowing()) },
		"Tee.Dividing":            func() error { _, _, err := tee.Dividing(); return err },
		"Tee.Combining":           func() error { _, _, err := tee.Combining(); return err },
		"Surge.WaveSpeed":         func() error { return edge.Err(surge.WaveSpeed()) },
		"Surge.Close":             func() error { return edge.Err(surge.Close(pipe.Closure{Length: 10, Velocity: 1, Time: 0.1})) },
		"Anchored":                func() error { return edge.Err(pipe.Anchored(0.3)) },
		"Tube.Growth":             func() error { return edge.Err(tube.Growth(12, 10, 60)) },
		"Tube.Leg":                func() error { return edge.Err(tube.Leg(offset)) },
		"Tube.Loop":               func() error { return edge.Err(tube.Loop(offset)) },
		"Tube.LegByConstant":      func() error { return edge.Err(tube.LegByConstant(0.01, 60)) },
		"Tube.FixedPointForce":    func() error { return edge.Err(tube.FixedPointForce(10, 60)) },
		"Tube.Check":              func() error { return tube.Check() },
		"Defrost.Balance":         func() error { return edge.Err(defrost.Balance(0.1, liquid)) },
		"BufferFor":               func() error { return edge.Err(pipe.BufferFor(0.1, 0.05)) },
		"Find":                    func() error { return edge.Err(pipe.Find("EN 1057 28x1.5")) },
	}
}

func TestScalarsAllocateNothing(t *testing.T) { scalars(t).AllocateNothing(t) }

func BenchmarkScalars(b *testing.B) { scalars(b).Benchmark(b) }

// Choosing one of a dozen sizes looks at all of them.
func BenchmarkSizingSelect(b *testing.B) {
	tubes := pipe.Catalogue()
	s := pipe.Sizing{Flow: 3e-4, Liquid: water(b, 35), Criteria: pipe.Criteria()[:1], Unconfirmed: true}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Select(tubes); err != nil {
			b.Fatal(err)
		}
	}
}

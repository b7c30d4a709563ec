package pipe_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
)

// Scalars come back as NaN with an error for every number out of its range,
// here for NaN itself and for a slip of unit or sign.
func TestScalarsRefuse(t *testing.T) {
	p, l := water(t, 40), fluid.Water()
	tube, err := pipe.Find("EN 1057 22x1.0")
	assert.NoError(t, err)
	run := tube.Run(10)
	c, err := run.Prepare(p)
	assert.NoError(t, err)
	surge := tube.Surge(2.2e9, 998)
	for name, f := range map[string]func(v float64) (float64, error){
		"FrictionFactor, Reynolds": func(v float64) (float64, error) { return pipe.FrictionFactor(v, 0) },
		"FrictionFactor, rough":    func(v float64) (float64, error) { return pipe.FrictionFactor(1e4, v) },
		"Run.Flow":                 func(v float64) (float64, error) { return run.Flow(v, p) },
		"Run.BoreFor, flow":        func(v float64) (float64, error) { return run.BoreFor(v, 1e3, p) },
		"Run.BoreFor, loss":        func(v float64) (float64, error) { return run.BoreFor(1e-4, v, p) },
		"FlowAt":                   func(v float64) (float64, error) { return pipe.FlowAt(&c, v) },
		"InParallel.Split":         func(v float64) (float64, error) { _, d, err := pipe.InParallel{&c}.Split(v); return d, err },
		"Kv.Loss, Kv":              func(v float64) (float64, error) { return pipe.Kv(v).Loss(1e-4, 1000) },
		"Kv.Loss, flow":            func(v float64) (float64, error) { return pipe.Kv(1).Loss(v, 1000) },
		"Kv.Flow":                  func(v float64) (float64, error) { return pipe.Kv(1).Flow(v, 1000) },
		"Kv.Zeta":                  func(v float64) (float64, error) { return pipe.Kv(1).Zeta(v) },
		"KvFor, flow":              func(v float64) (float64, error) { k, err := pipe.KvFor(v, 1e3, 1000); return float64(k), err },
		"KvFor, result":            func(float64) (float64, error) { k, err := pipe.KvFor(900, 1e-3, 1000); return float64(k), err },
		"KvOfZeta":                 func(v float64) (float64, error) { k, err := pipe.KvOfZeta(v, 0.02); return float64(k), err },
		"KvOfZeta, result":         func(float64) (float64, error) { k, err := pipe.KvOfZeta(1e9, 0.0005); return float64(k), err },
		"KvInSeries":               func(v float64) (float64, error) { k, err := pipe.KvInSeries(pipe.Kv(v), 1); return float64(k), err },
		"FlowForHeat, heat":        func(v float64) (float64, error) { return pipe.FlowForHeat(v, 35, 30, l) },
		"FlowForHeat, supply":      func(v float64) (float64, error) { return pipe.FlowForHeat(8e3, v, 30, l) },
		"FlowForHeat, cold liquid": func(float64) (float64, error) { return pipe.FlowForHeat(8e3, -50, -60, l) },
		"HeatCarried":              func(v float64) (float64, error) { return pipe.HeatCarried(v, 35, 30, l) },
		"HeatCarried, cold liquid": func(float64) (float64, error) { return pipe.HeatCarried(1, -50, -60, l) },
		"TemperatureSpread":        func(v float64) (float64, error) { return pipe.TemperatureSpread(8e3, v, p) },
		"TemperatureSpread, zero":  func(float64) (float64, error) { return pipe.TemperatureSpread(8e3, 1e-4, fluid.Properties{}) },
		"GravityCirculation":       func(v float64) (float64, error) { return pipe.GravityCirculation(v, 980, 1) },
		"Fitting.At":               func(v float64) (float64, error) { return pipe.Fitting{Zeta: 1, Bore: 0.02}.At(v) },
		"EquivalentLength":         func(v float64) (float64, error) { return pipe.EquivalentLength(1, v, 0.02) },
		"CraneTurbulentFactor":     func(v float64) (float64, error) { return pipe.CraneTurbulentFactor(v) },
		"Tube.Growth":              func(v float64) (float64, error) { return tube.Growth(v, 10, 60) },
		"Tube.Leg":                 func(v float64) (float64, error) { return tube.Leg(pipe.Offset{Growth: v, Stress: 5e7}) },
		"Tube.Loop":                func(v float64) (float64, error) { return tube.Loop(pipe.Offset{Growth: 0.01, Stress: v}) },
		"Tube.LegByConstant":       func(v float64) (float64, error) { return tube.LegByConstant(0.01, v) },
		"Tube.FixedPointForce":     func(v float64) (float64, error) { return tube.FixedPointForce(v, 60) },
		"Anchored":                 func(v float64) (float64, error) { r, err := pipe.Anchored(v); return float64(r), err },
		"Surge.WaveSpeed": func(v float64) (float64, error) {
			s := surge
			s.Bulk = v
			return s.WaveSpeed()
		},
		"ShortestRun.Content": func(v float64) (float64, error) {
			return pipe.ShortestRun{Output: v, Time: 600, From: 30, To: 35}.Content(l)
		},
		"ShortestRun.Content, cold liquid": func(float64) (float64, error) {
			return pipe.ShortestRun{Output: 1, Time: 600, From: -60, To: -50}.Content(l)
		},
		"BufferFor": func(v float64) (float64, error) { return pipe.BufferFor(v, 0.1) },
	} {
		for _, v := range []float64{math.NaN(), -1e12, math.Inf(1)} {
			got, err := f(v)
			assert.ErrorIs(t, err, hydronics.ErrRange, "%s of %g", name, v)
			assert.True(t, math.IsNaN(got), "%s of %g: %g", name, v, got)
		}
	}
}

// Structs come back zero.
func TestStructsRefuse(t *testing.T) {
	bad := math.NaN()
	l := fluid.Water()
	d := pipe.Defrost{Frost: 1, Start: 30, Lowest: 20}
	for name, f := range map[string]func() (any, any, error){
		"Enlargement":      func() (any, any, error) { v, err := pipe.Enlargement(bad, 0.02); return v, pipe.Fitting{}, err },
		"Contraction":      func() (any, any, error) { v, err := pipe.Contraction(0.01, 0.02); return v, pipe.Fitting{}, err },
		"SharpContraction": func() (any, any, error) { v, err := pipe.SharpContraction(20, 10); return v, pipe.Fitting{}, err },
		"Orifice":          func() (any, any, error) { v, err := pipe.Orifice{}.Fitting(); return v, pipe.Fitting{}, err },
		"Taper.Widening": func() (any, any, error) {
			v, err := pipe.Taper{Small: 0.02, Large: 0.03, Angle: 30}.Widening()
			return v, pipe.Fitting{}, err
		},
		"Taper.Narrowing": func() (any, any, error) { v, err := pipe.Taper{Angle: 1}.Narrowing(); return v, pipe.Fitting{}, err },
		"Tee.Dividing":    func() (any, any, error) { v, _, err := pipe.Tee{}.Dividing(); return v, pipe.Fitting{}, err },
		"Tee.Combining":   func() (any, any, error) { _, v, err := pipe.Tee{}.Combining(); return v, pipe.Fitting{}, err },
		"Tee counterflow": func() (any, any, error) {
			v, err := pipe.Tee{}.CombiningIntoBranch()
			return v, pipe.Fitting{}, err
		},
		"Fitting.On": func() (any, any, error) {
			v, err := pipe.Fitting{Zeta: 1, Bore: 0.02}.On(bad)
			return v, pipe.Fitting{}, err
		},
		"Fitting.On, result": func() (any, any, error) {
			v, err := pipe.Fitting{Zeta: 1e3, Bore: 0.0005}.On(3)
			return v, pipe.Fitting{}, err
		},
		"Run.With": func() (any, any, error) {
			v, err := pipe.Run{Bore: 0.02}.With(pipe.Fitting{})
			return v, pipe.Run{}, err
		},
		"Method.Fitting": func() (any, any, error) {
			v, err := pipe.TwoK.Fitting("globe valve", bad)
			return v, pipe.Fitting{}, err
		},
		"Surge.Close": func() (any, any, error) {
			v, err := pipe.Surge{}.Close(pipe.Closure{Time: bad})
			return v, pipe.SurgePressure{}, err
		},
		"Defrost.Balance": func() (any, any, error) { v, err := d.Balance(bad, l); return v, pipe.DefrostBalance{}, err },
		"NextSize":        func() (any, any, error) { v, err := pipe.NextSize(pipe.Catalogue(), bad); return v, pipe.Tube{}, err },
		"Sizing.Select":   func() (any, any, error) { v, err := pipe.Sizing{Flow: bad}.Select(nil); return v, pipe.Choice{}, err },
		"Run.Prepare": func() (any, any, error) {
			v, err := pipe.Run{Bore: bad}.Prepare(water(t, 40))
			return v, pipe.Resistance{}, err
		},
	} {
		got, zero, err := f()
		assert.ErrorIs(t, err, hydronics.ErrRange, name)
		assert.Equal(t, zero, got, name)
	}
}

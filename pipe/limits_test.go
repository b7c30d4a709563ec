package pipe_test

import (
	"errors"
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A limit is a number that a calculation takes from low to high, both included.
type limit struct {
	call      string
	quantity  string // as the RangeError names it
	low, high float64
	try       func(x float64) error
	derived   bool // what is limited is computed from the number given, with its rounding
}

// inside and outside return the numbers next to the limits.
func (l limit) inside() []float64 {
	if l.derived {
		return []float64{l.low + step(l.low), l.high - step(l.high)}
	}
	return []float64{l.low, l.high}
}

func (l limit) outside() []float64 {
	if l.derived {
		return []float64{l.low - step(l.low), l.high + step(l.high)}
	}
	return []float64{math.Nextafter(l.low, math.Inf(-1)), math.Nextafter(l.high, math.Inf(1))}
}

func step(x float64) float64 { return max(1e-12, 1e-9*math.Abs(x)) }

// Just inside every limit a number is taken, though there may be no tube for it;
// just outside, and where it is no number, a RangeError names the quantity.
func TestLimits(t *testing.T) {
	for _, l := range limits(t) {
		t.Run(l.call+", "+l.quantity, func(t *testing.T) {
			for _, x := range l.inside() {
				if err := l.try(x); err != nil {
					require.ErrorIs(t, err, hydronics.ErrNoSolution, "%v", x)
					require.NotErrorIs(t, err, hydronics.ErrRange, "%v", x)
				}
			}
			for _, x := range append(l.outside(), math.Inf(-1), math.Inf(1), math.NaN()) {
				found := named(l.try(x), l.quantity)
				require.NotNil(t, found, "%v: %v", x, l.try(x))
				assert.True(t, l.derived || found.Value == x || math.IsNaN(x), "%v reported as %v", x, found.Value)
				assert.False(t, found.Value >= found.Min && found.Value <= found.Max, "%v reported as outside %v to %v", x, found.Min, found.Max)
				assert.NotEmpty(t, found.Source)
			}
		})
	}
}

// named returns the RangeError in err, joined or wrapped, that names the quantity.
func named(err error, quantity string) *hydronics.RangeError {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range joined.Unwrap() {
			if r := named(e, quantity); r != nil {
				return r
			}
		}
		return nil
	}
	var r *hydronics.RangeError
	if errors.As(err, &r) && r.Quantity == quantity {
		return r
	}
	return nil
}

// failure drops the result of a calculation.
func failure[T any](_ T, err error) error { return err }

// with returns a trial that changes one field of a valid value.
func with[T any](valid T, set func(v *T, x float64), try func(v T) error) func(x float64) error {
	return func(x float64) error {
		v := valid
		set(&v, x)
		return try(v)
	}
}

// The guards that many calculations share.
const (
	leastBore, mostBore       = 0.0005, 3.0
	leastDensity, mostDensity = 100.0, 2000.0
	leastKv, mostKv           = 1e-4, 1e5
)

func limits(t *testing.T) []limit {
	all := frictionLimits()
	all = append(all, runLimits(t)...)
	all = append(all, valveLimits()...)
	all = append(all, fittingLimits()...)
	all = append(all, changeLimits()...)
	all = append(all, tubeLimits(t)...)
	all = append(all, surgeLimits()...)
	all = append(all, heatLimits()...)
	return append(all, contentLimits()...)
}

func frictionLimits() []limit {
	return []limit{
		{"FrictionFactor", "Reynolds number", 1e-300, 1e8, func(x float64) error { return failure(pipe.FrictionFactor(x, 0)) }, false},
		{"FrictionFactor", "relative roughness", 0, 0.05, func(x float64) error { return failure(pipe.FrictionFactor(1e4, x)) }, false},
		{"Transition.FrictionFactor", "Reynolds number", 1e-300, 1e8, func(x float64) error {
			_, _, err := pipe.ChurchillTransition.FrictionFactor(x, 0)
			return err
		}, false},
		{"Transition.FrictionFactor", "relative roughness", 0, 0.05, func(x float64) error {
			_, _, err := pipe.CubicTransition.FrictionFactor(2500, x)
			return err
		}, false},
	}
}

func runLimits(t *testing.T) []limit {
	p := water(t, 40)
	valid := pipe.Run{Bore: 0.02, Length: 10}
	most := pipe.Run{Bore: 3, Length: 10}
	thick := pipe.Run{Bore: 0.02, Length: 10, Kv: leastKv} // loses 1e9 Pa at a flow within the limits
	c, err := valid.Prepare(p)
	require.NoError(t, err)
	still := func(set func(r *pipe.Run, x float64)) func(x float64) error {
		return with(valid, set, func(r pipe.Run) error { return failure(r.Loss(0, p)) })
	}
	liquid := func(set func(p *fluid.Properties, x float64)) func(x float64) error {
		return with(p, set, func(p fluid.Properties) error { return failure(valid.Loss(0, p)) })
	}
	const loss = "Run.Loss"
	area := math.Pi / 4 * valid.Bore * valid.Bore
	kinematic := p.DynamicViscosity / p.Density
	return []limit{
		{loss, "bore", leastBore, mostBore, still(func(r *pipe.Run, x float64) { r.Bore = x }), false},
		{loss, "roughness", 0, 0.05 * valid.Bore, still(func(r *pipe.Run, x float64) { r.Roughness = x }), false},
		{loss, "length", 0, 1e5, still(func(r *pipe.Run, x float64) { r.Length = x }), false},
		{loss, "sum of loss coefficients", -10, 1e6, still(func(r *pipe.Run, x float64) { r.Zeta = x }), false},
		{loss, "laminar sum of loss coefficients", 0, 1e6, still(func(r *pipe.Run, x float64) { r.ZetaLaminar = x }), false},
		{loss, "uncertainty of the loss coefficients", 0, 1e6, still(func(r *pipe.Run, x float64) { r.ZetaUncertainty = x }), false},
		{loss, "Kv", leastKv, mostKv, still(func(r *pipe.Run, x float64) { r.Kv = pipe.Kv(x) }), false},
		{loss, "density", leastDensity, mostDensity, liquid(func(p *fluid.Properties, x float64) { p.Density = x }), false},
		{loss, "dynamic viscosity", 1e-5, 10, liquid(func(p *fluid.Properties, x float64) { p.DynamicViscosity = x }), false},
		{loss, "velocity", -50, 50, func(x float64) error { return failure(valid.Loss(x*area, p)) }, true},
		{"Run.Prepare", "sum of loss coefficients", 0, 1e6, with(valid, func(r *pipe.Run, x float64) { r.Zeta = x },
			func(r pipe.Run) error { return failure(r.Prepare(p)) }), false},
		{"Run.Flow", "pressure loss", -1e9, 1e9, func(x float64) error { return failure(thick.Flow(x, p)) }, false},
		{"Run.BoreFor", "flow", 1e-12, 1e3, func(x float64) error { return failure(valid.BoreFor(x, 1e3, p)) }, false},
		{"Run.BoreFor", "pressure loss", 1e-9, 1e9, func(x float64) error { return failure(valid.BoreFor(1e-4, x, p)) }, false},
		{"FlowAt", "pressure loss", -1e9, 1e9, func(x float64) error { return failure(pipe.FlowAt(&c, x)) }, false},
		{"InParallel.Split", "flow", -1e3, 1e3, func(x float64) error {
			_, _, err := pipe.InParallel{&c, &c}.Split(x)
			return err
		}, false},
		{loss + ", wide", "Reynolds number", -1e8, 1e8, func(x float64) error {
			if math.Abs(x) > 1.2e8 || math.IsNaN(x) { // beyond, the velocity is what is wrong
				x = 1.1e8
			}
			return failure(most.Loss(x*kinematic*math.Pi/4*most.Bore, p))
		}, true},
		{"Sizing.Select", "flow", 1e-12, 1e3, func(x float64) error {
			return failure(pipe.Sizing{Flow: x, Liquid: p}.Select(pipe.Catalogue()))
		}, false},
		{"NextSize", "bore", leastBore, mostBore, func(x float64) error { return failure(pipe.NextSize(pipe.Catalogue(), x)) }, false},
	}
}

func valveLimits() []limit {
	return []limit{
		{"Kv.Loss", "Kv", leastKv, mostKv, func(x float64) error { return failure(pipe.Kv(x).Loss(1e-4, 1000)) }, false},
		{"Kv.Loss", "flow", -1e3, 1e3, func(x float64) error { return failure(pipe.Kv(1).Loss(x, 1000)) }, false},
		{"Kv.Loss", "density", leastDensity, mostDensity, func(x float64) error { return failure(pipe.Kv(1).Loss(1e-4, x)) }, false},
		{"Kv.Flow", "Kv", leastKv, mostKv, func(x float64) error { return failure(pipe.Kv(x).Flow(1e4, 1000)) }, false},
		{"Kv.Flow", "pressure loss", 0, 1e9, func(x float64) error { return failure(pipe.Kv(1).Flow(x, 1000)) }, false},
		{"Kv.Flow", "density", leastDensity, mostDensity, func(x float64) error { return failure(pipe.Kv(1).Flow(1e4, x)) }, false},
		{"KvFor", "pressure loss", 1e-3, 1e9, func(x float64) error { return failure(pipe.KvFor(1e-4, x, 1000)) }, false},
		{"KvFor", "density", leastDensity, mostDensity, func(x float64) error { return failure(pipe.KvFor(1e-4, 1e4, x)) }, false},
		{"Kv.Zeta", "Kv", leastKv, mostKv, func(x float64) error { return failure(pipe.Kv(x).Zeta(0.02)) }, false},
		{"Kv.Zeta", "bore", leastBore, mostBore, func(x float64) error { return failure(pipe.Kv(1).Zeta(x)) }, false},
		{"KvOfZeta", "loss coefficient", 1e-6, 1e9, func(x float64) error { return failure(pipe.KvOfZeta(x, 0.02)) }, false},
		{"KvOfZeta", "bore", leastBore, mostBore, func(x float64) error { return failure(pipe.KvOfZeta(100, x)) }, false},
		{"KvInSeries", "Kv", leastKv, mostKv, func(x float64) error { return failure(pipe.KvInSeries(pipe.Kv(x))) }, false},
		{"KvInParallel", "Kv", leastKv, mostKv, func(x float64) error { return failure(pipe.KvInParallel(pipe.Kv(x))) }, false},
	}
}

func fittingLimits() []limit {
	valid := pipe.Fitting{Bore: 0.02}
	at := func(set func(f *pipe.Fitting, x float64)) func(x float64) error {
		return with(valid, set, func(f pipe.Fitting) error { return failure(f.At(1e4)) })
	}
	const fitting = "Fitting.At"
	return []limit{
		{fitting, "loss coefficient", -10, 1e6, at(func(f *pipe.Fitting, x float64) { f.Zeta = x }), false},
		{fitting, "laminar loss coefficient", 0, 1e6, at(func(f *pipe.Fitting, x float64) { f.ZetaLaminar = x }), false},
		{fitting, "bore of the fitting", leastBore, mostBore, at(func(f *pipe.Fitting, x float64) { f.Bore = x }), false},
		{fitting, "uncertainty of the loss", 0, 10, at(func(f *pipe.Fitting, x float64) { f.Uncertainty = x }), false},
		{fitting, "Reynolds number", 1, 1e8, func(x float64) error { return failure(valid.At(x)) }, false},
		{"Fitting.On", "bore", leastBore, mostBore, func(x float64) error { return failure(valid.On(x)) }, false},
		{"Run.With", "bore", leastBore, mostBore, func(x float64) error { return failure(pipe.Run{Bore: x}.With(valid)) }, false},
		{"EquivalentLength", "loss coefficient", -10, 1e6, func(x float64) error { return failure(pipe.EquivalentLength(x, 0.02, 0.03)) }, false},
		{"EquivalentLength", "bore", leastBore, mostBore, func(x float64) error { return failure(pipe.EquivalentLength(1, x, 0.03)) }, false},
		{"EquivalentLength", "friction factor", 1e-3, 1e6, func(x float64) error { return failure(pipe.EquivalentLength(1, 0.02, x)) }, false},
		{"Method.Fitting", "bore", leastBore, mostBore, func(x float64) error { return failure(pipe.TwoK.Fitting("globe valve", x)) }, false},
		{"CraneTurbulentFactor", "bore", 0.005, 0.6, func(x float64) error { return failure(pipe.CraneTurbulentFactor(x)) }, false},
	}
}

func changeLimits() []limit {
	all := []limit{}
	for call, change := range map[string]func(small, large float64) error{
		"Enlargement":      func(s, l float64) error { return failure(pipe.Enlargement(s, l)) },
		"Contraction":      func(s, l float64) error { return failure(pipe.Contraction(l, s)) },
		"SharpContraction": func(s, l float64) error { return failure(pipe.SharpContraction(l, s)) },
		"Taper.Widening":   func(s, l float64) error { return failure(pipe.Taper{Small: s, Large: l, Angle: 0.3}.Widening()) },
		"Taper.Narrowing":  func(s, l float64) error { return failure(pipe.Taper{Small: s, Large: l, Angle: 0.3}.Narrowing()) },
	} {
		all = append(all,
			limit{call, "larger bore", leastBore, mostBore, func(x float64) error { return change(leastBore, x) }, false},
			limit{call, "smaller bore", leastBore, 0.02, func(x float64) error { return change(x, 0.02) }, false})
	}
	for call, tee := range map[string]func(v pipe.Tee) error{
		"Tee.Dividing":            func(v pipe.Tee) error { _, _, err := v.Dividing(); return err },
		"Tee.Combining":           func(v pipe.Tee) error { _, _, err := v.Combining(); return err },
		"Tee.DividingFromBranch":  func(v pipe.Tee) error { return failure(v.DividingFromBranch()) },
		"Tee.CombiningIntoBranch": func(v pipe.Tee) error { return failure(v.CombiningIntoBranch()) },
	} {
		valid := pipe.Tee{Run: 0.02, Branch: 0.02, Share: 0.3}
		all = append(all,
			limit{call, "share of the branch in the flow", 0, 1, with(valid, func(v *pipe.Tee, x float64) { v.Share = x }, tee), false},
			limit{call, "bore of the run", leastBore, mostBore, with(valid, func(v *pipe.Tee, x float64) { v.Run, v.Branch = x, x }, tee), false},
			limit{call, "bore of the branch", 0.1 * valid.Run, valid.Run, with(valid, func(v *pipe.Tee, x float64) { v.Branch = x }, tee), false})
	}
	plate := pipe.Orifice{Bore: 0.1, Hole: 0.05, Discharge: 0.6}
	orifice := func(set func(o *pipe.Orifice, x float64)) func(x float64) error {
		return with(plate, set, func(o pipe.Orifice) error { return failure(o.Fitting()) })
	}
	return append(all,
		limit{"Taper.Widening", "angle", 0.01, math.Pi, func(x float64) error { return failure(pipe.Taper{Small: 0.02, Large: 0.03, Angle: x}.Widening()) }, false},
		limit{"Taper.Narrowing", "angle", 0.01, math.Pi, func(x float64) error { return failure(pipe.Taper{Small: 0.02, Large: 0.03, Angle: x}.Narrowing()) }, false},
		limit{"Orifice.Fitting", "bore", leastBore, mostBore, orifice(func(o *pipe.Orifice, x float64) { o.Bore, o.Hole = x, x/2 }), false},
		limit{"Orifice.Fitting", "hole", 0.1 * plate.Bore, 0.75 * plate.Bore, orifice(func(o *pipe.Orifice, x float64) { o.Hole = x }), false},
		limit{"Orifice.Fitting", "discharge coefficient", 0.5, 1, orifice(func(o *pipe.Orifice, x float64) { o.Discharge = x }), false})
}

func tubeLimits(t *testing.T) []limit {
	valid, err := pipe.Find("EN 1057 22x1.0")
	require.NoError(t, err)
	thin := valid
	thin.Wall = 0
	offset := pipe.Offset{Growth: 0.01, Stress: 5e7}
	check := func(tube pipe.Tube, set func(v *pipe.Tube, x float64)) func(x float64) error {
		return with(tube, set, pipe.Tube.Check)
	}
	all := []limit{
		{"Tube.Check", "outside diameter", leastBore, mostBore, check(thin, func(v *pipe.Tube, x float64) { v.Outside = x }), false},
		{"Tube.Check", "wall", 0, (valid.Outside - leastBore) / 2, check(valid, func(v *pipe.Tube, x float64) { v.Wall = x }), true},
		{"Tube.Check", "roughness", 0, 0.01, check(valid, func(v *pipe.Tube, x float64) { v.Roughness = x }), false},
		{"Material.Tube", "wall", 0, (0.02 - leastBore) / 2, func(x float64) error { return failure(pipe.Materials()[0].Tube(0.02, x)) }, true},
		{"Tube.Growth", "length", 0, 1e5, func(x float64) error { return failure(valid.Growth(x, 10, 60)) }, false},
		{"Tube.LegByConstant", "constant", 1, 200, func(x float64) error { return failure(valid.LegByConstant(0.01, x)) }, false},
		{"Tube.LegByConstant", "growth", 0, 1, func(x float64) error { return failure(valid.LegByConstant(x, 60)) }, false},
		{"Tube.LegByConstant", "outside diameter", leastBore, mostBore, with(valid, func(v *pipe.Tube, x float64) { v.Outside = x },
			func(v pipe.Tube) error { return failure(v.LegByConstant(0.01, 60)) }), false},
		{"Anchored", "Poisson's ratio", 0, 0.5, func(x float64) error { return failure(pipe.Anchored(x)) }, false},
	}
	for call, try := range map[string]func(v pipe.Tube, from, to float64) error{
		"Tube.Growth":          func(v pipe.Tube, from, to float64) error { return failure(v.Growth(10, from, to)) },
		"Tube.FixedPointForce": func(v pipe.Tube, from, to float64) error { return failure(v.FixedPointForce(from, to)) },
	} {
		all = append(all,
			limit{call, "thermal expansion", 1e-7, 5e-4, with(valid, func(v *pipe.Tube, x float64) { v.Expansion = x }, func(v pipe.Tube) error { return try(v, 10, 60) }), false},
			limit{call, "temperature from", -100, 400, func(x float64) error { return try(valid, x, 60) }, false},
			limit{call, "temperature to", -100, 400, func(x float64) error { return try(valid, 10, x) }, false})
	}
	for call, try := range map[string]func(v pipe.Tube, o pipe.Offset) error{
		"Tube.Leg":  func(v pipe.Tube, o pipe.Offset) error { return failure(v.Leg(o)) },
		"Tube.Loop": func(v pipe.Tube, o pipe.Offset) error { return failure(v.Loop(o)) },
	} {
		tube := func(set func(v *pipe.Tube, x float64)) func(x float64) error {
			return with(valid, set, func(v pipe.Tube) error { return try(v, offset) })
		}
		bent := func(set func(o *pipe.Offset, x float64)) func(x float64) error {
			return with(offset, set, func(o pipe.Offset) error { return try(valid, o) })
		}
		all = append(all,
			limit{call, "outside diameter", leastBore, mostBore, tube(func(v *pipe.Tube, x float64) { v.Outside = x }), false},
			limit{call, "Young's modulus", 1e6, 1e12, tube(func(v *pipe.Tube, x float64) { v.Modulus = x }), false},
			limit{call, "growth", 0, 1, bent(func(o *pipe.Offset, x float64) { o.Growth = x }), false},
			limit{call, "bending stress", 1e5, 1e9, bent(func(o *pipe.Offset, x float64) { o.Stress = x }), false})
	}
	return append(all, limit{"Tube.FixedPointForce", "Young's modulus", 1e6, 1e12, with(valid, func(v *pipe.Tube, x float64) { v.Modulus = x },
		func(v pipe.Tube) error { return failure(v.FixedPointForce(10, 60)) }), false})
}

func surgeLimits() []limit {
	valid := pipe.Surge{Bulk: 2.2e9, Density: 998, Bore: 0.02, Wall: 0.001, Modulus: 120e9}
	closure := pipe.Closure{Length: 10, Velocity: 1, Time: 0.1}
	all := []limit{}
	for call, try := range map[string]func(s pipe.Surge) error{
		"Surge.WaveSpeed": func(s pipe.Surge) error { return failure(s.WaveSpeed()) },
		"Surge.Close":     func(s pipe.Surge) error { return failure(s.Close(closure)) },
	} {
		all = append(all,
			limit{call, "bulk modulus", 1e8, 1e10, with(valid, func(s *pipe.Surge, x float64) { s.Bulk = x }, try), false},
			limit{call, "density", leastDensity, mostDensity, with(valid, func(s *pipe.Surge, x float64) { s.Density = x }, try), false},
			limit{call, "bore", leastBore, mostBore, with(valid, func(s *pipe.Surge, x float64) { s.Bore = x }, try), false},
			limit{call, "wall", 1e-5, mostBore, with(valid, func(s *pipe.Surge, x float64) { s.Wall = x }, try), false},
			limit{call, "Young's modulus", 1e6, 1e12, with(valid, func(s *pipe.Surge, x float64) { s.Modulus = x }, try), false},
			limit{call, "restraint", 0, 2, with(valid, func(s *pipe.Surge, x float64) { s.Restraint = pipe.Restraint(x) }, try), false})
	}
	closing := func(set func(c *pipe.Closure, x float64)) func(x float64) error {
		return with(closure, set, func(c pipe.Closure) error { return failure(valid.Close(c)) })
	}
	return append(all,
		limit{"Surge.Close", "length", 0, 1e5, closing(func(c *pipe.Closure, x float64) { c.Length = x }), false},
		limit{"Surge.Close", "change of velocity", 0, 50, closing(func(c *pipe.Closure, x float64) { c.Velocity = x }), false},
		limit{"Surge.Close", "closing time", 0, 1e5, closing(func(c *pipe.Closure, x float64) { c.Time = x }), false})
}

func heatLimits() []limit {
	l := fluid.Water()
	p := fluid.Properties{Density: 1000, SpecificHeat: 4200}
	const middle = 65 // °C, about which a spread of 300 K still has a mean that water has
	const spread = "spread between supply and return"
	of := func(set func(p *fluid.Properties, x float64)) func(x float64) error {
		return with(p, set, func(p fluid.Properties) error { return failure(pipe.TemperatureSpread(8e3, 1e-4, p)) })
	}
	return []limit{
		{"FlowForHeat", "heat", 0, 1e9, func(x float64) error { return failure(pipe.FlowForHeat(x, 35, 30, l)) }, false},
		{"FlowForHeat", spread, 0.1, 300, func(x float64) error {
			// The sign of the spread does not count: outside is what is too near or too far.
			return failure(pipe.FlowForHeat(8e3, middle+x/2, middle-x/2, l))
		}, true},
		{"HeatCarried", "flow", -1e3, 1e3, func(x float64) error { return failure(pipe.HeatCarried(x, 35, 30, l)) }, false},
		{"HeatCarried", spread, -300, 300, func(x float64) error { return failure(pipe.HeatCarried(1e-4, middle+x/2, middle-x/2, l)) }, true},
		{"TemperatureSpread", "heat", -1e9, 1e9, func(x float64) error { return failure(pipe.TemperatureSpread(x, 1e-4, p)) }, false},
		{"TemperatureSpread", "flow", 1e-9, 1e3, func(x float64) error { return failure(pipe.TemperatureSpread(8e3, x, p)) }, false},
		{"TemperatureSpread", "density", leastDensity, mostDensity, of(func(p *fluid.Properties, x float64) { p.Density = x }), false},
		{"TemperatureSpread", "specific heat", 500, 2e4, of(func(p *fluid.Properties, x float64) { p.SpecificHeat = x }), false},
		{"GravityCirculation", "density of the cold leg", leastDensity, mostDensity, func(x float64) error { return failure(pipe.GravityCirculation(x, 980, 1)) }, false},
		{"GravityCirculation", "density of the warm leg", leastDensity, mostDensity, func(x float64) error { return failure(pipe.GravityCirculation(990, x, 1)) }, false},
		{"GravityCirculation", "height", -1e3, 1e3, func(x float64) error { return failure(pipe.GravityCirculation(990, 980, x)) }, false},
	}
}

func contentLimits() []limit {
	l := fluid.Water()
	shortest := pipe.ShortestRun{Output: 4e3, Time: 600, From: 30, To: 35}
	run := func(set func(s *pipe.ShortestRun, x float64)) func(x float64) error {
		return with(shortest, set, func(s pipe.ShortestRun) error { return failure(s.Content(l)) })
	}
	frost := pipe.Defrost{Frost: 1, FrostTemperature: -5, Time: 300, Start: 30, Lowest: 20}
	defrost := func(set func(d *pipe.Defrost, x float64)) func(x float64) error {
		return with(frost, set, func(d pipe.Defrost) error { return failure(d.Balance(0.05, l)) })
	}
	route := func(set func(p *pipe.Point, x float64)) func(x float64) error {
		return func(x float64) error {
			r := pipe.Route{{X: 1, Y: 2, Z: 3}, {}}
			set(&r[1], x)
			return failure(r.Survey())
		}
	}
	const content, balance = "ShortestRun.Content", "Defrost.Balance"
	return []limit{
		{content, "output", 0, 1e9, run(func(s *pipe.ShortestRun, x float64) { s.Output = x }), false},
		{content, "load", 0, shortest.Output, run(func(s *pipe.ShortestRun, x float64) { s.Load = x }), false},
		{content, "running time", 0, hydronics.Day, run(func(s *pipe.ShortestRun, x float64) { s.Time = x }), false},
		{content, "rise of temperature", 0.1, 300, run(func(s *pipe.ShortestRun, x float64) { s.From, s.To = 65-x/2, 65+x/2 }), true},
		{balance, "circulating content", 1e-6, 1e3, func(x float64) error { return failure(frost.Balance(x, l)) }, false},
		{balance, "mass of frost", 0, 1e3, defrost(func(d *pipe.Defrost, x float64) { d.Frost = x }), false},
		{balance, "temperature of the frost", -60, 0, defrost(func(d *pipe.Defrost, x float64) { d.FrostTemperature = x }), false},
		{balance, "heat to the coil", 0, 1e12, defrost(func(d *pipe.Defrost, x float64) { d.Coil = x }), false},
		{balance, "stated heat", 0, 1e12, defrost(func(d *pipe.Defrost, x float64) { d.Stated = x }), false},
		{balance, "electric input", 0, 1e9, defrost(func(d *pipe.Defrost, x float64) { d.Input = x }), false},
		{balance, "load", 0, 1e9, defrost(func(d *pipe.Defrost, x float64) { d.Load = x }), false},
		{balance, "backup heater", 0, 1e9, defrost(func(d *pipe.Defrost, x float64) { d.Backup = x }), false},
		{balance, "duration", 0, hydronics.Hour, defrost(func(d *pipe.Defrost, x float64) { d.Time = x }), false},
		{balance, "fall of temperature from start to lowest", 0.1, 300, defrost(func(d *pipe.Defrost, x float64) { d.Start, d.Lowest = 65+x/2, 65-x/2 }), true},
		{"LeastContent", `volume of part "coil"`, 0, 1e3, func(x float64) error {
			return failure(pipe.LeastContent([]pipe.Part{{Name: "coil", Volume: x}}, 0))
		}, false},
		{"BufferFor", "required content", 0, 1e3, func(x float64) error { return failure(pipe.BufferFor(x, 0.1)) }, false},
		{"BufferFor", "circulating content", 0, 1e3, func(x float64) error { return failure(pipe.BufferFor(0.1, x)) }, false},
		{"Route.Survey", "point 1, X", -1e4, 1e4, route(func(p *pipe.Point, x float64) { p.X = x }), false},
		{"Route.Survey", "point 1, Y", -1e4, 1e4, route(func(p *pipe.Point, x float64) { p.Y = x }), false},
		{"Route.Survey", "point 1, Z", -1e4, 1e4, route(func(p *pipe.Point, x float64) { p.Z = x }), false},
	}
}

// Limits of counted things, and limits on a result.
func TestCountedLimits(t *testing.T) {
	line := pipe.Route{{}, {X: 1}, {X: 2}}
	parts := []pipe.Part{{Name: "a", Volume: 1, Valve: "a"}, {Name: "b", Volume: 1, Valve: "b"}}
	divide := func(branch float64) error {
		_, _, err := pipe.Tee{Run: 0.03, Branch: branch, Share: 0.3}.Dividing()
		return err
	}
	rule := func(t pipe.Transition) error {
		_, _, err := t.FrictionFactor(1e4, 0)
		return err
	}
	for _, c := range []struct {
		quantity        string
		inside, outside error
	}{
		{"transition rule", rule(pipe.StepTransition), rule(pipe.StepTransition + 1)},
		{"transition rule", failure(pipe.Run{Bore: 0.02, Transition: pipe.StepTransition}.Prepare(water(t, 40))),
			failure(pipe.Run{Bore: 0.02, Transition: pipe.StepTransition + 1}.Prepare(water(t, 40)))},
		{"number of valves", failure(pipe.KvInSeries(1)), failure(pipe.KvInSeries())},
		{"number of valves", failure(pipe.KvInParallel(1)), failure(pipe.KvInParallel())},
		{"Kv", failure(pipe.KvInParallel(5e4, 5e4)), failure(pipe.KvInParallel(5e4, 5.1e4))},
		{"Kv", failure(pipe.KvInSeries(2e-4, 2e-4)), failure(pipe.KvInSeries(1e-4, 1e-4))},
		{"Kv", failure(pipe.KvFor(1000, 1e9, 1000)), failure(pipe.KvFor(1000, 1e8, 1000))},
		{"flow", failure(pipe.KvFor(1000, 1e9, 1000)), failure(pipe.KvFor(1001, 1e9, 1000))},
		{"flow", failure(pipe.KvFor(1e-8, 1e-3, 1000)), failure(pipe.KvFor(9e-13, 1e-3, 1000))},
		{"Kv", failure(pipe.KvOfZeta(100, 3)), failure(pipe.KvOfZeta(1, 3))},
		{"loss coefficient", failure(pipe.Fitting{Zeta: 1, Bore: 0.02}.On(0.6)), failure(pipe.Fitting{Zeta: 1, Bore: 0.02}.On(0.64))},
		{"number of valves kept open", failure(pipe.LeastContent(parts, 0)), failure(pipe.LeastContent(parts, -1))},
		{"number of valves kept open", failure(pipe.LeastContent(parts, 2)), failure(pipe.LeastContent(parts, 3))},
		{"number of points", failure(line[:2].Survey()), failure(line[:1].Survey())},
		{"length of leg 1", failure(line.Survey()), failure(pipe.Route{{}, {X: 1}, {X: 1}}.Survey())},
		{"index of an opened point", failure(line.HeldWater(0)), failure(line.HeldWater(-1))},
		{"index of an opened point", failure(line.HeldAir(2)), failure(line.HeldAir(3))},
		{"ratio of the bores of branch and run", divide(0.02), divide(0.0200001)},
		{"ratio of the bores of branch and run", divide(0.03), divide(0.0299999)},
	} {
		require.NoError(t, c.inside, c.quantity)
		require.NotNil(t, named(c.outside, c.quantity), "%s: %v", c.quantity, c.outside)
	}
}

package pipe_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/edge"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/require"
)

// A limit is a number that a calculation takes from low to high, both included.
type limit struct {
	call      string
	quantity  string // as the RangeError names it
	low, high float64
	try       func(x float64) error
	margin    float64 // how far from the limits rounding reaches; 0: not at all
}

// Every documented limit is tried just inside and just outside.
func TestLimits(t *testing.T) {
	for _, l := range limits(t) {
		t.Run(l.call+", "+l.quantity, func(t *testing.T) {
			edge.Check(t, l.quantity, l.low, l.high, l.margin, l.try)
		})
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
		{"FrictionFactor", "Reynolds number", 1e-300, 1e8, func(x float64) error { return edge.Err(pipe.FrictionFactor(x, 0)) }, 0},
		{"FrictionFactor", "relative roughness", 0, 0.05, func(x float64) error { return edge.Err(pipe.FrictionFactor(1e4, x)) }, 0},
		{"Transition.FrictionFactor", "Reynolds number", 1e-300, 1e8, func(x float64) error {
			_, _, err := pipe.ChurchillTransition.FrictionFactor(x, 0)
			return err
		}, 0},
		{"Transition.FrictionFactor", "relative roughness", 0, 0.05, func(x float64) error {
			_, _, err := pipe.CubicTransition.FrictionFactor(2500, x)
			return err
		}, 0},
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
		return edge.With(valid, set, func(r pipe.Run) error { return edge.Err(r.Loss(0, p)) })
	}
	liquid := func(set func(p *fluid.Properties, x float64)) func(x float64) error {
		return edge.With(p, set, func(p fluid.Properties) error { return edge.Err(valid.Loss(0, p)) })
	}
	const loss = "Run.Loss"
	area := math.Pi / 4 * valid.Bore * valid.Bore
	kinematic := p.DynamicViscosity / p.Density
	return []limit{
		{loss, "bore", leastBore, mostBore, still(func(r *pipe.Run, x float64) { r.Bore = x }), 0},
		{loss, "roughness", 0, 0.05 * valid.Bore, still(func(r *pipe.Run, x float64) { r.Roughness = x }), 0},
		{loss, "length", 0, 1e5, still(func(r *pipe.Run, x float64) { r.Length = x }), 0},
		{loss, "sum of loss coefficients", -10, 1e6, still(func(r *pipe.Run, x float64) { r.Zeta = x }), 0},
		{loss, "laminar sum of loss coefficients", 0, 1e6, still(func(r *pipe.Run, x float64) { r.ZetaLaminar = x }), 0},
		{loss, "uncertainty of the loss coefficients", 0, 1e6, still(func(r *pipe.Run, x float64) { r.ZetaUncertainty = x }), 0},
		{loss, "Kv", leastKv, mostKv, still(func(r *pipe.Run, x float64) { r.Kv = pipe.Kv(x) }), 0},
		{loss, "density", leastDensity, mostDensity, liquid(func(p *fluid.Properties, x float64) { p.Density = x }), 0},
		{loss, "dynamic viscosity", 1e-5, 10, liquid(func(p *fluid.Properties, x float64) { p.DynamicViscosity = x }), 0},
		{loss, "velocity", -50, 50, func(x float64) error { return edge.Err(valid.Loss(x*area, p)) }, 1e-7},
		{"Run.Prepare", "sum of loss coefficients", 0, 1e6, edge.With(valid, func(r *pipe.Run, x float64) { r.Zeta = x },
			func(r pipe.Run) error { return edge.Err(r.Prepare(p)) }), 0},
		{"Run.Flow", "pressure loss", -1e9, 1e9, func(x float64) error { return edge.Err(thick.Flow(x, p)) }, 0},
		{"Run.BoreFor", "flow", 1e-12, 1e3, func(x float64) error { return edge.Err(valid.BoreFor(x, 1e3, p)) }, 0},
		{"Run.BoreFor", "pressure loss", 1e-9, 1e9, func(x float64) error { return edge.Err(valid.BoreFor(1e-4, x, p)) }, 0},
		{"FlowAt", "pressure loss", -1e9, 1e9, func(x float64) error { return edge.Err(pipe.FlowAt(&c, x)) }, 0},
		{"InParallel.Split", "flow", -1e3, 1e3, func(x float64) error {
			_, _, err := pipe.InParallel{&c, &c}.Split(x)
			return err
		}, 0},
		{loss + ", wide", "Reynolds number", -1e8, 1e8, func(x float64) error {
			if math.Abs(x) > 1.2e8 || math.IsNaN(x) { // beyond, the velocity is what is wrong
				x = 1.1e8
			}
			return edge.Err(most.Loss(x*kinematic*math.Pi/4*most.Bore, p))
		}, 1},
		{"Sizing.Select", "flow", 1e-12, 1e3, func(x float64) error {
			return edge.Err(pipe.Sizing{Flow: x, Liquid: p}.Select(pipe.Catalogue()))
		}, 0},
		{"NextSize", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(pipe.NextSize(pipe.Catalogue(), x)) }, 0},
	}
}

func valveLimits() []limit {
	return []limit{
		{"Kv.Loss", "Kv", leastKv, mostKv, func(x float64) error { return edge.Err(pipe.Kv(x).Loss(1e-4, 1000)) }, 0},
		{"Kv.Loss", "flow", -1e3, 1e3, func(x float64) error { return edge.Err(pipe.Kv(1).Loss(x, 1000)) }, 0},
		{"Kv.Loss", "density", leastDensity, mostDensity, func(x float64) error { return edge.Err(pipe.Kv(1).Loss(1e-4, x)) }, 0},
		{"Kv.Flow", "Kv", leastKv, mostKv, func(x float64) error { return edge.Err(pipe.Kv(x).Flow(1e4, 1000)) }, 0},
		{"Kv.Flow", "pressure loss", 0, 1e9, func(x float64) error { return edge.Err(pipe.Kv(1).Flow(x, 1000)) }, 0},
		{"Kv.Flow", "density", leastDensity, mostDensity, func(x float64) error { return edge.Err(pipe.Kv(1).Flow(1e4, x)) }, 0},
		{"KvFor", "pressure loss", 1e-3, 1e9, func(x float64) error { return edge.Err(pipe.KvFor(1e-4, x, 1000)) }, 0},
		{"KvFor", "density", leastDensity, mostDensity, func(x float64) error { return edge.Err(pipe.KvFor(1e-4, 1e4, x)) }, 0},
		{"Kv.Zeta", "Kv", leastKv, mostKv, func(x float64) error { return edge.Err(pipe.Kv(x).Zeta(0.02)) }, 0},
		{"Kv.Zeta", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(pipe.Kv(1).Zeta(x)) }, 0},
		{"KvOfZeta", "loss coefficient", 1e-6, 1e9, func(x float64) error { return edge.Err(pipe.KvOfZeta(x, 0.02)) }, 0},
		{"KvOfZeta", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(pipe.KvOfZeta(100, x)) }, 0},
		{"KvInSeries", "Kv", leastKv, mostKv, func(x float64) error { return edge.Err(pipe.KvInSeries(pipe.Kv(x))) }, 0},
		{"KvInParallel", "Kv", leastKv, mostKv, func(x float64) error { return edge.Err(pipe.KvInParallel(pipe.Kv(x))) }, 0},
	}
}

func fittingLimits() []limit {
	valid := pipe.Fitting{Bore: 0.02}
	at := func(set func(f *pipe.Fitting, x float64)) func(x float64) error {
		return edge.With(valid, set, func(f pipe.Fitting) error { return edge.Err(f.At(1e4)) })
	}
	const fitting = "Fitting.At"
	return []limit{
		{fitting, "loss coefficient", -10, 1e6, at(func(f *pipe.Fitting, x float64) { f.Zeta = x }), 0},
		{fitting, "laminar loss coefficient", 0, 1e6, at(func(f *pipe.Fitting, x float64) { f.ZetaLaminar = x }), 0},
		{fitting, "bore of the fitting", leastBore, mostBore, at(func(f *pipe.Fitting, x float64) { f.Bore = x }), 0},
		{fitting, "uncertainty of the loss", 0, 10, at(func(f *pipe.Fitting, x float64) { f.Uncertainty = x }), 0},
		{fitting, "Reynolds number", 1, 1e8, func(x float64) error { return edge.Err(valid.At(x)) }, 0},
		{"Fitting.On", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(valid.On(x)) }, 0},
		{"Run.With", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(pipe.Run{Bore: x}.With(valid)) }, 0},
		{"EquivalentLength", "loss coefficient", -10, 1e6, func(x float64) error { return edge.Err(pipe.EquivalentLength(x, 0.02, 0.03)) }, 0},
		{"EquivalentLength", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(pipe.EquivalentLength(1, x, 0.03)) }, 0},
		{"EquivalentLength", "friction factor", 1e-3, 1e6, func(x float64) error { return edge.Err(pipe.EquivalentLength(1, 0.02, x)) }, 0},
		{"Method.Fitting", "bore", leastBore, mostBore, func(x float64) error { return edge.Err(pipe.TwoK.Fitting("globe valve", x)) }, 0},
		{"CraneTurbulentFactor", "bore", 0.005, 0.6, func(x float64) error { return edge.Err(pipe.CraneTurbulentFactor(x)) }, 0},
	}
}

func changeLimits() []limit {
	all := []limit{}
	for call, change := range map[string]func(small, large float64) error{
		"Enlargement":      func(s, l float64) error { return edge.Err(pipe.Enlargement(s, l)) },
		"Contraction":      func(s, l float64) error { return edge.Err(pipe.Contraction(l, s)) },
		"SharpContraction": func(s, l float64) error { return edge.Err(pipe.SharpContraction(l, s)) },
		"Taper.Widening": func(s, l float64) error {
			return edge.Err(pipe.Taper{Small: s, Large: l, Angle: 0.3}.Widening())
		},
		"Taper.Narrowing": func(s, l float64) error {
			return edge.Err(pipe.Taper{Small: s, Large: l, Angle: 0.3}.Narrowing())
		},
	} {
		all = append(all,
			limit{call, "larger bore", leastBore, mostBore, func(x float64) error { return change(leastBore, x) }, 0},
			limit{call, "smaller bore", leastBore, 0.02, func(x float64) error { return change(x, 0.02) }, 0})
	}
	for call, tee := range map[string]func(v pipe.Tee) error{
		"Tee.Dividing":            func(v pipe.Tee) error { _, _, err := v.Dividing(); return err },
		"Tee.Combining":           func(v pipe.Tee) error { _, _, err := v.Combining(); return err },
		"Tee.DividingFromBranch":  func(v pipe.Tee) error { return edge.Err(v.DividingFromBranch()) },
		"Tee.CombiningIntoBranch": func(v pipe.Tee) error { return edge.Err(v.CombiningIntoBranch()) },
	} {
		valid := pipe.Tee{Run: 0.02, Branch: 0.02, Share: 0.3}
		all = append(all,
			limit{call, "share of the branch in the flow", 0, 1, edge.With(valid, func(v *pipe.Tee, x float64) { v.Share = x }, tee), 0},
			limit{call, "bore of the run", leastBore, mostBore, edge.With(valid, func(v *pipe.Tee, x float64) { v.Run, v.Branch = x, x }, tee), 0},
			limit{call, "bore of the branch", 0.1 * valid.Run, valid.Run, edge.With(valid, func(v *pipe.Tee, x float64) { v.Branch = x }, tee), 0})
	}
	plate := pipe.Orifice{Bore: 0.1, Hole: 0.05, Discharge: 0.6}
	orifice := func(set func(o *pipe.Orifice, x float64)) func(x float64) error {
		return edge.With(plate, set, func(o pipe.Orifice) error { return edge.Err(o.Fitting()) })
	}
	return append(all,
		limit{"Taper.Widening", "angle", 0.01, math.Pi, func(x float64) error {
			return edge.Err(pipe.Taper{Small: 0.02, Large: 0.03, Angle: x}.Widening())
		}, 0},
		limit{"Taper.Narrowing", "angle", 0.01, math.Pi, func(x float64) error {
			return edge.Err(pipe.Taper{Small: 0.02, Large: 0.03, Angle: x}.Narrowing())
		}, 0},
		limit{"Orifice.Fitting", "bore", leastBore, mostBore, orifice(func(o *pipe.Orifice, x float64) { o.Bore, o.Hole = x, x/2 }), 0},
		limit{"Orifice.Fitting", "hole", 0.1 * plate.Bore, 0.75 * plate.Bore, orifice(func(o *pipe.Orifice, x float64) { o.Hole = x }), 0},
		limit{"Orifice.Fitting", "discharge coefficient", 0.5, 1, orifice(func(o *pipe.Orifice, x float64) { o.Discharge = x }), 0})
}

func tubeLimits(t *testing.T) []limit {
	valid, err := pipe.Find("EN 1057 22x1.0")
	require.NoError(t, err)
	thin := valid
	thin.Wall = 0
	offset := pipe.Offset{Growth: 0.01, Stress: 5e7}
	check := func(tube pipe.Tube, set func(v *pipe.Tube, x float64)) func(x float64) error {
		return edge.With(tube, set, pipe.Tube.Check)
	}
	all := []limit{
		{"Tube.Check", "outside diameter", leastBore, mostBore, check(thin, func(v *pipe.Tube, x float64) { v.Outside = x }), 0},
		{"Tube.Check", "wall", 0, (valid.Outside - leastBore) / 2, check(valid, func(v *pipe.Tube, x float64) { v.Wall = x }), 1e-12},
		{"Tube.Check", "roughness", 0, 0.01, check(valid, func(v *pipe.Tube, x float64) { v.Roughness = x }), 0},
		{"Material.Tube", "wall", 0, (0.02 - leastBore) / 2, func(x float64) error { return edge.Err(pipe.Materials()[0].Tube(0.02, x)) }, 1e-12},
		{"Tube.Growth", "length", 0, 1e5, func(x float64) error { return edge.Err(valid.Growth(x, 10, 60)) }, 0},
		{"Tube.LegByConstant", "constant", 1, 200, func(x float64) error { return edge.Err(valid.LegByConstant(0.01, x)) }, 0},
		{"Tube.LegByConstant", "growth", 0, 1, func(x float64) error { return edge.Err(valid.LegByConstant(x, 60)) }, 0},
		{"Tube.LegByConstant", "outside diameter", leastBore, mostBore, edge.With(valid, func(v *pipe.Tube, x float64) { v.Outside = x },
			func(v pipe.Tube) error { return edge.Err(v.LegByConstant(0.01, 60)) }), 0},
		{"Anchored", "Poisson's ratio", 0, 0.5, func(x float64) error { return edge.Err(pipe.Anchored(x)) }, 0},
	}
	for call, try := range map[string]func(v pipe.Tube, from, to float64) error{
		"Tube.Growth":          func(v pipe.Tube, from, to float64) error { return edge.Err(v.Growth(10, from, to)) },
		"Tube.FixedPointForce": func(v pipe.Tube, from, to float64) error { return edge.Err(v.FixedPointForce(from, to)) },
	} {
		all = append(all,
			limit{call, "thermal expansion", 1e-7, 5e-4, edge.With(valid, func(v *pipe.Tube, x float64) { v.Expansion = x }, func(v pipe.Tube) error { return try(v, 10, 60) }), 0},
			limit{call, "temperature from", -100, 400, func(x float64) error { return try(valid, x, 60) }, 0},
			limit{call, "temperature to", -100, 400, func(x float64) error { return try(valid, 10, x) }, 0})
	}
	for call, try := range map[string]func(v pipe.Tube, o pipe.Offset) error{
		"Tube.Leg":  func(v pipe.Tube, o pipe.Offset) error { return edge.Err(v.Leg(o)) },
		"Tube.Loop": func(v pipe.Tube, o pipe.Offset) error { return edge.Err(v.Loop(o)) },
	} {
		tube := func(set func(v *pipe.Tube, x float64)) func(x float64) error {
			return edge.With(valid, set, func(v pipe.Tube) error { return try(v, offset) })
		}
		bent := func(set func(o *pipe.Offset, x float64)) func(x float64) error {
			return edge.With(offset, set, func(o pipe.Offset) error { return try(valid, o) })
		}
		all = append(all,
			limit{call, "outside diameter", leastBore, mostBore, tube(func(v *pipe.Tube, x float64) { v.Outside = x }), 0},
			limit{call, "Young's modulus", 1e6, 1e12, tube(func(v *pipe.Tube, x float64) { v.Modulus = x }), 0},
			limit{call, "growth", 0, 1, bent(func(o *pipe.Offset, x float64) { o.Growth = x }), 0},
			limit{call, "bending stress", 1e5, 1e9, bent(func(o *pipe.Offset, x float64) { o.Stress = x }), 0})
	}
	return append(all, limit{"Tube.FixedPointForce", "Young's modulus", 1e6, 1e12, edge.With(valid, func(v *pipe.Tube, x float64) { v.Modulus = x },
		func(v pipe.Tube) error { return edge.Err(v.FixedPointForce(10, 60)) }), 0})
}

func surgeLimits() []limit {
	valid := pipe.Surge{Bulk: 2.2e9, Density: 998, Bore: 0.02, Wall: 0.001, Modulus: 120e9}
	closure := pipe.Closure{Length: 10, Velocity: 1, Time: 0.1}
	all := []limit{}
	for call, try := range map[string]func(s pipe.Surge) error{
		"Surge.WaveSpeed": func(s pipe.Surge) error { return edge.Err(s.WaveSpeed()) },
		"Surge.Close":     func(s pipe.Surge) error { return edge.Err(s.Close(closure)) },
	} {
		all = append(all,
			limit{call, "bulk modulus", 1e8, 1e10, edge.With(valid, func(s *pipe.Surge, x float64) { s.Bulk = x }, try), 0},
			limit{call, "density", leastDensity, mostDensity, edge.With(valid, func(s *pipe.Surge, x float64) { s.Density = x }, try), 0},
			limit{call, "bore", leastBore, mostBore, edge.With(valid, func(s *pipe.Surge, x float64) { s.Bore = x }, try), 0},
			limit{call, "wall", 1e-5, mostBore, edge.With(valid, func(s *pipe.Surge, x float64) { s.Wall = x }, try), 0},
			limit{call, "Young's modulus", 1e6, 1e12, edge.With(valid, func(s *pipe.Surge, x float64) { s.Modulus = x }, try), 0},
			limit{call, "restraint", 0, 2, edge.With(valid, func(s *pipe.Surge, x float64) { s.Restraint = pipe.Restraint(x) }, try), 0})
	}
	closing := func(set func(c *pipe.Closure, x float64)) func(x float64) error {
		return edge.With(closure, set, func(c pipe.Closure) error { return edge.Err(valid.Close(c)) })
	}
	return append(all,
		limit{"Surge.Close", "length", 0, 1e5, closing(func(c *pipe.Closure, x float64) { c.Length = x }), 0},
		limit{"Surge.Close", "change of velocity", 0, 50, closing(func(c *pipe.Closure, x float64) { c.Velocity = x }), 0},
		limit{"Surge.Close", "closing time", 0, 1e5, closing(func(c *pipe.Closure, x float64) { c.Time = x }), 0})
}

func heatLimits() []limit {
	l := fluid.Water()
	p := fluid.Properties{Density: 1000, SpecificHeat: 4200}
	const middle = 65 // °C, about which a spread of 300 K still has a mean that water has
	const spread = "spread between supply and return"
	of := func(set func(p *fluid.Properties, x float64)) func(x float64) error {
		return edge.With(p, set, func(p fluid.Properties) error { return edge.Err(pipe.TemperatureSpread(8e3, 1e-4, p)) })
	}
	return []limit{
		{"FlowForHeat", "heat", 0, 1e9, func(x float64) error { return edge.Err(pipe.FlowForHeat(x, 35, 30, l)) }, 0},
		{"FlowForHeat", spread, 0.1, 300, func(x float64) error {
			// The sign of the spread does not count: outside is what is too near or too far.
			return edge.Err(pipe.FlowForHeat(8e3, middle+x/2, middle-x/2, l))
		}, 1e-6},
		{"HeatCarried", "flow", -1e3, 1e3, func(x float64) error { return edge.Err(pipe.HeatCarried(x, 35, 30, l)) }, 0},
		{"HeatCarried", spread, -300, 300, func(x float64) error { return edge.Err(pipe.HeatCarried(1e-4, middle+x/2, middle-x/2, l)) }, 1e-6},
		{"TemperatureSpread", "heat", -1e9, 1e9, func(x float64) error { return edge.Err(pipe.TemperatureSpread(x, 1e-4, p)) }, 0},
		{"TemperatureSpread", "flow", 1e-9, 1e3, func(x float64) error { return edge.Err(pipe.TemperatureSpread(8e3, x, p)) }, 0},
		{"TemperatureSpread", "density", leastDensity, mostDensity, of(func(p *fluid.Properties, x float64) { p.Density = x }), 0},
		{"TemperatureSpread", "specific heat", 500, 2e4, of(func(p *fluid.Properties, x float64) { p.SpecificHeat = x }), 0},
		{"GravityCirculation", "density of the cold leg", leastDensity, mostDensity, func(x float64) error { return edge.Err(pipe.GravityCirculation(x, 980, 1)) }, 0},
		{"GravityCirculation", "density of the warm leg", leastDensity, mostDensity, func(x float64) error { return edge.Err(pipe.GravityCirculation(990, x, 1)) }, 0},
		{"GravityCirculation", "height", -1e3, 1e3, func(x float64) error { return edge.Err(pipe.GravityCirculation(990, 980, x)) }, 0},
	}
}

func contentLimits() []limit {
	l := fluid.Water()
	shortest := pipe.ShortestRun{Output: 4e3, Time: 600, From: 30, To: 35}
	run := func(set func(s *pipe.ShortestRun, x float64)) func(x float64) error {
		return edge.With(shortest, set, func(s pipe.ShortestRun) error { return edge.Err(s.Content(l)) })
	}
	frost := pipe.Defrost{Frost: 1, FrostTemperature: -5, Time: 300, Start: 30, Lowest: 20}
	defrost := func(set func(d *pipe.Defrost, x float64)) func(x float64) error {
		return edge.With(frost, set, func(d pipe.Defrost) error { return edge.Err(d.Balance(0.05, l)) })
	}
	route := func(set func(p *pipe.Point, x float64)) func(x float64) error {
		return func(x float64) error {
			r := pipe.Route{{X: 1, Y: 2, Z: 3}, {}}
			set(&r[1], x)
			return edge.Err(r.Survey())
		}
	}
	const content, balance = "ShortestRun.Content", "Defrost.Balance"
	return []limit{
		{content, "output", 0, 1e9, run(func(s *pipe.ShortestRun, x float64) { s.Output = x }), 0},
		{content, "load", 0, shortest.Output, run(func(s *pipe.ShortestRun, x float64) { s.Load = x }), 0},
		{content, "running time", 0, hydronics.Day, run(func(s *pipe.ShortestRun, x float64) { s.Time = x }), 0},
		{content, "rise of temperature", 0.1, 300, run(func(s *pipe.ShortestRun, x float64) { s.From, s.To = 65-x/2, 65+x/2 }), 1e-6},
		{balance, "circulating content", 1e-6, 1e3, func(x float64) error { return edge.Err(frost.Balance(x, l)) }, 0},
		{balance, "mass of frost", 0, 1e3, defrost(func(d *pipe.Defrost, x float64) { d.Frost = x }), 0},
		{balance, "temperature of the frost", -60, 0, defrost(func(d *pipe.Defrost, x float64) { d.FrostTemperature = x }), 0},
		{balance, "heat to the coil", 0, 1e12, defrost(func(d *pipe.Defrost, x float64) { d.Coil = x }), 0},
		{balance, "stated heat", 0, 1e12, defrost(func(d *pipe.Defrost, x float64) { d.Stated = x }), 0},
		{balance, "electric input", 0, 1e9, defrost(func(d *pipe.Defrost, x float64) { d.Input = x }), 0},
		{balance, "load", 0, 1e9, defrost(func(d *pipe.Defrost, x float64) { d.Load = x }), 0},
		{balance, "backup heater", 0, 1e9, defrost(func(d *pipe.Defrost, x float64) { d.Backup = x }), 0},
		{balance, "duration", 0, hydronics.Hour, defrost(func(d *pipe.Defrost, x float64) { d.Time = x }), 0},
		{balance, "fall of temperature from start to lowest", 0.1, 300, defrost(func(d *pipe.Defrost, x float64) { d.Start, d.Lowest = 65+x/2, 65-x/2 }), 1e-6},
		{"LeastContent", `volume of part "coil"`, 0, 1e3, func(x float64) error {
			return edge.Err(pipe.LeastContent([]pipe.Part{{Name: "coil", Volume: x}}, 0))
		}, 0},
		{"BufferFor", "required content", 0, 1e3, func(x float64) error { return edge.Err(pipe.BufferFor(x, 0.1)) }, 0},
		{"BufferFor", "circulating content", 0, 1e3, func(x float64) error { return edge.Err(pipe.BufferFor(0.1, x)) }, 0},
		{"Route.Survey", "point 1, X", -1e4, 1e4, route(func(p *pipe.Point, x float64) { p.X = x }), 0},
		{"Route.Survey", "point 1, Y", -1e4, 1e4, route(func(p *pipe.Point, x float64) { p.Y = x }), 0},
		{"Route.Survey", "point 1, Z", -1e4, 1e4, route(func(p *pipe.Point, x float64) { p.Z = x }), 0},
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
		{"transition rule", edge.Err(pipe.Run{Bore: 0.02, Transition: pipe.StepTransition}.Prepare(water(t, 40))),
			edge.Err(pipe.Run{Bore: 0.02, Transition: pipe.StepTransition + 1}.Prepare(water(t, 40)))},
		{"number of valves", edge.Err(pipe.KvInSeries(1)), edge.Err(pipe.KvInSeries())},
		{"number of valves", edge.Err(pipe.KvInParallel(1)), edge.Err(pipe.KvInParallel())},
		{"Kv", edge.Err(pipe.KvInParallel(5e4, 5e4)), edge.Err(pipe.KvInParallel(5e4, 5.1e4))},
		{"Kv", edge.Err(pipe.KvInSeries(2e-4, 2e-4)), edge.Err(pipe.KvInSeries(1e-4, 1e-4))},
		{"Kv", edge.Err(pipe.KvFor(1000, 1e9, 1000)), edge.Err(pipe.KvFor(1000, 1e8, 1000))},
		{"flow", edge.Err(pipe.KvFor(1000, 1e9, 1000)), edge.Err(pipe.KvFor(1001, 1e9, 1000))},
		{"flow", edge.Err(pipe.KvFor(1e-8, 1e-3, 1000)), edge.Err(pipe.KvFor(9e-13, 1e-3, 1000))},
		{"Kv", edge.Err(pipe.KvOfZeta(100, 3)), edge.Err(pipe.KvOfZeta(1, 3))},
		{"loss coefficient", edge.Err(pipe.Fitting{Zeta: 1, Bore: 0.02}.On(0.6)), edge.Err(pipe.Fitting{Zeta: 1, Bore: 0.02}.On(0.64))},
		{"number of valves kept open", edge.Err(pipe.LeastContent(parts, 0)), edge.Err(pipe.LeastContent(parts, -1))},
		{"number of valves kept open", edge.Err(pipe.LeastContent(parts, 2)), edge.Err(pipe.LeastContent(parts, 3))},
		{"number of points", edge.Err(line[:2].Survey()), edge.Err(line[:1].Survey())},
		{"length of leg 1", edge.Err(line.Survey()), edge.Err(pipe.Route{{}, {X: 1}, {X: 1}}.Survey())},
		{"index of an opened point", edge.Err(line.HeldWater(0)), edge.Err(line.HeldWater(-1))},
		{"index of an opened point", edge.Err(line.HeldAir(2)), edge.Err(line.HeldAir(3))},
		{"ratio of the bores of branch and run", divide(0.02), divide(0.0200001)},
		{"ratio of the bores of branch and run", divide(0.03), divide(0.0299999)},
	} {
		require.NoError(t, c.inside, c.quantity)
		require.NotNil(t, edge.Named(c.outside, c.quantity), "%s: %v", c.quantity, c.outside)
	}
}

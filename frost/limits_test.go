package frost_test

import (
	"math"
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/edge"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
)

// Every limit holds just inside and refuses just outside, by the name of the
// quantity; so is NaN. The figures are those of the doc comments.
func TestLimits(t *testing.T) {
	water := frost.Water()
	heat := func(s frost.Section, inside float64, a frost.Air) error { return edge.Err(s.HeatFlow(inside, a)) }
	layer := func(set func(*frost.Layer, float64)) func(float64) error {
		return func(v float64) error {
			s := frost.Section{Bore: 0.02, Layers: []frost.Layer{{Thickness: 0.01, Conductivity: 1}}, Surface: frost.Surface{Coefficient: 10}}
			set(&s.Layers[0], v)
			return heat(s, 0, frost.Air{})
		}
	}
	air := func(set func(*frost.Air, float64)) func(float64) error {
		return func(v float64) error {
			a := frost.Air{}
			set(&a, v)
			return heat(foamed(), 5, a)
		}
	}
	lumped := func(set func(*frost.Lump, float64)) func(float64) error {
		return func(v float64) error {
			l := frost.Lump{Bore: 0.02, Resistance: 1, Capacity: 1000, Medium: water}
			set(&l, v)
			return edge.Err(l.CoolingTime(10, 0, -10))
		}
	}
	standing := func(set func(*frost.Standing, float64)) func(float64) error {
		return func(v float64) error {
			s := frost.Standing{Section: foamed(), Medium: water, Start: 5, Weather: []frost.Air{{Temperature: 5}}, Until: 60}
			set(&s, v)
			return edge.Err(s.Resolve())
		}
	}
	nights := func(set func(*frost.Night, float64)) func(float64) error {
		return func(v float64) error {
			n := night()
			n.Cut = 600
			set(&n, v)
			return edge.Err(n.Run())
		}
	}
	reach := func(set func(*frost.Reach, float64)) func(float64) error {
		return func(v float64) error {
			r := outdoors()
			set(&r, v)
			return edge.Err(r.Empty(fluid.Properties{Density: 999.8, DynamicViscosity: 1.7e-3}))
		}
	}
	ground := func(set func(*frost.Ground, float64)) func(float64) error {
		return func(v float64) error {
			g := frost.Ground{Mean: 9, Amplitude: 11, ColdestDay: 25, Diffusivity: 6e-7}
			set(&g, v)
			return edge.Err(g.Temperature(1, 1))
		}
	}
	winter := func(set func(*frost.Winter, float64)) func(float64) error {
		return func(v float64) error {
			w := frost.Winter{Index: 2e7, Surface: 0.7, Duration: 8e6, Mean: 8}
			set(&w, v)
			return edge.Err(frost.Soil{Conductivity: 1.7, HeatCapacity: 2e6, LatentHeat: 5e7}.Frost(w))
		}
	}
	for _, c := range []struct {
		quantity string
		low      float64
		high     float64
		try      func(float64) error
	}{
		{"bore", 0.001, 1, func(v float64) error {
			return heat(frost.Section{Bore: v, Surface: frost.Surface{Coefficient: 10}}, 5, frost.Air{})
		}},
		{"surface coefficient", 0.1, 1e5, func(v float64) error {
			return heat(frost.Section{Bore: 0.02, Surface: frost.Surface{Coefficient: v}}, 5, frost.Air{})
		}},
		{"emissivity", 0, 1, func(v float64) error {
			return heat(frost.Section{Bore: 0.02, Surface: frost.Surface{Method: frost.Correlated, Emissivity: v}}, 5, frost.Air{})
		}},
		{"film coefficient", 1, 1e6, func(v float64) error {
			return heat(frost.Section{Bore: 0.02, Film: v, Surface: frost.Surface{Coefficient: 10}}, 5, frost.Air{})
		}},
		{"inside temperature", -60, 330, func(v float64) error { return heat(foamed(), v, frost.Air{}) }},
		{"thickness of layer 1", 1e-5, 1, layer(func(l *frost.Layer, v float64) { l.Thickness = v })},
		{"conductivity of layer 1", 0.005, 500, layer(func(l *frost.Layer, v float64) { l.Conductivity = v })},
		{"slope of the conductivity of layer 1", -0.1, 0.1, layer(func(l *frost.Layer, v float64) { l.Slope = v })},
		{"heat capacity of layer 1", 0, 1e7, layer(func(l *frost.Layer, v float64) { l.HeatCapacity = v })},
		{"air temperature", -90, 60, air(func(a *frost.Air, v float64) { a.Temperature = v })},
		{"wind", 0, 60, air(func(a *frost.Air, v float64) { a.Wind = v })},
		{"infrared of the sky", 50, 600, air(func(a *frost.Air, v float64) { a.Infrared = v })},
		{"air pressure", 5e4, 1.2e5, air(func(a *frost.Air, v float64) { a.PressureAbs = v })},
		{"resistance", 1e-6, 1e4, lumped(func(l *frost.Lump, v float64) { l.Resistance = v })},
		{"heat capacity", 1e-6, 1e8, lumped(func(l *frost.Lump, v float64) { l.Capacity = v })},
		{"density of the water", 500, 1500, lumped(func(l *frost.Lump, v float64) { l.Medium.Density = v })},
		{"specific heat of the water", 1000, 1e4, lumped(func(l *frost.Lump, v float64) { l.Medium.SpecificHeat = v })},
		{"conductivity of the water", 0.05, 5, lumped(func(l *frost.Lump, v float64) { l.Medium.Conductivity = v })},
		{"latent heat", 5e4, 1e6, lumped(func(l *frost.Lump, v float64) { l.Medium.LatentHeat = v })},
		{"specific heat of the ice", 500, 1e4, lumped(func(l *frost.Lump, v float64) { l.Medium.IceSpecificHeat = v })},
		{"conductivity of the ice", 0.1, 10, lumped(func(l *frost.Lump, v float64) { l.Medium.IceConductivity = v })},
		{"start temperature", -90, 150, func(v float64) error { return edge.Err(lump(t).CoolingTime(v, 0, -10)) }},
		{"target temperature", -90, 150, func(v float64) error { return edge.Err(lump(t).CoolingTime(10, v, -10)) }},
		{"ambient temperature", -90, 150, func(v float64) error { return edge.Err(lump(t).CoolingTime(10, 0, v)) }},
		{"time", 0, 1e9, func(v float64) error { return edge.Err(lump(t).Temperature(v, 10, 0)) }},
		{"fraction of ice", 0, 1, func(v float64) error { return edge.Err(lump(t).FreezingTime(v, -10)) }},
		{"start temperature", math.SmallestNonzeroFloat64, 120, standing(func(s *frost.Standing, v float64) { s.Start = v })},
		{"temperature of nucleation", -15, 0, standing(func(s *frost.Standing, v float64) { s.Nucleation = v })},
		{"end of the calculation", 60, 1e8, standing(func(s *frost.Standing, v float64) { s.Until = v })},
		{"tolerance", 1e-6, 0.5, standing(func(s *frost.Standing, v float64) { s.Tolerance = v })},
		{"start temperature", math.SmallestNonzeroFloat64, 95, nights(func(n *frost.Night, v float64) { n.Start = v })},
		{"setting of the drain valve", 0, 10, nights(func(n *frost.Night, v float64) { n.Setting.Opens = v })},
		{"tolerance of the drain valve", 0, 5, nights(func(n *frost.Night, v float64) { n.Setting.Tolerance = v })},
		{"lag of the drain valve", 0, 1e5, nights(func(n *frost.Night, v float64) { n.Setting.Lag = v })},
		{"lift of the drain valve", 0.01, 1, nights(func(n *frost.Night, v float64) { n.Setting.Lift = v })},
		{"stroke of the isolating valves", 0, 1e4, nights(func(n *frost.Night, v float64) { n.Stroke = v })},
		{"length of the cut", 60, 1e8, nights(func(n *frost.Night, v float64) { n.Cut = v })},
		{"roughness", 0, 0.05 * outdoors().Bore, reach(func(r *frost.Reach, v float64) { r.Roughness = v })},
		{"drain valve's Kv", 1e-3, 1e3, reach(func(r *frost.Reach, v float64) { r.Drains[0].Kv = pipe.Kv(v) })},
		{"final head", 1e-3, 1, reach(func(r *frost.Reach, v float64) { r.Final = v })},
		{"mean temperature", -30, 40, ground(func(g *frost.Ground, v float64) { g.Mean = v })},
		{"amplitude of the surface", 0, 40, ground(func(g *frost.Ground, v float64) { g.Amplitude = v })},
		{"coldest day", 0, 366, ground(func(g *frost.Ground, v float64) { g.ColdestDay = v })},
		{"diffusivity", 1e-8, 1e-5, ground(func(g *frost.Ground, v float64) { g.Diffusivity = v })},
		{"freezing index", 0, 1e9, winter(func(w *frost.Winter, v float64) { w.Index = v })},
		{"n-factor", 0.05, 1.5, winter(func(w *frost.Winter, v float64) { w.Surface = v })},
		{"length of the season", 1e4, 3e7, winter(func(w *frost.Winter, v float64) { w.Duration = v })},
		{"mean of the year", 0, 30, winter(func(w *frost.Winter, v float64) { w.Mean = v })},
		{"Rayleigh number", 1e-6, 1e12, func(v float64) error { return edge.Err(frost.NaturalConvection(v, 0.7)) }},
		{"Prandtl number", 1e-3, 1e5, func(v float64) error { return edge.Err(frost.NaturalConvection(1, v)) }},
		{"surface temperature", -90, 0, func(v float64) error { return edge.Err(frost.StefanDepth(water, v, 1)) }},
		{"surface temperature", -90, -1e-6, func(v float64) error { return edge.Err(frost.NeumannDepth(water, v, 1, 1)) }},
		{"water temperature", 0, 100, func(v float64) error { return edge.Err(frost.NeumannDepth(water, -1, v, 1)) }},
		{"area of the hole", 1e-8, 1, func(v float64) error { return edge.Err(frost.OrificeKv(v, 0.6)) }},
		{"discharge coefficient", 0.1, 1, func(v float64) error { return edge.Err(frost.OrificeKv(1e-4, v)) }},
	} {
		t.Run(c.quantity, func(t *testing.T) { edge.Check(t, c.quantity, c.low, c.high, 0, c.try) })
	}
	// The product reaches its upper limit where both of its factors do.
	edge.Check(t, "Reynolds times Prandtl number", 0.2, 1e12, 0.01, func(v float64) error { return edge.Err(frost.CrossFlow(v/1e5, 1e5)) })
	for _, re := range []float64{math.Nextafter(0, -1), math.Nextafter(1e7, 2e7), math.NaN()} {
		assert.NotNil(t, edge.Named(edge.Err(frost.CrossFlow(re, 1)), "Reynolds number"), "%v", re)
	}
}

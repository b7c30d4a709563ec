package frost_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every limit holds just inside and refuses just outside, by the name of the
// quantity; so is NaN. The figures are those of the doc comments.
func TestLimits(t *testing.T) {
	water := frost.Water()
	heat := func(s frost.Section, inside float64, a frost.Air) error { _, err := s.HeatFlow(inside, a); return err }
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
			_, err := l.CoolingTime(10, 0, -10)
			return err
		}
	}
	standing := func(set func(*frost.Standing, float64)) func(float64) error {
		return func(v float64) error {
			s := frost.Standing{Section: foamed(), Medium: water, Start: 5, Weather: []frost.Air{{Temperature: 5}}, Until: 60}
			set(&s, v)
			_, err := s.Resolve()
			return err
		}
	}
	nights := func(set func(*frost.Night, float64)) func(float64) error {
		return func(v float64) error {
			n := night()
			n.Cut = 600
			set(&n, v)
			_, err := n.Run()
			return err
		}
	}
	reach := func(set func(*frost.Reach, float64)) func(float64) error {
		return func(v float64) error {
			r := outdoors()
			set(&r, v)
			_, err := r.Empty(fluid.Properties{Density: 999.8, DynamicViscosity: 1.7e-3})
			return err
		}
	}
	ground := func(set func(*frost.Ground, float64)) func(float64) error {
		return func(v float64) error {
			g := frost.Ground{Mean: 9, Amplitude: 11, ColdestDay: 25, Diffusivity: 6e-7}
			set(&g, v)
			_, err := g.Temperature(1, 1)
			return err
		}
	}
	winter := func(set func(*frost.Winter, float64)) func(float64) error {
		return func(v float64) error {
			w := frost.Winter{Index: 2e7, Surface: 0.7, Duration: 8e6, Mean: 8}
			set(&w, v)
			_, err := frost.Soil{Conductivity: 1.7, HeatCapacity: 2e6, LatentHeat: 5e7}.Frost(w)
			return err
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
		{"start temperature", -90, 150, func(v float64) error { _, err := lump(t).CoolingTime(v, 0, -10); return err }},
		{"target temperature", -90, 150, func(v float64) error { _, err := lump(t).CoolingTime(10, v, -10); return err }},
		{"ambient temperature", -90, 150, func(v float64) error { _, err := lump(t).CoolingTime(10, 0, v); return err }},
		{"time", 0, 1e9, func(v float64) error { _, err := lump(t).Temperature(v, 10, 0); return err }},
		{"fraction of ice", 0, 1, func(v float64) error { _, err := lump(t).FreezingTime(v, -10); return err }},
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
		{"Rayleigh number", 1e-6, 1e12, func(v float64) error { _, err := frost.NaturalConvection(v, 0.7); return err }},
		{"Prandtl number", 1e-3, 1e5, func(v float64) error { _, err := frost.NaturalConvection(1, v); return err }},
		{"Reynolds times Prandtl number", 0.2, 1e7, func(v float64) error { _, err := frost.CrossFlow(v, 1); return err }},
		{"surface temperature", -90, 0, func(v float64) error { _, err := frost.StefanDepth(water, v, 1); return err }},
		{"surface temperature", -90, -1e-6, func(v float64) error { _, err := frost.NeumannDepth(water, v, 1, 1); return err }},
		{"water temperature", 0, 100, func(v float64) error { _, err := frost.NeumannDepth(water, -1, v, 1); return err }},
		{"area of the hole", 1e-8, 1, func(v float64) error { _, err := frost.OrificeKv(v, 0.6); return err }},
		{"discharge coefficient", 0.1, 1, func(v float64) error { _, err := frost.OrificeKv(1e-4, v); return err }},
	} {
		for _, inside := range []float64{c.low, c.high} {
			if err := c.try(inside); err != nil && c.quantity != "slope of the conductivity of layer 1" {
				// Some limits cannot be reached with the rest as it is; then another quantity is named.
				var r *hydronics.RangeError
				require.ErrorAs(t, err, &r, "%s = %g", c.quantity, inside)
				assert.NotEqual(t, c.quantity, r.Quantity, "%s = %g", c.quantity, inside)
			}
		}
		below, above := math.Nextafter(c.low, math.Inf(-1)), math.Nextafter(c.high, math.Inf(1))
		for _, outside := range []float64{below, above, math.NaN(), math.Inf(1), math.Inf(-1)} {
			if outside == 0 && (c.quantity == "film coefficient" || c.quantity == "tolerance") {
				continue
			}
			err := c.try(outside)
			require.ErrorIs(t, err, hydronics.ErrRange, "%s = %g", c.quantity, outside)
			want := c.quantity
			if c.quantity == "Reynolds times Prandtl number" && !(outside < c.low) {
				want = "Reynolds number"
			}
			assert.ErrorContains(t, err, want+" = ", "%s = %g", c.quantity, outside)
		}
	}
}

package frost_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/edge"
	"example.com/hydronics/pipe"
)

// The limits of the ground, of what replaces draining, of columns and of
// arrangements, as TestLimits tries the others.
func TestLimitsOfTheRest(t *testing.T) {
	cold, diameter := frost.Air{Temperature: -10}, 0.1
	flow := func(set func(*frost.HeatFlow, float64)) func(float64) error {
		return func(v float64) error {
			f := frost.HeatFlow{Resistance: 1, Ambient: -10}
			set(&f, v)
			return edge.Err(f.EndTemperature(10, 1, 100))
		}
	}
	chill := func(set func(*frost.Chill, float64)) func(float64) error {
		return func(v float64) error {
			c := frost.Chill{Start: 10, Surface: -20, Diffusivity: 6e-7}
			set(&c, v)
			return edge.Err(c.Depth((c.Start+c.Surface)/2, 1e5))
		}
	}
	soil := func(set func(*frost.Soil, float64)) func(float64) error {
		return func(v float64) error {
			s := frost.Soil{Conductivity: 1.7, HeatCapacity: 2e6, LatentHeat: 5e7}
			set(&s, v)
			return edge.Err(s.Frost(frost.Winter{Index: 2e7, Surface: 0.7, Duration: 8e6, Mean: 8}))
		}
	}
	pair := func(set func(*frost.Pair, float64)) func(float64) error {
		return func(v float64) error {
			p := frost.Pair{Depth: 3, Spacing: 3, Conductivity: 1.5, Diameter: [2]float64{0.1, 0.1}, Resistance: [2]float64{1, 1}, Water: [2]float64{50, 40}}
			set(&p, v)
			return edge.Err(p.Flow())
		}
	}
	shell := func(set func(*frost.Shell, float64)) func(float64) error {
		return func(v float64) error {
			s := frost.Shell{Bore: 0.02, Inner: 1, Outer: 1.1, Conductivity: 0.04}
			set(&s, v)
			return edge.Err(frost.HandbookLump(frost.Water(), s))
		}
	}
	rules := func(set func(*frost.Rules, float64)) func(float64) error {
		return func(v float64) error {
			r := frost.CommonRules()
			set(&r, v)
			return edge.Err(frost.Arrangement{Reaches: []frost.Reach{outdoors()}, Liquid: fluid.Water()}.Findings(r))
		}
	}
	column := func(set func(*frost.Column, *fluid.Properties, float64)) func(float64) error {
		return func(v float64) error {
			c := frost.Column{Bore: 0.02, Kv: 1, Legs: []frost.Leg{{Length: 2}, {Length: 1, Rise: 0.5}}, Final: 0.01}
			p := fluid.Properties{Density: 1000, DynamicViscosity: 1.7e-3}
			set(&c, &p, v)
			return edge.Err(c.Empty(p))
		}
	}
	instead := func(set func(*frost.Inquiry, float64)) func(float64) error {
		return func(v float64) error {
			q := frost.Inquiry{Solute: fluid.PropyleneGlycol, Duty: frost.Duty{Heat: 8000, Supply: 45, Return: 38, Run: pipe.Run{Bore: 0.025, Length: 20}},
				Length: 10, Layer: 1, Limit: 5, Safety: 1.2}
			set(&q, v)
			return edge.Err(night().Instead(q))
		}
	}
	doubts := func(set func(*frost.Doubts, float64)) func(float64) error {
		return func(v float64) error {
			n := night()
			o, err := n.Run()
			if err != nil {
				return err
			}
			var d frost.Doubts
			set(&d, v)
			return edge.Err(n.Findings(o, d))
		}
	}
	for _, c := range []struct {
		quantity  string
		low, high float64
		try       func(float64) error
	}{
		{"resistance", 1e-6, 1e6, flow(func(f *frost.HeatFlow, v float64) { f.Resistance = v })},
		{"ambient temperature", -273, 100, flow(func(f *frost.HeatFlow, v float64) { f.Ambient = v })},
		{"length", 0, 1e5, func(v float64) error {
			return edge.Err(frost.HeatFlow{Resistance: 1, Ambient: -10}.EndTemperature(10, v, 100))
		}},
		{"heat capacity rate", 1e-6, 1e9, func(v float64) error {
			return edge.Err(frost.HeatFlow{Resistance: 1, Ambient: -10}.EndTemperature(10, 1, v))
		}},
		{"length", 0.01, 1e5, func(v float64) error { return edge.Err(frost.HeatFlow{Resistance: 1, Ambient: -10}.Trickle(10, 5, v)) }},
		{"temperature to hold", 0, 80, func(v float64) error { return edge.Err(foamed().TracePower(v, 1.2, cold)) }},
		{"factor of safety", 1, 2, func(v float64) error { return edge.Err(foamed().TracePower(5, v, cold)) }},
		{"heat flow", 1e-3, 1e5, func(v float64) error { return edge.Err(foamed().ThicknessForHeatFlow(1, 40, v, cold)) }},
		{"difference of surface and air", 0.01, 100, func(v float64) error { return edge.Err(foamed().ThicknessForSurface(1, 40, v, cold)) }},
		{"relative humidity", 0.05, 0.99, func(v float64) error {
			return edge.Err(foamed().ThicknessAgainstDew(1, 5, v, frost.Air{Temperature: 20}))
		}},
		{"time to hold", 1, 1e8, func(v float64) error {
			return edge.Err(foamed().ThicknessToHold(1, frost.Hold{Medium: frost.Water(), Start: 10, Target: 1, Seconds: v}, cold))
		}},
		{"temperature of the ground", -50, 60, chill(func(c *frost.Chill, v float64) { c.Start = v })},
		{"temperature of the surface", -90, 60, chill(func(c *frost.Chill, v float64) { c.Surface = v })},
		{"diffusivity", 1e-8, 1e-5, chill(func(c *frost.Chill, v float64) { c.Diffusivity = v })},
		{"time", 0, 1e9, func(v float64) error {
			return edge.Err(frost.Chill{Start: 10, Surface: -20, Diffusivity: 6e-7}.Depth(0, v))
		}},
		{"day", 0, 366, func(v float64) error {
			return edge.Err(frost.Ground{Mean: 9, Amplitude: 11, ColdestDay: 25, Diffusivity: 6e-7}.Temperature(1, v))
		}},
		{"depth", 0, 100, func(v float64) error {
			return edge.Err(frost.Ground{Mean: 9, Amplitude: 11, ColdestDay: 25, Diffusivity: 6e-7}.Temperature(v, 1))
		}},
		{"dry density", 300, 2500, func(v float64) error { return edge.Err(frost.MoistSoil(v, 0.1, 1)) }},
		{"water content", 0.005, 1.5, func(v float64) error { return edge.Err(frost.MoistSoil(1600, v, 1)) }},
		{"conductivity of the soil", 0.1, 10, func(v float64) error { return edge.Err(frost.MoistSoil(1600, 0.1, v)) }},
		{"conductivity of the soil", 0.1, 10, soil(func(s *frost.Soil, v float64) { s.Conductivity = v })},
		{"heat capacity of the soil", 5e5, 5e6, soil(func(s *frost.Soil, v float64) { s.HeatCapacity = v })},
		{"latent heat of the soil", 1e6, 4e8, soil(func(s *frost.Soil, v float64) { s.LatentHeat = v })},
		{"diameter over the insulation", 0.005, 2, pair(func(p *frost.Pair, v float64) { p.Diameter[0] = v })},
		{"resistance of the insulation", 0, 1000, pair(func(p *frost.Pair, v float64) { p.Resistance[1] = v })},
		{"depth of the axes", diameter/2 + 0.01, 100, pair(func(p *frost.Pair, v float64) { p.Depth = v })},
		{"conductivity of the soil", 0.1, 10, pair(func(p *frost.Pair, v float64) { p.Conductivity = v })},
		{"bore", 0.001, 1, shell(func(s *frost.Shell, v float64) { s.Bore = v })},
		{"outer diameter of the insulation", 1 + 1e-5, 3, shell(func(s *frost.Shell, v float64) { s.Outer = v })},
		{"conductivity of the insulation", 0.005, 500, shell(func(s *frost.Shell, v float64) { s.Conductivity = v })},
		{"height of the outlet", 0, 5, rules(func(r *frost.Rules, v float64) { r.OutletHeight = v })},
		{"depth of snow", 0, 5, rules(func(r *frost.Rules, v float64) { r.Snow = v })},
		{"spacing of drain valves", 0, 5, rules(func(r *frost.Rules, v float64) { r.Spacing = v })},
		{"fall", 0, 1, rules(func(r *frost.Rules, v float64) { r.Fall = v })},
		{"mains pressure", 0, 2e6, func(v float64) error { return edge.Err(outdoors().Cases(hydronics.Gauge(v), 0.1)) }},
		{"volume indoors", 0, 100, func(v float64) error { return edge.Err(outdoors().Cases(3e5, v)) }},
		{"bore", 0.001, 1, column(func(c *frost.Column, _ *fluid.Properties, v float64) { c.Bore = v })},
		{"roughness", 0, 0.05 * 0.02, column(func(c *frost.Column, _ *fluid.Properties, v float64) { c.Roughness = v })},
		{"valve's Kv", 1e-3, 1e3, column(func(c *frost.Column, _ *fluid.Properties, v float64) { c.Kv = pipe.Kv(v) })},
		{"length of a leg", 0.001, 1000, column(func(c *frost.Column, _ *fluid.Properties, v float64) { c.Legs[0].Length = v })},
		{"density", 500, 1500, column(func(_ *frost.Column, p *fluid.Properties, v float64) { p.Density = v })},
		{"dynamic viscosity", 1e-5, 1, column(func(_ *frost.Column, p *fluid.Properties, v float64) { p.DynamicViscosity = v })},
		{"length", 0.01, 1e5, instead(func(q *frost.Inquiry, v float64) { q.Length = v })},
		{"limit", 1, 20, instead(func(q *frost.Inquiry, v float64) { q.Limit = v })},
		{"doubt about the air", 0, 20, doubts(func(d *frost.Doubts, v float64) { d.Air = v })},
		{"doubt about the conductivity", 0, 0.9, doubts(func(d *frost.Doubts, v float64) { d.Conductivity = v })},
		{"doubt about the surface", 0, 0.9, doubts(func(d *frost.Doubts, v float64) { d.Surface = v })},
		{"doubt about the drain valves", 0, 0.9, doubts(func(d *frost.Doubts, v float64) { d.Kv = v })},
		{"bore", 0.001, 1, func(v float64) error {
			return edge.Err(frost.Lump{Bore: v, Resistance: 1, Capacity: 1000, Medium: frost.Water()}.CoolingTime(10, 0, -10))
		}},
		{"bore", 0.001, 1, func(v float64) error {
			r := outdoors()
			r.Bore = v
			return edge.Err(r.Empty(fluid.Properties{Density: 999.8, DynamicViscosity: 1.7e-3}))
		}},
		{"density", 500, 1500, func(v float64) error {
			return edge.Err(outdoors().Empty(fluid.Properties{Density: v, DynamicViscosity: 1.7e-3}))
		}},
		{"dynamic viscosity", 1e-5, 1, func(v float64) error {
			return edge.Err(outdoors().Empty(fluid.Properties{Density: 999.8, DynamicViscosity: v}))
		}},
		{"area of the surface", 1e-8, 1e4, func(v float64) error { return edge.Err(frost.Torricelli(frost.Vessel{Area: v, Kv: 1}, 2, 1)) }},
		{"head at the start", 0, 100, func(v float64) error { return edge.Err(frost.Torricelli(frost.Vessel{Area: 1, Kv: 1}, v, 0)) }},
		{"time", 0, 1e9, func(v float64) error { return edge.Err(frost.StefanDepth(frost.Water(), -5, v)) }},
		{"time", 0, 1e9, func(v float64) error { return edge.Err(frost.NeumannDepth(frost.Water(), -5, 1, v)) }},
		{"bore", 0.001, 1, func(v float64) error { return edge.Err(frost.BubbleSpeed(v)) }},
	} {
		t.Run(c.quantity, func(t *testing.T) { edge.Check(t, c.quantity, c.low, c.high, 0, c.try) })
	}
}

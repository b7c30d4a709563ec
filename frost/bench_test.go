package frost_test

import (
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/calls"
	"example.com/hydronics/internal/edge"
)

func scalars(tb testing.TB) calls.List {
	water, still := frost.Water(), frost.Air{Temperature: -10}
	windy := frost.Air{Temperature: -10, Wind: 3, Infrared: 200}
	section, open := foamed(), foamed()
	open.Surface = frost.InTheOpen()
	flow, err := section.HeatFlow(35, still)
	if err != nil {
		tb.Fatal(err)
	}
	lump, err := section.Lump(water, 35, still)
	if err != nil {
		tb.Fatal(err)
	}
	hourly := []float64{-2, -5, -10, -12, -10, -8, -10, -12, -14, -14}
	column := frost.Column{Bore: 0.026, Kv: 1.5, Legs: []frost.Leg{{Length: 1.5, Rise: 1.5}}}
	cold := fluid.Properties{Density: 999.8, DynamicViscosity: 1.79e-3}
	ground := frost.Ground{Mean: 9, Amplitude: 12, ColdestDay: 20, Diffusivity: 5.8e-7}
	soil := frost.Soil{Conductivity: 2, HeatCapacity: 2e6, LatentHeat: 8e7}
	pair := frost.Pair{Depth: 0.8, Spacing: 0.2, Conductivity: 1.5, Diameter: [2]float64{0.1, 0.1},
		Resistance: [2]float64{3, 3}, Water: [2]float64{45, 35}, Ground: 8}
	return calls.List{
		"Section.HeatFlow, given":      func() error { return edge.Err(section.HeatFlow(35, still)) },
		"Section.HeatFlow, correlated": func() error { return edge.Err(open.HeatFlow(35, windy)) },
		"Section.Lump":                 func() error { return edge.Err(section.Lump(water, 35, still)) },
		"Section.TracePower":           func() error { return edge.Err(section.TracePower(5, 1.5, still)) },
		"HandbookLump": func() error {
			return edge.Err(frost.HandbookLump(water, frost.Shell{Bore: 0.025, Inner: 0.028, Outer: 0.078, Conductivity: 0.036}))
		},
		"Lump.CoolingTime":              func() error { return edge.Err(lump.CoolingTime(35, 0, -10)) },
		"Lump.CoolingTimeThrough":       func() error { return edge.Err(lump.CoolingTimeThrough(35, 5, hourly)) },
		"Lump.Temperature":              func() error { return edge.Err(lump.Temperature(3600, 35, -10)) },
		"Lump.FreezingTime":             func() error { return edge.Err(lump.FreezingTime(0.25, -10)) },
		"Lump.ConstantFlowFreezingTime": func() error { return edge.Err(lump.ConstantFlowFreezingTime(0.25, -10)) },
		"HeatFlow.EndTemperature":       func() error { return edge.Err(flow.EndTemperature(35, 10, 400)) },
		"HeatFlow.Trickle":              func() error { return edge.Err(flow.Trickle(10, 2, 10)) },
		"Column.Empty":                  func() error { return edge.Err(column.Empty(cold)) },
		"Ground.Temperature":            func() error { return edge.Err(ground.Temperature(1, 40)) },
		"Ground.Wave":                   func() error { return edge.Err(ground.Wave(1)) },
		"Chill.Depth":                   func() error { return edge.Err(frost.Chill{Start: 15, Surface: -15, Diffusivity: 1.4e-7}.Depth(0, 5e6)) },
		"MoistSoil":                     func() error { return edge.Err(frost.MoistSoil(1600, 0.15, 1.5)) },
		"Soil.Frost": func() error {
			return edge.Err(soil.Frost(frost.Winter{Index: 4e7, Surface: 0.7, Duration: 1e7, Mean: 8}))
		},
		"Pair.Flow":         func() error { return edge.Err(pair.Flow()) },
		"StefanDepth":       func() error { return edge.Err(frost.StefanDepth(water, -10, 3600)) },
		"NeumannDepth":      func() error { return edge.Err(frost.NeumannDepth(water, -10, 4, 3600)) },
		"NaturalConvection": func() error { return edge.Err(frost.NaturalConvection(1e5, 0.71)) },
		"CrossFlow":         func() error { return edge.Err(frost.CrossFlow(1e4, 0.71)) },
		"Torricelli":        func() error { return edge.Err(frost.Torricelli(frost.Vessel{Area: 1e-3, Kv: 1}, 1, 0.1)) },
		"OrificeKv":         func() error { return edge.Err(frost.OrificeKv(1e-4, 0.6)) },
		"BubbleSpeed":       func() error { return edge.Err(frost.BubbleSpeed(0.025)) },
	}
}

func TestScalarsAllocateNothing(t *testing.T) { scalars(t).AllocateNothing(t) }

func BenchmarkScalars(b *testing.B) { scalars(b).Benchmark(b) }

// It copies the layers, which it varies.
func BenchmarkThicknessForHeatFlow(b *testing.B) {
	s := foamed()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.ThicknessForHeatFlow(1, 35, 8, frost.Air{Temperature: -10}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkResolve(b *testing.B) {
	s := frost.Standing{Section: foamed(), Medium: frost.Water(), Start: 35, Weather: []frost.Air{{Temperature: -10}}, Until: 1e6}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Resolve(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReachEmpty(b *testing.B) {
	r := outdoors()
	p := fluid.Properties{Density: 999.8, DynamicViscosity: 1.7e-3}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Empty(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNight(b *testing.B) {
	n := night()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := n.Run(); err != nil {
			b.Fatal(err)
		}
	}
}

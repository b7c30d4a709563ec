package expansion_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/calls"
	"example.com/hydronics/internal/edge"
)

func scalars(tb testing.TB) calls.List {
	water, tank := fluid.Water(), expansion.Vessel{Nominal: 25 * hydronics.Litre, Precharge: 0.8 * hydronics.Bar}
	system, freezing := house(), house()
	freezing.Coldest = 0 // searches for the least volume of the water
	course, err := system.Course(tank, 1.2*hydronics.Bar)
	if err != nil {
		tb.Fatal(err)
	}
	hot, err := water.At(70)
	if err != nil {
		tb.Fatal(err)
	}
	steam, err := fluid.SteamState(150, 2e5)
	if err != nil {
		tb.Fatal(err)
	}
	demand := expansion.Demand{Expansion: 0.005, Reserve: 0.003, Precharge: 1 * hydronics.Bar, Final: 2.5 * hydronics.Bar}
	section := expansion.Section{Temperature: 20, Pressure: 2e5}
	warming := expansion.Warming{Cold: 15, Hot: 48, ColdDensity: 1000, HotDensity: 990}
	line := expansion.Line{Bore: 0.026, Length: 1.5, Zeta: 1.4, Roughness: 1.5e-6}
	before := expansion.Reading{Pressure: 1.5e5, Temperature: 10}
	after := expansion.Reading{Pressure: 1.4e5, Temperature: 20, Time: 1e5}
	return calls.List{
		"System.Size":               func() error { return edge.Err(system.Size()) },
		"System.Size, down to 0 °C": func() error { return edge.Err(freezing.Size()) },
		"System.Window":             func() error { return edge.Err(system.Window(tank, 20)) },
		"System.Course":             func() error { return edge.Err(system.Course(tank, 1e5)) },
		"System.Leakage":            func() error { return edge.Err(system.Leakage(tank, before, after, expansion.ReadingUncertainty{})) },
		"Course.At":                 func() error { return edge.Err(course.At(45)) },
		"Course.Polytropic":         func() error { return edge.Err(course.Polytropic(45, 1.2)) },
		"Course.Cycle":              func() error { return edge.Err(course.Cycle()) },
		"Course.Drained":            func() error { return edge.Err(course.Drained(1e-3)) },
		"Demand.Nominal":            func() error { return edge.Err(demand.Nominal()) },
		"Demand.PressureIn":         func() error { return edge.Err(demand.PressureIn(0.025)) },
		"Method.Fraction":           func() error { return edge.Err(expansion.EN12828().Expansion.Fraction(water, 10, 70)) },
		"PrechargeAt":               func() error { return edge.Err(expansion.PrechargeAt(1e5, 20, 5, 0)) },
		"Potable.Size":              func() error { return edge.Err(testPot.Size()) },
		"Potable.PressureHot":       func() error { return edge.Err(testPot.PressureHot(expansion.Vessel{Nominal: 0.018, Precharge: 3.8e5})) },
		"Potable.WithoutVessel":     func() error { return edge.Err(testPot.WithoutVessel()) },
		"Valve.Steam":               func() error { return edge.Err(valve().Steam(0, 0)) },
		"Valve.Liquid":              func() error { return edge.Err(valve().Liquid(hot, 0)) },
		"SteamFlux":                 func() error { return edge.Err(expansion.SteamFlux(4e5, 1e5)) },
		"EquilibriumSteamFlux":      func() error { return edge.Err(expansion.EquilibriumSteamFlux(4e5, 0)) },
		"LiquidFlux":                func() error { return edge.Err(expansion.LiquidFlux(4e5, 1e5, 980)) },
		"Gas.Flux": func() error {
			return edge.Err(expansion.Gas{PressureAbs: 4e5, SpecificVolume: 0.46, Exponent: 1.3}.Flux(1e5))
		},
		"Line.Loss":           func() error { return edge.Err(line.Loss(0.01, steam)) },
		"Section.PressureAt":  func() error { return edge.Err(section.PressureAt(30)) },
		"Section.Reaches":     func() error { return edge.Err(section.Reaches(6e5)) },
		"Section.PerKelvin":   func() error { return edge.Err(section.PerKelvin()) },
		"WarmingOf":           func() error { return edge.Err(expansion.WarmingOf(water, 15, 48)) },
		"Warming.Coefficient": func() error { return edge.Err(warming.Coefficient()) },
		"Warming.Relief":      func() error { return edge.Err(warming.Relief(1e3, 4200)) },
		"FillingKit.Time":     func() error { return edge.Err(expansion.FillingKit{Kv: 1, Supply: 4e5}.Time(0.3, 1e5)) },
	}
}

func TestScalarsAllocateNothing(t *testing.T) { scalars(t).AllocateNothing(t) }

func BenchmarkScalars(b *testing.B) { scalars(b).Benchmark(b) }

func BenchmarkJudge(b *testing.B) {
	s, tank := house(), expansion.Vessel{Nominal: 25 * hydronics.Litre, Precharge: 0.8 * hydronics.Bar}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Judge(tank, 1.2*hydronics.Bar); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkProtectionJudge(b *testing.B) {
	p := protection()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Judge(); err != nil {
			b.Fatal(err)
		}
	}
}

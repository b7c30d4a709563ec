package fluid

import (
	"testing"

	"example.com/hydronics/internal/calls"
	"example.com/hydronics/internal/edge"
)

func scalars(tb testing.TB) calls.List {
	need := func(l Liquid, err error) Liquid {
		if err != nil {
			tb.Fatal(err)
		}
		return l
	}
	water := Water()
	weak, strong := need(PropyleneGlycol.ByMass(0.2)), need(PropyleneGlycol.ByMass(0.35))
	pure := Concentrate{PropyleneGlycol, 1, 1036}
	cold, hot := Place{10, 3e5}, Place{70, 2e5}
	return calls.List{
		"WaterAt":                      func() error { return edge.Err(WaterAt(2e5)) },
		"Liquid.At, water":             func() error { return edge.Err(water.At(40)) },
		"Liquid.Density, water":        func() error { return edge.Err(water.Density(40)) },
		"Liquid.At, solution":          func() error { return edge.Err(weak.At(40)) },
		"Liquid.Density, solution":     func() error { return edge.Err(weak.Density(40)) },
		"Liquid.VolumeFraction":        func() error { return edge.Err(weak.VolumeFraction()) },
		"Liquid.MixtureVolumeFraction": func() error { return edge.Err(weak.MixtureVolumeFraction()) },
		"Liquid.RefractiveIndex":       func() error { return edge.Err(weak.RefractiveIndex(20)) },
		"Liquid.IceFraction":           func() error { return edge.Err(weak.IceFraction(-20)) },
		"Liquid.Uncertainty":           func() error { return edge.Err(weak.Uncertainty()) },
		"Solute.ByMass":                func() error { return edge.Err(PropyleneGlycol.ByMass(0.3)) },
		"Solute.ByVolume":              func() error { return edge.Err(EthyleneGlycol.ByVolume(0.3)) },
		"Solute.ByMixtureVolume":       func() error { return edge.Err(EthyleneGlycol.ByMixtureVolume(0.3)) },
		"Solute.ByFreezingPoint":       func() error { return edge.Err(EthyleneGlycol.ByFreezingPoint(-12)) },
		"Solute.ByBurstProtection":     func() error { return edge.Err(PropyleneGlycol.ByBurstProtection(-20)) },
		"Solute.ByDensity":             func() error { return edge.Err(EthyleneGlycol.ByDensity(1040, 20)) },
		"Solute.ByRefractiveIndex":     func() error { return edge.Err(EthyleneGlycol.ByRefractiveIndex(1.36, 20)) },
		"Solute.ByBrix":                func() error { return edge.Err(EthyleneGlycol.ByBrix(20)) },
		"Solute.Concentrate":           func() error { return edge.Err(EthyleneGlycol.Concentrate()) },
		"Brix":                         func() error { return edge.Err(Brix(1.36)) },
		"BrixIndex":                    func() error { return edge.Err(BrixIndex(20)) },
		"NewFill":                      func() error { return edge.Err(NewFill(0.2, weak, pure)) },
		"Dosing.Replace":               func() error { return edge.Err(Dosing{0.2, weak, strong, pure}.Replace()) },
		"Dosing.TopUp":                 func() error { return edge.Err(Dosing{0.2, weak, strong, pure}.TopUp()) },
		"WaterState":                   func() error { return edge.Err(WaterState(40, 2e5)) },
		"SteamState":                   func() error { return edge.Err(SteamState(140, 2e5)) },
		"WaterTemperature":             func() error { return edge.Err(WaterTemperature(3e5, 2e5)) },
		"Boiling":                      func() error { return edge.Err(Boiling(110)) },
		"SaturationPressure":           func() error { return edge.Err(SaturationPressure(40)) },
		"SaturationTemperature":        func() error { return edge.Err(SaturationTemperature(2e5)) },
		"SurfaceTension":               func() error { return edge.Err(SurfaceTension(40)) },
		"WaterViscosity":               func() error { return edge.Err(WaterViscosity(40, 990)) },
		"WaterConductivity":            func() error { return edge.Err(WaterConductivity(40, 990)) },
		"IceState":                     func() error { return edge.Err(IceState(-5, 1e5)) },
		"MeltingPressure":              func() error { return edge.Err(MeltingPressure(-5)) },
		"MeltingTemperature":           func() error { return edge.Err(MeltingTemperature(1e7)) },
		"DissolvedAir":                 func() error { return edge.Err(DissolvedAir(20, 2e5)) },
		"ReleasedAir":                  func() error { return edge.Err(ReleasedAir(cold, hot)) },
		"Gas.Released":                 func() error { return edge.Err(Nitrogen.Released(cold, hot)) },
		"Gas.Dissolved":                func() error { return edge.Err(Nitrogen.Dissolved(20, 1e5)) },
		"Gas.HenryConstant":            func() error { return edge.Err(Nitrogen.HenryConstant(20)) },
		"OxygenInFreshWater":           func() error { return edge.Err(OxygenInFreshWater(15)) },
		"DryAir":                       func() error { return edge.Err(DryAir(20, 1e5)) },
		"VapourPressure":               func() error { return edge.Err(VapourPressure(20)) },
		"DewPoint":                     func() error { return edge.Err(DewPoint(20, 0.5)) },
		"AtmosphericPressure":          func() error { return edge.Err(AtmosphericPressure(500)) },
		"LimeDeposit":                  func() error { return edge.Err(LimeDeposit(1, 1)) },
		"HardnessRule.Limit": func() error {
			return edge.Err(VDI2035In2005.Limit(FillWater{2, 12e3, 12e3, 0.001, 0.2, 0.4}))
		},
	}
}

func TestScalarsAllocateNothing(t *testing.T) { scalars(t).AllocateNothing(t) }

func BenchmarkScalars(b *testing.B) { scalars(b).Benchmark(b) }

var sinkFloat float64

// Density and specific heat alone cost a part of all derivatives together.
func BenchmarkRegion1(b *testing.B) {
	tau := func(i int) float64 { return temperatureScale1 / (293.15 + float64(i&31)) }
	b.Run("density", func(b *testing.B) {
		for i := range b.N {
			sinkFloat = volume1(0.02, tau(i))
		}
	})
	b.Run("specific heat", func(b *testing.B) {
		for i := range b.N {
			sinkFloat = heat1(0.02, tau(i))
		}
	})
	b.Run("all derivatives", func(b *testing.B) {
		for i := range b.N {
			sinkFloat = gibbs1(0.02, tau(i)).pt
		}
	})
}

package fluid

import "testing"

var (
	sinkProperties Properties
	sinkState      State
	sinkFloat      float64
)

// Scalar calculations allocate nothing.
func TestAllocations(t *testing.T) {
	water := Water()
	for name, f := range map[string]func(){
		"Water":                 func() { water = Water() },
		"WaterAt":               func() { water, _ = WaterAt(2e5) },
		"Density":               func() { sinkFloat, _ = water.Density(40) },
		"At":                    func() { sinkProperties, _ = water.At(40) },
		"WaterState":            func() { sinkState, _ = WaterState(40, 2e5) },
		"SteamState":            func() { sinkState, _ = SteamState(140, 2e5) },
		"WaterTemperature":      func() { sinkFloat, _ = WaterTemperature(3e5, 2e5) },
		"SaturationPressure":    func() { sinkFloat, _ = SaturationPressure(40) },
		"SaturationTemperature": func() { sinkFloat, _ = SaturationTemperature(2e5) },
		"SurfaceTension":        func() { sinkFloat, _ = SurfaceTension(40) },
		"WaterViscosity":        func() { sinkFloat, _ = WaterViscosity(40, 990) },
		"WaterConductivity":     func() { sinkFloat, _ = WaterConductivity(40, 990) },
		"Boiling": func() {
			s, _ := Boiling(110)
			sinkFloat = s.LatentHeat
		},
		"solution": func() {
			l, _ := PropyleneGlycol.ByMass(0.3)
			sinkProperties, _ = l.At(5)
		},
		"solution by volume": func() {
			l, _ := EthyleneGlycol.ByVolume(0.3)
			sinkFloat, _ = l.Density(5)
		},
		"solution by mixture volume": func() {
			l, _ := EthyleneGlycol.ByMixtureVolume(0.3)
			sinkFloat, _ = l.MixtureVolumeFraction()
		},
		"IceState": func() {
			s, _ := IceState(-5, 1e5)
			sinkFloat = s.Density
		},
		"Freezing":           func() { sinkFloat = Freezing().Heat },
		"MeltingPressure":    func() { sinkFloat, _ = MeltingPressure(-5) },
		"MeltingTemperature": func() { sinkFloat, _ = MeltingTemperature(1e7) },
		"solution by density": func() {
			l, _ := EthyleneGlycol.ByDensity(1040, 20)
			sinkFloat = l.MassFraction()
		},
		"solution by refractive index": func() {
			l, _ := EthyleneGlycol.ByRefractiveIndex(1.36, 20)
			sinkFloat, _ = l.RefractiveIndex(20)
		},
		"solution by Brix": func() {
			l, _ := EthyleneGlycol.ByBrix(20)
			sinkFloat, _ = Brix(1.36)
			sinkFloat += l.MassFraction()
		},
		"slush": func() {
			l, _ := PropyleneGlycol.ByBurstProtection(-20)
			sinkFloat, _ = l.IceFraction(-20)
		},
		"Uncertainty": func() {
			u, _ := water.Uncertainty()
			sinkFloat = u.Density
		},
		"gas": func() {
			a, _ := DissolvedAir(20, 2e5)
			sinkFloat, _ = ReleasedAir(Place{10, 3e5}, Place{70, 2e5})
			sinkFloat += a.Volume
		},
		"one gas":  func() { sinkFloat, _ = Nitrogen.Released(Place{10, 3e5}, Place{70, 2e5}) },
		"oxygen":   func() { sinkFloat, _ = OxygenInFreshWater(15) },
		"DryAir":   func() { sinkProperties, _ = DryAir(20, 1e5) },
		"DewPoint": func() { sinkFloat, _ = DewPoint(20, 0.5) },
		"VapourPressure, AtmosphericPressure": func() {
			sinkFloat, _ = VapourPressure(20)
			sinkFloat, _ = AtmosphericPressure(500)
		},
		"LimeDeposit": func() { sinkFloat, _ = LimeDeposit(1, 1) },
		"HardnessRule.Limit": func() {
			l, _ := VDI2035In2005.Limit(FillWater{2, 12e3, 12e3, 0.001, 0.2, 0.4})
			sinkFloat = l.Hardness
		},
		"solution by freezing point": func() {
			l, _ := EthyleneGlycol.ByFreezingPoint(-12)
			sinkFloat = l.FreezingPoint()
		},
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}

func BenchmarkWaterDensity(b *testing.B) {
	w := Water()
	for i := range b.N {
		sinkFloat, _ = w.Density(20 + float64(i&31))
	}
}

func BenchmarkWaterAt(b *testing.B) {
	w := Water()
	for i := range b.N {
		sinkProperties, _ = w.At(20 + float64(i&31))
	}
}

func BenchmarkWaterState(b *testing.B) {
	for i := range b.N {
		sinkState, _ = WaterState(20+float64(i&31), 2e5)
	}
}

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

func BenchmarkSteamState(b *testing.B) {
	for i := range b.N {
		sinkState, _ = SteamState(140+float64(i&31), 2e5)
	}
}

func BenchmarkWaterTemperature(b *testing.B) {
	for i := range b.N {
		sinkFloat, _ = WaterTemperature(2e5, 1e5+1e3*float64(i&31))
	}
}

func BenchmarkSolutionAt(b *testing.B) {
	l, _ := PropyleneGlycol.ByMass(0.3)
	for i := range b.N {
		sinkProperties, _ = l.At(20 + float64(i&31))
	}
}

func BenchmarkSolutionByMassAt(b *testing.B) {
	for i := range b.N {
		l, _ := PropyleneGlycol.ByMass(0.3 + float64(i&31)/1000)
		sinkProperties, _ = l.At(20 + float64(i&31))
	}
}

func BenchmarkByFreezingPoint(b *testing.B) {
	for i := range b.N {
		l, _ := PropyleneGlycol.ByFreezingPoint(-10 - float64(i&15))
		sinkFloat = l.MassFraction()
	}
}

func BenchmarkIceState(b *testing.B) {
	for i := range b.N {
		s, _ := IceState(-float64(i&31), 1e5)
		sinkFloat = s.Density
	}
}

func BenchmarkDissolvedAir(b *testing.B) {
	for i := range b.N {
		a, _ := DissolvedAir(20+float64(i&31), 2e5)
		sinkFloat = a.Volume
	}
}

func BenchmarkDryAir(b *testing.B) {
	for i := range b.N {
		sinkProperties, _ = DryAir(float64(i&31), 1e5)
	}
}

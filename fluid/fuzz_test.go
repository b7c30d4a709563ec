package fluid

import (
	"math"
	"testing"
)

// finiteOrError checks the rule of the house: finite exactly when err is nil.
func finiteOrError(t *testing.T, what string, err error, values ...float64) {
	t.Helper()
	for _, v := range values {
		if finite := !math.IsNaN(v) && !math.IsInf(v, 0); finite != (err == nil) {
			t.Errorf("%s: %v with error %v", what, v, err)
		}
	}
}

func FuzzWater(f *testing.F) {
	f.Add(20.0, 3e5)
	f.Add(99.97, 101325.0)
	f.Add(350.0, 1e8)
	f.Add(math.NaN(), math.Inf(1))
	f.Add(373.946, 22.064e6)
	f.Fuzz(func(t *testing.T, temp, p float64) {
		for _, call := range []struct {
			name string
			f    func(t, p float64) (State, error)
		}{{"WaterState", WaterState}, {"SteamState", SteamState}} {
			s, err := call.f(temp, p)
			if err != nil {
				if s != (State{}) {
					t.Errorf("%s: state with an error", call.name)
				}
				continue
			}
			finiteOrError(t, call.name, err, s.Density, s.InternalEnergy, s.Enthalpy, s.Entropy, s.SpecificHeat,
				s.SpecificHeatVolume, s.SpeedOfSound, s.Expansion, s.Compressibility, s.Conductivity, s.DynamicViscosity)
		}
		if l, err := WaterAt(p); err == nil {
			liquid(t, l, temp)
		}
		if s, err := Boiling(temp); err == nil {
			finiteOrError(t, "Boiling", err, s.PressureAbs, s.LatentHeat, s.Liquid.Conductivity, s.Steam.Conductivity)
		}
		v, err := SaturationPressure(temp)
		finiteOrError(t, "SaturationPressure", err, v)
		v, err = SaturationTemperature(p)
		finiteOrError(t, "SaturationTemperature", err, v)
		v, err = SurfaceTension(temp)
		finiteOrError(t, "SurfaceTension", err, v)
	})
}

func liquid(t *testing.T, l Liquid, temp float64) {
	t.Helper()
	p, err := l.At(temp)
	if err == nil {
		finiteOrError(t, "At", err, p.Density, p.SpecificHeat, p.Conductivity, p.DynamicViscosity, p.Prandtl())
		for _, v := range []float64{p.Density, p.SpecificHeat, p.Conductivity, p.DynamicViscosity} {
			if v <= 0 {
				t.Errorf("%v at %v °C: %+v", l, temp, p)
			}
		}
	}
	v, err := l.Density(temp)
	finiteOrError(t, "Density", err, v)
}

func FuzzTransport(f *testing.F) {
	f.Add(25.0, 998.0)
	f.Add(900.0, 0.0)
	f.Fuzz(func(t *testing.T, temp, density float64) {
		v, err := WaterViscosity(temp, density)
		finiteOrError(t, "WaterViscosity", err, v)
		v, err = WaterConductivity(temp, density)
		finiteOrError(t, "WaterConductivity", err, v)
	})
}

func FuzzWaterTemperature(f *testing.F) {
	f.Add(3e6, 5e5)
	f.Add(1e8, 1.5e6)
	f.Fuzz(func(t *testing.T, p, enthalpy float64) {
		v, err := WaterTemperature(p, enthalpy)
		finiteOrError(t, "WaterTemperature", err, v)
	})
}

func FuzzSolution(f *testing.F) {
	f.Add(uint8(1), 0.3, 20.0)
	f.Add(uint8(5), 0.6, -70.0)
	f.Add(uint8(200), math.NaN(), math.Inf(-1))
	f.Fuzz(func(t *testing.T, solute uint8, fraction, temp float64) {
		s := Solute(solute)
		for _, make := range []func(float64) (Liquid, error){s.ByMass, s.ByVolume, s.ByMixtureVolume} {
			l, err := make(fraction)
			if err != nil {
				if l != (Liquid{}) {
					t.Errorf("%v %v: liquid with an error", s, fraction)
				}
				continue
			}
			liquid(t, l, temp)
			finiteOrError(t, "FreezingPoint", err, l.FreezingPoint(), l.MassFraction())
			v, err := l.VolumeFraction()
			finiteOrError(t, "VolumeFraction", err, v)
			v, err = l.MixtureVolumeFraction()
			finiteOrError(t, "MixtureVolumeFraction", err, v)
		}
		if l, err := s.ByFreezingPoint(temp); err == nil && !(l.FreezingPoint() <= temp+1e-6) {
			t.Errorf("%v made for %v °C freezes at %v", s, temp, l.FreezingPoint())
		}
	})
}

func FuzzIce(f *testing.F) {
	f.Add(-5.0, 1e5)
	f.Add(-273.15, 0.0)
	f.Add(0.01, 210e6)
	f.Fuzz(func(t *testing.T, temp, p float64) {
		s, err := IceState(temp, p)
		if err == nil {
			finiteOrError(t, "IceState", err, s.Density, s.Enthalpy, s.Entropy, s.SpecificHeat, s.Expansion, s.Compressibility)
		}
		v, err := MeltingPressure(temp)
		finiteOrError(t, "MeltingPressure", err, v)
		v, err = MeltingTemperature(p)
		finiteOrError(t, "MeltingTemperature", err, v)
	})
}

func FuzzSample(f *testing.F) {
	f.Add(uint8(1), 1030.0, 20.0)
	f.Add(uint8(2), 1.37, 25.0)
	f.Add(uint8(4), 25.0, math.NaN())
	f.Fuzz(func(t *testing.T, solute uint8, reading, temp float64) {
		s := Solute(solute)
		l, err := s.ByDensity(reading, temp)
		consistent(t, "ByDensity", l, err)
		l, err = s.ByRefractiveIndex(reading, temp)
		consistent(t, "ByRefractiveIndex", l, err)
		l, err = s.ByBrix(reading)
		consistent(t, "ByBrix", l, err)
		l, err = s.ByBurstProtection(temp)
		consistent(t, "ByBurstProtection", l, err)
		v, err := Brix(reading)
		finiteOrError(t, "Brix", err, v)
		v, err = BrixIndex(reading)
		finiteOrError(t, "BrixIndex", err, v)
	})
}

// consistent checks that a liquid comes exactly without an error, and uses it.
func consistent(t *testing.T, what string, l Liquid, err error) {
	t.Helper()
	if (err == nil) != (l != Liquid{}) {
		t.Errorf("%s: %v with error %v", what, l, err)
	}
	v, err := l.RefractiveIndex(20)
	finiteOrError(t, "RefractiveIndex", err, v)
	u, err := l.Uncertainty()
	if (err == nil) != (u.Density > 0) {
		t.Errorf("uncertainty %v with error %v", u, err)
	}
}

func FuzzDosing(f *testing.F) {
	f.Add(uint8(1), 0.2, 0.1, 0.3, 1.0, 1036.0)
	f.Add(uint8(2), 0.2, 0.3, 0.1, 0.0, 998.0)
	f.Fuzz(func(t *testing.T, solute uint8, content, from, to, concentrate, density float64) {
		s := Solute(solute)
		a, _ := s.ByMass(from)
		b, _ := s.ByMass(to)
		d := Dosing{content, a, b, Concentrate{s, concentrate, density}}
		for name, f := range map[string]func() (Dose, error){
			"Replace": d.Replace, "TopUp": d.TopUp,
			"NewFill": func() (Dose, error) { return NewFill(content, b, d.Concentrate) },
		} {
			got, err := f()
			if err != nil {
				if got != (Dose{}) {
					t.Errorf("%s: dose with an error", name)
				}
				continue
			}
			finiteOrError(t, name, err, got.Drain, got.Concentrate, got.Water, got.ConcentrateMass, got.Content)
		}
	})
}

func FuzzIceFraction(f *testing.F) {
	f.Add(uint8(1), 0.2, -20.0)
	f.Add(uint8(0), 0.0, -1.0)
	f.Fuzz(func(t *testing.T, solute uint8, w, temp float64) {
		l, err := Solute(solute).ByMass(w)
		if err != nil {
			l = Water()
		}
		v, err := l.IceFraction(temp)
		finiteOrError(t, "IceFraction", err, v)
		if err == nil && (v < 0 || v > 1) {
			t.Errorf("%v at %v °C: %v of ice", l, temp, v)
		}
	})
}

func FuzzGas(f *testing.F) {
	f.Add(uint8(1), 20.0, 1e5, 70.0, 2e5)
	f.Add(uint8(0), math.NaN(), 1e5, 4.0, 0.0)
	f.Fuzz(func(t *testing.T, gas uint8, t1, p1, t2, p2 float64) {
		g := Gas(gas)
		v, err := g.HenryConstant(t1)
		finiteOrError(t, "HenryConstant", err, v)
		d, err := g.Dissolved(t1, p1)
		if err == nil {
			finiteOrError(t, "Dissolved", err, d.MoleFraction, d.Amount, d.Mass, d.Volume)
		}
		a, err := DissolvedAir(t1, p1)
		if err == nil {
			finiteOrError(t, "DissolvedAir", err, a.Volume)
		}
		v, err = ReleasedAir(Place{t1, p1}, Place{t2, p2})
		finiteOrError(t, "ReleasedAir", err, v)
		v, err = g.Released(Place{t1, p1}, Place{t2, p2})
		finiteOrError(t, "Released", err, v)
		v, err = OxygenInFreshWater(t1)
		finiteOrError(t, "OxygenInFreshWater", err, v)
	})
}

func FuzzAir(f *testing.F) {
	f.Add(20.0, 101325.0, 0.5)
	f.Add(0.01, 50e3, 1.0)
	f.Fuzz(func(t *testing.T, temp, p, humidity float64) {
		s, err := DryAir(temp, p)
		if err == nil {
			finiteOrError(t, "DryAir", err, s.Density, s.SpecificHeat, s.Conductivity, s.DynamicViscosity)
		}
		v, err := VapourPressure(temp)
		finiteOrError(t, "VapourPressure", err, v)
		v, err = DewPoint(temp, humidity)
		finiteOrError(t, "DewPoint", err, v)
		v, err = AtmosphericPressure(p)
		finiteOrError(t, "AtmosphericPressure", err, v)
	})
}

func FuzzFillWater(f *testing.F) {
	f.Add(uint8(1), 2.0, 12e3, 12e3, 0.002, 0.2, 0.5)
	f.Add(uint8(2), 2.0, 300e3, 100e3, 0.5, 20.0, 50.0)
	f.Fuzz(func(t *testing.T, rule uint8, hardness, output, smallest, generator, content, makeup float64) {
		w := FillWater{hardness, output, smallest, generator, content, makeup}
		limit, err := HardnessRule(rule).Limit(w)
		finiteOrError(t, "Limit", nil, limit.Hardness)
		if err == nil && limit.None == (limit.Hardness > 0) {
			t.Errorf("%+v: %+v", w, limit)
		}
		findings, err := HardnessRule(rule).Judge(w)
		if (err == nil) != (len(findings) == 2) {
			t.Errorf("%+v: %v findings with error %v", w, len(findings), err)
		}
		v, err := LimeDeposit(makeup, hardness)
		finiteOrError(t, "LimeDeposit", err, v)
	})
}

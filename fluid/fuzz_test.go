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

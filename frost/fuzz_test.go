package frost_test

import (
	"math"
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
)

func finite(t *testing.T, err error, values ...float64) {
	t.Helper()
	for _, v := range values {
		if bad := math.IsNaN(v) || math.IsInf(v, 0); bad && err == nil {
			t.Fatalf("%g without an error", v)
		}
	}
}

func FuzzHeatFlow(f *testing.F) {
	f.Add(0.025, 0.025, 0.036, 0.0001, 0.9, 35.0, -10.0, 3.0, 200.0, uint8(1))
	f.Add(0.02, 1e-5, 500.0, -0.1, 0.0, -60.0, 60.0, 0.0, 0.0, uint8(2))
	f.Fuzz(func(t *testing.T, bore, thick, lambda, slope, eps, inside, outdoor, wind, sky float64, method uint8) {
		s := frost.Section{Bore: bore, Layers: []frost.Layer{{Thickness: thick, Conductivity: lambda, Slope: slope}},
			Surface: frost.Surface{Method: frost.Method(method), Emissivity: eps}}
		if method == 0 {
			s.Surface.Coefficient = 10 * eps
		}
		h, err := s.HeatFlow(inside, frost.Air{Temperature: outdoor, Wind: wind, Infrared: sky})
		finite(t, err, h.PerMetre, h.Surface, h.Convective, h.Radiative, h.Ambient, h.Resistance)
		if err != nil && h != (frost.HeatFlow{}) {
			t.Fatal("a result beside an error")
		}
	})
}

func FuzzLump(f *testing.F) {
	f.Add(0.025, 2.0, 2000.0, 35.0, 0.0, -10.0, 0.25)
	f.Add(1.0, 1e4, 1e8, 150.0, -90.0, -90.0, 1.0)
	f.Fuzz(func(t *testing.T, bore, r, c, start, target, ambient, fraction float64) {
		l := frost.Lump{Bore: bore, Resistance: r, Capacity: c, Medium: frost.Water()}
		cool, err := l.CoolingTime(start, target, ambient)
		finite(t, err, cool.Seconds)
		through, err := l.CoolingTimeThrough(start, target, []float64{ambient, -ambient, target, start})
		finite(t, err, through.Seconds)
		freeze, err := l.FreezingTime(fraction, ambient)
		finite(t, err, freeze.Seconds)
		flat, err := l.ConstantFlowFreezingTime(fraction, ambient)
		finite(t, err, flat.Seconds)
		at, err := l.Temperature(cool.Seconds, start, ambient)
		finite(t, err, at)
	})
}

func FuzzColumn(f *testing.F) {
	f.Add(0.026, 1.5, 1.5, 1.5, 6.0, 0.06, 0.02)
	f.Add(0.02, 1e-3, 1.0, 0.0, 1.0, 1e-9, 1e-9)
	f.Fuzz(func(t *testing.T, bore, kv, length1, rise1, length2, rise2, final float64) {
		c := frost.Column{Bore: bore, Roughness: 1e-6, Kv: kv, Final: final,
			Legs: []frost.Leg{{Length: length1, Rise: rise1}, {Length: length2, Rise: rise2}}}
		e, err := c.Empty(fluid.Properties{Density: 999.8, DynamicViscosity: 1.79e-3})
		finite(t, err, e.Time, e.Volume, e.Flow, e.Head, e.Remains)
		free, err := frost.Torricelli(frost.Vessel{Area: bore, Kv: kv}, rise1, final)
		finite(t, err, free)
	})
}

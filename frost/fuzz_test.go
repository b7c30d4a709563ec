package frost_test

import (
	"math"
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
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
		c := frost.Column{Bore: bore, Roughness: 1e-6, Kv: pipe.Kv(kv), Final: final,
			Legs: []frost.Leg{{Length: length1, Rise: rise1}, {Length: length2, Rise: rise2}}}
		e, err := c.Empty(fluid.Properties{Density: 999.8, DynamicViscosity: 1.79e-3})
		finite(t, err, e.Time, e.Volume, e.Flow, e.Head, e.Remains)
		free, err := frost.Torricelli(frost.Vessel{Area: bore, Kv: pipe.Kv(kv)}, rise1, final)
		finite(t, err, free)
	})
}

func FuzzResolve(f *testing.F) {
	f.Add(0.025, 0.025, 0.036, 35.0, -10.0, 5.0, -3.0, false, true)
	f.Add(0.001, 1e-5, 400.0, 1e-9, -90.0, 0.0, -15.0, true, false)
	f.Fuzz(func(t *testing.T, bore, thick, lambda, start, outdoor, later, nucleation float64, mixed, flowing bool) {
		s := frost.Standing{
			Section: frost.Section{Bore: bore, Layers: []frost.Layer{{Thickness: thick, Conductivity: lambda, HeatCapacity: 1e5}}, Surface: frost.InTheOpen()},
			Medium:  frost.Water(), Mixed: mixed, Start: start, Flowing: flowing, Nucleation: nucleation, Cells: 4,
			Weather: []frost.Air{{Temperature: outdoor}, {Temperature: later, Wind: 2}, {Temperature: outdoor}}, Until: 2e5,
		}
		h, err := s.Resolve()
		if err != nil {
			return
		}
		finite(t, nil, h.FirstIce.Seconds, h.ReachedZero.Seconds, h.Closed.Seconds, h.HeatLost, h.HeatGone, h.Dendrites)
		scale := math.Abs(h.HeatLost) + 1e-6*bore*bore*4e8
		if math.Abs(h.HeatLost-h.HeatGone) > 1e-9*scale {
			t.Fatalf("lost %g, gone %g", h.HeatLost, h.HeatGone)
		}
		last := frost.State{Time: -1}
		for _, s := range h.States {
			finite(t, nil, s.Centre, s.Mean, s.Wall, s.Surface, s.Ice, s.Flow, s.Outdoor)
			if s.Time <= last.Time || s.Ice < 0 || s.Ice > 1 {
				t.Fatalf("%+v after %+v", s, last)
			}
			last = s
		}
	})
}

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
	f.Add(0.025, 0.025, 0.036, 35.0, -10.0, 5.0, -3.0, false, true, uint8(1))
	f.Add(0.001, 1e-5, 400.0, 1e-9, -90.0, 0.0, -15.0, true, false, uint8(1))
	f.Add(0.01, 0.0015, 380.0, 10.0, 2.0, 2.0, 0.0, true, true, uint8(2))
	f.Add(0.2, 0.0, 0.0, 1.0, -20.0, -20.0, 0.0, false, false, uint8(4))
	f.Fuzz(func(t *testing.T, bore, thick, lambda, start, outdoor, later, nucleation float64, mixed, flowing bool, kind uint8) {
		section := frost.Section{Bore: bore, Layers: []frost.Layer{{Thickness: thick, Conductivity: lambda, HeatCapacity: 1e5}}}
		switch kind % 4 {
		case 0:
			section.Surface.Coefficient = 50
		case 1:
			section.Surface = frost.InTheOpen()
		case 2:
			section.Surface.Method = frost.ISO12241 // gives off nothing in still air as warm as itself
		default:
			section.Surface.Method = frost.GB50264
		}
		if kind&4 != 0 {
			section.Layers, thick = nil, 0
		}
		s := frost.Standing{
			Section: section,
			Medium:  frost.Water(), Mixed: mixed, Start: start, Flowing: flowing, Nucleation: nucleation, Cells: 4,
			Weather: []frost.Air{{Temperature: outdoor}, {Temperature: later, Wind: 2}, {Temperature: outdoor}}, Until: 2e5,
		}
		h, err := s.Resolve()
		if err != nil {
			return
		}
		finite(t, nil, h.FirstIce.Seconds, h.ReachedZero.Seconds, h.Closed.Seconds, h.HeatLost, h.HeatGone, h.Dendrites)
		// The night may warm what it cooled: both figures are then small differences
		// of the heat held by water (with its latent heat), wall and insulation, and
		// carry its rounding, 1.1e-16 of it a step, over some hundred steps: 2e-14 of it
		// was met where the cold hour is forgotten in the end.
		hottest := max(math.Abs(start), math.Abs(outdoor), math.Abs(later))
		content := bore*bore*4e8 + 1e5*math.Pi*thick*(bore+thick)*hottest
		scale := math.Abs(h.HeatLost) + 1e-4*content
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

// route turns bytes into a chain of points, each a step on from the last.
func route(steps []byte) pipe.Route {
	r := pipe.Route{{}}
	for i := 0; i+1 < len(steps) && len(r) < 12; i += 2 {
		last := r[len(r)-1]
		r = append(r, pipe.Point{X: last.X + float64(steps[i]%8)/4, Z: last.Z + float64(int8(steps[i+1]))/64, Outdoors: steps[i] > 127})
	}
	return r
}

func FuzzReach(f *testing.F) {
	f.Add([]byte{1, 200, 2, 50, 3, 10, 0, 90}, uint8(1), uint8(0), 0.025, 1.0, true)
	f.Add([]byte{1, 10, 2, 246, 3, 10, 4, 246}, uint8(2), uint8(1), 0.004, 0.01, false)
	f.Fuzz(func(t *testing.T, steps []byte, drain, vent uint8, bore, kv float64, air bool) {
		r := frost.Reach{Route: route(steps), Bore: bore, Drains: []frost.Drain{{Point: int(drain), Kv: pipe.Kv(kv), AdmitsAir: air}}, Vents: []int{int(vent)}}
		d, err := r.Empty(fluid.Properties{Density: 999.8, DynamicViscosity: 1.7e-3})
		finite(t, err, d.Time, d.Volume, d.Flow, d.Trapped, d.Held, d.Remains)
		if err != nil {
			return
		}
		if math.Abs(d.Volume+d.Remains-d.Content) > 1e-9*d.Content || d.Volume < 0 {
			t.Fatalf("%g leave and %g remain of %g", d.Volume, d.Remains, d.Content)
		}
		if _, err := (frost.Arrangement{Liquid: fluid.Water(), Reaches: []frost.Reach{r}}).Findings(frost.CommonRules()); err != nil {
			t.Fatal(err)
		}
	})
}

func FuzzNight(f *testing.F) {
	f.Add(0.025, 0.02, 30.0, -12.0, 3.0, 3600.0, 3.0, 1.0, 0.5, false)
	f.Add(0.01, 1e-5, 0.1, -40.0, 0.0, 0.0, 0.0, 5.0, 0.01, false)
	f.Add(0.2, 1e-5, 2.0, -30.0, 2.0, 0.0, 3.0, 1.0, 1.0, true)
	f.Fuzz(func(t *testing.T, bore, foam, start, cold, wind, cut, opens, tolerance, lift float64, bare bool) {
		n := night()
		n.Section.Bore, n.Section.Layers[1].Thickness = bore, foam
		n.Section.Surface = frost.InTheOpen()
		if bare {
			n.Section.Layers = nil
		}
		n.Start, n.Cut, n.Weather = start, cut, []frost.Air{{Temperature: cold, Wind: wind}}
		n.Setting = frost.DrainSetting{Opens: opens, Tolerance: tolerance, Lift: lift}
		o, err := n.Run()
		finite(t, err, o.EarliestIce.Seconds, o.LatestOpening.Seconds, o.Emptying, o.Margin, o.Coldest)
		if err == nil && o.NoIce && o.Coldest < 0 {
			t.Fatalf("no ice, but water of %g °C", o.Coldest)
		}
	})
}

func FuzzGround(f *testing.F) {
	f.Add(9.0, 11.0, 25.0, 6e-7, 0.8, 45.0, 1600.0, 0.1, 1.7, 2e7, 5.0)
	f.Fuzz(func(t *testing.T, mean, amplitude, coldest, a, depth, day, density, water, lambda, index, other float64) {
		g := frost.Ground{Mean: mean, Amplitude: amplitude, ColdestDay: coldest, Diffusivity: a}
		x, err := g.Temperature(depth, day)
		finite(t, err, x)
		w, err := g.Wave(depth)
		finite(t, err, w.Amplitude, w.Lag, w.Minimum)
		x, err = frost.Chill{Start: mean, Surface: other, Diffusivity: a}.Depth(amplitude, index)
		finite(t, err, x)
		soil, err := frost.MoistSoil(density, water, lambda)
		if err == nil {
			p, err := soil.Frost(frost.Winter{Index: index, Surface: 0.7, Duration: 90 * 86400, Mean: mean})
			finite(t, err, p.Depth, p.Stefan, p.Lambda, p.Mu, p.Alpha, p.Closed)
		}
		q, err := frost.Pair{Depth: depth, Spacing: other, Conductivity: lambda, Diameter: [2]float64{0.1, 0.2}, Water: [2]float64{mean, other}}.Flow()
		finite(t, err, q[0], q[1])
		x, err = frost.NeumannDepth(frost.Water(), -other, mean, index)
		finite(t, err, x)
	})
}

package expansion_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
)

// finite reports whether every number is one.
func finite(numbers ...float64) bool {
	for _, v := range numbers {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func FuzzSystem(f *testing.F) {
	f.Add(0.3, 10.0, 5.0, 70.0, 6.0, 3e5, 0.025, 0.8e5, 1.2e5, 40.0)
	f.Add(0.3, 10.0, -5.0, 70.0, 6.0, 3e5, 0.025, 0.8e5, 1.2e5, 40.0)
	f.Add(math.NaN(), 1e9, 5.0, math.Inf(1), 6.0, 3e5, 0.002, 0.0, 1.2e5, 40.0)
	f.Add(20.0, 0.0, 0.0, 130.0, 100.0, 16e5, 0.0005, 15e5, 0.0, 130.0)
	f.Fuzz(func(t *testing.T, content, fill, coldest, hottest, head, set, nominal, precharge, filling, at float64) {
		s := expansion.System{Liquid: fluid.Water(), Content: content, FillTemperature: fill, Coldest: coldest,
			Hottest: hottest, StaticHead: head, ReliefSet: hydronics.Gauge(set), Rules: expansion.EN12828()}
		z, err := s.Size()
		if (err == nil) != (finite(z.Nominal, float64(z.Precharge), float64(z.Final), float64(z.Filling)) && z.Nominal > 0) {
			t.Fatalf("%+v: %+v, %v", s, z, err)
		}
		v := expansion.Vessel{Nominal: nominal, Precharge: hydronics.Gauge(precharge)}
		w, err := s.Window(v, at)
		if err == nil && !(finite(float64(w.Least), float64(w.Most)) && w.Least <= w.Most) {
			t.Fatalf("%+v %+v: %+v", s, v, w)
		}
		c, err := s.Course(v, hydronics.Gauge(filling))
		if err != nil {
			return
		}
		if state, err := c.At(at); err == nil && !finite(float64(state.Pressure), state.Water, state.Gas) {
			t.Fatalf("%+v %+v: %+v", s, v, state)
		}
		y, err := c.Cycle()
		if err == nil && !finite(y.LiftsAt, y.Lost, float64(y.Hot.Pressure), float64(y.Filling.Pressure), float64(y.Coldest.Pressure)) {
			t.Fatalf("%+v %+v: %+v", s, v, y)
		}
		if _, err := s.Judge(v, hydronics.Gauge(filling)); err == nil && !finite(z.Nominal) {
			t.Fatalf("judged without a size: %+v", s)
		}
	})
}

func FuzzDemand(f *testing.F) {
	f.Add(0.01, 0.003, 1e5, 1.2e5, 2.5e5, 0.0, 0.04)
	f.Add(0.0, 0.0, 1e5, 1e5, 1e5, 1e5, 0.04)
	f.Add(math.NaN(), math.Inf(1), -1e9, 1e5, 1e5, 50e3, 0.0)
	f.Fuzz(func(t *testing.T, expansionVolume, reserve, precharge, filling, final, atmosphere, nominal float64) {
		d := expansion.Demand{Expansion: expansionVolume, Reserve: reserve, Precharge: hydronics.Gauge(precharge),
			Filling: hydronics.Gauge(filling), Final: hydronics.Gauge(final), Atmosphere: atmosphere}
		v, err := d.Nominal()
		if (err == nil) != finite(v) {
			t.Fatalf("%+v: %g, %v", d, v, err)
		}
		p, err := d.PressureIn(nominal)
		if (err == nil) != finite(float64(p)) {
			t.Fatalf("%+v in %g: %g, %v", d, nominal, p, err)
		}
	})
}

func FuzzPotable(f *testing.F) {
	f.Add(0.2, 10.0, 65.0, 4e5, 8e5, 0.012)
	f.Add(math.NaN(), 0.0, 3.0, 5e5, 5.2e5, 0.012)
	f.Fuzz(func(t *testing.T, volume, cold, hot, supply, set, nominal float64) {
		p := expansion.Potable{Volume: volume, Cold: cold, Hot: hot, Supply: hydronics.Gauge(supply),
			ReliefSet: hydronics.Gauge(set), Rules: expansion.PotablePractice()}
		z, err := p.Size()
		if (err == nil) != (finite(z.Nominal, float64(z.Final)) && z.Precharge > 0) {
			t.Fatalf("%+v: %+v, %v", p, z, err)
		}
		hotP, err := p.PressureHot(expansion.Vessel{Nominal: nominal, Precharge: z.Precharge})
		if (err == nil) != finite(float64(hotP)) {
			t.Fatalf("%+v: %g, %v", p, hotP, err)
		}
	})
}

func FuzzFraction(f *testing.F) {
	f.Add(uint8(0), 10.0, 60.0)
	f.Add(uint8(3), math.NaN(), math.Inf(-1))
	f.Add(uint8(200), 1.0, 2.0)
	f.Fuzz(func(t *testing.T, m uint8, cold, hot float64) {
		v, err := expansion.Method(m).Fraction(fluid.Water(), cold, hot)
		if (err == nil) != finite(v) {
			t.Fatalf("%v, %g, %g: %g, %v", expansion.Method(m), cold, hot, v, err)
		}
	})
}

func FuzzGasFlux(f *testing.F) {
	f.Add(4e5, 0.46, 1.135, 1e5)
	f.Add(math.NaN(), 0.0, 1.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, p, v, k, back float64) {
		g, err := expansion.Gas{PressureAbs: p, SpecificVolume: v, Exponent: k}.Flux(back)
		if (err == nil) != (finite(g.Mass, g.PressureAbs) && g.PressureAbs > 0) {
			t.Fatalf("%g %g %g %g: %+v, %v", p, v, k, back, g, err)
		}
		s, err := expansion.EquilibriumSteamFlux(p, back)
		if (err == nil) != (finite(s.Mass) && s.PressureAbs > 0) {
			t.Fatalf("%g %g: %+v, %v", p, back, s, err)
		}
	})
}

func FuzzValve(f *testing.F) {
	f.Add(3e5, 1e-4, 0.5, 0.4, 0.1, 0.0, 1000.0, 1e-3)
	f.Add(math.NaN(), -1.0, 2.0, 0.0, 0.1, 4e5, 1.0, 0.0)
	f.Fuzz(func(t *testing.T, set, area, coefficient, liquid, over, back, density, viscosity float64) {
		v := expansion.Valve{Set: hydronics.Gauge(set), Area: area, Coefficient: coefficient, LiquidCoefficient: liquid, Overpressure: over}
		s, err := v.Steam(hydronics.Gauge(back), 0)
		if (err == nil) != (finite(s.Heat, s.MassFlow) && s.PressureAbs > 0) {
			t.Fatalf("%+v: %+v, %v", v, s, err)
		}
		l, err := v.Liquid(fluid.Properties{Density: density, DynamicViscosity: viscosity}, hydronics.Gauge(back))
		if (err == nil) != (finite(l.MassFlow, l.VolumeFlow, l.Reynolds) && l.Viscosity > 0) {
			t.Fatalf("%+v: %+v, %v", v, l, err)
		}
	})
}

func FuzzSection(f *testing.F) {
	f.Add(20.0, 2e5, 30.0, 0.02, 0.001, 120e9, 0.3, 17e-6, 6e5)
	f.Add(0.0, 0.0, 150.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1e9)
	f.Add(4.0, 1e5, 3.0, 0.02, 0.0, math.NaN(), 0.0, 0.0, 1e5)
	f.Fuzz(func(t *testing.T, temperature, pressure, hot, bore, wall, modulus, poisson, alpha, target float64) {
		s := expansion.Section{Temperature: temperature, Pressure: hydronics.Gauge(pressure), Bore: bore, Wall: wall,
			Modulus: modulus, Poisson: poisson, Expansion: alpha}
		p, err := s.PressureAt(hot)
		if (err == nil) != finite(float64(p)) {
			t.Fatalf("%+v at %g: %g, %v", s, hot, p, err)
		}
		x, err := s.Reaches(hydronics.Gauge(target))
		if (err == nil) != finite(x) {
			t.Fatalf("%+v to %g: %g, %v", s, target, x, err)
		}
		k, err := s.PerKelvin()
		if (err == nil) != finite(k) {
			t.Fatalf("%+v: %g, %v", s, k, err)
		}
	})
}

func FuzzLeakage(f *testing.F) {
	f.Add(0.035, 0.8e5, 1.5e5, 10.0, 1.4e5, 20.0, 86400.0, 1e3, 1.0)
	f.Add(math.NaN(), 0.0, 0.0, -1.0, 1e9, 300.0, 0.0, -1.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, nominal, precharge, p1, t1, p2, t2, time, up, ut float64) {
		l, err := house().Leakage(expansion.Vessel{Nominal: nominal, Precharge: hydronics.Gauge(precharge)},
			expansion.Reading{Pressure: hydronics.Gauge(p1), Temperature: t1},
			expansion.Reading{Pressure: hydronics.Gauge(p2), Temperature: t2, Time: time},
			expansion.ReadingUncertainty{Pressure: up, Temperature: ut})
		if !finite(l.Lost, l.Uncertainty, l.Rate, float64(l.Precharge)) || err != nil && l != (expansion.Leakage{}) {
			t.Fatalf("%+v, %v", l, err)
		}
	})
}

func FuzzScalars(f *testing.F) {
	f.Add(500.0, 0.5, 2e4, 1000.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0)
	f.Fuzz(func(t *testing.T, a, b, c, d float64) {
		var results []float64
		var errs []error
		add := func(v float64, err error) { results, errs = append(results, v), append(errs, err) }
		add(expansion.ViscosityFactor(a, expansion.APIEdition(b)))
		add(expansion.LiquidFlux(a, b, d))
		add(expansion.Derated(b))
		add(expansion.FillingKit{Kv: b, Supply: hydronics.Gauge(c)}.Time(a, hydronics.Gauge(d)))
		add(expansion.Warming{Cold: a, Hot: b, ColdDensity: c, HotDensity: d}.Relief(c, d))
		add(expansion.UsualSeries().AtLeast(a))
		add(expansion.TotalOutput(expansion.HeatSource{Output: c}))
		p, err := expansion.PrechargeAt(hydronics.Gauge(c), a, b, d)
		add(float64(p), err)
		x, err := fluid.WaterState(60, 3e5)
		if err != nil {
			t.Fatal(err)
		}
		add(expansion.Line{Bore: b, Length: a, Zeta: c, Roughness: d}.Loss(a, x))
		for i, v := range results {
			if (errs[i] == nil) != finite(v) {
				t.Fatalf("%d: %g, %v", i, v, errs[i])
			}
		}
	})
}

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

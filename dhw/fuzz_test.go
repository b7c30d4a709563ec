package dhw

import (
	"math"
	"testing"

	"example.com/hydronics"
)

// agree fails unless the numbers are all finite exactly when err is nil.
func agree(t *testing.T, err error, numbers ...float64) {
	t.Helper()
	finite := true
	for _, v := range numbers {
		finite = finite && !math.IsNaN(v) && !math.IsInf(v, 0)
	}
	if err == nil && !finite {
		t.Errorf("not finite without an error: %v", numbers)
	}
	if err != nil && len(numbers) == 1 && !math.IsNaN(numbers[0]) {
		t.Errorf("%v with %v", numbers[0], err)
	}
}

func FuzzMixing(f *testing.F) {
	f.Add(10.0, 40.0, 60.0)
	f.Add(10.0, 10.0, 10.0)
	f.Add(math.NaN(), -1.0, 1e300)
	f.Fuzz(func(t *testing.T, cold, mixed, hot float64) {
		share, err := HotShare(cold, mixed, hot)
		agree(t, err, share)
		if err == nil && !(share >= 0 && share <= 1) {
			t.Errorf("share %v", share)
		}
		a, err := Amount{0.2, hot}.At(mixed, cold)
		if err == nil {
			agree(t, err, a.Volume, a.Temperature)
		}
	})
}

func FuzzReheat(f *testing.F) {
	f.Add(0.2, 4.186e6, 1.5, 10.0, 50.0, 20.0, 6000.0, 3000.0, 3600.0)
	f.Add(0.001, 4e6, 0.0, 0.0, 100.0, -40.0, 1e-300, 1e6, 0.0)
	f.Fuzz(func(t *testing.T, v, heat, loss, from, to, ambient, p0, p1, time float64) {
		c := Cylinder{Volume: v, Nodes: 1, VolumetricHeat: heat, LossCoefficient: loss}
		for _, h := range []Heater{{{Power: p0}}, {{0, p0}, {55, p1}, {100, p0}}} {
			r, err := c.Reheat(h, from, to, ambient)
			if err == nil {
				agree(t, err, r.Time, r.Supplied, r.Stored, r.Lost)
			} else if r != (Reheating{}) {
				t.Errorf("%+v with %v", r, err)
			}
			if err == nil && !(r.Time >= 0 && r.Stored >= 0) {
				t.Errorf("%+v", r)
			}
		}
		k, err := c.Cool(from, ambient, time)
		if err == nil {
			agree(t, err, k.Temperature, k.Lost)
			if k.Temperature > math.Max(from, ambient)+1e-9 || k.Temperature < math.Min(from, ambient)-1e-9 {
				t.Errorf("%v between %v and %v", k.Temperature, from, ambient)
			}
		}
	})
}

func FuzzEffectiveness(f *testing.F) {
	f.Add(uint8(2), 2.0, 1.0, 800.0, 1000.0, 55.0)
	f.Add(uint8(3), 100.0, 0.999999999, 1e5, 0.1, 130.0)
	f.Fuzz(func(t *testing.T, a uint8, ntu, cr, ua, rate, inlet float64) {
		e, err := Effectiveness(Arrangement(a), ntu, cr)
		agree(t, err, e)
		if err == nil && !(e >= 0 && e <= 1) {
			t.Errorf("effectiveness %v", e)
		}
		h, err := Coil{ua, rate, inlet}.Heater()
		if err == nil && h.check("fuzz") != nil {
			t.Errorf("heater %v: %v", h, h.check("fuzz"))
		}
	})
}

func FuzzRelief(f *testing.F) {
	f.Add(0.2, 20e3, uint8(1), 7.0, 4, 0.028, 6e5, 4e5, uint8(1))
	f.Add(math.NaN(), math.Inf(1), uint8(0), -1.0, -1, 0.0, 1e300, math.NaN(), uint8(255))
	f.Fuzz(func(t *testing.T, v, q float64, outlet uint8, l float64, bends int, d2, set, mains float64, book uint8) {
		valve, err := ReliefValveFor(v, q)
		if (err == nil) != (valve.DN > 0) {
			t.Errorf("%+v, %v", valve, err)
		}
		o, run := Outlet(outlet), Straight{l, bends}
		for _, size := range []func() (DischargePipe, error){
			func() (DischargePipe, error) { return SizeDischarge(o, run) },
			func() (DischargePipe, error) { return DischargeResistance(o, d2, run) },
		} {
			p, err := size()
			if (err == nil) != (p.D2 > 0) {
				t.Errorf("%+v, %v", p, err)
			}
			agree(t, nil, p.Resistance, p.MaxResistance)
		}
		found, err := SetPressure{Book: Rulebook(book), Set: hydronics.Gauge(set), Cylinder: 10e5, Lowest: 10e5, Mains: hydronics.Gauge(mains)}.Findings()
		sound(t, found, err)
		found, err = Tundish{Book: Rulebook(book), Outlet: o, D1: 0.015, Distance: l, Vertical: q, D2: d2, Run: run, Fall: v}.Findings()
		sound(t, found, err)
	})
}

// sound wants findings exactly when there is no error, each with its numbers,
// source and danger.
func sound(t *testing.T, found []hydronics.Finding, err error) {
	t.Helper()
	if (err == nil) != (len(found) > 0) {
		t.Errorf("%d findings with %v", len(found), err)
	}
	for _, f := range found {
		if f.Verdict != hydronics.SeeOnSite && (math.IsNaN(f.Value) || math.IsNaN(f.Limit)) {
			t.Errorf("%+v", f)
		}
		if f.Rule == "" || f.Danger == "" || f.Source.Text == "" {
			t.Errorf("rule, danger or source is missing: %+v", f)
		}
	}
}

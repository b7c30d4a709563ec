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

func FuzzDay(f *testing.F) {
	f.Add(0.2, 20, 1.5, 5000.0, 4000.0, 0.5, 0.6, 52.0, 57.0, 55.0, 10.0, 20.0, 600.0, 5e6, 1.7e-4, 40.0)
	f.Add(0.001, 100, 0.0, 0.0, 1e6, 1.0, 0.0, 0.0, 100.0, 0.0, 0.0, -40.0, 599.0, 0.0, 1e-6, 0.1)
	f.Fuzz(func(t *testing.T, v float64, nodes int, loss, p0, p1, coil, sensor, on, off, start, cold, ambient, step, energy, flow, wanted float64) {
		d := Day{
			Cylinder: Cylinder{Volume: v, Nodes: nodes, VolumetricHeat: 4.18e6, LossCoefficient: loss},
			Profile:  Profile{Draws: []Draw{{0, energy, flow, wanted, 0}, {43200, energy / 2, flow, wanted, 0}}},
			Heater:   Heater{{0, p0}, {60, p1}}, Coil: coil, Sensor: sensor, On: on, Off: off, Start: start, Cold: cold, Ambient: ambient,
			Step: max(step, 60), Days: 1,
		}
		r, err := d.Run(func(s DayState) {
			if !(s.Bottom >= -1e-6 && s.Bottom <= s.Mean+1e-6 && s.Mean <= s.Top+1e-6 && s.Top <= 100+1e-6) {
				t.Errorf("layers out of order, boiling or frozen: %+v", s)
			}
		})
		if err != nil {
			if r != (DayResult{}) {
				t.Errorf("%+v with %v", r, err)
			}
			return
		}
		agree(t, err, r.Demanded, r.Delivered, r.Unmet, r.Supplied, r.Lost, r.Stored, r.Drawn, r.Run, r.ColdTime, r.ColdFrom, r.LowestOutlet, r.LowestAt)
		residual := r.Supplied - r.Delivered - r.Lost - r.Stored
		scale := math.Abs(r.Supplied) + math.Abs(r.Delivered) + math.Abs(r.Lost) + d.Cylinder.capacity()*100
		if !(math.Abs(residual) <= 1e-9*scale) {
			t.Errorf("%v J are missing of %v J: %+v", residual, scale, r)
		}
	})
}

func FuzzDemand(f *testing.F) {
	f.Add(0.2, 5, 60.0, 40.0, 10.0, 0.1, 3, 0.05, 1e-4, 0.99, 2000.0, 3600.0)
	f.Add(1.0, PlugFlow, 100.0, 0.1, 0.0, 0.0, 0, 1.0, 0.01, 0.5, 1e6, 86400.0)
	f.Fuzz(func(t *testing.T, v float64, nodes int, hot, mixed, cold, drawn float64, n int, p, flow, quantile, power, stretch float64) {
		c := Cylinder{Volume: v, Nodes: nodes}
		m, err := c.MixedWater(hot, mixed, cold)
		if err == nil {
			agree(t, err, m.Volume, m.Drawn)
		}
		out, err := c.OutletTemperature(drawn, hot, cold)
		agree(t, err, out)
		if n < 200 && flow < 1e-3 {
			d, err := DemandOfFixtures([]Fixtures{{n, p, flow}, {1, 0.01, 2e-4}}, quantile, 1e-4)
			if err == nil {
				agree(t, err, d.Hunter, d.Idle, d.Mean, d.Variance, d.Exact, d.ExactBusy, d.Normal, d.NormalBusy)
			}
		}
		q, err := ResidentialPeak().Flow(flow)
		agree(t, err, q)
		l, err := LoadProfile("M")
		if err != nil {
			t.Fatal(err)
		}
		volume, err := l.Volume(hot, cold, 4.18e6)
		agree(t, err, volume)
		if s, err := l.SumLine(power); err == nil {
			agree(t, err, s.Content, s.At)
		}
		if b, err := l.Busiest(stretch); err == nil {
			agree(t, err, b.Start, b.Energy)
		}
		s := StoreDemand{Amount{v, hot}, cold, hot, mixed, power, energyOf(power), stretch, 4.18e6}
		for _, size := range []func() (StoreSize, error){s.Part, func() (StoreSize, error) { return s.Full(stretch) }} {
			if z, err := size(); err == nil {
				agree(t, err, z.Volume, z.Power, z.DayVolume, z.LossVolume, z.Usable)
			}
		}
	})
}

func energyOf(power float64) float64 { return power * 3600 }

func FuzzArrangement(f *testing.F) {
	f.Add(uint8(1), []byte{1, 4, 10, 8, 9, 11}, 0.2, 0.1, 0.1, 15, 60.0, 80.0, 90.0)
	f.Add(uint8(4), []byte{11, 11}, math.NaN(), 0.1, 0.1, 0, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, book uint8, devices []byte, content, height, branch float64, dn int, thermostat, cutOut, relief float64) {
		var chain []Device
		for _, d := range devices {
			chain = append(chain, Device(d))
		}
		b := Rulebook(book)
		found, err := Feed{b, chain, content, thermostat * 100, height, branch, dn, dn%2 == 0}.Findings()
		sound(t, found, err)
		found, err = Overheating{b, content, []HeatSource{{"coil", thermostat, cutOut}}, relief}.Findings()
		sound(t, found, err)
		found, err = Funnel{b, dn, dn, branch, dn, height, dn}.Findings()
		sound(t, found, err)
		found, err = OpenEnd{b, branch, branch, height, height, true, true}.Findings()
		sound(t, found, err)
		found, err = b.Findings([]Reading{{Point(len(devices)), "", thermostat, relief, branch}})
		sound(t, found, err)
		found, err = SeldomUsed{"", relief, true}.Findings(b)
		sound(t, found, err)
	})
}

func FuzzPipes(f *testing.F) {
	f.Add(30.0, 0.2, 20.0, 60.0, 55.0, 1e-4, 0.015, 0.013, 3e5, 1e5, uint8(16))
	f.Fuzz(func(t *testing.T, l, u, ambient, supply, end, flow, outside, bore, main, tap float64, book uint8) {
		c := Circulation{l, u, ambient, supply, 4.18e6}
		r, err := c.Flow(end)
		if err == nil {
			agree(t, err, r.Flow, r.Mean, r.Inlet, r.Loss)
		}
		e, err := c.End(flow)
		agree(t, err, e)
		b, err := BranchFlow(flow, main, tap)
		agree(t, err, b)
		d := DeadLeg{[]Piece{{outside, bore, l}}, flow}
		if s, err := d.Stagnation(); err == nil {
			agree(t, err, s.Content, s.Length, s.Wait)
		}
		found, err := d.Findings(Rulebook(book))
		sound(t, found, err)
		budget := PressureBudget{hydronics.Gauge(main), l, supply, []PressureLoss{{"meter", u}}, hydronics.Gauge(tap), end, l}
		if s, err := budget.Sum(); err == nil {
			agree(t, err, s.Available, s.Gradient, s.Left, s.Static)
		}
		h, err := StaticHead(l, supply)
		agree(t, err, h)
		k, err := Disinfection{store, Heater{{Power: main}}, end, supply, l, tap, ambient}.Cost()
		if err == nil {
			agree(t, err, k.Energy, k.Time, k.Hold, k.Power)
		}
	})
}

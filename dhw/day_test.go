package dhw

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"

	"example.com/hydronics"
	"example.com/hydronics/internal/edge"
)

// family is a day of profile L at a cylinder of 200 l with 20 nodes.
func family(t testing.TB) Day {
	p, err := LoadProfile("L")
	if err != nil {
		t.Fatal(err)
	}
	return Day{
		Cylinder: Cylinder{Volume: 0.2, Nodes: 20, VolumetricHeat: 4.18e6, LossCoefficient: 1.5},
		Profile:  p,
		Heater:   Heater{{5, 7000}, {35, 6200}, {60, 4500}},
		Coil:     0.5, Sensor: 0.6, On: 47, Off: 52, Start: 50, Cold: 10, Ambient: 20, Step: 60, Days: 1,
	}
}

// closes wants the account of a day to close to 1e-9 of what went through.
func closes(t *testing.T, name string, r DayResult) {
	t.Helper()
	residual := r.Supplied - r.Delivered - r.Lost - r.Stored
	scale := math.Abs(r.Supplied) + math.Abs(r.Delivered) + math.Abs(r.Lost) + math.Abs(r.Stored)
	if !(math.Abs(residual) <= 1e-9*scale) {
		t.Errorf("%s: %v J are missing of %v J", name, residual, scale)
	}
}

func TestDayCloses(t *testing.T) {
	for _, name := range LoadProfiles() {
		p, err := LoadProfile(name)
		if err != nil {
			t.Fatal(err)
		}
		energy, err := p.Energy()
		if err != nil {
			t.Fatal(err)
		}
		for _, nodes := range []int{1, 2, 7, 20, 100} {
			for _, step := range []float64{10, 60, 247} {
				d := family(t)
				d.Profile, d.Cylinder.Nodes, d.Step, d.Days = p, nodes, step, 2
				if name == "3XL" || name == "4XL" {
					d.Cylinder.Volume = 0.5
				}
				r, err := d.Run(nil)
				if err != nil {
					t.Fatal(err)
				}
				closes(t, name, r)
				if !(math.Abs(r.Demanded/energy-1) < 1e-12) {
					t.Errorf("%s: demanded %v J, profile %v J", name, r.Demanded, energy)
				}
				if r.Unmet < -1e-9*energy {
					t.Errorf("%s: unmet %v J", name, r.Unmet)
				}
			}
		}
	}
}

// A draw-off at full flow from a hot cylinder follows the incomplete gamma
// function whatever the step.
func TestDayFollowsTheClosedForm(t *testing.T) {
	for _, nodes := range []int{1, 2, 5, 10, 20, 100} {
		for _, step := range []float64{1, 60, 300} {
			// The tap wants more than the cylinder has, so that it runs hot only.
			flow := 10 * hydronics.LitrePerMinute
			d := Day{
				Cylinder: Cylinder{Volume: 0.2, Nodes: nodes, VolumetricHeat: 4.18e6},
				Profile:  Profile{Draws: []Draw{{0, 3000 * flow * 4.18e6 * 80, flow, 90, 0}}},
				Heater:   Heater{{Power: 0}}, Coil: 1, On: 0, Off: 10, Start: 60, Cold: 10, Ambient: 20, Step: step, Days: 1,
			}
			var worst float64
			_, err := d.Run(func(s DayState) {
				if s.Time <= 3000 {
					n := float64(nodes)
					want := 10 + 50*mathext.GammaIncRegComp(n, n*flow*s.Time/0.2)
					worst = math.Max(worst, math.Abs(s.Top-want)/50)
				}
			})
			if err != nil || !(worst < 1e-9) {
				t.Errorf("%d nodes, step %v s: %v away from the incomplete gamma function (%v)", nodes, step, worst, err)
			}
		}
	}
}

// Without heating, a draw-off at 40 °C gives V40 and no more before it runs cold.
func TestDayGivesMixedWater(t *testing.T) {
	for _, nodes := range []int{1, 3, 10, 40} {
		c := Cylinder{Volume: 0.2, Nodes: nodes, VolumetricHeat: 4.18e6}
		m, err := c.MixedWater(60, 40, 10)
		if err != nil {
			t.Fatal(err)
		}
		flow := 6 * hydronics.LitrePerMinute
		d := Day{Cylinder: c, Heater: Heater{{Power: 0}}, Coil: 1, On: 0, Off: 10, Start: 60, Cold: 10, Ambient: 20, Step: 1, Days: 1}
		for _, share := range []float64{0.999, 1.001} {
			energy := share * m.Volume * 4.18e6 * 30
			d.Profile = Profile{Draws: []Draw{{3600, energy, flow, 40, 0}}}
			r, err := d.Run(nil)
			if err != nil {
				t.Fatal(err)
			}
			closes(t, "mixed water", r)
			if r.Never != (share < 1) {
				t.Errorf("%d nodes, %v of V40: cold for %v s", nodes, share, r.ColdTime)
			}
			if share < 1 && !(math.Abs(r.Delivered/energy-1) < 1e-12) {
				t.Errorf("%d nodes: delivered %v of %v J", nodes, r.Delivered, energy)
			}
		}
	}
}

// Left alone, the layers cool like the mixed cylinder of the closed form.
func TestDayCools(t *testing.T) {
	d := family(t)
	d.Profile = Profile{Draws: []Draw{{0, 1, 1e-5, 40, 0}}}
	d.On, d.Off = 0, 10
	r, err := d.Run(nil)
	if err != nil {
		t.Fatal(err)
	}
	k, err := d.Cylinder.Cool(50, 20, hydronics.Day)
	if err != nil || !(math.Abs(r.Lost/k.Lost-1) < 1e-6) {
		t.Errorf("lost %v J, closed form %v J, %v", r.Lost, k.Lost, err)
	}
}

// Heated and not drawn, a single node takes the time of the closed form, to the
// first order of the step.
func TestDayReheats(t *testing.T) {
	d := family(t)
	d.Cylinder.Nodes, d.Step, d.Start, d.Coil = 1, 1, 15, 1
	d.Profile = Profile{Draws: []Draw{{0, 1, 1e-5, 40, 0}}}
	want, err := d.Cylinder.Reheat(d.Heater, 15, 50, 20)
	if err != nil {
		t.Fatal(err)
	}
	reached := math.NaN()
	if _, err := d.Run(func(s DayState) {
		if s.Top >= 50 && math.IsNaN(reached) {
			reached = s.Time
		}
	}); err != nil || !(math.Abs(reached-want.Time) <= 2*d.Step) {
		t.Errorf("reached after %v s, closed form %v s, %v", reached, want.Time, err)
	}
}

// Unheated, a larger cylinder never leaves more unmet. (Heated it may: the
// thermostat then starts at other times of the day.)
func TestDayMonotonic(t *testing.T) {
	last := math.Inf(1)
	for litres := 40.0; litres < 700; litres *= 1.2 {
		d := family(t)
		d.Cylinder.Volume, d.On, d.Off, d.Start = litres*hydronics.Litre, 0, 10, 65
		r, err := d.Run(nil)
		if err != nil || r.Unmet > last+1e-3 { // of 4e7 J
			t.Errorf("%v l: unmet %v J after %v J, %v", litres, r.Unmet, last, err)
		}
		last = r.Unmet
	}
	if last > 1e-3 {
		t.Errorf("the largest leaves %v J unmet", last)
	}
}

// The outcome does not hang on the step.
func TestDayConverges(t *testing.T) {
	var coarse, fine DayResult
	for _, c := range []struct {
		step float64
		r    *DayResult
	}{{60, &coarse}, {5, &fine}} {
		d := family(t)
		d.Step, d.Days = c.step, 3
		var err error
		if *c.r, err = d.Run(nil); err != nil {
			t.Fatal(err)
		}
	}
	if math.Abs(coarse.LowestOutlet-fine.LowestOutlet) > 0.5 || math.Abs(coarse.Supplied/fine.Supplied-1) > 0.01 {
		t.Errorf("60 s: %+v\n5 s: %+v", coarse, fine)
	}
}

func BenchmarkDay(b *testing.B) {
	d := family(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := d.Run(nil); err != nil {
			b.Fatal(err)
		}
	}
}

// A coil brings the water to its own inlet temperature and no further, and a heat
// pump stops at its last point, however long the step.
func TestDayNeverHotterThanItsSource(t *testing.T) {
	coil, err := Coil{Transmittance: 3000, CapacityRate: 2000, Inlet: 55}.Heater()
	if err != nil {
		t.Fatal(err)
	}
	for _, h := range []Heater{coil, {{0, 20e3}, {55, 15e3}}} {
		for _, step := range []float64{10, 120, 600} {
			d := family(t)
			d.Heater, d.Step, d.On, d.Off, d.Start, d.Coil = h, step, 56, 57, 20, 0.3
			r, err := d.Run(func(s DayState) {
				if s.Top > 55+1e-9 {
					t.Errorf("step %v s: %v °C at the top, source of 55 °C", step, s.Top)
				}
			})
			if err != nil {
				t.Fatal(err)
			}
			closes(t, "source", r)
		}
	}
}

// A heater that would boil the water in a step, and a room that freezes it, are
// refused.
func TestDayRefusesSteamAndIce(t *testing.T) {
	boil := family(t)
	boil.Profile = Profile{Draws: []Draw{{43200, 1e5, 1e-5, 40, 0}}}
	boil.Cylinder.Volume, boil.Heater, boil.Step = 0.03, Heater{{Power: 50e3}}, 300
	freeze := family(t)
	freeze.Profile = Profile{Draws: []Draw{{43200, 1e5, 1e-5, 40, 0}}}
	freeze.Cylinder.LossCoefficient, freeze.Heater, freeze.On, freeze.Off, freeze.Ambient = 20, Heater{{Power: 0}}, 0, 10, -20
	for name, d := range map[string]Day{"boils": boil, "freezes": freeze} {
		r, err := d.Run(nil)
		if edge.Named(err, "temperature in the cylinder") == nil || r != (DayResult{}) {
			t.Errorf("%s: %v, %+v", name, err, r)
		}
	}
}

// Where the main is warmer than a cylinder that has cooled, what enters at the
// bottom rises: the layers stay in order, and the account closes.
func TestDayKeepsLayersInOrder(t *testing.T) {
	d := family(t)
	d.Heater, d.On, d.Off = Heater{{Power: 0}}, 0, 10
	d.Start, d.Cold, d.Ambient, d.Cylinder.LossCoefficient, d.Days = 12, 25, 5, 20, 2
	var draws []Draw
	for hour := range 20 {
		draws = append(draws, Draw{float64(hour) * hydronics.Hour, 1e6, 1e-4, 40, 0})
	}
	d.Profile = Profile{Draws: draws}
	r, err := d.Run(func(s DayState) {
		if s.Bottom > s.Mean+1e-9 || s.Mean > s.Top+1e-9 {
			t.Errorf("%v s: %v °C at the bottom, %v °C in the mean, %v °C at the top", s.Time, s.Bottom, s.Mean, s.Top)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	closes(t, "warm main", r)
}

// A draw-off that runs on while later ones begin and end, in several steps and in
// one, is served beside them; the day has its rests before and after.
func TestDayServesDrawOffsThatOverlap(t *testing.T) {
	for _, step := range []float64{10, 60, 600} {
		d := family(t)
		d.Cylinder.Volume, d.Step, d.Days = 0.5, step, 2
		flow := hydronics.LitrePerMinute
		d.Profile = Profile{Draws: []Draw{
			{21600, 1e7, 2 * flow, 40, 0}, // for 2392 s
			{22000, 1e5, 3 * flow, 40, 0}, {22000, 2e5, 1 * flow, 35, 45}, {22700, 1e5, 3 * flow, 40, 0},
			{64800, 1e5, 3 * flow, 40, 0}, {64810, 1e6, 3 * flow, 40, 0},
		}}
		energy, err := d.Profile.Energy()
		if err != nil {
			t.Fatal(err)
		}
		rested, err1 := d.Run(nil)
		var wanted float64
		stepped, err2 := d.Run(func(s DayState) { wanted += s.Wanted * step })
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		closes(t, "overlapping", rested)
		for _, got := range []float64{rested.Demanded, rested.Delivered, stepped.Demanded, stepped.Delivered, wanted} {
			if !near(got, energy) {
				t.Errorf("step %v s: %v J, profile %v J", step, got, energy)
			}
		}
		if !near(rested.Supplied, stepped.Supplied) || !near(rested.Drawn, stepped.Drawn) {
			t.Errorf("step %v s: %+v\n%+v", step, rested, stepped)
		}
	}
}

// A day that nobody observes passes over its rests at once, and is the same day.
func TestDayObservedOrNot(t *testing.T) {
	for _, name := range LoadProfiles() {
		for _, nodes := range []int{1, 5, 20} {
			for _, change := range []func(*Day){
				func(*Day) {},
				func(d *Day) { d.Cylinder.LossCoefficient = 0 },
				func(d *Day) { d.Cylinder.LossCoefficient = 60 },
				func(d *Day) { d.Ambient = 55 },
				func(d *Day) { d.Step, d.Sensor = 7, 0 },
			} {
				d := family(t)
				p, err := LoadProfile(name)
				if err != nil {
					t.Fatal(err)
				}
				d.Profile, d.Cylinder.Nodes, d.Cylinder.Volume, d.Days = p, nodes, 0.5, 2
				change(&d)
				rested, err1 := d.Run(nil)
				stepped, err2 := d.Run(func(DayState) {})
				d.Days = 1
				first, err3 := d.Run(func(DayState) {}) // no step is passed over
				d.Days, err = 1, errors.Join(err1, err2, err3)
				if err != nil {
					t.Fatal(err)
				}
				alone, err := d.Run(nil)
				if err != nil {
					t.Fatal(err)
				}
				for _, pair := range [][2]DayResult{{rested, stepped}, {alone, first}} {
					a, b := pair[0], pair[1]
					if a.Starts != b.Starts || a.Never != b.Never || !near(a.Run, b.Run) || !near(a.Supplied, b.Supplied) || !near(a.Lost, b.Lost) ||
						!near(a.Delivered, b.Delivered) || !near(a.LowestOutlet, b.LowestOutlet) || !near(a.LowestAt, b.LowestAt) ||
						math.Abs(a.Stored-b.Stored) > 1e-9*(a.Supplied+a.Delivered) {
						t.Errorf("%s, %d nodes: %+v\n%+v", name, nodes, a, b)
					}
				}
			}
		}
	}
}

func near(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*math.Abs(a) }

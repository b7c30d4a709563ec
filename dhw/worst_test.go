package dhw

import (
	"math"
	"testing"
)

// The worst of the days is none that Run reports as worse, whether they repeat
// after a day, after two or not at all.
func TestWorstOfTheDays(t *testing.T) {
	const most = 15
	beyondTheThird := false
	for _, name := range []string{"S", "M", "L", "XL"} {
		profile, err := LoadProfile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, litres := range []float64{100, 150, 200, 260, 400} {
			for _, off := range []float64{56, 58} {
				d := family(t)
				d.Profile, d.Cylinder.Volume, d.Cylinder.Nodes = profile, litres/1000, 6
				d.Heater, d.On, d.Off, d.Start, d.Days = Heater{{10, 7000}, {58, 5000}}, off-5, off, off, most
				worst, err := d.Worst()
				if err != nil {
					t.Fatal(err)
				}
				third := false
				for d.Days = 1; d.Days <= most; d.Days++ {
					r, err := d.Run(nil)
					if err != nil {
						t.Fatal(err)
					}
					if d.Days == worst.Day && r != worst {
						t.Errorf("%s, %g l: day %d is %+v\nnot %+v", name, litres, d.Days, worst, r)
					}
					// Days after the first that repeats differ by as little as it does.
					if r.Never != worst.Never && worst.Never || r.Unmet > worst.Unmet+1e-3*d.Cylinder.capacity() || r.LowestOutlet < worst.LowestOutlet-2e-3 && worst.Never {
						t.Errorf("%s, %g l: day %d leaves %g J and %g °C, worse than %g J and %g °C of day %d", name, litres, d.Days, r.Unmet, r.LowestOutlet, worst.Unmet, worst.LowestOutlet, worst.Day)
					}
					third = third || d.Days == 3 && r.Never && !worst.Never
				}
				beyondTheThird = beyondTheThird || third
			}
		}
	}
	if !beyondTheThird {
		t.Error("no case in which the third day hides a cold tap: this test shows nothing")
	}
}

func TestWorstRefusesWhatRunRefuses(t *testing.T) {
	d := family(t)
	for _, change := range []func(*Day){
		func(d *Day) { d.Days = 0 }, func(d *Day) { d.Days = 31 }, func(d *Day) { d.Off = d.On }, func(d *Day) { d.Start = math.NaN() },
		func(d *Day) { d.Ambient, d.Cylinder.LossCoefficient, d.Days = -40, 1000, 3 }, // freezes
	} {
		x := d
		change(&x)
		if r, err := x.Worst(); err == nil || r != (DayResult{}) {
			t.Errorf("%+v, %v", r, err)
		}
	}
}

package dhw

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/hydronics"
)

// The busiest stretch against a search over all stretches.
func TestBusiestByBruteForce(t *testing.T) {
	for _, name := range LoadProfiles() {
		p, err := LoadProfile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, stretch := range []float64{0, 60, 1800, 3600, 7200, 86400} {
			got, err := p.Busiest(stretch)
			if err != nil {
				t.Fatal(err)
			}
			best := 0.0
			for _, from := range p.Draws {
				e, err := p.Between(from.Start, math.Min(from.Start+stretch, hydronics.Day))
				if err != nil {
					t.Fatal(err)
				}
				best = math.Max(best, e)
			}
			if !(math.Abs(got.Energy-best) <= 1e-9*best) {
				t.Errorf("%s, %v s: %v J, search %v J", name, stretch, got.Energy, best)
			}
		}
	}
}

// Draw-offs at the same time count together.
func TestBusiestAtOnce(t *testing.T) {
	p := Profile{Draws: []Draw{{10, 1, 1e-4, 40, 0}, {10, 2, 1e-4, 40, 0}, {10, 4, 1e-4, 40, 0}, {5000, 3, 1e-4, 40, 0}}}
	if got, err := p.Busiest(0); err != nil || got != (Peak{10, 7}) {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestProfileRefusals(t *testing.T) {
	d := Draw{3600, 1e6, 1e-4, 40, 0}
	late, nan := d, d
	late.Start, nan.Energy = 1, math.NaN()
	for name, p := range map[string]Profile{"empty": {}, "out of order": {Draws: []Draw{d, late}}, "NaN": {Draws: []Draw{nan}}} {
		if e, err := p.Energy(); !errors.Is(err, hydronics.ErrRange) || !math.IsNaN(e) {
			t.Errorf("%s: %v, %v", name, e, err)
		}
	}
	if _, err := LoadProfile("XXXL"); !errors.Is(err, hydronics.ErrNoSolution) {
		t.Errorf("unknown profile: %v", err)
	}
	if _, err := Requirement("XXXL"); !errors.Is(err, hydronics.ErrNoSolution) {
		t.Errorf("unknown profile: %v", err)
	}
}

// What the law asks: a cylinder for profile L gives 130 l of 40 °C, and one for S
// holds at most 36 l.
func TestRequirement(t *testing.T) {
	l, err := Requirement("L")
	if err != nil || !(math.Abs(l.MixedWater-130*hydronics.Litre) < 1e-15) || l.MaxStorage != 0 {
		t.Errorf("L: %+v, %v", l, err)
	}
	s, err := Requirement("S")
	if err != nil || s.MixedWater != 0 || !(math.Abs(s.MaxStorage-36*hydronics.Litre) < 1e-15) {
		t.Errorf("S: %+v, %v", s, err)
	}
}

// leastLeft walks through equal days from one draw-off to the next, from a full
// store on, and returns the least heat that is left in it.
func leastLeft(p Profile, power, content float64, days int) float64 {
	left, last, least := content, 0.0, content
	for day := range days {
		for _, d := range p.Draws {
			at := float64(day)*hydronics.Day + d.Start
			left = math.Min(content, left+power*(at-last)) - d.Energy
			last, least = at, min(least, left)
		}
	}
	return least
}

// A store of the content that SumLine asks for, heated by its power, never runs
// short, and one of 1 % less does. The store is followed draw-off by draw-off.
func TestSumLineIsJustEnough(t *testing.T) {
	for _, name := range LoadProfiles() {
		p, err := LoadProfile(name)
		if err != nil {
			t.Fatal(err)
		}
		energy, _ := p.Energy()
		for _, share := range []float64{1.0001, 1.5, 3, 10} {
			power := share * energy / hydronics.Day
			s, err := p.SumLine(power)
			if err != nil {
				t.Fatal(err)
			}
			short := func(content float64) bool { return leastLeft(p, power, content, 5) < -1e-6*content }
			if short(s.Content) || !short(0.99*s.Content) {
				t.Errorf("%s, %.0f W: %v J is not just enough", name, power, s.Content)
			}
		}
		if _, err := p.SumLine(0.999 * energy / hydronics.Day); !errors.Is(err, hydronics.ErrNoSolution) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The use-unit rule: of a bathroom only the two largest draw-off points count, and
// the sum of the units stands where it is below the curve.
func TestPeakOfUseUnits(t *testing.T) {
	bath := []float64{0.15e-3, 0.15e-3, 0.07e-3, 0.13e-3}
	kitchen := []float64{0.07e-3, 0.07e-3}
	c := ResidentialPeak()
	one, err := c.Peak([][]float64{bath})
	if err != nil || math.Abs(one.Units-0.30e-3) > 1e-15 || one.Flow != one.Units {
		t.Errorf("one bathroom: %+v, %v", one, err)
	}
	var flat [][]float64
	for range 10 {
		flat = append(flat, bath, kitchen)
	}
	many, err := c.Peak(flat)
	if err != nil || many.Flow != many.Curve || !(many.Curve < many.Units && many.Units < many.Sum) {
		t.Errorf("ten flats: %+v, %v", many, err)
	}
	if _, err := c.Peak([][]float64{{math.NaN()}}); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("NaN: %v", err)
	}
}

// The peak flow rises with the sum from 0.2 l/s on and never passes it. (At 0.2 l/s
// the rule itself steps down, from the sum to the curve.)
func TestPeakFlowMonotonic(t *testing.T) {
	c, last := ResidentialPeak(), 0.0
	for s := 0.2; s <= 500; s *= 1.1 {
		f, err := c.Flow(s * hydronics.LitrePerSecond)
		if err != nil || f < last || f > s*hydronics.LitrePerSecond {
			t.Errorf("%v l/s: %v after %v, %v", s, f, last, err)
		}
		last = f
	}
	for _, bad := range []float64{-1e-3, 0.501, math.NaN()} {
		if f, err := c.Flow(bad); !errors.Is(err, hydronics.ErrRange) || !math.IsNaN(f) {
			t.Errorf("%v: %v, %v", bad, f, err)
		}
	}
}

// Every table rises: more units never get a smaller tube, and each limit of a row
// is kept.
func TestLoadingTubesRise(t *testing.T) {
	for _, m := range LoadingMaterials() {
		tubes, _, err := LoadingTubes(m)
		if err != nil {
			t.Fatal(err)
		}
		most := tubes[len(tubes)-1].MaxUnits
		last := 0.0
		for units := 1; units <= most; units++ {
			tube, err := LoadingSection{Material: m, Units: units, Largest: 1, Length: 3}.Tube()
			if err != nil || tube.Bore < last || units > tube.MaxUnits {
				t.Fatalf("%s, %d units: %+v, %v", m, units, tube, err)
			}
			last = tube.Bore
		}
		if _, err := (LoadingSection{Material: m, Units: most + 1, Largest: 1}).Tube(); !errors.Is(err, hydronics.ErrNoSolution) {
			t.Errorf("%s: %v", m, err)
		}
		// A bath (4 units) does not fit a tube whose largest draw-off point has 2.
		tube, err := LoadingSection{Material: m, Units: 4, Largest: 4, Length: 3}.Tube()
		if err != nil || (tube.Largest != 0 && tube.Largest < 4) {
			t.Errorf("%s: %+v, %v", m, tube, err)
		}
		// A long run is not served by a row with a shorter limit.
		tube, err = LoadingSection{Material: m, Units: 3, Largest: 2, Length: 50}.Tube()
		if err != nil || tube.MaxLength != 0 {
			t.Errorf("%s: %+v, %v", m, tube, err)
		}
	}
	if _, err := (LoadingSection{Material: "lead", Units: 1, Largest: 1}).Tube(); !errors.Is(err, hydronics.ErrNoSolution) {
		t.Errorf("lead: %v", err)
	}
	if _, err := (LoadingSection{Material: "PP", Units: 2, Largest: 3}).Tube(); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("largest above the sum: %v", err)
	}
	if _, err := LoadingUnits("fountain"); !errors.Is(err, hydronics.ErrNoSolution) {
		t.Errorf("fountain: %v", err)
	}
}

// One kind of draw-off point is a binomial distribution; gonum has its own.
func TestFixturesAreBinomial(t *testing.T) {
	for _, n := range []int{1, 5, 40, 300} {
		for _, p := range []float64{1e-6, 0.01, 0.2, 0.9, 1} {
			for _, q := range []float64{0.9, 0.99, 0.999} {
				d, err := DemandOfFixtures([]Fixtures{{n, p, 1e-4}}, q, 1e-4)
				if err != nil {
					t.Fatal(err)
				}
				b := distuv.Binomial{N: float64(n), P: p}
				k := math.Round(d.Exact / 1e-4)
				if below := b.CDF(k - 1); b.CDF(k) < q-1e-9 || (k > 0 && below >= q+1e-9) {
					t.Errorf("n %d, p %v, %v: %v points, CDF %v and %v", n, p, q, k, below, b.CDF(k))
				}
				busy := 1 - math.Pow(1-p, float64(n))
				if math.Abs(1-d.Idle-busy) > 1e-12 || math.Abs(d.Hunter-float64(n)*p) > 1e-9 || d.ExactBusy < d.Exact {
					t.Errorf("n %d, p %v: %+v", n, p, d)
				}
			}
		}
	}
	if d, err := DemandOfFixtures(nil, 0.99, 1e-4); err != nil || d != (FixtureDemand{Idle: 1}) {
		t.Errorf("nothing: %+v, %v", d, err)
	}
	if _, err := DemandOfFixtures([]Fixtures{{1, 0.1, 1.5e-4}}, 0.99, 1e-4); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("off the grid: %v", err)
	}
}

// The bounds of V40: one node, plug flow, and between them rising with the nodes.
func TestMixedWaterBetweenBounds(t *testing.T) {
	c := Cylinder{Volume: 0.2, Nodes: PlugFlow}
	most, err := c.MixedWater(60, 40, 10)
	if err != nil {
		t.Fatal(err)
	}
	last := 0.0
	for c.Nodes = 1; c.Nodes <= MaxNodes; c.Nodes++ {
		m, err := c.MixedWater(60, 40, 10)
		if err != nil || !(m.Volume > last && m.Volume < most.Volume) {
			t.Fatalf("%d nodes: %v after %v, at most %v, %v", c.Nodes, m.Volume, last, most.Volume, err)
		}
		// The outlet has just fallen to the mixed temperature.
		if out, err := c.OutletTemperature(m.Drawn, 60, 10); err != nil || math.Abs(out-40) > 1e-9 {
			t.Errorf("%d nodes: outlet %v °C, %v", c.Nodes, out, err)
		}
		if c.Nodes == 1 && math.Abs(m.Volume-0.2*(50./30-1)) > 1e-12 {
			t.Errorf("one node: %v m³", m.Volume)
		}
		last = m.Volume
	}
	for _, n := range []int{0, -2, MaxNodes + 1} {
		c.Nodes = n
		if _, err := c.MixedWater(60, 40, 10); !errors.Is(err, hydronics.ErrRange) {
			t.Errorf("%d nodes: %v", n, err)
		}
	}
}

func TestFitThereAndBack(t *testing.T) {
	for n := 1; n <= MaxNodes; n++ {
		c := Cylinder{Volume: 0.18, Nodes: n}
		m, err := c.MixedWater(58, 42, 12)
		if err != nil {
			t.Fatal(err)
		}
		got, err := c.Fit(DrawTest{58, 42, 12, m.Volume})
		if err != nil || got != c {
			t.Errorf("%d nodes: %+v, %v", n, got, err)
		}
	}
	if _, err := (Cylinder{Volume: 0.2}).Fit(DrawTest{40, 60, 10, 0.1}); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("hot below mixed: %v", err)
	}
	if _, err := (Cylinder{Volume: 0.2}).Fit(DrawTest{60, 40, 10, math.NaN()}); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("NaN: %v", err)
	}
}

// A class holds below its limit, and the limit rises from class to class.
func TestLossClasses(t *testing.T) {
	last, order := 0.0, "A+ A B C D E F G"
	for loss := 0.0; loss < 400; loss += 0.5 {
		c, err := LossClassOf(0.3, loss)
		if err != nil || !strings.Contains(order, c.Name) || c.Limit < last || (c.Name != worstClass && loss >= c.Limit) {
			t.Fatalf("%v W: %+v, %v", loss, c, err)
		}
		if c.Source.Provenance.Confirmed() {
			t.Fatal("a limit from memory counts as confirmed")
		}
		last = c.Limit
	}
	for _, bad := range [][2]float64{{300, 50}, {0.3, -1}, {math.NaN(), 50}, {0.3, math.NaN()}} {
		if c, err := LossClassOf(bad[0], bad[1]); !errors.Is(err, hydronics.ErrRange) || c != (LossClass{}) {
			t.Errorf("%v: %+v, %v", bad, c, err)
		}
	}
}

func TestHourlyDemandRefusals(t *testing.T) {
	good := HourlyDemand{[]FixtureUse{{50, 0.1}}, 0.3, 1.25, 0.7}
	for name, change := range map[string]func(*HourlyDemand){
		"no use": func(d *HourlyDemand) { d.Uses = nil }, "NaN": func(d *HourlyDemand) { d.DemandFactor = math.NaN() },
		"no share": func(d *HourlyDemand) { d.UsableShare = 0 }, "negative use": func(d *HourlyDemand) { d.Uses = []FixtureUse{{1, -1}} },
	} {
		d := good
		change(&d)
		if s, err := d.Size(); !errors.Is(err, hydronics.ErrRange) || s != (HourlySize{}) {
			t.Errorf("%s: %+v, %v", name, s, err)
		}
	}
}

func TestCirculationFindings(t *testing.T) {
	c := Circulation{Length: 30, Transmittance: 0.2, Ambient: 20, Supply: 60, VolumetricHeat: 4.18e6}
	for _, x := range []struct {
		end  float64
		want hydronics.Verdict
	}{{55, hydronics.Met}, {54.9, hydronics.NotMet}} {
		found, err := c.Findings(x.end)
		sound(t, found, err)
		if v := verdicts(found); v["circulation: water cools by at most 5 K around the loop"] != x.want ||
			v["circulation: pipe loses at most 11 W/m"] != hydronics.MetUnconfirmed {
			t.Errorf("%v °C: %v", x.end, v)
		}
	}
}

package dhw

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/hydronics"
)

func TestTemperatureRules(t *testing.T) {
	for _, c := range []struct {
		book    Rulebook
		reading Reading
		want    hydronics.Verdict
	}{
		{W551, Reading{Point: StoredWater, Temperature: 60}, hydronics.Met},
		{W551, Reading{Point: StoredWater, Temperature: 59.9}, hydronics.NotMet},
		{W551, Reading{Point: StoredWater, Temperature: 60.5, Uncertainty: 1}, hydronics.MetWithinUncertainty},
		{W551, Reading{Point: ReturnFlow, Temperature: 54}, hydronics.NotMet},
		{HSEL8, Reading{Point: ReturnFlow, Temperature: 54}, hydronics.Met}, // the books differ
		{HSEL8, Reading{Point: HotOutlet, Temperature: 51, After: 55}, hydronics.Met},
		{HSEL8, Reading{Point: HotOutlet, Temperature: 51, After: 61}, hydronics.SeeOnSite},
		{HSEL8, Reading{Point: HotOutlet, Temperature: 51, After: 60}, hydronics.Met},
		{HSEL8, Reading{Point: HotOutlet, Temperature: 49, After: 61}, hydronics.NotMet},    // never got hot
		{HSEL8, Reading{Point: HotOutlet, Temperature: 49, After: 59}, hydronics.SeeOnSite}, // may yet
		{HSEL8, Reading{Point: HotOutlet, Temperature: 49}, hydronics.NotMet},               // planned
		{HSEL8, Reading{Point: ColdOutlet, Temperature: 21, After: 121}, hydronics.NotMet},  // never got cold
		{HSEL8, Reading{Point: ColdOutlet, Temperature: 21, After: 119}, hydronics.SeeOnSite},
		{WaterRegulations1999, Reading{Point: HotOutlet, Temperature: 51, After: 55}, hydronics.SeeOnSite},
		{ApprovedDocumentG, Reading{Point: BathOutlet, Temperature: 48.1}, hydronics.NotMet},
		{DIN1988Part200, Reading{Point: ColdOutlet, Temperature: 26, After: 30}, hydronics.NotMet},
	} {
		found, err := c.book.Findings([]Reading{c.reading})
		sound(t, found, err)
		got := hydronics.NotMet + 99
		for _, f := range found {
			if f.Value == c.reading.Temperature {
				got = f.Verdict
			} else if f.Verdict != hydronics.SeeOnSite {
				t.Errorf("%v: a point without a reading is %v", c.book, f.Verdict)
			}
			if !strings.Contains(f.Danger, ScaldCaution) && !strings.Contains(f.Danger, LegionellaCaution) && f.Danger != dangerBoil {
				t.Errorf("%v, %s: no caution", c.book, f.Rule)
			}
			if f.Bound == hydronics.AtLeast && f.Limit >= 50 && !strings.Contains(f.Danger, ScaldCaution) {
				t.Errorf("%v, %s: hot without the caution about scalds", c.book, f.Rule)
			}
		}
		// StoredWater has a second rule in some books; the last that matches counts here.
		if got != c.want {
			t.Errorf("%v, %+v: %v, want %v", c.book, c.reading, got, c.want)
		}
	}
	if _, err := IPC2018.Findings(nil); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("a book without rules: %v", err)
	}
	if _, err := W551.Findings([]Reading{{Point: StoredWater, Temperature: math.NaN()}, {}}); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("NaN and no point: %v", err)
	}
}

func TestDeadLegFindings(t *testing.T) {
	leg := DeadLeg{Pieces: []Piece{{0.015, 0.013, 9}, {0.022, 0.020, 3}}, Flow: 0.1e-3}
	for _, c := range []struct {
		book Rulebook
		rule string
		want hydronics.Verdict
	}{
		{WaterRegulations1999, "dead leg: uninsulated hot pipe no longer than its widest tube allows", hydronics.Met}, // 12 m of at most 22 mm
		{WaterRegulations1999, "dead leg: hot water within 30 s", hydronics.Met},                                      // 2.137 l at 0.1 l/s
		{W551, "dead leg: at most 3 l in a flow path without circulation", hydronics.Met},
		{IPC2018, "dead leg: source of hot water within 50 ft", hydronics.Met},
		{IRC2021, "dead leg: source of hot water within 100 ft", hydronics.Met},
	} {
		found, err := leg.Findings(c.book)
		sound(t, found, err)
		if got, ok := verdicts(found)[c.rule]; !ok || got != c.want {
			t.Errorf("%v: %v, %v", c.book, got, ok)
		}
	}
	// UK Table 8.1: 20, 12, 8 and 3 m for tubes not exceeding 12, 22, 28 mm, and larger.
	for _, c := range []struct{ outside, most float64 }{{0.010, 20}, {0.012, 20}, {0.015, 12}, {0.022, 12}, {0.028, 8}, {0.035, 3}} {
		for _, l := range []float64{c.most, c.most + 0.01} {
			d := DeadLeg{Pieces: []Piece{{c.outside, c.outside - 0.002, l}}, Flow: 1e-2}
			found, err := d.Findings(WaterRegulations1999)
			sound(t, found, err)
			got := verdicts(found)["dead leg: uninsulated hot pipe no longer than its widest tube allows"]
			if (got == hydronics.Met) != (l == c.most) {
				t.Errorf("%v m of %v m: %v", l, c.outside, got)
			}
		}
	}
	if _, err := leg.Findings(HTM0401); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("a book without a rule: %v", err)
	}
	if _, err := (DeadLeg{Pieces: []Piece{{0.015, 0.016, 1}}, Flow: 1e-4}).Stagnation(); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("bore above the outside diameter: %v", err)
	}
}

// Nothing that rests on memory reads met.
func TestFlushing(t *testing.T) {
	for _, c := range []struct {
		book  Rulebook
		hours float64
		want  hydronics.Verdict
	}{{W551, 72, hydronics.MetUnconfirmed}, {W551, 73, hydronics.NotMet}, {HSEL8, 168, hydronics.MetUnconfirmed}, {HSEL8, 169, hydronics.NotMet}} {
		found, err := SeldomUsed{Name: "guest bath", Interval: c.hours * hydronics.Hour, Vulnerable: true}.Findings(c.book)
		sound(t, found, err)
		if len(found) != 2 || found[0].Verdict != c.want || found[1].Verdict != hydronics.SeeOnSite {
			t.Errorf("%v, %v h: %+v", c.book, c.hours, found)
		}
	}
	if _, err := (SeldomUsed{}).Findings(IPC2018); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("a book without a rule: %v", err)
	}
}

func TestScaldTimesRise(t *testing.T) {
	last := 0.0
	for _, s := range ScaldTimes() {
		if s.Temperature < last || s.Time == "" || s.Origin == "" {
			t.Errorf("%+v", s)
		}
		last = s.Temperature
	}
}

func TestDisinfectionRefusals(t *testing.T) {
	d := Disinfection{Cylinder: store, Heater: Heater{{10, 6000}, {58, 3000}}, From: 50, To: 70, Hold: 1800, Ambient: 20}
	if _, err := d.Cost(); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("a heat pump that does not reach 70 °C: %v", err)
	}
	d.Heater, d.Pipes = Heater{{Power: 1000}}, 2000
	if _, err := d.Cost(); !errors.Is(err, hydronics.ErrNoSolution) {
		t.Errorf("pipes that lose more than the heater gives: %v", err)
	}
}

// The flow that Circulation.Flow asks for keeps the end where it was wanted, and
// the hand methods lie on the safe side of it.
func TestCirculationThereAndBack(t *testing.T) {
	for _, drop := range []float64{0.1, 2, 5, 20, 39.8} {
		c := Circulation{Length: 40, Transmittance: 0.2, Ambient: 20, Supply: 60, VolumetricHeat: 4.18e6}
		f, err := c.Flow(60 - drop)
		if err != nil {
			t.Fatal(err)
		}
		if !(f.Flow <= f.Mean && f.Mean <= f.Inlet) {
			t.Errorf("%v K: %+v", drop, f)
		}
		if f.Flow < minFlow {
			continue
		}
		if end, err := c.End(f.Flow); err != nil || !(math.Abs(end-(60-drop)) < 1e-9) {
			t.Errorf("%v K: end %v °C, %v", drop, end, err)
		}
	}
}

func TestPressureBudgetFinding(t *testing.T) {
	b := PressureBudget{Main: 3.5e5, Height: 7, Temperature: 10, Devices: []PressureLoss{{"meter", 65e3}, {"filter", 20e3}}, Tap: 1e5, Length: 25, Pipes: 96e3}
	for _, c := range []struct {
		pipes float64
		want  hydronics.Verdict
	}{{96e3, hydronics.Met}, {97e3, hydronics.NotMet}} { // 350 - 68.6 - 85 - 100 = 96.4 kPa
		b.Pipes = c.pipes
		f, err := b.Finding()
		if err != nil || f.Verdict != c.want {
			t.Errorf("%v: %v of %v, %v", f.Verdict, f.Value, f.Limit, err)
		}
	}
	// The tap needs more than the main has: negative, and said so.
	b.Main = 2e5
	if r, err := b.Sum(); err != nil || !(r.Available < 0 && r.Left < 0) {
		t.Errorf("%+v, %v", r, err)
	}
}

package dhw

import (
	"math"
	"testing"

	"example.com/hydronics"
)

// The limits as the documents print them, seen second-hand: Approved Document G
// (tundish 600 mm, 500 mm before 2010; vertical pipe 300 mm; fall 1 in 200; 15 l),
// DIN 1988-2 and DIN 1988-200 as quoted (20 to 40 mm, 2 m with 2 bends, 4 m with 3,
// twice the cross-section, 10 DN, 80 %), an Austrian school book (20 mm, DN 30,
// 75 %), IPC 2018 section 504.6 (6 in, two diameters), G12/AS1 (75 to 300 mm, two
// diameters), IRC P2903.3.1 (80 psi), DVGW W 551 (5 K) and, from memory, W 553 (11 W/m).
func TestPublishedLimits(t *testing.T) {
	tundish := Tundish{Book: ApprovedDocumentG, Outlet: OutletG34, D1: 0.022, Distance: 0.5, Vertical: 0.3, D2: 0.035, Run: Straight{5, 2}, Fall: 0.01}
	older := tundish
	older.Book = ApprovedDocumentG1992
	same := Funnel{Book: DIN1988Part2, OutletDN: 20, DN: 20, Length: 1, Bends: 1, AirGap: 0.03, DrainDN: 40}
	wider, narrower, austria := same, same, same
	wider.DN, narrower.DN, austria.Book = 25, 15, AustrianPractice
	us := OpenEnd{Book: IPC2018, Outlet: 0.02, Bore: 0.025, End: 0.1}
	nz := us
	nz.Book = NewZealandG12
	german, austrian, american := feed(DIN1988Part200), feed(AustrianPractice), SetPressure{IRC2021, 6e5, 10e5, 10e5, 5e5, 0}
	part2 := american
	part2.Book = DIN1988Part2
	heat := Overheating{ApprovedDocumentG, 0.2, []HeatSource{{"coil", 60, 80}}, 90}
	loop := Circulation{30, 0.2, 20, 60, 4.18e6}
	for _, c := range []struct {
		name   string
		found  func() ([]hydronics.Finding, error)
		limits map[string]float64
	}{
		{"tundish", tundish.Findings, map[string]float64{
			"discharge pipe D1: no smaller than the valve's outlet":                 0.022,
			"discharge pipe D1: tundish near the valve":                             0.600,
			"discharge pipe D2: vertical pipe of at least 300 mm below the tundish": 0.300,
			"discharge pipe D2: resistance with bends at most that of the table":    18,
			"discharge pipe D2: fall of at least 1 in 200 after the tundish":        0.005,
		}},
		{"tundish before 2010", older.Findings, map[string]float64{"discharge pipe D1: tundish near the valve": 0.500}},
		{"funnel, same size", same.Findings, map[string]float64{
			"discharge pipe: end of the discharge at least 20 mm above the funnel":                 0.020,
			"discharge pipe: end of the discharge at most 40 mm above the funnel":                  0.040,
			"discharge pipe: discharge pipe at most 2 m of the outlet's size, 4 m one size larger": 2,
			"discharge pipe: at most 2 bends of the outlet's size, 3 one size larger":              2,
			"drain: drain after the funnel of twice the cross-section":                             0.020 * math.Sqrt2,
		}},
		{"funnel, one size larger", wider.Findings, map[string]float64{
			"discharge pipe: discharge pipe at most 2 m of the outlet's size, 4 m one size larger": 4,
			"discharge pipe: at most 2 bends of the outlet's size, 3 one size larger":              3,
		}},
		{"funnel, too narrow", narrower.Findings, map[string]float64{
			"discharge pipe: discharge pipe at most 2 m of the outlet's size, 4 m one size larger": 0,
			"discharge pipe: at most 2 bends of the outlet's size, 3 one size larger":              0,
		}},
		{"Austria", austria.Findings, map[string]float64{
			"discharge pipe: end of the discharge at least 20 mm above the funnel": 0.020,
			"drain: drain of at least DN 30":                                       0.030,
		}},
		{"open end, US", us.Findings, map[string]float64{
			"discharge pipe: end high enough above floor, receptor or grate": 0.050,
			"discharge pipe: end low enough above floor, receptor or grate":  6 * 0.0254,
		}},
		{"open end, NZ", nz.Findings, map[string]float64{
			"discharge pipe: end high enough above floor, receptor or grate":    0.075,
			"discharge pipe: end low enough above floor, receptor or grate":     0.300,
			"discharge pipe: air gap over the tundish of at least two bores":    0.050,
			"discharge pipe: discharge pipe no smaller than the valve's outlet": 0.020,
		}},
		{"feed, Germany", german.Findings, map[string]float64{
			"relief valve: pipe to the relief valve at most ten nominal sizes long": 0.150,
			"relief valve: relief valve above the top of the cylinder":              0,
			"relief valve: relief valve of the size for content and heat input":     0.015,
		}},
		{"feed, Austria", austrian.Findings, map[string]float64{"relief valve: relief valve above the top of the cylinder": 0}},
		{"pressure, US", american.Findings, map[string]float64{
			"mains: static pressure at most 80 psi":    551580.6,
			"relief valve: set pressure at most 1 MPa": 1e6,
		}},
		{"pressure, DIN 1988-2", part2.Findings, map[string]float64{"mains: cold water pressure at most its share of the set pressure": 4.8e5}},
		{"overheating", heat.Findings, map[string]float64{
			"coil: cut-out at most at 100 °C":                            100,
			"cylinder: temperature relief valve opens at 100 °C at most": 100,
			"coil: thermostat set no higher than the cut-out":            80,
		}},
		{"circulation", func() ([]hydronics.Finding, error) { return loop.Findings(55) }, map[string]float64{
			"circulation: water cools by at most 5 K around the loop": 5,
			"circulation: pipe loses at most 11 W/m":                  11,
		}},
	} {
		found, err := c.found()
		sound(t, found, err)
		left := len(c.limits)
		for _, f := range found {
			want, ok := c.limits[f.Subject+": "+f.Rule]
			if !ok {
				continue
			}
			left--
			if !(math.Abs(f.Limit-want) <= 1e-7*math.Abs(want)) {
				t.Errorf("%s: %s: limit %v, published %v", c.name, f.Rule, f.Limit, want)
			}
		}
		if left != 0 {
			t.Errorf("%s: %d rules are missing among %v", c.name, left, verdicts(found))
		}
	}
}

// The edges of content: 10 l without a non-return valve, 15 l without a
// temperature relief valve, and not a hundredth of a litre more.
func TestPublishedContents(t *testing.T) {
	for _, c := range []struct {
		litres float64
		needed bool
	}{{10, false}, {10.01, true}} {
		f := Feed{Book: DIN1988Part2, Chain: []Device{ShutOff, Relief, Store}, Content: c.litres * hydronics.Litre, HeatInput: 2e3, ReliefDN: 15}
		found, err := f.Findings()
		sound(t, found, err)
		got, asked := verdicts(found)["cold feed: a non-return valve or backflow preventer stands before the relief valve"]
		if asked != c.needed || (asked && got != hydronics.NotMet) {
			t.Errorf("%v l: asked %v, %v", c.litres, asked, got)
		}
	}
	for _, c := range []struct {
		litres float64
		needed bool
	}{{15, false}, {15.01, true}} {
		found, err := Overheating{ApprovedDocumentG, c.litres * hydronics.Litre, []HeatSource{{"coil", 60, 80}}, 0}.Findings()
		sound(t, found, err)
		if _, asked := verdicts(found)["cylinder: a temperature relief valve stands on the cylinder"]; asked != c.needed {
			t.Errorf("%v l: asked %v", c.litres, asked)
		}
	}
}

// A discharge pipe narrower than the outlet holds the relief valve back in any
// country, though no Austrian document that forbids it was seen.
func TestNarrowDischarge(t *testing.T) {
	for book, want := range map[Rulebook]hydronics.Verdict{DIN1988Part2: hydronics.Met, AustrianPractice: hydronics.MetUnconfirmed} {
		for dn, verdict := range map[int]hydronics.Verdict{15: hydronics.NotMet, 20: want, 25: want} {
			found, err := Funnel{Book: book, OutletDN: 20, DN: dn, Length: 1, Bends: 1, AirGap: 0.03, DrainDN: 40}.Findings()
			sound(t, found, err)
			if got, asked := verdicts(found)["discharge pipe: discharge pipe no narrower than the outlet"]; !asked || got != verdict {
				t.Errorf("%v, DN %d: %v, asked %v", book, dn, got, asked)
			}
		}
	}
}

// Both codes of the United States want a temperature relief valve on every store.
func TestTemperatureReliefInTheUnitedStates(t *testing.T) {
	for _, book := range []Rulebook{IPC2018, IRC2021} {
		for setting, want := range map[float64]hydronics.Verdict{0: hydronics.NotMet, 99: hydronics.MetUnconfirmed} {
			found, err := Overheating{book, 0.2, []HeatSource{{"coil", 60, 80}}, setting}.Findings()
			sound(t, found, err)
			if got, asked := verdicts(found)["cylinder: a temperature relief valve stands on the cylinder"]; !asked || got != want {
				t.Errorf("%v, %v °C: %v, asked %v", book, setting, got, asked)
			}
		}
	}
}

package dhw

import "testing"

var benchHeater = Heater{{5, 7000}, {35, 6000}, {55, 4500}, {60, 3000}}

// Scalar calculations allocate nothing.
func TestNoAllocations(t *testing.T) {
	day := family(t)
	for name, f := range map[string]func(){
		"HotShare":            func() { _, _ = HotShare(10, 40, 60) },
		"Amount.At":           func() { _, _ = Amount{0.2, 60}.At(40, 10) },
		"Cylinder.Reheat":     func() { _, _ = store.Reheat(benchHeater, 10, 58, 20) },
		"Cylinder.Cool":       func() { _, _ = store.Cool(60, 20, 3600) },
		"VolumetricHeat":      func() { _, _ = VolumetricHeat(10, 60) },
		"Coil.Effectiveness":  func() { _, _ = Coil{800, 1000, 60}.Effectiveness() },
		"Effectiveness":       func() { _, _ = Effectiveness(Counterflow, 2, 0.5) },
		"ReliefValveFor":      func() { _, _ = ReliefValveFor(0.3, 20e3) },
		"SizeDischarge":       func() { _, _ = SizeDischarge(OutletG12, Straight{7, 4}) },
		"DischargeResistance": func() { _, _ = DischargeResistance(OutletG12, 0.028, Straight{7, 4}) },
		"Cylinder.MixedWater": func() { _, _ = Cylinder{Volume: 0.2, Nodes: 10}.MixedWater(60, 40, 10) },
		"OutletTemperature":   func() { _, _ = Cylinder{Volume: 0.2, Nodes: 10}.OutletTemperature(0.1, 60, 10) },
		"PeakCurve.Flow":      func() { _, _ = ResidentialPeak().Flow(1e-3) },
		"Profile.Energy":      func() { _, _ = day.Profile.Energy() },
		"Profile.Busiest":     func() { _, _ = day.Profile.Busiest(3600) },
		"Profile.SumLine":     func() { _, _ = day.Profile.SumLine(3000) },
		"Day.Run":             func() { _, _ = day.Run(nil) },
		"StaticHead":          func() { _, _ = StaticHead(6, 10) },
		"Circulation.Flow":    func() { _, _ = Circulation{30, 0.2, 20, 60, 4.18e6}.Flow(55) },
		"Disinfection.Cost": func() {
			_, _ = Disinfection{Cylinder: store, Heater: benchHeater, From: 50, To: 58, Hold: 1800, Ambient: 20}.Cost()
		},
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

func BenchmarkReheat(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := store.Reheat(benchHeater, 10, 58, 20); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSizeDischarge(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := SizeDischarge(OutletG34, Straight{12, 5}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMixedWater(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := (Cylinder{Volume: 0.2, Nodes: 10}).MixedWater(60, 40, 10); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFeedFindings(b *testing.B) {
	f := feed(DIN1988Part200)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Findings(); err != nil {
			b.Fatal(err)
		}
	}
}

// 60 flats, as in the table of fixtures.
func BenchmarkDemandOfFixtures(b *testing.B) {
	g := []Fixtures{{60, 0.055, 5.5e-5}, {60, 0.01, 3e-5}, {60, 0.02, 1.5e-5}, {60, 0.02, 2.2e-5}, {60, 0.005, 1.3e-5}, {60, 0.055, 3.5e-5}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := DemandOfFixtures(g, 0.99, 1e-6); err != nil {
			b.Fatal(err)
		}
	}
}

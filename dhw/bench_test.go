package dhw

import "testing"

var benchHeater = Heater{{5, 7000}, {35, 6000}, {55, 4500}, {60, 3000}}

// Scalar calculations allocate nothing.
func TestNoAllocations(t *testing.T) {
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

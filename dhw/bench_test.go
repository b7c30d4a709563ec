package dhw

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/internal/calls"
	"example.com/hydronics/internal/edge"
)

func scalars(tb testing.TB) calls.List {
	heater := Heater{{5, 7000}, {35, 6000}, {55, 4500}, {60, 3000}}
	day := family(tb)
	layered := Cylinder{Volume: 0.2, Nodes: 10}
	loop := Circulation{30, 0.2, 20, 60, 4.18e6}
	demand := StoreDemand{Amount{0.1, 60}, 10, 55, 40, 1e6, 1e7, 3600, 4.184e6}
	supply, _ := DIN1988Part200.SupplyRule()
	return calls.List{
		"HotShare":                   func() error { return edge.Err(HotShare(10, 40, 60)) },
		"Amount.At":                  func() error { return edge.Err(Amount{0.2, 60}.At(40, 10)) },
		"VolumetricHeat":             func() error { return edge.Err(VolumetricHeat(10, 60)) },
		"LossCoefficient":            func() error { return edge.Err(LossCoefficient(60)) },
		"LossClassOf":                func() error { return edge.Err(LossClassOf(0.2, 60)) },
		"Cylinder.Reheat":            func() error { return edge.Err(store.Reheat(heater, 10, 58, 20)) },
		"Cylinder.Cool":              func() error { return edge.Err(store.Cool(60, 20, 3600)) },
		"Cylinder.MixedWater":        func() error { return edge.Err(layered.MixedWater(60, 40, 10)) },
		"Cylinder.OutletTemperature": func() error { return edge.Err(layered.OutletTemperature(0.1, 60, 10)) },
		"Coil.Effectiveness":         func() error { return edge.Err(Coil{800, 1000, 60}.Effectiveness()) },
		"Effectiveness":              func() error { return edge.Err(Effectiveness(Counterflow, 2, 0.5)) },
		"ReliefValveFor":             func() error { return edge.Err(ReliefValveFor(0.3, 20e3)) },
		"SupplyRule.MaxSupply":       func() error { return edge.Err(supply.MaxSupply(1e6)) },
		"SizeDischarge":              func() error { return edge.Err(SizeDischarge(OutletG12, Straight{7, 4})) },
		"DischargeResistance":        func() error { return edge.Err(DischargeResistance(OutletG12, 0.028, Straight{7, 4})) },
		"PeakCurve.Flow":             func() error { return edge.Err(ResidentialPeak().Flow(1e-3)) },
		"Profile.Energy":             func() error { return edge.Err(day.Profile.Energy()) },
		"Profile.Busiest":            func() error { return edge.Err(day.Profile.Busiest(3600)) },
		"Profile.Between":            func() error { return edge.Err(day.Profile.Between(0, 3e4)) },
		"Profile.Volume":             func() error { return edge.Err(day.Profile.Volume(60, 10, 4.18e6)) },
		"Profile.SumLine":            func() error { return edge.Err(day.Profile.SumLine(3000)) },
		"StoreDemand.Part":           func() error { return edge.Err(demand.Part()) },
		"StoreDemand.Full":           func() error { return edge.Err(demand.Full(8 * hydronics.Hour)) },
		"Day.Run":                    func() error { return edge.Err(day.Run(nil)) },
		"StaticHead":                 func() error { return edge.Err(StaticHead(6, 10)) },
		"Circulation.Flow":           func() error { return edge.Err(loop.Flow(55)) },
		"Circulation.End":            func() error { return edge.Err(loop.End(5e-5)) },
		"BranchFlow":                 func() error { return edge.Err(BranchFlow(1e-4, 10, 20)) },
		"LoadingUnits":               func() error { return edge.Err(LoadingUnits("kitchen sink")) },
		"DeadLeg.Stagnation":         func() error { return edge.Err(DeadLeg{[]Piece{{0.015, 0.013, 5}}, 1e-4}.Stagnation()) },
		"Disinfection.Cost": func() error {
			return edge.Err(Disinfection{Cylinder: store, Heater: heater, From: 50, To: 58, Hold: 1800, Ambient: 20}.Cost())
		},
	}
}

func TestScalarsAllocateNothing(t *testing.T) { scalars(t).AllocateNothing(t) }

func BenchmarkScalars(b *testing.B) { scalars(b).Benchmark(b) }

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

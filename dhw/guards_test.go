package dhw

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/internal/edge"
)

// A guard is a number that a calculation takes from low to high, both included.
type guard struct {
	call      string
	quantity  string // as the RangeError names it
	low, high float64
	try       func(x float64) error
	near      bool // far outside, and for no number, another limit speaks first
}

// Every limit is tried just inside and just outside. One that is infinite in the
// table is another's to test.
func TestGuards(t *testing.T) {
	for _, g := range guards(t) {
		t.Run(g.call+", "+g.quantity, func(t *testing.T) {
			if !g.near {
				edge.Check(t, g.quantity, g.low, g.high, 0, g.try)
				return
			}
			for _, end := range []struct{ at, beyond float64 }{{g.low, math.Inf(-1)}, {g.high, math.Inf(1)}} {
				if math.IsInf(end.at, 0) {
					continue
				}
				if err := g.try(end.at); err != nil {
					t.Errorf("%v: %v", end.at, err)
				}
				x := math.Nextafter(end.at, end.beyond)
				if r := edge.Named(g.try(x), g.quantity); r == nil || r.Value != x {
					t.Errorf("%v: %v", x, g.try(x))
				}
			}
		})
	}
}

func guards(t *testing.T) []guard {
	all := append(mixingGuards(), storeGuards(t)...)
	all = append(all, demandGuards(t)...)
	all = append(all, pipeGuards()...)
	return append(all, safetyGuards()...)
}

func mixingGuards() []guard {
	c := Cylinder{Volume: 0.2, Nodes: 5, VolumetricHeat: 4.18e6, LossCoefficient: 1.5}
	cool := func(set func(c *Cylinder, x float64)) func(x float64) error {
		return edge.With(c, set, func(c Cylinder) error { return edge.Err(c.Cool(50, 20, 3600)) })
	}
	mixed := func(set func(c *Cylinder, x float64)) func(x float64) error {
		return edge.With(c, set, func(c Cylinder) error { return edge.Err(c.MixedWater(60, 40, 10)) })
	}
	return []guard{
		{"HotShare", "cold water", 0, math.Inf(1), func(x float64) error { return edge.Err(HotShare(x, 60, 60)) }, false},
		{"HotShare", "hot water", 10.1, 100, func(x float64) error { return edge.Err(HotShare(10, 10, x)) }, false},
		{"HotShare", "mixed water", 10, 60, func(x float64) error { return edge.Err(HotShare(10, x, 60)) }, false},
		{"Amount.At", "volume", 0, 1000, func(x float64) error { return edge.Err(Amount{x, 60}.At(40, 10)) }, false},
		{"Amount.At", "cold water", 0, math.Inf(1), func(x float64) error { return edge.Err(Amount{1, 100}.At(100, x)) }, false},
		{"Amount.At", "temperature of the amount", 10.1, 100, func(x float64) error { return edge.Err(Amount{1, x}.At(40, 10)) }, false},
		{"Amount.At", "temperature asked for", 10.1, 100, func(x float64) error { return edge.Err(Amount{1, 60}.At(x, 10)) }, false},
		{"VolumetricHeat", "cold water", 0, 100, func(x float64) error { return edge.Err(VolumetricHeat(x, 60)) }, false},
		{"VolumetricHeat", "hot water", 0, 100, func(x float64) error { return edge.Err(VolumetricHeat(10, x)) }, false},
		{"LossCoefficient", "standing loss", 0, 2000, func(x float64) error { return edge.Err(LossCoefficient(x)) }, false},
		{"Cylinder.Cool", "cylinder volume", 1e-3, 10, cool(func(c *Cylinder, x float64) { c.Volume = x }), false},
		{"Cylinder.Cool", "volumetric heat", 3.8e6, 4.3e6, cool(func(c *Cylinder, x float64) { c.VolumetricHeat = x }), false},
		{"Cylinder.Cool", "loss coefficient", 0, 100, cool(func(c *Cylinder, x float64) { c.LossCoefficient = x }), false},
		{"Cylinder.Cool", "start", 0, 100, func(x float64) error { return edge.Err(c.Cool(x, 20, 3600)) }, false},
		{"Cylinder.Cool", "ambient temperature", -40, 60, func(x float64) error { return edge.Err(c.Cool(50, x, 3600)) }, false},
		{"Cylinder.Cool", "time", 0, 366 * 86400, func(x float64) error { return edge.Err(c.Cool(50, 20, x)) }, false},
		{"Cylinder.MixedWater", "cylinder volume", 1e-3, 10, mixed(func(c *Cylinder, x float64) { c.Volume = x }), false},
		{"Cylinder.MixedWater", "cold water", 0, math.Inf(1), func(x float64) error { return edge.Err(c.MixedWater(60, 40, x)) }, false},
		{"Cylinder.MixedWater", "mixed water", 10.1, math.Inf(1), func(x float64) error { return edge.Err(c.MixedWater(100, x, 10)) }, false},
		{"Cylinder.MixedWater", "hot water", 40, 100, func(x float64) error { return edge.Err(c.MixedWater(x, 40, 10)) }, false},
		{"Cylinder.OutletTemperature", "drawn volume", 0, 100, func(x float64) error { return edge.Err(c.OutletTemperature(x, 60, 10)) }, false},
		{"Cylinder.OutletTemperature", "hot water", 0, 100, func(x float64) error { return edge.Err(c.OutletTemperature(0.1, x, 10)) }, false},
		{"Cylinder.Fit", "mixed water", 1e-6, 100, func(x float64) error { return edge.Err(c.Fit(DrawTest{60, 40, 10, x})) }, false},
	}
}

func storeGuards(t *testing.T) []guard {
	c := Cylinder{Volume: 0.2, Nodes: 5, VolumetricHeat: 4.18e6, LossCoefficient: 1.5}
	coil := Coil{Transmittance: 500, CapacityRate: 700, Inlet: 60}
	coils := func(set func(c *Coil, x float64)) func(x float64) error {
		return edge.With(coil, set, func(c Coil) error { return edge.Err(c.Heater()) })
	}
	valid := family(t)
	valid.Profile = Profile{Draws: []Draw{{3600, 1e6, 1e-4, 40, 0}}}
	day := func(set func(d *Day, x float64)) func(x float64) error {
		return edge.With(valid, set, func(d Day) error { return edge.Err(d.Run(nil)) })
	}
	disinfection := func(set func(d *Disinfection, x float64)) func(x float64) error {
		return edge.With(Disinfection{Cylinder: c, Heater: Heater{{Power: 1e6}}, From: 50, To: 70, Hold: 600, Ambient: 20}, set,
			func(d Disinfection) error { return edge.Err(d.Cost()) })
	}
	return []guard{
		{"Cylinder.Reheat", "heater power", math.Inf(-1), 1e6, func(x float64) error { return edge.Err(c.Reheat(Heater{{Power: x}}, 10, 50, 20)) }, false},
		{"Cylinder.Reheat, stored", "heater power", 0, math.Inf(1), func(x float64) error { return edge.Err(c.Reheat(Heater{{Power: x}}, 10, 10, 20)) }, false},
		{"Cylinder.Reheat", "start", 0, math.Inf(1), func(x float64) error { return edge.Err(c.Reheat(Heater{{Power: 1e4}}, x, 100, 20)) }, false},
		{"Cylinder.Reheat", "end", 10, 100, func(x float64) error { return edge.Err(c.Reheat(Heater{{Power: 1e4}}, 10, x, 20)) }, false},
		{"Cylinder.Reheat", "ambient temperature", -40, 60, func(x float64) error { return edge.Err(c.Reheat(Heater{{Power: 1e4}}, 10, 50, x)) }, false},
		{"Cylinder.Reheat, low", "store temperature", 5, math.Inf(1), func(x float64) error { return edge.Err(c.Reheat(Heater{{5, 1e4}, {60, 5e3}}, x, 60, 20)) }, true},
		{"Cylinder.Reheat, high", "store temperature", math.Inf(-1), 60, func(x float64) error {
			return edge.Err(c.Reheat(Heater{{5, 1e4}, {60, 5e3}}, 50, x, 20))
		}, true},
		{"Heater", "store temperature of a heater point", 0, math.Inf(1), func(x float64) error { return edge.Err(c.Reheat(Heater{{x, 1e4}, {130, 5e3}}, 60, 60, 20)) }, false},
		{"Heater, last", "store temperature of a heater point", math.Inf(-1), 130, func(x float64) error { return edge.Err(c.Reheat(Heater{{0, 1e4}, {x, 5e3}}, 10, 50, 20)) }, false},
		{"Coil", "transmittance", 0.1, 1e5, coils(func(c *Coil, x float64) { c.Transmittance = x }), false},
		{"Coil", "capacity rate", 0.1, 1e5, coils(func(c *Coil, x float64) { c.CapacityRate = x }), false},
		{"Coil", "primary inlet", 0.1, 130, coils(func(c *Coil, x float64) { c.Inlet = x }), false},
		{"Effectiveness", "number of transfer units", 0, 100, func(x float64) error { return edge.Err(Effectiveness(Counterflow, x, 0.5)) }, false},
		{"Effectiveness", "ratio of capacity rates", 0, 1, func(x float64) error { return edge.Err(Effectiveness(Parallel, 1, x)) }, false},
		{"Effectiveness, isothermal", "ratio of capacity rates", 0, 0, func(x float64) error { return edge.Err(Effectiveness(Isothermal, 1, x)) }, false},
		{"Day.Run", "height of the coil", 1e-3, 1, day(func(d *Day, x float64) { d.Coil = x }), false},
		{"Day.Run", "height of the sensor", 0, 1, day(func(d *Day, x float64) { d.Sensor = x }), false},
		{"Day.Run", "temperature to start heating", 0, math.Inf(1), day(func(d *Day, x float64) { d.On, d.Off = x, 100 }), false},
		{"Day.Run", "temperature to stop heating", valid.On + smallestRise, 100, day(func(d *Day, x float64) { d.Off = x }), false},
		{"Day.Run", "start temperature", math.Inf(-1), 100, day(func(d *Day, x float64) { d.Start = x }), false},
		{"Day.Run", "cold water", math.Inf(-1), math.Inf(1), day(func(d *Day, x float64) { d.Cold = x }), false},
		{"Day.Run", "wanted temperature of a draw-off", valid.Cold + smallestRise, math.Inf(1), day(func(d *Day, x float64) {
			d.Profile = Profile{Draws: []Draw{{3600, 1e5, 1e-4, x, 0}}}
		}), true},
		{"Day.Run", "ambient temperature", math.Inf(-1), 60, day(func(d *Day, x float64) { d.Ambient = x }), false},
		{"Day.Run", "step", 1, 600, day(func(d *Day, x float64) { d.Step = x }), false},
		{"Draw", "start of a draw-off", 0, math.Inf(1), day(func(d *Day, x float64) { d.Profile = Profile{Draws: []Draw{{x, 1e5, 1e-4, 40, 0}}} }), false},
		{"Profile.Energy", "start of a draw-off", 0, 86400, func(x float64) error { return edge.Err(Profile{Draws: []Draw{{x, 1e5, 1e-4, 40, 0}}}.Energy()) }, false},
		{"Profile.Energy", "energy of a draw-off", 1, 1e9, func(x float64) error { return edge.Err(Profile{Draws: []Draw{{0, x, 1e-4, 40, 0}}}.Energy()) }, false},
		{"Profile.Energy", "flow of a draw-off", 1e-7, 0.1, func(x float64) error { return edge.Err(Profile{Draws: []Draw{{0, 1e5, x, 40, 0}}}.Energy()) }, false},
		{"Profile.Energy", "useful temperature", 0, 100, func(x float64) error { return edge.Err(Profile{Draws: []Draw{{0, 1e5, 1e-4, x, 0}}}.Energy()) }, false},
		{"Profile.Energy", "peak temperature", 0, 100, func(x float64) error { return edge.Err(Profile{Draws: []Draw{{0, 1e5, 1e-4, 40, x}}}.Energy()) }, false},
		{"Disinfection.Cost", "time to hold", 0, 366 * 86400, disinfection(func(d *Disinfection, x float64) { d.Hold = x }), false},
		{"Disinfection.Cost", "loss of the pipes", 0, 1e5, disinfection(func(d *Disinfection, x float64) { d.Pipes = x }), false},
	}
}

func demandGuards(t *testing.T) []guard {
	m, err := LoadProfile("M")
	if err != nil {
		t.Fatal(err)
	}
	demand := func(set func(d *StoreDemand, x float64)) func(x float64) error {
		return edge.With(StoreDemand{Amount{0.1, 60}, 10, 55, 40, 1e6, 1e7, 3600, 4.184e6}, set, func(d StoreDemand) error { return edge.Err(d.Part()) })
	}
	curve := func(set func(c *PeakCurve, x float64)) func(x float64) error {
		return edge.With(ResidentialPeak(), set, func(c PeakCurve) error { return edge.Err(c.Flow(0.1)) })
	}
	fixtures := func(set func(f *Fixtures, x float64)) func(x float64) error {
		return edge.With(Fixtures{4, 0.1, 1e-4}, set, func(f Fixtures) error { return edge.Err(DemandOfFixtures([]Fixtures{f}, 0.99, 1e-4)) })
	}
	hourly := func(set func(d *HourlyDemand, x float64)) func(x float64) error {
		return edge.With(HourlyDemand{[]FixtureUse{{10, 0.05}}, 0.3, 1.25, 0.7}, set, func(d HourlyDemand) error { return edge.Err(d.Size()) })
	}
	return []guard{
		{"Profile.Busiest", "length of the stretch", 0, 86400, func(x float64) error { return edge.Err(m.Busiest(x)) }, false},
		{"Profile.Between", "start of the stretch", 0, 86400, func(x float64) error { return edge.Err(m.Between(x, 86400)) }, false},
		{"Profile.Between", "end of the stretch", 3600, 86400, func(x float64) error { return edge.Err(m.Between(3600, x)) }, false},
		{"Profile.Volume", "cold water", 0, math.Inf(1), func(x float64) error { return edge.Err(m.Volume(100, x, 4.18e6)) }, false},
		{"Profile.Volume", "hot water", 10.1, 100, func(x float64) error { return edge.Err(m.Volume(x, 10, 4.18e6)) }, false},
		{"Profile.Volume", "volumetric heat", 3.8e6, 4.3e6, func(x float64) error { return edge.Err(m.Volume(60, 10, x)) }, false},
		{"Profile.SumLine", "power", math.Inf(-1), 1e6, func(x float64) error { return edge.Err(m.SumLine(x)) }, false},
		{"StoreDemand.Part", "daily volume", 0, 1000, demand(func(d *StoreDemand, x float64) { d.Day.Volume = x }), false},
		{"StoreDemand.Part", "cold water", 0, math.Inf(1), demand(func(d *StoreDemand, x float64) { d.Cold = x }), false},
		{"StoreDemand.Part", "temperature of the daily volume", 10.1, 100, demand(func(d *StoreDemand, x float64) { d.Day.Temperature = x }), false},
		{"StoreDemand.Part", "store temperature", 10.1, 100, demand(func(d *StoreDemand, x float64) { d.Stored, d.Usable = x, 10 }), false},
		{"StoreDemand.Part", "usable temperature", 10, 55, demand(func(d *StoreDemand, x float64) { d.Usable = x }), false},
		{"StoreDemand.Part", "daily loss", 0, 1e9, demand(func(d *StoreDemand, x float64) { d.DailyLoss = x }), false},
		{"StoreDemand.Part", "critical energy", 0, 1e10, demand(func(d *StoreDemand, x float64) { d.Critical = x }), false},
		{"StoreDemand.Part", "critical time", 60, 86400, demand(func(d *StoreDemand, x float64) { d.CriticalTime = x }), false},
		{"StoreDemand.Part", "volumetric heat", 3.8e6, 4.3e6, demand(func(d *StoreDemand, x float64) { d.VolumetricHeat = x }), false},
		{"StoreDemand.Full", "heating time", 600, 86400, func(x float64) error {
			return edge.Err(StoreDemand{Amount{0.1, 60}, 10, 55, 40, 1e6, 1e7, 3600, 4.184e6}.Full(x))
		}, false},
		{"PeakCurve.Flow", "sum of design flows", 0, 0.5, func(x float64) error { return edge.Err(ResidentialPeak().Flow(x)) }, false},
		{"PeakCurve.Flow", "constant a", math.Inf(-1), 5, curve(func(c *PeakCurve, x float64) { c.A = x }), false},
		{"PeakCurve.Flow, none taken off", "constant a", 1e-6, math.Inf(1), curve(func(c *PeakCurve, x float64) { c.A, c.C = x, 0 }), false},
		{"PeakCurve.Flow", "constant b", 0, 1, curve(func(c *PeakCurve, x float64) { c.B = x }), false},
		{"PeakCurve.Flow", "constant c", -1, math.Inf(1), curve(func(c *PeakCurve, x float64) { c.C = x }), false},
		{"PeakCurve.Flow, steep", "constant c", math.Inf(-1), 5, curve(func(c *PeakCurve, x float64) { c.A, c.B, c.C = 5, 0.5, x }), false},
		{"PeakCurve.Peak", "design flow", 0, 0.01, func(x float64) error { return edge.Err(ResidentialPeak().Peak([][]float64{{x}})) }, false},
		{"LoadingSection.Tube", "length of the section", 0, 1000, func(x float64) error { return edge.Err(LoadingSection{"PB", 4, 2, x}.Tube()) }, false},
		{"DemandOfFixtures", "quantile", 0.5, 1 - 1e-9, func(x float64) error { return edge.Err(DemandOfFixtures([]Fixtures{{4, 0.1, 1e-4}}, x, 1e-4)) }, false},
		{"DemandOfFixtures", "step of flow", 1e-9, 0.01, func(x float64) error { return edge.Err(DemandOfFixtures(nil, 0.99, x)) }, false},
		{"DemandOfFixtures", "probability", 0, 1, fixtures(func(f *Fixtures, x float64) { f.Probability = x }), false},
		{"DemandOfFixtures", "flow of a fixture", math.Inf(-1), 0.01, fixtures(func(f *Fixtures, x float64) { f.Flow = x }), false},
		{"HourlyDemand.Size", "demand factor", 1e-3, 1, hourly(func(d *HourlyDemand, x float64) { d.DemandFactor = x }), false},
		{"HourlyDemand.Size", "storage factor", 1e-3, 24, hourly(func(d *HourlyDemand, x float64) { d.StorageFactor = x }), false},
		{"HourlyDemand.Size", "usable share", 0.01, 1, hourly(func(d *HourlyDemand, x float64) { d.UsableShare = x }), false},
		{"HourlyDemand.Size", "hourly use", 0, 10, hourly(func(d *HourlyDemand, x float64) { d.Uses = []FixtureUse{{1, x}} }), false},
		{"LossClassOf", "content", 1e-3, 2, func(x float64) error { return edge.Err(LossClassOf(x, 60)) }, false},
		{"LossClassOf", "standing loss", 0, 2000, func(x float64) error { return edge.Err(LossClassOf(0.2, x)) }, false},
	}
}

func pipeGuards() []guard {
	loop := Circulation{30, 0.2, 20, 60, 4.18e6}
	circulation := func(set func(c *Circulation, x float64)) func(x float64) error {
		return edge.With(loop, set, func(c Circulation) error { return edge.Err(c.End(1e-4)) })
	}
	leg := DeadLeg{[]Piece{{0.015, 0.013, 5}}, 1e-4}
	piece := func(set func(p *Piece, x float64)) func(x float64) error {
		return edge.With(leg.Pieces[0], set, func(p Piece) error { return edge.Err(DeadLeg{[]Piece{p}, 1e-4}.Stagnation()) })
	}
	budget := func(set func(b *PressureBudget, x float64)) func(x float64) error {
		return edge.With(PressureBudget{Main: 4e5, Height: 6, Temperature: 10, Tap: 1e5, Length: 20}, set, func(b PressureBudget) error { return edge.Err(b.Sum()) })
	}
	return []guard{
		{"Circulation.End", "length", 0.01, 1e4, circulation(func(c *Circulation, x float64) { c.Length = x }), false},
		{"Circulation.End", "transmittance", 0.01, 10, circulation(func(c *Circulation, x float64) { c.Transmittance = x }), false},
		{"Circulation.End", "ambient temperature", -40, math.Inf(1), circulation(func(c *Circulation, x float64) { c.Ambient = x }), false},
		{"Circulation.End, hot", "ambient temperature", math.Inf(-1), 60, circulation(func(c *Circulation, x float64) { c.Ambient, c.Supply = x, 90 }), false},
		{"Circulation.End", "supply", 20.1, 100, circulation(func(c *Circulation, x float64) { c.Supply = x }), false},
		{"Circulation.End", "volumetric heat", 3.8e6, 4.3e6, circulation(func(c *Circulation, x float64) { c.VolumetricHeat = x }), false},
		{"Circulation.End", "flow", 1e-7, 0.1, func(x float64) error { return edge.Err(loop.End(x)) }, false},
		{"Circulation.Flow", "temperature at the end", 20.1, 59.9, func(x float64) error { return edge.Err(loop.Flow(x)) }, false},
		{"BranchFlow", "flow", 0, 0.1, func(x float64) error { return edge.Err(BranchFlow(x, 50, 100)) }, false},
		{"BranchFlow", "loss of the branch", 0, 1e6, func(x float64) error { return edge.Err(BranchFlow(1e-4, x, 100)) }, false},
		{"BranchFlow", "loss straight on", 0, 1e6, func(x float64) error { return edge.Err(BranchFlow(1e-4, 50, x)) }, false},
		{"BranchFlow, one way", "loss of both", 1e-6, math.Inf(1), func(x float64) error {
			return edge.Err(BranchFlow(1e-4, x, 0))
		}, true},
		{"DeadLeg.Stagnation", "flow", 1e-7, 0.1, func(x float64) error { return edge.Err(DeadLeg{leg.Pieces, x}.Stagnation()) }, false},
		{"DeadLeg.Stagnation", "bore", 0.002, 0.5, piece(func(p *Piece, x float64) { p.Bore, p.Outside = x, 0.5 }), false},
		{"DeadLeg.Stagnation", "outside diameter", 0.013, 0.5, piece(func(p *Piece, x float64) { p.Outside = x }), false},
		{"DeadLeg.Stagnation, thin", "outside diameter", 0.005, 0.5, piece(func(p *Piece, x float64) { p.Bore, p.Outside = 0.003, x }), false},
		{"DeadLeg.Stagnation", "length", 0, 1000, piece(func(p *Piece, x float64) { p.Length = x }), false},
		{"StaticHead", "height", -1000, 1000, func(x float64) error { return edge.Err(StaticHead(x, 10)) }, false},
		{"StaticHead", "water", 0, 100, func(x float64) error { return edge.Err(StaticHead(5, x)) }, false},
		{"PressureBudget.Sum", "main", 2e4, 2e6, budget(func(b *PressureBudget, x float64) { b.Main = hydronics.Gauge(x) }), false},
		{"PressureBudget.Sum", "height", -1000, 1000, budget(func(b *PressureBudget, x float64) { b.Height = x }), false},
		{"PressureBudget.Sum", "flow pressure of the tap", 0, 1e6, budget(func(b *PressureBudget, x float64) { b.Tap = hydronics.Gauge(x) }), false},
		{"PressureBudget.Sum", "loss of the pipes", 0, 2e6, budget(func(b *PressureBudget, x float64) { b.Pipes = x }), false},
		{"PressureBudget.Sum", "loss of a device", 0, 2e6, budget(func(b *PressureBudget, x float64) { b.Devices = []PressureLoss{{"meter", x}} }), false},
		{"PressureBudget.Sum", "length of pipe", 1e-3, 1000, budget(func(b *PressureBudget, x float64) { b.Length = x }), false},
		{"SeldomUsed.Findings", "interval", 0, 366 * 86400, func(x float64) error { return edge.Err(SeldomUsed{"tap", x, false}.Findings(W551)) }, false},
	}
}

func safetyGuards() []guard {
	feed := func(set func(f *Feed, x float64)) func(x float64) error {
		return edge.With(Feed{Book: DIN1988Part200, Chain: []Device{ShutOff, NonReturn, Relief, Store}, Content: 0.2, HeatInput: 1e4, ReliefDN: 15}, set,
			func(f Feed) error { return edge.Err(f.Findings()) })
	}
	set := func(set func(s *SetPressure, x float64)) func(x float64) error {
		return edge.With(SetPressure{DIN1988Part200, 6e5, 10e5, 10e5, 4e5, 3e5}, set, func(s SetPressure) error { return edge.Err(s.Findings()) })
	}
	heat := func(set func(o *Overheating, x float64)) func(x float64) error {
		return edge.With(Overheating{ApprovedDocumentG, 0.2, []HeatSource{{"coil", 60, 80}}, 90}, set, func(o Overheating) error { return edge.Err(o.Findings()) })
	}
	tundish := func(set func(d *Tundish, x float64)) func(x float64) error {
		return edge.With(Tundish{Book: ApprovedDocumentG, Outlet: OutletG34, D1: 0.022, Distance: 0.5, Vertical: 0.3, D2: 0.035, Run: Straight{5, 2}, Fall: 0.01}, set,
			func(d Tundish) error { return edge.Err(d.Findings()) })
	}
	funnel := func(set func(d *Funnel, x float64)) func(x float64) error {
		return edge.With(Funnel{Book: DIN1988Part2, OutletDN: 20, DN: 20, Length: 1, Bends: 1, AirGap: 0.03, DrainDN: 40}, set, func(d Funnel) error { return edge.Err(d.Findings()) })
	}
	open := func(set func(d *OpenEnd, x float64)) func(x float64) error {
		return edge.With(OpenEnd{Book: IPC2018, Outlet: 0.02, Bore: 0.025, End: 0.1}, set, func(d OpenEnd) error { return edge.Err(d.Findings()) })
	}
	reading := func(set func(r *Reading, x float64)) func(x float64) error {
		return edge.With(Reading{Point: StoredWater, Temperature: 60}, set, func(r Reading) error { return edge.Err(W551.Findings([]Reading{r})) })
	}
	return []guard{
		{"Feed.Findings", "cylinder volume", 1e-3, 10, feed(func(f *Feed, x float64) { f.Content = x }), false},
		{"Feed.Findings", "heat input", 0, 1e6, feed(func(f *Feed, x float64) { f.HeatInput = x }), false},
		{"Feed.Findings", "height of the relief valve above the cylinder", -100, 100, feed(func(f *Feed, x float64) { f.Height = x }), false},
		{"Feed.Findings", "pipe to the relief valve", 0, 100, feed(func(f *Feed, x float64) { f.Branch = x }), false},
		{"ReliefValveFor", "cylinder volume", 1e-4, 100, func(x float64) error { return edge.Err(ReliefValveFor(x, 1e3)) }, false},
		{"ReliefValveFor", "heat input", 0, 1e7, func(x float64) error { return edge.Err(ReliefValveFor(0.2, x)) }, false},
		{"SupplyRule.MaxSupply", "set pressure", 2e4, 2e6, func(x float64) error { return edge.Err(SupplyRule{Fraction: 0.8}.MaxSupply(hydronics.Gauge(x))) }, false},
		{"SupplyRule.MaxSupply", "fraction", 0.01, 1, func(x float64) error { return edge.Err(SupplyRule{Fraction: x}.MaxSupply(6e5)) }, false},
		{"SetPressure.Findings", "set pressure", 2e4, 2e6, set(func(s *SetPressure, x float64) { s.Set = hydronics.Gauge(x) }), false},
		{"SetPressure.Findings", "rated pressure of the cylinder", 2e4, 2e6, set(func(s *SetPressure, x float64) { s.Cylinder = hydronics.Gauge(x) }), false},
		{"SetPressure.Findings", "lowest rated pressure of the components", 2e4, 2e6, set(func(s *SetPressure, x float64) { s.Lowest = hydronics.Gauge(x) }), false},
		{"SetPressure.Findings", "mains pressure", 2e4, 2e6, set(func(s *SetPressure, x float64) { s.Mains = hydronics.Gauge(x) }), false},
		{"SetPressure.Findings", "setting of the pressure reducer", 2e4, 2e6, set(func(s *SetPressure, x float64) { s.Reducer = hydronics.Gauge(x) }), false},
		{"Overheating.Findings", "cylinder volume", 1e-3, 10, heat(func(o *Overheating, x float64) { o.Content = x }), false},
		{"Overheating.Findings", "setting of the temperature relief valve", 0, 130, heat(func(o *Overheating, x float64) { o.ReliefTemp = x }), false},
		{"Overheating.Findings", "setting of the thermostat", 0, 130, heat(func(o *Overheating, x float64) { o.Sources = []HeatSource{{"coil", x, 80}} }), false},
		{"Overheating.Findings", "setting of the cut-out", 0, 130, heat(func(o *Overheating, x float64) { o.Sources = []HeatSource{{"coil", 60, x}} }), false},
		{"SizeDischarge", "length of the discharge pipe", 0, 1000, func(x float64) error { return edge.Err(SizeDischarge(OutletG12, Straight{x, 0})) }, false},
		{"Tundish.Findings", "diameter D1", 0.005, 0.1, tundish(func(d *Tundish, x float64) { d.D1 = x }), false},
		{"Tundish.Findings", "distance of the tundish", 0, 100, tundish(func(d *Tundish, x float64) { d.Distance = x }), false},
		{"Tundish.Findings", "vertical pipe below the tundish", 0, 100, tundish(func(d *Tundish, x float64) { d.Vertical = x }), false},
		{"Tundish.Findings", "fall", 0, 1, tundish(func(d *Tundish, x float64) { d.Fall = x }), false},
		{"Funnel.Findings", "length of the discharge pipe", 0, 1000, funnel(func(d *Funnel, x float64) { d.Length = x }), false},
		{"Funnel.Findings", "air gap", 0, 1, funnel(func(d *Funnel, x float64) { d.AirGap = x }), false},
		{"OpenEnd.Findings", "bore of the outlet", 0.005, 0.1, open(func(d *OpenEnd, x float64) { d.Outlet = x }), false},
		{"OpenEnd.Findings", "bore of the discharge pipe", 0.005, 0.1, open(func(d *OpenEnd, x float64) { d.Bore = x }), false},
		{"OpenEnd.Findings", "height of the end", 0, 10, open(func(d *OpenEnd, x float64) { d.End = x }), false},
		{"OpenEnd.Findings", "air gap", 0, 1, open(func(d *OpenEnd, x float64) { d.AirGap = x }), false},
		{"Rulebook.Findings", "temperature", 0, 130, reading(func(r *Reading, x float64) { r.Temperature = x }), false},
		{"Rulebook.Findings", "time after opening", 0, 3600, reading(func(r *Reading, x float64) { r.After = x }), false},
		{"Rulebook.Findings", "uncertainty", 0, 20, reading(func(r *Reading, x float64) { r.Uncertainty = x }), false},
	}
}

// Whole numbers and lists have limits too: the least and the greatest that are
// taken, and one beyond each.
func TestGuardsOfCounts(t *testing.T) {
	draws := func(n int) Profile {
		p := Profile{}
		for range n {
			p.Draws = append(p.Draws, Draw{0, 1, 1e-4, 40, 0})
		}
		return p
	}
	cylinder := func(nodes int) Cylinder { return Cylinder{0.2, nodes, 4.18e6, 1.5} }
	for _, g := range []struct {
		quantity  string
		low, high int
		try       func(n int) error
	}{
		{"nodes", 1, MaxNodes, func(n int) error { // -1 is PlugFlow
			return edge.Err(cylinder(n).MixedWater(60, 40, 10))
		}},
		{"arrangement", int(Isothermal), int(Parallel), func(n int) error { return edge.Err(Effectiveness(Arrangement(n), 1, 0)) }},
		{"number of draw-offs", 1, 10000, func(n int) error { return edge.Err(draws(n).Energy()) }},
		{"days", 1, 30, func(n int) error {
			d := family(t)
			d.Days, d.Step = n, 600
			return edge.Err(d.Run(nil))
		}},
		{"number of heater points", 1, 1000, func(n int) error {
			var h Heater
			for i := range n {
				h = append(h, HeaterPoint{float64(i) / 10, 5000})
			}
			return edge.Err(cylinder(1).Reheat(h, 0, 0, 20))
		}},
		{"use units", 1, 10000, func(n int) error { return edge.Err(ResidentialPeak().Peak(make([][]float64, n))) }},
		{"loading units", 1, 10000, func(n int) error { return edge.Err(LoadingSection{"PB", n, 1, 5}.Tube()) }},
		{"largest single loading unit", 1, 4, func(n int) error { return edge.Err(LoadingSection{"PB", 4, n, 5}.Tube()) }},
		{"number of fixtures", 0, 5000, func(n int) error { return edge.Err(DemandOfFixtures([]Fixtures{{n, 0.01, 1e-4}}, 0.99, 1e-4)) }},
		{"steps of the grid", 0, 100_000, func(n int) error {
			return edge.Err(DemandOfFixtures([]Fixtures{{n / 100_000, 0.01, 1e-3}, {n % 100_000, 0.01, 1e-8}, {1 - n/100_000, 0.01, 1e-8 * float64(n)}}, 0.99, 1e-8))
		}},
		{"uses", 1, 1000, func(n int) error { return edge.Err(HourlyDemand{make([]FixtureUse, n), 0.3, 1.25, 0.7}.Size()) }},
		{"draw-off points", 0, 100_000, func(n int) error { return edge.Err(HourlyDemand{[]FixtureUse{{n, 0.1}}, 0.3, 1.25, 0.7}.Size()) }},
		{"pieces", 1, 100, func(n int) error {
			d := DeadLeg{Flow: 1e-4}
			for range n {
				d.Pieces = append(d.Pieces, Piece{0.015, 0.013, 1})
			}
			return edge.Err(d.Stagnation())
		}},
		{"number of bends", 0, 100, func(n int) error { return edge.Err(SizeDischarge(OutletG12, Straight{0, n})) }},
		{"valve outlet", 1, 3, func(n int) error { return edge.Err(SizeDischarge(Outlet(n), Straight{1, 1})) }},
		{"devices", 1, 100, func(n int) error {
			f := Feed{Book: DIN1988Part200, Content: 0.2, ReliefDN: 15}
			for range n - 1 {
				f.Chain = append(f.Chain, Relief)
			}
			if n > 0 {
				f.Chain = append(f.Chain, Store)
			}
			return edge.Err(f.Findings())
		}},
		{"nominal size of the relief valve", 1, 100, func(n int) error {
			return edge.Err(Feed{Book: DIN1988Part200, Chain: []Device{Store}, Content: 0.2, ReliefDN: n}.Findings())
		}},
		{"rulebook", 1, len(rulebooks) - 1, func(n int) error {
			return edge.Err(Feed{Book: Rulebook(n), Chain: []Device{Store}, Content: 0.2, ReliefDN: 15}.Findings())
		}},
		{"heat sources", 1, 20, func(n int) error {
			return edge.Err(Overheating{DIN1988Part200, 0.2, make([]HeatSource, n), 0}.Findings())
		}},
		{"point", int(StoredWater), int(MixedDelivery), func(n int) error { return edge.Err(W551.Findings([]Reading{{Point: Point(n), Temperature: 60}})) }},
		{"readings", 0, 1000, func(n int) error {
			r := make([]Reading, n)
			for i := range r {
				r[i] = Reading{Point: StoredWater, Temperature: 60}
			}
			return edge.Err(W551.Findings(r))
		}},
		{"nominal size of the drain", 1, 200, func(n int) error {
			return edge.Err(Funnel{Book: AustrianPractice, OutletDN: 20, DN: 20, DrainDN: n}.Findings())
		}},
	} {
		for n, good := range map[int]bool{g.low - 1: false, g.low: true, g.high: true, g.high + 1: false} {
			if n < 0 && !(g.quantity == "arrangement") {
				continue
			}
			if n == 0 && !good && g.quantity == "steps of the grid" {
				continue
			}
			if err := g.try(n); (edge.Named(err, g.quantity) == nil) != good {
				t.Errorf("%s = %d: %v", g.quantity, n, err)
			}
		}
	}
}

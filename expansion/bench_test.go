package expansion_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	sink     float64
	testPot  = expansion.Potable{Volume: 0.2, Cold: 10, Hot: 65, Supply: 4e5, ReliefSet: 8e5, Rules: expansion.PotablePractice()}
	testTank = expansion.Vessel{Nominal: 25 * hydronics.Litre, Precharge: 0.8 * hydronics.Bar}
)

func BenchmarkSystemSize(b *testing.B) {
	s := house()
	for b.Loop() {
		z, _ := s.Size()
		sink += z.Nominal
	}
}

func BenchmarkSystemSizeDownToZero(b *testing.B) { // searches for the least volume
	s := house()
	s.Coldest = 0
	for b.Loop() {
		z, _ := s.Size()
		sink += z.Nominal
	}
}

func BenchmarkSystemWindow(b *testing.B) {
	s := house()
	for b.Loop() {
		w, _ := s.Window(testTank, 20)
		sink += float64(w.Most)
	}
}

func BenchmarkCourseAt(b *testing.B) {
	c, err := house().Course(testTank, 1.2*hydronics.Bar)
	require.NoError(b, err)
	for b.Loop() {
		state, _ := c.At(45)
		sink += float64(state.Pressure)
	}
}

func BenchmarkPotableSize(b *testing.B) {
	for b.Loop() {
		z, _ := testPot.Size()
		sink += z.Nominal
	}
}

func TestAllocations(t *testing.T) {
	s := house()
	s.Coldest = 0
	c, err := s.Course(testTank, 1.2*hydronics.Bar)
	require.NoError(t, err)
	for name, f := range map[string]func(){
		"Size":    func() { _, _ = s.Size() },
		"Window":  func() { _, _ = s.Window(testTank, 20) },
		"Course":  func() { _, _ = s.Course(testTank, 1e5) },
		"At":      func() { _, _ = c.At(45) },
		"Cycle":   func() { _, _ = c.Cycle() },
		"Potable": func() { _, _ = testPot.Size() },
	} {
		assert.Zero(t, testing.AllocsPerRun(100, f), name)
	}
}

func BenchmarkCourseCycle(b *testing.B) {
	c, err := house().Course(expansion.Vessel{Nominal: 25 * hydronics.Litre}, 1.2*hydronics.Bar)
	require.NoError(b, err)
	for b.Loop() {
		y, _ := c.Cycle()
		sink += y.Lost
	}
}

func BenchmarkJudge(b *testing.B) {
	s := house()
	for b.Loop() {
		f, _ := s.Judge(testTank, 1.2*hydronics.Bar)
		sink += f[0].Value
	}
}

func BenchmarkValveSteam(b *testing.B) {
	v := valve()
	for b.Loop() {
		r, _ := v.Steam(0, 0)
		sink += r.Heat
	}
}

func BenchmarkEquilibriumSteamFlux(b *testing.B) {
	for b.Loop() {
		f, _ := expansion.EquilibriumSteamFlux(4e5, 0)
		sink += f.Mass
	}
}

func BenchmarkSectionPressureAt(b *testing.B) {
	s := expansion.Section{Temperature: 20, Pressure: 2e5}
	for b.Loop() {
		p, _ := s.PressureAt(30)
		sink += float64(p)
	}
}

func TestReliefAllocations(t *testing.T) {
	v, s := valve(), expansion.Section{Temperature: 20, Pressure: 2e5}
	w := expansion.Warming{Cold: 15, Hot: 48, ColdDensity: 1000, HotDensity: 990}
	k := expansion.FillingKit{Kv: 1, Supply: 4e5}
	sys := house()
	for name, f := range map[string]func(){
		"Steam":     func() { _, _ = v.Steam(0, 0) },
		"Flux":      func() { _, _ = expansion.SteamFlux(4e5, 1e5) },
		"Section":   func() { _, _ = s.PressureAt(30) },
		"Reaches":   func() { _, _ = s.Reaches(6e5) },
		"PerKelvin": func() { _, _ = s.PerKelvin() },
		"Warming":   func() { _, _ = w.Relief(1e3, 4200) },
		"Time":      func() { _, _ = k.Time(0.3, 1e5) },
		"Leakage": func() {
			_, _ = sys.Leakage(testTank, expansion.Reading{Pressure: 1.5e5, Temperature: 10},
				expansion.Reading{Pressure: 1.4e5, Temperature: 20, Time: 1e5}, expansion.ReadingUncertainty{})
		},
		"WithoutVessel": func() { _, _ = testPot.WithoutVessel() },
	} {
		assert.Zero(t, testing.AllocsPerRun(100, f), name)
	}
}

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
		"Size":                func() { _, _ = s.Size() },
		"Window":              func() { _, _ = s.Window(testTank, 20) },
		"Course":              func() { _, _ = s.Course(testTank, 1e5) },
		"At":                  func() { _, _ = c.At(45) },
		"Cycle":               func() { _, _ = c.Cycle() },
		"Potable":             func() { _, _ = testPot.Size() },
		"AtmosphericPressure": func() { _, _ = expansion.AtmosphericPressure(500) },
	} {
		assert.Zero(t, testing.AllocsPerRun(100, f), name)
	}
}

package fluid

import "testing"

var sink Properties
var sinkFloat float64

func BenchmarkWaterDensity(b *testing.B) {
	w := Water()
	for i := range b.N {
		v, _ := w.Density(20 + float64(i&31))
		sinkFloat += v
	}
}

func BenchmarkWaterAt(b *testing.B) {
	w := Water()
	for i := range b.N {
		sink, _ = w.At(20 + float64(i&31))
	}
}

func BenchmarkSolutionAt(b *testing.B) {
	l, _ := PropyleneGlycol.ByMass(0.3)
	for i := range b.N {
		sink, _ = l.At(20 + float64(i&31))
	}
}

func BenchmarkSolutionByMassAt(b *testing.B) {
	for i := range b.N {
		l, _ := PropyleneGlycol.ByMass(0.3 + float64(i&31)/1000)
		sink, _ = l.At(20 + float64(i&31))
	}
}

package sample

import (
	"math"
	"testing"
)

func near(t *testing.T, want, got, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestReference(t *testing.T) {
	near(t, 98.1, float64(Weight(10)), 1e-9)
	near(t, 3.501, float64(Third(2)), 1e-4)
}

func TestLimit(t *testing.T) {
	if math.IsNaN(float64(Weight(1000))) || !math.IsNaN(float64(Weight(1000.1))) {
		t.Error("limit")
	}
	near(t, 1000, Kilogram, 1e-9)
}

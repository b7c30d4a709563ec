package main

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The two loops of a row do the same work.
func TestRowsAgree(t *testing.T) {
	list, err := rows()
	require.NoError(t, err)
	for _, r := range list {
		n := 300
		if r.rounds < 1000 {
			n = 1
		}
		got := r.library(n)
		if r.plain == nil {
			assert.Greater(t, got, 0.0, r.name)
			continue
		}
		assert.InEpsilon(t, r.plain(n), got, r.tolerance, r.name)
	}
}

// near wants every field of two structs of numbers alike.
func near(t *testing.T, want, got any, tolerance float64, at string) {
	t.Helper()
	w, g := reflect.ValueOf(want), reflect.ValueOf(got)
	for i := range w.NumField() {
		assert.InDelta(t, w.Field(i).Float(), g.Field(i).Float(), tolerance*math.Abs(w.Field(i).Float())+1e-9*tolerance,
			"%s at %s", w.Type().Field(i).Name, at)
	}
}

func TestWaterByPowers(t *testing.T) {
	for _, p := range []float64{1.1e5, 3e5, 2e6, 2e7} {
		for temp := 1.0; temp <= 99; temp += 3.5 {
			at := fmt.Sprintf("%g °C, %g Pa", temp, p)
			state, err := fluid.WaterState(temp, p)
			require.NoError(t, err)
			// A sum of terms that nearly cancel loses digits near the triple point.
			near(t, powState(temp, p), state, 1e-10, at)
			liquid, err := fluid.WaterAt(p)
			require.NoError(t, err)
			properties, err := liquid.At(temp)
			require.NoError(t, err)
			near(t, powProperties(temp, p), properties, 1e-12, at)
			assert.InEpsilon(t, powDensity(temp, p), state.Density, 1e-13, at)
		}
	}
}

func TestSolutionByPowers(t *testing.T) {
	for w := 0.0; w <= 0.6; w += 0.06 {
		l, err := fluid.PropyleneGlycol.ByMass(w)
		require.NoError(t, err)
		for temp := 5.0; temp <= 95; temp += 10 {
			p, err := l.At(temp)
			require.NoError(t, err)
			near(t, powSolution(w, temp), p, 1e-12, fmt.Sprintf("%g, %g °C", w, temp))
		}
	}
}

func TestFrictionByIteration(t *testing.T) {
	for re := 3000.0; re < 1e8; re *= 1.7 {
		for _, rr := range []float64{0, 1e-5, 1e-3, 0.05} {
			f, err := pipe.FrictionFactor(re, rr)
			require.NoError(t, err)
			assert.InEpsilon(t, fixedPoint(re, rr), f, 1e-12, "Re %g, relative roughness %g", re, rr)
		}
	}
}

func TestDenseNetwork(t *testing.T) {
	net, err := twoPipe(50)
	require.NoError(t, err)
	full, err := newDense(net)
	require.NoError(t, err)
	mass, err := full.solve()
	require.NoError(t, err)
	s, err := net.Solve()
	require.NoError(t, err)
	for b, state := range s.Branches {
		assert.InDelta(t, mass[b], state.Mass, 1e-9*s.Branches[0].Mass, "branch %d", b)
	}
}

func TestDigits(t *testing.T) {
	for v, want := range map[float64]string{0.74: "0.7", 9.96: "10.0", 34.4: "34", 1364: "1400"} {
		assert.Equal(t, want, digits(v))
	}
}

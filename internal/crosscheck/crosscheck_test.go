package crosscheck_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/require"
)

const (
	python = "/usr/bin/python3" // Debian's own, which sees Debian's packages
	points = 2000

	// rounding is what two programs for the same equations may differ by.
	rounding = 1e-12
)

// reference evaluates the points with the libraries of testdata/reference.py.
func reference[T any](t *testing.T, what string, rows [][]T) [][]float64 {
	t.Helper()
	if err := exec.Command(python, "-c", "import iapws, fluids").Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s with python3-iapws and python3-fluids is wanted here: %v", python, err)
		}
		t.Skipf("%s with python3-iapws and python3-fluids is not here", python)
	}
	input, err := json.Marshal(map[string][][]T{what: rows})
	require.NoError(t, err)
	command := exec.Command(python, "testdata/reference.py")
	command.Stdin = bytes.NewReader(input)
	var complaints bytes.Buffer
	command.Stderr = &complaints
	output, err := command.Output()
	require.NoError(t, err, complaints.String())
	var results map[string][][]float64
	require.NoError(t, json.Unmarshal(output, &results))
	require.Len(t, results[what], len(rows))
	return results[what]
}

// worst is the largest relative deviation met, and where.
type worst struct {
	deviation float64
	at        []float64
}

func (w *worst) add(got, want float64, at []float64) {
	if d := math.Abs(got/want - 1); !(d <= w.deviation) { // NaN is the worst
		w.deviation, w.at = d, at
	}
}

func (w worst) report(t *testing.T, what string, limit float64) {
	t.Helper()
	t.Logf("%-24s worst deviation %.1e at %.6g", what, w.deviation, w.at)
	if !(w.deviation <= limit) {
		t.Errorf("%s: worst deviation %.3g at %g, limit %g", what, w.deviation, w.at, limit)
	}
}

func grid(dimensions ...func(r *rand.Rand) float64) [][]float64 {
	r := rand.New(rand.NewPCG(1845, 1883)) // the years of Stokes's and Reynolds's papers: any fixed seed will do
	rows := make([][]float64, points)
	for i := range rows {
		rows[i] = make([]float64, len(dimensions))
		for k, draw := range dimensions {
			rows[i][k] = draw(r)
		}
	}
	return rows
}

func uniform(lo, hi float64) func(*rand.Rand) float64 {
	return func(r *rand.Rand) float64 { return lo + (hi-lo)*r.Float64() }
}

func decades(lo, hi float64) func(*rand.Rand) float64 {
	return func(r *rand.Rand) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
}

// Both sides evaluate IAPWS R7-97, R12-08 and R15-11, so that only rounding may
// differ.
func TestWater(t *testing.T) {
	rows := grid(uniform(273.16, 418.15), decades(0.5, 2))
	want := reference(t, "water", rows)
	var density, heat, viscosity, conductivity worst
	for i, p := range rows {
		l, err := fluid.WaterAt(p[1] * hydronics.Megapascal)
		require.NoError(t, err)
		got, err := l.At(p[0] - hydronics.ZeroCelsius)
		require.NoError(t, err)
		density.add(got.Density, want[i][0], p)
		heat.add(got.SpecificHeat, want[i][2], p)
		viscosity.add(got.DynamicViscosity, want[i][3], p)
		conductivity.add(got.Conductivity, want[i][4], p)
	}
	density.report(t, "density", rounding)
	heat.report(t, "specific heat", rounding)
	viscosity.report(t, "viscosity", rounding)
	conductivity.report(t, "conductivity", rounding)
}

func TestSaturation(t *testing.T) {
	rows := grid(uniform(273.15, 473.15))
	want := reference(t, "saturation", rows)
	var pressure worst
	for i, p := range rows {
		got, err := fluid.SaturationPressure(p[0] - hydronics.ZeroCelsius)
		require.NoError(t, err)
		pressure.add(got, want[i][0], p)
	}
	pressure.report(t, "saturation pressure", rounding)
}

// fluids solves the same Colebrook equation in closed form with the Lambert W
// function; by its documentation it loses digits where that overflows.
func TestFriction(t *testing.T) {
	rows := append(grid(decades(10, 2000), uniform(0, 0.05)), grid(decades(3000, 1e8), decades(1e-6, 0.05))...)
	want := reference(t, "friction", rows)
	var factor worst
	for i, p := range rows {
		got, err := pipe.FrictionFactor(p[0], p[1])
		require.NoError(t, err)
		factor.add(got, want[i][0], p)
	}
	factor.report(t, "friction factor", rounding)
}

package frost

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slab runs the solver in its plane form: depth metres of water at start °C,
// the surface held at surface °C for an hour. It returns the ice in mm.
func slab(t *testing.T, cells int, tolerance, start, surface float64) float64 {
	t.Helper()
	const depth = 0.12
	r := allocate(cells, cells, nil)
	r.plane = true
	m := Medium{Density: 999.8, SpecificHeat: 4200, Conductivity: 0.57, LatentHeat: 333600, IceSpecificHeat: 2100, IceConductivity: 2.2}
	r.liquid, r.iced = m.Conductivity, m.IceConductivity
	for i := 0; i <= cells; i++ {
		r.face[i] = depth * float64(i) / float64(cells)
	}
	r.film, r.outdoor, r.surface = 1e7, surface, 1
	r.geometry(m)
	r.start(start, 0)
	h, err := Standing{Weather: []Air{{}}, Until: 3600, Tolerance: tolerance}.run(r)
	require.NoError(t, err)
	assert.InEpsilon(t, h.HeatGone, h.HeatLost, 1e-9, "energy balance")
	return h.States[len(h.States)-1].Ice * depth * 1000
}

// The exact two-phase solution of Neumann, evaluated apart (reference table
// neumann_plane_freezing), and the order in which the solver approaches it.
func TestSolverConvergesToNeumann(t *testing.T) {
	for _, c := range []struct{ surface, start, exact float64 }{
		{-10, 4, 20.619509}, {-20, 10, 27.614517}, {-5, 20, 11.770157}, {-30, 4, 35.443848},
	} {
		var errs []float64
		for _, cells := range []int{20, 40, 80, 160} {
			errs = append(errs, math.Abs(slab(t, cells, 0.4/float64(cells), c.start, c.surface)-c.exact)/c.exact)
		}
		order := math.Log2(errs[0]/errs[3]) / 3
		t.Logf("surface %g °C, water %g °C: errors %.1e, mean order %.2f", c.surface, c.start, errs, order)
		assert.Greater(t, order, 1.0)
		assert.Less(t, errs[3], 2e-3)
	}
}

// The same on a tube, against the resolved reference solutions made with two
// other methods (reference table numeric_freezing_resolved, case FZ2).
func TestSolverConvergesOnATube(t *testing.T) {
	s := Standing{
		Section: Section{Bore: 0.02, Layers: []Layer{{Thickness: 0.001, Conductivity: 380, HeatCapacity: 3441900}}, Surface: Surface{Coefficient: 15}},
		Medium:  Medium{Density: 999.8, SpecificHeat: 4200, Conductivity: 0.57, LatentHeat: 333600, IceSpecificHeat: 2100, IceConductivity: 2.2},
		Start:   10, Weather: []Air{{Temperature: -10}}, Until: 1e6,
	}
	exact := [...]float64{1004.54, 2099.11, 3628.49, 6207.4}
	const closed = 11699.8 // met to 0.03 % with the finest grids, and no better: the last drop freezes on the axis
	var errs []float64
	for _, cells := range []int{5, 10, 20, 40, 80} {
		s.Cells, s.Tolerance = cells, 0.8/float64(cells)
		h, err := s.Resolve()
		require.NoError(t, err)
		assert.InEpsilon(t, h.HeatGone, h.HeatLost, 1e-9, "energy balance")
		worst := math.Abs(h.FirstIce.Seconds/exact[0] - 1)
		for i, f := range []float64{0.1, 0.25, 0.5} {
			at, err := h.IceTime(f)
			require.NoError(t, err)
			worst = max(worst, math.Abs(at.Seconds/exact[i+1]-1))
		}
		assert.InEpsilon(t, closed, h.Closed.Seconds, 2e-3)
		errs = append(errs, worst)
	}
	order := math.Log2(errs[0]/errs[4]) / 4
	t.Logf("errors %.1e, mean order %.2f", errs, order)
	assert.Greater(t, order, 1.0)
}

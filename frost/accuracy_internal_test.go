package frost

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A random standing of the kind that a night asks about.
func randomStanding(r *rand.Rand) Standing {
	s := Section{Bore: []float64{0.01, 0.02, 0.026, 0.039, 0.08}[r.IntN(5)], Layers: []Layer{{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.44e6}}, Surface: InTheOpen()}
	if r.IntN(3) == 0 {
		s.Layers[0] = Layer{Thickness: 0.003, Conductivity: 0.4, HeatCapacity: 2.2e6}
	}
	if mm := []float64{0, 9, 13, 19, 40, 80}[r.IntN(6)]; mm > 0 {
		s.Layers = append(s.Layers, Layer{Thickness: mm / 1000, Conductivity: 0.036,
			HeatCapacity: []float64{0, 9e4}[r.IntN(2)], Slope: []float64{0, 0, 0, 1e-4}[r.IntN(4)]})
	}
	switch r.IntN(4) {
	case 0:
		s.Surface = Surface{Coefficient: 15}
	case 1:
		s.Surface = Surface{Method: ISO12241, Emissivity: 0.9}
	}
	air := Air{Temperature: []float64{-3, -8, -15, -25}[r.IntN(4)], Wind: []float64{0, 0, 2, 8}[r.IntN(4)], Infrared: []float64{0, 0, 0, 210}[r.IntN(4)]}
	return Standing{Section: s, Medium: Water(), Start: 5 + 50*r.Float64(), Weather: []Air{air}, Until: 1e8,
		Mixed: r.IntN(2) == 0, Flowing: r.IntN(2) == 0, brief: true, opens: 2}
}

// The times of a night against the same equations resolved much finer, as
// Standing.Tolerance states them.
func TestTimesOfANightAgainstFineResolution(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var errs []float64
	for range 150 {
		s := randomStanding(r)
		times := func() [2]float64 {
			h, err := s.Resolve()
			require.NoError(t, err)
			opens := h.when(func(x State) float64 { return s.opens - x.Centre }, false)
			return [2]float64{h.FirstIce.Seconds, opens.Seconds}
		}
		now := times()
		s.Cells, s.Tolerance = 60, 0.005
		fine := times()
		for i := range now {
			e := now[i]/fine[i] - 1
			assert.Less(t, math.Abs(e), 0.01, "%+v", s)
			errs = append(errs, math.Abs(e))
		}
	}
	slices.Sort(errs)
	t.Logf("median %.4f, nine of ten %.4f, worst %.4f", errs[len(errs)/2], errs[len(errs)*9/10], errs[len(errs)-1])
	assert.Less(t, errs[len(errs)*9/10], 0.004)
}

// Where layers hold next to nothing, a night has one start instead of two: the
// other would move no time by more than a thousandth.
func TestLayersThatDoNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	n := 0
	for range 400 {
		s := randomStanding(r)
		flow, err := s.Section.heatFlow("test", s.Start, &s.Weather[0])
		require.NoError(t, err)
		if s.Section.layersMatter(s.Medium, s.Start, flow) {
			continue
		}
		n++
		s.Tolerance = 0.01 // so that the steps do not hide what the layers do
		steady, err := s.from(flow.PerMetre)
		require.NoError(t, err)
		warm, err := s.from(0)
		require.NoError(t, err)
		assert.InEpsilon(t, steady.FirstIce.Seconds, warm.FirstIce.Seconds, 1e-3, "%+v", s)
	}
	assert.Greater(t, n, 30)
}

// randomReach is a low point with a drain valve and one to six legs that rise or
// run level on its two sides.
func randomReach(r *rand.Rand) Reach {
	n := 3 + r.IntN(5)
	low := 1 + r.IntN(n-2)
	route := make(pipe.Route, n)
	route[low] = pipe.Point{Z: 0.3, Outdoors: true}
	for _, way := range []int{-1, 1} {
		for i := low + way; i >= 0 && i < n; i += way {
			last := route[i-way]
			length := math.Exp(r.NormFloat64())
			rise := []float64{0.01, 0.02, 0.1, 0.9, 0}[r.IntN(5)]
			if i == low+way && rise == 0 {
				rise = 0.02
			}
			route[i] = pipe.Point{X: last.X + float64(way)*length*math.Sqrt(1-rise*rise), Z: last.Z + length*rise, Outdoors: true}
		}
	}
	return Reach{Route: route, Bore: []float64{0.013, 0.02, 0.026, 0.039}[r.IntN(4)], Roughness: 1.5e-6, Final: []float64{0.001, 0.01}[r.IntN(2)],
		Drains: []Drain{{Point: low, Kv: pipe.Kv(math.Exp(r.NormFloat64() - 0.5))}}, Vents: []int{0, n - 1}}
}

// Emptying against steps fifty times finer, as Reach.Empty states it.
func TestEmptyingAgainstFineSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	for range 150 {
		reach := randomReach(r)
		coarse, err := reach.Empty(water)
		require.NoError(t, err)
		reach.finer = 50
		fine, err := reach.Empty(water)
		require.NoError(t, err)
		if fine.Time < 10 { // columns that are all but down at the start
			continue
		}
		assert.Greater(t, coarse.Time, fine.Time*(1-0.0015), "%+v", reach)
		assert.Less(t, coarse.Time, fine.Time*(1+0.006), "%+v", reach)
		assert.InEpsilon(t, fine.Volume, coarse.Volume, 2e-3)
		assert.Equal(t, fine.Flow, coarse.Flow)
	}
}

// One column, two methods: the steps of a reach and the quadrature of a column.
func TestReachAgainstColumn(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	for range 100 {
		reach := randomReach(r)
		low := reach.Drains[0].Point
		reach.Route = reach.Route[low:]
		reach.Drains[0].Point = 0
		reach.Vents = []int{len(reach.Route) - 1}
		c := Column{Bore: reach.Bore, Roughness: reach.Roughness, Kv: reach.Drains[0].Kv, Final: reach.Final}
		for i := 1; i < len(reach.Route); i++ {
			a, b := reach.Route[i-1], reach.Route[i]
			rise := b.Z - a.Z
			c.Legs = append(c.Legs, Leg{Length: math.Hypot(b.X-a.X, rise), Rise: rise})
		}
		want, err := c.Empty(water)
		if err != nil {
			require.ErrorIs(t, err, hydronics.ErrRange) // not above Final at the start
			continue
		}
		got, err := reach.Empty(water)
		require.NoError(t, err)
		if want.Time > 10 {
			assert.InEpsilon(t, want.Time, got.Time, 0.006, "%+v", reach)
		}
		assert.InDelta(t, want.Flow, got.Flow, 1e-6*want.Flow)
	}
}

// Valves that pass less let the water out later in that proportion at most, as
// the doubt about them in a night's findings has it.
func TestEmptyingThroughSmallerValves(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	water, err := fluid.Water().At(1)
	require.NoError(t, err)
	for range 100 {
		reach := randomReach(r)
		reach.finer = 3
		whole, err := reach.Empty(water)
		require.NoError(t, err)
		for _, by := range []float64{0.3, 0.8} {
			slower, err := reach.throttled(by).Empty(water)
			require.NoError(t, err)
			if whole.Time > 10 {
				assert.Less(t, slower.Time, whole.Time/by*1.003, "%+v", reach)
				assert.Greater(t, slower.Time, whole.Time)
			}
		}
	}
}

package frost

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics/pipe"
)

// A random standing for which ice comes soon: wide bores, walls of all kinds or none,
// water near 0 °C, strong wind.
func soonIced(r *rand.Rand) Standing {
	pick := func(of ...float64) float64 { return of[r.IntN(len(of))] }
	s := Section{Bore: pick(0.013, 0.026, 0.039, 0.08, 0.1, 0.2), Surface: InTheOpen()}
	switch r.IntN(4) {
	case 1:
		s.Layers = []Layer{{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.44e6}}
	case 2:
		s.Layers = []Layer{{Thickness: 0.003, Conductivity: 0.4, HeatCapacity: 2.2e6}}
	case 3:
		s.Layers = []Layer{{Thickness: 0.004, Conductivity: 50, HeatCapacity: 3.7e6}}
	}
	if r.IntN(3) == 0 {
		s.Layers = append(s.Layers, Layer{Thickness: 0.013, Conductivity: 0.036, HeatCapacity: 9e4})
	}
	if r.IntN(3) == 0 {
		s.Surface = Surface{Coefficient: pick(15, 50, 200)}
	}
	air := Air{Temperature: pick(-5, -10, -20, -30), Wind: pick(0, 2, 10, 20), Infrared: pick(0, 0, 0, 180)}
	return Standing{Section: s, Medium: Water(), Start: pick(0.1, 0.3, 0.5, 1, 2, 3, 5, 10), Weather: []Air{air}, Until: 3e6,
		Mixed: r.IntN(2) == 0, Flowing: r.IntN(2) == 0, brief: true, opens: 2}
}

// Ice, and the 0 °C that keeps a pump from starting, may be found early and not late:
// the first step is long, and must not pass over either.
func TestIceIsNotFoundLate(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 300 {
		s := soonIced(r)
		s.Nucleation = []float64{0, 0, -5}[r.IntN(3)]
		if s.Nucleation < 0 {
			s.Section.Bore = min(s.Section.Bore, 0.1)
		}
		now, err := s.Resolve()
		require.NoError(t, err)
		s.Cells, s.Tolerance = 200, 0.01
		fine, err := s.Resolve()
		require.NoError(t, err)
		if s.Nucleation == 0 || s.Weather[0].Temperature < 2*s.Nucleation { // otherwise the wall creeps towards it
			assert.LessOrEqual(t, now.FirstIce.Seconds, 1.03*fine.FirstIce.Seconds+2e-3, "ice, %+v", s)
		}
		assert.LessOrEqual(t, now.ReachedZero.Seconds, 1.03*fine.ReachedZero.Seconds+2e-3, "0 °C, %+v", s)
	}
}

// Nights that must not be kept: ice comes within the time of emptying, or nearly.
func TestBareTubesThatFreezeAtOnce(t *testing.T) {
	plastic := []Layer{{Thickness: 0.003, Conductivity: 0.4, HeatCapacity: 2.2e6}}
	for _, c := range []struct {
		bore, start, air, wind float64
		layers                 []Layer
	}{
		{0.026, 1, -20, 10, nil}, {0.039, 2, -20, 10, nil}, {0.1, 1, -20, 20, plastic}, {0.1, 10, -20, 20, nil},
	} {
		section := Section{Bore: c.bore, Layers: c.layers, Surface: InTheOpen()}
		o, err := Night{Section: section, Medium: Water(), Start: c.start, Weather: []Air{{Temperature: c.air, Wind: c.wind}},
			Setting: DrainSetting{Opens: 3, Tolerance: 1, Lift: 1},
			Reach: Reach{Route: pipe.Route{{Outdoors: true}, {X: 1, Z: 1, Outdoors: true}}, Bore: c.bore,
				Drains: []Drain{{Point: 0, Kv: pipe.Kv(3000 * c.bore * c.bore)}}, Vents: []int{1}}}.Run()
		require.NoError(t, err)
		assert.False(t, o.Kept(), "%+v: %+v", c, o.EarliestIce)
	}
}

// A surface that gives off heat by convection alone has none to give in still air as
// warm as itself: the water stays as it is until the weather changes.
func TestNothingFlows(t *testing.T) {
	for _, method := range []Method{ISO12241, GB50264} {
		s := Standing{Section: Section{Bore: 0.01, Layers: []Layer{{Thickness: 0.0015, Conductivity: 380, HeatCapacity: 3.44e6}}, Surface: Surface{Method: method}},
			Medium: Water(), Start: 10, Until: 1e7, Mixed: true, Flowing: true}
		for range 200 {
			s.Weather = append(s.Weather, Air{Temperature: 2})
		}
		mild, err := s.Resolve()
		require.NoError(t, err)
		assert.InDelta(t, 2, mild.coldest(), 0.01)
		s.Weather = append(s.Weather, Air{Temperature: -20})
		cold, err := s.Resolve()
		require.NoError(t, err)
		assert.False(t, cold.FirstIce.Never)
	}
}

// The surface temperature and the heat flow lead back to the temperature inside,
// also through insulation whose conductivity falls as it gets colder, under a clear
// sky, and next to no difference.
func TestHeatFlowLeadsBackInside(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	pick := func(of ...float64) float64 { return of[r.IntN(len(of))] }
	between := func(low, high float64) float64 { return low * math.Exp(math.Log(high/low)*r.Float64()) }
	for range 20_000 {
		s := Section{Bore: between(0.008, 0.3), Layers: []Layer{{Thickness: between(0.001, 0.006), Conductivity: pick(380, 0.4, 50, 15)}}}
		for range r.IntN(3) {
			s.Layers = append(s.Layers, Layer{Thickness: between(0.005, 0.15), Conductivity: between(0.02, 0.06), Slope: pick(0, 5e-5, 1e-4, 2e-4, -2e-5)})
		}
		s.Surface = Surface{Method: Correlated, Emissivity: pick(0.1, 0.9)}
		if r.IntN(4) == 0 {
			s.Surface = Surface{Coefficient: between(3, 200)}
		}
		air := Air{Temperature: 40*r.Float64() - 40, Wind: pick(0, between(0.5, 30)), Infrared: pick(0, 0, 150, 250)}
		inside := pick(95*r.Float64(), air.Temperature+between(0.01, 5), 0, 1)
		f, err := s.HeatFlow(inside, air)
		require.NoError(t, err, "%+v, %+v, %g °C", s, air, inside)
		require.InDelta(t, inside, s.inwards(f.Surface, f.PerMetre), 1e-6*(1+math.Abs(inside-f.Ambient)), "%+v, %+v", s, air)
		require.InDelta(t, f.PerMetre*f.Resistance, inside-f.Ambient, 1e-6*(1+math.Abs(inside-f.Ambient)), "%+v, %+v", s, air)
	}
}

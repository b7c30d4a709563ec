package pipe_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/hydronics/pipe"
)

// route stacks points one metre apart in plan at the given heights.
func route(z ...float64) pipe.Route {
	r := make(pipe.Route, len(z))
	for i := range z {
		r[i] = pipe.Point{X: float64(i), Z: z[i]}
	}
	return r
}

// Worked by hand: 3-4-5 triangles.
func TestSurvey(t *testing.T) {
	r := pipe.Route{{X: 0, Z: 2}, {X: 4, Z: -1}, {X: 4, Y: 3, Z: -1, Outdoors: true}, {X: 4, Y: 7, Z: 2}}
	s, err := r.Survey()
	if err != nil {
		t.Fatal(err)
	}
	if s.Length != 13 || s.Plan != 11 || s.OutdoorLength != 8 || s.Rise != 0 || s.Lowest != -1 || s.Highest != 2 {
		t.Errorf("%+v", s)
	}
	if len(s.LowPoints) != 1 || s.LowPoints[0] != (pipe.Extreme{From: 1, To: 2, Z: -1, Outdoors: true}) {
		t.Errorf("low points %+v", s.LowPoints)
	}
	if len(s.HighPoints) != 2 || !s.HighPoints[0].End || s.HighPoints[1].From != 3 {
		t.Errorf("high points %+v", s.HighPoints)
	}
	if s.Legs[0].Slope != -0.6 {
		t.Errorf("slope %g, want -0.6", s.Legs[0].Slope)
	}
}

// Worked by hand: a U of 2 m depth behind a crest of 1 m.
func TestHeldWater(t *testing.T) {
	r := route(3, 0, 1, -1) // outlet at the far end: the dip at point 1 keeps water up to 1
	pockets, err := r.HeldWater(3)
	if err != nil || len(pockets) != 1 {
		t.Fatal(pockets, err)
	}
	p := pockets[0]
	leg := math.Sqrt(10)
	if want := leg/3 + math.Sqrt2; math.Abs(p.Length-want) > 1e-12 || p.Level != 1 || p.Extreme != 1 {
		t.Errorf("%+v, want length %g", p, want)
	}
	if pockets, err = r.HeldWater(1, 3); err != nil || len(pockets) != 0 {
		t.Errorf("with both low points open: %+v, %v", pockets, err)
	}
	if pockets, err = r.HeldAir(0); err != nil || len(pockets) != 1 || pockets[0].Level != 0 || pockets[0].Extreme != 2 {
		t.Errorf("air: %+v, %v", pockets, err)
	}
	if pockets, err = r.HeldWater(); err != nil || len(pockets) != 1 || pockets[0].Level != 3 {
		t.Errorf("closed: %+v, %v", pockets, err)
	}
}

// A route emptied at every low point keeps nothing, in either direction of
// counting; the brute-force definition agrees on random routes.
func TestHeldWaterRandom(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		z := make([]float64, 2+rng.IntN(8))
		for i := range z {
			z[i] = float64(rng.IntN(5))
		}
		r := route(z...)
		s, err := r.Survey()
		if err != nil {
			t.Fatal(err)
		}
		var low, high []int
		for _, e := range s.LowPoints {
			low = append(low, e.From)
		}
		for _, e := range s.HighPoints {
			high = append(high, e.To)
		}
		if p, err := r.HeldWater(low...); err != nil || len(p) != 0 {
			t.Fatal(z, p, err)
		}
		if p, err := r.HeldAir(high...); err != nil || len(p) != 0 {
			t.Fatal(z, p, err)
		}
		outlet := rng.IntN(len(z))
		pockets, err := r.HeldWater(outlet)
		if err != nil {
			t.Fatal(err)
		}
		got := 0.0
		for _, p := range pockets {
			got += p.Length
		}
		// Walk outwards from the outlet in small steps: a place keeps water if
		// a higher one was passed on the way.
		want := 0.0
		const n = 2000
		for _, dir := range []int{1, -1} {
			crest := z[outlet]
			for i := outlet; i+dir >= 0 && i+dir < len(z); i += dir {
				length := math.Hypot(1, z[i+dir]-z[i])
				for k := range n {
					h := z[i] + (z[i+dir]-z[i])*(float64(k)+0.5)/n
					crest = math.Max(crest, h)
					if h < crest {
						want += length / n
					}
				}
				crest = math.Max(crest, z[i+dir])
			}
		}
		if math.Abs(got-want) > 0.02 {
			t.Fatalf("heights %v, outlet %d: %g m held, brute force %g m", z, outlet, got, want)
		}
	}
}

// The definition once more, in another way: the level of every small piece sinks
// to that of its lower neighbour, or to the piece itself, until nothing changes.
// Any set of outlets, water and air, and what of it lies outdoors.
func TestHeldByRelaxation(t *testing.T) {
	const n = 200 // pieces a leg
	rng := rand.New(rand.NewPCG(9, 10))
	for range 300 {
		r := make(pipe.Route, 2+rng.IntN(7))
		for i := range r {
			r[i] = pipe.Point{X: float64(i), Z: float64(rng.IntN(5)), Outdoors: rng.IntN(2) == 0}
		}
		var open []int
		for i := range r {
			if rng.IntN(3) == 0 {
				open = append(open, i)
			}
		}
		for _, sign := range []float64{1, -1} { // water, and air as water upside down
			var h, level, length, outdoors []float64
			for i := range len(r) - 1 {
				for k := range n {
					h = append(h, sign*(r[i].Z+(r[i+1].Z-r[i].Z)*(float64(k)+0.5)/n))
					level = append(level, math.Inf(1))
					l := math.Hypot(1, r[i+1].Z-r[i].Z) / n
					length = append(length, l)
					if !r[i].Outdoors && !r[i+1].Outdoors {
						l = 0
					}
					outdoors = append(outdoors, l)
				}
			}
			for _, o := range open {
				for _, k := range []int{o*n - 1, o * n} { // the pieces on both sides
					if k >= 0 && k < len(h) {
						level[k] = h[k]
					}
				}
			}
			for changed := true; changed; {
				changed = false
				for pass := range 2 * len(h) {
					k := pass
					if pass >= len(h) {
						k = 2*len(h) - 1 - pass
					}
					beside := math.Inf(1)
					if k > 0 {
						beside = level[k-1]
					}
					if k < len(h)-1 {
						beside = min(beside, level[k+1])
					}
					if v := max(h[k], beside); v < level[k] {
						level[k], changed = v, true
					}
				}
			}
			want, wantOut := 0.0, 0.0
			for k := range h {
				if level[k] > h[k]+0.03 { // crests stand half a piece too low, by 0.01 at most
					want += length[k]
					wantOut += outdoors[k]
				}
			}
			pockets, err := r.HeldWater(open...)
			if sign < 0 {
				pockets, err = r.HeldAir(open...)
			}
			if err != nil {
				t.Fatal(err)
			}
			got, gotOut := 0.0, 0.0
			for _, p := range pockets {
				got += p.Length
				gotOut += p.OutdoorLength
			}
			if tolerance := 0.05 * float64(len(r)); math.Abs(got-want) > tolerance || math.Abs(gotOut-wantOut) > tolerance {
				t.Fatalf("%+v, open %v, sign %g: %g m held, %g m outdoors; by relaxation %g and %g", r, open, sign, got, gotOut, want, wantOut)
			}
		}
	}
}

func TestRouteRefused(t *testing.T) {
	for _, r := range []pipe.Route{nil, {{}}, {{}, {}}, {{}, {X: math.NaN()}}, {{}, {Z: math.Inf(1)}}} {
		if _, err := r.Survey(); err == nil {
			t.Errorf("%v accepted", r)
		}
	}
	if _, err := route(0, 1).HeldWater(2); err == nil {
		t.Error("outlet beyond the end accepted")
	}
}

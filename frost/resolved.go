package frost

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// A Standing is one metre of section full of standing water, resolved in radius
// and time: water, wall and insulation with their heat capacities. It is the
// precise form of what [Lump] gives closed.
type Standing struct {
	Section Section
	Medium  Medium
	// Mixed takes the liquid as of one temperature. Otherwise it conducts only.
	// Real water lies between the two: above 4 °C the warm water rises, below it
	// the cold water does, around it the water hardly mixes. Run both.
	Mixed bool
	// Start is the temperature in °C of the water, and of wall and insulation
	// too unless Flowing is set: then these start from their steady profile, as
	// they are when a pump stops. 0 < Start <= 120.
	Start   float64
	Flowing bool
	// Nucleation is the temperature in °C, 0 to -15, at which the coldest water
	// begins to freeze: 0 for no supercooling. Clean water commonly supercools
	// by 3 to 8 K (ASHRAE Fundamentals 2021, chapter 23: several kelvin).
	Nucleation float64
	// Weather is the air hour by hour; its last hour lasts to the end. One
	// entry is a constant outdoor climate. At least one.
	Weather []Air
	Until   float64 // s at which to stop in any case, 60 to 1e8
	Cells   int     // radial cells in the water, 4 to 400; 0 means 10
	// Tolerance bounds the part by which the heat flow may change in a step,
	// 1e-6 to 0.5; 0 means 0.1. Before freezing, times are then met to 0.3 % in nine
	// of ten cases and to 1.4 % in all of a thousand random ones (bores to 80 mm, a
	// wall, water from 5 °C on), against 60 cells and a tolerance of 0.005; errors are
	// mostly on the early side. Of three thousand with bores to 0.2 m, no wall or any,
	// and water from 0.1 °C on none was more than 3 % late. Ice that comes before the
	// cold has crossed a cell, as on a bare tube of water near 0 °C, is found early, at
	// worst at once.
	Tolerance float64

	// The two moments that a Night asks for: with brief the calculation stops when
	// ice has begun and the water that a drain valve feels (its mean if Mixed, its
	// middle if not) has fallen to opens °C.
	brief bool
	opens float64

	memory *workspace // nil: its own
	begins *outside   // the surface at the start, which the next standing of the same layers need not find again
	forget bool       // the states of the history are needed only until the memory is used again
}

// A State is a Standing at one moment.
type State struct {
	Time    float64 // s since the start
	Outdoor float64 // °C, air and sky as one temperature
	Centre  float64 // °C, water in the middle of the bore
	Mean    float64 // °C, mean of the liquid and the ice by volume
	Wall    float64 // °C, inner surface of the wall, the coldest water
	Surface float64 // °C, outermost surface
	Ice     float64 // mass fraction frozen
	Flow    float64 // W/m to the outdoors
}

// A History is what happened to a [Standing].
type History struct {
	ReachedZero Time    // the water at the wall reaches 0 °C: the limit for a pump that is to start again
	FirstIce    Time    // the water at the wall reaches Nucleation and begins to freeze
	Dendrites   float64 // mass fraction that freezes at once as slush when supercooling ends
	Closed      Time    // the ring of ice closes: all water is frozen
	States      []State // one per step, the first at the start
	HeatLost    float64 // J/m that left through the surface
	HeatGone    float64 // J/m by which the content of water, ice, wall and insulation fell: equal to HeatLost
}

// IceTime returns when the mass fraction of ice first reaches fraction (0 to 1),
// between steps linearly. An ice ring that fills a fraction blocks nothing by
// itself; slush can block the tube for a pump from a few per cent on.
// Source: the solution of [Standing.Resolve].
func (h History) IceTime(fraction float64) (Time, error) {
	if !(fraction >= 0 && fraction <= 1) {
		return Time{}, hydronics.Within("frost.History.IceTime", "fraction of ice", "", fraction, 0, 1, hydronics.Guard)
	}
	if fraction == 1 {
		return h.Closed, nil
	}
	return h.when(func(s State) float64 { return s.Ice - fraction }, fraction == 0), nil
}

// Slushed returns when slush blocks the bore for a pump: the moment at which
// supercooled water freezes, if at least the mass fraction blocking (0 to 1) turns
// to dendrites at once; otherwise Never by slush. A few per cent are reported to
// be enough (R. R. Gilpin, 1977 and 1981; as reviewed by K. L. Carey, CRREL 1982,
// of which the summary was seen). It is not the closing of the ring: see Closed.
func (h History) Slushed(blocking float64) (Time, error) {
	if !(blocking >= 0 && blocking <= 1) {
		return Time{}, hydronics.Within("frost.History.Slushed", "fraction of slush that blocks", "", blocking, 0, 1, hydronics.Guard)
	}
	if h.FirstIce.Never || h.Dendrites < blocking {
		return Time{Never: true}, nil
	}
	return h.FirstIce, nil
}

// MeanTime returns when the mean temperature of the water first falls to t in °C.
func (h History) MeanTime(t float64) Time {
	return h.when(func(s State) float64 { return t - s.Mean }, false)
}

// coldest returns the lowest temperature at the wall.
func (h History) coldest() float64 {
	t := math.Inf(1)
	for _, s := range h.States {
		t = min(t, s.Wall)
	}
	return t
}

// when returns the first moment at which f is no longer negative; with above,
// at which it is positive.
func (h History) when(f func(State) float64, above bool) Time {
	for i, s := range h.States {
		v := f(s)
		if !(v > 0 || v == 0 && !above) {
			continue
		}
		if i == 0 {
			return Time{}
		}
		before := h.States[i-1]
		a := f(before)
		return Time{Seconds: before.Time + (s.Time-before.Time)*(a/(a-v))}
	}
	return Time{Never: true}
}

func (s Standing) check(fn string) error {
	until := s.Until
	errs := []error{
		s.Section.check(fn), s.Medium.check(fn),
		hydronics.Within(fn, "start temperature", "°C", s.Start, math.SmallestNonzeroFloat64, 120, hydronics.Guard),
		hydronics.Within(fn, "temperature of nucleation", "°C", s.Nucleation, -15, 0, hydronics.Guard),
		hydronics.Within(fn, "hours of weather", "", float64(len(s.Weather)), 1, 1e6, hydronics.Guard),
		hydronics.Within(fn, "end of the calculation", "s", until, 60, 1e8, hydronics.Guard),
	}
	if s.Cells != 0 {
		errs = append(errs, hydronics.Within(fn, "cells in the water", "", float64(s.Cells), 4, 400, hydronics.Guard))
	}
	if s.Tolerance != 0 {
		errs = append(errs, hydronics.Within(fn, "tolerance", "", s.Tolerance, 1e-6, 0.5, hydronics.Guard))
	}
	for _, air := range s.Weather {
		if !air.valid() {
			return joined(append(errs, air.check(fn))...)
		}
	}
	return joined(errs...)
}

// Resolve runs the calculation until the ring of ice closes or Until is reached.
//
// Source: enthalpy in finite volumes (one-dimensional in radius, V. R. Voller and
// M. Cross, Int. J. Heat Mass Transfer 24 (1981) 545), the front resolved inside
// its cell as the radius to which the ice has grown; time by the two-stage
// second-order L-stable Runge-Kutta method of R. Alexander (SIAM J. Numer. Anal.
// 14 (1977) 1006) with adaptive steps; each stage by Newton's method on the
// piecewise linear relation of temperature and enthalpy. Energy is conserved to
// rounding. Before freezing the problem is linear and takes one elimination a
// step. The surface coefficient is the one in the middle of each step, as far as
// the surface temperature can be foreseen; it is kept while that changes the flow
// of heat by less than a thousandth. The conductivity of a layer is the one at 0 °C
// plus its slope times the layer's own temperature.
//
// The volume of ice is not larger than its water's here, and while ice melts in
// a warmer hour it is still pictured as a ring on the wall.
func (s Standing) Resolve() (History, error) {
	const fn = "frost.Standing.Resolve"
	if err := s.check(fn); err != nil {
		return History{}, err
	}
	if err := s.checkTogether(fn); err != nil {
		return History{}, err
	}
	steady := 0.0
	if s.Flowing {
		flow, err := s.Section.heatFlow(fn, s.Start, &s.Weather[0])
		if err != nil {
			return History{}, err
		}
		steady = flow.PerMetre
	}
	return s.from(steady)
}

// checkTogether checks what section and weather allow each other.
func (s *Standing) checkTogether(fn string) error {
	d := s.Section.Outside()
	cold := s.Start
	for i := range s.Weather {
		air := &s.Weather[i]
		if s.Section.Surface.Method == Correlated && air.Wind > 0 && (i == 0 || *air != s.Weather[i-1]) {
			if err := checkWind(fn, air, d); err != nil {
				return err
			}
		}
		cold = min(cold, air.Temperature, air.radiant()-hydronics.ZeroCelsius)
	}
	return s.Section.checkConductivity(fn, cold, s.Start)
}

// from follows a standing that was checked, its layers in the steady profile of
// the heat flow in W/m; 0 for as warm as the water.
func (s Standing) from(steady float64) (History, error) {
	if s.Cells == 0 {
		s.Cells = 10
		if s.brief && s.Mixed {
			s.Cells = 1 // nothing is asked of its ice
		}
	}
	if s.Tolerance == 0 {
		s.Tolerance = 0.1
	}
	r := newResolver(s.Section, s.Medium, s.Cells, s.Mixed, s.memory)
	r.start(s.Start, steady)
	if s.begins == nil {
		s.begins = new(outside)
	}
	if s.begins.film == 0 {
		r.begin(s.Section.Surface, &s.Weather[0])
		*s.begins = r.outside
	}
	r.outside = *s.begins
	return s.run(r)
}

const maxSteps = 100_000

func (s Standing) run(r *resolver) (History, error) {
	const fn = "frost.Standing.Resolve"
	h := History{ReachedZero: Time{Never: true}, FirstIce: Time{Never: true}, Closed: Time{Never: true}}
	if s.forget {
		h.States = s.memory.states[:0]
		defer func() { s.memory.states = h.States }()
	}
	if h.States == nil {
		h.States = make([]State, 0, 32)
	}
	before := r.content()
	now, step := 0.0, r.crossing
	h.States = append(h.States, r.state(now))
	for steps := 0; ; steps++ {
		if steps == maxSteps {
			return History{}, fmt.Errorf("%w: %s: more than %d steps", hydronics.ErrNoSolution, fn, maxSteps)
		}
		hour := min(int(now/hydronics.Hour), len(s.Weather)-1)
		limit := s.Until - now
		if hour < len(s.Weather)-1 {
			limit = min(limit, float64(hour+1)*hydronics.Hour-now)
		}
		if r.frozen {
			limit = min(limit, r.stepToClose(min(0.05, 0.5*s.Tolerance)))
		}
		dt := min(step, limit)
		r.setOutdoors(s.Section.Surface, &s.Weather[hour], now, dt)
		wall, felt := r.wall(), r.centre(r.t)
		if !r.frozen && wall <= s.Nucleation {
			dt = min(dt, 1e-3) // as cold from the start, or since the surface coefficient was renewed: ice begins now
		}
		whole := step // what the flow of heat allowed, before a moment to be met cut it
		var change float64
		for {
			var ok bool
			if change, ok = r.step(dt); !ok {
				if dt *= 0.25; dt < 1e-6 {
					return History{}, fmt.Errorf("%w: %s: the step at %g s does not converge", hydronics.ErrNoSolution, fn, now)
				}
				continue
			}
			if (change > 4*s.Tolerance || !r.frozen && change > 2*s.Tolerance) && dt > 1e-3 {
				dt *= max(0.2, math.Sqrt(s.Tolerance/change))
				whole = 0
				continue
			}
			if r.frozen || dt <= 1e-3 {
				break
			}
			// So that they are met exactly, 0 °C at the wall and the onset of freezing
			// end a step.
			edge := s.Nucleation
			if h.ReachedZero.Never && wall > 0 {
				edge = 0
			}
			if next := r.nextWall(); next < edge-1e-4 && wall > edge {
				dt *= max(0.05, min(0.999, (wall-edge)/(wall-next)))
				continue
			}
			// So does the opening of a valve: what is left to interpolate is small.
			if next := r.centre(r.tt); s.brief && next < s.opens-0.02 && felt > s.opens {
				dt *= max(0.05, min(0.999, (felt-s.opens)/(felt-next)))
				continue
			}
			break
		}
		r.accept()
		now += dt
		h.HeatLost += r.lost
		state := r.state(now)
		if h.ReachedZero.Never && state.Wall <= 1e-4 && !r.frozen {
			h.ReachedZero = Time{Seconds: now - dt*clamp(-state.Wall/(wall-state.Wall))}
		}
		if !r.frozen && state.Wall <= s.Nucleation+1e-4 {
			if h.ReachedZero.Never {
				h.ReachedZero = Time{Seconds: now}
			}
			h.FirstIce = Time{Seconds: now}
			h.Dendrites = r.nucleate()
			state.Ice = h.Dendrites
			dt = min(dt, 10)
		}
		h.States = append(h.States, state)
		if s.brief && r.frozen && (s.opens <= 0 || r.centre(r.t) <= s.opens) {
			break
		}
		if r.frozen && state.Ice >= 1-min(5e-4, 5e-3*s.Tolerance) {
			rate := (state.Ice - h.States[len(h.States)-2].Ice) / dt
			h.Closed = Time{Seconds: now + (1-state.Ice)/rate}
			break
		}
		if now >= s.Until*(1-1e-12) {
			break
		}
		growth := max(0.3, min(2.5, 0.9*math.Sqrt(s.Tolerance/max(change, 1e-12))))
		if step = dt * growth; growth > 1 && !r.frozen {
			step = max(step, whole)
		}
	}
	h.HeatGone = before - r.content()
	return h, nil
}

func clamp(x float64) float64 { return max(0, min(1, x)) }

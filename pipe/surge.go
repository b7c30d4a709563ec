package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// Restraint is the factor ψ by which the way a tube is held changes how far
// its wall gives under a pressure wave.
type Restraint float64

// Unrestrained is a tube with expansion joints throughout: ψ = 1.
const Unrestrained Restraint = 1

// Anchored is a thin-walled tube held against movement along its whole length:
// ψ = 1 - μ², with Poisson's ratio μ of its wall (0 to 0.5: 0.3 for metals).
// Source: V. L. Streeter and E. B. Wylie, Fluid Transients (1978): thin-walled
// tube anchored throughout.
func Anchored(poisson float64) (Restraint, error) {
	if err := hydronics.Within("pipe.Anchored", "Poisson's ratio", "", poisson, 0, 0.5, hydronics.Guard); err != nil {
		return Restraint(math.NaN()), err
	}
	return Restraint(1 - poisson*poisson), nil
}

// A Surge is the pressure wave in a pipe after its flow changes.
type Surge struct {
	Bulk      float64   // bulk modulus of the liquid, Pa, 1e8 to 1e10 (guard); about 2.2e9 for water
	Density   float64   // kg/m³, 100 to 2000 (guard)
	Bore      float64   // m, 0.0005 to 3 (guard)
	Wall      float64   // m, 1e-5 to 3 (guard); not used for a rigid pipe
	Modulus   float64   // Young's, of the wall, Pa, 1e6 to 1e12 (guard); 0 for a rigid pipe
	Restraint Restraint // up to 2 (guard); 0 counts as Unrestrained
}

// Surge returns the wave of the tube filled with a liquid of the given bulk
// modulus in Pa and density in kg/m³.
func (t Tube) Surge(bulk, density float64) Surge {
	return Surge{Bulk: bulk, Density: density, Bore: t.Bore(), Wall: t.Wall, Modulus: t.Modulus}
}

// WaveSpeed returns the speed in m/s at which a change of pressure travels:
//
//	c = √(K/ρ)/√(1 + ψ K D/(E e))
//
// A little free air slows it down greatly.
// Source: V. L. Streeter and E. B. Wylie, Fluid Transients (1978); problems
// 14.11 to 14.18 of K. Subramanya.
func (s Surge) WaveSpeed() (float64, error) {
	if err := s.check("pipe.Surge.WaveSpeed"); err != nil {
		return math.NaN(), err
	}
	return s.waveSpeed(), nil
}

func (s Surge) waveSpeed() float64 {
	give := 0.0
	if s.Modulus > 0 {
		psi := float64(s.Restraint)
		if psi == 0 {
			psi = float64(Unrestrained)
		}
		give = psi * s.Bulk * s.Bore / (s.Modulus * s.Wall)
	}
	return math.Sqrt(s.Bulk / s.Density / (1 + give))
}

// A Closure is a valve that stops a flow, or part of it.
type Closure struct {
	Length   float64 // of the pipe between the valve and the nearest large vessel or main, m, 0 to 1e5 (guard)
	Velocity float64 // by which the flow slows down, m/s, 0 to 50 (guard)
	Time     float64 // of closing, s, 0 to 1e5 (guard)
}

// A SurgePressure is what a closure does.
type SurgePressure struct {
	WaveSpeed    float64 // m/s
	CriticalTime float64 // 2 L/c, s: a faster closure is sudden
	Sudden       bool
	Rise         float64 // of the pressure at the valve, Pa
}

// Close returns the rise of pressure at a valve that closes. A sudden closure
// gives that of Joukowsky; a slower one is estimated in proportion:
//
//	Δp = ρ c ΔV          Time <= 2 L/c
//	Δp = 2 ρ L ΔV/Time   beyond
//
// The second line holds for a velocity that falls steadily. Most valves
// do the greater part of their work in the last tenth of their travel: put in
// that time.
// Source: N. Joukowsky (1898); L. Allievi, L. Michaud.
func (s Surge) Close(c Closure) (SurgePressure, error) {
	const fn = "pipe.Surge.Close"
	if err := errors.Join(s.check(fn), within(fn, "length", "m", c.Length, 0, maxLength),
		within(fn, "change of velocity", "m/s", c.Velocity, 0, maxVelocity),
		within(fn, "closing time", "s", c.Time, 0, 1e5)); err != nil {
		return SurgePressure{}, err
	}
	r := SurgePressure{WaveSpeed: s.waveSpeed()}
	r.CriticalTime = 2 * c.Length / r.WaveSpeed
	r.Sudden = c.Time <= r.CriticalTime
	r.Rise = s.Density * r.WaveSpeed * c.Velocity
	if !r.Sudden {
		r.Rise *= r.CriticalTime / c.Time
	}
	return r, nil
}

func (s Surge) check(fn string) error {
	err := errors.Join(within(fn, "bulk modulus", "Pa", s.Bulk, 1e8, 1e10), checkDensity(fn, s.Density),
		within(fn, "bore", "m", s.Bore, minBore, maxBore),
		within(fn, "restraint", "", float64(s.Restraint), 0, 2))
	if s.Modulus != 0 {
		err = errors.Join(err, within(fn, "Young's modulus", "Pa", s.Modulus, 1e6, 1e12),
			within(fn, "wall", "m", s.Wall, 1e-5, maxBore))
	}
	return err
}

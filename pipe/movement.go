package pipe

import (
	"errors"
	"math"
)

// Growth returns the change of length in m of a tube with the length in m
// (0 to 1e5, guard) between two temperatures in °C (-100 to 400, guard):
// α L (to - from); negative where it cools. Expansion must be 1e-7 to 5e-4 1/K
// (guard): a tube without one is refused.
// Source: definition of the coefficient of linear thermal expansion.
func (t Tube) Growth(length, from, to float64) (float64, error) {
	const fn = "pipe.Tube.Growth"
	if err := errors.Join(t.checkExpansion(fn), within(fn, "length", "m", length, 0, maxLength),
		checkTemperatures(fn, from, to)); err != nil {
		return math.NaN(), err
	}
	return t.Expansion * length * (to - from), nil
}

// An Offset is a leg of tube across a longer one, which bends to take up the
// growth of the longer.
type Offset struct {
	Growth float64 // m, without its sign, 0 to 1 (guard)
	Stress float64 // bending stress that the tube may take, Pa, 1e5 to 1e9 (guard)
}

// Leg returns the free length in m of a leg whose far end is guided, such as
// the offset of an L or Z: √(3 E D ΔL/S), from the guided cantilever.
//
// Modulus and stress are those at the working temperature: in plastics both
// fall steeply, and the maker's figures come first. Modulus may be 1e6 to 1e12 Pa
// and Outside 0.0005 to 3 m (guards).
// Source: M. W. Kellogg Company, Design of Piping Systems, 2nd ed. (1956),
// guided cantilever method.
func (t Tube) Leg(o Offset) (float64, error) { return t.free("pipe.Tube.Leg", 3, o) }

// Loop returns the free length in m of each of the two legs of a U, which share
// the growth: √(3 E D ΔL/(2 S)). The limits are those of [Tube.Leg].
// Source: guided cantilever method of M. W. Kellogg, as [Tube.Leg], with half
// the growth for each leg.
func (t Tube) Loop(o Offset) (float64, error) { return t.free("pipe.Tube.Loop", 1.5, o) }

func (t Tube) free(fn string, k float64, o Offset) (float64, error) {
	if err := errors.Join(t.checkModulus(fn), within(fn, "growth", "m", o.Growth, 0, 1),
		within(fn, "bending stress", "Pa", o.Stress, 1e5, 1e9)); err != nil {
		return math.NaN(), err
	}
	return math.Sqrt(k * t.Modulus * t.Outside * o.Growth / o.Stress), nil
}

// LegByConstant returns the free length in m of a leg by the rule of thumb
// l = C √(D ΔL), all in mm, for a growth in m (0 to 1, guard) and the constant C
// of the maker (1 to 200, guard); about 60 for copper, 45 to 54 for steel, 12 for PE-X, 20 to
// 30 for PP-R, from memory.
// Source: common practice.
func (t Tube) LegByConstant(growth, c float64) (float64, error) {
	const fn = "pipe.Tube.LegByConstant"
	if err := errors.Join(within(fn, "outside diameter", "m", t.Outside, minBore, maxBore),
		within(fn, "growth", "m", growth, 0, 1), within(fn, "constant", "", c, 1, 200)); err != nil {
		return math.NaN(), err
	}
	return c * math.Sqrt(t.Outside*growth), nil // mm under the root as well as outside
}

// FixedPointForce returns the force in N on the anchors of a straight tube that
// is held at both ends and warmed from one temperature to another, in °C:
// E A α ΔT, with A the section of the wall. Positive where it pushes. A slender
// tube buckles sideways before that unless it is guided. The thrust of the
// pressure in bends and compensators comes on top. The limits are those of
// [Tube.Check], [Tube.Growth] and [Tube.Leg].
// Source: Hooke's law, with the growth of [Tube.Growth] held back.
func (t Tube) FixedPointForce(from, to float64) (float64, error) {
	const fn = "pipe.Tube.FixedPointForce"
	if err := errors.Join(t.Check(), t.checkModulus(fn), t.checkExpansion(fn), checkTemperatures(fn, from, to)); err != nil {
		return math.NaN(), err
	}
	return t.Modulus * (area(t.Outside) - area(t.Bore())) * t.Expansion * (to - from), nil
}

func (t Tube) checkExpansion(fn string) error {
	return within(fn, "thermal expansion", "1/K", t.Expansion, 1e-7, 5e-4)
}

func (t Tube) checkModulus(fn string) error {
	return errors.Join(within(fn, "outside diameter", "m", t.Outside, minBore, maxBore),
		within(fn, "Young's modulus", "Pa", t.Modulus, 1e6, 1e12))
}

func checkTemperatures(fn string, from, to float64) error {
	return errors.Join(within(fn, "temperature from", "°C", from, minTemperature, maxTemperature),
		within(fn, "temperature to", "°C", to, minTemperature, maxTemperature))
}

package numeric

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// maxIterations bounds [Root]; bisection alone narrows any finite bracket of
// doubles to neighbouring values in fewer steps of its own.
const maxIterations = 200

// Root returns x in [a, b] where f changes its sign, with an error of at most
// tol (absolute, in x) plus rounding. f must be continuous, and f(a) and f(b)
// must not have the same sign; otherwise, and wherever f gives NaN, the error
// matches [hydronics.ErrNoSolution] and x is NaN.
//
// Method: inverse quadratic interpolation and secant steps inside a bracket,
// guarded by bisection. Source: R. P. Brent, Algorithms for Minimization
// without Derivatives, Prentice-Hall, 1973, chapter 4.
func Root(f func(float64) float64, a, b, tol float64) (float64, error) {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	if !(math.Signbit(fa) != math.Signbit(fb)) || math.IsNaN(fa) || math.IsNaN(fb) {
		return math.NaN(), fmt.Errorf("%w: no change of sign between f(%g) = %g and f(%g) = %g",
			hydronics.ErrNoSolution, a, fa, b, fb)
	}
	// b is the best estimate, c the other end of the bracket, a the previous b.
	c, fc := a, fa
	step, last := b-a, b-a
	for range maxIterations {
		if math.Signbit(fb) == math.Signbit(fc) {
			c, fc = a, fa
			step, last = b-a, b-a
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		near := 2*0x1p-53*math.Abs(b) + 0.5*tol
		half := 0.5 * (c - b)
		if math.Abs(half) <= near || fb == 0 {
			return b, nil
		}
		step, last = brentStep(a, b, c, fa, fb, fc, step, last, half, near)
		a, fa = b, fb
		if math.Abs(step) > near {
			b += step
		} else {
			b += math.Copysign(near, half)
		}
		if fb = f(b); math.IsNaN(fb) {
			return math.NaN(), fmt.Errorf("%w: f(%g) is not a number", hydronics.ErrNoSolution, b)
		}
	}
	return math.NaN(), fmt.Errorf("%w: no root to %g within %d steps", hydronics.ErrNoSolution, tol, maxIterations)
}

// brentStep returns the next step from b and the one before it: interpolation
// where it converges, half the bracket where it does not.
func brentStep(a, b, c, fa, fb, fc, step, last, half, near float64) (next, previous float64) {
	if math.Abs(last) < near || math.Abs(fa) <= math.Abs(fb) {
		return half, half
	}
	var p, q float64
	s := fb / fa
	if a == c {
		p, q = 2*half*s, 1-s
	} else {
		r, t := fb/fc, fa/fc
		p = s * (2*half*t*(t-r) - (b-a)*(r-1))
		q = (t - 1) * (r - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	} else {
		p = -p
	}
	if 2*p < math.Min(3*half*q-math.Abs(near*q), math.Abs(last*q)) {
		return p / q, step
	}
	return half, half
}

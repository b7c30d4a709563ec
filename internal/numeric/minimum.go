package numeric

import "math"

// Minimum returns x in [a, b] where f, which must have one minimum there, is
// least, with an error of about tol (absolute, in x; sqrt of rounding at best).
// Where f gives NaN the result is some x of the interval.
//
// Method: parabolic steps guarded by golden sections. Source: R. P. Brent,
// Algorithms for Minimization without Derivatives, Prentice-Hall, 1973, chapter 5.
func Minimum(f func(float64) float64, a, b, tol float64) float64 {
	const section = 0.3819660112501051 // 2 - golden ratio
	x := a + section*(b-a)
	v, w := x, x // the third and second best points so far
	fx := f(x)
	fv, fw := fx, fx
	var step, last float64 // this step and the one before
	for range maxIterations {
		middle := (a + b) / 2
		near := 0x1p-26*math.Abs(x) + tol/3
		if math.Abs(x-middle) <= 2*near-(b-a)/2 {
			break
		}
		parabola := false
		if math.Abs(last) > near {
			// Vertex of the parabola through x, w and v.
			r := (x - w) * (fx - fv)
			q := (x - v) * (fx - fw)
			p := (x-v)*q - (x-w)*r
			q = 2 * (q - r)
			if q > 0 {
				p = -p
			} else {
				q = -q
			}
			if math.Abs(p) < math.Abs(q*last/2) && p > q*(a-x) && p < q*(b-x) {
				last, step = step, p/q
				parabola = true
				if u := x + step; u-a < 2*near || b-u < 2*near {
					step = math.Copysign(near, middle-x)
				}
			}
		}
		if !parabola {
			if x < middle {
				last = b - x
			} else {
				last = a - x
			}
			step = section * last
		}
		u := x + step
		if math.Abs(step) < near {
			u = x + math.Copysign(near, step)
		}
		fu := f(u)
		switch {
		case fu <= fx:
			if u < x {
				b = x
			} else {
				a = x
			}
			v, fv, w, fw, x, fx = w, fw, x, fx, u, fu
			continue
		case u < x:
			a = u
		default:
			b = u
		}
		if fu <= fw || w == x {
			v, fv, w, fw = w, fw, u, fu
		} else if fu <= fv || v == x || v == w {
			v, fv = u, fu
		}
	}
	return x
}

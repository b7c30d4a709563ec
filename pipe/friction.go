package pipe

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// Regime says how the liquid flows.
type Regime uint8

// The regimes of pipe flow, by the Reynolds number and the transition rule.
const (
	Still        Regime = iota // no flow
	Laminar                    // the friction factor is 64/Re whatever the roughness (nearly so by ChurchillTransition)
	Transitional               // neither; measured losses scatter by ±20 %
	Turbulent                  // Colebrook and White
)

var regimeNames = [...]string{"still", "laminar", "transitional", "turbulent"}

// String returns the regime in one word, such as "laminar".
func (r Regime) String() string {
	if int(r) < len(regimeNames) {
		return regimeNames[r]
	}
	return "unknown"
}

// uncertainty of the friction, as a share of it.
func (r Regime) uncertainty() float64 {
	if r == Transitional {
		return 0.20
	}
	return 0.05
}

// Limits of the friction factor. No source ends the Colebrook equation at a
// Reynolds number of its own: 1e8 and 0.05 are where the Moody chart ends.
const (
	minReynolds  = 1e-300 // below it 64/Re leaves the range of float64
	maxReynolds  = 1e8
	maxRoughness = 0.05
	moodyLimits  = "L. F. Moody, Trans. ASME 66 (1944) 671: extent of the chart"
)

// FrictionFactor returns the Darcy friction factor of a round tube (four times
// the Fanning factor), for the Reynolds number re in (0, 1e8] and the relative
// roughness rr = ε/D in [0, 0.05], by the rule [LinearTransition]:
//
//	re <= 2000           f = 64/re
//	2000 < re < 3000     linear in re between the two
//	re >= 3000           1/√f = -2 log10(rr/3.7 + 2.51/(re √f))
//
// Books differ in the constants of the last line (3.7 to 3.715, 2.51 to 2.523;
// at most 0.2 % in f); these are Colebrook's own. His equation is met to 1e-13.
// A real tube is met to about 5 % at best, since its roughness is not known
// better, and to 20 % between 2000 and 3200 (see [Transition]).
//
// Outside the limits it returns NaN and a [hydronics.RangeError].
// Source: C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133; 64/re is
// Hagen-Poiseuille.
func FrictionFactor(re, rr float64) (float64, error) {
	if !coversFriction(re, rr) {
		return math.NaN(), checkFriction("pipe.FrictionFactor", re, rr)
	}
	f, _ := LinearTransition.friction(re, rr)
	return f, nil
}

func coversFriction(re, rr float64) bool {
	return re >= minReynolds && re <= maxReynolds && rr >= 0 && rr <= maxRoughness
}

func checkFriction(fn string, re, rr float64) error {
	if !(re >= minReynolds && re <= maxReynolds) {
		return hydronics.Within(fn, "Reynolds number", "", re, minReynolds, maxReynolds, moodyLimits)
	}
	return hydronics.Within(fn, "relative roughness", "", rr, 0, maxRoughness, moodyLimits)
}

const (
	perDecade = 2 / math.Ln10                  // 2 log10 y = perDecade ln y
	perBinary = 2 * math.Ln2 / math.Ln10       // 2 log10 y = perBinary log2 y
	smoothLaw = 0.9 * 2 * math.Ln2 / math.Ln10 // 1/√f of smooth tube, per doubling of re, nearly
)

// colebrook solves x = -2 log10(rr/3.7 + 2.51 x/re) for x = 1/√f, for re of 2000
// and more, and returns f and the slope n = d ln(f re²)/d ln re = 2/(1+q), where
// q = -∂(right-hand side)/∂x.
//
// With b = rr/3.7, a = 2.51/re and a start x0, let y = b + a x0 and
// u = a (x-x0)/y. The equation then reads u + q0 ln(1+u) = t (1+q0) with
// q0 = 2/ln10 a/y and t = -(a/y)(x0 + 2/ln10 ln y)/(1+q0). The start is the smooth
// law put once through the equation with a rough logarithm, so that |t| stays
// below 0.006 and five terms of the series u(t) suffice: one logarithm in all.
// Divisions are gathered, since they take longest.
func colebrook(re, rr float64) (f, n float64) {
	a, b := 2.51/re, rr*(1/3.7)
	x := -perBinary * roughLog2(b+a*(smoothLaw*rougherLog2(re)-1.49))
	y := b + a*x
	slope := perDecade * a // q0 = slope/y
	z := y + slope         // 1 + q0 = z/y
	inverse := 1 / (y * z)
	r := (x + perDecade*numeric.LogSmall(y)) * y * y * inverse // (...)/(1+q0)
	t, g := -a*z*inverse*r, slope*y*inverse                    // g = q0/(1+q0)
	// u - g(u²/2 - u³/3 + u⁴/4 - ...) = t reversed: u = t (1 + h).
	h := g * t * (1./2 + t*(g/2-1./3+t*((5./8*g-5./6)*g+1./4+t*(((7./8*g-7./4)*g+13./12)*g-1./5))))
	x -= r * (1 + h)
	u := 1 + t*(1+h)
	q := slope * z * inverse // the final q is this over u
	x2 := x * x
	w := 1 / (x2 * (u + q))
	return w * (u + q), 2 * u * x2 * w
}

// roughLog2 returns log2(v) of a positive normal v with an error below 0.001:
// the exponent, and a cubic in the mantissa.
func roughLog2(v float64) float64 {
	bits := math.Float64bits(v)
	exponent := float64(int(bits>>52) - 1023)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	return exponent + ((0.1582487046*m-1.051875031)*m+3.047884161)*m - 2.153620718
}

// rougherLog2 is below log2(v) by at most 0.087: the bits of a number are
// nearly its logarithm.
func rougherLog2(v float64) float64 {
	return float64(int64(math.Float64bits(v))-1023<<52) * 0x1p-52
}

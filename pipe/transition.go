package pipe

import "math"

// Transition names the rule for the friction factor between laminar and
// turbulent flow. No standard prescribes one.
//
// The zero value, LinearTransition, is the default because it agrees best with
// open measurements in smooth tubes (V. E. Senecal 1951; T. E. Stanton and
// J. R. Pannell 1914; the Oregon facility, J. Fluid Mech. 511 (2004) 41): they
// reach the turbulent level at a Reynolds number of about 2600 to 3000. Mean and
// root-mean-square deviation of each rule from the 39 points that the project's
// tables hold, in per cent:
//
//	                      2000 to 2500   2500 to 3200   3200 to 4500
//	LinearTransition         -2 / 7        +9 / 19        +0.5 / 2.1
//	CubicTransition          -8 / 9       +10 / 20        +0.5 / 2.1
//	ChurchillTransition     -12 / 14       +8 / 18        +2.1 / 2.9
//	StepTransition           +7 / 19      +16 / 23        +0.5 / 2.1
//	straight, 2300 to 4000  -19 / 21      -16 / 20        -7.0 / 9.6
//
// The last line, popular because heat transfer is often blended there, is too
// low and therefore not offered. The scatter in the middle comes from a
// facility so quiet that some of its flows stay laminar up to 2900. Count on
// ±20 % between 2000 and 3200 whatever the rule.
//
// With every rule the pressure loss grows strictly with the flow.
type Transition uint8

// The transition rules.
const (
	// LinearTransition joins 64/re at 2000 and Colebrook at 3000 by a straight
	// line in f over re: continuous, with a kink at both ends.
	LinearTransition Transition = iota
	// CubicTransition joins the same two points by a cubic in ln(f re²) over
	// ln re that keeps both slopes: continuous with its slope.
	CubicTransition
	// ChurchillTransition is one smooth equation for every regime, up to 3 %
	// away from Colebrook in turbulent flow.
	// Source: S. W. Churchill, Chem. Eng. 84 (7 Nov. 1977) 91.
	ChurchillTransition
	// StepTransition changes from 64/re to Colebrook at 2320 without a blend:
	// the critical Reynolds number of German charts, pessimistic just above
	// it and discontinuous there.
	StepTransition
)

var transitionNames = [...]string{"linear", "cubic", "Churchill", "step"}

// String returns the name of the rule in one word.
func (t Transition) String() string {
	if int(t) < len(transitionNames) {
		return transitionNames[t]
	}
	return "unknown"
}

const (
	laminarEnd     = 2000.0
	turbulentStart = 3000.0
	criticalStep   = 2320.0
)

// FrictionFactor returns the Darcy friction factor of a round tube by the rule
// t, and the regime, for the Reynolds number re in (0, 1e8] and the relative
// roughness rr = ε/D in [0, 0.05]. Outside the limits, and for an unknown rule,
// it returns NaN and a [hydronics.RangeError]. See [FrictionFactor] for the
// equations.
// Source: 64/re, Hagen-Poiseuille; C. F. Colebrook, J. Inst. Civ. Eng. 11
// (1939) 133; S. W. Churchill, Chem. Eng. 84 (7 Nov. 1977) 91; the step at
// 2320, common practice; the straight and the cubic blend are this package's
// own, held against the measurements named at [Transition].
func (t Transition) FrictionFactor(re, rr float64) (f float64, regime Regime, err error) {
	const fn = "pipe.Transition.FrictionFactor"
	if !coversFriction(re, rr) {
		return math.NaN(), Still, checkFriction(fn, re, rr)
	}
	if err := t.check(fn); err != nil {
		return math.NaN(), Still, err
	}
	f, _ = t.friction(re, rr)
	return f, t.regime(re), nil
}

func (t Transition) check(fn string) error {
	return within(fn, "transition rule", "", float64(t), 0, float64(StepTransition))
}

func (t Transition) regime(re float64) Regime {
	lo, hi := laminarEnd, turbulentStart
	if t == StepTransition {
		lo, hi = criticalStep, criticalStep
	}
	switch {
	case !(re > 0):
		return Still
	case re <= lo:
		return Laminar
	case re < hi:
		return Transitional
	}
	return Turbulent
}

// friction returns f and the slope n = d ln(f re²)/d ln re of the loss.
func (t Transition) friction(re, rr float64) (f, n float64) {
	switch {
	case t == ChurchillTransition:
		return churchill(re, rr)
	case re >= turbulentStart, t == StepTransition && re > criticalStep:
		return colebrook(re, rr)
	case t == StepTransition, re <= laminarEnd:
		return 64 / re, 1
	case t == CubicTransition:
		return cubic(re, rr)
	}
	const f2 = 64 / laminarEnd
	f3, _ := colebrook(turbulentStart, rr)
	k := (f3 - f2) / (turbulentStart - laminarEnd)
	f = f2 + k*(re-laminarEnd)
	return f, 2 + k*re/f
}

// cubic is Hermite's cubic for Y = ln(f re²) over X = ln re; the slope of Y is
// 1 where flow is laminar and that of Colebrook at the other end.
func cubic(re, rr float64) (f, n float64) {
	f3, m1 := colebrook(turbulentStart, rr)
	h := math.Log(turbulentStart / laminarEnd)
	y0, y1 := math.Log(64*laminarEnd), math.Log(f3*turbulentStart*turbulentStart)
	m0 := 1.0
	s := math.Log(re/laminarEnd) / h
	d := (y1 - y0) / h
	// Newton's form of the Hermite polynomial.
	c2, c3 := 3*d-2*m0-m1, m0+m1-2*d
	y := y0 + h*s*(m0+s*(c2+s*c3))
	slope := m0 + s*(2*c2+3*s*c3)
	return math.Exp(y) / (re * re), slope
}

// churchill evaluates
//
//	f = 8 ((8/re)¹² + 1/(A+B)^1.5)^(1/12)
//	A = (2.457 ln(1/((7/re)^0.9 + 0.27 rr)))¹⁶,  B = (37530/re)¹⁶
//
// Below re = 100 the second term is less than 1e-48 of the first, and is left
// out before its powers overflow.
func churchill(re, rr float64) (f, n float64) {
	if re < 100 {
		return 64 / re, 1
	}
	e := math.Pow(7/re, 0.9)
	l := -2.457 * math.Log(e+0.27*rr)
	a, b := pow16(l), pow16(37530/re)
	dl := 2.457 * 0.9 * e / (e + 0.27*rr) // d l/d ln re
	s := a + b
	ds := 16 * (a/l*dl - b)
	lam := 8 / re
	lam *= lam * lam // ³
	lam *= lam       // ⁶
	lam *= lam       // ¹²
	turb := 1 / (s * math.Sqrt(s))
	g := lam + turb
	return 8 * math.Pow(g, 1./12), 2 - (12*lam+1.5*turb*ds/s)/(12*g)
}

func pow16(v float64) float64 {
	v *= v
	v *= v
	v *= v
	return v * v
}

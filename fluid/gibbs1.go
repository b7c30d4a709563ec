package fluid

// Constants of IAPWS-IF97 (R7-97(2012), section 2).
const (
	gasConstantWater = 461.526 // J/(kg·K), eq. 1

	pressureScale1    = 16.53e6 // Pa, region 1, section 5.1
	temperatureScale1 = 1386.0  // K, region 1
)

const if97 = "IAPWS R7-97(2012)"

// derivatives holds a dimensionless Gibbs energy γ(π, τ) and its partial
// derivatives, named after the variables.
type derivatives struct {
	g, p, pp, t, tt, pt float64
}

// Coefficients of region 1, R7-97 Table 2, numbered as there.
const (
	n01 = 0.14632971213167
	n02 = -0.84548187169114
	n03 = -0.37563603672040e1
	n04 = 0.33855169168385e1
	n05 = -0.95791963387872
	n06 = 0.15772038513228
	n07 = -0.16616417199501e-1
	n08 = 0.81214629983568e-3
	n09 = 0.28319080123804e-3
	n10 = -0.60706301565874e-3
	n11 = -0.18990068218419e-1
	n12 = -0.32529748770505e-1
	n13 = -0.21841717175414e-1
	n14 = -0.52838357969930e-4
	n15 = -0.47184321073267e-3
	n16 = -0.30001780793026e-3
	n17 = 0.47661393906987e-4
	n18 = -0.44141845330846e-5
	n19 = -0.72694996297594e-15
	n20 = -0.31679644845054e-4
	n21 = -0.28270797985312e-5
	n22 = -0.85205128120103e-9
	n23 = -0.22425281908000e-5
	n24 = -0.65171222895601e-6
	n25 = -0.14341729937924e-12
	n26 = -0.40516996860117e-6
	n27 = -0.12734301741641e-8
	n28 = -0.17424871230634e-9
	n29 = -0.68762131295531e-18
	n30 = 0.14478307828521e-19
	n31 = 0.26335781662795e-22
	n32 = -0.11947622640071e-22
	n33 = 0.18228094581404e-23
	n34 = -0.93537087292458e-25
)

// gibbs1 evaluates the region 1 equation of IF97 (R7-97 eq. 7, Table 2)
//
//	γ = Σ n (7.1 - π)^I (τ - 1.222)^J
//
// with its derivatives (Table 4), for π = p/16.53 MPa and τ = 1386 K/T. Two of them
// stand alone, in [volume1] and [heat1], because they are asked for alone.
//
// The terms are gathered by I into polynomials in b = τ - 1.222: p0 (I = 0) to
// p8, d for the first derivative and dd for the second. In the six terms with
// I >= 21 the powers are written with c = a/b, since J is nearly -I there.
func gibbs1(pi, tau float64) derivatives {
	a, b := 7.1-pi, tau-1.222
	r := 1 / b
	r2 := r * r
	r3 := r2 * r
	r4 := r2 * r2
	r5 := r2 * r3
	r6 := r3 * r3
	r8 := r4 * r4
	b2 := b * b
	b4 := b2 * b2
	b8 := b4 * b4
	b14 := b8 * b4 * b2

	p0 := n03 + b*(n04+b*(n05+b*(n06+b*(n07+b*n08)))) + r*(n02+r*n01)
	d0 := n04 + b*(2*n05+b*(3*n06+b*(4*n07+b*5*n08))) - r2*(n02+r*2*n01)
	p1 := n12 + b*(n13+b2*n14) + r*(n11+r6*(n10+r2*n09))
	d1 := n13 + b2*3*n14 - r2*(n11+r6*(7*n10+r2*9*n09))
	p2 := n16 + b*(n17+b2*(n18+b14*n19)) + r3*n15
	d2 := n17 + b2*(3*n18+b14*17*n19) - r4*3*n15
	p3 := n21 + b4*b2*n22 + r4*n20
	d3 := b4*b*6*n22 - r5*4*n20
	p4 := b8*b2*n25 + r2*(n24+r3*n23)
	d4 := b8*b*10*n25 - r3*(2*n24+r3*5*n23)
	p5 := r8 * n26
	d5 := r8 * r * -8 * n26
	p8 := r6 * (n28 + r5*n27)
	d8 := -r6 * r * (6*n28 + r5*11*n27)

	// Terms 29 to 34, with their exponents (I, J): (21, -29), (23, -31),
	// (29, -38), (30, -39), (31, -40), (32, -41).
	c := a * r
	c2 := c * c
	c4 := c2 * c2
	c6 := c4 * c2
	c19 := c4 * c4 * c4 * c6 * c
	k := c19 * r8 * r2 // a^19 b^-29
	h := n29 + c2*(n30+c6*r*(n31+c*(n32+c*(n33+c*n34))))
	hpp := 21*20*n29 + c2*(23*22*n30+c6*r*(29*28*n31+c*(30*29*n32+c*(31*30*n33+c*32*31*n34))))
	ht := -29*n29 + c2*(-31*n30+c6*r*(-38*n31+c*(-39*n32+c*(-40*n33+c*-41*n34))))
	hpt := -21*29*n29 + c2*(-23*31*n30+c6*r*(-29*38*n31+c*(-30*39*n32+c*(-31*40*n33+c*-32*41*n34))))

	a2 := a * a
	a3 := a2 * a
	return derivatives{
		g:  p0 + a*(p1+a*(p2+a*(p3+a*(p4+a*(p5+a3*p8))))) + k*a2*h,
		p:  volume1(pi, tau),
		pp: 2*p2 + a*(6*p3+a*(12*p4+a*(20*p5+a3*56*p8))) + k*hpp,
		t:  d0 + a*(d1+a*(d2+a*(d3+a*(d4+a*(d5+a3*d8))))) + k*a2*r*ht,
		tt: heat1(pi, tau),
		pt: -(d1 + a*(2*d2+a*(3*d3+a*(4*d4+a*(5*d5+a3*8*d8)))) + k*a*r*hpt),
	}
}

// volume1 is the derivative of γ of [gibbs1] by π, for the density.
func volume1(pi, tau float64) float64 {
	a, b := 7.1-pi, tau-1.222
	r := 1 / b
	r2 := r * r
	r3 := r2 * r
	r4 := r2 * r2
	r6 := r3 * r3
	r8 := r4 * r4
	b2 := b * b
	b4 := b2 * b2
	b8 := b4 * b4

	p1 := n12 + b*(n13+b2*n14) + r*(n11+r6*(n10+r2*n09))
	p2 := n16 + b*(n17+b2*(n18+b8*b4*b2*n19)) + r3*n15
	p3 := n21 + b4*b2*n22 + r4*n20
	p4 := b8*b2*n25 + r2*(n24+r3*n23)
	p5 := r8 * n26
	p8 := r6 * (n28 + r2*r3*n27)

	c := a * r
	c2 := c * c
	c4 := c2 * c2
	c8 := c4 * c4
	k := c8 * c8 * c4 * r8 * r // a^20 b^-29
	h := 21*n29 + c2*(23*n30+c4*c2*r*(29*n31+c*(30*n32+c*(31*n33+c*32*n34))))
	return -(p1 + a*(2*p2+a*(3*p3+a*(4*p4+a*(5*p5+a*a*a*8*p8)))) + k*h)
}

// heat1 is the second derivative of γ of [gibbs1] by τ, for the specific heat.
func heat1(pi, tau float64) float64 {
	a, b := 7.1-pi, tau-1.222
	r := 1 / b
	r2 := r * r
	r3 := r2 * r
	r4 := r2 * r2
	r5 := r2 * r3
	r6 := r3 * r3
	r8 := r4 * r4
	b2 := b * b
	b4 := b2 * b2
	b8 := b4 * b4

	dd0 := 2*n05 + b*(6*n06+b*(12*n07+b*20*n08)) + r3*(2*n02+r*6*n01)
	dd1 := b*6*n14 + r3*(2*n11+r6*(56*n10+r2*90*n09))
	dd2 := b*(6*n18+b8*b4*b2*272*n19) + r5*12*n15
	dd3 := b4*30*n22 + r6*20*n20
	dd4 := b8*90*n25 + r4*(6*n24+r3*30*n23)
	dd5 := r8 * r2 * 72 * n26
	dd8 := r8 * (42*n28 + r5*132*n27)

	c := a * r
	c2 := c * c
	c4 := c2 * c2
	c8 := c4 * c4
	k := c8 * c8 * c4 * c * r8 * r2 // a^21 b^-31
	h := 29*30*n29 + c2*(31*32*n30+c4*c2*r*(38*39*n31+c*(39*40*n32+c*(40*41*n33+c*41*42*n34))))
	return dd0 + a*(dd1+a*(dd2+a*(dd3+a*(dd4+a*(dd5+a*a*a*dd8))))) + k*h
}

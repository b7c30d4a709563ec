package fluid

import "math"

// Reducing quantities of region 2, R7-97 section 6.1.
const (
	pressureScale2    = 1e6   // Pa
	temperatureScale2 = 540.0 // K
)

// ideal2 holds the exponents J and coefficients n of the ideal-gas part of
// region 2, R7-97 Table 10. It is never written to.
var ideal2 = [...]struct {
	j int
	n float64
}{
	{0, -0.96927686500217e1},
	{1, 0.10086655968018e2},
	{-5, -0.56087911283020e-2},
	{-4, 0.71452738081455e-1},
	{-3, -0.40710498223928},
	{-2, 0.14240819171444e1},
	{-1, -0.43839511319450e1},
	{2, -0.28408632460772},
	{3, 0.21268463753307e-1},
}

// residual2 holds the exponents I, J and coefficients n of the residual part of
// region 2, R7-97 Table 11. It is never written to.
var residual2 = [...]struct {
	i, j int
	n    float64
}{
	{1, 0, -0.0017731742473213},
	{1, 1, -0.017834862292358},
	{1, 2, -0.045996013696365},
	{1, 3, -0.057581259083432},
	{1, 6, -0.05032527872793},
	{2, 1, -0.000033032641670203},
	{2, 2, -0.00018948987516315},
	{2, 4, -0.0039392777243355},
	{2, 7, -0.043797295650573},
	{2, 36, -0.000026674547914087},
	{3, 0, 2.0481737692309e-08},
	{3, 1, 4.3870667284435e-07},
	{3, 3, -0.00003227767723857},
	{3, 6, -0.0015033924542148},
	{3, 35, -0.040668253562649},
	{4, 1, -7.8847309559367e-10},
	{4, 2, 1.2790717852285e-08},
	{4, 3, 4.8225372718507e-07},
	{5, 7, 2.2922076337661e-06},
	{6, 3, -1.6714766451061e-11},
	{6, 16, -0.0021171472321355},
	{6, 35, -23.895741934104},
	{7, 0, -5.905956432427e-18},
	{7, 11, -1.2621808899101e-06},
	{7, 25, -0.038946842435739},
	{8, 8, 1.1256211360459e-11},
	{8, 36, -8.2311340897998},
	{9, 13, 1.9809712802088e-08},
	{10, 4, 1.0406965210174e-19},
	{10, 10, -1.0234747095929e-13},
	{10, 14, -1.0018179379511e-09},
	{16, 29, -8.0882908646985e-11},
	{16, 50, 0.10693031879409},
	{18, 57, -0.33662250574171},
	{20, 20, 8.9185845355421e-25},
	{20, 35, 3.0629316876232e-13},
	{20, 48, -4.2002467698208e-06},
	{21, 21, -5.9056029685639e-26},
	{22, 53, 3.7826947613457e-06},
	{23, 39, -1.2768608934681e-15},
	{24, 26, 7.3087610595061e-29},
	{24, 40, 5.5414715350778e-17},
	{24, 58, -9.436970724121e-07},
}

// gibbs2 evaluates the region 2 equation of IF97 (R7-97 eqs 15 to 17)
//
//	γ = ln π + Σ n0 τ^J0 + Σ n π^I (τ - 0.5)^J
//
// with its derivatives (Tables 13 and 14), for π = p/1 MPa and τ = 540 K/T.
func gibbs2(pi, tau float64) derivatives {
	d := derivatives{g: math.Log(pi), p: 1 / pi, pp: -1 / (pi * pi)}
	for _, c := range ideal2 {
		j, term := float64(c.j), c.n*power(tau, c.j)
		d.g += term
		d.t += term * j / tau
		d.tt += term * j * (j - 1) / (tau * tau)
	}
	b := tau - 0.5
	for _, c := range residual2 {
		i, j := float64(c.i), float64(c.j)
		term := c.n * power(pi, c.i) * power(b, c.j)
		d.g += term
		d.p += term * i / pi
		d.pp += term * i * (i - 1) / (pi * pi)
		d.t += term * j / b
		d.tt += term * j * (j - 1) / (b * b)
		d.pt += term * i * j / (pi * b)
	}
	return d
}

// power returns x^n by repeated squaring.
func power(x float64, n int) float64 {
	if n < 0 {
		x, n = 1/x, -n
	}
	p := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 != 0 {
			p *= x
		}
		x *= x
	}
	return p
}

// boundary23 is the pressure in Pa at which region 2 ends between 350 and 590 °C
// (R7-97 eq. 5, Table 1), for a temperature in K.
func boundary23(tk float64) float64 {
	return 1e6 * (0.34805185628969e3 + tk*(-0.11671859879975e1+tk*0.10192970039326e-2))
}

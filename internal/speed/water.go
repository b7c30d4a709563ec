package main

import (
	"math"

	"example.com/hydronics/fluid"
)

// region1 holds the exponents I and J and the coefficient n of every term of
// IAPWS R7-97(2012), Table 2.
var region1 = [...]struct{ i, j, n float64 }{
	{0, -2, 0.14632971213167}, {0, -1, -0.84548187169114}, {0, 0, -0.37563603672040e1}, {0, 1, 0.33855169168385e1},
	{0, 2, -0.95791963387872}, {0, 3, 0.15772038513228}, {0, 4, -0.16616417199501e-1}, {0, 5, 0.81214629983568e-3},
	{1, -9, 0.28319080123804e-3}, {1, -7, -0.60706301565874e-3}, {1, -1, -0.18990068218419e-1}, {1, 0, -0.32529748770505e-1},
	{1, 1, -0.21841717175414e-1}, {1, 3, -0.52838357969930e-4}, {2, -3, -0.47184321073267e-3}, {2, 0, -0.30001780793026e-3},
	{2, 1, 0.47661393906987e-4}, {2, 3, -0.44141845330846e-5}, {2, 17, -0.72694996297594e-15}, {3, -4, -0.31679644845054e-4},
	{3, 0, -0.28270797985312e-5}, {3, 6, -0.85205128120103e-9}, {4, -5, -0.22425281908000e-5}, {4, -2, -0.65171222895601e-6},
	{4, 10, -0.14341729937924e-12}, {5, -8, -0.40516996860117e-6}, {8, -11, -0.12734301741641e-8}, {8, -6, -0.17424871230634e-9},
	{21, -29, -0.68762131295531e-18}, {23, -31, 0.14478307828521e-19}, {29, -38, 0.26335781662795e-22},
	{30, -39, -0.11947622640071e-22}, {31, -40, 0.18228094581404e-23}, {32, -41, -0.93537087292458e-25},
}

// gibbs returns γ of R7-97 eq. 7, differentiated dp times by π and dt times by τ,
// as the equation is printed: a sum over Table 2 with two powers a term.
func gibbs(pi, tau float64, dp, dt int) (sum float64) {
	for _, c := range region1 {
		term := c.n
		for k := range dp {
			term *= -(c.i - float64(k))
		}
		for k := range dt {
			term *= c.j - float64(k)
		}
		if term != 0 {
			sum += term * math.Pow(7.1-pi, c.i-float64(dp)) * math.Pow(tau-1.222, c.j-float64(dt))
		}
	}
	return sum
}

const r97 = 461.526 // J/(kg·K), R7-97 eq. 1

func powDensity(t, pAbs float64) float64 {
	tk := t + 273.15
	return 16.53e6 / (r97 * tk * gibbs(pAbs/16.53e6, 1386/tk, 1, 0))
}

// powState is the state of liquid water by R7-97 Table 3, R12-08 and R15-11, each as
// printed, with one sum for every derivative.
func powState(t, pAbs float64) fluid.State {
	tk := t + 273.15
	pi, tau := pAbs/16.53e6, 1386/tk
	g, gp, gpp := gibbs(pi, tau, 0, 0), gibbs(pi, tau, 1, 0), gibbs(pi, tau, 2, 0)
	gt, gtt, gpt := gibbs(pi, tau, 0, 1), gibbs(pi, tau, 0, 2), gibbs(pi, tau, 1, 1)
	b := gp - tau*gpt
	density := 16.53e6 / (r97 * tk * gp)
	return fluid.State{
		Temperature:        t,
		PressureAbs:        pAbs,
		Density:            density,
		InternalEnergy:     r97 * tk * (tau*gt - pi*gp),
		Enthalpy:           r97 * tk * tau * gt,
		Entropy:            r97 * (tau*gt - g),
		SpecificHeat:       -r97 * tau * tau * gtt,
		SpecificHeatVolume: r97 * (-tau*tau*gtt + b*b/gpp),
		SpeedOfSound:       math.Sqrt(r97 * tk * gp * gp / (b*b/(tau*tau*gtt) - gpp)),
		Expansion:          b / (gp * tk),
		Compressibility:    -gpp / (gp * 16.53e6),
		Conductivity:       powConductivity(tk, density),
		DynamicViscosity:   powViscosity(tk, density),
	}
}

// powProperties is the part of powState that [fluid.Properties] hold.
func powProperties(t, pAbs float64) fluid.Properties {
	tk := t + 273.15
	tau := 1386 / tk
	density := powDensity(t, pAbs)
	return fluid.Properties{Temperature: t, Density: density, SpecificHeat: -r97 * tau * tau * gibbs(pAbs/16.53e6, tau, 0, 2),
		Conductivity: powConductivity(tk, density), DynamicViscosity: powViscosity(tk, density)}
}

// R12-08 Tables 1 and 2.
var (
	viscosity0 = [...]float64{1.67752, 2.20462, 0.6366564, -0.241605}
	viscosity1 = [...]struct{ i, j, h float64 }{
		{0, 0, 5.20094e-1}, {1, 0, 8.50895e-2}, {2, 0, -1.08374}, {3, 0, -2.89555e-1}, {0, 1, 2.22531e-1}, {1, 1, 9.99115e-1},
		{2, 1, 1.88797}, {3, 1, 1.26613}, {5, 1, 1.20573e-1}, {0, 2, -2.81378e-1}, {1, 2, -9.06851e-1}, {2, 2, -7.72479e-1},
		{3, 2, -4.89837e-1}, {4, 2, -2.57040e-1}, {0, 3, 1.61913e-1}, {1, 3, 2.57399e-1}, {0, 4, -3.25372e-2}, {3, 4, 6.98452e-2},
		{4, 5, 8.72102e-3}, {3, 6, -4.35673e-3}, {5, 6, -5.93264e-4},
	}
)

// powViscosity is R12-08 eqs 10 to 12 with μ2 = 1, Pa·s.
func powViscosity(tk, density float64) float64 {
	t, d := tk/647.096, density/322
	below, sum := 0.0, 0.0
	for i, h := range viscosity0 {
		below += h / math.Pow(t, float64(i))
	}
	for _, c := range viscosity1 {
		sum += c.h * math.Pow(1/t-1, c.i) * math.Pow(d-1, c.j)
	}
	return 1e-6 * 100 * math.Sqrt(t) / below * math.Exp(d*sum)
}

// R15-11 Tables 1 and 2.
var (
	conductivity0 = [...]float64{2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4}
	conductivity1 = [5][6]float64{
		{1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
		{2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
		{2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
		{-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0, 0},
		{-2.720337, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
	}
)

// powConductivity is R15-11 eqs 15 to 17 without the enhancement, W/(m·K).
func powConductivity(tk, density float64) float64 {
	t, d := tk/647.096, density/322
	below, sum := 0.0, 0.0
	for k, l := range conductivity0 {
		below += l / math.Pow(t, float64(k))
	}
	for i, row := range conductivity1 {
		for j, l := range row {
			if l != 0 {
				sum += l * math.Pow(1/t-1, float64(i)) * math.Pow(d-1, float64(j))
			}
		}
	}
	return 1e-3 * math.Sqrt(t) / below * math.Exp(d*sum)
}

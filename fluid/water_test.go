package fluid

import (
	"math"
	"testing"

	"example.com/hydronics"
)

// Verification values of R7-97(2012) Table 5: T in K, p in MPa, then v, h, u, s,
// cp, w in m³/kg, kJ, K and m/s, each to nine digits.
func TestRegion1Verification(t *testing.T) {
	for _, c := range [][8]float64{
		{300, 3, 0.00100215168, 115.331273, 112.324818, 0.392294792, 4.17301218, 1507.73921},
		{300, 80, 0.000971180894, 184.142828, 106.448356, 0.368563852, 4.01008987, 1634.69054},
		{500, 3, 0.00120241800, 975.542239, 971.934985, 2.58041912, 4.65580682, 1240.71337},
	} {
		tk, pi := c[0], c[1]*1e6/pressureScale1
		tau := temperatureScale1 / tk
		const r = gasConstantWater / 1e3
		g := gibbs1(pi, tau)
		back := g.p - tau*g.pt
		for i, got := range []float64{
			r * 1e3 * tk * g.p / pressureScale1,
			r * tk * tau * g.t,
			r * tk * (tau*g.t - pi*g.p),
			r * (tau*g.t - g.g),
			-r * tau * tau * g.tt,
			math.Sqrt(1e3 * r * tk * g.p * g.p / (back*back/(tau*tau*g.tt) - g.pp)),
		} {
			if math.Abs(got/c[i+2]-1) > 5e-9 {
				t.Errorf("%v K, %v MPa, column %d: %.9g, want %.9g", c[0], c[1], i, got, c[i+2])
			}
		}
	}
}

// R7-97 Tables 35 and 36.
func TestSaturationVerification(t *testing.T) {
	for _, c := range [][2]float64{{300, 0.00353658941}, {500, 2.63889776}, {600, 12.3443146}} {
		p, err := SaturationPressure(c[0] - hydronics.ZeroCelsius)
		if err != nil || math.Abs(p/c[1]/1e6-1) > 5e-9 {
			t.Errorf("%v K: %v, %v", c[0], p, err)
		}
		back, err := SaturationTemperature(p)
		if err != nil || math.Abs(back+hydronics.ZeroCelsius-c[0]) > 1e-9 {
			t.Errorf("%v Pa: %v, %v", p, back, err)
		}
	}
}

// R12-08 Table 4 and R15-11 Table 4.
func TestTransportVerification(t *testing.T) {
	for _, c := range [][3]float64{{298.15, 998, 889.735100}, {373.15, 1000, 307.883622}, {873.15, 600, 77.430195}, {1173.15, 400, 64.154608}} {
		if mu, err := WaterViscosity(c[0]-hydronics.ZeroCelsius, c[1]); err != nil || math.Abs(mu*1e6-c[2]) > 6e-7 {
			t.Errorf("viscosity at %v K, %v kg/m³: %.9g, want %.9g", c[0], c[1], mu*1e6, c[2])
		}
	}
	for _, c := range [][3]float64{{298.15, 0, 18.4341883}, {298.15, 998, 607.712868}, {298.15, 1200, 799.038144}, {873.15, 0, 79.1034659}} {
		if k, err := WaterConductivity(c[0]-hydronics.ZeroCelsius, c[1]); err != nil || math.Abs(k*1e3/c[2]-1) > 5e-9 {
			t.Errorf("conductivity at %v K, %v kg/m³: %.9g, want %.9g", c[0], c[1], k*1e3, c[2])
		}
	}
}

// At 0 % every solution has to meet water (IAPWS): the best check on the
// transcription of 13 × 90 coefficients.
func TestSolutionsMeetWaterAtZero(t *testing.T) {
	for _, s := range Solutes() {
		limit := [4]float64{0.0015, 0.007, 0.011, 0.02}
		if s == Ammonia {
			limit = [4]float64{0.0015, 0.007, 0.011, 0.06}
		}
		l, err := s.ByMass(0)
		if err != nil {
			t.Fatal(err)
		}
		_, top := l.Range()
		for temp := 0.5; temp <= top; temp += 0.5 {
			a, err := l.At(temp)
			b, err2 := Water().At(temp)
			if err != nil || err2 != nil {
				t.Fatal(err, err2)
			}
			for i, r := range [4]float64{a.Density / b.Density, a.SpecificHeat / b.SpecificHeat,
				a.Conductivity / b.Conductivity, a.DynamicViscosity / b.DynamicViscosity} {
				if math.Abs(r-1) > limit[i] {
					t.Errorf("%v at %v °C, property %d: %v of water", s, temp, i, r)
				}
			}
		}
	}
}

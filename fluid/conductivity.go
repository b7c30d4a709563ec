package fluid

import (
	"math"

	"example.com/hydronics/internal/numeric"
)

// WaterConductivity returns the thermal conductivity of water or steam in
// W/(m·K) at the temperature t in °C, 0 to 900, and the density in kg/m³, 0 to
// 1200.
//
// This is the release's equation without the enhancement near the critical
// point, which is exactly zero in liquid water up to about 150 °C at the
// pressures of heating systems. Its uncertainty there is about 1.5 %; textbooks
// with older formulations differ by up to 2 %.
// Outside the limits it returns NaN and a [hydronics.RangeError].
// Source: IAPWS R15-11, eqs 15 to 17, Tables 1 and 2.
func WaterConductivity(t, density float64) (float64, error) {
	if !transportCovers(t, density) {
		return math.NaN(), transportLimits("fluid.WaterConductivity", "IAPWS R15-11", t, density)
	}
	return reduce(t, density).conductivity(), nil
}

// conductivity is the product λ0 λ1 of R15-11 eq. 15, in W/(m·K).
func (v reduced) conductivity() float64 {
	s := v.inverse
	lambda0 := v.root / (2.443221e-3 + s*(1.323095e-2+s*(6.770357e-3+s*(-3.454586e-3+s*4.096266e-4)))) // eq. 16, Table 1

	// eq. 17, Table 2: rows by i, nested in y.
	x, y := v.inverse-1, v.density-1
	i0 := 1.60397357 + y*(-0.646013523+y*(0.111443906+y*(0.102997357+y*(-0.0504123634+y*0.00609859258))))
	i1 := 2.33771842 + y*(-2.78843778+y*(1.53616167+y*(-0.463045512+y*(0.0832827019-y*0.00719201245))))
	i2 := 2.19650529 + y*(-4.54580785+y*(3.55777244+y*(-1.40944978+y*(0.275418278-y*0.0205938816))))
	i3 := -1.21051378 + y*(1.60812989+y*(-0.621178141+y*0.0716373224))
	i4 := -2.720337 + y*(4.57586331+y*(-3.18369245+y*(1.1168348+y*(-0.19268305+y*0.012913842))))
	return 1e-3 * lambda0 * numeric.Exp(v.density*(i0+x*(i1+x*(i2+x*(i3+x*i4)))))
}

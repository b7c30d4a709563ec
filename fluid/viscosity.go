package fluid

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

const (
	criticalKelvin  = 647.096 // K, R12-08 and R15-11, reference temperature
	criticalDensity = 322.0   // kg/m³, reference density

	transportMax = 900.0  // °C
	densityMax   = 1200.0 // kg/m³: the densest point of the releases' own tables
)

// WaterViscosity returns the dynamic viscosity of water or steam in Pa·s at the
// temperature t in °C, 0 to 900, and the density in kg/m³, 0 to 1200.
//
// This is the release's equation with μ2 = 1, without the enhancement near the
// critical point: R12-08 recommends exactly that for industrial use.
// Its uncertainty is 1 % in the liquid of hydronic systems.
// Outside the limits it returns NaN and a [hydronics.RangeError].
// Source: IAPWS R12-08, eqs 10 to 12, Tables 1 and 2.
func WaterViscosity(t, density float64) (float64, error) {
	if !transportCovers(t, density) {
		return math.NaN(), transportLimits("fluid.WaterViscosity", "IAPWS R12-08", t, density)
	}
	return reduce(t, density).viscosity(), nil
}

func transportCovers(t, density float64) bool {
	return t >= 0 && t <= transportMax+rounding && density >= 0 && density <= densityMax
}

func transportLimits(fn, source string, t, density float64) error {
	return errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, 0, transportMax, source),
		hydronics.Within(fn, "density", "kg/m³", density, 0, densityMax, source+", tables"))
}

// reduced holds the variables that viscosity and conductivity share.
type reduced struct {
	root    float64 // √T̄, T̄ = T/647.096 K
	inverse float64 // 1/T̄
	density float64 // ρ̄ = ρ/322 kg/m³
}

func reduce(t, density float64) reduced {
	temperature := (t + hydronics.ZeroCelsius) * (1 / criticalKelvin)
	return reduced{math.Sqrt(temperature), 1 / temperature, density * (1 / criticalDensity)}
}

// viscosity is R12-08 eq. 10 with μ2 = 1, in Pa·s.
func (v reduced) viscosity() float64 {
	s := v.inverse
	mu0 := 100 * v.root / (1.67752 + s*(2.20462+s*(0.6366564-s*0.241605))) // eq. 11, Table 1

	// eq. 12, Table 2: rows by i, nested in y.
	x, y := v.inverse-1, v.density-1
	y2 := y * y
	y3 := y2 * y
	i0 := 5.20094e-1 + y*(2.22531e-1+y*(-2.81378e-1+y*(1.61913e-1-y*3.25372e-2)))
	i1 := 8.50895e-2 + y*(9.99115e-1+y*(-9.06851e-1+y*2.57399e-1))
	i2 := -1.08374 + y*(1.88797-y*7.72479e-1)
	i3 := -2.89555e-1 + y*(1.26613+y*(-4.89837e-1+y2*(6.98452e-2-y2*4.35673e-3)))
	i4 := y2 * (-2.57040e-1 + y3*8.72102e-3)
	i5 := y * (1.20573e-1 - y3*y2*5.93264e-4)
	return 1e-6 * mu0 * numeric.Exp(v.density*(i0+x*(i1+x*(i2+x*(i3+x*(i4+x*i5))))))
}

package frost

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// StefanDepth returns the thickness in m of the ice on a plane of water at 0 °C
// whose surface has been held at surface °C (-90 to 0) for a time in seconds
// (0 to 1e9), the heat stored in the ice left out:
//
//	x = √(2 λ_ice (0 − surface) t/(ρ L))
//
// It is an upper bound of the thickness. Source: J. Stefan, Ann. Phys. 278 (1891) 269.
func StefanDepth(m Medium, surface, time float64) (float64, error) {
	const fn = "frost.StefanDepth"
	if !(m.valid() && surface >= coldest && surface <= 0 && time >= 0 && time <= 1e9) {
		return math.NaN(), joined(m.check(fn),
			hydronics.Within(fn, "surface temperature", "°C", surface, coldest, 0, hydronics.Guard),
			hydronics.Within(fn, "time", "s", time, 0, 1e9, hydronics.Guard))
	}
	return math.Sqrt(2 * m.IceConductivity * -surface * time / (m.Density * m.LatentHeat)), nil
}

// NeumannDepth returns the thickness in m of the ice that grows into deep water
// of the temperature start °C (0 to 100), at rest, after its surface has been
// held at surface °C (-90 to below 0) for a time in seconds (0 to 1e9). It is the
// exact two-phase solution, which every solver of freezing has to meet:
//
//	x = 2 Λ √(a_ice t), with Λ the root of
//	exp(−Λ²)/erf Λ − (λ_w/λ_i)√(a_i/a_w)·(start/−surface)·exp(−Λ² a_i/a_w)/erfc(Λ √(a_i/a_w)) = Λ L √π/(c_i·−surface)
//
// Ice and water have the same density here. Source: F. Neumann, lectures of
// about 1860; H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids,
// 2nd ed. 1959, section 11.2.
func NeumannDepth(m Medium, surface, start, time float64) (float64, error) {
	const fn = "frost.NeumannDepth"
	if !(m.valid() && surface >= coldest && surface <= -1e-6 && start >= 0 && start <= 100 && time >= 0 && time <= 1e9) {
		return math.NaN(), joined(m.check(fn),
			hydronics.Within(fn, "surface temperature", "°C", surface, coldest, -1e-6, hydronics.Guard),
			hydronics.Within(fn, "water temperature", "°C", start, 0, 100, hydronics.Guard),
			hydronics.Within(fn, "time", "s", time, 0, 1e9, hydronics.Guard))
	}
	ice := m.IceConductivity / (m.Density * m.IceSpecificHeat)
	ratio := ice / (m.Conductivity / (m.Density * m.SpecificHeat))
	root, err := numeric.Root(func(x float64) float64 {
		// Multiplied by erf and erfc, so that no quotient of two vanishing numbers appears.
		a, b := math.Erf(x), math.Erfc(x*math.Sqrt(ratio))
		return (math.Exp(-x*x)-x*m.LatentHeat*math.SqrtPi/(m.IceSpecificHeat*-surface)*a)*b -
			m.Conductivity/m.IceConductivity*math.Sqrt(ratio)*start/-surface*math.Exp(-x*x*ratio)*a
	}, 0, 3, 1e-15)
	if err != nil {
		return math.NaN(), err
	}
	return 2 * root * math.Sqrt(ice*time), nil
}

package fluid

import "math"

// enhancementStart is a temperature in °C below which the enhancement is exactly
// zero in all liquid water, region 1 (the tests scan it).
const enhancementStart = 120.0

// enhancement is the critical enhancement λ2 of R15-11 (eqs 18 to 25) in
// W/(m·K), with cp and cv in J/(kg·K), the compressibility in 1/Pa and the
// viscosity in Pa·s. Eq. 25 stands in for the reference derivative, as the
// release recommends for industrial use. Far from the critical point the
// argument of eq. 23 is negative and λ2 is zero.
func (v reduced) enhancement(cp, cv, compressibility, viscosity float64) float64 {
	const (
		lambda = 177.8514     // Λ
		qd     = 0.40         // 1/qD, nm
		nu     = 0.630        // ν
		gamma  = 1.239        // γ
		xi0    = 0.13         // ξ0, nm
		gamma0 = 0.06         // Γ0
		r      = 0.46151805e3 // J/(kg·K), R15-11 Table 3
		pc     = 22.064e6     // Pa
	)
	zeta := v.density * compressibility * pc // (∂ρ̄/∂p̄) at constant T̄
	chi := v.density * (zeta - referenceDerivative(v.density)*1.5*v.inverse)
	if !(chi > 0) { // eq. 23
		return 0
	}
	y := xi0 / qd * math.Pow(chi/gamma0, nu/gamma) // eqs 20 and 22
	if y < 1.2e-7 {
		return 0
	}
	kappa := cv / cp
	z := 2 / (math.Pi * y) * ((1-kappa)*math.Atan(y) + kappa*y -
		(1 - math.Exp(-1/(1/y+y*y/(3*v.density*v.density))))) // eq. 19
	return 1e-3 * lambda * v.density * (cp / r) / (v.inverse * viscosity * 1e6) * z // eq. 18
}

// referenceDerivative is (∂ρ̄/∂p̄) at 1.5 times the critical temperature,
// R15-11 eq. 25 with Table 6.
func referenceDerivative(d float64) float64 {
	var a [6]float64
	switch {
	case d <= 0.310559006:
		a = [6]float64{6.53786807199516, -5.61149954923348, 3.39624167361325, -2.27492629730878, 10.2631854662709, 1.97815050331519}
	case d <= 0.776397516:
		a = [6]float64{6.52717759281799, -6.30816983387575, 8.08379285492595, -9.82240510197603, 12.1358413791395, -5.54349664571295}
	case d <= 1.242236025:
		a = [6]float64{5.35500529896124, -3.96415689925446, 8.91990208918795, -12.0338729505790, 9.19494865194302, -2.16866274479712}
	case d <= 1.863354037:
		a = [6]float64{1.55225959906681, 0.464621290821181, 8.93237374861479, -11.0321960061126, 6.16780999933360, -0.965458722086812}
	default:
		a = [6]float64{1.11999926419994, 0.595748562571649, 9.88952565078920, -10.3255051147040, 4.66861294457414, -0.503243546373828}
	}
	return 1 / (a[0] + d*(a[1]+d*(a[2]+d*(a[3]+d*(a[4]+d*a[5])))))
}

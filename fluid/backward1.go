package fluid

// backward1 holds the exponents I, J and coefficients n of the region 1 backward
// equation T(p, h), R7-97 Table 6. It is never written to.
var backward1 = [...]struct {
	i, j int
	n    float64
}{
	{0, 0, -0.23872489924521e3},
	{0, 1, 0.40421188637945e3},
	{0, 2, 0.11349746881718e3},
	{0, 6, -0.58457616048039e1},
	{0, 22, -0.15285482413140e-3},
	{0, 32, -0.10866707695377e-5},
	{1, 0, -0.13391744872602e2},
	{1, 1, 0.43211039183559e2},
	{1, 2, -0.54010067170506e2},
	{1, 3, 0.30535892203916e2},
	{1, 4, -0.65964749423638e1},
	{1, 10, 0.93965400878363e-2},
	{1, 32, 0.11573647505340e-6},
	{2, 10, -0.25858641282073e-4},
	{2, 32, -0.40644363084799e-8},
	{3, 10, 0.66456186191635e-7},
	{3, 32, 0.80670734103027e-10},
	{4, 32, -0.93477771213947e-12},
	{5, 32, 0.58265442020601e-14},
	{6, 32, -0.15020185953503e-16},
}

// backwardTemperature1 returns T in K for p in Pa and h in J/kg by R7-97 eq. 11,
// within 0.025 K of the basic equation.
func backwardTemperature1(pAbs, enthalpy float64) float64 {
	pi, eta := pAbs/1e6, enthalpy/2500e3+1
	t := 0.0
	for _, c := range backward1 {
		t += c.n * power(pi, c.i) * power(eta, c.j)
	}
	return t
}

package fluid

import "example.com/hydronics"

// waterDensity is the density of liquid water in kg/m³ (R7-97 region 1, Table 3).
func waterDensity(t, pAbs float64) float64 {
	tk := t + hydronics.ZeroCelsius
	return pressureScale1 / (gasConstantWater * tk * volume1(pAbs/pressureScale1, temperatureScale1/tk))
}

func waterProperties(t, pAbs float64) Properties {
	tk := t + hydronics.ZeroCelsius
	tau := temperatureScale1 / tk
	g := gibbs1(pAbs/pressureScale1, tau)
	density := pressureScale1 / (gasConstantWater * tk * g.p)
	v := reduce(t, density)
	return Properties{
		Temperature:      t,
		Density:          density,
		SpecificHeat:     -gasConstantWater * tau * tau * g.tt,
		Conductivity:     v.conductivity(),
		DynamicViscosity: v.viscosity(),
	}
}

package fluid

import (
	"math"

	"example.com/hydronics"
)

// SurfaceTension returns the surface tension of water against its vapour in N/m
// at the temperature t in °C, 0 to 373.946. Its uncertainty is 0.5 % below
// 100 °C. Outside the limits it returns NaN and a [hydronics.RangeError].
// Source: IAPWS R1-76(2014), eq. 1.
func SurfaceTension(t float64) (float64, error) {
	if !(t >= 0 && t <= criticalTemperature) {
		return math.NaN(), hydronics.Within("fluid.SurfaceTension", "temperature", "°C", t, 0, criticalTemperature, "IAPWS R1-76(2014)")
	}
	tau := 1 - (t+hydronics.ZeroCelsius)/criticalKelvin
	if tau < 0 { // rounding at the critical point itself
		tau = 0
	}
	return 0.2358 * math.Pow(tau, 1.256) * (1 - 0.625*tau), nil
}

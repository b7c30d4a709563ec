package expansion

import (
	"math"

	"example.com/hydronics"
)

// AtmosphericPressure returns the pressure of the standard atmosphere in Pa
// absolute at an altitude in metres above sea level, -500 to 5000 m (guard; the
// model itself holds to 11 km).
//
// Every gauge reads from the local atmosphere while the gas law counts from
// vacuum, so altitude enters every vessel calculation through this one number.
// The weather moves it by about ±3 kPa; that is not modelled.
//
// Source: ISO 2533:1975, Standard Atmosphere, layer 0 to 11 km; identical with
// the US Standard Atmosphere 1976.
func AtmosphericPressure(altitude float64) (float64, error) {
	err := hydronics.Within("expansion.AtmosphericPressure", "altitude", "m", altitude, -500, 5000, hydronics.Guard)
	if err != nil {
		return math.NaN(), err
	}
	const (
		earthRadius = 6356766.0 // m, nominal, for the geopotential altitude
		lapse       = 0.0065    // K/m
		t0          = 288.15    // K at sea level
		airConstant = 287.05287 // J/(kg·K)
	)
	h := earthRadius * altitude / (earthRadius + altitude)
	return hydronics.StandardAtmosphere * math.Pow(1-lapse*h/t0, hydronics.StandardGravity/(airConstant*lapse)), nil
}

package pipe

import "example.com/hydronics"

// Guards of this package: they catch slips of unit and are nobody's limit.
const (
	minBore, maxBore                 = 0.5e-3, 3.0 // m
	maxWallRoughness                 = 0.01        // m
	maxCoordinate                    = 1e4         // m
	maxLength                        = 1e5         // m
	maxVelocity                      = 50.0        // m/s
	maxZeta                          = 1e6
	minZeta                          = -10.0
	minKv, maxKv                     = 1e-4, 1e5  // m³/h
	minSpread, maxSpread             = 0.1, 300.0 // K
	minDensity                       = 100.0      // kg/m³
	maxDensity                       = 2000.0     // kg/m³
	minViscosity                     = 1e-5       // Pa·s
	maxViscosity                     = 10.0       // Pa·s
	maxFlow                          = 1e3        // m³/s
	maxPressure                      = 1e9        // Pa
	minSpecificHeat, maxSpecificHeat = 500.0, 2e4 // J/(kg·K)
	maxVolume                        = 1e3        // m³
	maxHeat                          = 1e12       // J
	maxPower                         = 1e9        // W
	minTemperature                   = -100.0     // °C
	maxTemperature                   = 400.0      // °C
)

// within is hydronics.Within with a guard.
func within(fn, quantity, unit string, v, min, max float64) error {
	if v >= min && v <= max {
		return nil
	}
	return hydronics.Within(fn, quantity, unit, v, min, max, hydronics.Guard)
}

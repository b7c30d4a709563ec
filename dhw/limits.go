package dhw

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// Guards that several calculations share: wide enough for every installation
// in a house, narrow enough to catch litres given for cubic metres.
const (
	minVolume, maxVolume = 1e-3, 10.0    // m³
	minWater, maxWater   = 0.0, 100.0    // °C: potable water is liquid and not under steam
	minHeat, maxHeat     = 3.8e6, 4.3e6  // J/(m³·K): water from 0 to 100 °C has 4.03e6 to 4.22e6
	maxPower             = 1e6           // W
	minFlow, maxFlow     = 1e-7, 0.1     // m³/s
	minGauge, maxGauge   = 2e4, 2e6      // Pa above the atmosphere
	maxDuration          = 366 * 86400.0 // s
	minAir, maxAir       = -40.0, 60.0   // °C
	maxPrimary           = 130.0         // °C
	smallestRise         = 0.1           // K: below it a quotient of temperatures means nothing
)

func water(fn, quantity string, t float64) error {
	return hydronics.Within(fn, quantity, "°C", t, minWater, maxWater, hydronics.Guard)
}

func air(fn string, t float64) error {
	return hydronics.Within(fn, "ambient temperature", "°C", t, minAir, maxAir, hydronics.Guard)
}

func volume(fn, quantity string, v float64) error {
	return hydronics.Within(fn, quantity, "m³", v, minVolume, maxVolume, hydronics.Guard)
}

func length(fn, quantity string, v float64) error {
	return hydronics.Within(fn, quantity, "m", v, 0, 1000, hydronics.Guard)
}

func gauge(fn, quantity string, p hydronics.Gauge) error {
	return hydronics.Within(fn, quantity, "Pa", float64(p), minGauge, maxGauge, hydronics.Guard)
}

func duration(fn, quantity string, s float64) error {
	return hydronics.Within(fn, quantity, "s", s, 0, maxDuration, hydronics.Guard)
}

func heat(fn string, c float64) error {
	return hydronics.Within(fn, "volumetric heat", "J/(m³·K)", c, minHeat, maxHeat, hydronics.Guard)
}

// above wants upper to lie at least smallestRise above lower.
func above(fn, quantity string, upper, lower float64) error {
	if math.IsNaN(lower) {
		return nil // reported where lower itself is checked
	}
	return hydronics.Within(fn, quantity, "°C", upper, lower+smallestRise, maxWater, hydronics.Guard)
}

// count wants n to lie within limits that are whole numbers.
func count(fn, quantity string, n, min, max int) error {
	return hydronics.Within(fn, quantity, "", float64(n), float64(min), float64(max), hydronics.Guard)
}

// together joins errors; it is errors.Join under the name that reads well here.
func together(errs ...error) error { return errors.Join(errs...) }

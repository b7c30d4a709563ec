package frost

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// Air is what surrounds a tube outdoors.
type Air struct {
	Temperature float64 // °C, -90 to 60
	Wind        float64 // m/s across the tube, 0 to 60; 0 is still air
	Infrared    float64 // W/m² that the sky sends down on a level surface, 0 or 50 to 600; 0 means surroundings as warm as the air
	PressureAbs float64 // Pa absolute, 0 or 5e4 to 1.2e5; 0 means the standard atmosphere
}

func (a *Air) valid() bool {
	return a.Temperature >= -90 && a.Temperature <= 60 && a.Wind >= 0 && a.Wind <= 60 &&
		(a.Infrared == 0 || a.Infrared >= 50 && a.Infrared <= 600) &&
		(a.PressureAbs == 0 || a.PressureAbs >= 5e4 && a.PressureAbs <= 1.2e5)
}

func (a *Air) check(fn string) error {
	if a.valid() {
		return nil
	}
	errs := []error{
		hydronics.Within(fn, "air temperature", "°C", a.Temperature, -90, 60, hydronics.Guard),
		hydronics.Within(fn, "wind", "m/s", a.Wind, 0, 60, hydronics.Guard),
	}
	if a.Infrared != 0 {
		errs = append(errs, hydronics.Within(fn, "infrared of the sky", "W/m²", a.Infrared, 50, 600, hydronics.Guard))
	}
	if a.PressureAbs != 0 {
		errs = append(errs, hydronics.Within(fn, "air pressure", "Pa", a.PressureAbs, 5e4, 1.2e5, hydronics.Guard))
	}
	return errors.Join(errs...)
}

func (a *Air) pressure() float64 {
	if a.PressureAbs == 0 {
		return hydronics.StandardAtmosphere
	}
	return a.PressureAbs
}

// radiant returns the temperature, in kelvin, of black surroundings that send
// a level tube as much radiation as a half space of sky and one of ground as
// warm as the air. The half view is common practice.
func (a *Air) radiant() float64 {
	t := a.Temperature + hydronics.ZeroCelsius
	if a.Infrared == 0 {
		return t
	}
	t2 := t * t
	return math.Sqrt(math.Sqrt(0.5 * (a.Infrared/hydronics.StefanBoltzmann + t2*t2)))
}

// A film is dry air at the mean of the temperatures of surface and air.
type film struct {
	conductivity, viscosity, prandtl, expansion float64 // W/(m·K), kinematic m²/s, 1, 1/K
}

// filmAt returns dry air at a temperature in °C and an absolute pressure, both
// within the limits of [fluid.DryAir].
func filmAt(t, pressure float64) film {
	p, err := fluid.DryAir(t, pressure)
	if err != nil { // the checks before keep the film within -100 and 200 °C
		return film{conductivity: math.NaN(), viscosity: math.NaN(), prandtl: math.NaN(), expansion: math.NaN()}
	}
	return film{
		conductivity: p.Conductivity,
		viscosity:    p.KinematicViscosity(),
		prandtl:      p.Prandtl(),
		expansion:    1 / (t + hydronics.ZeroCelsius),
	}
}

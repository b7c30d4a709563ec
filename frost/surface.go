package frost

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// A Method names how the coefficient between a surface and the air is found.
type Method uint8

const (
	// Given takes [Surface].Coefficient as it stands, wind and radiation included.
	Given Method = iota
	// Correlated combines [NaturalConvection], [CrossFlow] and grey radiation,
	// night sky included: the default for anything that is not a check of
	// another calculation.
	Correlated
	// ISO12241 takes the simplified formulas attributed to ISO 12241:2008. In
	// wind they jump by a factor 2.4 where wind times diameter is 8.55e-3 m²/s,
	// and above it they give up to 60 % more than [Correlated].
	ISO12241
	// GB50264 takes the formulas attributed to GB 50264-2013. In wind they
	// jump by 3 % where wind times diameter is 0.8 m²/s.
	GB50264
)

// Surface says how the outermost layer of a section exchanges heat with the
// air. The zero value is refused: it has no coefficient.
type Surface struct {
	Method      Method
	Coefficient float64 // W/(m²·K) for Given, 0.1 to 1e5; must be 0 for the other methods
	Emissivity  float64 // 0 to 1 for the other methods: 0.9 for plastics and paint, 0.1 to 0.2 for bright sheet
	Vertical    bool    // a riser; changes only ISO12241 in still air

	scale float64 // of the convective coefficient, for doubts about it; 0 means 1
}

// InTheOpen returns the surface of common insulation and of painted or
// oxidised tube (emissivity 0.9) with the coefficient from [Correlated].
// Source of the emissivity: ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23,
// table 12 (rubber, plastic jackets, paint 0.8 to 0.9).
func InTheOpen() Surface { return Surface{Method: Correlated, Emissivity: 0.9} }

func (s Surface) valid() bool {
	if s.Method == Given {
		return s.Coefficient >= 0.1 && s.Coefficient <= 1e5 && s.Emissivity >= 0 && s.Emissivity <= 1
	}
	return s.Method <= GB50264 && s.Coefficient == 0 && s.Emissivity >= 0 && s.Emissivity <= 1
}

func (s Surface) check(fn string) error {
	low, high := 0.1, 1e5
	if s.Method != Given {
		low, high = 0, 0
	}
	return errors.Join(
		hydronics.Within(fn, "method of the surface", "", float64(s.Method), 0, float64(GB50264), hydronics.Guard),
		hydronics.Within(fn, "surface coefficient", "W/(m²·K)", s.Coefficient, low, high, hydronics.Guard),
		hydronics.Within(fn, "emissivity", "", s.Emissivity, 0, 1, hydronics.Guard),
	)
}

// NaturalConvection returns the mean Nusselt number of a long horizontal
// cylinder in still air or liquid, on its diameter, for the Rayleigh number ra
// in [1e-6, 1e12] and the Prandtl number pr in [1e-3, 1e5]. Published scatter of
// the measurements behind it: some 10 %.
//
// Source: S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975)
// 1049, the equation for all Prandtl numbers.
func NaturalConvection(ra, pr float64) (float64, error) {
	const fn, source = "frost.NaturalConvection", "Churchill and Chu 1975"
	if !(ra >= 1e-6 && ra <= 1e12 && pr >= 1e-3 && pr <= 1e5) {
		return math.NaN(), errors.Join(
			hydronics.Within(fn, "Rayleigh number", "", ra, 1e-6, 1e12, source),
			hydronics.Within(fn, "Prandtl number", "", pr, 1e-3, 1e5, hydronics.Guard))
	}
	return churchillChu(ra, pr), nil
}

// Powers with a fraction as exponent are made of roots, or of the table exponential,
// which are several times faster than [math.Pow].

func churchillChu(ra, pr float64) float64 {
	x := math.Sqrt(0.559 / pr)
	x *= math.Sqrt(math.Sqrt(math.Sqrt(x))) // (0.559/pr)^(9/16)
	root := 0.60 + 0.387*math.Cbrt(math.Sqrt(ra))*numeric.Exp(-8./27*math.Log(1+x))
	return root * root
}

// CrossFlow returns the mean Nusselt number of a long cylinder across the wind,
// on its diameter, for the Reynolds number re up to 1e7 and the Prandtl number
// pr, the product of both at least 0.2.
//
// Source: S. W. Churchill and M. Bernstein, J. Heat Transfer 99 (1977) 300, the
// equation for all Reynolds numbers.
func CrossFlow(re, pr float64) (float64, error) {
	const fn, source = "frost.CrossFlow", "Churchill and Bernstein 1977"
	if !(re >= 0 && re <= 1e7 && pr >= 1e-3 && pr <= 1e5 && re*pr >= 0.2) {
		return math.NaN(), errors.Join(
			hydronics.Within(fn, "Reynolds number", "", re, 0, 1e7, source),
			hydronics.Within(fn, "Prandtl number", "", pr, 1e-3, 1e5, hydronics.Guard),
			hydronics.Within(fn, "Reynolds times Prandtl number", "", re*pr, 0.2, 1e12, source))
	}
	return churchillBernstein(re, pr), nil
}

func churchillBernstein(re, pr float64) float64 {
	cubeRoot := math.Cbrt(pr)
	third := cubeRootOf04 / cubeRoot // (0.4/pr)^(1/3)
	half := math.Sqrt(re / 282000)
	return 0.3 + 0.62*math.Sqrt(re)*cubeRoot/math.Sqrt(math.Sqrt(1+third*third))*
		numeric.Exp(0.8*math.Log1p(half*math.Sqrt(math.Sqrt(half)))) // (1 + (re/282000)^(5/8))^(4/5)
}

const cubeRootOf04 = 0.73680629972807732116 // of 0.4

// coefficients returns the convective and the radiative coefficient of a
// cylinder of diameter d, both in W/(m²·K): the first on the difference to the
// air, the second on the difference to the radiant surroundings.
func (s Surface) coefficients(d, surface float64, air *Air) (convective, radiative float64) {
	if s.Method == Given {
		return s.Coefficient, 0
	}
	convective, radiative = s.computed(d, surface, air)
	if s.scale != 0 {
		convective *= s.scale
	}
	return convective, radiative
}

func (s Surface) computed(d, surface float64, air *Air) (convective, radiative float64) {
	ts, tr := surface+hydronics.ZeroCelsius, air.radiant()
	radiative = s.Emissivity * hydronics.StefanBoltzmann * (ts*ts + tr*tr) * (ts + tr)
	difference := math.Abs(surface - air.Temperature)
	switch s.Method {
	case ISO12241:
		return iso12241(d, difference, air.Wind, s.Vertical), radiative
	case GB50264:
		return gb50264(d, difference, 0.5*(surface+air.Temperature), air.Wind), radiative
	}
	f := filmAt(0.5*(surface+air.Temperature), air.pressure())
	natural := 0.36 // the limit of Churchill and Chu for no difference of temperature
	if ra := hydronics.StandardGravity * f.expansion * difference * d * d * d * f.prandtl / (f.viscosity * f.viscosity); ra > 0 {
		natural = churchillChu(ra, f.prandtl)
	}
	if air.Wind == 0 {
		return natural * f.conductivity / d, radiative
	}
	// Cubes added: the blend for assisting and crossing flow. From memory; both
	// limits are exact and the blend is at most 26 % above the larger part.
	forced := churchillBernstein(air.Wind*d/f.viscosity, f.prandtl)
	return math.Cbrt(natural*natural*natural+forced*forced*forced) * f.conductivity / d, radiative
}

// iso12241 returns the convective coefficient of a tube. Source: attributed to
// ISO 12241:2008, external surface coefficient of cylinders.
func iso12241(d, difference, wind float64, vertical bool) float64 {
	switch free := d*d*d*difference <= 10; {
	case wind > 0 && wind*d <= 8.55e-3:
		return 8.1e-3/d + 3.14*math.Sqrt(wind/d)
	case wind > 0:
		return 8.9 * math.Pow(wind, 0.9) / math.Pow(d, 0.1)
	case vertical && free:
		return 1.32 * math.Sqrt(math.Sqrt(difference/d))
	case vertical:
		return 1.74 * math.Cbrt(difference)
	case free:
		return 1.25 * math.Sqrt(math.Sqrt(difference/d))
	default:
		return 1.21 * math.Cbrt(difference)
	}
}

// gb50264 returns the convective coefficient of a tube. Source: attributed to
// GB 50264-2013.
func gb50264(d, difference, mean, wind float64) float64 {
	switch {
	case wind == 0:
		return 26.4 / math.Sqrt(297+mean) * math.Sqrt(math.Sqrt(difference/d))
	case wind*d > 0.8:
		return 4.53 * math.Pow(wind, 0.805) / math.Pow(d, 0.195)
	default:
		return 0.008/d + 4.2*math.Pow(wind, 0.618)/math.Pow(d, 0.382)
	}
}

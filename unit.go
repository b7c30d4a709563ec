package hydronics

// Units of the trade in SI. To convert a number into SI, multiply; to take it
// out again, divide:
//
//	bore := 20 * hydronics.Millimetre     // 0.020 m
//	litres := volume / hydronics.Litre
const (
	Millimetre = 1e-3   // m
	Centimetre = 1e-2   // m
	Inch       = 0.0254 // m, exact
	Foot       = 0.3048 // m, exact

	SquareMillimetre = 1e-6 // m²

	Litre    = 1e-3           // m³
	USGallon = 3.785411784e-3 // m³, exact: 231 cubic inches

	LitrePerSecond    = 1e-3          // m³/s
	LitrePerMinute    = 1e-3 / 60     // m³/s
	LitrePerHour      = 1e-3 / 3600   // m³/s
	CubicMetrePerHour = 1.0 / 3600    // m³/s
	USGallonPerMinute = USGallon / 60 // m³/s

	Millibar         = 1e2                                          // Pa
	Kilopascal       = 1e3                                          // Pa
	Bar              = 1e5                                          // Pa
	Megapascal       = 1e6                                          // Pa
	MetreOfWater     = 9806.65                                      // Pa, conventional: 1000 kg/m³ under StandardGravity
	PoundPerSquareIn = 0.45359237 * StandardGravity / (Inch * Inch) // Pa

	Kilojoule    = 1e3    // J
	Megajoule    = 1e6    // J
	WattHour     = 3600.0 // J
	KilowattHour = 3.6e6  // J

	Kilowatt = 1e3 // W

	MillipascalSecond         = 1e-3 // Pa·s
	SquareMillimetrePerSecond = 1e-6 // m²/s

	Minute = 60.0    // s
	Hour   = 3600.0  // s
	Day    = 86400.0 // s

	Percent = 1e-2 // 1
)

// Constants of nature and of convention.
const (
	ZeroCelsius        = 273.15           // K: add to a temperature in °C to get kelvin
	StandardGravity    = 9.80665          // m/s², by convention (3rd CGPM, 1901)
	StandardAtmosphere = 101325.0         // Pa absolute (ISO 2533:1975, sea level)
	StefanBoltzmann    = 5.670374419e-8   // W/(m²·K⁴), CODATA 2018, exact
	GasConstant        = 8.31446261815324 // J/(mol·K), CODATA 2018, exact
)

// Gauge is a pressure above the local atmosphere, in pascals. It has a type of
// its own because gauge and absolute pressures share their range, so that no
// range check could catch one given for the other; gas laws need the absolute
// value. Write 1.5 * hydronics.Bar for a Gauge of 1.5 bar.
type Gauge float64

// Abs returns the absolute pressure in pascals, for an atmospheric pressure in
// pascals absolute (see [StandardAtmosphere]).
func (g Gauge) Abs(atmosphere float64) float64 { return float64(g) + atmosphere }

// GaugeOf returns the gauge pressure of an absolute pressure, both against the
// atmospheric pressure given; all in pascals.
func GaugeOf(abs, atmosphere float64) Gauge { return Gauge(abs - atmosphere) }

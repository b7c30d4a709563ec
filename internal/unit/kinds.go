package unit

import "example.com/hydronics"

var pressures = []Unit{u("kpa", 1e3), u("pa", 1), u("hpa", 1e2), u("mbar", 1e2), u("bar", 1e5), u("mpa", 1e6), u("gpa", 1e9),
	u("m_water", hydronics.MetreOfWater), u("ft_water", footOfWater), u("psi", hydronics.PoundPerSquareIn)}

// The kinds of quantity. The first unit of each is the one programs print.
var (
	Text    = Kind{}
	Number  = kind("number", u("", 1), u("1", 1), u("percent", 1e-2), u("ppm", 1e-6))
	Numeral = kind("whole number", u("", 1))

	Temperature = kind("temperature", u("c", 1),
		Unit{"k", 1, -hydronics.ZeroCelsius}, Unit{"f", fahrenheitDegree, -32 * fahrenheitDegree})
	TemperatureDifference = kind("temperature difference", u("k", 1), u("f", fahrenheitDegree))

	Length = kind("length", u("m", 1), u("mm", 1e-3), u("cm", 1e-2), u("um", 1e-6), u("km", 1e3),
		u("in", hydronics.Inch), u("ft", hydronics.Foot))
	SmallLength = kind("length", u("mm", 1e-3), u("m", 1), u("cm", 1e-2), u("um", 1e-6),
		u("in", hydronics.Inch), u("ft", hydronics.Foot))
	Area   = kind("area", u("m2", 1), u("cm2", 1e-4), u("mm2", 1e-6), u("in2", hydronics.Inch*hydronics.Inch), u("ft2", hydronics.Foot*hydronics.Foot))
	Volume = kind("volume", u("l", hydronics.Litre), u("m3", 1), u("ml", 1e-6), u("cm3", 1e-6), u("us_gal", hydronics.USGallon),
		u("ft3", hydronics.Foot*hydronics.Foot*hydronics.Foot))
	Angle = kind("angle", u("deg", 3.14159265358979323846/180), u("rad", 1))

	VolumeFlow = kind("volume flow", u("l_min", hydronics.LitrePerMinute), u("l_s", hydronics.LitrePerSecond), u("l_h", hydronics.LitrePerHour),
		u("m3_h", hydronics.CubicMetrePerHour), u("m3_s", 1), u("ml_s", 1e-6), u("us_gpm", hydronics.USGallonPerMinute),
		u("ft3_s", hydronics.Foot*hydronics.Foot*hydronics.Foot))
	MassFlow = kind("mass flow", u("kg_h", 1.0/3600), u("kg_s", 1), u("lb_h", pound/3600))
	MassFlux = kind("mass flux", u("kg_m2s", 1), u("kg_hmm2", 1e6/3600))
	Velocity = kind("velocity", u("m_s", 1), u("mm_s", 1e-3), u("ft_s", hydronics.Foot))
	Time     = kind("time", u("s", 1), u("min", 60), u("h", 3600), u("d", 86400), u("ms", 1e-3))
	Rate     = kind("rate", u("1_s", 1), u("1_min", 1.0/60), u("1_h", 1.0/3600))

	Pressure         = Kind{&kindTable{"pressure difference", pressures}}
	AbsolutePressure = Kind{&kindTable{"absolute pressure", reorder("bar")}}
	GaugePressure    = Kind{&kindTable{"gauge pressure", reorder("bar")}}
	Modulus          = Kind{&kindTable{"modulus", reorder("gpa")}}
	PressureGradient = kind("pressure gradient", u("pa_m", 1), u("kpa_m", 1e3), u("mbar_m", 1e2))
	PressurePerTemp  = kind("pressure per temperature", u("bar_k", 1e5), u("kpa_k", 1e3), u("pa_k", 1), u("mpa_k", 1e6))

	Mass           = kind("mass", u("kg", 1), u("g", 1e-3), u("lb", pound))
	MassPerLength  = kind("mass per length", u("kg_m", 1), u("g_m", 1e-3))
	Content        = kind("content per length", u("l_m", hydronics.Litre), u("m3_m", 1))
	Density        = kind("density", u("kg_m3", 1), u("g_cm3", 1e3), u("kg_l", 1e3), u("g_ml", 1e3), u("lb_ft3", pound/(hydronics.Foot*hydronics.Foot*hydronics.Foot)))
	SpecificVolume = kind("specific volume", u("m3_kg", 1), u("l_kg", 1e-3), u("cm3_g", 1e-3))
	Concentration  = kind("mass concentration", u("mg_l", 1e-3), u("g_l", 1), u("kg_m3", 1), u("g_m3", 1e-3))
	Amount         = kind("amount concentration", u("mmol_l", 1), u("mol_m3", 1))
	Hardness       = kind("water hardness", u("mmol_l", 1), u("mol_m3", 1), u("dh", 10/56.0774), u("fh", 10/100.0869), u("mg_l_lime", 1/100.0869))
	MolarMass      = kind("molar mass", u("g_mol", 1e-3), u("kg_mol", 1))
	GasContent     = kind("gas volume per water volume", u("ml_l", 1e-3), u("l_m3", 1e-3), u("percent", 1e-2), u("1", 1))

	Energy            = kind("energy", u("kwh", hydronics.KilowattHour), u("j", 1), u("kj", 1e3), u("mj", 1e6), u("wh", hydronics.WattHour), u("btu", britishThermalUnit))
	Power             = kind("power", u("kw", 1e3), u("w", 1), u("btu_h", britishThermalUnit/3600), u("hp", horsepower))
	SpecificEnergy    = kind("energy per mass", u("kj_kg", 1e3), u("j_kg", 1), u("mj_kg", 1e6))
	SpecificHeat      = kind("specific heat or entropy", u("kj_kgk", 1e3), u("j_kgk", 1), u("wh_kgk", 3600))
	VolumetricHeat    = kind("heat capacity per volume", u("j_m3k", 1), u("kj_m3k", 1e3), u("mj_m3k", 1e6), u("wh_lk", 3.6e6), u("kj_lk", 1e6))
	HeatCapacity      = kind("heat capacity", u("j_k", 1), u("kj_k", 1e3), u("wh_k", 3600))
	HeatCapacityRate  = kind("heat capacity rate or loss coefficient", u("w_k", 1), u("kw_k", 1e3))
	HeatPerLength     = kind("heat flow per length", u("w_m", 1), u("btu_hft", britishThermalUnit/3600/hydronics.Foot))
	HeatPerArea       = kind("heat flow per area", u("w_m2", 1), u("kw_mm2", 1e9), u("kw_m2", 1e3))
	Conductivity      = kind("thermal conductivity", u("w_mk", 1), u("mw_mk", 1e-3))
	LinearConductance = kind("heat flow per length and temperature", u("w_mk", 1))
	SurfaceConduct    = kind("surface coefficient", u("w_m2k", 1))
	LinearResistance  = kind("thermal resistance of a length", u("mk_w", 1))
	Diffusivity       = kind("thermal diffusivity", u("m2_s", 1), u("mm2_s", 1e-6), u("m2_h", 1.0/3600), u("m2_d", 1.0/86400))
	FreezingIndex     = kind("temperature times time", u("k_d", 86400), u("k_h", 3600), u("k_s", 1), u("f_d", 86400*fahrenheitDegree))

	DynamicViscosity   = kind("dynamic viscosity", u("mpa_s", 1e-3), u("pa_s", 1), u("upa_s", 1e-6))
	KinematicViscosity = kind("kinematic viscosity", u("mm2_s", 1e-6), u("m2_s", 1))
	SurfaceTension     = kind("surface tension", u("mn_m", 1e-3), u("n_m", 1))
	PerTemperature     = kind("expansion coefficient", u("1_k", 1), u("um_mk", 1e-6), u("mm_mk", 1e-3))
	PerPressure        = kind("compressibility", u("1_pa", 1), u("1_mpa", 1e-6), u("1_gpa", 1e-9), u("1_bar", 1e-5))
	Force              = kind("force", u("n", 1), u("kn", 1e3))

	// FlowCoefficient is Kv: the flow in m³/h that water of 1000 kg/m³ has at a
	// difference of 1 bar. The trade's number is also the library's.
	FlowCoefficient = kind("flow coefficient Kv", u("m3_h", 1))
)

// reorder returns the units of pressure with the given one first.
func reorder(first string) []Unit {
	units := make([]Unit, 0, len(pressures))
	for _, p := range pressures {
		if p.Suffix == first {
			units = append([]Unit{p}, units...)
		} else {
			units = append(units, p)
		}
	}
	return units
}

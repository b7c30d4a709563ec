package fluid_test

import (
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// Water in a heating circuit at 40 °C. IAPWS-95 with R12-08 and R15-11 gives
// 992.3 kg/m³, 4.179 kJ/(kg·K), 0.6286 W/(m·K) and 0.6528 mPa·s at 0.3 MPa.
func ExampleWater() {
	p, err := fluid.Water().At(40)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("density      %.4g kg/m³\n", p.Density)
	fmt.Printf("specific heat %.3g kJ/(kg·K)\n", p.SpecificHeat/hydronics.Kilojoule)
	fmt.Printf("conductivity %.4g W/(m·K)\n", p.Conductivity)
	fmt.Printf("viscosity    %.4g mPa·s\n", p.DynamicViscosity/hydronics.MillipascalSecond)
	// Output:
	// density      992.3 kg/m³
	// specific heat 4.18 kJ/(kg·K)
	// conductivity 0.6286 W/(m·K)
	// viscosity    0.6528 mPa·s
}

// The first verification point of IAPWS R7-97(2012), Table 5: 300 K and 3 MPa
// give 115.331273 kJ/kg, 0.392294792 kJ/(kg·K) and 1507.73921 m/s.
func ExampleWaterState() {
	s, err := fluid.WaterState(300-hydronics.ZeroCelsius, 3*hydronics.Megapascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4g kJ/kg, %.4g kJ/(kg·K), %.4g m/s\n",
		s.Enthalpy/hydronics.Kilojoule, s.Entropy/hydronics.Kilojoule, s.SpeedOfSound)
	// Output:
	// 115.3 kJ/kg, 0.3923 kJ/(kg·K), 1508 m/s
}

// Ethylene glycol of 40 % by mass: the CRC Handbook (102nd edition) has 1.0514
// g/cm³ and 2.832 mPa·s at 20 °C, and a freezing point of -23.84 °C.
func ExampleSolute_ByMass() {
	l, err := fluid.EthyleneGlycol.ByMass(0.40)
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := l.At(20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(l)
	fmt.Printf("%.4g kg/m³, %.2g mPa·s, freezes at %.3g °C\n",
		p.Density, p.DynamicViscosity/hydronics.MillipascalSecond, l.FreezingPoint())
	// Output:
	// ethylene glycol 40 % by mass
	// 1052 kg/m³, 2.8 mPa·s, freezes at -23.8 °C
}

// How much propylene glycol keeps water liquid down to -15 °C? The ASHRAE
// Handbook has 33 % by mass at -14.8 °C and 34 % at -15.6 °C.
func ExampleSolute_ByFreezingPoint() {
	l, err := fluid.PropyleneGlycol.ByFreezingPoint(-15)
	if err != nil {
		fmt.Println(err)
		return
	}
	phi, err := l.VolumeFraction()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2g %% by mass, %.2g %% of the volumes poured\n", 100*l.MassFraction(), 100*phi)
	// Output:
	// 33 % by mass, 32 % of the volumes poured
}

// Water under 10 MPa boils at 584.149488 K (IAPWS R7-97(2012), Table 36).
func ExampleSaturationTemperature() {
	t, err := fluid.SaturationTemperature(10 * hydronics.Megapascal)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4g °C\n", t)
	// Output:
	// 311 °C
}

// An error names what is wrong, its value and the limits.
func ExampleLiquid_At() {
	_, err := fluid.Water().At(-5)
	fmt.Println(err)
	// Output:
	// fluid.Liquid.At: temperature of water = -5 °C, want 0 to 133.52536 °C (IAPWS R7-97(2012) region 1, from freezing to boiling)
}

// Water boils at 0.101325 MPa and 373.1243 K, where IAPWS SR1-86(1992), Table 1,
// has 958.365 and 0.597586 kg/m³; the latent heat is its enthalpies' difference,
// 2675.7 less 419.05 kJ/kg.
func ExampleBoiling() {
	s, err := fluid.Boiling(373.1243 - hydronics.ZeroCelsius)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4g kPa, water %.4g kg/m³, steam %.3g kg/m³, latent heat %.4g kJ/kg\n",
		s.PressureAbs/hydronics.Kilopascal, s.Liquid.Density, s.Steam.Density, s.LatentHeat/hydronics.Kilojoule)
	// Output:
	// 101.3 kPa, water 958.4 kg/m³, steam 0.598 kg/m³, latent heat 2257 kJ/kg
}

// Ice needs 333.4 kJ/kg to melt and is 9.07 % larger than its water (IAPWS
// R10-06(2009) with IAPWS-95).
func ExampleFreezing() {
	f := fluid.Freezing()
	fmt.Printf("%.4g kJ/kg, grows by %.3g %%\n", f.Heat/hydronics.Kilojoule, 100*f.Expansion)
	// Output:
	// 333.4 kJ/kg, grows by 9.07 %
}

// At 260 K ice melts under 138.268 MPa (IAPWS R14-08(2011), Table 3).
func ExampleMeltingPressure() {
	p, err := fluid.MeltingPressure(260 - hydronics.ZeroCelsius)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4g MPa\n", p/hydronics.Megapascal)
	// Output:
	// 138.3 MPa
}

// A sample of ethylene glycol at 20 °C has the refractive index 1.3646: 32 % by mass
// in the CRC Handbook (102nd edition). The mixing rule finds a little less, which is
// the safe side for frost.
func ExampleSolute_ByRefractiveIndex() {
	l, err := fluid.EthyleneGlycol.ByRefractiveIndex(1.3646, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3g %% by mass\n", 100*l.MassFraction())
	// Output:
	// 31.7 % by mass
}

// A system of 200 l holds ethylene glycol of 20 % by mass and shall have 32 %. With the
// densities of the CRC Handbook (1024.1, 1040.5 and, pure, 1113.5 kg/m³) the balance
// of mass takes 31.2 kg of glycol.
func ExampleDosing_Replace() {
	from, err := fluid.EthyleneGlycol.ByMass(0.20)
	if err != nil {
		fmt.Println(err)
		return
	}
	to, err := fluid.EthyleneGlycol.ByMass(0.32)
	if err != nil {
		fmt.Println(err)
		return
	}
	glycol, err := fluid.EthyleneGlycol.Concentrate()
	if err != nil {
		fmt.Println(err)
		return
	}
	dose, err := fluid.Dosing{Content: 200 * hydronics.Litre, From: from, To: to, Concentrate: glycol}.Replace()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("drain %.3g l, pour in %.3g l of glycol (%.3g kg)\n",
		dose.Drain/hydronics.Litre, dose.Concentrate/hydronics.Litre, dose.ConcentrateMass)
	// Output:
	// drain 27.2 l, pour in 28 l of glycol (31.2 kg)
}

// Water full of air holds 68.09 ml/l at 10 °C and 3 bar absolute, and 29.61 ml/l at
// 80 °C and the same pressure (IAPWS G7-04). The rest has to leave through the vents.
func ExampleReleasedAir() {
	v, err := fluid.ReleasedAir(
		fluid.Place{Temperature: 10, PressureAbs: 3 * hydronics.Bar},
		fluid.Place{Temperature: 80, PressureAbs: 3 * hydronics.Bar})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3g litres of air from each cubic metre\n", v/hydronics.Litre)
	// Output:
	// 38.5 litres of air from each cubic metre
}

// Air of 20 °C and 50 % relative humidity: the psychrometric equations of the ASHRAE
// Handbook 2017 put its dew point at 9.3 °C.
func ExampleDewPoint() {
	d, err := fluid.DewPoint(20, 0.50)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2g °C\n", d)
	// Output:
	// 9.3 °C
}

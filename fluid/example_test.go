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

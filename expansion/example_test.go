package expansion_test

import (
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
)

// A house: 250 l of water, filled at 10 °C, at most 55 °C, highest radiator 6 m
// above the vessel, relief valve 3 bar. Which vessel, charged and filled to what?
func ExampleSystem_Size() {
	s := expansion.System{
		Liquid:          fluid.Water(),
		Content:         250 * hydronics.Litre,
		FillTemperature: 10,
		Hottest:         55,
		StaticHead:      6,
		ReliefSet:       3 * hydronics.Bar,
		Rules:           expansion.EN12828(),
	}
	z, err := s.Size()
	if err != nil {
		fmt.Println(err)
		return
	}
	nominal, err := expansion.UsualSeries().AtLeast(z.Nominal)
	if err != nil {
		fmt.Println(err)
		return
	}
	vessel := expansion.Vessel{Nominal: nominal, Precharge: z.Precharge}
	w, err := s.Window(vessel, 15)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("expansion %.2f l, reserve %.0f l: at least %.1f l, take %.0f l\n",
		z.Expansion/hydronics.Litre, z.Reserve/hydronics.Litre, z.Nominal/hydronics.Litre, nominal/hydronics.Litre)
	fmt.Printf("charge to %.2f bar, fill at 15 °C to %.2f to %.2f bar\n",
		z.Precharge/hydronics.Bar, w.Least/hydronics.Bar, w.Most/hydronics.Bar)
	// Output:
	// expansion 3.55 l, reserve 3 l: at least 13.6 l, take 18 l
	// charge to 0.79 bar, fill at 15 °C to 1.18 to 1.55 bar
}

// The 600 l example of an engineering note that follows DIN 4807-2. The note
// prints 66.9 l because a bracket got lost; its formula gives 72.9 l.
func ExampleDemand_Nominal() {
	v, err := expansion.Demand{
		Expansion:  21.30 * hydronics.Litre,
		Reserve:    3 * hydronics.Litre,
		Precharge:  1.0 * hydronics.Bar,
		Final:      (2.5 - 0.5) * hydronics.Bar,
		Atmosphere: 1 * hydronics.Bar,
	}.Nominal()
	fmt.Printf("%.1f l %v\n", v/hydronics.Litre, err)
	// Output: 72.9 l <nil>
}

// The chilled-water tanks of a US textbook (2000 gal, 45 to 100 °F, 10 psi at the
// tank, relief at 35 psi): printed 38.7 gal with a free water surface and 23.0 gal
// with a bladder, for an expansion of 11.59 gal net of the steel pipes.
func ExampleDemand_freeSurface() {
	for _, precharge := range []hydronics.Gauge{0, 10 * hydronics.PoundPerSquareIn} {
		v, err := expansion.Demand{
			Expansion: 11.59 * hydronics.USGallon,
			Precharge: precharge,
			Filling:   10 * hydronics.PoundPerSquareIn,
			Final:     35 * hydronics.PoundPerSquareIn,
		}.Nominal()
		fmt.Printf("%.1f gal %v\n", v/hydronics.USGallon, err)
	}
	// Output:
	// 38.7 gal <nil>
	// 23.0 gal <nil>
}

// An activity of a British plumbing textbook: a vessel of 18 l charged to 1.5 bar
// takes 9 l of expanded water. Gauge pressures in Boyle's law would give 3.0 bar.
func ExampleDemand_PressureIn() {
	p, err := expansion.Demand{
		Expansion:  9 * hydronics.Litre,
		Precharge:  1.5 * hydronics.Bar,
		Atmosphere: 1 * hydronics.Bar,
	}.PressureIn(18 * hydronics.Litre)
	fmt.Printf("%.1f bar %v\n", p/hydronics.Bar, err)
	// Output: 4.0 bar <nil>
}

// What a lost charge does: the relief valve spills on the way up, and the next
// morning the gauge reads too little.
func ExampleCourse_Cycle() {
	s := expansion.System{
		Liquid:          fluid.Water(),
		Content:         300 * hydronics.Litre,
		FillTemperature: 10,
		Hottest:         70,
		StaticHead:      6,
		ReliefSet:       3 * hydronics.Bar,
		Rules:           expansion.EN12828(),
	}
	for _, precharge := range []hydronics.Gauge{0.8 * hydronics.Bar, 0} {
		c, err := s.Course(expansion.Vessel{Nominal: 25 * hydronics.Litre, Precharge: precharge}, 1.2*hydronics.Bar)
		if err != nil {
			fmt.Println(err)
			return
		}
		y, err := c.Cycle()
		if err != nil {
			fmt.Println(err)
			return
		}
		if y.Lifts {
			fmt.Printf("lifts at %.0f °C, loses %.1f l, then %.1f bar at 10 °C\n",
				y.LiftsAt, y.Lost/hydronics.Litre, y.Filling.Pressure/hydronics.Bar)
		} else {
			fmt.Printf("%.1f bar at 70 °C\n", y.Hot.Pressure/hydronics.Bar)
		}
	}
	// Output:
	// 2.3 bar at 70 °C
	// lifts at 61 °C, loses 1.6 l, then 0.9 bar at 10 °C
}

// A 200 l cylinder heated from 10 to 65 °C behind a reducer set to 4 bar, safety
// valve 8 bar: 3.9 l per heating-up and a vessel of 10.4 l in a reference
// calculation with IAPWS-95 densities.
func ExamplePotable_Size() {
	z, err := expansion.Potable{
		Volume:    200 * hydronics.Litre,
		Cold:      10,
		Hot:       65,
		Supply:    4 * hydronics.Bar,
		ReliefSet: 8 * hydronics.Bar,
		Rules:     expansion.PotablePractice(),
	}.Size()
	fmt.Printf("%.1f l, charge %.1f bar, at least %.1f l, %v\n",
		z.Expansion/hydronics.Litre, z.Precharge/hydronics.Bar, z.Nominal/hydronics.Litre, err)
	// Output: 3.9 l, charge 3.8 bar, at least 10.4 l, <nil>
}

// A vessel that is hung up must be filled to more when the water is already warm.
func ExampleSystem_Settings() {
	s := expansion.System{
		Liquid:          fluid.Water(),
		Content:         300 * hydronics.Litre,
		FillTemperature: 10,
		Hottest:         70,
		StaticHead:      6,
		ReliefSet:       3 * hydronics.Bar,
		Rules:           expansion.EN12828(),
	}
	table, err := s.Settings(expansion.Vessel{Nominal: 35 * hydronics.Litre, Precharge: 0.8 * hydronics.Bar}, 10, 30, 50)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range table {
		fmt.Printf("%.0f °C: %.2f to %.2f bar\n", w.Temperature, w.Least/hydronics.Bar, w.Most/hydronics.Bar)
	}
	// Output:
	// 10 °C: 0.98 to 1.55 bar
	// 30 °C: 1.05 to 1.68 bar
	// 50 °C: 1.22 to 1.97 bar
}

// The German component-test formula: a relief valve of 3 bar protects 1.26 kW for
// each mm² of its flow area times its discharge coefficient.
func ExampleValve_Steam() {
	v := expansion.Valve{Set: 3 * hydronics.Bar, Area: 100 * hydronics.SquareMillimetre, Coefficient: 0.5}
	r, err := v.Steam(0, 0)
	fmt.Printf("%.0f kW (1.26 × 50 = 63) as %.1f kg/h of steam of %.1f °C, %v\n",
		r.Heat/hydronics.Kilowatt, r.MassFlow*hydronics.Hour, r.Temperature, err)
	// Output: 63 kW (1.26 × 50 = 63) as 106.8 kg/h of steam of 143.7 °C, <nil>
}

// Blocked-in sea water of a worked sheet after API 521: 15.5 to 48 °C, 34 kW. Printed
// 0.00111 1/K and 32.42 kg/h.
func ExampleWarming_Relief() {
	w := expansion.Warming{Cold: 15.5, Hot: 48, ColdDensity: 1031.0, HotDensity: 994.4}
	b, err := w.Coefficient()
	if err != nil {
		fmt.Println(err)
		return
	}
	q, err := w.Relief(34*hydronics.Kilowatt, 4200)
	fmt.Printf("%.5f 1/K, %.2f kg/h, %v\n", b, q*hydronics.Hour, err)
	// Output: 0.00111 1/K, 32.42 kg/h, <nil>
}

// Viscosity correction of API 520, 7th edition, at a Reynolds number of 2110.
func ExampleViscosityFactor() {
	f, err := expansion.ViscosityFactor(2110, expansion.API520Edition7)
	fmt.Printf("%.4f %v\n", f, err)
	// Output: 0.9437 <nil>
}

// A copper pipe full of water at 20 °C and 2 bar, shut off at both ends in the sun.
func ExampleSection_PressureAt() {
	s := expansion.Section{Temperature: 20, Pressure: 2 * hydronics.Bar,
		Bore: 20 * hydronics.Millimetre, Wall: 1 * hydronics.Millimetre, Modulus: 120e9, Poisson: 0.34, Expansion: 17e-6}
	p, err := s.PressureAt(30)
	fmt.Printf("%.0f bar at 30 °C, %v\n", p/hydronics.Bar, err)
	// Output: 36 bar at 30 °C, <nil>
}

// Ethylene glycol in a heating circuit: opinions differ, the stricter one counts.
func ExampleBackflowProtection() {
	for _, place := range []string{"United Kingdom", "Sweden", ""} {
		b, err := expansion.BackflowProtection(expansion.EthyleneGlycolWater, place)
		fmt.Printf("%q: category %d, unit %s, %v\n", place, b.Category, b.Unit, err)
	}
	// Output:
	// "United Kingdom": category 3, unit CA, <nil>
	// "Sweden": category 4, unit BA, <nil>
	// "": category 4, unit BA, <nil>
}

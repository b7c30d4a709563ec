package pipe_test

import (
	"fmt"
	"log"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// Cengel and Cimbala, Fluid Mechanics, example 8-2: water at 0.9 m/s through
// 9 m of a tube of 3 mm. Printed: 43.7 kPa, 4.46 m, f = 0.0360.
func ExampleRun_Loss_cengel82() {
	water := fluid.Properties{Density: 1000, DynamicViscosity: 1.519e-3}
	run := pipe.Run{Bore: 0.003, Length: 9}
	loss, err := run.Loss(6.3617e-6, water)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s, f = %.4f, %.1f kPa, %.2f m\n", loss.Regime, loss.FrictionFactor,
		loss.Total/hydronics.Kilopascal, loss.Total/(1000*9.81))
	// Output: laminar, f = 0.0360, 43.7 kPa, 4.46 m
}

// E. Maurer, Hydraulics and Water Resources, example 4.4: flow through 100 m of
// a steel pipe of 0.5 m under a head of 0.6 m. Printed: 0.413 m³/s.
func ExampleRun_Flow_maurer44() {
	water := fluid.Properties{Density: 998, DynamicViscosity: 998 * 1.023e-6}
	run := pipe.Run{Bore: 0.5, Roughness: 0.046e-3, Length: 100}
	flow, err := run.Flow(0.6*998*9.81, water)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m³/s\n", flow)
	// Output: 0.413 m³/s
}

// E. Maurer, example 4.5, asks for the bore instead. Printed: 0.501 m.
func ExampleRun_BoreFor_maurer45() {
	water := fluid.Properties{Density: 998, DynamicViscosity: 998 * 1.023053e-6}
	bore, err := pipe.Run{Roughness: 0.046e-3, Length: 100}.BoreFor(0.416, 0.6*998*9.81, water)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m\n", bore)
	// Output: 0.501 m
}

// Daugherty and Franzini, example 8.8: three pipes in series under a head of
// 10 m, their friction factors given, so that each is a loss coefficient f L/D.
// Printed: 0.084 m³/s.
func ExampleFlowAt_franzini88() {
	water := fluid.Properties{Density: 1000, DynamicViscosity: 1e-3}
	var chain pipe.InSeries
	for _, p := range []struct{ bore, length, f float64 }{
		{0.30, 300, 0.019}, {0.20, 150, 0.021}, {0.25, 250, 0.020},
	} {
		c, err := pipe.Run{Bore: p.bore, Zeta: p.f * p.length / p.bore}.Prepare(water)
		if err != nil {
			log.Fatal(err)
		}
		chain = append(chain, &c)
	}
	flow, err := pipe.FlowAt(chain, 10*1000*9.81)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f m³/s\n", flow)
	// Output: 0.084 m³/s
}

// Douglas et al., example 14.3: two parallel pipes between reservoirs 10 m
// apart. Printed: 0.0034 and 0.0190 m³/s.
func ExampleInParallel_Split_douglas143() {
	water := fluid.Properties{Density: 1000, DynamicViscosity: 1e-3}
	var both pipe.InParallel
	for _, bore := range []float64{0.05, 0.10} {
		c, err := pipe.Run{Bore: bore, Zeta: 0.032*100/bore + 1.5}.Prepare(water)
		if err != nil {
			log.Fatal(err)
		}
		both = append(both, &c)
	}
	total, err := pipe.FlowAt(both, 10*1000*9.81)
	if err != nil {
		log.Fatal(err)
	}
	flows, _, err := both.Split(total)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.4f and %.4f m³/s\n", flows[0], flows[1])
	// Output: 0.0034 and 0.0190 m³/s
}

// J. B. Rishel, HVAC Pump Handbook, Table 3.1: 260 US gallons a minute go
// through a steel pipe of 4 inch at 6.6 ft/s, the smallest that keeps to about
// 4 ft of head per 100 ft.
func ExampleSizing_Select_rishel() {
	water, err := fluid.Water().At(15.6)
	if err != nil {
		log.Fatal(err)
	}
	limit, err := pipe.CriterionNamed("heating above 2 inch")
	if err != nil {
		log.Fatal(err)
	}
	tubes, err := pipe.B3610M40.Tubes()
	if err != nil {
		log.Fatal(err)
	}
	choice, err := pipe.Sizing{
		Flow: 260 * hydronics.USGallonPerMinute, Liquid: water, Criteria: []pipe.Criterion{limit},
	}.Select(tubes)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s: %.1f ft/s, %s\n", choice.Tube.Designation, choice.Loss.Velocity/hydronics.Foot, choice.Findings[0].Verdict)
	// Output: ASME B36.10M 40 NPS 4: 6.6 ft/s, met on an unconfirmed source
}

// K. Subramanya, problem 14.18: 3 m/s stopped within 1.25 s at the end of 800 m
// of cast iron. Printed: critical time 1.48 s, rise 3235 kPa.
func ExampleSurge_Close_subramanya1418() {
	surge := pipe.Surge{Bulk: 2.11e9, Density: 998, Bore: 0.6, Wall: 0.015, Modulus: 104.1e9}
	r, err := surge.Close(pipe.Closure{Length: 800, Velocity: 3, Time: 1.25})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("critical time %.2f s, rise %.0f kPa\n", r.CriticalTime, r.Rise/hydronics.Kilopascal)
	// Output: critical time 1.48 s, rise 3235 kPa
}

// Crane Technical Paper 410M, example 7.2: a globe valve with Kv 500 in a bore
// of 154 mm. Printed: K = 3.6, the same as 240 bores of pipe with f = 0.015.
func ExampleKv_Zeta_crane72() {
	zeta, err := pipe.Kv(500).Zeta(0.154)
	if err != nil {
		log.Fatal(err)
	}
	length, err := pipe.EquivalentLength(zeta, 0.154, 0.015)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("ζ = %.1f, %.0f bores\n", zeta, length/0.154)
	// Output: ζ = 3.6, 240 bores
}

// IEC 60534-2-1, annex E, example 1: 360 m³/h of water at 965.4 kg/m³ from 6.8
// to 2.2 bar. Printed: Kv 165 m³/h.
func ExampleKvFor_iec60534() {
	kv, err := pipe.KvFor(360*hydronics.CubicMetrePerHour, 4.6*hydronics.Bar, 965.4)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("Kv %.0f m³/h\n", float64(kv))
	// Output: Kv 165 m³/h
}

// A heat pump of 8 kW outdoors: the flow for 35/30 °C, and what it loses in
// 2 x 12 m of copper tube with six elbows. The tube and the flow are of our own
// choice; friction and fittings follow the methods that the tables check.
func Example() {
	water, err := fluid.Water().At(32.5)
	if err != nil {
		log.Fatal(err)
	}
	flow, err := pipe.FlowForHeat(8*hydronics.Kilowatt, 35, 30, fluid.Water())
	if err != nil {
		log.Fatal(err)
	}
	tube, err := pipe.Find("EN 1057 28x1.5")
	if err != nil {
		log.Fatal(err)
	}
	elbow, err := pipe.ThreeK.Fitting("bend 90°, r/D 2", tube.Bore())
	if err != nil {
		log.Fatal(err)
	}
	run, err := tube.Run(24).With(elbow, elbow, elbow, elbow, elbow, elbow)
	if err != nil {
		log.Fatal(err)
	}
	loss, err := run.Loss(flow, water)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f l/min, %.2f m/s, %s\n", flow/hydronics.LitrePerMinute, loss.Velocity, loss.Regime)
	fmt.Printf("tube %.1f kPa, elbows %.1f kPa, content %.1f l\n",
		loss.Friction/hydronics.Kilopascal, loss.Fittings/hydronics.Kilopascal, run.Content()/hydronics.Litre)
	// Output:
	// 23.1 l/min, 0.78 m/s, turbulent
	// tube 7.2 kPa, elbows 0.6 kPa, content 11.8 l
}

// A pipe leaves the house at 2.4 m, dips under a window and rises to the unit:
// without a drain at the dip it keeps its water. The figures are plain geometry.
func ExampleRoute_HeldWater() {
	route := pipe.Route{
		{X: 0, Z: 2.4},
		{X: 1, Z: 2.4, Outdoors: true},
		{X: 1, Z: 0.3, Outdoors: true},
		{X: 4, Z: 0.3, Outdoors: true},
		{X: 4, Z: 0.8, Outdoors: true},
	}
	for _, outlets := range [][]int{{4}, {4, 2}} {
		pockets, err := route.HeldWater(outlets...)
		if err != nil {
			log.Fatal(err)
		}
		held := 0.0
		for _, p := range pockets {
			held += p.Length
		}
		fmt.Printf("open at %v: %.1f m keep water\n", outlets, held)
	}
	// Output:
	// open at [4]: 4.0 m keep water
	// open at [4 2]: 0.0 m keep water
}

// Coulson and Richardson, Chemical Engineering 1, example 3.6: 7.2 m³/h of water
// from a bore of 40 mm into one of 50 mm. Printed: 16.7 mm of head lost.
func ExampleEnlargement_coulson36() {
	change, err := pipe.Enlargement(0.040, 0.050)
	if err != nil {
		log.Fatal(err)
	}
	run, err := pipe.Run{Bore: 0.040}.With(change)
	if err != nil {
		log.Fatal(err)
	}
	loss, err := run.Loss(7.2*hydronics.CubicMetrePerHour, fluid.Properties{Density: 1000, DynamicViscosity: 1e-3})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm\n", loss.Total/(1000*9.81)/hydronics.Millimetre)
	// Output: 16.7 mm
}

// J. Siegenthaler, Combining heat pumps with buffer tanks: 48 000 Btu/h against a
// load of 2000 Btu/h, ten minutes of running time, 100 to 120 °F. His formula,
// V = t (source - load)/(500 ΔT), gives 46 US gallons.
func ExampleShortestRun_Content_siegenthaler() {
	const btuPerHour = 1055.056 / 3600 // W
	content, err := pipe.ShortestRun{
		Output: 48000 * btuPerHour, Load: 2000 * btuPerHour, Time: 10 * hydronics.Minute,
		From: (100 - 32) / 1.8, To: (120 - 32) / 1.8,
	}.Content(fluid.Water())
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f US gallons\n", content/hydronics.USGallon)
	// Output: 46 US gallons
}

// A public table of expansion rates gives 0.98 mm for one metre of copper tube
// warmed by 60 K.
func ExampleTube_Growth() {
	tube, err := pipe.Find("EN 1057 22x1.0")
	if err != nil {
		log.Fatal(err)
	}
	growth, err := tube.Growth(1, 10, 70)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.2f mm\n", growth/hydronics.Millimetre)
	// Output: 0.98 mm
}

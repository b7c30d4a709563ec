package network_test

import (
	"fmt"
	"log"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe/network"
)

// Three reservoirs feed one another through a common node. Douglas, Gasiorek and
// Swaffield, Fluid Mechanics, example 14.4, prints 0.0206, 0.0105 and 0.0101 m³/s.
func ExampleNetwork_Solve_threeReservoirs() {
	water := fluid.Properties{Density: 1000, DynamicViscosity: 1e-3}
	weight := water.Density * hydronics.StandardGravity
	n := network.Network{Liquid: water}
	a := n.AddNode(network.Node{Name: "A", Fixed: true, Pressure: hydronics.Gauge(24 * weight)})
	b := n.AddNode(network.Node{Name: "B", Fixed: true, Pressure: hydronics.Gauge(8 * weight)})
	c := n.AddNode(network.Node{Name: "C", Fixed: true})
	j := n.AddNode(network.Node{Name: "junction"})

	// The friction factor is given: its loss is a coefficient f L/D on the bore.
	tube := func(length, bore float64) []network.Element {
		return []network.Element{network.Run{Bore: bore, Zeta: 0.04 * length / bore}}
	}
	n.AddBranch(network.Branch{From: a, To: j, Elements: tube(120, 0.12)})
	n.AddBranch(network.Branch{From: j, To: b, Elements: tube(60, 0.075)})
	n.AddBranch(network.Branch{From: j, To: c, Elements: tube(40, 0.06)})

	s, err := n.Solve()
	if err != nil {
		log.Fatal(err)
	}
	for _, branch := range s.Branches {
		fmt.Printf("%.4f m³/s\n", branch.Flow)
	}
	// Output:
	// 0.0206 m³/s
	// 0.0105 m³/s
	// 0.0101 m³/s
}

// A pump lifts water against a static head of 265 ft. Hydraulic Institute,
// Engineering Data Book, section I.C: 200 gpm at 296 ft.
func ExampleSolution_Pump() {
	water := fluid.Properties{Density: 1000, DynamicViscosity: 1e-3}
	weight := water.Density * hydronics.StandardGravity
	var curve []network.PumpPoint
	for q := 0.0; q <= 300; q += 20 {
		curve = append(curve, network.PumpPoint{
			Flow: q * hydronics.USGallonPerMinute,
			Head: (380 - 0.06*q - 0.0018*q*q) * hydronics.Foot,
		})
	}
	// The system loses 7.75e-4 Q² ft: as a loss coefficient on a bore of 0.1 m.
	const bore, area = 0.1, 0.1 * 0.1 * 3.14159265 / 4
	velocity := 200 * hydronics.USGallonPerMinute / area
	zeta := 31 * hydronics.Foot * 2 * hydronics.StandardGravity / (velocity * velocity)

	n := network.Network{Liquid: water}
	low := n.AddNode(network.Node{Fixed: true})
	high := n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Gauge(265 * hydronics.Foot * weight)})
	pump := n.AddBranch(network.Branch{From: low, To: high, Elements: []network.Element{
		network.Pump{Curve: curve, Speed: 1},
		network.Run{Bore: bore, Zeta: zeta},
	}})
	s, err := n.Solve()
	if err != nil {
		log.Fatal(err)
	}
	state, err := s.Pump(pump)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0f gpm at %.0f ft\n", state.Flow/hydronics.USGallonPerMinute, state.Head/hydronics.Foot)
	// Output:
	// 200 gpm at 296 ft
}

// A heat pump with a bypass and two zones: the set pressure of the bypass that
// keeps the minimum flow when both zones are shut.
func ExampleSystem_BypassSetting() {
	water, err := fluid.Water().At(35)
	if err != nil {
		log.Fatal(err)
	}
	n := network.Network{Liquid: water}
	ret := n.AddNode(network.Node{Name: "return", Fixed: true, Pressure: 1.5 * hydronics.Bar})
	supply := n.AddNode(network.Node{Name: "supply"})
	source := n.AddBranch(network.Branch{Name: "heat pump", From: ret, To: supply, Elements: []network.Element{
		network.Strainer{Kv: 9},
		network.Device{Kv: 6},
		network.Pump{Speed: 1, Curve: []network.PumpPoint{
			{Flow: 0, Head: 7}, {Flow: 20 * hydronics.LitrePerMinute, Head: 6.5},
			{Flow: 40 * hydronics.LitrePerMinute, Head: 5}, {Flow: 60 * hydronics.LitrePerMinute, Head: 2},
		}},
	}})
	bypass := n.AddBranch(network.Branch{Name: "bypass", From: supply, To: ret, Elements: []network.Element{
		network.Bypass{Set: 30 * hydronics.Kilopascal, Slope: 1e7, Kvs: 4},
	}})
	zone := func(name string, length float64) int {
		return n.AddBranch(network.Branch{Name: name, From: supply, To: ret, Elements: []network.Element{
			network.Run{Bore: 0.016, Roughness: 0.007 * hydronics.Millimetre, Length: length, Zeta: 10},
			network.Device{Kv: 1.6},
		}})
	}
	zones := []int{zone("ground floor", 40), zone("first floor", 60)}

	const minimum = 14 * hydronics.LitrePerMinute
	s, err := n.Prepare()
	if err != nil {
		log.Fatal(err)
	}
	setting, err := s.BypassSetting(bypass, source, zones, minimum)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("worst case, zones open:", setting.Worst.Open)
	fmt.Printf("flow there: %.1f l/min\n", setting.Worst.Flow/hydronics.LitrePerMinute)
	// Output:
	// worst case, zones open: [false false]
	// flow there: 14.0 l/min
}

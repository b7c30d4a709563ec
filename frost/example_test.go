package frost_test

import (
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
)

// Kreith, Manglik and Bohn, Principles of Heat Transfer, 7th edition, example
// 2.2: a copper pipe of 100 mm bore and 10 mm wall at 110 °C, bare and behind
// 50 mm of insulation; the book prints 451 and 138 W/m.
func ExampleSection_HeatFlow() {
	bare := frost.Section{
		Bore:    100 * hydronics.Millimetre,
		Film:    10000,
		Layers:  []frost.Layer{{Thickness: 10 * hydronics.Millimetre, Conductivity: 400}},
		Surface: frost.Surface{Coefficient: 15},
	}
	lagged := bare
	lagged.Layers = append(lagged.Layers, frost.Layer{Thickness: 50 * hydronics.Millimetre, Conductivity: 0.2})
	for _, s := range []frost.Section{bare, lagged} {
		f, err := s.HeatFlow(110, frost.Air{Temperature: 30})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f W/m\n", f.PerMetre)
	}
	// Output:
	// 451 W/m
	// 138 W/m
}

// ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23, table 6: a pipe of
// nominal size 50 with 50 mm of insulation takes 1.7 h from 5.5 °C to the
// freezing point at -28 °C.
func ExampleHandbookLump() {
	water := frost.Water()
	water.Density, water.SpecificHeat = 1000, 4200 // the handbook's
	l, err := frost.HandbookLump(water, frost.Shell{Bore: 0.05248, Inner: 0.061, Outer: 0.168, Conductivity: 0.0432})
	if err != nil {
		fmt.Println(err)
		return
	}
	t, err := l.CoolingTime(5.5, 0, -28)
	fmt.Printf("%.1f h %v\n", t.Seconds/hydronics.Hour, err)
	// Output: 1.7 h <nil>
}

// A copper tube 28 × 1.5 with 25 mm of closed-cell foam, water of 35 °C when
// the power fails, -10 °C outdoors. An independent resolved solution (case FZ1
// of the reference tables) has 5.40 h for the first ice and 11.0 h for a quarter
// of ice in well mixed water; the closed forms come out a little shorter, on the
// safe side. A mild night has no answer but never.
func ExampleSection_Lump() {
	s := frost.Section{
		Bore: 25 * hydronics.Millimetre,
		Layers: []frost.Layer{
			{Thickness: 1.5 * hydronics.Millimetre, Conductivity: 380, HeatCapacity: 3.44e6},
			{Thickness: 25 * hydronics.Millimetre, Conductivity: 0.036, HeatCapacity: 90e3},
		},
		Surface: frost.Surface{Coefficient: 10},
	}
	l, err := s.Lump(frost.Water(), 35, frost.Air{Temperature: -10})
	if err != nil {
		fmt.Println(err)
		return
	}
	cool, _ := l.CoolingTime(35, 0, -10)
	freeze, _ := l.FreezingTime(0.25, -10)
	fmt.Printf("0 °C after %.1f h, a quarter of ice after %.1f h\n",
		cool.Seconds/hydronics.Hour, (cool.Seconds+freeze.Seconds)/hydronics.Hour)
	mild, _ := l.CoolingTime(35, 0, 2)
	fmt.Println("at 2 °C never:", mild.Never)
	// Output:
	// 0 °C after 5.3 h, a quarter of ice after 10.9 h
	// at 2 °C never: true
}

// A riser of 1.5 m and 6 m of tube rising 1 in 100 to an open top, 26 mm bore,
// through a valve of Kv 1.5: an independent calculation (case DR3 of the
// reference tables) has 28.8 s until 2 cm of head are left.
func ExampleColumn_Empty() {
	water, err := fluid.Water().At(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := frost.Column{
		Bore: 26 * hydronics.Millimetre, Roughness: 1.5e-6, Kv: 1.5, Final: 0.02,
		Legs: []frost.Leg{{Length: 1.5, Rise: 1.5}, {Length: 6, Rise: 0.06}},
	}.Empty(water)
	fmt.Printf("%.1f l in %.0f s %v\n", e.Volume/hydronics.Litre, e.Time, err)
	// Output: 4.0 l in 29 s <nil>
}

// The same tube resolved: the independent solutions of case FZ1 have 5.41 h for
// the first ice and 11.1 h for a quarter of ice in water that only conducts,
// 5.40 h and 11.0 h in well mixed water.
func ExampleStanding_Resolve() {
	s := frost.Standing{
		Section: frost.Section{
			Bore: 25 * hydronics.Millimetre,
			Layers: []frost.Layer{
				{Thickness: 1.5 * hydronics.Millimetre, Conductivity: 380, HeatCapacity: 3.4419e6},
				{Thickness: 25 * hydronics.Millimetre, Conductivity: 0.036, HeatCapacity: 90e3},
			},
			Surface: frost.Surface{Coefficient: 10},
		},
		Medium:  frost.Medium{Density: 999.8, SpecificHeat: 4200, Conductivity: 0.57, LatentHeat: 333600, IceSpecificHeat: 2100, IceConductivity: 2.2},
		Start:   35,
		Weather: []frost.Air{{Temperature: -10}},
		Until:   2 * hydronics.Day,
	}
	for _, s.Mixed = range []bool{false, true} {
		h, err := s.Resolve()
		if err != nil {
			fmt.Println(err)
			return
		}
		quarter, _ := h.IceTime(0.25)
		fmt.Printf("mixed %t: first ice %.1f h, a quarter %.1f h\n", s.Mixed,
			h.FirstIce.Seconds/hydronics.Hour, quarter.Seconds/hydronics.Hour)
	}
	// Output:
	// mixed false: first ice 5.4 h, a quarter 11.1 h
	// mixed true: first ice 5.4 h, a quarter 11.0 h
}

// Moran, Shapiro, Munson and DeWitt, Introduction to Thermal Systems
// Engineering, example 16.12: ground of 20 °C whose surface stays at -15 °C for
// 60 days; the book reads 0.68 m from a chart.
func ExampleChill_Depth() {
	x, err := frost.Chill{Start: 20, Surface: -15, Diffusivity: 1.378579e-7}.Depth(0, 60*hydronics.Day)
	fmt.Printf("%.2f m %v\n", x, err)
	// Output: 0.68 m <nil>
}

// Two columns of an outdoor tube over one drain valve, a night of -12 °C without
// end. What the margin says it says in minutes, on the safe side of every term.
func ExampleNight_Run() {
	n := frost.Night{
		Section: frost.Section{
			Bore: 25 * hydronics.Millimetre,
			Layers: []frost.Layer{
				{Thickness: 1.5 * hydronics.Millimetre, Conductivity: 380, HeatCapacity: 3.44e6},
				{Thickness: 40 * hydronics.Millimetre, Conductivity: 0.036, HeatCapacity: 90e3},
			},
			Surface: frost.InTheOpen(),
		},
		Medium:  frost.Water(),
		Start:   30,
		Weather: []frost.Air{{Temperature: -12, Wind: 3}},
		Setting: frost.CommonSetting(),
		Reach: frost.Reach{
			Route: pipe.Route{{Z: 1}, {Z: 0.4, Outdoors: true}, {X: 5, Z: 0.5, Outdoors: true}, {X: 5, Z: 1.2, Outdoors: true}},
			Bore:  25 * hydronics.Millimetre, Roughness: 1.5e-6,
			Drains: []frost.Drain{{Point: 1, Kv: 1}},
			Vents:  []int{0, 3},
		},
	}
	o, err := n.Run()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range o.Events {
		fmt.Println(e.What)
	}
	fmt.Println("kept:", o.Kept())
	// Output:
	// power fails, pump stops
	// isolating valves closed
	// drain valves open at the latest
	// section empty at the latest
	// 0 °C at the wall at the earliest: restarting is over
	// first ice in the tube at the earliest
	// kept: true
}

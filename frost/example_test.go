package frost_test

import (
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
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

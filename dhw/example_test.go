package dhw_test

import (
	"errors"
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
)

// The shower of UFC 3-420-01, clause 506.1.3: 2.5 US gallons a minute at 110 °F
// from hot water of 140 °F and cold of 50 °F. The document prints 1.667 and 0.833.
func ExampleHotShare() {
	fahrenheit := func(t float64) float64 { return (t - 32) / 1.8 }
	share, err := dhw.HotShare(fahrenheit(50), fahrenheit(110), fahrenheit(140))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("hot %.3f gpm, cold %.3f gpm\n", 2.5*share, 2.5*(1-share))
	// Output: hot 1.667 gpm, cold 0.833 gpm
}

// The same heat at another temperature: what 200 l of 60 °C mean at the tap.
func ExampleAmount_At() {
	tap, err := dhw.Amount{Volume: 200 * hydronics.Litre, Temperature: 60}.At(40, 10)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f l at 40 °C\n", tap.Volume/hydronics.Litre)
	// Output: 333.3 l at 40 °C
}

// A heat pump warms 200 l. Its capacity falls as the cylinder gets hotter, so the
// last kelvins take the longest.
func ExampleCylinder_Reheat() {
	heat, err := dhw.VolumetricHeat(10, 50)
	if err != nil {
		fmt.Println(err)
		return
	}
	cylinder := dhw.Cylinder{Volume: 200 * hydronics.Litre, Nodes: 1, VolumetricHeat: heat, LossCoefficient: 1.5}
	pump := dhw.Heater{{Store: 10, Power: 7000}, {Store: 35, Power: 6200}, {Store: 55, Power: 5000}}
	r, err := cylinder.Reheat(pump, 10, 50, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f min, %.2f kWh, of which %.2f kWh lost\n",
		r.Time/hydronics.Minute, r.Supplied/hydronics.KilowattHour, r.Lost/hydronics.KilowattHour)
	_, err = cylinder.Reheat(pump, 10, 60, 20) // beyond what the pump can do
	fmt.Println(errors.Is(err, hydronics.ErrRange))
	// Output:
	// 89 min, 9.27 kWh, of which 0.02 kWh lost
	// true
}

// The bath of DIN 4708-2: 100 l by 50 K with 1.163 Wh/(l K); the standard
// rounds it to 5820 Wh.
func ExampleCylinder_Reheat_bath() {
	bath := dhw.Cylinder{Volume: 100 * hydronics.Litre, Nodes: 1, VolumetricHeat: 1.163 * 3.6e6}
	r, err := bath.Reheat(dhw.Heater{{Power: 6 * hydronics.Kilowatt}}, 10, 60, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f Wh in %.0f min\n", r.Supplied/hydronics.WattHour, r.Time/hydronics.Minute)
	// Output: 5815 Wh in 58 min
}

// A small cylinder with a large heater needs the valve of its heater.
func ExampleReliefValveFor() {
	for _, kilowatt := range []float64{10, 100} {
		valve, err := dhw.ReliefValveFor(200*hydronics.Litre, kilowatt*hydronics.Kilowatt)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%3.0f kW: DN %d\n", kilowatt, valve.DN)
	}
	// Output:
	//  10 kW: DN 15
	// 100 kW: DN 20
}

// The worked example of Approved Document G to Table 3.1: a valve with an outlet
// of G 1/2, 7 m of pipe after the tundish and four elbows. In 22 mm that counts
// 10.2 m where 9 m are allowed, in 28 mm 11 m of 18 m.
func ExampleSizeDischarge() {
	run := dhw.Straight{Length: 7, Bends: 4}
	small, err := dhw.DischargeResistance(dhw.OutletG12, 22*hydronics.Millimetre, run)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("22 mm: %.1f of %.0f m\n", small.Resistance, small.MaxResistance)
	chosen, err := dhw.SizeDischarge(dhw.OutletG12, run)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm: %.1f of %.0f m\n", chosen.D2/hydronics.Millimetre, chosen.Resistance, chosen.MaxResistance)
	// Output:
	// 22 mm: 10.2 of 9 m
	// 28 mm: 11.0 of 18 m
}

// The 80 % rule: 6 bar set pressure allows 4.8 bar of cold water, 10 bar allow 8.
func ExampleSupplyRule_MaxSupply() {
	rule, _ := dhw.DIN1988Part200.SupplyRule()
	for _, set := range []float64{6, 10} {
		p, err := rule.MaxSupply(hydronics.Gauge(set * hydronics.Bar))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f bar\n", p/hydronics.Bar)
	}
	// Output:
	// 4.8 bar
	// 8.0 bar
}

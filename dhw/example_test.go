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

// Profile L of EU law: its energy, its busiest hour and its volume at 60 °C. With
// 4.18 MJ/(m³ K) the published volume is 200.756 l.
func ExampleLoadProfile() {
	p, err := dhw.LoadProfile("L")
	if err != nil {
		fmt.Println(err)
		return
	}
	energy, _ := p.Energy()
	busiest, _ := p.Busiest(1 * hydronics.Hour)
	volume, _ := p.Volume(60, 10, 4.18e6)
	fmt.Printf("%.2f kWh, %.1f l at 60 °C\n", energy/hydronics.KilowattHour, volume/hydronics.Litre)
	fmt.Printf("busiest hour from %.0f min after midnight: %.3f kWh\n", busiest.Start/hydronics.Minute, busiest.Energy/hydronics.KilowattHour)
	// Output:
	// 11.65 kWh, 200.8 l at 60 °C
	// busiest hour from 425 min after midnight: 5.215 kWh
}

// Example E.2 of EN 15450: 75 l a day at 60 °C from a store of 50 °C, a critical
// hour of 4.445 kWh. The published results are 6.453 l and 3293 W.
func ExampleStoreDemand_Part() {
	s, err := dhw.StoreDemand{
		Day:  dhw.Amount{Volume: 75 * hydronics.Litre, Temperature: 60},
		Cold: 10, Stored: 50, Usable: 40,
		DailyLoss: 0.3 * hydronics.KilowattHour,
		Critical:  4.445 * hydronics.KilowattHour, CriticalTime: 1 * hydronics.Hour,
		VolumetricHeat: 4.184e6,
	}.Part()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("store %.1f l, of which %.3f l for the loss; heat pump %.0f W\n",
		s.Volume/hydronics.Litre, s.LossVolume/hydronics.Litre, s.Power)
	// Output: store 100.2 l, of which 6.453 l for the loss; heat pump 3293 W
}

// What 200 l of 60 °C are worth at a shower of 40 °C, from fully mixed to perfectly
// layered.
func ExampleCylinder_MixedWater() {
	for _, nodes := range []int{1, 10, dhw.PlugFlow} {
		m, err := dhw.Cylinder{Volume: 200 * hydronics.Litre, Nodes: nodes}.MixedWater(60, 40, 10)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%5.1f l\n", m.Volume/hydronics.Litre)
	}
	// Output:
	// 133.3 l
	// 272.3 l
	// 333.3 l
}

// A day of profile L at 150 l with 3 kW: the account closes, and the long draw-off
// of the morning nearly empties the cylinder.
func ExampleDay_Run() {
	p, err := dhw.LoadProfile("L")
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := dhw.Day{
		Cylinder: dhw.Cylinder{Volume: 150 * hydronics.Litre, Nodes: 10, VolumetricHeat: 4.18e6, LossCoefficient: 1.5},
		Profile:  p,
		Heater:   dhw.Heater{{Power: 3 * hydronics.Kilowatt}},
		Coil:     0.5, Sensor: 0.6, On: 50, Off: 56,
		Start: 58, Cold: 10, Ambient: 20, Step: 1, Days: 1,
	}.Run(nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("wanted %.2f kWh, given %.2f kWh, %d starts\n", r.Demanded/hydronics.KilowattHour, r.Delivered/hydronics.KilowattHour, r.Starts)
	fmt.Printf("coldest at the tap %.1f °C\n", r.LowestOutlet)
	// Output:
	// wanted 11.65 kWh, given 11.62 kWh, 2 starts
	// coldest at the tap 40.9 °C
}

// Heat that a store has to hold for profile L, by cumulative demand and supply.
func ExampleProfile_SumLine() {
	p, err := dhw.LoadProfile("L")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, watt := range []float64{600, 1500, 3000} {
		s, err := p.SumLine(watt)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%4.0f W: %.3f kWh\n", watt, s.Content/hydronics.KilowattHour)
	}
	// Output:
	//  600 W: 4.670 kWh
	// 1500 W: 3.715 kWh
	// 3000 W: 3.605 kWh
}

// A house with one bathroom: most of the time nothing runs, so that the flow of 99
// per cent of all time and that of 99 per cent of the busy time are far apart.
// Probabilities and flows (US gallons a minute) are from memory.
func ExampleDemandOfFixtures() {
	const gpm = hydronics.USGallonPerMinute
	d, err := dhw.DemandOfFixtures([]dhw.Fixtures{
		{Count: 1, Probability: 0.055, Flow: 5.5 * gpm}, // bath with shower
		{Count: 1, Probability: 0.010, Flow: 3.0 * gpm}, // WC
		{Count: 1, Probability: 0.020, Flow: 1.5 * gpm}, // washbasin
		{Count: 1, Probability: 0.020, Flow: 2.2 * gpm}, // kitchen
		{Count: 1, Probability: 0.005, Flow: 1.3 * gpm}, // dishwasher
		{Count: 1, Probability: 0.055, Flow: 3.5 * gpm}, // washing machine
	}, 0.99, 0.1*gpm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("idle %.1f %% of the time; 99 %% of all time %.1f gpm, of the busy time %.1f gpm\n", 100*d.Idle, d.Exact/gpm, d.ExactBusy/gpm)
	// Output: idle 84.5 % of the time; 99 % of all time 5.5 gpm, of the busy time 9.0 gpm
}

// The peak flow of a residential building whose design flows add up to 5 l/s.
func ExamplePeakCurve_Flow() {
	v, err := dhw.ResidentialPeak().Flow(5 * hydronics.LitrePerSecond)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f l/s\n", v/hydronics.LitrePerSecond)
	// Output: 1.069 l/s
}

// The flat of a text book on EN 806-3: 12 loading units.
func ExampleLoadingUnits() {
	sum := 0
	for _, name := range []string{"washing machine", "washbasin", "bath", "WC cistern", "dishwasher", "kitchen sink"} {
		n, err := dhw.LoadingUnits(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		sum += n
	}
	tube, err := dhw.LoadingSection{Material: "multilayer", Units: sum, Largest: 4, Length: 6}.Tube()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d units: %s %s\n", sum, tube.Material, tube.Size)
	// Output: 12 units: multilayer 26x3
}

// A shut-off valve on the wrong side of the relief valve.
func ExampleFeed_Findings() {
	found, err := dhw.Feed{
		Book:    dhw.DIN1988Part200,
		Chain:   []dhw.Device{dhw.ShutOff, dhw.NonReturn, dhw.Vessel, dhw.Relief, dhw.ShutOff, dhw.Store},
		Content: 200 * hydronics.Litre, HeatInput: 12 * hydronics.Kilowatt,
		Height: 0.1, Branch: 0.05, ReliefDN: 15,
	}.Findings()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range found {
		if f.Verdict == hydronics.NotMet {
			fmt.Printf("%s: %s (%v)\n", f.Subject, f.Rule, f.Verdict)
		}
	}
	// Output:
	// relief valve: nothing that can shut, clog or close stands between relief valve and cylinder (not met)
	// expansion vessel: the vessel hangs between the last closing device and the cylinder (not met)
}

// An unvented cylinder in England without its temperature relief valve.
func ExampleOverheating_Findings() {
	found, err := dhw.Overheating{
		Book: dhw.ApprovedDocumentG, Content: 200 * hydronics.Litre,
		Sources: []dhw.HeatSource{{Name: "heat pump coil", Thermostat: 55, CutOut: 80}},
	}.Findings()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range found {
		fmt.Printf("%s: %s: %v\n", f.Subject, f.Rule, f.Verdict)
	}
	// Output:
	// heat pump coil: a thermostat controls the source: met on an unconfirmed source
	// heat pump coil: a cut-out that does not reset itself stops the source: met on an unconfirmed source
	// heat pump coil: cut-out at most at 100 °C: met
	// heat pump coil: thermostat set no higher than the cut-out: met on an unconfirmed source
	// cylinder: a temperature relief valve stands on the cylinder: not met
}

// The elevation of the International Plumbing Code, Appendix E: 20 ft take 8.66 psi
// or 59.8 kPa.
func ExampleStaticHead() {
	p, err := dhw.StaticHead(20*hydronics.Foot, 10)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kPa\n", p/hydronics.Kilopascal)
	// Output: 59.8 kPa
}

// A loop of 30 m that may cool from 60 to 55 °C, exact and by the inlet method of
// ETL 1110-3-489.
func ExampleCirculation_Flow() {
	f, err := dhw.Circulation{Length: 30, Transmittance: 0.2, Ambient: 20, Supply: 60, VolumetricHeat: 4.18e6}.Flow(55)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("exact %.1f l/h, inlet method %.1f l/h, loss %.1f W\n", f.Flow/hydronics.LitrePerHour, f.Inlet/hydronics.LitrePerHour, f.Loss)
	// Output: exact 38.7 l/h, inlet method 41.3 l/h, loss 224.7 W
}

// The same return temperature before two rulebooks.
func ExampleRulebook_Findings() {
	for _, book := range []dhw.Rulebook{dhw.W551, dhw.HSEL8} {
		found, err := book.Findings([]dhw.Reading{{Point: dhw.ReturnFlow, Temperature: 53}})
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, f := range found {
			if f.Verdict != hydronics.SeeOnSite {
				fmt.Printf("%v: %s, at least %.0f °C: %v\n", book, f.Rule, f.Limit, f.Verdict)
			}
		}
	}
	// Output:
	// DVGW W 551:2004: circulation return hot enough, at least 55 °C: not met
	// HSE Approved Code of Practice L8: circulation return hot enough, at least 50 °C: met
}

// Two pieces of tube to a washbasin.
func ExampleDeadLeg_Stagnation() {
	s, err := dhw.DeadLeg{
		Pieces: []dhw.Piece{
			{Outside: 15 * hydronics.Millimetre, Bore: 13 * hydronics.Millimetre, Length: 5},
			{Outside: 22 * hydronics.Millimetre, Bore: 20 * hydronics.Millimetre, Length: 2},
		},
		Flow: 0.1 * hydronics.LitrePerSecond,
	}.Stagnation()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f l, %.0f s\n", s.Content/hydronics.Litre, s.Wait)
	// Output: 1.29 l, 13 s
}

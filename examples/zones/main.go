// Zones asks what becomes of a heat pump's flow when zones shut: it solves an
// invented house of one pump, five zones and a bypass as a network, sets the
// bypass so that the minimum flow is kept in every combination, and prints the
// cases with all zones open, one open and none.
//
//	go run ./examples/zones
//	go run ./examples/zones -least 14 -glycol 30
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"text/tabwriter"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("zones", flag.ContinueOnError)
	flags.SetOutput(stderr)
	least := flags.Float64("least", 12, "minimum flow of the heat pump in `l/min`")
	glycol := flags.Float64("glycol", 0, "propylene glycol in `% by mass`; 0 is water")
	temperature := flags.Float64("temperature", 35, "mean temperature in `°C`")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "zones: unexpected argument %q\n", flags.Arg(0))
		return 2
	}
	if err := report(stdout, *least*hydronics.LitrePerMinute, *glycol*hydronics.Percent, *temperature); err != nil {
		fmt.Fprintln(stderr, "zones:", err)
		return 1
	}
	return 0
}

// house is the invented network and the branches that the questions are about.
type house struct {
	network.Network
	source, bypass int
	zones          []int
}

func newHouse(liquid fluid.Properties) house {
	h := house{Network: network.Network{Liquid: liquid}}
	back := h.AddNode(network.Node{Name: "return", Fixed: true, Pressure: 1.2 * hydronics.Bar})
	supply := h.AddNode(network.Node{Name: "supply"})
	pump := network.Pump{Speed: 1, Curve: []network.PumpPoint{
		{Flow: 0, Head: 7.2, Power: 24},
		{Flow: 15 * hydronics.LitrePerMinute, Head: 6.6, Power: 42},
		{Flow: 30 * hydronics.LitrePerMinute, Head: 5.2, Power: 58},
		{Flow: 45 * hydronics.LitrePerMinute, Head: 3.0, Power: 66},
		{Flow: 60 * hydronics.LitrePerMinute, Head: 0.4, Power: 70},
	}}
	h.source = h.AddBranch(network.Branch{Name: "heat pump", From: back, To: supply, Elements: []network.Element{
		network.Strainer{Kv: 9},
		network.Run(pipe.Run{Bore: 26 * hydronics.Millimetre, Roughness: 0.0015 * hydronics.Millimetre, Length: 24, Zeta: 14}),
		network.Device{Kv: 4.5}, // the condenser
		pump,
	}})
	h.bypass = h.AddBranch(network.Branch{Name: "bypass", From: supply, To: back, Elements: []network.Element{
		network.Bypass{Set: 10 * hydronics.Kilopascal, Slope: 2e7, Kvs: 5}, // the set pressure is found below
	}})
	for _, zone := range []struct {
		name   string
		length float64
	}{{"bath", 48}, {"kitchen", 66}, {"living room", 92}, {"study", 74}, {"attic", 104}} {
		loop := pipe.Run{Bore: 13 * hydronics.Millimetre, Roughness: 0.007 * hydronics.Millimetre, Length: zone.length, Zeta: 9}
		h.zones = append(h.zones, h.AddBranch(network.Branch{Name: zone.name, From: supply, To: back, Elements: []network.Element{
			network.Run(loop), network.Device{Kv: 1.1},
		}}))
	}
	return h
}

func report(w io.Writer, least, glycol, temperature float64) error {
	liquid := fluid.Water()
	if glycol != 0 {
		var err error
		if liquid, err = fluid.PropyleneGlycol.ByMass(glycol); err != nil {
			return err
		}
	}
	properties, err := liquid.At(temperature)
	if err != nil {
		return err
	}
	h := newHouse(properties)
	system, err := h.Prepare()
	if err != nil {
		return err
	}
	setting, err := system.BypassSetting(h.bypass, h.source, h.zones, least)
	if err != nil {
		return err
	}
	branch := system.Branch(h.bypass)
	bypass := branch.Elements[0].(network.Bypass)
	bypass.Set = setting.Set
	branch.Elements = []network.Element{bypass}
	h.Branches[h.bypass] = branch

	fmt.Fprintf(w, "An invented house with %v at %.0f °C; minimum flow %.1f l/min.\n", liquid, temperature, least/hydronics.LitrePerMinute)
	fmt.Fprintf(w, "Set the bypass to %.1f kPa: it then passes %.1f l/min with all zones open,\n",
		setting.Set/hydronics.Kilopascal, setting.Leak/hydronics.LitrePerMinute)
	fmt.Fprintf(w, "and the circulator takes %.0f W instead of %.0f W.\n\n", setting.Power, setting.PowerWithout)
	return cases(w, h, least)
}

// cases prints the flows with all zones open, each one alone, and none.
func cases(w io.Writer, h house, least float64) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(t, "open\tunit l/min\tbypass l/min")
	for _, z := range h.zones {
		fmt.Fprintf(t, "\t%s", h.Branches[z].Name)
	}
	fmt.Fprintln(t, "\thead kPa\tminimum\t")
	for only := -2; only < len(h.zones); only++ {
		n, name := h.Clone(), "all"
		for i, z := range h.zones {
			n.Branches[z].Shut = only == -1 || only >= 0 && i != only
		}
		switch {
		case only == -1:
			name = "none"
		case only >= 0:
			name = h.Branches[h.zones[only]].Name
		}
		s, err := n.Solve()
		if err != nil {
			return err
		}
		pump, err := s.Pump(h.source)
		if err != nil {
			return err
		}
		fmt.Fprintf(t, "%s\t%.1f\t%.1f", name, pump.Flow/hydronics.LitrePerMinute, s.Branches[h.bypass].Flow/hydronics.LitrePerMinute)
		for _, z := range h.zones {
			fmt.Fprintf(t, "\t%.1f", s.Branches[z].Flow/hydronics.LitrePerMinute)
		}
		// The setting keeps the minimum to 1e-4 of itself.
		verdict := "kept"
		if pump.Flow < least*(1-1e-3) {
			verdict = "NOT KEPT"
		}
		fmt.Fprintf(t, "\t%.1f\t%s\t\n", pump.Pressure/hydronics.Kilopascal, verdict)
	}
	return t.Flush()
}

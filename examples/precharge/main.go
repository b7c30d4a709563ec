// Precharge shows what the gas charge of an expansion vessel does: the pressure of
// one heating system against its temperature with the right charge, with a lost one
// and with one that is too high.
//
//	go run ./examples/precharge                  in words
//	go run ./examples/precharge -draw FILE.svg   and as a drawing (.png, .svg or .pdf)
//
// The system is invented. The exit status is 2 when the drawing cannot be made (of
// the built binary: go run turns 2 into 1).
package main

import (
	"flag"
	"fmt"
	"io"
	"os"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/picture"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("precharge", flag.ContinueOnError)
	flags.SetOutput(stderr)
	file := flags.String("draw", "", picture.Usage)
	if err := flags.Parse(args); err != nil || flags.NArg() > 0 {
		return 2
	}
	if err := show(stdout, *file); err != nil {
		fmt.Fprintln(stderr, "precharge:", err)
		return 2
	}
	return 0
}

// The invented system: 300 l of water, highest radiator 6 m above a vessel of 25 l.
var system = expansion.System{
	Liquid:          fluid.Water(),
	Content:         300 * hydronics.Litre,
	FillTemperature: 10,
	Coldest:         5,
	Hottest:         70,
	StaticHead:      6,
	ReliefSet:       3 * hydronics.Bar,
	Rules:           expansion.EN12828(),
}

const (
	nominal = 25 * hydronics.Litre
	filling = 1.2 * hydronics.Bar
)

// A charge is one case of the comparison.
type charge struct {
	name      string
	precharge hydronics.Gauge

	course, after expansion.Course // as filled, and with the water that the cycle left
	cycle         expansion.Cycle
}

func charges() ([]charge, error) {
	cases := []charge{
		{name: "right", precharge: 0.8 * hydronics.Bar},
		{name: "lost", precharge: 0},
		{name: "excessive", precharge: 2 * hydronics.Bar},
	}
	for i := range cases {
		c := &cases[i]
		var err error
		if c.course, err = system.Course(expansion.Vessel{Nominal: nominal, Precharge: c.precharge}, filling); err != nil {
			return nil, err
		}
		if c.cycle, err = c.course.Cycle(); err != nil {
			return nil, err
		}
		if c.after, err = c.course.Drained(c.cycle.Lost); err != nil {
			return nil, err
		}
	}
	return cases, nil
}

func show(w io.Writer, file string) error {
	cases, err := charges()
	if err != nil {
		return err
	}
	need, err := system.Size()
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "System of %.0f l, %.0f to %.0f °C, %.0f m high, relief valve %.1f bar (invented).\n",
		system.Content/hydronics.Litre, system.Coldest, system.Hottest, system.StaticHead, system.ReliefSet/hydronics.Bar)
	fmt.Fprintf(w, "Vessel of %.0f l, filled at %.0f °C to %.1f bar. The charge should be at least %.2f bar,\nthe pressure when hot at most %.1f bar (%s).\n\n",
		nominal/hydronics.Litre, system.FillTemperature, filling/hydronics.Bar, need.Precharge/hydronics.Bar, need.Final/hydronics.Bar, system.Rules.Name)
	for _, c := range cases {
		fmt.Fprintf(w, "%-9s charge %.1f bar: %s\n", c.name, c.precharge/hydronics.Bar, outcome(c))
	}
	fmt.Fprint(w, "\nCheck a charge with the water side of the vessel relieved; a gauge on a vessel that is\n"+
		"connected shows the system's pressure. Work on pressure vessels belongs to licensed persons.\n")
	if file == "" {
		return nil
	}
	return figure(file, cases, need)
}

func outcome(c charge) string {
	text := fmt.Sprintf("%.1f bar at %.0f °C", c.cycle.Hot.Pressure/hydronics.Bar, system.Hottest)
	if c.cycle.Lifts {
		text = fmt.Sprintf("the relief valve lifts at %.0f °C and spills %.1f l", c.cycle.LiftsAt, c.cycle.Lost/hydronics.Litre)
	}
	cold := c.cycle.Coldest
	if cold.Empty {
		return text + fmt.Sprintf("; back at %.0f °C the vessel is empty: vacuum at the top", cold.Temperature)
	}
	return text + fmt.Sprintf("; back at %.0f °C %.1f bar", cold.Temperature, cold.Pressure/hydronics.Bar)
}

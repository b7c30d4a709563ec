// Antifreeze compares what fills one heating circuit: water, and every solution
// that stays liquid down to a chosen temperature. For each it prints the
// viscosity, the heat carried by a litre, the flow that the same heat takes, the
// loss of the circuit and the work of the pump, against water.
//
//	go run ./examples/antifreeze
//	go run ./examples/antifreeze -protect -20 -heat 10 -supply 45 -return 40 -tube "EN 1057 35x1.5"
//
// The circuit is invented. The figures are for the plain substances in water:
// products with inhibitors differ, most in viscosity. The exit status is 2 when
// an argument cannot be used (of the built binary: go run turns 2 into 1).
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	var c circuit
	flags := flag.NewFlagSet("antifreeze", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Float64Var(&c.protect, "protect", -15, "`temperature` in °C down to which the liquid must not freeze")
	flags.Float64Var(&c.heat, "heat", 8, "heat `load` in kW")
	flags.Float64Var(&c.supply, "supply", 35, "supply `temperature` in °C")
	flags.Float64Var(&c.back, "return", 30, "return `temperature` in °C")
	flags.StringVar(&c.tube, "tube", "EN 1057 28x1.5", "`designation` of the tube")
	flags.Float64Var(&c.length, "length", 24, "`metres` of tube, there and back")
	flags.Float64Var(&c.zeta, "zeta", 12, "sum of the loss `coefficients` of the fittings")
	if err := flags.Parse(args); err != nil || flags.NArg() > 0 {
		return 2
	}
	if err := c.compare(stdout); err != nil {
		fmt.Fprintln(stderr, "antifreeze:", err)
		return 2
	}
	return 0
}

// A circuit as the arguments give it: kW, °C, m.
type circuit struct {
	protect, heat, supply, back float64
	tube                        string
	length, zeta                float64
}

// duty is one liquid at work in the circuit.
type duty struct {
	properties fluid.Properties
	flow       float64
	loss       pipe.Loss
	work       float64 // W, to the liquid
}

func (c circuit) compare(w io.Writer) error {
	if err := hydronics.Within("antifreeze", "temperature of protection", "°C", c.protect, -60, 0, hydronics.Guard); err != nil {
		return err
	}
	tube, err := pipe.Find(c.tube)
	if err != nil {
		return err
	}
	circuit := tube.Run(c.length)
	circuit.Zeta = c.zeta
	water, err := c.run(circuit, fluid.Water(), 1)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%g kW at %g/%g °C through %g m of %s, fittings %g; liquid down to %g °C\n\n",
		c.heat, c.supply, c.back, c.length, tube.Designation, c.zeta, c.protect)
	fmt.Fprintln(w, "                          mass  volume  freezes   viscosity    heat per     flow      loss           pump work")
	fmt.Fprintln(w, "                             %       %       °C  mPa·s   ×      litre ×    l/min   kPa         W     ×      ± %")
	c.line(w, "water", "     -       -      0.0", water, water, 0)

	var left []string
	for _, s := range fluid.Solutes() {
		l, err := s.ByFreezingPoint(c.protect)
		if err != nil {
			left = append(left, fmt.Sprintf("%v: %s", s, why(err)))
			continue
		}
		d, err := c.run(circuit, l, 1)
		if err != nil {
			left = append(left, fmt.Sprintf("%v: %s", s, why(err)))
			continue
		}
		u, err := l.Uncertainty()
		if err != nil {
			return err
		}
		thick, err := c.run(circuit, l, 1+u.DynamicViscosity)
		if err != nil {
			return err
		}
		volume := "      -" // of a salt
		if phi, err := l.VolumeFraction(); err == nil {
			volume = fmt.Sprintf("%7.1f", 100*phi)
		}
		c.line(w, s.String(), fmt.Sprintf("%6.1f %s %8.1f", 100*l.MassFraction(), volume, l.FreezingPoint()),
			d, water, thick.work/d.work-1)
	}
	fmt.Fprintln(w, "\nviscosity and heat at the mean temperature; ×: against water; ± by the uncertainty of the viscosity alone;")
	fmt.Fprintln(w, "volume: of the parts before mixing; pump work: flow times loss of this circuit, without the pump's own losses")
	for _, reason := range left {
		fmt.Fprintln(w, "left out:", reason)
	}
	fmt.Fprintln(w, "\nEthylene glycol and methanol are poisonous, alcohols burn, salts corrode; plain substances lack inhibitors.")
	fmt.Fprintln(w, "Follow the data sheet of the product, the maker of the heat pump and the local code.")
	return nil
}

// run puts a liquid to work, its viscosity multiplied by thicker.
func (c circuit) run(circuit pipe.Run, l fluid.Liquid, thicker float64) (duty, error) {
	p, err := l.At((c.supply + c.back) / 2)
	if err != nil {
		return duty{}, err
	}
	p.DynamicViscosity *= thicker
	flow, err := pipe.FlowForHeat(c.heat*hydronics.Kilowatt, c.supply, c.back, l)
	if err != nil {
		return duty{}, err
	}
	loss, err := circuit.Loss(flow, p)
	if err != nil {
		return duty{}, err
	}
	return duty{p, flow, loss, flow * loss.Total}, nil
}

func (c circuit) line(w io.Writer, name, mix string, d, water duty, uncertainty float64) {
	note := ""
	if d.loss.Regime != pipe.Turbulent {
		note = "  " + d.loss.Regime.String()
	}
	fmt.Fprintf(w, "%-24s%s %6.2f %5.2f %9.3f %8.1f %7.2f %8.3f %6.2f %7.1f%s\n", name, mix,
		d.properties.DynamicViscosity/hydronics.MillipascalSecond,
		d.properties.DynamicViscosity/water.properties.DynamicViscosity,
		d.properties.HeatCapacityRate(1)/water.properties.HeatCapacityRate(1),
		d.flow/hydronics.LitrePerMinute, d.loss.Total/hydronics.Kilopascal,
		d.work, d.work/water.work, 100*math.Abs(uncertainty), note)
}

// why shortens the error of a temperature to what matters below a table.
func why(err error) string {
	var r *hydronics.RangeError
	if errors.As(err, &r) {
		return fmt.Sprintf("%.4g °C lies outside its range of %.3g to %.3g °C", r.Value, r.Min, r.Max)
	}
	return err.Error()
}

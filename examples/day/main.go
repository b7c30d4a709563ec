// Day draws a day of hot water: what a cylinder holds, what the taps want, when
// the heater runs and where the water runs cold.
//
//	go run ./examples/day                                  a family (profile L) at 80 l
//	go run ./examples/day -draw day.png                     the same with its picture
//	go run ./examples/day -litres 200 -draw l200.svg        a larger cylinder
//	go run ./examples/day -profile M -power 3 -off 50
//
// The account of the day goes to the standard output. A picture is written only
// when -draw names a file; its format follows the name: .png, .svg or .pdf.
// Running cold means that a draw-off got colder water than it wants: 40 °C for a
// shower or a bath, 55 °C for dishes. The exit status is 0 when the day stays
// hot, 1 when the water runs cold, 2 when the input cannot be used (of the built
// binary: go run turns 2 into 1). The heater is a heat pump of our own invention,
// which gives less the hotter the cylinder is.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/internal/picture"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// status of the program.
const (
	staysHot = iota
	runsCold
	unusable
)

func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("day", flag.ContinueOnError)
	flags.SetOutput(stderr)
	profile := flags.String("profile", "L", "load profile of EU law, one of "+strings.Join(dhw.LoadProfiles(), " "))
	litres := flags.Float64("litres", 80, "content of the cylinder, `l`")
	nodes := flags.Int("nodes", 10, "mixed layers of the cylinder")
	power := flags.Float64("power", 4, "heat pump's capacity at 55 °C, `kW`")
	on := flags.Float64("on", 50, "the heater starts when the sensor is colder, `°C`")
	off := flags.Float64("off", 56, "and stops when it reaches this, `°C`")
	cold := flags.Float64("cold", 10, "cold water, `°C`")
	file := flags.String("draw", "", picture.Usage)
	if err := flags.Parse(args); err != nil {
		return unusable
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "day: %q is no flag\n", flags.Arg(0))
		return unusable
	}
	day, err := scenario(*profile, *litres, *nodes, *power)
	if err == nil {
		day.On, day.Off, day.Cold = *on, *off, *cold
		day.Start = day.Off
		var c course
		if c, err = follow(day); err == nil {
			if *file != "" {
				err = c.draw(*file)
			}
			if err == nil {
				c.report(stdout)
				if *file == "" {
					fmt.Fprintln(stdout, "\nFor a picture of the day name its file: -draw day.png (or .svg, .pdf).")
				}
				if c.result.Never {
					return staysHot
				}
				return runsCold
			}
		}
	}
	fmt.Fprintln(stderr, "day:", err)
	return unusable
}

// scenario is a cylinder with a heat pump whose capacity falls by 1.2 % of that at
// 55 °C with every kelvin, and which stops beyond 60 °C.
func scenario(profile string, litres float64, nodes int, kilowatts float64) (dhw.Day, error) {
	p, err := dhw.LoadProfile(profile)
	if err != nil {
		return dhw.Day{}, err
	}
	heat, err := dhw.VolumetricHeat(10, 50)
	if err != nil {
		return dhw.Day{}, err
	}
	loss, err := dhw.LossCoefficient(63) // W, as declared for 65 °C in a room of 20 °C
	if err != nil {
		return dhw.Day{}, err
	}
	at := func(t float64) dhw.HeaterPoint {
		return dhw.HeaterPoint{Store: t, Power: kilowatts * hydronics.Kilowatt * (1 - 0.012*(t-55))}
	}
	return dhw.Day{
		Cylinder: dhw.Cylinder{Volume: litres * hydronics.Litre, Nodes: nodes, VolumetricHeat: heat, LossCoefficient: loss},
		Profile:  p,
		Heater:   dhw.Heater{at(0), at(60)},
		Coil:     0.5,
		Sensor:   0.5,
		Ambient:  20,
		Step:     60,
		Days:     2,
	}, nil
}

// course is a day as it went.
type course struct {
	day    dhw.Day
	result dhw.DayResult
	states []dhw.DayState
}

func follow(day dhw.Day) (course, error) {
	c := course{day: day}
	var err error
	c.result, err = day.Run(func(s dhw.DayState) { c.states = append(c.states, s) })
	return c, err
}

// report prints the account of the day.
func (c course) report(w io.Writer) {
	r := c.result
	energy := func(joule float64) string { return fmt.Sprintf("%7.3f kWh", joule/hydronics.KilowattHour) }
	fmt.Fprintf(w, "A day of EU load profile %s at a cylinder of %.0f l (seen as %d mixed layers);\nthe heat pump starts below %.0f °C and stops at %.0f °C.\n\n", c.day.Profile.Name,
		c.day.Cylinder.Volume/hydronics.Litre, c.day.Cylinder.Nodes, c.day.On, c.day.Off)
	fmt.Fprintf(w, "wanted at the taps  %s\n", energy(r.Demanded))
	fmt.Fprintf(w, "given               %s\n", energy(r.Delivered))
	fmt.Fprintf(w, "missing             %s\n", energy(r.Unmet))
	fmt.Fprintf(w, "from the heat pump  %s in %d starts, %.1f h\n", energy(r.Supplied), r.Starts, r.Run/hydronics.Hour)
	fmt.Fprintf(w, "lost to the room    %s\n", energy(r.Lost))
	fmt.Fprintf(w, "coldest outlet      %7.1f °C at %s\n", r.LowestOutlet, clock(r.LowestAt))
	if r.Never {
		fmt.Fprintln(w, "runs cold           never")
	} else {
		fmt.Fprintf(w, "runs cold           first at %s, %.0f min in all: draw-offs colder than they want,\n", clock(r.ColdFrom), r.ColdTime/hydronics.Minute)
		fmt.Fprintln(w, "                    such as 40 °C for a shower or a bath and 55 °C for dishes")
	}
	fmt.Fprintf(w, "\n%s\n%s\n", dhw.ScaldCaution, dhw.LegionellaCaution)
}

// clock writes seconds after midnight as hours and minutes.
func clock(seconds float64) string {
	minutes := int(seconds / hydronics.Minute)
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}

package main

import (
	"errors"
	"fmt"
	"slices"

	"example.com/hydronics"
)

// Options are what a run asks of every dwelling. They travel to the workers.
type Options struct {
	Cuts          []int   // h, lengths of power cut, rising, 1 to 168
	Insulation    float64 // m, layer that the remedy "more insulation" adds around every outdoor tube
	Conductivity  float64 // W/(m·K) of that layer
	Antifreeze    float64 // mass fraction of propylene glycol that the remedy "antifreeze" fills in
	DrainKv       float64 // m³/h, of the drain valves of the remedy "drain valves"
	DrainOpens    float64 // °C at which they open at the latest
	WinterFrom    int     // month in which the year of a winter begins: 7 north, 1 south of the equator
	Shards        int     // files of outcomes
	BurstFraction float64 // ice that counts as burst, of the bore's content
}

// defaults are the options of a run that says nothing else.
func defaults() Options {
	return Options{
		Cuts:          []int{2, 4, 8, 16},
		Insulation:    30 * hydronics.Millimetre,
		Conductivity:  0.040,
		Antifreeze:    0.35,
		DrainKv:       1.0,
		DrainOpens:    3,
		WinterFrom:    7,
		Shards:        8,
		BurstFraction: 0.25,
	}
}

const worstListed = 25 // dwellings on the list of the worst

func (o *Options) check() error {
	const fn = "stock"
	var errs []error
	if len(o.Cuts) == 0 || len(o.Cuts) > 12 || !slices.IsSorted(o.Cuts) || len(slices.Compact(slices.Clone(o.Cuts))) != len(o.Cuts) {
		errs = append(errs, fmt.Errorf("stock: cuts %v, want 1 to 12 lengths in rising order", o.Cuts))
	}
	for _, c := range o.Cuts {
		errs = append(errs, hydronics.Within(fn, "length of a cut", "h", float64(c), 1, 168, hydronics.Guard))
	}
	errs = append(errs,
		hydronics.Within(fn, "added insulation", "m", o.Insulation, 0.001, 0.3, hydronics.Guard),
		hydronics.Within(fn, "conductivity of added insulation", "W/(m·K)", o.Conductivity, 0.01, 0.5, hydronics.Guard),
		hydronics.Within(fn, "mass fraction of antifreeze", "", o.Antifreeze, 0.15, 0.6, hydronics.Guard),
		hydronics.Within(fn, "Kv of a drain valve", "m³/h", o.DrainKv, 0.01, 100, hydronics.Guard),
		hydronics.Within(fn, "temperature at which a drain valve opens", "°C", o.DrainOpens, 0.1, 10, hydronics.Guard),
		hydronics.Within(fn, "month", "", float64(o.WinterFrom), 1, 12, hydronics.Guard),
		hydronics.Within(fn, "shards", "", float64(o.Shards), 1, 99999, hydronics.Guard),
		hydronics.Within(fn, "fraction of ice", "", o.BurstFraction, 0.001, 1, hydronics.Guard))
	return errors.Join(errs...)
}

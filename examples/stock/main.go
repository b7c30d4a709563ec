// Stock asks of many dwellings at once what frost does to them when the power
// fails: how often, in which designs, at which hour, and what would help. It runs
// on an engine that scales from one machine to a cluster.
//
//	stock                                     a demonstration of 1,000 dwellings, all of it invented
//	stock -jobs 'F*.tsv' -weather 'W/*.csv'   a stock of yours
//	stock -generate 100000 -to DIR            a larger invented stock, to try things out
//	stock -measure 100000                     what the engine costs, against a plain loop
//
// README.md says what the files hold, how the run is submitted to a cluster and
// what was measured. The exit status is 0, or 1 with a message.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"example.com/hydronics"
	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/log"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/flink"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/prism" // the embedded engine
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/spark"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/universal"
)

// embedded is the engine within this process.
const embedded = "prism"

func main() {
	o := defaults()
	var run Run
	var g Generator
	cuts := flag.String("cuts", "2,4,8,16", "lengths of power cut in hours, rising")
	thickness := flag.Float64("add_insulation_mm", o.Insulation/hydronics.Millimetre, "layer that the remedy \"more insulation\" adds")
	mass := flag.Float64("antifreeze_percent", 100*o.Antifreeze, "propylene glycol by mass that the remedy \"antifreeze\" fills in")
	burst := flag.Float64("burst_percent", 100*o.BurstFraction, "ice that counts as burst")
	flag.Float64Var(&o.DrainKv, "drain_kv_m3_h", o.DrainKv, "drain valves of the remedy \"drain valves\"")
	flag.Float64Var(&o.DrainOpens, "drain_opens_c", o.DrainOpens, "temperature at which they open at the latest")
	flag.IntVar(&o.WinterFrom, "winter_from_month", o.WinterFrom, "month in which a winter's year begins: 7 north, 1 south of the equator")
	flag.IntVar(&o.Shards, "shards", o.Shards, "files of outcomes; one of them must fit into a worker's memory")
	flag.StringVar(&run.Jobs, "jobs", "", "pattern of the files of the stock")
	flag.StringVar(&run.Weather, "weather", "", "pattern of the weather files, one for each station")
	flag.StringVar(&run.Out, "out", "out", "folder for the results")
	runner := flag.String("runner", embedded, "engine: prism (embedded), flink, spark, or universal for any other portable one")
	loop := flag.Bool("loop", false, "run as a plain loop without an engine")
	flag.IntVar(&g.Dwellings, "generate", 0, "write an invented stock of so many dwellings, 1,000 to 10,000,000, and stop")
	measure := flag.Int("measure", 0, "measure the engine against a plain loop with up to so many dwellings, and stop")
	flag.IntVar(&g.Stations, "stations", 12, "weather stations of an invented stock")
	flag.IntVar(&g.Winters, "winters", 10, "winters of an invented stock")
	flag.Uint64Var(&g.Seed, "seed", 1, "seed of an invented stock")
	flag.Float64Var(&g.Spoiled, "spoiled", 0, "share of broken lines in an invented stock")
	to := flag.String("to", "invented", "folder for an invented stock")
	flag.Parse()
	beam.Init() // takes over here when this process is a worker

	err := func() (err error) {
		if o.Cuts, err = parseCuts(*cuts); err != nil {
			return err
		}
		o.Insulation, o.Antifreeze, o.BurstFraction = *thickness*hydronics.Millimetre, *mass*hydronics.Percent, *burst*hydronics.Percent
		if err := o.check(); err != nil {
			return err
		}
		run.Options = o
		ctx := context.Background()
		switch {
		case flag.NArg() > 0:
			return fmt.Errorf("%q is no flag; all input is named by flags", flag.Args())
		case *measure > 0:
			g.Dwellings = *measure
			return g.measure(ctx, o, os.Stdout)
		case g.Dwellings > 0:
			_, err := g.write(ctx, *to)
			return err
		case run.Jobs == "" && run.Weather == "":
			g.Dwellings, g.Spoiled = 1000, 0.01
			invented, err := g.write(ctx, join(run.Out, "invented"))
			if err != nil {
				return err
			}
			run.Jobs, run.Weather = invented.Jobs, invented.Weather
			fmt.Printf("demonstration: %d dwellings, %d winters at %d stations, all invented\n", g.Dwellings, g.Winters, g.Stations)
		case run.Jobs == "" || run.Weather == "":
			return errors.New("-jobs and -weather go together")
		}
		if *loop {
			*runner = ""
		}
		return run.do(ctx, *runner, os.Stdout)
	}()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// do runs on the engine of that name, or as a plain loop for "".
func (run *Run) do(ctx context.Context, runner string, out io.Writer) error {
	if err := clearOutput(ctx, run.Out); err != nil {
		return err
	}
	began := time.Now()
	if runner == "" {
		if err := run.plain(ctx); err != nil {
			return err
		}
	} else {
		if runner == embedded {
			log.SetupLogging("warn", "text") // it tells every step otherwise
		}
		if _, err := beam.Run(ctx, runner, run.pipeline()); err != nil {
			return err
		}
	}
	fmt.Fprintf(out, "done in %.1f s: %s\n", time.Since(began).Seconds(), join(run.Out, pageFile))
	return nil
}

func parseCuts(text string) ([]int, error) {
	var cuts []int
	for field := range strings.SplitSeq(text, ",") {
		h, err := strconv.Atoi(strings.TrimSpace(field))
		if err != nil {
			return nil, fmt.Errorf("-cuts %q: want full hours with commas between them", text)
		}
		cuts = append(cuts, h)
	}
	return cuts, nil
}

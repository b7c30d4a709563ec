package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"sync/atomic"
	"syscall"
	"time"

	"gonum.org/v1/gonum/stat"
)

// A cost is what one run took.
type cost struct {
	wall, cpu float64 // s; cpu of all cores
	peak      uint64  // bytes of heap in use at the most, seen every 10 ms
}

// clock takes the cost of a run.
func clock(do func() error) (cost, error) {
	debug.FreeOSMemory()
	var peak atomic.Uint64
	done, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		var m runtime.MemStats
		for {
			runtime.ReadMemStats(&m)
			peak.Store(max(peak.Load(), m.HeapInuse+m.StackInuse))
			select {
			case <-done:
				return
			case <-time.After(10 * time.Millisecond):
			}
		}
	}()
	before, began := cpuSeconds(), time.Now()
	err := do()
	c := cost{wall: time.Since(began).Seconds(), cpu: cpuSeconds() - before}
	close(done)
	<-ended
	c.peak = peak.Load()
	return c, err
}

func cpuSeconds() float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return math.NaN()
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

// measure runs growing stocks with the engine and as a plain loop, one after the
// other in this process, and writes what they cost: up to g.Dwellings with
// g.Winters, and the same dwellings with fewer winters.
func (g *Generator) measure(ctx context.Context, o Options, out io.Writer) error {
	dir, err := os.MkdirTemp("", "stock")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	fmt.Fprintf(out, "%d cores, %d stations, cuts %v h; memory is heap and stacks at the most\n\n", runtime.GOMAXPROCS(0), g.Stations, o.Cuts)
	fmt.Fprintln(out, "| dwellings | winters | engine wall s | engine CPU s | engine MB | loop wall s | loop CPU s | loop MB | dwelling-winters/s, engine | CPU, engine over loop |")
	fmt.Fprintln(out, "|---|---|---|---|---|---|---|---|---|---|")
	one := func(dwellings, winters int) (engine, loop cost, err error) {
		sized := *g
		sized.Dwellings, sized.Winters = dwellings, winters
		folder := filepath.Join(dir, fmt.Sprintf("%d-%d", dwellings, winters))
		run, err := sized.write(ctx, folder)
		if err != nil {
			return engine, loop, err
		}
		run.Options = o
		run.Out = filepath.Join(folder, "engine")
		if engine, err = clock(func() error { return run.do(ctx, embedded, io.Discard) }); err != nil {
			return engine, loop, err
		}
		run.Out = filepath.Join(folder, "loop")
		if loop, err = clock(func() error { return run.do(ctx, "", io.Discard) }); err != nil {
			return engine, loop, err
		}
		fmt.Fprintf(out, "| %d | %d | %.1f | %.1f | %.0f | %.1f | %.1f | %.0f | %.0f | %.3f |\n", dwellings, winters,
			engine.wall, engine.cpu, float64(engine.peak)/1e6, loop.wall, loop.cpu, float64(loop.peak)/1e6,
			float64(dwellings*winters)/engine.wall, engine.cpu/loop.cpu)
		return engine, loop, os.RemoveAll(folder)
	}
	var x, engines, loops []float64
	note := func(of int, engine, loop cost) {
		x, engines, loops = append(x, math.Log(float64(of))), append(engines, math.Log(engine.cpu)), append(loops, math.Log(loop.cpu))
	}
	exponents := func(name string) {
		_, e := stat.LinearRegression(x, engines, nil, false)
		_, l := stat.LinearRegression(x, loops, nil, false)
		fmt.Fprintf(out, "\nexponent of CPU time against %s: engine %.3f, loop %.3f\n", name, e, l)
	}
	var largest cost
	for _, n := range []int{max(1, g.Dwellings/16), max(1, g.Dwellings/4), g.Dwellings} {
		engine, loop, err := one(n, g.Winters)
		if err != nil {
			return err
		}
		note(n, engine, loop)
		largest = engine
	}
	exponents("dwellings")
	fmt.Fprintln(out)
	x, engines, loops = nil, nil, nil
	for _, n := range []int{max(1, g.Winters/4), max(1, g.Winters/2), g.Winters, 2 * g.Winters} {
		engine, loop, err := one(max(1, g.Dwellings/16), n)
		if err != nil {
			return err
		}
		note(n, engine, loop)
	}
	exponents("winters")
	each := largest.cpu / float64(g.Dwellings) / float64(g.Winters)
	fmt.Fprintf(out, "\n%.1f µs of a core for each dwelling-winter; 30 million dwellings with %d winters: %.0f core-hours, with 30 winters: %.0f\n",
		1e6*each, g.Winters, each*30e6*float64(g.Winters)/3600, each*30e6*30/3600)
	return nil
}

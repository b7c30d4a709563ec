package main

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"reflect"
	"time"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"
)

func init() {
	register.DoFn3x1[context.Context, []byte, func(string), error](&listFn{})
	register.DoFn4x1[context.Context, string, func(block), func(Counts), error](&cutFn{})
	register.DoFn5x1[context.Context, string, func(winter), func(breach), func(Counts), error](&weatherFn{})
	register.DoFn7x1[context.Context, block, func(*winter) bool, func(string, tally), func(int, string), func(breach), func(Counts), error](&assessFn{})
	register.DoFn4x1[context.Context, int, func(*string) bool, func(Counts), error](&shardFn{})
	register.DoFn5x1[context.Context, []byte, func(*string, *tally) bool, func(*Counts) bool, func(*breach) bool, error](&reportFn{})
	register.Function2x1(mergeTallies)
	register.Function2x1(addCounts)
	register.Emitter1[string]()
	register.Emitter1[block]()
	register.Emitter1[winter]()
	register.Emitter1[breach]()
	register.Emitter1[Counts]()
	register.Emitter2[string, tally]()
	register.Emitter2[int, string]()
	register.Iter1[winter]()
	register.Iter1[string]()
	register.Iter1[breach]()
	register.Iter1[Counts]()
	register.Iter2[string, tally]()
	beam.RegisterCoder(reflect.TypeFor[block](), encodeBlock, decodeBlock)
	beam.RegisterCoder(reflect.TypeFor[breach](), encodeBreach, decodeBreach)
	beam.RegisterCoder(reflect.TypeFor[Counts](), encodeCounts, decodeCounts)
	beam.RegisterCoder(reflect.TypeFor[tally](), encodeTally, decodeTally)
	beam.RegisterCoder(reflect.TypeFor[winter](), encodeWinter, decodeWinter)
}

// Things travel as JSON, in which float64 keeps every digit. Workers look the
// functions up by name, so each type has its own.

func encodeBlock(v block) ([]byte, error)         { return json.Marshal(v) }
func encodeBreach(v breach) ([]byte, error)       { return json.Marshal(v) }
func encodeCounts(v Counts) ([]byte, error)       { return json.Marshal(v) }
func encodeTally(v tally) ([]byte, error)         { return json.Marshal(v) }
func decodeBlock(b []byte) (v block, err error)   { err = json.Unmarshal(b, &v); return v, err }
func decodeBreach(b []byte) (v breach, err error) { err = json.Unmarshal(b, &v); return v, err }
func decodeCounts(b []byte) (v Counts, err error) { err = json.Unmarshal(b, &v); return v, err }
func decodeTally(b []byte) (v tally, err error)   { err = json.Unmarshal(b, &v); return v, err }

// A wireWinter is a winter on its way: its hours as bits, which read faster.
type wireWinter struct {
	Station string
	Year    int
	Begins  time.Time
	Air     []byte
}

func encodeWinter(v winter) ([]byte, error) {
	air, err := binary.Append(nil, binary.LittleEndian, v.Air)
	if err != nil {
		return nil, err
	}
	return json.Marshal(wireWinter{v.Station, v.Year, v.Begins, air})
}

func decodeWinter(b []byte) (winter, error) {
	var w wireWinter
	if err := json.Unmarshal(b, &w); err != nil {
		return winter{}, err
	}
	v := winter{Station: w.Station, Year: w.Year, Begins: w.Begins, Air: make([]float64, len(w.Air)/8)}
	if _, err := binary.Decode(w.Air, binary.LittleEndian, v.Air); err != nil {
		return winter{}, err
	}
	v.complete()
	return v, nil
}

// pipeline builds the run as a graph for an engine:
//
//	weather files → winters ──────────────────────────┐ (side input)
//	stock files → blocks → spread over the workers → assess ─→ tallies → merged ─┐
//	                                                    ├─→ rows → sorted shards ┤ counts
//	                                                    └─→ broken lines ────────┴→ report
//
// Few and large things travel between the workers: blocks of a file by name,
// rows of a block in one piece for each shard, one tally for each block and design.
func (run *Run) pipeline() *beam.Pipeline {
	p, s := beam.NewPipelineWithRoot()
	start := beam.Impulse(s)

	weather := beam.ParDo(s.Scope("list weather"), &listFn{run.Weather}, start)
	winters, weatherBreaches, weatherCounts := beam.ParDo3(s.Scope("read weather"), &weatherFn{*run}, weather)

	files := beam.ParDo(s.Scope("list stock"), &listFn{run.Jobs}, start)
	blocks, lineCounts := beam.ParDo2(s.Scope("cut stock"), &cutFn{}, files)
	blocks = beam.Reshuffle(s.Scope("spread"), blocks)
	tallies, rows, breaches, counts := beam.ParDo4(s.Scope("assess"), &assessFn{Options: run.Options}, blocks,
		beam.SideInput{Input: winters})

	tallies = beam.CombinePerKey(s.Scope("merge tallies"), mergeTallies, tallies)
	written := beam.ParDo(s.Scope("write shards"), &shardFn{*run}, beam.GroupByKey(s, rows))
	all := beam.Combine(s.Scope("count"), addCounts, beam.Flatten(s, lineCounts, weatherCounts, counts, written))
	beam.ParDo0(s.Scope("report"), &reportFn{*run}, start,
		beam.SideInput{Input: tallies}, beam.SideInput{Input: all},
		beam.SideInput{Input: beam.Flatten(s, breaches, weatherBreaches)})
	return p
}

// listFn lists the files of a pattern.
type listFn struct{ Pattern string }

// ProcessElement emits the names.
func (f *listFn) ProcessElement(ctx context.Context, _ []byte, emit func(string)) error {
	files, err := listFiles(ctx, f.Pattern)
	for _, file := range files {
		emit(file)
	}
	return err
}

// weatherFn reads the file of a station.
type weatherFn struct{ Run Run }

// ProcessElement emits the station's whole winters.
func (f *weatherFn) ProcessElement(ctx context.Context, file string, emit func(winter), broken func(breach), count func(Counts)) error {
	winters, breaches, counts, err := f.Run.readWeather(ctx, file)
	if err != nil {
		return err
	}
	for _, w := range winters {
		emit(*w)
	}
	for _, b := range breaches {
		broken(b)
	}
	count(counts)
	return nil
}

// cutFn cuts a file of the stock.
type cutFn struct{}

// ProcessElement emits its blocks.
func (f *cutFn) ProcessElement(ctx context.Context, file string, emit func(block), count func(Counts)) error {
	blocks, counts, err := cutFile(ctx, file)
	if err != nil {
		return err
	}
	for _, b := range blocks {
		emit(b)
	}
	count(counts)
	return nil
}

// assessFn assesses the dwellings of a block.
type assessFn struct {
	Options  Options
	climate  climate // from the side input, which stays the same for the whole run
	assessor *assessor
}

// ProcessElement emits what comes of the block, all of it at its end: an engine
// that looks for slow elements to hand to idle workers then sees which are.
func (f *assessFn) ProcessElement(ctx context.Context, b block, winters func(*winter) bool,
	emit func(string, tally), row func(int, string), broken func(breach), count func(Counts)) error {
	if f.climate == nil {
		var all []*winter
		for w := new(winter); winters(w); w = new(winter) {
			all = append(all, w)
		}
		var err error
		if f.climate, err = newClimate(all); err != nil {
			return err
		}
		f.assessor = newAssessor(&f.Options)
	}
	y, err := f.assessor.readBlock(ctx, &b, f.climate)
	if err != nil {
		return err
	}
	for design, t := range y.tallies {
		emit(design, *t)
	}
	for shard, rows := range y.rows {
		row(shard, string(rows))
	}
	for _, b := range y.breaches {
		broken(b)
	}
	count(y.counts)
	return nil
}

// mergeTallies puts two tallies of one design together and leaves both as they are.
func mergeTallies(a, b tally) tally {
	sum := emptyLike(&a)
	sum.merge(&a)
	sum.merge(&b)
	return *sum
}

func addCounts(a, b Counts) Counts { return a.plus(b) }

// shardFn writes a shard.
type shardFn struct{ Run Run }

// ProcessElement writes the rows of a shard as one sorted file.
func (f *shardFn) ProcessElement(ctx context.Context, shard int, pieces func(*string) bool, count func(Counts)) error {
	var rows []byte
	for piece := ""; pieces(&piece); {
		rows = append(rows, piece...)
	}
	n, err := writeShard(ctx, f.Run.Out, shard, &f.Run.Options, rows)
	if err != nil {
		return err
	}
	count(Counts{Rows: n})
	return nil
}

// reportFn writes the report of the run.
type reportFn struct{ Run Run }

// ProcessElement collects what the other parts have counted.
func (f *reportFn) ProcessElement(ctx context.Context, _ []byte, tallies func(*string, *tally) bool, counts func(*Counts) bool, breaches func(*breach) bool) error {
	var all []*tally
	design := ""
	for t := new(tally); tallies(&design, t); t = new(tally) {
		all = append(all, t)
	}
	var sum, c Counts
	for counts(&c) {
		sum = sum.plus(c)
	}
	var broken []breach
	for b := (breach{}); breaches(&b); {
		broken = append(broken, b)
	}
	return f.Run.report(ctx, all, sum, broken)
}

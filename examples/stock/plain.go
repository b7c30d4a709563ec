package main

import (
	"context"
	"io"
	"maps"
	"slices"
)

// A Run is what a run reads and where it writes.
type Run struct {
	Jobs    string // pattern of the files of the stock
	Weather string // pattern of the weather files, one for each station
	Out     string // folder
	Options Options
}

// plain does the whole run as one loop on one core, without an engine: the
// measure for what an engine costs and for its results.
func (run *Run) plain(ctx context.Context) error {
	var winters []*winter
	var breaches []breach
	var counts Counts
	files, err := listFiles(ctx, run.Weather)
	if err != nil {
		return err
	}
	for _, file := range files {
		ws, bs, c, err := run.readWeather(ctx, file)
		if err != nil {
			return err
		}
		winters, breaches, counts = append(winters, ws...), append(breaches, bs...), counts.plus(c)
	}
	sky, err := newClimate(winters)
	if err != nil {
		return err
	}
	tallies := map[string]*tally{}
	rows := make([][]byte, run.Options.Shards)
	a := newAssessor(&run.Options)
	if files, err = listFiles(ctx, run.Jobs); err != nil {
		return err
	}
	for _, file := range files {
		blocks, c, err := cutFile(ctx, file)
		if err != nil {
			return err
		}
		counts = counts.plus(c)
		for i := range blocks {
			y, err := a.readBlock(ctx, &blocks[i], sky)
			if err != nil {
				return err
			}
			counts = counts.plus(y.counts)
			breaches = append(breaches, y.breaches...)
			for shard, r := range y.rows {
				rows[shard] = append(rows[shard], r...)
			}
			for design, t := range y.tallies {
				if tallies[design] == nil {
					tallies[design] = newTally(design, &run.Options)
				}
				tallies[design].merge(t)
			}
		}
	}
	for shard, r := range rows {
		if len(r) == 0 {
			continue
		}
		n, err := writeShard(ctx, run.Out, shard, &run.Options, r)
		if err != nil {
			return err
		}
		counts.Rows += n
	}
	return run.report(ctx, slices.Collect(maps.Values(tallies)), counts, breaches)
}

func (run *Run) readWeather(ctx context.Context, file string) (winters []*winter, breaches []breach, counts Counts, err error) {
	err = withFile(ctx, file, 0, func(r io.Reader) (err error) {
		longest := run.Options.Cuts[len(run.Options.Cuts)-1]
		winters, breaches, counts.Weather, err = readWeather(file, r, run.Options.WinterFrom, longest)
		return err
	})
	counts.Stations, counts.Winters = 1, int64(len(winters))
	return winters, breaches, counts, err
}

func cutFile(ctx context.Context, file string) (blocks []block, counts Counts, err error) {
	err = withFile(ctx, file, 0, func(r io.Reader) error {
		return cutBlocks(file, r, blockSize, func(b block) {
			blocks = append(blocks, b)
			counts.Lines += b.Lines
		})
	})
	return blocks, counts, err
}

func (a *assessor) readBlock(ctx context.Context, b *block, c climate) (y *yield, err error) {
	err = withFile(ctx, b.File, b.Offset, func(r io.Reader) error {
		y, err = a.assessBlock(b, r, c)
		return err
	})
	return y, err
}

package main

import (
	"bytes"
	"strings"
	"testing"

	"example.com/hydronics/fluid"
	"github.com/stretchr/testify/assert"
)

// Every solution has its line or the reason why it has none.
func TestEverySolution(t *testing.T) {
	for _, args := range [][]string{nil, {"-protect", "-25", "-supply", "55", "-return", "45"}, {"-protect", "0"}, {"-protect", "-60"}} {
		var out, errs bytes.Buffer
		assert.Zero(t, run(args, &out, &errs), errs.String())
		for _, s := range fluid.Solutes() {
			assert.Equal(t, 1, strings.Count(out.String(), "\n"+s.String()+" ")+strings.Count(out.String(), "left out: "+s.String()+":"), "%v\n%s", s, out.String())
		}
		assert.NotContains(t, out.String(), "NaN")
		assert.NotContains(t, out.String(), "%!")
	}
}

// Water is the measure: its own line reads one, and no solution carries more heat.
func TestWaterIsTheMeasure(t *testing.T) {
	var out, errs bytes.Buffer
	assert.Zero(t, run(nil, &out, &errs), errs.String())
	for line := range strings.SplitSeq(out.String(), "\n") {
		if f := strings.Fields(line); strings.HasPrefix(line, "water ") {
			assert.Equal(t, []string{"1.00", "1.000", "1.00"}, []string{f[5], f[6], f[10]}, line)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, args := range [][]string{{"-protect", "10"}, {"-protect", "NaN"}, {"-tube", "no such tube"}, {"-heat", "-1e99"}, {"-supply", "900"}, {"-length", "NaN"}, {"surplus"}, {"-nonsense"}} {
		var out, errs bytes.Buffer
		assert.Equal(t, 2, run(args, &out, &errs), args)
		assert.NotContains(t, out.String(), "NaN", args)
	}
}

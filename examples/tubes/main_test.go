package main

import (
	"bytes"
	"strings"
	"testing"

	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
)

// Every series of the catalogue prints one line per tube.
func TestEverySeries(t *testing.T) {
	for _, s := range pipe.AllSeries() {
		var out, errs bytes.Buffer
		assert.Zero(t, run([]string{"-series", string(s)}, &out, &errs), errs.String())
		tubes, err := s.Tubes()
		assert.NoError(t, err)
		assert.Equal(t, len(tubes)+7, strings.Count(out.String(), "\n"), "%s", out.String())
		assert.NotContains(t, out.String(), "NaN")
	}
}

func TestRefused(t *testing.T) {
	for _, args := range [][]string{{"-series", "EN 0"}, {"-supply", "900"}, {"-gradient", "-100"}, {"surplus"}, {"-nonsense"}} {
		var out, errs bytes.Buffer
		assert.NotZero(t, run(args, &out, &errs), args)
		assert.NotEmpty(t, errs.String(), args)
	}
}

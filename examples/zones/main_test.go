package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMinimumIsKeptInEveryCase(t *testing.T) {
	for _, args := range [][]string{nil, {"-least", "14"}, {"-glycol", "30", "-temperature", "20"}} {
		var stdout, stderr strings.Builder
		assert.Equal(t, 0, run(args, &stdout, &stderr), stderr.String())
		out := stdout.String()
		assert.Equal(t, 7, strings.Count(out, " kept"), out)
		assert.NotContains(t, out, "NOT KEPT")
	}
}

func TestUnusable(t *testing.T) {
	var stdout, stderr strings.Builder
	assert.Equal(t, 1, run([]string{"-least", "400"}, &stdout, &stderr), "no bypass can do that")
	assert.Equal(t, 1, run([]string{"-glycol", "90"}, &stdout, &stderr))
	assert.Equal(t, 2, run([]string{"more"}, &stdout, &stderr))
	assert.Equal(t, 2, run([]string{"-nonsense"}, &stdout, &stderr))
}

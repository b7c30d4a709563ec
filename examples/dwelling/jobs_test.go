package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// assessed is what a test reads back from the -json output.
type assessed struct {
	Findings []struct {
		Part, Rule, Subject, Verdict, Danger string
		Remedy                               *struct {
			None    bool
			Changes []struct{ What string }
		}
	}
	Left *int `json:"not_met_after_remedies"`
}

func assessJob(t *testing.T, name string) (int, assessed) {
	t.Helper()
	status, out, report := output(t, "-json", filepath.Join("jobs", name))
	require.Empty(t, report)
	var a assessed
	require.NoError(t, json.Unmarshal([]byte(out), &a))
	return status, a
}

// The installations beside the program are complete: everything calculated is
// met, except in the one that shows what goes wrong.
func TestInstallations(t *testing.T) {
	files, err := os.ReadDir("jobs")
	require.NoError(t, err)
	n := 0
	for _, f := range files {
		if filepath.Ext(f.Name()) != ".json" || f.Name() == "faulty.json" {
			continue
		}
		n++
		t.Run(f.Name(), func(t *testing.T) {
			status, a := assessJob(t, f.Name())
			assert.Equal(t, allMet, status)
			assert.Greater(t, len(a.Findings), 35)
			text, err := os.ReadFile(filepath.Join("jobs", f.Name()))
			require.NoError(t, err)
			assert.Contains(t, string(text), "all data invented")
		})
	}
	assert.GreaterOrEqual(t, n, 6)
}

// Every fault is found, has a remedy that was tried, and together they cure all.
func TestFaultyInstallation(t *testing.T) {
	status, a := assessJob(t, "faulty.json")
	assert.Equal(t, notMet, status)
	rules := map[string]bool{}
	for _, f := range a.Findings {
		if f.Verdict != "not met" {
			continue
		}
		rules[f.Rule] = true
		require.NotNil(t, f.Remedy, f.Rule)
		assert.False(t, f.Remedy.None, f.Rule)
		assert.NotEmpty(t, f.Remedy.Changes, f.Rule)
	}
	assert.GreaterOrEqual(t, len(rules), 40)
	require.NotNil(t, a.Left)
	assert.Zero(t, *a.Left)
	for _, rule := range []string{ // one of each kind of fault
		"the circulator overcomes the losses at the design flow, hot water",
		"the unit's output covers the heat of all circuits at the design temperature",
		"an air vent at every high point",
		"a strainer stands in the return to the unit",
		"plastic tube has a layer that keeps oxygen out",
		"the unit keeps its least flow whatever circuits are shut",
		"the content that always circulates is at least what the unit asks for",
		"the water ends the defrost above the unit's lowest temperature",
		"the loss behind the valve is small against its set pressure",
		"nothing between a heat source and its relief valve can close or block, automatic valves included",
		"the backflow preventer of the filling link protects against the circuit's fluid category",
		"the vessel takes expansion and reserve between its pre-charge and the final pressure",
		"the water is out before the first ice",
		"a drain valve at the low point",
		"every leg outdoors has a fall",
		"the circulator of the mixing group overcomes the losses at its design flow",
		"the mixing valve rules its flow",
		"the limiter of the floors is set to no more than screed and covering stand",
		"the circulator of the mixing group overcomes the losses at its design flow",
		"the mixing valve rules its flow",
		"the limiter of the floors is set to no more than screed and covering stand",
		"the outlet of the drain valve stands clear of ground, snow and ice",
		"air vents outdoors are worked by hand",
		"one charge gives the mixed water that is asked for",
		"set pressure at most the rated pressure of the cylinder",
		"nothing that can shut, clog or close stands between relief valve and cylinder",
		"a cut-out that does not reset itself stops the source",
		"tundish near the valve",
		"stored water hot enough",
	} {
		assert.True(t, rules[rule], rule)
	}
}

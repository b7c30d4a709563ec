package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
)

// remedied assesses a job with one fault, applies the remedies and demands that
// nothing is left and the ends of all routes stayed where they are.
func remedied(t *testing.T, j *Job, rule string) (*Remedy, *Job) {
	t.Helper()
	s := sheetOf(t, j)
	require.Equal(t, hydronics.NotMet, verdict(t, s, rule))
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Zero(t, after.Count(hydronics.NotMet))
	require.Len(t, cured.Routes, len(j.Routes))
	for i := range j.Routes {
		assert.Equal(t, j.Routes[i].Start, cured.Routes[i].Start)
		assert.Equal(t, j.Routes[i].end(), cured.Routes[i].end())
	}
	for i := range s.Findings {
		if f := &s.Findings[i]; f.Rule == rule && f.Remedy != nil {
			return f.Remedy, cured
		}
	}
	t.Fatal("no remedy")
	return nil, nil
}

// A leg of 4 m that rises by 5 mm needs 20 mm for 1 in 200: its upper end goes up by
// 20 mm, the next whole step, and nothing else moves since the next leg rises by more.
func TestRemedyOfTheFall(t *testing.T) {
	j := load(t, "demo.json")
	require.InDelta(t, 4, j.Routes[0].Stretches[1].To[0]-j.Routes[0].Stretches[0].To[0], 1e-12)
	j.Routes[0].Stretches[1].To[2] = j.Routes[0].Stretches[0].To[2] + 0.005
	r, cured := remedied(t, j, ruleFall)
	require.Len(t, r.Changes, 1)
	assert.Contains(t, r.Changes[0].What, "raise the point at (4.4, 0) m")
	assert.InDelta(t, j.Routes[0].Stretches[0].To[2]+0.03, cured.Routes[0].Stretches[1].To[2], 1e-9, "whole centimetres, more than 20 mm over 4.00005 m")
	assert.InDelta(t, 0.025, float64(r.Changes[0].Value), 1e-9)
}

// A level leg rises away from the drain valve.
func TestRemedyOfALevelLeg(t *testing.T) {
	j := load(t, "demo.json")
	back := &j.Routes[len(j.Routes)-1]
	n := len(back.Stretches)
	require.True(t, holds(&back.Stretches[n-2], drainThermostatic))
	back.Stretches[n-3].To[2] = back.Stretches[n-2].To[2] // from the wall to the low point
	_, cured := remedied(t, j, ruleFall)
	after := cured.Routes[len(cured.Routes)-1].Stretches
	assert.Greater(t, after[n-3].To[2]-after[n-2].To[2], 0.02)
}

// Where the upper end is the unit's connection, the lower one goes down.
func TestRemedyAtTheUnit(t *testing.T) {
	j := load(t, "demo.json")
	first := &j.Routes[0]
	first.Start[2] = first.Stretches[0].To[2] + 0.001
	r, cured := remedied(t, j, ruleFall)
	assert.Contains(t, r.Changes[0].What, "lower the point")
	assert.Less(t, cured.Routes[0].Stretches[0].To[2], first.Stretches[0].To[2])
}

// A drain valve too near the ground goes up with its low point, not with the unit.
func TestRemedyOfALowOutlet(t *testing.T) {
	j := load(t, "demo.json")
	r := &j.Routes[0]
	r.Stretches[0].To[2] = 0.11
	remedy, cured := remedied(t, j, ruleOutlet)
	require.Len(t, remedy.Changes, 1)
	assert.InDelta(t, 0.04, float64(remedy.Changes[0].Value), 1e-9)
	assert.InDelta(t, 0.15, cured.Routes[0].Stretches[0].To[2], 1e-9)
}

// Two drain valves side by side: one low point moves along its tube.
func TestRemedyOfTheSpacing(t *testing.T) {
	j := load(t, "demo.json")
	back := &j.Routes[len(j.Routes)-1]
	n := len(back.Stretches)
	to := j.Routes[0].Stretches[0].To
	back.Stretches[n-2].To = [3]float64{to[0] + 0.05, to[1] + 0.02, back.Stretches[n-2].To[2]}
	j.Routes[0].Stretches[0].To[2] = back.Stretches[n-2].To[2]
	remedy, cured := remedied(t, j, ruleSpacing)
	require.Len(t, remedy.Changes, 1)
	assert.Contains(t, remedy.Changes[0].What, "move the low point with its drain valve")
	a := cured.Routes[0].Stretches[0].To
	b := cured.Routes[len(cured.Routes)-1].Stretches[n-2].To
	assert.GreaterOrEqual(t, distance(a, b), 0.10)
}

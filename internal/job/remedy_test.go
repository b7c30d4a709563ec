package job

import (
	"math"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
)

func load(t testing.TB, name string) *Job {
	t.Helper()
	data, err := os.ReadFile("../../examples/dwelling/" + name)
	require.NoError(t, err)
	j, err := Decode(data)
	require.NoError(t, err)
	return j
}

func TestCloneSharesNothing(t *testing.T) {
	j := load(t, "demo.json")
	c := clone(j)
	assert.Empty(t, cmp.Diff(j, c, cmpopts.EquateNaNs()))
	c.Routes[0].Stretches[0].Devices[0].Kv = 1
	c.Routes[0].Insulation.Thickness = 1
	c.Cylinder.Potable.Set = 1
	c.Cylinder.ColdFeed[0] = "strainer"
	assert.Empty(t, cmp.Diff(load(t, "demo.json"), j, cmpopts.EquateNaNs()))
}

// No trial of any kind gets past the guard with a protection gone.
func TestProtectionIsKept(t *testing.T) {
	for name, change := range map[string]func(*Job){
		"relief valve set higher":            func(j *Job) { j.Relief.Set *= 1.01 },
		"cylinder's relief valve set higher": func(j *Job) { j.Cylinder.Potable.Set *= 1.01 },
		"stored colder":                      func(j *Job) { j.Cylinder.Stored -= 1 },
		"colder tap":                         func(j *Job) { j.Cylinder.Demand.Outlet -= 1 },
		"no cut-out":                         func(j *Job) { j.Heaters[0].CutOut = math.NaN() },
		"cut-out set higher":                 func(j *Job) { j.Heaters[0].CutOut += 1 },
		"no thermostat":                      func(j *Job) { j.Cylinder.Thermostat = math.NaN() },
		"no temperature relief":              func(j *Job) { j.Cylinder.ReliefTemp = math.NaN() },
		"no relief valve in the feed":        func(j *Job) { j.Cylinder.ColdFeed = without(j.Cylinder.ColdFeed, "relief valve") },
		"no drain valve":                     func(j *Job) { j.Routes[0].Stretches[0].Devices = nil },
		"no closing valve":                   func(j *Job) { j.Routes[0].Stretches[3].Devices = nil },
		"no strainer":                        func(j *Job) { j.Routes[5].Stretches[0].Devices = nil },
		"limiters set lower on paper":        func(j *Job) { j.Liquid.Hottest -= 5 },
		"no cylinder":                        func(j *Job) { j.Cylinder = nil },
	} {
		j := load(t, "demo.json")
		c := clone(j)
		require.True(t, keepsProtection(j, c))
		change(c)
		assert.False(t, keepsProtection(j, c), name)
	}
}

// The remedies together leave every protection in place and nothing unmet.
func TestRemediesOfTheFaultyInstallation(t *testing.T) {
	j := load(t, "jobs/faulty.json")
	s, err := Assess(j)
	require.NoError(t, err)
	before := clone(j)
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Empty(t, cmp.Diff(before, j, cmpopts.EquateNaNs()), "the job itself is left alone")
	assert.True(t, keepsProtection(j, cured))
	assert.Zero(t, after.Count(hydronics.NotMet))
	again, err := Assess(cured)
	require.NoError(t, err)
	assert.Equal(t, len(after.Findings), len(again.Findings))
	checkIDs(t, after)
}

// What stands wrongly about the relief valve of the cylinder is moved, and a
// branch to cold taps is kept.
func TestRemediesOfTheColdFeed(t *testing.T) {
	j := load(t, "demo.json")
	j.Cylinder.Potable.Shuts = true
	j.Cylinder.ColdFeed = append(j.Cylinder.ColdFeed, "cold branch")
	s, err := Assess(j)
	require.NoError(t, err)
	require.Equal(t, 2, s.Count(hydronics.NotMet))
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Zero(t, after.Count(hydronics.NotMet))
	assert.Contains(t, cured.Cylinder.ColdFeed, "cold branch")
	assert.Contains(t, cured.Cylinder.ColdFeed, "relief valve")
}

// Where only a higher relief setting would help, there is no remedy.
func TestNoUnsafeRemedy(t *testing.T) {
	j := load(t, "demo.json")
	j.Distribution.Highest = 20 // 2 bar of static pressure under a valve of 3 bar
	s, err := Assess(j)
	require.NoError(t, err)
	assert.NotEmpty(t, s.Vessel.NoVessel)
	Remedies(j, s)
	found := false
	for i := range s.Findings {
		if f := &s.Findings[i]; f.Verdict == hydronics.NotMet {
			found = true
			require.NotNil(t, f.Remedy)
			assert.True(t, f.Remedy.None, f.Rule)
		}
	}
	assert.True(t, found)
}

// What is there already is judged and left alone.
func TestExistingPartsStay(t *testing.T) {
	j := load(t, "jobs/glycol.json")
	j.Cylinder.Exists, j.Vessel.Exists = true, true
	for i := range j.Routes {
		j.Routes[i].Exists = true
	}
	j.Cylinder.Demand.Volume = 0.5             // more than any charge gives
	j.Vessel.Nominal = 0.008                   // too small
	j.Unit.HotWaterFlow *= 1.6                 // too much for tubes and circulator
	j.Distribution.Circuits[0].Barrier = false // this one can be cured
	s, err := Assess(j)
	require.NoError(t, err)
	require.GreaterOrEqual(t, s.Count(hydronics.NotMet), 4)
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Less(t, after.Count(hydronics.NotMet), s.Count(hydronics.NotMet))
	assert.Equal(t, j.Cylinder.Content, cured.Cylinder.Content)
	assert.Equal(t, j.Vessel.Nominal, cured.Vessel.Nominal)
	for i := range j.Routes {
		assert.Equal(t, j.Routes[i].Tube, cured.Routes[i].Tube)
	}
}

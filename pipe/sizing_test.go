package pipe_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCriteria(t *testing.T) {
	for _, c := range pipe.Criteria() {
		found, err := pipe.CriterionNamed(c.Name)
		require.NoError(t, err)
		assert.Equal(t, c, found, "the name stands twice")
		for _, factor := range []float64{0.5, 2} {
			l := pipe.Loss{Velocity: -c.Limit * factor, Gradient: -c.Limit * factor, Regime: pipe.Turbulent}
			f := c.Judge(l)
			good := (factor < 1) == (c.Bound == hydronics.AtMost)
			assert.Equal(t, good, f.Verdict != hydronics.NotMet, "%s at %g of its limit: %s", c.Name, factor, f.Verdict)
			assert.False(t, f.Verdict == hydronics.Met && !c.Source.Provenance.Confirmed(), c.Name)
		}
	}
	_, err := pipe.CriterionNamed("fast enough")
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	assert.Equal(t, hydronics.SeeOnSite, pipe.Criterion{Name: "unset"}.Judge(pipe.Loss{}).Verdict)
}

// Just under its limit a gradient is met only within the uncertainty.
func TestCriterionUncertainty(t *testing.T) {
	c, err := pipe.CriterionNamed("heating, low pump power")
	require.NoError(t, err)
	assert.Equal(t, hydronics.MetWithinUncertainty, c.Judge(pipe.Loss{Gradient: 149, Regime: pipe.Turbulent}).Verdict)
	assert.Equal(t, hydronics.MetUnconfirmed, c.Judge(pipe.Loss{Gradient: 140, Regime: pipe.Turbulent}).Verdict)
	assert.Equal(t, hydronics.MetWithinUncertainty, c.Judge(pipe.Loss{Gradient: 130, Regime: pipe.Transitional}).Verdict)
}

// The tube selected keeps the criteria, and the next smaller one does not.
func TestSelectIsSmallest(t *testing.T) {
	limit, err := pipe.CriterionNamed("heating, low pump power")
	require.NoError(t, err)
	for _, series := range []pipe.Series{pipe.EN1057, pipe.EN10255Medium, pipe.B88L} {
		tubes, err := series.Tubes()
		require.NoError(t, err)
		for flow := 1.0; flow < 100; flow *= 1.3 {
			s := pipe.Sizing{Flow: flow * hydronics.LitrePerMinute, Liquid: water(t, 35), Criteria: []pipe.Criterion{limit}}
			chosen, err := s.Select(tubes)
			require.NoError(t, err)
			assert.True(t, chosen.Suits())
			choices, err := s.Choices(tubes)
			require.NoError(t, err)
			for _, c := range choices {
				assert.False(t, c.Suits() && c.Tube.Bore() < chosen.Tube.Bore(), "%s would do as well as %s", c.Tube.Designation, chosen.Tube.Designation)
			}
		}
	}
}

// What is known from memory alone is never chosen silently.
func TestSizesFromMemory(t *testing.T) {
	tubes, err := pipe.ENISO22391S5.Tubes()
	require.NoError(t, err)
	s := pipe.Sizing{Flow: 2 * hydronics.LitrePerMinute, Liquid: water(t, 35)}
	_, err = s.Select(tubes)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	_, err = pipe.NextSize(tubes, 0.012)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	s.Unconfirmed = true
	c, err := s.Select(tubes)
	require.NoError(t, err)
	assert.Equal(t, hydronics.FromMemory, c.Tube.Source.Provenance)
}

func TestNextSize(t *testing.T) {
	tubes, err := pipe.EN10255Medium.Tubes()
	require.NoError(t, err)
	for _, tube := range tubes[1:] { // the walls of DN 6 are from memory
		same, err := pipe.NextSize(tubes, tube.Bore())
		require.NoError(t, err)
		assert.Equal(t, tube, same)
	}
	_, err = pipe.NextSize(tubes, 0.2)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
}

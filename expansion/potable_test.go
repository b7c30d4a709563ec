package expansion_test

import (
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var testPot = expansion.Potable{Volume: 0.2, Cold: 10, Hot: 65, Supply: 4e5, ReliefSet: 8e5, Rules: expansion.PotablePractice()}

func TestPotableRoundTrip(t *testing.T) {
	for _, supply := range []hydronics.Gauge{2 * hydronics.Bar, 3 * hydronics.Bar, 4.5 * hydronics.Bar} {
		for _, hot := range []float64{45, 60, 90} {
			p := testPot
			p.Supply, p.Hot = supply, hot
			z, err := p.Size()
			require.NoError(t, err)
			v := expansion.Vessel{Nominal: z.Nominal, Precharge: z.Precharge}
			got, err := p.PressureHot(v)
			require.NoError(t, err)
			assert.InDelta(t, float64(z.Final), float64(got), 1)
			findings, err := p.Judge(v)
			require.NoError(t, err)
			for _, f := range findings {
				assert.NotEqual(t, hydronics.NotMet, f.Verdict, "%s: %g against %g", f.Rule, f.Value, f.Limit)
			}
			small := v
			small.Nominal *= 0.9
			findings, err = p.Judge(small)
			require.NoError(t, err)
			assert.Equal(t, hydronics.NotMet, findings[1].Verdict)
			assert.Equal(t, hydronics.NotMet, findings[3].Verdict)
		}
	}
}

// The 80 % and 75 % rules: 6 bar allows 4.8 and 4.5 bar.
func TestSupplyRule(t *testing.T) {
	for _, c := range []struct {
		rules  expansion.PotableRules
		supply hydronics.Gauge
		want   hydronics.Verdict
	}{
		{expansion.PotablePractice(), 4.75 * hydronics.Bar, hydronics.Met},
		{expansion.PotablePractice(), 4.85 * hydronics.Bar, hydronics.NotMet},
		{expansion.PotablePracticeAustria(), 4.45 * hydronics.Bar, hydronics.Met},
		{expansion.PotablePracticeAustria(), 4.55 * hydronics.Bar, hydronics.NotMet},
	} {
		p := testPot
		p.ReliefSet, p.Supply, p.Rules = 6*hydronics.Bar, c.supply, c.rules
		findings, err := p.Judge(expansion.Vessel{Nominal: 0.05, Precharge: c.supply - 0.2*hydronics.Bar})
		require.NoError(t, err)
		assert.Equal(t, c.want, findings[0].Verdict, "%s at %g", c.rules.Name, c.supply)
	}
	p := testPot
	p.ReliefSet = 4.2 * hydronics.Bar
	_, err := p.Size()
	assert.ErrorIs(t, err, hydronics.ErrNoSolution, "no room between reducer and relief valve")
}

// A vessel that is waterlogged or absent: the valve lifts after a few kelvins and
// spills nearly the whole expansion, every time.
func TestWithoutVessel(t *testing.T) {
	w, err := testPot.WithoutVessel()
	require.NoError(t, err)
	z, err := testPot.Size()
	require.NoError(t, err)
	assert.True(t, w.Lifts)
	assert.Greater(t, w.LiftsAt, testPot.Cold)
	assert.Less(t, w.LiftsAt, testPot.Cold+5)
	assert.Less(t, w.Discharged, z.Expansion)
	assert.Greater(t, w.Discharged, 0.95*z.Expansion)
	little := testPot
	little.Hot = 11.5
	w, err = little.WithoutVessel()
	require.NoError(t, err)
	assert.False(t, w.Lifts)
	assert.Zero(t, w.Discharged)
}

// Findings name rules that are wanted, and the content's uncertainty can take a
// verdict from met to met only within the uncertainty.
func TestJudgeUncertainty(t *testing.T) {
	s := house()
	z, err := s.Size()
	require.NoError(t, err)
	v := expansion.Vessel{Nominal: z.Nominal * 1.05, Precharge: z.Precharge}
	w, err := s.Window(v, s.FillTemperature)
	require.NoError(t, err)
	findings, err := s.Judge(v, w.Least)
	require.NoError(t, err)
	assert.Equal(t, hydronics.Met, findings[0].Verdict)
	s.ContentUncertainty = 0.2
	findings, err = s.Judge(v, w.Least)
	require.NoError(t, err)
	assert.Equal(t, hydronics.MetWithinUncertainty, findings[0].Verdict)
	assert.Positive(t, findings[0].Uncertainty)
	assert.Positive(t, findings[5].Uncertainty)

	s = house()
	s.Rules = expansion.EN12828SmallVessels()
	s.Content = 0.08
	z, err = s.Size()
	require.NoError(t, err)
	assert.Less(t, z.Nominal, 15*hydronics.Litre)
	v = expansion.Vessel{Nominal: z.Nominal, Precharge: z.Precharge}
	w, err = s.Window(v, s.FillTemperature)
	require.NoError(t, err)
	findings, err = s.Judge(v, w.Most)
	require.NoError(t, err)
	assert.Equal(t, hydronics.MetUnconfirmed, findings[0].Verdict, "the 20 % reserve is from memory")
}

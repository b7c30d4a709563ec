package job

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// Every antifreeze that a job file may name: nothing but the glycols is ever judged
// better than its sources allow, and every hazard has a requirement of its own.
func TestEveryAntifreeze(t *testing.T) {
	shape := jobShape()
	liquid := shape.fields[shape.named["liquid"]].value.object
	kinds := liquid.fields[liquid.named["kind"]].value.one
	require.Greater(t, len(kinds), 10)
	for _, kind := range kinds[1:] { // after water
		solute, known := fluid.ParseSolute(kind)
		require.True(t, known, kind)
		j := load(t, "jobs/alcohol-floors.json")
		l, err := solute.ByFreezingPoint(-16)
		require.NoError(t, err)
		j.Site.Coldest = -15
		j.Liquid.Kind, j.Liquid.Mass = kind, l.MassFraction()
		s := sheetOf(t, j)
		assert.Equal(t, hazards[solute], s.Hazards)
		verdicts := map[string]hydronics.Verdict{}
		for i := range s.Findings {
			verdicts[s.Findings[i].ID] = s.Findings[i].Verdict
		}
		glycol := solute == fluid.PropyleneGlycol || solute == fluid.EthyleneGlycol
		for _, id := range []string{"pressure/antifreeze-temperature/outdoor-unit", "pressure/antifreeze-temperature/back-up-heater"} {
			v, judged := verdicts[id]
			assert.Equal(t, !glycol, judged, "%s %s", kind, id)
			if judged {
				assert.Equal(t, hydronics.MetUnconfirmed, v, "%s %s", kind, id)
			}
		}
		_, fire := verdicts["pressure/antifreeze-fire"]
		_, rust := verdicts["pressure/antifreeze-corrosion"]
		assert.Equal(t, slices.Contains(s.Hazards, flammable), fire, kind)
		assert.Equal(t, slices.Contains(s.Hazards, corrosive), rust, kind)
		if !glycol {
			assert.NotEqual(t, hydronics.Met, verdicts["pressure/filling-backflow"], kind)
		}
		if slices.Contains(s.Hazards, flammable) {
			assert.Equal(t, hydronics.MetUnconfirmed, verdicts["pressure/inlet-boiling"], kind)
		}
		ice := hydronics.Met
		if u, err := l.Uncertainty(); assert.NoError(t, err) && !u.Source.Provenance.Confirmed() {
			ice = hydronics.MetUnconfirmed
		}
		assert.Equal(t, ice, verdicts["frost/antifreeze-first-ice"], kind)
	}
}

// Beyond the end of the figures there is no sheet, and the fault names the keys.
func TestAlcoholInAWarmCircuit(t *testing.T) {
	j := load(t, "jobs/alcohol-floors.json")
	j.Unit.Supply, j.Liquid.Hottest = 45, 70
	_, err := Assess(j)
	var faults Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 2)
	assert.Equal(t, Fault{"liquid.hottest_c", "70", "at most 40 °C with ethanol: beyond it there are no figures"}, faults[0])
	assert.Equal(t, "outdoor_unit.supply_c", faults[1].Path)
	j.Unit.Supply, j.Liquid.Hottest = 40, 40
	_, err = Assess(j)
	require.NoError(t, err)
}

// A heater that is too hot for the alcohol has a remedy: another liquid.
func TestRemedyOfAlcoholTooWarm(t *testing.T) {
	j := load(t, "jobs/alcohol-floors.json")
	j.Heaters[0].CutOut = 80
	s := sheetOf(t, j)
	require.Equal(t, 1, s.Count(hydronics.NotMet))
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Zero(t, after.Count(hydronics.NotMet))
	assert.Equal(t, "propylene glycol", cured.Liquid.Kind)
	assert.LessOrEqual(t, after.FreezingPoint, s.FreezingPoint)
}

// Vapour pressures of the pure alcohols at 40 °C: 17.9 kPa of ethanol, 35.4 kPa of
// methanol (CRC Handbook of Chemistry and Physics, from memory). The bound lies
// above them, and above that of water.
func TestVapourOfAlcohols(t *testing.T) {
	for _, c := range []struct {
		solute fluid.Solute
		pure   float64
	}{{fluid.Ethanol, 17.9e3}, {fluid.Methanol, 35.4e3}} {
		l, err := c.solute.ByMass(0.3)
		require.NoError(t, err)
		p := plant{liquid: l}
		v, source, err := p.vapourPressure(40)
		require.NoError(t, err)
		assert.InEpsilon(t, c.pure, v, 0.03)
		assert.Greater(t, v, c.pure)
		assert.False(t, source.Provenance.Confirmed())
		water, err := fluid.SaturationPressure(40)
		require.NoError(t, err)
		assert.Greater(t, v, water)
	}
}

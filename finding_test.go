package hydronics_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/hydronics"
	"github.com/stretchr/testify/assert"
)

func TestVerdicts(t *testing.T) {
	law := hydronics.Source{Text: "a law", Provenance: hydronics.Original}
	custom := hydronics.Source{Provenance: hydronics.CommonPractice}
	for _, c := range []struct {
		bound                     hydronics.Bound
		value, limit, uncertainty float64
		source                    hydronics.Source
		want                      hydronics.Verdict
	}{
		{hydronics.AtMost, 1, 2, 0, law, hydronics.Met},
		{hydronics.AtMost, 2, 2, 0, law, hydronics.Met},
		{hydronics.AtMost, 1, 2, 1.5, law, hydronics.MetWithinUncertainty},
		{hydronics.AtMost, 3, 2, 5, law, hydronics.NotMet},
		{hydronics.AtLeast, 3, 2, 0.5, law, hydronics.Met},
		{hydronics.AtLeast, 1, 2, 0, law, hydronics.NotMet},
		{hydronics.AtLeast, 3, 2, 0, custom, hydronics.MetUnconfirmed},
		{hydronics.AtLeast, 3, 2, 0, hydronics.Source{}, hydronics.MetUnconfirmed},
		{hydronics.AtLeast, math.NaN(), 2, 0, law, hydronics.NotMet},
		{hydronics.AtLeast, 3, math.NaN(), 0, law, hydronics.NotMet},
		{hydronics.AtLeast, 3, 2, math.NaN(), law, hydronics.MetWithinUncertainty},
		{hydronics.Holds, 1, 1, 0, law, hydronics.Met},
		{hydronics.Holds, 0, 1, 0, law, hydronics.NotMet},
		{0, 1, 1, 0, law, hydronics.NotMet},
	} {
		f := hydronics.Finding{Bound: c.bound, Value: c.value, Limit: c.limit, Uncertainty: c.uncertainty, Source: c.source}.Judge()
		assert.Equal(t, c.want, f.Verdict, "%+v", c)
	}
	assert.Equal(t, hydronics.SeeOnSite, hydronics.OnSite("look", "", law, "").Verdict)
	assert.Equal(t, hydronics.NotMet, hydronics.Statement("a valve", "", false, law, "").Verdict)
	assert.Equal(t, hydronics.NotMet, hydronics.Finding{}.Verdict, "a finding nobody judged is not a good one")
}

func TestProvenanceWords(t *testing.T) {
	for p := hydronics.Original; p <= hydronics.FromMemory; p++ {
		back, ok := hydronics.ParseProvenance(p.String())
		assert.True(t, ok)
		assert.Equal(t, p, back)
	}
	_, ok := hydronics.ParseProvenance("unknown")
	assert.False(t, ok)
	assert.False(t, hydronics.FromMemory.Confirmed())
	assert.True(t, hydronics.ComputedApart.Confirmed())
	assert.Equal(t, "unknown", hydronics.Provenance(200).String())
	assert.Equal(t, "not met", hydronics.Verdict(200).String())
}

// EN 806-3 wants at most 2.0 m/s in distribution pipes; 1.6 m/s is calculated
// with an uncertainty of 0.1 m/s.
func ExampleFinding_Judge() {
	f := hydronics.Finding{
		Rule: "velocity in the distribution pipe", Quantity: "velocity", Unit: "m/s",
		Bound: hydronics.AtMost, Value: 1.6, Limit: 2.0, Uncertainty: 0.1,
		Source: hydronics.Source{Text: "EN 806-3:2006", Provenance: hydronics.SecondHand},
	}.Judge()
	fmt.Printf("%s, margin %.1f %s, %s\n", f.Verdict, f.Margin(), f.Unit, f.Source)
	// Output: met, margin 0.4 m/s, attributed to EN 806-3:2006
}

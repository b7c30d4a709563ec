package dhw

import (
	"example.com/hydronics"
	"example.com/hydronics/expansion"
)

// Supply returns the cold water pressure at the cylinder at rest, in Pa above
// the atmosphere: the reducer's setting, or the mains pressure without one.
func (s SetPressure) Supply() hydronics.Gauge {
	if s.Reducer != 0 {
		return s.Reducer
	}
	return s.Mains
}

// Vessel returns the expansion vessel of a closed cylinder of a content in m³
// that is heated from cold to hot, both in °C: [expansion.Potable.Size] with the
// supply and the relief valve of s and the usual margins. For hot take the
// setting of the cut-out, the hottest that the controls allow. Without a vessel
// the expansion leaves through the relief valve at every heating-up, until scale
// keeps that from closing, or from opening.
//
// The limits and errors are those of [expansion.Potable]: a supply pressure too
// near the relief valve has [hydronics.ErrNoSolution].
func (s SetPressure) Vessel(content, cold, hot float64) (expansion.PotableSizing, error) {
	return expansion.Potable{Volume: content, Cold: cold, Hot: hot, Supply: s.Supply(),
		ReliefSet: s.Set, Rules: expansion.PotablePractice()}.Size()
}

package fluid

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// Two definitions of volume percent are in use, both at 20 °C:
//
//   - of the volumes before mixing: the recipe of someone who pours. ByVolume,
//     VolumeFraction.
//   - antifreeze volume, as it was before mixing, per volume of the mixture: that
//     of alcohol tables and assays. ByMixtureVolume, MixtureVolumeFraction.
//
// Mixing shrinks the volume, so the second gives the larger figure for the same
// liquid: by up to 0.013 for the glycols, 0.024 for the alcohols.
const mixingTemperature = 20.0 // °C

// waterDensity20 is the density of water at 20 °C in kg/m³ that goes with the
// densities of the pure antifreezes (CRC Handbook).
const waterDensity20 = 998.2

// ByVolume returns the solution made from phi parts by volume of pure antifreeze
// and 1 - phi parts of water, both measured at 20 °C before they are mixed. For
// the other definition in use, antifreeze volume per volume of mixture, see
// [Solute.ByMixtureVolume].
//
// phi runs from 0 to the mass limit of the solute; a dissolved salt, or ammonia,
// has no volume of its own and is refused. Outside it returns the zero Liquid and
// an error matching [hydronics.ErrRange].
// Source: definition, with the densities at 20 °C of the CRC Handbook.
func (s Solute) ByVolume(phi float64) (Liquid, error) {
	const fn = "fluid.ByVolume"
	if err := s.wantVolume(fn); err != nil {
		return Liquid{}, err
	}
	m := &solutions[s]
	limit := volumeFraction(m.maxMass/100, m.pure)
	if !(phi >= 0 && phi <= limit) {
		return Liquid{}, hydronics.Within(fn, s.String()+" volume fraction", "", phi, 0, limit, melinder2010)
	}
	return s.ByMass(math.Min(massFraction(phi, m.pure), m.maxMass/100)) // at the limit, rounding
}

// ByMixtureVolume returns the solution of which one cubic metre at 20 °C was made
// with phi cubic metres of pure antifreeze at 20 °C. Range and errors are as for
// [Solute.ByVolume].
// Source: definition, with the densities at 20 °C of the CRC Handbook (pure) and of
// Melinder 2010 (mixture).
func (s Solute) ByMixtureVolume(phi float64) (Liquid, error) {
	const fn = "fluid.ByMixtureVolume"
	if err := s.wantVolume(fn); err != nil {
		return Liquid{}, err
	}
	max := solutions[s].maxMass / 100
	limit := s.mixtureVolumeFraction(max)
	if !(phi >= 0 && phi <= limit) {
		return Liquid{}, hydronics.Within(fn, s.String()+" volume fraction of the mixture", "", phi, 0, limit, melinder2010)
	}
	w, err := numeric.Root(func(w float64) float64 { return s.mixtureVolumeFraction(w) - phi }, 0, max, 1e-12)
	if err != nil {
		return Liquid{}, fmt.Errorf("%s: %w", fn, err)
	}
	return s.ByMass(w)
}

// VolumeFraction returns the inverse of [Solute.ByVolume]: the share of the
// antifreeze in the volumes before mixing. It is 0 for water; for salts, ammonia
// and the zero Liquid it is NaN with an error matching [hydronics.ErrRange].
// Source: definition, with the densities at 20 °C of the CRC Handbook.
func (l Liquid) VolumeFraction() (float64, error) {
	if l.IsWater() {
		return 0, nil
	}
	if err := l.solute.wantVolume("fluid.Liquid.VolumeFraction"); err != nil {
		return math.NaN(), err
	}
	return volumeFraction(l.mass, solutions[l.solute].pure), nil
}

// MixtureVolumeFraction returns the inverse of [Solute.ByMixtureVolume], with
// errors as for [Liquid.VolumeFraction].
// Source: definition, with the densities at 20 °C of the CRC Handbook (pure) and of
// Melinder 2010 (mixture).
func (l Liquid) MixtureVolumeFraction() (float64, error) {
	if l.IsWater() {
		return 0, nil
	}
	if err := l.solute.wantVolume("fluid.Liquid.MixtureVolumeFraction"); err != nil {
		return math.NaN(), err
	}
	return l.solute.mixtureVolumeFraction(l.mass), nil
}

// wantVolume refuses solutes that are not liquids of their own.
func (s Solute) wantVolume(fn string) error {
	if s.known() && solutions[s].pure != 0 {
		return nil
	}
	return fmt.Errorf("%s: %v has no volume fraction, use the mass fraction: %w", fn, s, hydronics.ErrRange)
}

// volumeFraction is the share of the volumes before mixing, for a mass fraction
// w and the density of the pure antifreeze.
func volumeFraction(w, pure float64) float64 {
	return w / pure / (w/pure + (1-w)/waterDensity20)
}

// massFraction is the inverse of volumeFraction.
func massFraction(phi, pure float64) float64 {
	return phi * pure / (phi*pure + (1-phi)*waterDensity20)
}

// mixtureVolumeFraction is antifreeze volume per mixture volume: w ρ/ρ_pure.
func (s Solute) mixtureVolumeFraction(w float64) float64 {
	return w * s.densityAt(w, mixingTemperature) / solutions[s].pure
}

package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A Method says how the expansion of the liquid is found and on which basis it
// is counted. The zero value is HotVolume: real densities, on the safe side.
type Method uint8

// The methods. The formulas of national rules hold for plain water only and
// serve to check older sheets; they know one filling temperature, their own.
const (
	// HotVolume counts the displaced water at the high temperature, ρc/ρh - 1:
	// hot water stands in the vessel.
	HotVolume Method = iota
	// ColdDisplaced counts the same mass at the filling temperature, 1 - ρh/ρc:
	// the displaced water has cooled in the vessel. It is smaller by 0.03
	// percentage points at 60 °C and by 0.18 at 100 °C.
	ColdDisplaced
	// RaccoltaR is the Italian formula (0.31 + 3.9e-4 t²) %, hot 30 to 130 °C,
	// filled at about 10 °C. Source: ISPESL/INAIL, Raccolta R, edition 2009,
	// R.3.B 4.2; the table of EN 12828 annex D as remembered is this formula, rounded.
	RaccoltaR
	// UNE is the Spanish formula (3.24 t² + 102.13 t - 2708.3)·1e-6, hot 30 to
	// 120 °C. Source: UNE 100155:2004. It lies up to 0.42 percentage points
	// below the real expansion from 4 °C (at 120 °C).
	UNE
	// USNet is the formula of the US mechanical codes, 0.00041 t - 0.0466 with t
	// in °F, net of the expansion of a steel system. It is a straight line that
	// fits from about 75 to 115 °C (guard). Source: 13 NCAC 13 .0412(d).
	USNet
)

var methodNames = [...]string{"hot volume", "cold displaced volume", "Raccolta R 2009", "UNE 100155", "US mechanical codes"}

// String returns the name of m, such as "hot volume".
func (m Method) String() string {
	if int(m) < len(methodNames) {
		return methodNames[m]
	}
	return "unknown method"
}

// Real reports whether m works from the liquid's densities, and not from a
// formula of a national rule.
func (m Method) Real() bool { return m <= ColdDisplaced }

// Fraction returns the expansion as a fraction of the content of a rigid system
// that was filled at the temperature cold and has come to the temperature hot,
// both in °C within the liquid's range. It is negative where the liquid gives
// way. The formulas of national rules ignore cold.
//
// Sources: definition, with the densities of [fluid.Liquid]; ISPESL/INAIL Raccolta R
// 2009, UNE 100155:2004 and 13 NCAC 13 .0412(d) for the formulas.
func (m Method) Fraction(l fluid.Liquid, cold, hot float64) (float64, error) {
	const fn = "expansion.Method.Fraction"
	switch m {
	case HotVolume, ColdDisplaced:
		rc, errc := l.Density(cold)
		rh, errh := l.Density(hot)
		if errc != nil || errh != nil {
			return math.NaN(), errors.Join(errc, errh)
		}
		return m.ratio(rc, rh), nil
	case RaccoltaR, UNE, USNet:
		if !l.IsWater() {
			return math.NaN(), fmt.Errorf("%s: the formula of %v holds for plain water, not for %v: %w", fn, m, l, hydronics.ErrRange)
		}
	default:
		return math.NaN(), fmt.Errorf("%s: %v: %w", fn, m, hydronics.ErrRange)
	}
	low, high, source := 30.0, 130.0, hydronics.Guard
	switch m {
	case UNE:
		high, source = 120, "UNE 100155:2004"
	case USNet:
		low, high = 75, 115
	}
	if err := hydronics.Within(fn, "hot temperature", "°C", hot, low, high, source); err != nil {
		return math.NaN(), err
	}
	switch m {
	case RaccoltaR:
		return (0.31 + 3.9e-4*hot*hot) / 100, nil
	case UNE:
		return (3.24*hot*hot + 102.13*hot - 2708.3) * 1e-6, nil
	default:
		return 0.00041*(1.8*hot+32) - 0.0466, nil
	}
}

// ratio is the expansion between two densities.
func (m Method) ratio(cold, hot float64) float64 {
	if m == ColdDisplaced {
		return 1 - hot/cold
	}
	return cold/hot - 1
}

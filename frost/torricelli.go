package frost

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
)

// Torricelli returns the time in s in which a water surface of the constant
// area (m², 1e-8 to 1e4) falls from the head from to the head to (m above the
// outlet, 100 ≥ from ≥ to ≥ 0) through a valve of the given Kv alone, without
// friction in the tube and with air following freely:
//
//	Q = Kv √(ρ g z/1 bar·1000/ρ),  t = 2 A/(Q/√z)·(√from − √to)
//
// The density cancels. For a vertical tube the area is its bore's; for a tube
// rising with the slope s over its length, the bore's area divided by s. It is a
// lower bound of the time: friction adds to it ([Column.Empty]).
// Source: E. Torricelli, De motu gravium, 1644, as in any text on hydraulics.
func Torricelli(v Vessel, from, to float64) (float64, error) {
	const fn = "frost.Torricelli"
	if !(v.Area >= 1e-8 && v.Area <= 1e4 && v.Kv >= minKv && v.Kv <= maxKv && from >= 0 && from <= 100 && to >= 0 && to <= from) {
		return math.NaN(), joined(
			hydronics.Within(fn, "area of the surface", "m²", v.Area, 1e-8, 1e4, hydronics.Guard),
			hydronics.Within(fn, "valve's Kv", "m³/h", float64(v.Kv), minKv, maxKv, hydronics.Guard),
			hydronics.Within(fn, "head at the start", "m", from, 0, 100, hydronics.Guard),
			hydronics.Within(fn, "head at the end", "m", to, 0, min(from, 100), "the head at the start"))
	}
	perRoot := float64(v.Kv) / 3600 * math.Sqrt(hydronics.StandardGravity*1000/hydronics.Bar)
	return 2 * v.Area / perRoot * (math.Sqrt(from) - math.Sqrt(to)), nil
}

// A Vessel is a water surface above a valve.
type Vessel struct {
	Area float64 // m² of the water surface, 1e-8 to 1e4
	Kv   pipe.Kv // of the open valve, m³/h at 1 bar, 1e-3 to 1e3
}

// OrificeKv returns the Kv, in m³/h at 1 bar, of a hole of the given area (m²,
// 1e-8 to 1) with the discharge coefficient cd (0.1 to 1; a sharp edge has about
// 0.6):
//
//	Q = cd A √(2 Δp/ρ)  at  Δp = 1 bar, ρ = 1000 kg/m³
//
// Source: the orifice equation, as in any text on hydraulics, at the conditions
// of Kv (IEC 60534).
func OrificeKv(area, cd float64) (pipe.Kv, error) {
	const fn = "frost.OrificeKv"
	if !(area >= 1e-8 && area <= 1 && cd >= 0.1 && cd <= 1) {
		return pipe.Kv(math.NaN()), joined(
			hydronics.Within(fn, "area of the hole", "m²", area, 1e-8, 1, hydronics.Guard),
			hydronics.Within(fn, "discharge coefficient", "", cd, 0.1, 1, hydronics.Guard))
	}
	return pipe.Kv(3600 * cd * area * math.Sqrt(2*hydronics.Bar/1000)), nil
}

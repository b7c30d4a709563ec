package dhw

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"

	"example.com/hydronics"
)

// A MixedWater is what a hot cylinder gives at the tap until it runs cold.
type MixedWater struct {
	Volume float64 // m³ of mixed water
	Drawn  float64 // m³ that left the cylinder until its outlet fell to the mixed temperature
}

// layers checks Nodes where plug flow is allowed as well.
func (c Cylinder) layers(fn string) error {
	if c.Nodes == PlugFlow {
		return nil
	}
	return count(fn, "nodes", c.Nodes, 1, MaxNodes)
}

// MixedWater returns the water of the temperature mixed that a cylinder, hot
// throughout and not heated meanwhile, gives from cold water: with hot >= mixed
// > cold, all in °C from 0 to 100. For mixed = 40 °C and cold = 10 °C that is the
// V40 of EU law, for a store of ideal layers.
//
// With x = (hot - cold)/(mixed - cold), N nodes, and P and Q the regularised
// incomplete gamma functions:
//
//	Q(N, N τ) = 1/x            gives τ, the drawn volume over the content
//	V40 = V (τ + x P(N+1, N τ))
//
// One node gives V (x - 1), the lower bound; [PlugFlow] gives V x, the upper.
// Outside the limits it returns a [hydronics.RangeError].
//
// Source: definition of V40 in Commission Regulation (EU) No 814/2013, Annex I
// (24); chain of mixed vessels with a constant flow, O. Levenspiel, Chemical
// Reaction Engineering, tanks in series.
func (c Cylinder) MixedWater(hot, mixed, cold float64) (MixedWater, error) {
	const fn = "dhw.Cylinder.MixedWater"
	err := together(volume(fn, "cylinder volume", c.Volume), c.layers(fn), water(fn, "cold water", cold),
		above(fn, "mixed water", mixed, cold), hydronics.Within(fn, "hot water", "°C", hot, mixed, maxWater, "not below the mixed water"))
	if err != nil {
		return MixedWater{}, err
	}
	x := (hot - cold) / (mixed - cold)
	if c.Nodes == PlugFlow {
		return MixedWater{c.Volume * x, c.Volume}, nil
	}
	n := float64(c.Nodes)
	nt := mathext.GammaIncRegCompInv(n, 1/x) // N τ
	m := MixedWater{c.Volume * (nt/n + x*mathext.GammaIncReg(n+1, nt)), c.Volume * nt / n}
	if err := hydronics.Within(fn, "mixed volume", "m³", m.Volume, 0, c.Volume*x, "plug flow is the most"); err != nil {
		return MixedWater{}, err
	}
	return m, nil
}

// OutletTemperature returns the temperature in °C at the outlet of a cylinder
// that was hot throughout, after a volume in m³ (0 to 100) was drawn and replaced
// by cold water, both temperatures in °C from 0 to 100:
//
//	(T - cold)/(hot - cold) = Q(N, N τ),  τ = drawn/V
//
// without heating, losses or conduction between the layers. [PlugFlow] stays hot
// until the content is drawn. Outside the limits it returns NaN and a
// [hydronics.RangeError].
//
// Source: O. Levenspiel, Chemical Reaction Engineering, tanks in series.
func (c Cylinder) OutletTemperature(drawn, hot, cold float64) (float64, error) {
	const fn = "dhw.Cylinder.OutletTemperature"
	err := together(volume(fn, "cylinder volume", c.Volume), c.layers(fn), water(fn, "cold water", cold), water(fn, "hot water", hot),
		hydronics.Within(fn, "drawn volume", "m³", drawn, 0, 100, hydronics.Guard))
	if err != nil {
		return math.NaN(), err
	}
	tau := drawn / c.Volume
	if c.Nodes == PlugFlow {
		if tau < 1 {
			return hot, nil
		}
		return cold, nil
	}
	n := float64(c.Nodes)
	return cold + (hot-cold)*mathext.GammaIncRegComp(n, n*tau), nil
}

// A DrawTest is a measured draw-off: the water of the temperature Mixed that a
// cylinder gave, hot throughout, not heated meanwhile, until it ran cold. A V40 on
// a data sheet is one, with 40 °C from cold water of 10 °C.
type DrawTest struct {
	Hot    float64 // °C, 0 to 100, not below Mixed
	Mixed  float64 // °C, 0 to 100
	Cold   float64 // °C, 0 to 100, below Mixed
	Volume float64 // m³ of mixed water, above 0 to 100 (guard)
}

// Fit returns the cylinder with the number of nodes, 1 to [MaxNodes], whose
// [Cylinder.MixedWater] comes nearest to the test. A test that gave less than a
// fully mixed cylinder or more than plug flow was not made on this cylinder, and
// has [hydronics.ErrNoSolution]. The Nodes of c itself do not count.
//
// Source: [Cylinder.MixedWater], solved for the number of nodes by trying each.
func (c Cylinder) Fit(test DrawTest) (Cylinder, error) {
	const fn = "dhw.Cylinder.Fit"
	if err := hydronics.Within(fn, "mixed water", "m³", test.Volume, 1e-6, 100, hydronics.Guard); err != nil {
		return Cylinder{}, err
	}
	best, nearest := c, math.Inf(1)
	var least, most float64
	for n := PlugFlow; n <= MaxNodes; n++ {
		if n == 0 {
			continue
		}
		c.Nodes = n
		m, err := c.MixedWater(test.Hot, test.Mixed, test.Cold)
		switch {
		case err != nil:
			return Cylinder{}, err
		case n == PlugFlow:
			most = m.Volume
			continue
		case n == 1:
			least = m.Volume
		}
		if d := math.Abs(m.Volume - test.Volume); d < nearest {
			best, nearest = c, d
		}
	}
	// A printed volume may lie a rounding below the mixed one.
	if !(test.Volume >= least*(1-1e-6) && test.Volume <= most) {
		return Cylinder{}, fmt.Errorf("%w: %s: %.4g m³ of mixed water, the content gives %.4g m³ (mixed) to %.4g m³ (plug flow)",
			hydronics.ErrNoSolution, fn, test.Volume, least, most)
	}
	return best, nil
}

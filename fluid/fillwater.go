package fluid

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
)

// Units of water hardness in mol/m³, which is mmol/l of calcium and magnesium:
// multiply to bring a figure in, divide to take it out.
const (
	GermanDegree          = 10 / 56.0774    // mol/m³ per °dH: 10 mg of calcium oxide per litre
	FrenchDegree          = 10 / 100.0869   // mol/m³ per °fH: 10 mg of calcium carbonate per litre
	MilligramLimePerLitre = 1 / 100.0869    // mol/m³ per mg/l of calcium carbonate
	limeMolarMass         = 100.0869 * 1e-3 // kg/mol of calcium carbonate
)

// FillWater is the water of a first fill beside the system that it goes into.
type FillWater struct {
	Hardness       float64 // mol/m³ of calcium and magnesium, 0 to 20 (guard)
	HeatOutput     float64 // W, of all heat generators together, 1 to 1e8 (guard)
	SmallestOutput float64 // W, of the smallest single generator, at most HeatOutput
	GeneratorWater float64 // m³ in the smallest generator, 0 to 100 (guard)
	Content        float64 // m³ in the whole system, 1e-4 to 1e4 (guard)
	Makeup         float64 // m³ of fill and make-up water over the life of the system, at least Content
}

// A HardnessRule is an edition of the guideline for fill water. The zero rule is
// none.
//
// Source: VDI 2035 part 1, table of recommended values; [HardnessLimit] says of which
// edition and how it was seen.
type HardnessRule uint8

// The editions of VDI 2035 part 1 (Germany; other countries have their own codes).
const (
	// VDI2035In2005 is the edition of December 2005, seen in reproductions of
	// its table; superseded.
	VDI2035In2005 HardnessRule = iota + 1
	// VDI2035In2021 is the edition of March 2021, recalled from memory and not
	// seen: confirm its figures before relying on them.
	VDI2035In2021
)

// hardnessRules holds limits in mol/m³ by total output, in rows up to 50, 200, 600
// kW and above, and by specific content (system content per kW of the smallest
// generator), in three columns. The first row is for generators with at least
// 0.3 l/kW of water; for others and electric heaters up to 50 kW comes small.
var hardnessRules = [...]struct {
	source  hydronics.Source
	content [2]float64 // m³/W where the second and the third column begin
	small   [3]float64
	limits  [4][3]float64
}{
	VDI2035In2005: {
		hydronics.Source{Text: "VDI 2035 part 1:2005-12, table of recommended values", Provenance: hydronics.SecondHand},
		[2]float64{20e-6, 50e-6},
		[3]float64{3.0, 2.0, 0.02},
		[4][3]float64{{math.MaxFloat64, 2.0, 0.02}, {2.0, 1.5, 0.02}, {1.5, 0.02, 0.02}, {0.02, 0.02, 0.02}},
	},
	VDI2035In2021: {
		hydronics.Source{Text: "VDI 2035 part 1:2021-03, table 1", Provenance: hydronics.FromMemory},
		[2]float64{20e-6, 40e-6},
		[3]float64{16.8 * GermanDegree, 8.4 * GermanDegree, 0.3 * GermanDegree},
		[4][3]float64{
			{math.MaxFloat64, 16.8 * GermanDegree, 0.3 * GermanDegree},
			{11.2 * GermanDegree, 5.6 * GermanDegree, 0.3 * GermanDegree},
			{8.4 * GermanDegree, 0.3 * GermanDegree, 0.3 * GermanDegree},
			{0.3 * GermanDegree, 0.3 * GermanDegree, 0.3 * GermanDegree},
		},
	},
}

// HardnessLimit is the largest hardness that a rule allows.
type HardnessLimit struct {
	Hardness float64 // mol/m³; 0 where None
	None     bool    // the rule sets no limit here
	Source   hydronics.Source
}

// Limit returns the largest hardness of the fill water that the rule allows for
// the system. On the border between two classes of content the stricter counts.
// For wrong fields, or a rule that is not one of this package, it returns the zero
// HardnessLimit and an error matching [hydronics.ErrRange].
func (r HardnessRule) Limit(w FillWater) (HardnessLimit, error) {
	const fn = "fluid.HardnessRule.Limit"
	if r == 0 || int(r) >= len(hardnessRules) {
		return HardnessLimit{}, fmt.Errorf("%s: rule %d is not one of this package: %w", fn, r, hydronics.ErrRange)
	}
	if err := w.check(fn); err != nil {
		return HardnessLimit{}, err
	}
	rule := &hardnessRules[r]
	row := 3
	for i, kw := range [...]float64{50e3, 200e3, 600e3} {
		if w.HeatOutput <= kw {
			row = i
			break
		}
	}
	column := 0
	specific := w.Content / w.SmallestOutput
	for i, from := range rule.content {
		if specific >= from {
			column = i + 1
		}
	}
	limit := rule.limits[row][column]
	if row == 0 && w.GeneratorWater/w.SmallestOutput < 0.3e-6 {
		limit = rule.small[column]
	}
	if limit == math.MaxFloat64 {
		return HardnessLimit{None: true, Source: rule.source}, nil
	}
	return HardnessLimit{Hardness: limit, Source: rule.source}, nil
}

func (w FillWater) check(fn string) error {
	return errors.Join(
		hydronics.Within(fn, "hardness", "mol/m³", w.Hardness, 0, 20, hydronics.Guard),
		hydronics.Within(fn, "heat output", "W", w.HeatOutput, 1, 1e8, hydronics.Guard),
		hydronics.Within(fn, "output of the smallest heat generator", "W", w.SmallestOutput, 1, w.HeatOutput, "definition"),
		hydronics.Within(fn, "water in the smallest heat generator", "m³", w.GeneratorWater, 0, 100, hydronics.Guard),
		hydronics.Within(fn, "content of the system", "m³", w.Content, 1e-4, 1e4, hydronics.Guard),
		hydronics.Within(fn, "fill and make-up water", "m³", w.Makeup, w.Content, 1e6, "definition; upper end: "+hydronics.Guard),
	)
}

// Judge returns the findings of a rule about the fill water: its hardness, and
// that fill and make-up together stay within three times the content, for which
// the limits are meant. Where the rule sets no limit the first finding holds
// without numbers. Errors are those of [HardnessRule.Limit].
func (r HardnessRule) Judge(w FillWater) ([]hydronics.Finding, error) {
	limit, err := r.Limit(w)
	if err != nil {
		return nil, err
	}
	hardness := hydronics.Statement("no limit to the hardness of the fill water", "fill water", true, limit.Source, "")
	if !limit.None {
		hardness = hydronics.Finding{
			Rule: "hardness of the fill water", Subject: "fill water",
			Danger:   "lime on the heat exchanger",
			Quantity: "calcium and magnesium", Unit: "mol/m³", Bound: hydronics.AtMost,
			Value: w.Hardness, Limit: limit.Hardness, Source: limit.Source,
		}.Judge()
	}
	makeup := hydronics.Finding{
		Rule: "fill and make-up water within three times the content", Subject: "fill water",
		Danger:   "lime and corrosion by fresh water",
		Quantity: "volume", Unit: "m³", Bound: hydronics.AtMost,
		Value: w.Makeup, Limit: 3 * w.Content, Source: limit.Source,
	}.Judge()
	return []hydronics.Finding{hardness, makeup}, nil
}

// LimeDeposit returns the mass in kg of calcium carbonate that a volume of water in
// m³, 0 to 1e6 (guard), of the hardness in mol/m³, 0 to 20 (guard), can leave behind
// when all of it falls out: an upper bound, since magnesium and the hardness that
// is no carbonate stay dissolved. Outside the limits it returns NaN and a
// [hydronics.RangeError].
// Source: molar mass of calcium carbonate, 100.0869 g/mol.
func LimeDeposit(volume, hardness float64) (float64, error) {
	const fn = "fluid.LimeDeposit"
	if err := errors.Join(
		hydronics.Within(fn, "volume", "m³", volume, 0, 1e6, hydronics.Guard),
		hydronics.Within(fn, "hardness", "mol/m³", hardness, 0, 20, hydronics.Guard),
	); err != nil {
		return math.NaN(), err
	}
	return volume * hardness * limeMolarMass, nil
}

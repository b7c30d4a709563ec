package dhw

import (
	"math"

	"example.com/hydronics"
)

// lossClasses are the upper limits a + b V^0.4 in W, V in l, best class first.
var lossClasses = [...]struct {
	name string
	a, b float64
}{
	{"A+", 5.5, 3.16}, {"A", 8.5, 4.25}, {"B", 12, 5.93}, {"C", 16.66, 8.33}, {"D", 21, 10.33}, {"E", 26, 13.66}, {"F", 31, 16.66},
}

// worstClass has no upper limit.
const worstClass = "G"

// A LossClass is the energy class of a hot water cylinder by its standing loss.
type LossClass struct {
	Name   string  // A+ to G
	Limit  float64 // W, upper limit of the class at the cylinder's content; of G, the lower limit
	Source hydronics.Source
}

// LossClassOf returns the class of a cylinder by its content in m³, 0.001 to 2, and
// its standing loss in W at 65 °C in a room of 20 °C, 0 to 2000 (guard). A class
// holds below its limit; since 26 September 2017 a cylinder has to be in class C or
// better to be sold. Outside the limits it returns a [hydronics.RangeError].
//
// The coefficients of A to E were seen second-hand, the exponent and the other
// classes are from memory: the source says so, and nothing that rests on it reads
// met.
//
// Source: Commission Delegated Regulation (EU) No 812/2013, Annex II, Table 2.
func LossClassOf(content, standingLoss float64) (LossClass, error) {
	const fn = "dhw.LossClassOf"
	err := together(hydronics.Within(fn, "content", "m³", content, minVolume, 2, "Regulation (EU) No 812/2013: storage volume up to 2000 l (from memory)"),
		hydronics.Within(fn, "standing loss", "W", standingLoss, 0, 2000, hydronics.Guard))
	if err != nil {
		return LossClass{}, err
	}
	class := LossClass{Source: hydronics.Source{Text: "Commission Delegated Regulation (EU) No 812/2013, Annex II, Table 2", Provenance: hydronics.FromMemory}}
	v := math.Pow(content/hydronics.Litre, 0.4)
	for _, c := range lossClasses {
		class.Name, class.Limit = c.name, c.a+c.b*v
		if standingLoss < class.Limit {
			return class, nil
		}
	}
	class.Name = worstClass
	return class, nil
}

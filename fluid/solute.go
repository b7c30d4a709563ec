package fluid

// A Solute is what is dissolved in the water of a solution. The zero Solute
// means none.
//
// The figures of this package are those of the plain substance in water. Products
// with corrosion inhibitors differ from them, most in viscosity and conductivity:
// use the data sheet of the product where one is at hand.
type Solute uint8

// The solutions of Melinder (2010), with their largest concentration by mass
// and their highest temperature. Only the two glycols reach the temperatures of a
// heating circuit; the others are ground-source and cooling brines.
const (
	PropyleneGlycol    Solute = iota + 1 // propane-1,2-diol, 60 %, 100 °C
	EthyleneGlycol                       // ethane-1,2-diol, toxic, 60 %, 100 °C
	Glycerol                             // 60 %, 40 °C
	Ethanol                              // 60 %, 40 °C, flammable
	Methanol                             // 60 %, 40 °C, toxic and flammable
	PotassiumFormate                     // 48 %, 40 °C
	PotassiumAcetate                     // 45 %, 40 °C
	PotassiumCarbonate                   // 40 %, 40 °C
	CalciumChloride                      // 30 %, 40 °C, corrosive
	MagnesiumChloride                    // 20 %, 40 °C, corrosive
	SodiumChloride                       // 23 %, 40 °C, corrosive
	LithiumChloride                      // 24 %, 40 °C, corrosive
	Ammonia                              // 30 %, 30 °C, toxic
)

var soluteNames = [...]string{"none", "propylene glycol", "ethylene glycol", "glycerol", "ethanol",
	"methanol", "potassium formate", "potassium acetate", "potassium carbonate", "calcium chloride",
	"magnesium chloride", "sodium chloride", "lithium chloride", "ammonia"}

// String returns the name in words, such as "propylene glycol".
func (s Solute) String() string {
	if int(s) < len(soluteNames) {
		return soluteNames[s]
	}
	return "unknown"
}

// Solutes returns every solute of the package, in the order of the constants.
func Solutes() []Solute {
	all := make([]Solute, 0, len(solutions)-1)
	for s := PropyleneGlycol; int(s) < len(solutions); s++ {
		all = append(all, s)
	}
	return all
}

// ParseSolute returns the solute with the name of [Solute.String], and false for
// any other name, "none" included.
func ParseSolute(name string) (Solute, bool) {
	for s := PropyleneGlycol; int(s) < len(solutions); s++ {
		if soluteNames[s] == name {
			return s, true
		}
	}
	return 0, false
}

// known reports whether s has coefficients.
func (s Solute) known() bool { return s != 0 && int(s) < len(solutions) }

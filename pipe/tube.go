package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// A Tube is one size of a tube standard, or a tube of your own. The nominal
// size is never the bore: DN 20 of EN 10255, medium, has a bore of 21.7 mm.
//
// For a tube outside the catalogue take [Material.Tube] or fill in the fields
// yourself, and where the maker's data differ, change them; Outside, Wall and
// Roughness are enough for the hydraulics. [Tube.Check] says whether the numbers
// can be meant.
type Tube struct {
	Designation string           // as [Find] takes it, such as "EN 1057 22x1.0"
	Standard    string           // with its year, such as "EN 1057:2006+A1:2010"
	Nominal     string           // nominal size, such as "20" or "3/4"
	Material    string           // name of a [Material], such as "copper"
	Source      hydronics.Source // of Outside and Wall
	MinimumWall bool             // Wall is the least that is allowed (plastics): the true bore is a little smaller

	Outside   float64 // outside diameter, m, at most 3
	Wall      float64 // wall thickness, m, less than half of Outside
	Roughness float64 // absolute, of the clean new wall, m, at most 0.01

	Conductivity    float64 // of the wall, W/(m·K)
	Density         float64 // of the wall, kg/m³
	SpecificHeat    float64 // of the wall, J/(kg·K)
	Expansion       float64 // linear thermal expansion of the wall, 1/K
	Modulus         float64 // Young's modulus of the wall at room temperature, Pa
	OxygenPermeable bool    // air enters through a plastic wall without a barrier, and steel in the system rusts
}

// Bore returns the inside diameter in m: Outside - 2 Wall.
// Source: definition.
func (t Tube) Bore() float64 { return t.Outside - 2*t.Wall }

// Content returns the volume of liquid in one metre of tube, in m³/m.
// Source: definition.
func (t Tube) Content() float64 { return area(t.Bore()) }

// Run returns a straight run of the tube, its length in m.
// Source: definition.
func (t Tube) Run(length float64) Run {
	return Run{Bore: t.Bore(), Roughness: t.Roughness, Length: length}
}

// Check returns a [hydronics.RangeError] for every dimension of the tube that
// cannot be meant, joined, and nil if there is none.
func (t Tube) Check() error {
	const fn = "pipe.Tube.Check"
	return errors.Join(
		within(fn, "outside diameter", "m", t.Outside, minBore, maxBore),
		within(fn, "wall", "m", t.Wall, 0, (t.Outside-minBore)/2),
		within(fn, "roughness", "m", t.Roughness, 0, maxWallRoughness),
		within(fn, "bore", "m", t.Bore(), minBore, maxBore),
	)
}

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

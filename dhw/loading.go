package dhw

import (
	"fmt"
	"slices"

	"example.com/hydronics"
)

// A LoadingPoint is a kind of draw-off point with its loading units: one unit
// stands for a flow of 0.1 l/s. The scale is that of EN 806-3 and no other: BS 6700
// counts a bath 10, EN 806-3 counts it 4.
type LoadingPoint struct {
	Name    string
	Flow    float64 // m³/s, draw-off flow
	MinFlow float64 // m³/s, least flow
	Units   int
}

var loadingPoints = [...]LoadingPoint{
	{"washbasin", 0.1e-3, 0.1e-3, 1},
	{"bidet", 0.1e-3, 0.1e-3, 1},
	{"WC cistern", 0.1e-3, 0.1e-3, 1},
	{"kitchen sink", 0.2e-3, 0.15e-3, 2},
	{"washing machine", 0.2e-3, 0.15e-3, 2},
	{"dishwasher", 0.2e-3, 0.15e-3, 2},
	{"sink", 0.2e-3, 0.15e-3, 2},
	{"shower", 0.2e-3, 0.15e-3, 2},
	{"urinal flush valve", 0.3e-3, 0.15e-3, 3},
	{"bath", 0.4e-3, 0.3e-3, 4},
	{"garden or garage tap", 0.5e-3, 0.4e-3, 5},
	{"kitchen sink DN 20, not domestic", 0.8e-3, 0.8e-3, 8},
	{"bath, not domestic", 0.8e-3, 0.8e-3, 8},
	{"flush valve DN 20", 1.5e-3, 1.0e-3, 15},
}

var loadingSource = hydronics.Source{Text: "EN 806-3:2006, Table 2", Provenance: hydronics.SecondHand}

// LoadingPoints returns the draw-off points of EN 806-3, Table 2, and their source.
func LoadingPoints() ([]LoadingPoint, hydronics.Source) {
	return slices.Clone(loadingPoints[:]), loadingSource
}

// LoadingUnits returns the units of the draw-off point called name; unknown names
// have [hydronics.ErrNoSolution]. Add the units from the last draw-off point
// backwards: simultaneity is in the table of tubes.
//
// Source: EN 806-3:2006, Table 2, as attributed.
func LoadingUnits(name string) (int, error) {
	for _, p := range loadingPoints {
		if p.Name == name {
			return p.Units, nil
		}
	}
	return 0, fmt.Errorf("%w: dhw.LoadingUnits: no draw-off point %q in EN 806-3, Table 2", hydronics.ErrNoSolution, name)
}

// A LoadingTube is one tube of the simplified method of EN 806-3.
type LoadingTube struct {
	Material  string  // PP, PVC-C, multilayer or PB
	Size      string  // outside diameter and wall in mm
	Bore      float64 // m
	MaxUnits  int
	Largest   int     // largest unit of a single draw-off point; 0: not limited
	MaxLength float64 // m, largest length at these units; 0: not limited
}

var loadingTubeSource = hydronics.Source{
	Text:       "EN 806-3:2006, Tables 3.4 ff., from a text book whose table was flattened: the assignment of several values to the smallest sizes is a reconstruction",
	Provenance: hydronics.SecondHand,
}

// LoadingMaterials returns the materials whose tables were seen. Those of steel,
// copper, stainless steel and PE-X were not.
func LoadingMaterials() []string { return []string{"PP", "PVC-C", "multilayer", "PB"} }

// LoadingTubes returns the tubes of a material, smallest first, and their source;
// an unknown material has [hydronics.ErrNoSolution].
func LoadingTubes(material string) ([]LoadingTube, hydronics.Source, error) {
	var tubes []LoadingTube
	for _, t := range loadingTubes {
		if t.Material == material {
			tubes = append(tubes, t)
		}
	}
	if tubes == nil {
		return nil, hydronics.Source{}, fmt.Errorf("%w: dhw.LoadingTubes: no table for %q, there are %v",
			hydronics.ErrNoSolution, material, LoadingMaterials())
	}
	return tubes, loadingTubeSource, nil
}

// A LoadingSection is a piece of pipe with what hangs on it.
type LoadingSection struct {
	Material string
	Units    int     // sum of the loading units beyond, 1 to 10000 (guard)
	Largest  int     // the largest single draw-off point among them, 1 to Units
	Length   float64 // m of the section, 0 to 1000 (guard)
}

// Tube returns the smallest tube that the simplified method allows for the section.
// Nothing in the table large enough, or an unknown material, has
// [hydronics.ErrNoSolution].
//
// Source: EN 806-3:2006, clause 5 and Tables 3.4 ff., as attributed.
func (s LoadingSection) Tube() (LoadingTube, error) {
	const fn = "dhw.LoadingSection.Tube"
	err := together(count(fn, "loading units", s.Units, 1, 10000), count(fn, "largest single loading unit", s.Largest, 1, s.Units),
		length(fn, "length of the section", s.Length))
	if err != nil {
		return LoadingTube{}, err
	}
	tubes, _, err := LoadingTubes(s.Material)
	if err != nil {
		return LoadingTube{}, err
	}
	for _, t := range tubes {
		if s.Units <= t.MaxUnits && (t.Largest == 0 || s.Largest <= t.Largest) && (t.MaxLength == 0 || s.Length <= t.MaxLength) {
			return t, nil
		}
	}
	return LoadingTube{}, fmt.Errorf("%w: %s: no tube of %s for %d loading units", hydronics.ErrNoSolution, fn, s.Material, s.Units)
}

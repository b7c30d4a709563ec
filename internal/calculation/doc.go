// Package calculation gives the library's calculations a row form: named
// columns in, named columns out. Reference tables name the calculation they
// check, and the rows program evaluates any of them over a CSV file.
//
// One file per area (fluid.go, pipe.go, ...) holds that area's calculations in
// a function returning []Calculation. A calculation lists the columns it takes
// and gives, each with its kind of quantity, and the exported names it covers:
//
//	{
//		Name:    "fluid/water",
//		Doc:     "liquid water at a temperature and an absolute pressure",
//		Inputs:  []Column{{Name: "temperature", Kind: unit.Temperature}, {Name: "pressure_abs", Kind: unit.AbsolutePressure}},
//		Outputs: []Column{{Name: "density", Kind: unit.Density}},
//		Covers:  []string{"fluid.WaterAt", "fluid.Liquid.Density"},
//		Row: func(in Row) (Row, error) {
//			...
//			return Row{"density": rho}, err
//		},
//	}
//
// Numbers in a [Row] are float64 in SI (temperatures in °C), words are strings.
// The unit suffix of a CSV column (temperature_c, pressure_abs_mpa) is dealt
// with outside. An optional column that the table does not have is absent from
// the row; an output that does not apply to a row is left out of it. A
// calculation over several rows at once (a network, layers, a draw profile)
// sets Case instead of Row; it receives the rows of one case in order and
// returns one output row for each of them.
package calculation

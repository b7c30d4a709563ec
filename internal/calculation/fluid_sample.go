package calculation

import (
	"errors"

	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
)

// fluidSampleCalculations are those of a sample's concentration and of dosing.
func fluidSampleCalculations() []Calculation {
	temperature := Column{Name: "temperature", Kind: unit.Temperature}
	solute := Column{Name: "solute", Kind: unit.Text, Doc: "such as propylene glycol"}
	mass := Column{Name: "mass_fraction", Kind: unit.Number}
	density := Column{Name: "density", Kind: unit.Density}
	index := Column{Name: "refractive_index", Kind: unit.Number}
	brix := Column{Name: "brix", Kind: unit.Number, Doc: "mass fraction of sucrose: 0.30, or 30 percent, is 30 °Bx"}
	by := func(name, doc, covers string, in []Column, f func(fluid.Solute, Row) (fluid.Liquid, error)) Calculation {
		return Calculation{
			Name: name, Doc: doc, Inputs: append([]Column{solute}, in...), Outputs: []Column{mass}, Covers: []string{covers},
			Row: func(in Row) (Row, error) {
				s, err := rowSolute(in)
				if err != nil {
					return nil, err
				}
				l, err := f(s, in)
				return Row{"mass_fraction": l.MassFraction()}, err
			},
		}
	}
	return []Calculation{
		by("fluid/solution_by_density", "concentration of a sample from its density", "fluid.Solute.ByDensity", []Column{density, temperature},
			func(s fluid.Solute, in Row) (fluid.Liquid, error) {
				return s.ByDensity(in.Num("density"), in.Num("temperature"))
			}),
		by("fluid/solution_by_index", "concentration of a sample from its refractive index", "fluid.Solute.ByRefractiveIndex", []Column{index, temperature},
			func(s fluid.Solute, in Row) (fluid.Liquid, error) {
				return s.ByRefractiveIndex(in.Num("refractive_index"), in.Num("temperature"))
			}),
		by("fluid/solution_by_brix", "concentration of a sample from the reading of a sugar refractometer", "fluid.Solute.ByBrix", []Column{brix},
			func(s fluid.Solute, in Row) (fluid.Liquid, error) { return s.ByBrix(100 * in.Num("brix")) }),
		{
			Name:    "fluid/refractive_index",
			Doc:     "refractive index of an aqueous solution",
			Inputs:  []Column{solute, mass, temperature},
			Outputs: []Column{index},
			Covers:  []string{"fluid.Liquid.RefractiveIndex"},
			Row: func(in Row) (Row, error) {
				l, err := byMass(in)
				if err != nil {
					return nil, err
				}
				n, err := l.RefractiveIndex(in.Num("temperature"))
				return Row{"refractive_index": n}, err
			},
		},
		{
			Name:    "fluid/brix",
			Doc:     "refractive index of a reading on the sugar scale, and back",
			Inputs:  []Column{brix},
			Outputs: []Column{index, {Name: "brix_back", Kind: unit.Number}},
			Covers:  []string{"fluid.BrixIndex", "fluid.Brix"},
			Row: func(in Row) (Row, error) {
				n, err := fluid.BrixIndex(100 * in.Num("brix"))
				if err != nil {
					return nil, err
				}
				back, err := fluid.Brix(n)
				return Row{"refractive_index": n, "brix_back": back / 100}, err
			},
		},
		{
			Name: "fluid/dosing",
			Doc:  "concentrate to bring a full system from one mass fraction to another, and for a new fill",
			Inputs: []Column{solute,
				{Name: "content", Kind: unit.Volume},
				{Name: "from_mass_fraction", Kind: unit.Number},
				{Name: "to_mass_fraction", Kind: unit.Number},
			},
			Outputs: []Column{
				{Name: "drain", Kind: unit.Volume},
				{Name: "replace_concentrate", Kind: unit.Volume},
				{Name: "add_concentrate", Kind: unit.Volume, Doc: "where there is room"},
				{Name: "content_after", Kind: unit.Volume, Doc: "where there is room"},
				{Name: "fill_concentrate", Kind: unit.Volume, Doc: "for an empty system"},
				{Name: "fill_water", Kind: unit.Volume, Doc: "for an empty system"},
			},
			Covers: []string{"fluid.Dosing.Replace", "fluid.Dosing.TopUp", "fluid.NewFill", "fluid.Solute.Concentrate"},
			Row:    dosingRow,
		},
	}
}

func dosingRow(in Row) (Row, error) {
	s, err := rowSolute(in)
	if err != nil {
		return nil, err
	}
	concentrate, err1 := s.Concentrate()
	from, err2 := s.ByMass(in.Num("from_mass_fraction"))
	to, err3 := s.ByMass(in.Num("to_mass_fraction"))
	if err := errors.Join(err1, err2, err3); err != nil {
		return nil, err
	}
	if from.MassFraction() == 0 {
		from = fluid.Water()
	}
	d := fluid.Dosing{Content: in.Num("content"), From: from, To: to, Concentrate: concentrate}
	replace, err1 := d.Replace()
	add, err2 := d.TopUp()
	fill, err3 := fluid.NewFill(d.Content, to, concentrate)
	return Row{
		"drain":               replace.Drain,
		"replace_concentrate": replace.Concentrate,
		"add_concentrate":     add.Concentrate,
		"content_after":       add.Content,
		"fill_concentrate":    fill.Concentrate,
		"fill_water":          fill.Water,
	}, errors.Join(err1, err2, err3)
}

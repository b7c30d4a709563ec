package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/internal/job"
	"example.com/hydronics/pipe"
)

// A dwelling is what frost needs to know of one line of the stock.
type dwelling struct {
	Name    string // the title in the job file
	Station string // whose weather it has
	Design  string // a word by which the outcomes are counted

	Tubes      []standing // as built: each different outdoor tube once
	Insulated  []standing // the same with more insulation
	Antifreeze []standing // the same with antifreeze; none where it is there already
	Drains     []drain    // drain valves on the outdoor routes; none with antifreeze
}

// A drain is an outdoor tube with a drain valve at the low point of its route.
type drain struct {
	Lump    frost.Lump
	Empties float64 // s; +Inf: the route holds water that no valve at its low point lets out
}

// parseDwelling reads one line of the stock:
//
//	station TAB design TAB job file
//
// The job file is that of examples/dwelling, in one line. Nothing in JSON needs
// a tab, so that the third field of the lines is what examples/dwelling -stream
// reads.
func parseDwelling(line []byte, o *Options) (*dwelling, error) {
	fields := bytes.SplitN(line, []byte("\t"), 3)
	if len(fields) != 3 {
		return nil, fmt.Errorf("%d fields, want 3 with tabs between them: station, design, job file", len(fields))
	}
	for i, name := range [...]string{"station", "design"} {
		if n := len(fields[i]); n == 0 || n > 40 {
			return nil, fmt.Errorf("a %s of %d characters, want 1 to 40", name, n)
		}
	}
	j, err := job.Decode(fields[2])
	if err != nil {
		return nil, err
	}
	d := &dwelling{Name: j.Title, Station: string(fields[0]), Design: string(fields[1])}
	return d, d.fill(j, o)
}

// fill works out the outdoor tubes of the job. All water starts at the lowest
// return temperature of any circuit: the outdoor return carries the mixture of
// them, which is no colder, and the supply is warmer.
func (d *dwelling) fill(j *job.Job, o *Options) error {
	start := math.Inf(1)
	for i := range j.Distribution.Circuits {
		start = min(start, j.Distribution.Circuits[i].Return)
	}
	if math.IsInf(start, 1) {
		return errors.New("distribution.circuits holds nothing; accepted: at least one circuit")
	}
	atmosphere, err := fluid.AtmosphericPressure(j.Site.Altitude)
	if err != nil {
		return err
	}
	liquid, err := filling(&j.Liquid)
	if err != nil {
		return err
	}
	antifreeze, err := fluid.PropyleneGlycol.ByMass(o.Antifreeze)
	if err != nil {
		return err
	}
	air := frost.Air{Temperature: j.Site.Coldest, Wind: j.Site.Wind, PressureAbs: atmosphere}
	more := frost.Layer{Thickness: o.Insulation, Conductivity: o.Conductivity}
	seen := map[tubing]bool{}
	outdoors := false
	for i := range j.Routes {
		pieces, err := outdoorPieces(&j.Routes[i])
		if err != nil {
			return fmt.Errorf("routes[%d]: %w", i, err)
		}
		outdoors = outdoors || len(pieces) > 0
		empties := 0.0
		if liquid.IsWater() && len(pieces) > 0 {
			if empties, err = emptyingTime(pieces, o); err != nil {
				return fmt.Errorf("routes[%d]: %w", i, err)
			}
		}
		for _, p := range pieces {
			q, err := stand(p.section(), liquid, start, air)
			if err != nil {
				return fmt.Errorf("routes[%d]: %w", i, err)
			}
			if liquid.IsWater() {
				d.Drains = append(d.Drains, drain{q.Lump, empties})
			}
			if seen[p.tubing] {
				continue
			}
			seen[p.tubing] = true
			d.Tubes = append(d.Tubes, q)
			s := p.section()
			s.Layers = append(s.Layers, more)
			if q, err = stand(s, liquid, start, air); err != nil {
				return err
			}
			d.Insulated = append(d.Insulated, q)
			if !liquid.IsWater() {
				continue
			}
			if q, err = stand(p.section(), antifreeze, start, air); err != nil {
				return err
			}
			d.Antifreeze = append(d.Antifreeze, q)
		}
	}
	if !outdoors {
		return errors.New("routes holds no stretch outdoors; accepted: at least one, for there is nothing to freeze otherwise")
	}
	return nil
}

func filling(l *job.Filling) (fluid.Liquid, error) {
	if l.Kind == "water" {
		return fluid.Water(), nil
	}
	solute, known := fluid.ParseSolute(l.Kind)
	if mass, volume := !math.IsNaN(l.Mass), !math.IsNaN(l.Volume); !known || mass == volume {
		return fluid.Liquid{}, errors.New("liquid holds neither or both of mass_percent and volume_percent; accepted: one of the two")
	} else if volume {
		return solute.ByVolume(l.Volume)
	}
	return solute.ByMass(l.Mass)
}

// A tubing is a tube with its insulation.
type tubing struct {
	tube       pipe.Tube
	insulation job.Insulation
}

func (t *tubing) section() frost.Section {
	layers := []frost.Layer{{
		Thickness: t.tube.Wall, Conductivity: t.tube.Conductivity, HeatCapacity: t.tube.Density * t.tube.SpecificHeat,
	}}
	if t.insulation.Thickness > 0 {
		layers = append(layers, frost.Layer{Thickness: t.insulation.Thickness, Conductivity: t.insulation.Conductivity})
	}
	return frost.Section{Bore: t.tube.Bore(), Layers: layers, Surface: frost.InTheOpen()}
}

// A piece is an outdoor stretch of a route.
type piece struct {
	tubing
	from, to [3]float64
}

func outdoorPieces(r *job.Route) ([]piece, error) {
	var pieces []piece
	designation, insulation, from := r.Tube, job.Insulation{}, r.Start
	if r.Insulation != nil {
		insulation = *r.Insulation
	}
	for i := range r.Stretches {
		s := &r.Stretches[i]
		if s.Tube != "" {
			designation = s.Tube
		}
		if s.Insulation != nil {
			insulation = *s.Insulation
		}
		if s.Outdoors {
			tube, err := pipe.Find(designation)
			if err != nil {
				return nil, err
			}
			pieces = append(pieces, piece{tubing{tube, insulation}, from, s.To})
		}
		from = s.To
	}
	return pieces, nil
}

// stand makes the liquid stand in the section.
func stand(s frost.Section, l fluid.Liquid, start float64, air frost.Air) (standing, error) {
	m := frost.Water()
	if !l.IsWater() {
		// Only the heat capacity of the solution enters; the one near its
		// freezing point is the lowest and errs on the safe side.
		low, _ := l.Range()
		p, err := l.At(max(low, l.FreezingPoint()))
		if err != nil {
			return standing{}, err
		}
		m.Density, m.SpecificHeat = p.Density, p.SpecificHeat
	}
	lump, err := s.Lump(m, start, air)
	if err != nil {
		return standing{}, err
	}
	q := standing{Lump: lump, Start: start, Water: l.IsWater()}
	if !q.Water {
		q.Freezing = l.FreezingPoint()
	}
	return q, hydronics.Within("stock", "lowest return temperature, above the freezing point", "°C", start, q.Freezing+1, 100, hydronics.Guard)
}

package fluid

import (
	"errors"
	"fmt"

	"example.com/hydronics"
)

// A Concentrate is antifreeze as it comes in the can: the pure substance, or a
// premix with what its label states.
type Concentrate struct {
	Solute       Solute
	MassFraction float64 // of the solute, 0 to 1
	Density      float64 // kg/m³ at 20 °C, 500 to 2500 (guard)
}

// Concentrate returns the pure antifreeze. Salts and ammonia have no liquid form
// of their own: they get the zero Concentrate and an error matching
// [hydronics.ErrRange].
// Source: CRC Handbook, densities at 20 °C.
func (s Solute) Concentrate() (Concentrate, error) {
	if err := s.wantVolume("fluid.Solute.Concentrate"); err != nil {
		return Concentrate{}, err
	}
	return Concentrate{s, 1, solutions[s].pure}, nil
}

// A Dosing brings the content of a system from one concentration to another. All
// volumes count at 20 °C. From and To may be water ([Water]) or a solution of the
// solute of the concentrate; a Concentrate of MassFraction 0 is water, with which
// a solution is thinned.
//
// Source: balances of mass and of solute.
type Dosing struct {
	Content     float64 // m³ in the system, 1e-6 to 1e5 (guard)
	From        Liquid  // what is in it now
	To          Liquid  // what is wanted
	Concentrate Concentrate
}

// A Dose is the answer to a [Dosing]. Volumes are in m³ at 20 °C; they do not quite
// add up, since mixing shrinks them. The masses do.
type Dose struct {
	Drain           float64 // m³ of the present content to let out first
	Concentrate     float64 // m³ of concentrate to put in
	Water           float64 // m³ of water to put in, for a new fill only
	ConcentrateMass float64 // kg
	Content         float64 // m³ afterwards
}

// Replace returns how much to drain and how much concentrate to put in its place
// in a system that is full and must stay full. Between the two, the content is
// taken as mixed; in practice circulate, and measure the concentration afterwards.
//
// The wanted concentration must lie between the present one and that of the
// concentrate: otherwise the error matches [hydronics.ErrNoSolution], for wrong
// fields [hydronics.ErrRange], always with the zero Dose.
func (d Dosing) Replace() (Dose, error) {
	from, to, err := d.check("fluid.Dosing.Replace")
	if err != nil {
		return Dose{}, err
	}
	after := d.Content * to // kg
	add := after * (d.To.mass - d.From.mass) / (d.Concentrate.MassFraction - d.From.mass)
	return Dose{
		Drain:           d.Content - (after-add)/from,
		Concentrate:     add / d.Concentrate.Density,
		ConcentrateMass: add,
		Content:         d.Content,
	}, nil
}

// TopUp returns how much concentrate to add to a content that has room to grow,
// such as a tank or a system that is not yet full. Errors are those of
// [Dosing.Replace]; a concentrate of the wanted strength itself never gets there
// and is [hydronics.ErrNoSolution].
func (d Dosing) TopUp() (Dose, error) {
	from, to, err := d.check("fluid.Dosing.TopUp")
	if err != nil {
		return Dose{}, err
	}
	if d.To.mass == d.Concentrate.MassFraction {
		return Dose{}, fmt.Errorf("fluid.Dosing.TopUp: adding a concentrate of %g never reaches its own strength: %w", d.To.mass, hydronics.ErrNoSolution)
	}
	before := d.Content * from // kg
	add := before * (d.To.mass - d.From.mass) / (d.Concentrate.MassFraction - d.To.mass)
	return Dose{
		Concentrate:     add / d.Concentrate.Density,
		ConcentrateMass: add,
		Content:         (before + add) / to,
	}, nil
}

// NewFill returns the concentrate and the water for an empty system of the content
// in m³ that is to be filled with a solution. Errors are those of [Dosing.Replace].
// Source: balances of mass and of solute.
func NewFill(content float64, to Liquid, c Concentrate) (Dose, error) {
	d := Dosing{Content: content, From: Water(), To: to, Concentrate: c}
	_, density, err := d.check("fluid.NewFill")
	if err != nil {
		return Dose{}, err
	}
	total := content * density // kg
	add := total * to.mass / c.MassFraction
	return Dose{
		Concentrate:     add / c.Density,
		Water:           (total - add) / waterDensity20,
		ConcentrateMass: add,
		Content:         content,
	}, nil
}

// check returns the densities at 20 °C of the present and the wanted content.
func (d Dosing) check(fn string) (from, to float64, err error) {
	c := d.Concentrate
	from, err1 := d.From.mixing()
	to, err2 := d.To.mixing()
	err = errors.Join(
		hydronics.Within(fn, "content", "m³", d.Content, 1e-6, 1e5, hydronics.Guard),
		hydronics.Within(fn, "mass fraction of the concentrate", "", c.MassFraction, 0, 1, "definition"),
		hydronics.Within(fn, "density of the concentrate", "kg/m³", c.Density, 500, 2500, hydronics.Guard),
		err1, err2)
	for _, l := range [...]Liquid{d.From, d.To} {
		if l.solute != 0 && l.solute != c.Solute && c.MassFraction != 0 {
			err = errors.Join(err, fmt.Errorf("%s: %v and a concentrate of %v do not mix: %w", fn, l, c.Solute, hydronics.ErrRange))
		}
	}
	if d.From.solute != 0 && d.To.solute != 0 && d.From.solute != d.To.solute {
		err = errors.Join(err, fmt.Errorf("%s: from %v to %v: %w", fn, d.From, d.To, hydronics.ErrRange))
	}
	if err != nil {
		return 0, 0, err
	}
	low, high := d.From.mass, c.MassFraction
	if low > high {
		low, high = high, low
	}
	if w := d.To.mass; !(w >= low && w <= high && low < high) {
		return 0, 0, fmt.Errorf("%s: a mass fraction of %g cannot be reached from %g with a concentrate of %g: %w",
			fn, w, d.From.mass, c.MassFraction, hydronics.ErrNoSolution)
	}
	return from, to, nil
}

// mixing is the density at 20 °C: that of the handbook for water, so that it goes
// with the densities of the pure antifreezes.
func (l Liquid) mixing() (float64, error) {
	if l.IsWater() {
		return waterDensity20, nil
	}
	return l.Density(mixingTemperature)
}

package dhw

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// An Outlet is the thread of a temperature relief valve's outlet.
type Outlet uint8

// The outlets that Approved Document G sizes discharge pipes for.
const (
	OutletG12 Outlet = iota + 1 // G 1/2
	OutletG34                   // G 3/4
	OutletG1                    // G 1
)

var outletNames = [...]string{"unknown", "G1/2", "G3/4", "G1"}

// String returns the thread as tables print it: G1/2, G3/4 or G1.
func (o Outlet) String() string {
	if int(o) < len(outletNames) {
		return outletNames[o]
	}
	return outletNames[0]
}

// ParseOutlet returns the outlet that [Outlet.String] names, and false for any
// other word.
func ParseOutlet(s string) (Outlet, bool) {
	for o := OutletG12; o <= OutletG1; o++ {
		if s == outletNames[o] {
			return o, true
		}
	}
	return 0, false
}

// copperSizes are the tubes, by outside diameter in mm, that the table of
// Approved Document G walks through, and the length of straight tube that one
// elbow or bend of that size stands for, in m.
var copperSizes = [...]struct{ outside, bend float64 }{
	{15, 0}, {22, 0.8}, {28, 1.0}, {35, 1.4}, {42, 1.7}, {54, 2.3},
}

// resistanceStep is the length of straight tube, with bends, that every size
// above that of the valve's outlet is good for; three steps are the most.
const (
	resistanceStep = 9.0 // m
	maxSteps       = 3
)

// size returns the place among copperSizes of the tube that suits the outlet.
func (o Outlet) size() int { return int(o) - 1 }

// A DischargePipe is the pipe from the tundish to the end (D2) of copper tube,
// with what Approved Document G counts as its resistance.
type DischargePipe struct {
	D1            float64 // m, least outside diameter from the valve to the tundish
	D2            float64 // m, outside diameter from the tundish on
	PerBend       float64 // m, straight length that one bend counts as
	Resistance    float64 // m, straight length and bends
	MaxResistance float64 // m
}

// DischargeResistance returns what a discharge pipe of the outside diameter d2
// in m counts and may count, for a relief valve's outlet, a straight length in m
// (0 to 1000) and a number of bends (0 to 100; guards). Whether it suits is the
// reader's comparison of Resistance and MaxResistance. It holds for copper tube
// of 22 to 54 mm, one to three sizes larger than the outlet; for anything else
// it returns a [hydronics.RangeError].
//
// Source: Approved Document G, Table 3.1, as attributed.
func DischargeResistance(o Outlet, d2 float64, run Straight) (DischargePipe, error) {
	const fn = "dhw.DischargeResistance"
	if err := together(o.check(fn), run.check(fn)); err != nil {
		return DischargePipe{}, err
	}
	first := o.size()
	for step := 1; step <= maxSteps; step++ {
		if math.Abs(d2-copperSizes[first+step].outside*hydronics.Millimetre) < 1e-6 {
			return o.pipe(step, run), nil
		}
	}
	return DischargePipe{}, &hydronics.RangeError{Func: fn, Quantity: "outside diameter of the discharge pipe", Unit: "m",
		Value: d2, Min: copperSizes[first+1].outside * hydronics.Millimetre, Max: copperSizes[first+maxSteps].outside * hydronics.Millimetre,
		Source: "Approved Document G, Table 3.1, sizes of copper tube for a " + o.String() + " outlet"}
}

// Straight is the course of a discharge pipe after the tundish.
type Straight struct {
	Length float64 // m of tube, 0 to 1000 (guard)
	Bends  int     // elbows and bends, 0 to 100 (guard)
}

func (s Straight) check(fn string) error {
	return together(length(fn, "length of the discharge pipe", s.Length), count(fn, "number of bends", s.Bends, 0, 100))
}

func (o Outlet) check(fn string) error {
	return count(fn, "valve outlet", int(o), int(OutletG12), int(OutletG1))
}

func (o Outlet) pipe(step int, run Straight) DischargePipe {
	s := copperSizes[o.size()+step]
	return DischargePipe{
		D1:            copperSizes[o.size()].outside * hydronics.Millimetre,
		D2:            s.outside * hydronics.Millimetre,
		PerBend:       s.bend,
		Resistance:    run.Length + float64(run.Bends)*s.bend,
		MaxResistance: resistanceStep * float64(step),
	}
}

// SizeDischarge returns the smallest discharge pipe of copper for a relief
// valve's outlet and the course after the tundish. A larger pipe counts more per
// bend. Beyond 27 m, bends included, the table ends and the discharge has to be
// designed by itself: [hydronics.ErrNoSolution].
//
// The water comes boiling, with steam: a pipe that is too narrow, too long or of
// plastic that softens bursts or scalds whoever stands at its end.
//
// Source: Approved Document G, Table 3.1, as attributed.
func SizeDischarge(o Outlet, run Straight) (DischargePipe, error) {
	const fn = "dhw.SizeDischarge"
	if err := together(o.check(fn), run.check(fn)); err != nil {
		return DischargePipe{}, err
	}
	var p DischargePipe
	for step := 1; step <= maxSteps; step++ {
		if p = o.pipe(step, run); p.Resistance <= p.MaxResistance {
			return p, nil
		}
	}
	return DischargePipe{}, fmt.Errorf("%w: %s: %.4g m with %d bends count %.4g m in the largest tube, the table ends at %.4g m",
		hydronics.ErrNoSolution, fn, run.Length, run.Bends, p.Resistance, p.MaxResistance)
}

package dhw

import (
	"fmt"

	"example.com/hydronics"
)

// A Disinfection is a thermal disinfection: the whole cylinder, and the pipes with
// it, brought to a temperature and held there for a time that a rule or a
// specialist prescribes. What it does to legionella is not calculated.
type Disinfection struct {
	Cylinder Cylinder
	Heater   Heater  // must reach To: many heat pumps do not, and need an immersion heater's points here
	From     float64 // °C, 0 to 100
	To       float64 // °C, 0 to 100, not below From
	Hold     float64 // s, 0 to a year (guard)
	Pipes    float64 // W, loss of the circulated pipes at To while it is held, 0 to 1e5 (guard); heating them up is not counted
	Ambient  float64 // °C, -40 to 60
}

// A DisinfectionCost is what a thermal disinfection takes.
type DisinfectionCost struct {
	HeatUp Reheating // of the cylinder
	Hold   float64   // J to hold the temperature
	Power  float64   // W that holding takes
	Energy float64   // J in all
	Time   float64   // s in all
}

// Cost returns the heat and the time of the disinfection. A heater that cannot bring
// the cylinder there, or hold it with the pipes' loss, has
// [hydronics.ErrNoSolution]; fields outside their limits, and temperatures beyond
// the heater's points, return a [hydronics.RangeError]. While it runs, every tap
// without a mixing valve scalds: see [ScaldCaution].
//
// Source: energy balance.
func (d Disinfection) Cost() (DisinfectionCost, error) {
	const fn = "dhw.Disinfection.Cost"
	err := together(duration(fn, "time to hold", d.Hold), hydronics.Within(fn, "loss of the pipes", "W", d.Pipes, 0, 1e5, hydronics.Guard))
	if err != nil {
		return DisinfectionCost{}, err
	}
	up, err := d.Cylinder.Reheat(d.Heater, d.From, d.To, d.Ambient)
	if err != nil {
		return DisinfectionCost{}, err
	}
	c := DisinfectionCost{HeatUp: up, Power: max(0, d.Cylinder.LossCoefficient*(d.To-d.Ambient)+d.Pipes)}
	if most := d.Heater.at(d.To); c.Power > most {
		return DisinfectionCost{}, fmt.Errorf("%w: %s: holding %.4g °C takes %.4g W, the heater gives %.4g W",
			hydronics.ErrNoSolution, fn, d.To, c.Power, most)
	}
	c.Hold = c.Power * d.Hold
	c.Energy = up.Supplied + c.Hold
	c.Time = up.Time + d.Hold
	return c, nil
}

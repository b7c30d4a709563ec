package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
)

// A Course is the pressure course of a system that was filled and closed: its
// mass of liquid is fixed and the temperature decides the pressure. Make one with
// [System.Course].
//
// Source: mass balance with the densities of the liquid, and Boyle's law.
type Course struct {
	system  System
	vessel  Vessel
	patm    float64 // Pa absolute
	p0      float64 // Pa absolute, gas of the empty vessel in service
	filling float64 // Pa absolute, when filled
	rho     float64 // kg/m³, when filled
	water   float64 // m³, in the vessel when filled
}

// A State is a system at one temperature, seen at the vessel's connection with
// the pump at rest.
type State struct {
	Temperature float64         // °C, mean of the liquid
	Pressure    hydronics.Gauge // Pa gauge
	Water       float64         // m³, in the vessel
	Gas         float64         // m³, left to the gas
	Empty       bool            // no water left in the vessel: the pressure is no longer its own
}

// Course returns the pressure course of s with the vessel v, filled to the given
// gauge pressure, 0 to 16 bar (guard), at s.FillTemperature. Filled below the pre-charge, the vessel
// holds no water; that is a result, not an error.
// Source: Boyle's law.
func (s System) Course(v Vessel, filling hydronics.Gauge) (Course, error) {
	patm, err := s.check()
	if err != nil {
		return Course{}, err
	}
	p0, err := v.precharge(patm)
	err = errors.Join(err, hydronics.Within("expansion.System.Course", "filling pressure", "Pa", float64(filling), 0, highestGauge, hydronics.Guard))
	if err != nil {
		return Course{}, err
	}
	rho, err := s.Liquid.Density(s.FillTemperature)
	if err != nil {
		return Course{}, err
	}
	pi := filling.Abs(patm)
	return Course{s, v, patm, p0, pi, rho, max(0, v.Nominal*(1-p0/pi))}, nil
}

// At returns the state at a temperature in °C, from the system's coldest to its
// hottest, by Boyle's law: the gas keeps its temperature, as it does when the
// system warms over minutes and hours. The relief valve is left out of account
// (see [Course.Cycle]).
//
// Once the vessel is empty its pressure is replaced by that of a vapour pocket at
// the highest point of the system, the least that the liquid can have; in
// practice air is drawn in. If the water would fill the vessel completely no
// finite pressure exists, and the error matches [hydronics.ErrNoSolution].
func (c *Course) At(t float64) (State, error) { return c.Polytropic(t, 1) }

// Polytropic is [Course.At] for a gas that follows P·Vⁿ from the moment of filling
// on, n from 1 to 1.4: 1 for slow changes, 1.4 for one too quick for any heat to
// pass. It bounds the pressure; no published figure for diaphragm vessels is known.
// Source: polytropic change of an ideal gas.
func (c *Course) Polytropic(t, n float64) (State, error) {
	const fn = "expansion.Course"
	if t >= c.system.Coldest && t <= c.system.Hottest && n >= 1 && n <= 1.4 {
		return c.at(t, n)
	}
	return State{}, errors.Join(
		hydronics.Within(fn, "temperature", "°C", t, c.system.Coldest, c.system.Hottest, "the system's temperatures"),
		hydronics.Within(fn, "polytropic exponent", "", n, 1, 1.4, "ideal gas, isothermal to adiabatic"))
}

func (c *Course) at(t, n float64) (State, error) {
	f, err := c.system.fraction(t, c.rho)
	if err != nil {
		return State{}, err
	}
	w := c.water + c.system.Content*f
	if w < 0 || w == 0 && t != c.system.FillTemperature {
		return c.empty(t)
	}
	return c.holding(t, w, n)
}

// holding is the state with the water volume w in the vessel.
func (c *Course) holding(t, w, n float64) (State, error) {
	gas := c.vessel.Nominal - w
	if !(gas > 1e-6*c.vessel.Nominal) {
		return State{}, fmt.Errorf("expansion.Course: at %.4g °C %.4g l of water would fill the vessel of %.4g l: %w",
			t, w/hydronics.Litre, c.vessel.Nominal/hydronics.Litre, hydronics.ErrNoSolution)
	}
	p := c.p0 * c.vessel.Nominal / gas
	switch {
	case w == 0:
		p = min(c.filling, c.p0)
	case n != 1:
		start := c.vessel.Nominal - max(0, c.water)
		p = max(c.filling, c.p0) * math.Pow(start/gas, n)
	}
	return State{t, hydronics.GaugeOf(p, c.patm), w, gas, false}, nil
}

// empty is the state with a vapour pocket at the highest point.
func (c *Course) empty(t float64) (State, error) {
	rho, err := c.system.Liquid.Density(t)
	if err != nil {
		return State{}, err
	}
	pv := 0.0 // ice point and below: less than 0.7 kPa
	if t > 0 {
		if pv, err = fluid.SaturationPressure(t); err != nil {
			return State{}, err
		}
	}
	p := pv + rho*hydronics.StandardGravity*c.system.StaticHead
	return State{t, hydronics.GaugeOf(min(p, c.p0), c.patm), 0, c.vessel.Nominal, true}, nil
}

// A Cycle is what one heating-up to the hottest temperature and the cooling-down
// after it do to a filled system, with the relief valve in play.
type Cycle struct {
	Hot     State   // at the hottest temperature; with the valve open, at its set pressure
	Lifts   bool    // the relief valve lifts on the way
	LiftsAt float64 // °C, where it lifts; 0 if it does not
	Lost    float64 // m³ of liquid lost through it, as it stands in the vessel
	Filling State   // back at the filling temperature
	Coldest State   // and down to the coldest
}

// Cycle heats c up to the hottest temperature, lets the relief valve hold its set
// pressure, cools down to the filling temperature and on to the coldest. A vessel
// with a wrong or a lost pre-charge, or one too small, spills water on the first
// day and lacks it on the first night.
//
// A relief valve so far below the vessel that the weight of the liquid alone opens it
// gets an error that matches [hydronics.ErrNoSolution].
func (c *Course) Cycle() (Cycle, error) {
	var y Cycle
	s := &c.system
	set, err := s.atVessel(s.ReliefSet, c.rho)
	if err != nil {
		return Cycle{}, err
	}
	f, err := s.fraction(s.Hottest, c.rho)
	if err != nil {
		return Cycle{}, err
	}
	room := max(0, c.vessel.Nominal*(1-c.p0/set.Abs(c.patm))) // water that the vessel takes before the valve lifts
	w := c.water + s.Content*f
	if w > room {
		y.Lifts, y.Lost = true, w-room
		if y.LiftsAt, err = c.reaches(room); err != nil {
			return Cycle{}, err
		}
		y.Hot = State{s.Hottest, set, room, c.vessel.Nominal - room, false}
	} else if y.Hot, err = c.at(s.Hottest, 1); err != nil {
		return Cycle{}, err
	}
	cool := c.drained(y.Lost)
	if y.Filling, err = cool.at(s.FillTemperature, 1); err != nil {
		return Cycle{}, err
	}
	y.Coldest, err = cool.at(s.Coldest, 1)
	return y, err
}

// Drained returns the course after a volume in m³, 0 to the content, has left the
// system by a relief valve, a leak or a vent; the volume as it stood in the vessel.
func (c *Course) Drained(volume float64) (Course, error) {
	err := hydronics.Within("expansion.Course.Drained", "volume", "m³", volume, 0, c.system.Content, "the content")
	if err != nil {
		return Course{}, err
	}
	return c.drained(volume), nil
}

func (c *Course) drained(volume float64) Course {
	d := *c
	if volume > 0 {
		d.water -= volume // negative: missing in the system
		d.filling = c.p0 * c.vessel.Nominal / (c.vessel.Nominal - max(0, d.water))
	}
	return d
}

// reaches returns the temperature above filling at which the vessel holds the
// volume w of water, which lies between those of filling and hottest.
func (c *Course) reaches(w float64) (float64, error) {
	lo, hi := c.system.FillTemperature, c.system.Hottest
	if w <= c.water {
		return lo, nil
	}
	// The volume has one minimum, so it crosses w once on its way up.
	return numeric.Root(func(t float64) float64 {
		f, _ := c.system.fraction(t, c.rho) // NaN with an error, which Root reports
		return c.water + c.system.Content*f - w
	}, lo, hi, 1e-6)
}

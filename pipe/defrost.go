package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A ShortestRun asks for the content with which a heat pump runs at least a
// given time before the water has warmed by the swing of its control.
//
// The content counts as mixed: at any moment all of it has one temperature,
// which rises from From to To. Take both at the same place, return or supply,
// with the unit running: the spread of the unit is no part of the swing. Pipes
// and layered buffers do not mix; there the control sees the rise in steps, one
// passage of the content apart, and the run ends up to one passage away from
// the time asked for.
type ShortestRun struct {
	Output   float64 // of the unit at its lowest stage on the warmest day, W, 0 to 1e9 (guard)
	Load     float64 // drawn by the house meanwhile, W, not above Output
	Time     float64 // s, up to a day
	From, To float64 // °C, by 0.1 to 300 K upwards (guard)
}

// Content returns the least content that must circulate, in m³:
//
//	V = (Output - Load) Time/(ρ c (To - From))
//
// with the properties of the liquid at the mean of the two temperatures. The
// content counts as mixed, all of it warming alike from From to To. What the
// unit's flow does not reach stores nothing, and where hot water passes by the
// rest and comes back too soon the unit runs for less than Time.
// Source: energy balance of mixed water; J. Siegenthaler, formula for the buffer
// of a heat source, gives the same.
func (s ShortestRun) Content(l fluid.Liquid) (float64, error) {
	const fn = "pipe.ShortestRun.Content"
	if err := errors.Join(within(fn, "output", "W", s.Output, 0, maxPower),
		within(fn, "load", "W", s.Load, 0, s.Output),
		within(fn, "running time", "s", s.Time, 0, hydronics.Day),
		within(fn, "rise of temperature", "K", s.To-s.From, minSpread, maxSpread)); err != nil {
		return math.NaN(), err
	}
	p, err := l.At((s.From + s.To) / 2)
	if err != nil {
		return math.NaN(), err
	}
	return (s.Output - s.Load) * s.Time / p.HeatCapacityRate(s.To-s.From), nil
}

// A Defrost is one defrosting of an outdoor coil with heat from the heating
// water: every term of its energy balance. Where the maker states the heat that
// a defrost takes from the water, put it into Stated and leave the terms of
// the coil 0. The limits are guards.
type Defrost struct {
	Frost            float64 // mass of ice on the coil, kg, up to 1000
	FrostTemperature float64 // °C, -60 to 0
	Coil             float64 // heat to warm the coil and the refrigerant, J, 0 to 1e12 (guard)
	Stated           float64 // heat taken from the water as stated by the maker, J, 0 to 1e12 (guard)
	Input            float64 // electric power that goes into the refrigerant, W, 0 to 1e9 (guard): it helps
	Load             float64 // heat drawn by the house meanwhile, W, 0 to 1e9 (guard)
	Backup           float64 // electric heater in the water that runs meanwhile, W, 0 to 1e9 (guard): it helps
	Time             float64 // s, up to 1 h

	Start  float64 // of the water, °C, at the least favourable moment: just before the control calls for heat
	Lowest float64 // to which the unit lets the water fall, °C, below Start by 0.1 to 300 K
}

// A DefrostBalance shows where the heat of a defrost goes to and comes from.
type DefrostBalance struct {
	Warming float64 // of the frost to 0 °C, J
	Melting float64 // J
	Coil    float64 // J
	Stated  float64 // J
	Load    float64 // J
	Input   float64 // J, negative: it helps
	Backup  float64 // J, negative: it helps
	Water   float64 // sum: heat that the water gives, J, 0 if the rest suffices

	Required float64           // least content that circulates, m³
	Buffer   float64           // what is missing of it, m³
	End      float64           // temperature of the water afterwards with the content there is, °C
	Finding  hydronics.Finding // whether it ends above Lowest
}

// Ice at its melting point, IAPWS R10-06 (2009): melting enthalpy and specific
// heat at 0 °C and one atmosphere.
const (
	meltingHeat     = 333.43e3 // J/kg
	iceSpecificHeat = 2096.7   // J/(kg·K); 1.8 % less at -5 °C, so that Warming from there is 0.9 % too high
)

// Balance returns the energy balance of the defrost with the content that
// circulates in m³ (1e-6 to 1000, guard: [LeastContent]), counted as mixed:
//
//	Q = m (c_ice (0 - t_frost) + L) + Coil + Stated + (Load - Input - Backup) Time
//	Required = Q/(ρ c (Start - Lowest)),  End = Start - Q/(ρ c V)
//
// with the properties of the liquid midway between Start and Lowest. End may
// lie far below Lowest: the unit stops the defrost before. A pipe does not mix:
// if the content passes the unit only once during a defrost, what has not
// passed yet did not give its heat.
// Source: energy balance; ice after IAPWS R10-06(2009).
func (d Defrost) Balance(content float64, l fluid.Liquid) (DefrostBalance, error) {
	const fn = "pipe.Defrost.Balance"
	if err := errors.Join(within(fn, "circulating content", "m³", content, 1e-6, maxVolume),
		within(fn, "mass of frost", "kg", d.Frost, 0, 1000),
		within(fn, "temperature of the frost", "°C", d.FrostTemperature, -60, 0),
		within(fn, "heat to the coil", "J", d.Coil, 0, maxHeat),
		within(fn, "stated heat", "J", d.Stated, 0, maxHeat),
		within(fn, "electric input", "W", d.Input, 0, maxPower),
		within(fn, "load", "W", d.Load, 0, maxPower),
		within(fn, "backup heater", "W", d.Backup, 0, maxPower),
		within(fn, "duration", "s", d.Time, 0, hydronics.Hour),
		within(fn, "fall of temperature from start to lowest", "K", d.Start-d.Lowest, minSpread, maxSpread)); err != nil {
		return DefrostBalance{}, err
	}
	p, err := l.At((d.Start + d.Lowest) / 2)
	if err != nil {
		return DefrostBalance{}, err
	}
	b := DefrostBalance{
		Warming: d.Frost * iceSpecificHeat * (0 - d.FrostTemperature),
		Melting: d.Frost * meltingHeat,
		Coil:    d.Coil, Stated: d.Stated,
		Load: d.Load * d.Time, Input: -d.Input * d.Time, Backup: -d.Backup * d.Time,
	}
	b.Water = max(0, b.Warming+b.Melting+b.Coil+b.Stated+b.Load+b.Input+b.Backup)
	perVolume := p.HeatCapacityRate(1) // J/(m³·K)
	b.Required = b.Water / (perVolume * (d.Start - d.Lowest))
	b.Buffer = max(0, b.Required-content)
	b.End = d.Start - b.Water/(perVolume*content)
	b.Finding = hydronics.Finding{
		Rule: "the water ends the defrost above the unit's lowest temperature", Subject: "circulating content",
		Danger:   "the unit breaks the defrost off, or its heat exchanger freezes and bursts",
		Quantity: "temperature after the defrost", Unit: "°C", Bound: hydronics.AtLeast,
		Value: b.End, Limit: d.Lowest,
		Source: hydronics.Source{Text: "conservation of energy; the lowest temperature is for the unit's maker to state", Provenance: hydronics.Original},
	}.Judge()
	return b, nil
}

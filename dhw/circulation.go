package dhw

import (
	"math"

	"example.com/hydronics"
)

// A Circulation is a loop, or a stretch of it, through which hot water is pumped so
// that it stays hot.
type Circulation struct {
	Length         float64 // m of pipe, 0.01 to 10000 (guard)
	Transmittance  float64 // W/(m·K), heat flow per metre and kelvin of the insulated pipe, 0.01 to 10 (guard): see package frost
	Ambient        float64 // °C around the pipe, -40 to 60
	Supply         float64 // °C at the start, 0 to 100, above Ambient
	VolumetricHeat float64 // J/(m³·K), 3.8e6 to 4.3e6 (guard)
}

func (c Circulation) check(fn string) error {
	return together(hydronics.Within(fn, "length", "m", c.Length, 0.01, 10000, hydronics.Guard),
		hydronics.Within(fn, "transmittance", "W/(m·K)", c.Transmittance, 0.01, 10, hydronics.Guard),
		air(fn, c.Ambient), above(fn, "supply", c.Supply, c.Ambient), water(fn, "supply", c.Supply), heat(fn, c.VolumetricHeat))
}

// A CirculationFlow is the flow for a permitted drop, exact and by the two methods
// that are used by hand.
type CirculationFlow struct {
	Flow  float64 // m³/s, exact
	Mean  float64 // m³/s, with the loss at the mean temperature; a little too large
	Inlet float64 // m³/s, with the loss at the supply temperature; on the safe side
	Loss  float64 // W, exact
}

// Flow returns the flow that keeps the end of the pipe at a temperature in °C,
// at least 0.1 K above the ambient and 0.1 K below the supply:
//
//	ρc V = U L/ln((T_supply - T_ambient)/(T_end - T_ambient))
//
// Fields outside their limits return a [hydronics.RangeError].
//
// Source: energy balance of a pipe with a constant transmittance; the inlet form is
// ETL 1110-3-489 (US Army Corps of Engineers, 1998), equations 3 and 4.
func (c Circulation) Flow(end float64) (CirculationFlow, error) {
	const fn = "dhw.Circulation.Flow"
	if err := c.check(fn); err != nil {
		return CirculationFlow{}, err
	}
	err := hydronics.Within(fn, "temperature at the end", "°C", end, c.Ambient+smallestRise, c.Supply-smallestRise, "between ambient and supply")
	if err != nil {
		return CirculationFlow{}, err
	}
	ul := c.Transmittance * c.Length
	first, last := c.Supply-c.Ambient, end-c.Ambient
	drop := c.Supply - end
	rate := -ul / math.Log1p(-drop/first) // W/K; ln(first/last) = -ln(1 - drop/first)
	return CirculationFlow{
		Flow:  rate / c.VolumetricHeat,
		Mean:  ul * (first + last) / 2 / drop / c.VolumetricHeat,
		Inlet: ul * first / drop / c.VolumetricHeat,
		Loss:  rate * drop,
	}, nil
}

// End returns the temperature in °C at the end of the pipe for a flow in m³/s, 1e-7
// to 0.1 (guard):
//
//	T_end = T_ambient + (T_supply - T_ambient) exp(-U L/(ρc V))
//
// Outside the limits it returns NaN and a [hydronics.RangeError].
//
// Source: energy balance of a pipe with a constant transmittance, as for
// [Circulation.Flow].
func (c Circulation) End(flow float64) (float64, error) {
	const fn = "dhw.Circulation.End"
	err := together(c.check(fn), hydronics.Within(fn, "flow", "m³/s", flow, minFlow, maxFlow, hydronics.Guard))
	if err != nil {
		return math.NaN(), err
	}
	return c.Ambient + (c.Supply-c.Ambient)*math.Exp(-c.Transmittance*c.Length/(flow*c.VolumetricHeat)), nil
}

// Findings judges a loop whose water comes back with the temperature end in °C, as
// for [Circulation.Flow]: the drop from the cylinder and back, and the loss per
// metre, by DVGW W 551 and W 553. The latter is from memory and never reads met.
//
// Source: DVGW W 551 (drop, as attributed); DVGW W 553 (loss, from memory).
func (c Circulation) Findings(end float64) ([]hydronics.Finding, error) {
	f, err := c.Flow(end)
	if err != nil {
		return nil, err
	}
	const danger = "a loop that cools too far breeds legionella"
	return []hydronics.Finding{
		hydronics.Finding{Rule: "water cools by at most 5 K around the loop", Subject: "circulation", Danger: danger,
			Quantity: "temperature drop", Unit: "K", Bound: hydronics.AtMost, Value: c.Supply - end, Limit: 5,
			Source: W551.source("drop from store outlet to return", hydronics.SecondHand)}.Judge(),
		hydronics.Finding{Rule: "pipe loses at most 11 W/m", Subject: "circulation", Danger: danger + ", and one that loses too much cannot be kept hot",
			Quantity: "heat loss per length", Unit: "W/m", Bound: hydronics.AtMost, Value: f.Loss / c.Length, Limit: 11,
			Source: hydronics.Source{Text: "DVGW W 553, estimate for pipes in a cellar", Provenance: hydronics.FromMemory}}.Judge(),
	}, nil
}

// BranchFlow returns the flow in m³/s that turns into a branch where a circulated
// pipe divides, for the flow in m³/s before it and the heat losses in W of the
// branch and of all that follows straight on, both with their returns:
//
//	V_branch = V Q_branch/(Q_branch + Q_through)
//
// Divided so, both ways cool by the same, and both returns come back with one
// temperature. The rest of the flow goes straight on. The losses may be 0 to 1e6 W,
// not both 0 (guards); otherwise it returns NaN and a [hydronics.RangeError].
//
// Source: energy balance; the same rule is in DVGW W 553 (from memory).
func BranchFlow(flow, branch, through float64) (float64, error) {
	const fn = "dhw.BranchFlow"
	err := together(hydronics.Within(fn, "flow", "m³/s", flow, 0, maxFlow, hydronics.Guard),
		hydronics.Within(fn, "loss of the branch", "W", branch, 0, maxPower, hydronics.Guard),
		hydronics.Within(fn, "loss straight on", "W", through, 0, maxPower, hydronics.Guard))
	if err == nil {
		err = hydronics.Within(fn, "loss of both", "W", branch+through, 1e-6, 2*maxPower, hydronics.Guard)
	}
	if err != nil {
		return math.NaN(), err
	}
	return flow * branch / (branch + through), nil
}

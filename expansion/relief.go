package expansion

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A Valve is a relief valve as its certificate states it.
type Valve struct {
	Set               hydronics.Gauge // Pa gauge, set pressure, 0.5 to 25 bar (guard)
	Area              float64         // m², narrowest flow area, 5e-6 to 0.01 (guard)
	Coefficient       float64         // certified discharge coefficient for steam and gas, derated; 0.05 to 0.975
	LiquidCoefficient float64         // the same for liquids; 0: not stated
	Overpressure      float64         // share of the set pressure at which it is fully open, 0 to 0.25
	DN                int             // nominal size of the inlet in mm; 0: not stated, and then not judged
}

// Derated returns the discharge coefficient to size with, 0.9 times the one
// measured (0.05 to 1). Source: ISO 4126-1, Kdr = 0.9 Kd, attributed.
func Derated(measured float64) (float64, error) {
	if err := hydronics.Within("expansion.Derated", "measured discharge coefficient", "", measured, 0.05, 1, "ISO 4126-1 (lower end: "+hydronics.Guard+")"); err != nil {
		return math.NaN(), err
	}
	return 0.9 * measured, nil
}

// A SteamRelief is what a valve discharges when the water behind it boils.
type SteamRelief struct {
	PressureAbs float64 // Pa absolute, at full lift: set pressure and overpressure
	Temperature float64 // °C, boiling there
	LatentHeat  float64 // J/kg
	MassFlow    float64 // kg/s, certified
	Heat        float64 // W that leave with the steam: the heat output that the valve protects
	Critical    bool
}

// Steam returns the certified discharge of v in dry saturated steam into the back
// pressure (gauge, 0 for an open outlet), under an atmosphere in Pa absolute, 0 for
// the standard one, from 50 kPa to 2 MPa absolute at full lift. This is the criterion for the valve of a heat source: its whole
// output must be able to leave as steam.
//
//	q = Kdr A G,  P = q r
//
// The German rule P = 1.26 kW/mm² × αw A for a valve of 3 bar is this equation
// without overpressure.
//
// Source: ISO 4126-7 for the flow, as attributed; VdTÜV Merkblatt Sicherheitsventil
// 100 and TRD 721 for the criterion. Steam by IAPWS-IF97.
func (v Valve) Steam(back hydronics.Gauge, atmospherePa float64) (SteamRelief, error) {
	r, _, err := v.steam(back, atmospherePa)
	return r, err
}

// steam is Steam, with the steam before the valve.
func (v *Valve) steam(back hydronics.Gauge, atmospherePa float64) (SteamRelief, fluid.State, error) {
	const fn = "expansion.Valve.Steam"
	patm, err := v.check(fn, atmospherePa)
	if err := errors.Join(err, hydronics.Within(fn, "discharge coefficient for steam", "", v.Coefficient, 0.05, 0.975, "API 520 part I (lower end: "+hydronics.Guard+")")); err != nil {
		return SteamRelief{}, fluid.State{}, err
	}
	p := v.open().Abs(patm)
	s, err := saturated(fn, p)
	if err != nil {
		return SteamRelief{}, fluid.State{}, err
	}
	g, err := Gas{p, 1 / s.Steam.Density, steamExponent}.Flux(back.Abs(patm))
	if err != nil {
		return SteamRelief{}, fluid.State{}, err
	}
	q := v.Coefficient * v.Area * g.Mass
	return SteamRelief{p, s.Temperature, s.LatentHeat, q, q * s.LatentHeat, g.Critical}, s.Steam, nil
}

// open is the pressure at full lift.
func (v *Valve) open() hydronics.Gauge { return v.Set * hydronics.Gauge(1+v.Overpressure) }

func (v *Valve) check(fn string, atmospherePa float64) (patm float64, err error) {
	patm, err = atmosphere(fn, atmospherePa)
	return patm, errors.Join(err,
		hydronics.Within(fn, "set pressure", "Pa", float64(v.Set), 0.5*hydronics.Bar, 25*hydronics.Bar, hydronics.Guard),
		hydronics.Within(fn, "flow area", "m²", v.Area, 5e-6, 0.01, hydronics.Guard),
		hydronics.Within(fn, "overpressure", "", v.Overpressure, 0, 0.25, hydronics.Guard))
}

// A LiquidRelief is what a valve discharges while the liquid stays liquid.
type LiquidRelief struct {
	MassFlow   float64 // kg/s
	VolumeFlow float64 // m³/s
	Reynolds   float64 // in the narrowest section
	Viscosity  float64 // correction factor, 1 for thin liquids
}

// Liquid returns the certified discharge of v in a liquid into the back pressure
// (gauge). Filling through a stuck filling valve and thermal expansion are judged
// with it, never the heat output of a source.
//
//	q = Kdr Kv A √(2 ρ (p - pb)),  Kv = 1/√(1 + 170/Re)
//
// Re is that of the flow itself, so that the quadratic for Kv is solved and not
// iterated. Source: ISO 4126-7 form, attributed; Kv from API 520 part I, 10th edition.
func (v Valve) Liquid(p fluid.Properties, back hydronics.Gauge) (LiquidRelief, error) {
	const fn = "expansion.Valve.Liquid"
	_, err := v.check(fn, 0)
	if err := errors.Join(err,
		hydronics.Within(fn, "discharge coefficient for liquid", "", v.LiquidCoefficient, 0.05, 0.975, "API 520 part I (lower end: "+hydronics.Guard+")"),
		hydronics.Within(fn, "density", "kg/m³", p.Density, 500, 1500, hydronics.Guard),
		hydronics.Within(fn, "dynamic viscosity", "Pa·s", p.DynamicViscosity, 1e-4, 10, hydronics.Guard),
		hydronics.Within(fn, "back pressure", "Pa", float64(back), 0, float64(v.open()), "at most the opening pressure")); err != nil {
		return LiquidRelief{}, err
	}
	ideal := v.LiquidCoefficient * v.Area * math.Sqrt(2*p.Density*float64(v.open()-back))
	if ideal == 0 {
		return LiquidRelief{Viscosity: 1}, nil
	}
	diameter := math.Sqrt(4 * v.Area / math.Pi)
	re := ideal * diameter / (v.Area * p.DynamicViscosity) // without correction
	a := 85 / re                                           // Kv² + 2a Kv - 1 = 0
	kv := 1 / (a + math.Sqrt(a*a+1))
	return LiquidRelief{ideal * kv, ideal * kv / p.Density, re * kv, kv}, nil
}

// A HeatSource is one thing that can heat a circuit.
type HeatSource struct {
	Name   string
	Output float64 // W, highest output it can have, 1 W to 10 MW (guard): leave out a source that gives nothing
}

// TotalOutput returns the sum in W of every source that can run, at the same time
// or not: heat pump at its best operating point, immersion and back-up heaters,
// boilers, solar loops and stoves that reach the circuit. Controls that keep two of
// them apart fail, and the relief valve is there for the day they do.
func TotalOutput(sources ...HeatSource) (float64, error) {
	const fn = "expansion.TotalOutput"
	if len(sources) == 0 {
		return math.NaN(), fmt.Errorf("%s: no heat source given: %w", fn, hydronics.ErrRange)
	}
	var total float64
	var errs []error
	for _, s := range sources {
		if !(s.Output >= 1 && s.Output <= 1e7) {
			errs = append(errs, hydronics.Within(fn, "output of "+s.Name, "W", s.Output, 1, 1e7, hydronics.Guard))
		}
		total += s.Output
	}
	if err := errors.Join(errs...); err != nil {
		return math.NaN(), err
	}
	return total, nil
}

// A ReliefSize is one row of a published table of relief valves by heat output.
type ReliefSize struct {
	DN       int     // inlet
	OutletDN int     // outlet and least discharge pipe
	Heat     float64 // W, highest output
}

var heatingSizes = [...]ReliefSize{
	{15, 20, 50e3}, {20, 25, 100e3}, {25, 32, 200e3}, {32, 40, 350e3}, {40, 50, 600e3}, {50, 65, 900e3},
}

var heatingSizeSource = hydronics.Source{
	Text:       "DIN 4751-2, TRD 721 and VdTÜV Merkblatt Sicherheitsventil 100: valve size by heat output at 2.5 or 3 bar",
	Provenance: hydronics.FromMemory,
}

// ReliefSizes returns the table of heating relief valves by heat output, for set
// pressures of 2.5 and 3 bar, and its source. The table is from memory: only DN 15
// for 50 kW was seen, in a worked example. Size with [Valve.Steam] and a certified
// area and coefficient; the table is for a first guess and for comparison.
// Source: DIN 4751-2, TRD 721 and VdTÜV Merkblatt Sicherheitsventil 100, from memory.
func ReliefSizes() ([]ReliefSize, hydronics.Source) {
	return append([]ReliefSize(nil), heatingSizes[:]...), heatingSizeSource
}

// ReliefSizeFor returns the smallest valve of [ReliefSizes] for a heat output in W,
// 1 W to 10 MW (guard); beyond the table [hydronics.ErrNoSolution].
// Source: the table of [ReliefSizes], from memory.
func ReliefSizeFor(heat float64) (ReliefSize, error) {
	const fn = "expansion.ReliefSizeFor"
	if err := hydronics.Within(fn, "heat output", "W", heat, 1, 1e7, hydronics.Guard); err != nil {
		return ReliefSize{}, err
	}
	for _, s := range heatingSizes {
		if heat <= s.Heat {
			return s, nil
		}
	}
	return ReliefSize{}, fmt.Errorf("%s: %.4g kW are beyond the table's end at %.4g kW: %w",
		fn, heat/hydronics.Kilowatt, heatingSizes[len(heatingSizes)-1].Heat/hydronics.Kilowatt, hydronics.ErrNoSolution)
}

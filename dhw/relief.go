package dhw

import (
	"fmt"

	"example.com/hydronics"
)

// A ReliefValve is one size of the table of relief valves for closed heaters of
// potable water. The nominal size is that of the inlet.
type ReliefValve struct {
	DN        int     // nominal size of the inlet, mm
	Bore      float64 // m, least flow diameter before the seat
	MaxVolume float64 // m³, largest water content of the heater
	MaxHeat   float64 // W, largest heat input
}

// Rows in rising order; volume ranges exclude their lower and include their upper limit.
var reliefValves = [...]ReliefValve{
	{15, 12 * hydronics.Millimetre, 200 * hydronics.Litre, 75 * hydronics.Kilowatt},
	{20, 14 * hydronics.Millimetre, 1000 * hydronics.Litre, 150 * hydronics.Kilowatt},
	{25, 18 * hydronics.Millimetre, 5000 * hydronics.Litre, 250 * hydronics.Kilowatt},
}

// The German rule for steam boilers and heaters was withdrawn in 2013; its table
// lives on in DIN 4753-1 and DIN 1988-200.
var reliefValveSource = hydronics.Source{
	Text:       "TRD 721, Tafel 4 (withdrawn 2013; the same table in DIN 4753-1 and DIN 1988-200)",
	Provenance: hydronics.SecondHand,
}

// ReliefValves returns the sizes, smallest first, and their source.
func ReliefValves() ([]ReliefValve, hydronics.Source) {
	return append([]ReliefValve(nil), reliefValves[:]...), reliefValveSource
}

// ReliefValveFor returns the smallest relief valve for a closed cylinder of a
// water content in m³ (above 0) and a heat input in W (at least 0), whichever of
// the two asks for more. Both count: a small cylinder with a large coil needs
// the valve of its coil. Beyond 5 m³ or 250 kW the table ends, and the valve is
// to be sized on its own: [hydronics.ErrNoSolution].
//
// A relief valve that is too small, blocked or shut off lets a heated cylinder
// burst. Which document binds is for the local code and a licensed person to say.
//
// Source: TRD 721, Tafel 4 (withdrawn 2013), as attributed; the same table is
// in DIN 4753-1 and DIN 1988-200.
func ReliefValveFor(content, heatInput float64) (ReliefValve, error) {
	const fn = "dhw.ReliefValveFor"
	err := together(hydronics.Within(fn, "cylinder volume", "m³", content, 1e-4, 100, hydronics.Guard),
		hydronics.Within(fn, "heat input", "W", heatInput, 0, 1e7, hydronics.Guard))
	if err != nil {
		return ReliefValve{}, err
	}
	for _, v := range reliefValves {
		if content <= v.MaxVolume && heatInput <= v.MaxHeat {
			return v, nil
		}
	}
	last := reliefValves[len(reliefValves)-1]
	return ReliefValve{}, fmt.Errorf("%w: %s: %.4g m³ and %.4g W are beyond the table's end at %.4g m³ and %.4g W; the valve has to be sized by itself",
		hydronics.ErrNoSolution, fn, content, heatInput, last.MaxVolume, last.MaxHeat)
}

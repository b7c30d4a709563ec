package dhw

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// StaticHead returns the pressure difference in Pa over a height in m, -1000 to
// 1000 (guard), of water of a temperature in °C, 0 to 100: ρ g h. Rule of thumb:
// 9.8 kPa a metre. Outside the limits it returns NaN and a [hydronics.RangeError].
//
// Source: hydrostatics; density of [fluid.Water].
func StaticHead(height, temperature float64) (float64, error) {
	const fn = "dhw.StaticHead"
	err := together(hydronics.Within(fn, "height", "m", height, -1000, 1000, hydronics.Guard), water(fn, "water", temperature))
	if err != nil {
		return math.NaN(), err
	}
	density, err := fluid.Water().Density(temperature)
	if err != nil {
		return math.NaN(), err
	}
	return density * hydronics.StandardGravity * height, nil
}

// A PressureLoss is one device that takes pressure at the peak flow.
type PressureLoss struct {
	Name string
	Loss float64 // Pa at the peak flow, 0 to 2e6 (guard)
}

// A PressureBudget adds up what the pressure of the main has to cover on the way
// to one tap; do it for the tap that is highest or farthest.
type PressureBudget struct {
	Main        hydronics.Gauge // Pa above the atmosphere, least pressure of the main, or the reducer's setting, 0.2 to 20 bar (guard)
	Height      float64         // m of the tap above the point where Main is known, -1000 to 1000 (guard)
	Temperature float64         // °C of the water, for its density, 0 to 100
	Devices     []PressureLoss  // meter, filter, backflow preventer, heat exchanger, mixing valve, at most 100
	Tap         hydronics.Gauge // Pa above the atmosphere that the tap needs while it flows, 0 to 1 MPa (guard): see DrawPoints
	Pipes       float64         // Pa, loss of pipes and fittings at the peak flow, 0 to 2e6 (guard)
	Length      float64         // m of pipe to the tap, above 0 to 1000 (guard)
}

// A BudgetResult is a pressure budget added up.
type BudgetResult struct {
	Static    float64 // Pa, taken by the height
	Devices   float64 // Pa, taken by the devices
	Available float64 // Pa, left for pipes and fittings; negative if the rest takes too much
	Gradient  float64 // Pa/m, Available over the length of pipe
	Left      float64 // Pa, Available less the pipes' loss
}

// Sum adds up the budget:
//
//	available = main - static - devices - tap,  left = available - pipes
//
// Fields outside their limits return a [hydronics.RangeError].
//
// Source: International Plumbing Code, Appendix E, segmented loss method (steps,
// as attributed); DIN 1988-300.
func (b PressureBudget) Sum() (BudgetResult, error) {
	const fn = "dhw.PressureBudget.Sum"
	if err := count(fn, "devices", len(b.Devices), 0, 100); err != nil {
		return BudgetResult{}, err
	}
	static, err := StaticHead(b.Height, b.Temperature)
	err = together(err, gauge(fn, "main", b.Main),
		hydronics.Within(fn, "flow pressure of the tap", "Pa", float64(b.Tap), 0, 1*hydronics.Megapascal, hydronics.Guard),
		hydronics.Within(fn, "loss of the pipes", "Pa", b.Pipes, 0, 2*hydronics.Megapascal, hydronics.Guard),
		hydronics.Within(fn, "length of pipe", "m", b.Length, 1e-3, 1000, hydronics.Guard))
	r := BudgetResult{Static: static}
	for i, d := range b.Devices {
		if e := hydronics.Within(fn, "loss of a device", "Pa", d.Loss, 0, 2*hydronics.Megapascal, hydronics.Guard); e != nil {
			err = together(err, fmt.Errorf("device %d: %w", i+1, e))
		}
		r.Devices += d.Loss
	}
	if err != nil {
		return BudgetResult{}, err
	}
	r.Available = float64(b.Main) - r.Static - r.Devices - float64(b.Tap)
	r.Gradient = r.Available / b.Length
	r.Left = r.Available - b.Pipes
	return r, nil
}

// Finding judges whether the budget closes: pipes and fittings take no more than
// what is available. The rule is arithmetic; its source is the method.
func (b PressureBudget) Finding() (hydronics.Finding, error) {
	r, err := b.Sum()
	if err != nil {
		return hydronics.Finding{}, err
	}
	return hydronics.Finding{Rule: "the pressure of the main reaches the tap", Subject: "worst tap",
		Danger:   "a tap that starves draws from its neighbours, and mixing valves run hot or cold",
		Quantity: "loss of pipes and fittings", Unit: "Pa", Bound: hydronics.AtMost, Value: b.Pipes, Limit: r.Available,
		Source: hydronics.Source{Text: "International Plumbing Code, Appendix E, segmented loss method", Provenance: hydronics.SecondHand}}.Judge(), nil
}

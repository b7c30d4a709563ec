package dhw

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// PlugFlow as the Nodes of a Cylinder means water that is drawn without mixing
// at all: the upper bound of what a cylinder can give, which none reaches.
const PlugFlow = -1

// MaxNodes is the greatest number of layers of a Cylinder.
const MaxNodes = 100

// A Cylinder is a store of potable water, seen as Nodes layers of equal volume
// on top of each other, each fully mixed. One layer is a fully mixed store; the
// more layers, the sharper the boundary between hot and cold. How many fit a
// cylinder is found from a measured draw-off, not from its drawing.
type Cylinder struct {
	Volume          float64 // m³ of water, 0.001 to 10 (guard)
	Nodes           int     // layers, 1 to MaxNodes, or PlugFlow where a method says so
	VolumetricHeat  float64 // J/(m³·K), ρ·c of the water, 3.8e6 to 4.3e6 (guard); see VolumetricHeat
	LossCoefficient float64 // W/K, standing loss per kelvin above the room, 0 to 100 (guard); see LossCoefficient
}

// thermal checks the fields that count when heat is counted.
func (c Cylinder) thermal(fn string) error {
	return together(volume(fn, "cylinder volume", c.Volume), heat(fn, c.VolumetricHeat),
		hydronics.Within(fn, "loss coefficient", "W/K", c.LossCoefficient, 0, 100, hydronics.Guard))
}

// capacity returns the heat that warms the whole cylinder by one kelvin, in J/K.
func (c Cylinder) capacity() float64 { return c.Volume * c.VolumetricHeat }

// VolumetricHeat returns the heat that warms a cubic metre of water by one
// kelvin, in J/(m³·K): density times specific heat at the mean of the
// temperatures cold and hot, both in °C from 0 to 100 (guard). Standards and
// textbooks take constants between 4.168e6 and 4.2e6; to meet a published
// example, give its own. Outside the limits it returns NaN and a
// [hydronics.RangeError].
//
// Source: [fluid.Water], IAPWS-IF97.
func VolumetricHeat(cold, hot float64) (float64, error) {
	const fn = "dhw.VolumetricHeat"
	if err := together(water(fn, "cold water", cold), water(fn, "hot water", hot)); err != nil {
		return math.NaN(), err
	}
	p, err := fluid.Water().At((cold + hot) / 2)
	if err != nil {
		return math.NaN(), err
	}
	return p.Density * p.SpecificHeat, nil
}

// LossCoefficient returns the loss coefficient in W/K of a cylinder whose
// standing loss in W, from 0 to 2000 (guard), was declared for water of 65 °C
// in a room of 20 °C: the loss divided by 45 K. Outside it returns NaN and a
// [hydronics.RangeError].
//
// Source: Commission Delegated Regulation (EU) No 812/2013 (test conditions
// from memory).
func LossCoefficient(standingLoss float64) (float64, error) {
	const fn = "dhw.LossCoefficient"
	if err := hydronics.Within(fn, "standing loss", "W", standingLoss, 0, 2000, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	return standingLoss / 45, nil
}

package frost

import (
	"errors"
	"math"

	"example.com/hydronics"
)

// A Medium is the water that stands in a tube, and the ice it becomes, with
// constant properties. The zero value is refused; [Water] is plain water.
// Antifreeze solutions have no single freezing point and are not a Medium.
type Medium struct {
	Density         float64 // kg/m³ of the liquid, 500 to 1500; the ice fills the same space in the calculation
	SpecificHeat    float64 // J/(kg·K) of the liquid, 1000 to 10 000
	Conductivity    float64 // W/(m·K) of the liquid, 0.05 to 5
	LatentHeat      float64 // J/kg released on freezing, 5e4 to 1e6
	IceSpecificHeat float64 // J/(kg·K) of the ice, 500 to 10 000
	IceConductivity float64 // W/(m·K) of the ice, 0.1 to 10
}

// Water returns plain water and ordinary ice near 0 °C. The specific heat is
// the lowest of liquid water between 0 and 60 °C, so that cooling times err on
// the short side, by 1 % at most.
//
// Sources: density and conductivity at 0 °C, IAPWS-95 and IAPWS R15-11; ice and
// latent heat, IAPWS R10-06(2009); conductivity of ice at 0 °C, rounded, from
// the textbooks (2.14 to 2.26 W/(m·K) are quoted; 2.2 is used here).
func Water() Medium {
	return Medium{
		Density:         999.8,
		SpecificHeat:    4180,
		Conductivity:    0.556,
		LatentHeat:      333.4e3,
		IceSpecificHeat: 2097,
		IceConductivity: 2.2,
	}
}

func (m *Medium) valid() bool {
	return m.Density >= 500 && m.Density <= 1500 &&
		m.SpecificHeat >= 1000 && m.SpecificHeat <= 1e4 &&
		m.Conductivity >= 0.05 && m.Conductivity <= 5 &&
		m.LatentHeat >= 5e4 && m.LatentHeat <= 1e6 &&
		m.IceSpecificHeat >= 500 && m.IceSpecificHeat <= 1e4 &&
		m.IceConductivity >= 0.1 && m.IceConductivity <= 10
}

func (m *Medium) check(fn string) error {
	if m.valid() {
		return nil
	}
	return errors.Join(
		hydronics.Within(fn, "density of the water", "kg/m³", m.Density, 500, 1500, hydronics.Guard),
		hydronics.Within(fn, "specific heat of the water", "J/(kg·K)", m.SpecificHeat, 1000, 1e4, hydronics.Guard),
		hydronics.Within(fn, "conductivity of the water", "W/(m·K)", m.Conductivity, 0.05, 5, hydronics.Guard),
		hydronics.Within(fn, "latent heat", "J/kg", m.LatentHeat, 5e4, 1e6, hydronics.Guard),
		hydronics.Within(fn, "specific heat of the ice", "J/(kg·K)", m.IceSpecificHeat, 500, 1e4, hydronics.Guard),
		hydronics.Within(fn, "conductivity of the ice", "W/(m·K)", m.IceConductivity, 0.1, 10, hydronics.Guard),
	)
}

// content returns the mass of water per metre of bore, in kg/m.
func (m Medium) content(bore float64) float64 { return m.Density * math.Pi * bore * bore / 4 }

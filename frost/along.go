package frost

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
)

// EndTemperature returns the temperature in °C at the end of a tube of the
// given length in m (0 to 1e5) into which a flow with the heat capacity rate in
// W/K (1e-6 to 1e9, [fluid.Properties.HeatCapacityRate]) enters at start °C:
//
//	T = Ta + (T₀ − Ta)·exp(−L/(R ṁ c))
//
// The resistance is the one of the heat flow; compute it at the mean of both
// ends where the surface coefficient depends on it.
// Source: any text on heat transfer; ISO 12241 has the same form.
func (f HeatFlow) EndTemperature(start, length, rate float64) (float64, error) {
	const fn = "frost.HeatFlow.EndTemperature"
	if err := joined(f.check(fn), checkTemperature(fn, "start temperature", start),
		hydronics.Within(fn, "length", "m", length, 0, 1e5, hydronics.Guard),
		hydronics.Within(fn, "heat capacity rate", "W/K", rate, 1e-6, 1e9, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	return f.Ambient + (start-f.Ambient)*math.Exp(-length/(f.Resistance*rate)), nil
}

// Trickle returns the least heat capacity rate in W/K that keeps the end of a
// tube of the given length in m (0.01 to 1e5) at end °C when start °C enters it:
// divide by ρ c for the flow in m³/s. It is 0 in surroundings that are not
// colder than the end. In a power cut nothing trickles without mains pressure,
// and what freezes at the outlet stops it.
//
//	ṁ c = L/(R ln((T₀ − Ta)/(T_end − Ta)))
//
// Source: [HeatFlow.EndTemperature] solved for the heat capacity rate.
func (f HeatFlow) Trickle(start, end, length float64) (float64, error) {
	const fn = "frost.HeatFlow.Trickle"
	if err := joined(f.check(fn), checkTemperature(fn, "start temperature", start),
		hydronics.Within(fn, "end temperature", "°C", end, coldest, start-1e-6, "below the start temperature"),
		hydronics.Within(fn, "length", "m", length, 0.01, 1e5, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	if f.Ambient >= end {
		return 0, nil
	}
	return length / (f.Resistance * math.Log((start-f.Ambient)/(end-f.Ambient))), nil
}

func (f HeatFlow) check(fn string) error {
	return joined(hydronics.Within(fn, "resistance", "m·K/W", f.Resistance, 1e-6, 1e6, hydronics.Guard),
		hydronics.Within(fn, "ambient temperature", "°C", f.Ambient, -273, 100, hydronics.Guard))
}

// TracePower returns the power in W/m of a heating cable that keeps a section
// at hold °C (0 to 80) in the air given, the loss multiplied by a factor of
// safety (1 to 2; 1.1 to 1.25 is used). It helps in a power cut only with a
// supply of its own.
//
// Source: form of IEC/IEEE 60079-30-2 and IEEE 515, from memory.
func (s Section) TracePower(hold, factor float64, air Air) (float64, error) {
	const fn = "frost.Section.TracePower"
	if err := joined(hydronics.Within(fn, "temperature to hold", "°C", hold, 0, 80, hydronics.Guard),
		hydronics.Within(fn, "factor of safety", "", factor, 1, 2, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	f, err := s.HeatFlow(hold, air)
	if err != nil {
		return math.NaN(), err
	}
	return max(0, f.PerMetre) * factor, nil
}

const thinnest, thickest = 1e-4, 0.5 // m of insulation that is looked for

// ThicknessForHeatFlow returns the thickness in m (0.0001 to 0.5) of the layer
// with the given index with which the section loses at most most W/m from
// inside °C. Thin insulation on a thin tube can raise the loss; the thickness
// returned lies beyond that hump.
// Source: [Section.HeatFlow] solved for the thickness.
func (s Section) ThicknessForHeatFlow(layer int, inside, most float64, air Air) (float64, error) {
	const fn = "frost.Section.ThicknessForHeatFlow"
	if err := hydronics.Within(fn, "heat flow", "W/m", most, 1e-3, 1e5, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	return s.thickness(fn, layer, func(s Section) (float64, error) {
		f, err := s.HeatFlow(inside, air)
		return most - math.Abs(f.PerMetre), err
	})
}

// ThicknessForSurface returns the thickness in m (0.0001 to 0.5) of the layer
// with the given index with which the surface comes within the difference limit
// K (0.01 to 100) of the air: against condensation on cold tubes, the difference
// of air and dew point; against burns on hot ones, the touch temperature less
// the air.
// Source: [Section.HeatFlow] solved for the thickness.
func (s Section) ThicknessForSurface(layer int, inside, limit float64, air Air) (float64, error) {
	const fn = "frost.Section.ThicknessForSurface"
	if err := hydronics.Within(fn, "difference of surface and air", "K", limit, 0.01, 100, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	return s.thickness(fn, layer, func(s Section) (float64, error) {
		f, err := s.HeatFlow(inside, air)
		return limit - math.Abs(f.Surface-air.Temperature), err
	})
}

// ThicknessAgainstDew returns the thickness in m (0.0001 to 0.5) of the layer
// with the given index with which no water condenses on a tube at inside °C in
// air of the given relative humidity (0.05 to 0.99).
// Source: dew point from [fluid.DewPoint].
func (s Section) ThicknessAgainstDew(layer int, inside, humidity float64, air Air) (float64, error) {
	const fn = "frost.Section.ThicknessAgainstDew"
	if err := hydronics.Within(fn, "relative humidity", "", humidity, 0.05, 0.99, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	dew, err := fluid.DewPoint(air.Temperature, humidity)
	if err != nil {
		return math.NaN(), err
	}
	return s.ThicknessForSurface(layer, inside, air.Temperature-dew, air)
}

// A Hold is how long standing water is to stay above a temperature.
type Hold struct {
	Medium        Medium
	Start, Target float64 // °C
	Seconds       float64 // s, 1 to 1e8
}

// ThicknessToHold returns the thickness in m (0.0001 to 0.5) of the layer with
// the given index with which standing water takes at least as long as asked to
// cool, by [Section.Lump] and [Lump.CoolingTime] in air and sky as they are when
// the water has reached the target.
func (s Section) ThicknessToHold(layer int, hold Hold, air Air) (float64, error) {
	const fn = "frost.Section.ThicknessToHold"
	if err := hydronics.Within(fn, "time to hold", "s", hold.Seconds, 1, 1e8, hydronics.Guard); err != nil {
		return math.NaN(), err
	}
	return s.thickness(fn, layer, func(s Section) (float64, error) {
		l, err := s.Lump(hold.Medium, hold.Start, air)
		if err != nil {
			return math.NaN(), err
		}
		end, err := s.HeatFlow(hold.Target, air)
		if err != nil {
			return math.NaN(), err
		}
		t, err := l.CoolingTime(hold.Start, hold.Target, end.Ambient)
		if t.Never {
			return 1, err
		}
		return t.Seconds - hold.Seconds, err
	})
}

// thickness returns the least thickness of a layer beyond which enough is never
// negative.
func (s Section) thickness(fn string, layer int, enough func(Section) (float64, error)) (float64, error) {
	if err := hydronics.Within(fn, "index of the layer", "", float64(layer), 0, float64(len(s.Layers)-1), "the layers of the section"); err != nil {
		return math.NaN(), err
	}
	s.Layers = append([]Layer(nil), s.Layers...)
	var failed error
	at := func(t float64) float64 {
		s.Layers[layer].Thickness = t
		v, err := enough(s)
		if err != nil {
			failed = err
			return math.NaN()
		}
		return v
	}
	// From the thick end down: what is enough there, until it is not.
	upper := thickest
	v := at(upper)
	if failed != nil {
		return math.NaN(), failed
	}
	if v < 0 {
		return math.NaN(), noThickness(fn, v)
	}
	for lower := upper / 2; ; lower /= 2 {
		lower = max(lower, thinnest)
		v := at(lower)
		if failed != nil {
			return math.NaN(), failed
		}
		if v < 0 {
			t, err := numeric.Root(at, lower, upper, 1e-9)
			if failed != nil {
				return math.NaN(), failed
			}
			return t, err
		}
		if lower == thinnest {
			return thinnest, nil
		}
		upper = lower
	}
}

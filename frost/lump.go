package frost

import (
	"math"

	"example.com/hydronics"
)

// A Time is a span until something happens, or the word that it never does. With
// Never set, Seconds is 0 and means nothing.
type Time struct {
	Seconds float64 // s, from the start of the calculation
	Never   bool    // it does not happen in the conditions given
}

// Within reports whether the event happens, and no later than seconds.
func (t Time) Within(seconds float64) bool { return !t.Never && t.Seconds <= seconds }

// A Lump is one metre of tube full of standing water reduced to what cooling
// and freezing need: water, wall and insulation of one temperature behind one
// resistance. [Section.Lump] makes it; a user may fill it in by hand.
type Lump struct {
	Bore       float64 // m, 0.001 to 1
	Resistance float64 // m·K/W from the inner surface of the wall to the air, 1e-6 to 1e4
	Capacity   float64 // J/(m·K) of water, wall and insulation, 1e-6 to 1e8
	Medium     Medium
}

// Lump returns the lumped form of a section full of the medium m. The
// resistance is the one of [Section.HeatFlow] for the inner surface at inside
// °C; with a Method other than Given take the temperature at which the water
// spends its time, or the warmest, which errs short. Where the sky is colder
// than the air, use HeatFlow.Ambient in place of the air temperature.
//
// Capacity is the water's, and the layers' weighted with the square of their
// share in the difference to the air (Rayleigh's estimate of the slowest decay,
// which is never slower than the truth):
//
//	C = ρ c π d²/4 + Σ ∫ C_v θ² 2π r dr,  θ = (t − ta)/(ti − ta)
//
// Source: the quotient is Rayleigh's principle, in any text on vibration or
// heat conduction; with the profile of steady conduction it follows in one line.
//
// Assumptions: the water is well mixed; heat leaves through the wall only. From
// layers as warm as the water the time to 0 °C comes out short: by 2 to 6 % on
// common insulation, by up to 18 % where 50 mm surround a bore of 13 mm; on a bare
// tube it is right to 0.1 %. From layers in steady flow it is nearer. The exception:
// on a bare tube in strong wind ice appears at the wall earlier than any lump
// says, by about 10 %, because the water behind it is still warmer.
func (s Section) Lump(m Medium, inside float64, air Air) (Lump, error) {
	const fn = "frost.Section.Lump"
	if err := m.check(fn); err != nil {
		return Lump{}, err
	}
	flow, err := s.HeatFlow(inside, air)
	if err != nil {
		return Lump{}, err
	}
	return Lump{
		Bore:       s.Bore,
		Resistance: flow.Resistance,
		Capacity:   m.content(s.Bore)*m.SpecificHeat + s.layerCapacity(flow.Resistance),
		Medium:     m,
	}, nil
}

// layerCapacity returns Σ ∫ C_v θ² 2π r dr over the layers, in J/(m·K), with
// the profile θ of steady conduction through the resistance in all.
func (s Section) layerCapacity(resistance float64) float64 {
	sum, r, theta := 0.0, s.Bore/2, 1-s.film()/resistance
	for _, l := range s.Layers {
		outer := r + l.Thickness
		u := math.Log(outer / r)
		b := -1 / (2 * math.Pi * l.Conductivity * resistance) // dθ/d(ln r)
		// ∫ r θ² dr with θ = θ₁ + b·ln(r/r₁) and r = r₁·eᵘ
		at := func(u float64) float64 {
			th := theta + b*u
			return math.Exp(2*u) / 2 * (th*th - b*th + b*b/2)
		}
		sum += l.HeatCapacity * 2 * math.Pi * r * r * (at(u) - at(0))
		r, theta = outer, theta+b*u
	}
	return sum
}

func (l *Lump) valid() bool {
	return l.Bore >= 0.001 && l.Bore <= 1 && l.Resistance >= 1e-6 && l.Resistance <= 1e4 &&
		l.Capacity >= 1e-6 && l.Capacity <= 1e8 && l.Medium.valid()
}

func (l *Lump) check(fn string) error {
	if l.valid() {
		return nil
	}
	return joined(
		hydronics.Within(fn, "bore", "m", l.Bore, 0.001, 1, hydronics.Guard),
		hydronics.Within(fn, "resistance", "m·K/W", l.Resistance, 1e-6, 1e4, hydronics.Guard),
		hydronics.Within(fn, "heat capacity", "J/(m·K)", l.Capacity, 1e-6, 1e8, hydronics.Guard),
		l.Medium.check(fn))
}

const (
	coldest, warmest = -90, 150 // °C, guards of the temperatures of standing water and its surroundings
)

func checkTemperature(fn, quantity string, t float64) error {
	return hydronics.Within(fn, quantity, "°C", t, coldest, warmest, hydronics.Guard)
}

func isTemperature(t float64) bool { return t >= coldest && t <= warmest }

// CoolingTime returns the time in which the water cools from start to target in
// surroundings of the temperature ambient, all in °C (-90 to 150):
//
//	t = C R ln((start − ambient)/(target − ambient))
//
// It is 0 if the start is not above the target, and Never if the surroundings
// are not below it. Latent heat plays no part: the formula means something down
// to 0 °C, and below only as long as the water stays supercooled.
//
// Source: lumped capacity, any text on heat transfer; ASHRAE Handbook,
// Fundamentals (SI) 2021, chapter 23, equation 1, with the water's capacity alone.
func (l Lump) CoolingTime(start, target, ambient float64) (Time, error) {
	const fn = "frost.Lump.CoolingTime"
	if !(l.valid() && isTemperature(start) && isTemperature(target) && isTemperature(ambient)) {
		return Time{}, joined(l.check(fn), checkTemperature(fn, "start temperature", start),
			checkTemperature(fn, "target temperature", target), checkTemperature(fn, "ambient temperature", ambient))
	}
	switch {
	case start <= target:
		return Time{}, nil
	case ambient >= target:
		return Time{Never: true}, nil
	}
	return Time{Seconds: l.Capacity * l.Resistance * math.Log((start-ambient)/(target-ambient))}, nil
}

// Temperature returns the temperature of the water in °C after a time in
// seconds (0 to 1e9), from start in surroundings of the temperature ambient.
// Below 0 °C it means supercooled water.
//
//	t = ambient + (start − ambient)·exp(−time/(C R))
//
// Source: [Lump.CoolingTime] solved for the temperature.
func (l Lump) Temperature(time, start, ambient float64) (float64, error) {
	const fn = "frost.Lump.Temperature"
	if !(l.valid() && isTemperature(start) && isTemperature(ambient) && time >= 0 && time <= 1e9) {
		return math.NaN(), joined(l.check(fn), checkTemperature(fn, "start temperature", start),
			checkTemperature(fn, "ambient temperature", ambient),
			hydronics.Within(fn, "time", "s", time, 0, 1e9, hydronics.Guard))
	}
	return ambient + (start-ambient)*math.Exp(-time/(l.Capacity*l.Resistance)), nil
}

// CoolingTimeThrough returns the time in which the water cools from start to
// target °C while the surroundings take one temperature of the series hourly
// after the other (at least one), each for an hour; every hour is integrated
// exactly. Never means not within the hours given.
//
// Source: the formula of [Lump.CoolingTime], hour by hour.
func (l Lump) CoolingTimeThrough(start, target float64, hourly []float64) (Time, error) {
	const fn = "frost.Lump.CoolingTimeThrough"
	if err := joined(l.check(fn), checkTemperature(fn, "start temperature", start),
		checkTemperature(fn, "target temperature", target),
		hydronics.Within(fn, "hours of ambient temperature", "", float64(len(hourly)), 1, 1e6, hydronics.Guard)); err != nil {
		return Time{}, err
	}
	for _, ambient := range hourly { // also those that the answer does not need
		if !isTemperature(ambient) {
			return Time{}, checkTemperature(fn, "ambient temperature", ambient)
		}
	}
	tau := l.Capacity * l.Resistance
	decay := math.Exp(-hydronics.Hour / tau)
	for i, ambient := range hourly {
		if start <= target {
			return Time{Seconds: float64(i) * hydronics.Hour}, nil
		}
		next := ambient + (start-ambient)*decay
		if ambient < target && next <= target {
			within := min(tau*math.Log((start-ambient)/(target-ambient)), hydronics.Hour)
			return Time{Seconds: float64(i)*hydronics.Hour + within}, nil
		}
		if start = next; ambient >= target { // rounding must not carry the water to where it never gets
			start = max(next, math.Nextafter(target, warmest+1))
		}
	}
	return Time{Never: true}, nil
}

// FreezingTime returns the time in which water that has reached 0 °C freezes to
// the mass fraction fraction of ice (0 to 1) in surroundings of the temperature
// ambient °C (-90 to 150). Ice grows inwards as a ring, each moment in a steady
// state:
//
//	t = ρ L rᵢ²/(0 − ambient)·{ [f + (1 − f) ln(1 − f)]/(4 λ_ice) + π R f }
//
// Never, if the surroundings are not below 0 °C. The heat stored in wall,
// insulation and ice is left out, which errs short: by a few per cent on common
// insulation. This is the time to a solid ring,
// and so a statement about bursting at most; slush can block the tube for a
// pump at a few per cent of ice (see the package comment).
//
// Source: quasi-steady growth after Stefan on a cylinder; A. L. London and
// R. A. Seban, Trans. ASME 65 (1943) 771; V. J. Lunardini, Heat Transfer in Cold
// Climates, 1981. The derivation is three lines: heat flow through ice and wall,
// dq = ρ L dV, integrated over the radius.
func (l Lump) FreezingTime(fraction, ambient float64) (Time, error) {
	const fn = "frost.Lump.FreezingTime"
	if !(l.valid() && fraction >= 0 && fraction <= 1 && isTemperature(ambient)) {
		return Time{}, l.refuseFreezing(fn, fraction, ambient)
	}
	if fraction == 0 {
		return Time{}, nil
	}
	if ambient >= 0 {
		return Time{Never: true}, nil
	}
	r, f := l.Bore/2, fraction
	ring := f
	if f < 1 {
		ring += (1 - f) * math.Log1p(-f)
	}
	return Time{Seconds: l.Medium.Density * l.Medium.LatentHeat * r * r / -ambient *
		(ring/(4*l.Medium.IceConductivity) + math.Pi*l.Resistance*f)}, nil
}

// ConstantFlowFreezingTime returns the time of [Lump.FreezingTime] in the form
// attributed to ISO 12241: latent heat over the heat flow of the first moment,
// the resistance of the ice ignored.
//
//	t = f ρ L π d²/4·R/(0 − ambient)
//
// It is shorter than FreezingTime: by about 1 % behind insulation, by 4 to 10 %
// for complete freezing of a bare tube. The wording of the standard was not
// seen; other codes that count a quarter of the latent heat have the same form.
//
// Source: attributed to ISO 12241, from memory.
func (l Lump) ConstantFlowFreezingTime(fraction, ambient float64) (Time, error) {
	const fn = "frost.Lump.ConstantFlowFreezingTime"
	if !(l.valid() && fraction >= 0 && fraction <= 1 && isTemperature(ambient)) {
		return Time{}, l.refuseFreezing(fn, fraction, ambient)
	}
	if fraction == 0 {
		return Time{}, nil
	}
	if ambient >= 0 {
		return Time{Never: true}, nil
	}
	return Time{Seconds: fraction * l.Medium.content(l.Bore) * l.Medium.LatentHeat * l.Resistance / -ambient}, nil
}

func (l *Lump) refuseFreezing(fn string, fraction, ambient float64) error {
	return joined(l.check(fn), hydronics.Within(fn, "fraction of ice", "", fraction, 0, 1, hydronics.Guard),
		checkTemperature(fn, "ambient temperature", ambient))
}

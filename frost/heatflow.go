package frost

import (
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// A HeatFlow is the steady flow of heat through a section, with the figures
// that lead to it: PerMetre = (inside − Ambient)/Resistance.
type HeatFlow struct {
	PerMetre   float64 // W/m, positive outwards
	Surface    float64 // °C, temperature of the outermost surface
	Convective float64 // W/(m²·K), convection at the surface; with Given all of the coefficient
	Radiative  float64 // W/(m²·K), radiation at the surface; 0 with Given
	Ambient    float64 // °C, air and radiant surroundings as one temperature, weighted with the two coefficients
	Resistance float64 // m·K/W from the liquid to Ambient
}

// HeatFlow returns the steady heat flow per metre of a section whose liquid is
// at inside °C (-60 to 330), in the surroundings air.
//
//	q = (ti − ta)/R,  R = 1/(π d hᵢ) + Σ ln(d₂/d₁)/(2π λ) + 1/(π D h)
//
// The conductivity of a layer is linear in temperature and taken at the mean of
// its two faces, which is exact for a cylinder. With the methods other than
// Given the surface temperature is solved for, to 1e-9 K.
//
// Errors: [hydronics.RangeError] for a field outside its limits, and for wind
// too slow for [CrossFlow].
// Source: the resistances in series are in any text on heat transfer, and in
// ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23; ISO 12241, ASTM C680 and
// VDI 2055 use the same ones with their own surface coefficients.
func (s Section) HeatFlow(inside float64, air Air) (HeatFlow, error) {
	const fn = "frost.Section.HeatFlow"
	if !(s.valid() && air.valid() && inside >= -60 && inside <= 330) {
		return HeatFlow{}, joined(s.check(fn), air.check(fn),
			hydronics.Within(fn, "inside temperature", "°C", inside, -60, 330, hydronics.Guard))
	}
	return s.heatFlow(fn, inside, &air)
}

func (s Section) heatFlow(fn string, inside float64, air *Air) (HeatFlow, error) {
	d := s.Outside()
	if !(d <= 3) {
		return HeatFlow{}, hydronics.Within(fn, "diameter over all layers", "m", d, 0, 3, hydronics.Guard)
	}
	if s.Surface.Method == Correlated && air.Wind > 0 {
		if err := checkWind(fn, air, d); err != nil {
			return HeatFlow{}, err
		}
	}
	constant := true
	for i := range s.Layers {
		constant = constant && s.Layers[i].Slope == 0
	}
	if s.Surface.Method == Given && constant {
		r := s.perMetre() + 1/(math.Pi*d*s.Surface.Coefficient)
		q := (inside - air.Temperature) / r
		return HeatFlow{
			PerMetre:   q,
			Surface:    air.Temperature + q/(math.Pi*d*s.Surface.Coefficient),
			Convective: s.Surface.Coefficient,
			Ambient:    air.Temperature,
			Resistance: r,
		}, nil
	}
	cold := min(inside, air.Temperature, air.radiant()-hydronics.ZeroCelsius)
	warm := max(inside, air.Temperature, air.radiant()-hydronics.ZeroCelsius)
	if err := s.checkConductivity(fn, cold, warm); err != nil {
		return HeatFlow{}, err
	}
	radiant := air.radiant() - hydronics.ZeroCelsius
	excess := func(t float64) float64 { // of the temperature that the surface needs inside
		convective, radiative := s.Surface.coefficients(d, t, air)
		return s.inwards(t, math.Pi*d*(convective*(t-air.Temperature)+radiative*(t-radiant))) - inside
	}
	guess, slope := s.guess(d, inside, air)
	surface, ok := secant(excess, guess, slope, cold, warm)
	if !ok {
		var err error
		if surface, err = numeric.Root(excess, cold, warm, 1e-9); err != nil {
			return HeatFlow{}, err
		}
	}
	convective, radiative := s.Surface.coefficients(d, surface, air)
	h := convective + radiative
	if !(h > 0) { // no temperature difference drives convection, and the surface does not radiate
		return HeatFlow{}, fmt.Errorf("%s: nothing carries heat off the surface at %.4g °C: %w", fn, surface, hydronics.ErrNoSolution)
	}
	f := HeatFlow{Surface: surface, Convective: convective, Radiative: radiative,
		Ambient: (convective*air.Temperature + radiative*(air.radiant()-hydronics.ZeroCelsius)) / h}
	f.PerMetre = math.Pi * d * h * (surface - f.Ambient)
	f.Resistance = s.resistanceAt(surface, f.PerMetre) + 1/(math.Pi*d*h)
	return f, nil
}

// guess returns the surface temperature with the coefficient that a surface half
// way between inside and outdoors would have, and by how much the temperature inside
// rises with it then.
func (s Section) guess(d, inside float64, air *Air) (surface, slope float64) {
	convective, radiative := s.Surface.coefficients(d, 0.5*(inside+air.Temperature), air)
	slope = 1 + math.Pi*d*(convective+radiative)*s.perMetre()
	return air.Temperature + (inside-air.Temperature)/slope, slope
}

// secant looks for the root of f, which is almost straight, to 1e-9: a step of 1e-6
// brings it closer than that. It gives up where more than a few steps are needed or
// one leads out of the bracket.
func secant(f func(float64) float64, t, slope, low, high float64) (root float64, ok bool) {
	v := f(t)
	step, near := -v/slope, 1e-9 // the slope handed in is an estimate: that step squares nothing
	for range 6 {
		if t += step; !(t >= low && t <= high) {
			return t, false
		}
		if math.Abs(step) <= near {
			return t, true
		}
		near = 1e-6
		w := f(t)
		v, step = w, w*step/(v-w)
	}
	return t, false
}

// checkWind keeps the wind within the Reynolds numbers of Churchill and
// Bernstein for air of its own temperature.
func checkWind(fn string, air *Air, d float64) error {
	f := filmAt(air.Temperature, air.pressure())
	perWind := d / f.viscosity
	// 0.5 instead of 0.2 leaves room for the film being warmer than the air.
	low, high := 0.5/(f.prandtl*perWind), 0.5e7/perWind
	return hydronics.Within(fn, "wind", "m/s", air.Wind, low, high, "Churchill and Bernstein 1977; take 0 for still air")
}

// inwards returns the temperature of the bore that sends the heat flow q to a
// surface at temperature t. The integral of a linear conductivity over the
// temperature is q·ln(d₂/d₁)/(2π); its inverse is the root below.
func (s Section) inwards(t, q float64) float64 {
	d := s.Outside()
	for i := len(s.Layers) - 1; i >= 0; i-- {
		l := &s.Layers[i]
		inner := d - 2*l.Thickness
		step := q * math.Log(d/inner) / (2 * math.Pi)
		local := l.Conductivity + l.Slope*t
		square := local*local + 2*l.Slope*step
		if !(local > 0 && square >= 0) { // no such temperature: beyond any, on the side of the flow
			return math.Copysign(1e6, q)
		}
		t += 2 * step / (local + math.Sqrt(square))
		d = inner
	}
	return t + q*s.film()
}

// resistanceAt returns the resistance of the layers, in m·K/W, at the
// temperatures that go with a surface at t and the heat flow q.
func (s Section) resistanceAt(t, q float64) float64 {
	r, d := s.film(), s.Outside()
	for i := len(s.Layers) - 1; i >= 0; i-- {
		l := &s.Layers[i]
		inner := d - 2*l.Thickness
		shape := math.Log(d/inner) / (2 * math.Pi)
		local := l.Conductivity + l.Slope*t
		mean := 0.5 * (local + math.Sqrt(local*local+2*l.Slope*q*shape))
		r += shape / mean
		t += q * shape / mean
		d = inner
	}
	return r
}

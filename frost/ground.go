package frost

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// A Ground is undisturbed soil under a yearly wave of temperature.
type Ground struct {
	Mean        float64 // °C, of the year, -30 to 40
	Amplitude   float64 // K, of the surface, 0 to 40
	ColdestDay  float64 // day of the year with the coldest surface, 0 to 366
	Diffusivity float64 // m²/s, 1e-8 to 1e-5; 0.05 m²/d is 5.8e-7
}

// year is the period of the wave, 365 days, in s.
const year = 365 * hydronics.Day

func (g Ground) check(fn string, depth float64) error {
	return joined(
		hydronics.Within(fn, "mean temperature", "°C", g.Mean, -30, 40, hydronics.Guard),
		hydronics.Within(fn, "amplitude of the surface", "K", g.Amplitude, 0, 40, hydronics.Guard),
		hydronics.Within(fn, "coldest day", "", g.ColdestDay, 0, 366, hydronics.Guard),
		hydronics.Within(fn, "diffusivity", "m²/s", g.Diffusivity, 1e-8, 1e-5, hydronics.Guard),
		hydronics.Within(fn, "depth", "m", depth, 0, 100, hydronics.Guard))
}

// Temperature returns the temperature in °C of the ground at a depth in m (0 to
// 100) on a day of the year (0 to 366):
//
//	T = Tm − A·exp(−z k)·cos(2π/365·(day − coldest) − z k),  k = √(π/(365 d·a))
//
// Conduction alone: no snow, no latent heat of the soil water, which keeps real
// ground warmer while it freezes.
// Source: T. Kusuda and P. R. Achenbach, ASHRAE Trans. 71 (1965) 61.
func (g Ground) Temperature(depth, day float64) (float64, error) {
	const fn = "frost.Ground.Temperature"
	if err := joined(g.check(fn, depth), hydronics.Within(fn, "day", "", day, 0, 366, hydronics.Guard)); err != nil {
		return math.NaN(), err
	}
	zk := depth * math.Sqrt(math.Pi/(year*g.Diffusivity))
	return g.Mean - g.Amplitude*math.Exp(-zk)*math.Cos(2*math.Pi/365*(day-g.ColdestDay)-zk), nil
}

// A Wave is the yearly wave at one depth.
type Wave struct {
	Amplitude float64 // K
	Lag       float64 // days behind the surface
	Minimum   float64 // °C, coldest of the year
}

// Wave returns the yearly wave at a depth in m (0 to 100).
// Source: amplitude and phase of the equation of [Ground.Temperature].
func (g Ground) Wave(depth float64) (Wave, error) {
	if err := g.check("frost.Ground.Wave", depth); err != nil {
		return Wave{}, err
	}
	zk := depth * math.Sqrt(math.Pi/(year*g.Diffusivity))
	a := g.Amplitude * math.Exp(-zk)
	return Wave{Amplitude: a, Lag: zk * 365 / (2 * math.Pi), Minimum: g.Mean - a}, nil
}

// A Chill is ground of one temperature whose surface suddenly takes another.
type Chill struct {
	Start       float64 // °C of the ground, -50 to 60
	Surface     float64 // °C of the surface from then on, -90 to 60, not equal to Start
	Diffusivity float64 // m²/s, 1e-8 to 1e-5
}

// Depth returns the depth in m that an isotherm °C between the two temperatures
// reaches in a time in s (0 to 1e9), latent heat left out: too deep for wet soil.
//
//	x = 2 √(a t)·erf⁻¹((T − Ts)/(T₀ − Ts))
//
// Source: H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed.
// 1959, section 2.4.
func (c Chill) Depth(isotherm, time float64) (float64, error) {
	const fn = "frost.Chill.Depth"
	low, high := min(c.Start, c.Surface), max(c.Start, c.Surface)
	err := joined(
		hydronics.Within(fn, "temperature of the ground", "°C", c.Start, -50, 60, hydronics.Guard),
		hydronics.Within(fn, "temperature of the surface", "°C", c.Surface, -90, 60, hydronics.Guard),
		hydronics.Within(fn, "diffusivity", "m²/s", c.Diffusivity, 1e-8, 1e-5, hydronics.Guard),
		hydronics.Within(fn, "difference of ground and surface", "K", high-low, 1e-3, 150, hydronics.Guard),
		hydronics.Within(fn, "time", "s", time, 0, 1e9, hydronics.Guard),
		hydronics.Within(fn, "isotherm", "°C", isotherm, low+1e-6*(high-low), high-1e-6*(high-low), "between surface and ground"))
	if err != nil {
		return math.NaN(), err
	}
	return 2 * math.Sqrt(c.Diffusivity*time) * math.Erfinv((isotherm-c.Surface)/(c.Start-c.Surface)), nil
}

// A Soil is ground that freezes.
type Soil struct {
	Conductivity float64 // W/(m·K), mean of frozen and thawed, 0.1 to 10
	HeatCapacity float64 // J/(m³·K), mean of frozen and thawed, 5e5 to 5e6
	LatentHeat   float64 // J/m³, 1e6 to 4e8
}

// MoistSoil returns the soil of a dry density in kg/m³ (300 to 2500), a water
// content as share of the dry mass (0.005 to 1.5) and a conductivity in W/(m·K):
//
//	L = 144 γ w Btu/ft³,  c = γ (0.17 + 0.75 w) Btu/(ft³ °F), γ in lb/ft³
//
// Source: US Army and Air Force, TM 5-852-6 / UFC 3-130, as quoted with the
// modified Berggren equation.
func MoistSoil(density, water, conductivity float64) (Soil, error) {
	const fn = "frost.MoistSoil"
	err := joined(
		hydronics.Within(fn, "dry density", "kg/m³", density, 300, 2500, hydronics.Guard),
		hydronics.Within(fn, "water content", "", water, 0.005, 1.5, hydronics.Guard),
		hydronics.Within(fn, "conductivity of the soil", "W/(m·K)", conductivity, 0.1, 10, hydronics.Guard))
	if err != nil {
		return Soil{}, err
	}
	const perPound, perPoundDegree = 2326.0, 4186.8 // J/kg of 1 Btu/lb, J/(kg·K) of 1 Btu/(lb °F), exact
	return Soil{
		Conductivity: conductivity,
		HeatCapacity: density * (0.17 + 0.75*water) * perPoundDegree,
		LatentHeat:   density * water * 144 * perPound,
	}, nil
}

// A Winter is a frost season.
type Winter struct {
	Index    float64 // K·s below 0 °C of the air, summed over the season: degree days times 86400; 0 to 1e9
	Surface  float64 // n-factor, index of the surface over that of the air, 0.05 to 1.5: 0.3 under trees to 1 under snow (TM 5-852-4, table 4-1)
	Duration float64 // s of the season, 1e4 to 3e7
	Mean     float64 // °C, mean of the year, 0 to 30
}

// A Penetration is the depth of frost and what led to it.
type Penetration struct {
	Depth  float64 // m, after Berggren
	Stefan float64 // m, latent heat alone: an upper bound
	Lambda float64 // Depth/Stefan
	Mu     float64 // fusion parameter
	Alpha  float64 // thermal ratio
	Closed float64 // closed form 1/√(1 + μ(α + 0.5)) of λ after Aldrich and Paynter, for comparison: too large from an Alpha of 0.5 on, by 8 to 18 % at 1 and 16 to 40 % at 2 for Mu of 0.05 to 1; up to 7 % too small where Alpha is near 0
}

// Frost returns how deep frost enters a uniform soil in a winter, by the modified
// Berggren equation:
//
//	X = λ √(2 k n F/L),  μ = c v_s/L,  α = v₀/v_s,  v_s = n F/d
//	λ = s √(2/μ),  exp(−s²)/erf s − α·exp(−s²)/erfc s = s √π/μ
//
// λ is Neumann's exact factor for soil whose conductivity and heat capacity do
// not change on freezing, which the charts of the method plot.
//
// Soils of several layers, ground water and snow that comes and goes are beyond
// it. Local rules on depth come first.
// Source: H. P. Aldrich and H. M. Paynter, Analytical Studies of Freezing and
// Thawing of Soils, 1953 (closed form: equation 2-33); US Army and Air Force,
// TM 5-852-6; H. S. Carslaw and J. C. Jaeger 1959, section 11.2.
func (s Soil) Frost(w Winter) (Penetration, error) {
	const fn = "frost.Soil.Frost"
	err := joined(
		hydronics.Within(fn, "conductivity of the soil", "W/(m·K)", s.Conductivity, 0.1, 10, hydronics.Guard),
		hydronics.Within(fn, "heat capacity of the soil", "J/(m³·K)", s.HeatCapacity, 5e5, 5e6, hydronics.Guard),
		hydronics.Within(fn, "latent heat of the soil", "J/m³", s.LatentHeat, 1e6, 4e8, hydronics.Guard),
		hydronics.Within(fn, "freezing index", "K·s", w.Index, 0, 1e9, hydronics.Guard),
		hydronics.Within(fn, "n-factor", "", w.Surface, 0.05, 1.5, hydronics.Guard),
		hydronics.Within(fn, "length of the season", "s", w.Duration, 1e4, 3e7, hydronics.Guard),
		hydronics.Within(fn, "mean of the year", "°C", w.Mean, 0, 30, hydronics.Guard))
	if err != nil {
		return Penetration{}, err
	}
	if w.Index == 0 {
		return Penetration{Lambda: 1, Closed: 1}, nil
	}
	surface := w.Surface * w.Index / w.Duration // K below 0 °C
	p := Penetration{
		Stefan: math.Sqrt(2 * s.Conductivity * w.Surface * w.Index / s.LatentHeat),
		Mu:     s.HeatCapacity * surface / s.LatentHeat,
		Alpha:  w.Mean / surface,
	}
	p.Closed = 1 / math.Sqrt(1+p.Mu*(p.Alpha+0.5))
	root, err := numeric.Root(func(x float64) float64 {
		a, b := math.Erf(x), math.Erfc(x)
		return math.Exp(-x*x)*(b-p.Alpha*a) - x*math.SqrtPi/p.Mu*a*b
	}, 0, 5, 1e-14)
	if err != nil {
		return Penetration{}, err
	}
	p.Lambda = root * math.Sqrt(2/p.Mu)
	p.Depth = p.Lambda * p.Stefan
	return p, nil
}

// A Pair is two insulated tubes side by side in the ground.
type Pair struct {
	Depth        float64    // m from the surface to the axes, at least the larger radius plus 1 cm, to 100
	Spacing      float64    // m between the axes, more than the sum of the radii, to 100
	Conductivity float64    // W/(m·K) of the soil, 0.1 to 10
	Diameter     [2]float64 // m over the insulation, 0.005 to 2
	Resistance   [2]float64 // m·K/W from the water to the surface of the insulation, 0 to 1000 ([HeatFlow].Resistance without air)
	Water        [2]float64 // °C
	Ground       float64    // °C, undisturbed at the depth of the axes
}

// Flow returns the heat flow per metre of each tube in W/m, positive outwards:
//
//	Rᵢ = R_insulation + arcosh(2H/D)/(2π λ),  R₁₂ = ln(1 + (2H/a)²)/(4π λ)
//	q₁ = ((t₁ − tg) R₂ − (t₂ − tg) R₁₂)/(R₁ R₂ − R₁₂²)
//
// Each tube is a line source for its neighbour: an error of up to 2.5 % for bare
// tubes two diameters apart, below 0.5 % behind insulation.
// Source: form attributed to ISO 12241 (underground pipes); arcosh is exact for
// one tube under an isothermal surface.
func (p Pair) Flow() ([2]float64, error) {
	const fn = "frost.Pair.Flow"
	err := joined(
		hydronics.Within(fn, "spacing of the axes", "m", p.Spacing, (p.Diameter[0]+p.Diameter[1])/2*(1+1e-9), 100, "tubes side by side"),
		hydronics.Within(fn, "conductivity of the soil", "W/(m·K)", p.Conductivity, 0.1, 10, hydronics.Guard),
		checkTemperature(fn, "ground temperature", p.Ground))
	for i := range 2 {
		err = joined(err,
			hydronics.Within(fn, "diameter over the insulation", "m", p.Diameter[i], 0.005, 2, hydronics.Guard),
			hydronics.Within(fn, "resistance of the insulation", "m·K/W", p.Resistance[i], 0, 1000, hydronics.Guard),
			hydronics.Within(fn, "depth of the axes", "m", p.Depth, p.Diameter[i]/2+0.01, 100, "covered tubes"),
			checkTemperature(fn, "water temperature", p.Water[i]))
	}
	if err != nil {
		return [2]float64{math.NaN(), math.NaN()}, err
	}
	var r [2]float64
	for i := range r {
		r[i] = p.Resistance[i] + math.Acosh(2*p.Depth/p.Diameter[i])/(2*math.Pi*p.Conductivity)
	}
	ratio := 2 * p.Depth / p.Spacing
	mutual := math.Log1p(ratio*ratio) / (4 * math.Pi * p.Conductivity)
	det := r[0]*r[1] - mutual*mutual
	if !(det > 0) {
		return [2]float64{math.NaN(), math.NaN()}, hydronics.Within(fn, "resistance to the ground", "m·K/W", r[0], mutual, 1e6, "tubes too close together for this form")
	}
	a, b := p.Water[0]-p.Ground, p.Water[1]-p.Ground
	return [2]float64{(a*r[1] - b*mutual) / det, (b*r[0] - a*mutual) / det}, nil
}

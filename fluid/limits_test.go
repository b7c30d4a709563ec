package fluid

import (
	"fmt"
	"math"
	"testing"

	"example.com/hydronics/internal/edge"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A limit is a number that a calculation takes from low to high, both included.
type limit struct {
	call      string
	quantity  string // as the RangeError names it
	low, high float64
	margin    float64 // how far from the limits rounding reaches; 0: not at all
	try       func(x float64) error
}

// Every documented limit is tried just inside and just outside.
func TestLimits(t *testing.T) {
	for _, l := range limits(t) {
		t.Run(l.call+", "+l.quantity, func(t *testing.T) {
			edge.Check(t, l.quantity, l.low, l.high, l.margin, l.try)
		})
	}
}

func limits(t *testing.T) []limit {
	const celsius = 1e-6 // K, above the forgiven rounding
	solution := func(s Solute, w float64) Liquid {
		l, err := s.ByMass(w)
		require.NoError(t, err)
		return l
	}
	glycol := solution(PropyleneGlycol, 0.3)
	strong := solution(PropyleneGlycol, 0.6)
	phi, err := strong.VolumeFraction()
	require.NoError(t, err)
	mixed, err := strong.MixtureVolumeFraction()
	require.NoError(t, err)
	pure, err := PropyleneGlycol.Concentrate()
	require.NoError(t, err)
	boiling := boilingLimit(defaultPressure)
	index := func(w float64) float64 { return PropyleneGlycol.refractiveIndex(w, PropyleneGlycol.densityAt(w, 20)) }

	all := []limit{
		{"WaterState", "temperature", 0, 350, 0, func(x float64) error { return edge.Err(WaterState(x, 30e6)) }},
		{"WaterState", "absolute pressure", 611.213, 100e6, 0, func(x float64) error { return edge.Err(WaterState(0, x)) }},
		{"WaterTemperature", "absolute pressure", 611.213, 100e6, 0, func(x float64) error { return edge.Err(WaterTemperature(x, enthalpy1(0, x))) }},
		{"WaterTemperature", "enthalpy", enthalpy1(0, 0.3e6), enthalpy1(boiling, 0.3e6), 0, func(x float64) error { return edge.Err(WaterTemperature(0.3e6, x)) }},
		{"WaterAt", "absolute pressure", 611.213, 100e6, 0, func(x float64) error { return edge.Err(WaterAt(x)) }},
		{"Liquid.At", "temperature of water", 0, boiling, 0, func(x float64) error { return edge.Err(Water().At(x)) }},
		{"Liquid.Density", "temperature of water", 0, boiling, 0, func(x float64) error { return edge.Err(Water().Density(x)) }},
		{"Liquid.At", "temperature of propylene glycol 30 % by mass", glycol.freezing, 100, 0, func(x float64) error { return edge.Err(glycol.At(x)) }},
		{"Liquid.Density", "temperature of propylene glycol 30 % by mass", glycol.freezing, 100, 0, func(x float64) error { return edge.Err(glycol.Density(x)) }},
		{"SteamState", "temperature", 0, 800, celsius, func(x float64) error { return edge.Err(SteamState(x, 100)) }},
		{"SteamState", "absolute pressure", 1, 100e6, 0, func(x float64) error { return edge.Err(SteamState(700, x)) }},
		{"Boiling", "temperature", 0, 350, 0, func(x float64) error { return edge.Err(Boiling(x)) }},
		{"SaturationPressure", "temperature", 0, 373.946, 0, func(x float64) error { return edge.Err(SaturationPressure(x)) }},
		{"SaturationTemperature", "absolute pressure", 611.2126, 22.064e6, 0, func(x float64) error { return edge.Err(SaturationTemperature(x)) }},
		{"SurfaceTension", "temperature", 0, 373.946, 0, func(x float64) error { return edge.Err(SurfaceTension(x)) }},
		{"WaterViscosity", "temperature", 0, 900, celsius, func(x float64) error { return edge.Err(WaterViscosity(x, 500)) }},
		{"WaterViscosity", "density", 0, 1200, 0, func(x float64) error { return edge.Err(WaterViscosity(20, x)) }},
		{"WaterConductivity", "temperature", 0, 900, celsius, func(x float64) error { return edge.Err(WaterConductivity(x, 500)) }},
		{"WaterConductivity", "density", 0, 1200, 0, func(x float64) error { return edge.Err(WaterConductivity(20, x)) }},
		{"IceState", "temperature", -273.15, 0.01, celsius, func(x float64) error { return edge.Err(IceState(x, 1e5)) }},
		{"IceState", "absolute pressure", 0, 210e6, 0, func(x float64) error { return edge.Err(IceState(-30, x)) }},
		{"MeltingPressure", "temperature", -21.985, 0.01, celsius, func(x float64) error { return edge.Err(MeltingPressure(x)) }},
		{"MeltingTemperature", "absolute pressure", 611.657, meltingPressure(-21.985), 0, func(x float64) error { return edge.Err(MeltingTemperature(x)) }},

		{"Solute.ByVolume", "propylene glycol volume fraction", 0, phi, 0, func(x float64) error { return edge.Err(PropyleneGlycol.ByVolume(x)) }},
		{"Solute.ByMixtureVolume", "propylene glycol volume fraction of the mixture", 0, mixed, 0, func(x float64) error { return edge.Err(PropyleneGlycol.ByMixtureVolume(x)) }},
		{"Solute.ByDensity", "temperature of the sample", 5, 40, 0, func(x float64) error { return edge.Err(PropyleneGlycol.ByDensity(1010, x)) }},
		{"Solute.ByDensity, ammonia", "temperature of the sample", 5, 30, 0, func(x float64) error { return edge.Err(Ammonia.ByDensity(960, x)) }},
		{"Solute.ByDensity", "density of propylene glycol solution", PropyleneGlycol.densityAt(0, 20), PropyleneGlycol.densityAt(0.6, 20), 0,
			func(x float64) error { return edge.Err(PropyleneGlycol.ByDensity(x, 20)) }},
		{"Liquid.RefractiveIndex", "temperature of the sample", 15, 30, 0, func(x float64) error { return edge.Err(glycol.RefractiveIndex(x)) }},
		{"Solute.ByRefractiveIndex", "temperature of the sample", 15, 30, 0, func(x float64) error { return edge.Err(PropyleneGlycol.ByRefractiveIndex(1.36, x)) }},
		{"Solute.ByRefractiveIndex", "refractive index of propylene glycol solution", index(0), index(0.6), 0, func(x float64) error { return edge.Err(PropyleneGlycol.ByRefractiveIndex(x, 20)) }},
		{"BrixIndex", "sugar scale", 0, 50, 0, func(x float64) error { return edge.Err(BrixIndex(x)) }},
		{"Brix", "refractive index", 1.33299, 1.4201, 0, func(x float64) error { return edge.Err(Brix(x)) }},
		{"Liquid.IceFraction", "temperature of water", -273.15, boiling, 0, func(x float64) error { return edge.Err(Water().IceFraction(x)) }},
		{"Solute.ByBurstProtection", "temperature", -51, 0, 0, func(x float64) error { return edge.Err(PropyleneGlycol.ByBurstProtection(x)) }},

		{"Dosing.Replace", "content", 1e-6, 1e5, 0, func(x float64) error { return edge.Err(Dosing{x, Water(), glycol, pure}.Replace()) }},
		{"Dosing.TopUp", "density of the concentrate", 500, 2500, 0, func(x float64) error {
			return edge.Err(Dosing{1, Water(), glycol, Concentrate{PropyleneGlycol, 1, x}}.TopUp())
		}},
		{"Dosing.TopUp", "mass fraction of the concentrate", 0, 1, 0, func(x float64) error {
			return edge.Err(Dosing{1, glycol, glycol, Concentrate{PropyleneGlycol, x, 1000}}.TopUp())
		}},
		{"NewFill", "content", 1e-6, 1e5, 0, func(x float64) error { return edge.Err(NewFill(x, glycol, pure)) }},

		{"Gas.Dissolved", "partial pressure", 0, 10e6, 0, func(x float64) error { return edge.Err(Nitrogen.Dissolved(20, x)) }},
		{"DissolvedAir", "absolute pressure", saturationPressure(20), 10e6, 0, func(x float64) error { return edge.Err(DissolvedAir(20, x)) }},
		{"ReleasedAir", "absolute pressure", saturationPressure(20), 10e6, 0, func(x float64) error { return edge.Err(ReleasedAir(Place{20, x}, Place{20, 1e5})) }},
		{"Gas.Released", "absolute pressure", saturationPressure(20), 10e6, 0, func(x float64) error { return edge.Err(Nitrogen.Released(Place{20, 1e5}, Place{20, x})) }},
		{"OxygenInFreshWater", "temperature", 0, 40, 0, func(x float64) error { return edge.Err(OxygenInFreshWater(x)) }},

		{"DryAir", "temperature", -100, 200, 0, func(x float64) error { return edge.Err(DryAir(x, 1e5)) }},
		{"DryAir", "absolute pressure", 50e3, 200e3, 0, func(x float64) error { return edge.Err(DryAir(20, x)) }},
		{"VapourPressure", "temperature", -100, 200, 0, func(x float64) error { return edge.Err(VapourPressure(x)) }},
		{"DewPoint", "temperature", -60, 100, 0, func(x float64) error { return edge.Err(DewPoint(x, 0.01)) }},
		{"DewPoint", "relative humidity", 0.01, 1, 0, func(x float64) error { return edge.Err(DewPoint(20, x)) }},
		{"AtmosphericPressure", "altitude", -500, 11000, 0, func(x float64) error { return edge.Err(AtmosphericPressure(x)) }},

		{"LimeDeposit", "volume", 0, 1e6, 0, func(x float64) error { return edge.Err(LimeDeposit(x, 2)) }},
		{"LimeDeposit", "hardness", 0, 20, 0, func(x float64) error { return edge.Err(LimeDeposit(1, x)) }},
	}
	all = append(all, fillLimits()...)
	for _, s := range Solutes() {
		m := &solutions[s]
		all = append(all,
			limit{"Solute.ByMass", s.String() + " mass fraction", 0, m.maxMass / 100, 0, func(x float64) error { return edge.Err(s.ByMass(x)) }},
			limit{"Solute.ByFreezingPoint", "freezing point of " + s.String() + " solution", m.freezing(m.maxMass), 0, 0, func(x float64) error { return edge.Err(s.ByFreezingPoint(x)) }})
		l := solution(s, 0.1)
		all = append(all, limit{"Liquid.IceFraction", "temperature of " + l.String(), m.freezing(m.maxMass), m.maxTemp, 0, func(x float64) error { return edge.Err(l.IceFraction(x)) }})
	}
	for g := Nitrogen; g.known(); g++ {
		all = append(all, limit{"Gas.HenryConstant", "temperature of water with " + g.String(), gases[g].min, gases[g].max, celsius, func(x float64) error { return edge.Err(g.HenryConstant(x)) }})
	}
	return all
}

func fillLimits() []limit {
	vary := func(set func(w *FillWater, x float64)) func(x float64) error {
		return func(x float64) error {
			w := FillWater{Hardness: 2, HeatOutput: 1e4, SmallestOutput: 5e3, GeneratorWater: 0.01, Content: 0.2, Makeup: 0.3}
			set(&w, x)
			return edge.Err(VDI2035In2005.Limit(w))
		}
	}
	const call = "HardnessRule.Limit"
	return []limit{
		{call, "hardness", 0, 20, 0, vary(func(w *FillWater, x float64) { w.Hardness = x })},
		{call, "heat output", 1, 1e8, 0, vary(func(w *FillWater, x float64) { w.HeatOutput, w.SmallestOutput = x, 1 })},
		{call, "output of the smallest heat generator", 1, 1e4, 0, vary(func(w *FillWater, x float64) { w.SmallestOutput = x })},
		{call, "water in the smallest heat generator", 0, 100, 0, vary(func(w *FillWater, x float64) { w.GeneratorWater = x })},
		{call, "content of the system", 1e-4, 1e4, 0, vary(func(w *FillWater, x float64) { w.Content, w.Makeup = x, 1e5 })},
		{call, "fill and make-up water", 0.2, 1e6, 0, vary(func(w *FillWater, x float64) { w.Makeup = x })},
	}
}

// Limits that depend on another input carry it in their name.
func TestLimitsThatMove(t *testing.T) {
	for _, c := range []struct {
		outside, inside float64
		quantity        string
		try             func(x float64) error
	}{
		{boilingLimit(0.3e6) + 1e-6, boilingLimit(0.3e6), "temperature of liquid water at 300000 Pa", func(x float64) error { return edge.Err(WaterState(x, 0.3e6)) }},
		{saturationPressure(300) * (1 + 1e-9), saturationPressure(300), "absolute pressure of steam at 300 °C", func(x float64) error { return edge.Err(SteamState(300, x)) }},
		{4.97 - 1e-6, 4.97, "temperature of water with nitrogen", func(x float64) error { return edge.Err(DissolvedAir(x, 1e5)) }},
		{295.21 + 1e-6, 295.21, "temperature of water with argon", func(x float64) error { return edge.Err(DissolvedAir(x, 9e6)) }},
		// Water of more than 350 °C lies outside region 1, whose density the amount rests on.
		{math.Nextafter(350, 400), 350, "temperature", func(x float64) error { return edge.Err(CarbonDioxide.Dissolved(x, 1e6)) }},
		// Plain water on the polynomial of propylene glycol lies a hair above water.
		{0, 0.1, "refractive index of propylene glycol solution", func(x float64) error { return edge.Err(PropyleneGlycol.ByBrix(x)) }},
		{math.Nextafter(0, -1), 0, "sugar scale", func(x float64) error { return edge.Err(EthyleneGlycol.ByBrix(x)) }},
	} {
		require.NoError(t, c.try(c.inside), c.quantity)
		require.NotNil(t, edge.Named(c.try(c.outside), c.quantity), "%s: %v", c.quantity, c.try(c.outside))
	}
}

// The triple point is one end of the melting curve: 273.16 K and 611.657 Pa, IAPWS
// R14-08(2011), section 2.
func TestMeltingAtTheTriplePoint(t *testing.T) {
	got, err := MeltingTemperature(611.657)
	require.NoError(t, err)
	assert.InDelta(t, 0.01, got, 1e-8)
}

// Water under 0.3 and 1.3 MPa: the largest changes per MPa of IAPWS-95 (iapws 1.5.2,
// at 5, 50 and 95 °C) are 0.049 % in density and 0.123 % in the rest.
func TestWaterHardlyMindsItsPressure(t *testing.T) {
	high, err := WaterAt(1.3e6)
	require.NoError(t, err)
	for temp := 0.0; temp <= 100; temp += 2.5 {
		a, err := Water().At(temp)
		require.NoError(t, err)
		b, err := high.At(temp)
		require.NoError(t, err)
		what := fmt.Sprintf("%v °C", temp)
		near(t, a.Density, b.Density, 0.00052, what)
		near(t, a.SpecificHeat, b.SpecificHeat, 0.0015, what)
		near(t, a.Conductivity, b.Conductivity, 0.0015, what)
		near(t, a.DynamicViscosity, b.DynamicViscosity, 0.0015, what)
	}
}

package pipe

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// FlowForHeat returns the flow in m³/s that carries the heat in W (0 to 1e9,
// guard) when the liquid cools from supply to ret, both in °C, or warms up where
// ret is the higher. Density and specific heat are those at the mean of the two:
//
//	V̇ = Φ/(ρ c |supply - ret|)
//
// Over 20 K of water this differs by less than 0.1 % from the integral over the
// temperature. The two temperatures must lie 0.1 to 300 K apart (guard) and
// their mean within the liquid's range; otherwise it returns NaN and an error.
// Source: energy balance.
func FlowForHeat(heat, supply, ret float64, l fluid.Liquid) (float64, error) {
	const fn = "pipe.FlowForHeat"
	spread := math.Abs(supply - ret)
	if err := errors.Join(within(fn, "heat", "W", heat, 0, maxPower),
		within(fn, "spread between supply and return", "K", spread, minSpread, maxSpread)); err != nil {
		return math.NaN(), err
	}
	p, err := l.At((supply + ret) / 2)
	if err != nil {
		return math.NaN(), err
	}
	return heat / p.HeatCapacityRate(spread), nil
}

// HeatCarried returns the heat in W that a flow in m³/s (±1000, guard) gives off
// between supply and ret, both in °C: the inverse of [FlowForHeat], with sign,
// so that a liquid that warms up carries a negative heat. Supply and ret may be
// equal, and up to 300 K apart (guard).
// Source: energy balance.
func HeatCarried(flow, supply, ret float64, l fluid.Liquid) (float64, error) {
	const fn = "pipe.HeatCarried"
	if err := errors.Join(within(fn, "flow", "m³/s", flow, -maxFlow, maxFlow),
		within(fn, "spread between supply and return", "K", supply-ret, -maxSpread, maxSpread)); err != nil {
		return math.NaN(), err
	}
	p, err := l.At((supply + ret) / 2)
	if err != nil {
		return math.NaN(), err
	}
	return p.HeatCapacityRate(flow) * (supply - ret), nil
}

// TemperatureSpread returns the difference in K between supply and return of a
// flow in m³/s (1e-9 to 1000, guard) with the properties p at the mean
// temperature that gives off the heat in W (±1e9, guard). Of p it takes the
// density (100 to 2000 kg/m³) and the specific heat (500 to 2e4 J/(kg·K), guards).
// Source: energy balance.
func TemperatureSpread(heat, flow float64, p fluid.Properties) (float64, error) {
	const fn = "pipe.TemperatureSpread"
	if err := errors.Join(within(fn, "heat", "W", heat, -maxPower, maxPower),
		within(fn, "flow", "m³/s", flow, 1e-9, maxFlow),
		within(fn, "density", "kg/m³", p.Density, minDensity, maxDensity),
		within(fn, "specific heat", "J/(kg·K)", p.SpecificHeat, minSpecificHeat, maxSpecificHeat)); err != nil {
		return math.NaN(), err
	}
	return heat / p.HeatCapacityRate(flow), nil
}

// GravityCirculation returns the pressure in Pa that drives a loop by the
// difference of densities in kg/m³ between its cold and its warm leg over the
// height in m (±1000, guard): (ρcold - ρwarm) g h. About 44 Pa per metre at 50 °C
// and 10 K. The densities may be 100 to 2000 kg/m³ (guard).
// Source: hydrostatics.
func GravityCirculation(cold, warm, height float64) (float64, error) {
	const fn = "pipe.GravityCirculation"
	err := errors.Join(within(fn, "density of the cold leg", "kg/m³", cold, minDensity, maxDensity),
		within(fn, "density of the warm leg", "kg/m³", warm, minDensity, maxDensity),
		within(fn, "height", "m", height, -1000, 1000))
	if err != nil {
		return math.NaN(), err
	}
	return (cold - warm) * hydronics.StandardGravity * height, nil
}

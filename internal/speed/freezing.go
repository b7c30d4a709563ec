package main

import (
	"math"

	"example.com/hydronics/frost"
)

// coolBySteps follows the temperature of a lump in steps of 10 s to the target and
// returns the time, s.
func coolBySteps(l frost.Lump, start, target, ambient float64) (time float64) {
	const dt = 10
	for t := start; t > target; time += dt {
		t -= dt * (t - ambient) / (l.Resistance * l.Capacity)
	}
	return time
}

// freezeBySteps lets a ring of ice grow in steps of 10 s to a mass fraction and
// returns the time, s.
func freezeBySteps(l frost.Lump, fraction, ambient float64) (time float64) {
	const dt = 10
	content := l.Medium.Density * l.Medium.LatentHeat * math.Pi * l.Bore * l.Bore / 4 // J/m
	for f := 0.0; f < fraction; time += dt {
		ice := -math.Log(1-f) / (4 * math.Pi * l.Medium.IceConductivity)
		f += dt * -ambient / (l.Resistance + ice) / content
	}
	return time
}

// explicit follows a bore full of water behind one layer of insulation by the
// enthalpy method until the last water is frozen, and returns the time, s. The
// rings are as many as the library's in the water, the steps explicit, equal, and
// about the longest that stay stable.
func explicit(s frost.Section, m frost.Medium, start, ambient float64) (time float64) {
	const wet, dry = 10, 5 // rings of water and of insulation
	const dt = 0.2
	type ring struct {
		in, out float64 // ln of the ratios of the radii from the middle to both faces
		content float64 // kg/m of water, J/(m·K) of insulation
		heat    float64 // J/kg over water at 0 °C, K over 0 °C
		k, t    float64 // W/(m·K), °C
	}
	var rings [wet + dry]ring
	layer, r := s.Layers[0], 0.0
	for i := range rings {
		ring := &rings[i]
		width := s.Bore / 2 / wet
		if i >= wet {
			width = layer.Thickness / dry
		}
		ring.in, ring.out = math.Log((r+width/2)/r), math.Log((r+width)/(r+width/2))
		ring.content = math.Pi * ((r+width)*(r+width) - r*r)
		ring.t = start
		if r += width; i < wet {
			ring.content *= m.Density
			ring.heat, ring.k = m.SpecificHeat*start, m.Conductivity
		} else {
			ring.content *= layer.HeatCapacity
			ring.heat, ring.k = start, layer.Conductivity
		}
	}
	for ; rings[0].heat > -m.LatentHeat; time += dt {
		flow := 0.0 // W/m into the ring
		for i := range rings {
			ring, next := &rings[i], 0.0
			if i+1 < len(rings) {
				other := &rings[i+1]
				next = 2 * math.Pi * (ring.t - other.t) / (ring.out/ring.k + other.in/other.k)
			} else {
				next = 2 * math.Pi * (ring.t - ambient) / (ring.out/ring.k + 1/(r*s.Surface.Coefficient))
			}
			ring.heat += dt * (flow - next) / ring.content
			flow = next
		}
		for i := range rings {
			ring := &rings[i]
			switch h := ring.heat; {
			case i >= wet:
				ring.t = h
			case h > 0:
				ring.t = h / m.SpecificHeat
			case h > -m.LatentHeat: // ice from outside inwards, in parts of the ring
				ring.t = 0
				ring.k = m.Conductivity + h/m.LatentHeat*(m.Conductivity-m.IceConductivity)
			default:
				ring.t = (h + m.LatentHeat) / m.IceSpecificHeat
				ring.k = m.IceConductivity
			}
		}
	}
	return time
}

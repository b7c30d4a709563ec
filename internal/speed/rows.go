package main

import (
	"fmt"
	"math"

	"example.com/hydronics/dhw"
	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

// A row is a calculation of the library and a plain way to the same results.
type row struct {
	name, plainName string
	library, plain  loop
	rounds          int
	tolerance       float64 // relative, between what the two loops return
}

// temperature and the rest vary the input from one run to the next.
func temperature(i int) float64  { return 20 + float64(i&31) }
func massFraction(i int) float64 { return 0.3 + float64(i&31)/1000 }
func reynolds(i int) float64     { return 3000 + 100*float64(i&1023) }
func flow(i int) float64         { return 3e-4 + 1e-6*float64(i&255) }

const (
	pressure  = 3e5  // Pa absolute
	roughness = 1e-3 // relative
)

func sum(p fluid.Properties) float64 {
	return p.Density + p.SpecificHeat + p.Conductivity + p.DynamicViscosity
}

// rows lists the table. A calculation that fails gives NaN or nothing, which the
// test of this program notices.
func rows() ([]row, error) {
	list := water()
	for _, part := range []func() ([]row, error){solutions, friction, freezing, networks, day} {
		more, err := part()
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

func water() []row {
	liquid := fluid.Water()
	const powers = "IAPWS equations term by term with `math.Pow`"
	return []row{
		{name: "water: density", plainName: powers, rounds: 1000, tolerance: 1e-13,
			library: each(func(i int) float64 {
				density, _ := liquid.Density(temperature(i))
				return density
			}),
			plain: each(func(i int) float64 { return powDensity(temperature(i), pressure) })},
		{name: "water: density, specific heat, conductivity, viscosity", plainName: powers, rounds: 1000, tolerance: 1e-13,
			library: each(func(i int) float64 {
				p, _ := liquid.At(temperature(i))
				return sum(p)
			}),
			plain: each(func(i int) float64 { return sum(powProperties(temperature(i), pressure)) })},
		{name: "water: full state, 13 properties", plainName: powers, rounds: 1000, tolerance: 1e-11,
			library: each(func(i int) float64 {
				state, _ := fluid.WaterState(temperature(i), pressure)
				return state.Enthalpy
			}),
			plain: each(func(i int) float64 { return powState(temperature(i), pressure).Enthalpy })},
	}
}

func solutions() ([]row, error) {
	prepared, err := fluid.PropyleneGlycol.ByMass(0.3)
	const powers = "the polynomials term by term with `math.Pow`"
	return []row{
		{name: "propylene glycol, concentration prepared: four properties", plainName: powers, rounds: 1000, tolerance: 1e-13,
			library: each(func(i int) float64 {
				p, _ := prepared.At(temperature(i))
				return sum(p)
			}),
			plain: each(func(i int) float64 { return sum(powSolution(0.3, temperature(i))) })},
		{name: "propylene glycol, any concentration: four properties", plainName: powers, rounds: 1000, tolerance: 1e-13,
			library: each(func(i int) float64 {
				l, _ := fluid.PropyleneGlycol.ByMass(massFraction(i))
				p, _ := l.At(temperature(i))
				return sum(p)
			}),
			plain: each(func(i int) float64 { return sum(powSolution(massFraction(i), temperature(i))) })},
	}, err
}

func friction() ([]row, error) {
	run := pipe.Run{Bore: 0.026, Roughness: roughness * 0.026, Length: 12, Zeta: 6}
	p, err := fluid.Water().At(35)
	if err != nil {
		return nil, err
	}
	prepared, err := run.Prepare(p)
	const iteration = "Colebrook put into itself with `math.Log10` until 13 digits stand"
	return []row{
		{name: "friction factor", plainName: iteration, rounds: 1000, tolerance: 1e-12,
			library: each(func(i int) float64 {
				f, _ := pipe.FrictionFactor(reynolds(i), roughness)
				return f
			}),
			plain: each(func(i int) float64 { return fixedPoint(reynolds(i), roughness) })},
		{name: "loss of a run with everything about it", plainName: iteration, rounds: 1000, tolerance: 1e-12,
			library: each(func(i int) float64 {
				loss, _ := run.Loss(flow(i), p)
				return loss.Total
			}),
			plain: each(func(i int) float64 { return plainLoss(run, flow(i), p) })},
		{name: "loss of a prepared run and its slope", plainName: "the same, with a difference quotient", rounds: 1000, tolerance: 1e-7,
			library: each(func(i int) float64 {
				loss, slope := prepared.LossAndSlope(flow(i))
				return loss + slope
			}),
			plain: each(func(i int) float64 { return plainLoss(run, flow(i), p) + plainSlope(run, flow(i), p) })},
	}, err
}

func freezing() ([]row, error) {
	section := frost.Section{Bore: 0.025, Surface: frost.Surface{Coefficient: 10},
		Layers: []frost.Layer{{Thickness: 0.025, Conductivity: 0.036, HeatCapacity: 9e4}}}
	const outdoors = -10.0
	lump, err := section.Lump(frost.Water(), 35, frost.Air{Temperature: outdoors})
	if err != nil {
		return nil, err
	}
	standing := frost.Standing{Section: section, Medium: frost.Water(), Start: 35,
		Weather: []frost.Air{{Temperature: outdoors}}, Until: 1e6}
	return []row{
		{name: "cooling to 0 °C and freezing of a quarter, closed form", plainName: "steps of 10 s", rounds: 1000, tolerance: 2e-3,
			library: each(func(i int) float64 {
				cool, _ := lump.CoolingTime(temperature(i), 0, outdoors)
				freeze, _ := lump.FreezingTime(0.25, outdoors)
				return cool.Seconds + freeze.Seconds
			}),
			plain: each(func(i int) float64 {
				return coolBySteps(lump, temperature(i), 0, outdoors) + freezeBySteps(lump, 0.25, outdoors)
			})},
		{name: "freezing history of an insulated tube", plainName: "explicit enthalpy method in steps of 0.2 s", rounds: 30, tolerance: 5e-3,
			library: each(func(int) float64 {
				h, _ := standing.Resolve()
				return h.Closed.Seconds
			}),
			plain: each(func(int) float64 { return explicit(section, frost.Water(), 35, outdoors) })},
	}, nil
}

// networks compares up to 1,000 emitters: the full matrix of 10,000 would take 3 GB.
func networks() ([]row, error) {
	var list []row
	for i, emitters := range []int{10, 100, 1000} {
		net, err := twoPipe(emitters)
		if err != nil {
			return nil, err
		}
		system, err := net.Prepare()
		if err != nil {
			return nil, err
		}
		full, err := newDense(net)
		if err != nil {
			return nil, err
		}
		list = append(list, row{name: fmt.Sprintf("two-pipe system, %d emitters", emitters),
			plainName: "Newton's method with the full matrix (gonum)", rounds: []int{1000, 100, 5}[i], tolerance: 1e-9,
			library: solving(system),
			plain: each(func(int) float64 {
				mass, err := full.solve()
				if err != nil {
					return math.NaN()
				}
				return mass[0]
			})})
	}
	return list, nil
}

func solving(system *network.System) loop {
	return each(func(int) float64 {
		r, err := system.Solve()
		if err != nil {
			return math.NaN()
		}
		return r.Branches[0].Mass
	})
}

func twoPipe(emitters int) (network.Network, error) {
	p, err := fluid.Water().At(50)
	if err != nil {
		return network.Network{}, err
	}
	return network.TwoPipe(emitters, p)
}

// growth returns the exponent of the time per iteration from 100 to 10,000 emitters.
func growth() (float64, error) {
	per := [2]float64{}
	loops := [2]loop{}
	for i, emitters := range []int{100, 10_000} {
		net, err := twoPipe(emitters)
		if err != nil {
			return 0, err
		}
		system, err := net.Prepare()
		if err != nil {
			return 0, err
		}
		solution, err := system.Solve()
		if err != nil {
			return 0, err
		}
		per[i] = 1 / float64(solution.Iterations)
		loops[i] = solving(system)
	}
	least := compare(100, loops[:]...)
	return math.Log(least[1]*per[1]/(least[0]*per[0])) / math.Log(100), nil
}

// day has no plain way beside it: a shorter step would be less accurate, not plainer.
func day() ([]row, error) {
	profile, err := dhw.LoadProfile("L")
	d := dhw.Day{
		Cylinder: dhw.Cylinder{Volume: 0.2, Nodes: 20, VolumetricHeat: 4.18e6, LossCoefficient: 1.5},
		Profile:  profile, Heater: dhw.Heater{{Store: 5, Power: 7000}, {Store: 35, Power: 6200}, {Store: 60, Power: 4500}},
		Coil: 0.5, Sensor: 0.6, On: 47, Off: 52, Start: 50, Cold: 10, Ambient: 20, Step: 60, Days: 1,
	}
	return []row{{name: "a day at the cylinder, 20 layers, steps of a minute", rounds: 100,
		library: each(func(int) float64 {
			r, _ := d.Run(nil)
			return r.Delivered
		})}}, err
}

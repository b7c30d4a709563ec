package frost_test

import (
	"testing"

	"example.com/hydronics/fluid"
	"example.com/hydronics/frost"
	"github.com/stretchr/testify/assert"
)

var sink float64

func BenchmarkHeatFlowGiven(b *testing.B) {
	s := foamed()
	for b.Loop() {
		f, _ := s.HeatFlow(35, frost.Air{Temperature: -10})
		sink = f.PerMetre
	}
}

func BenchmarkHeatFlowCorrelated(b *testing.B) {
	s := foamed()
	s.Surface = frost.InTheOpen()
	for b.Loop() {
		f, _ := s.HeatFlow(35, frost.Air{Temperature: -10, Wind: 3})
		sink = f.PerMetre
	}
}

func BenchmarkCoolingAndFreezingTime(b *testing.B) {
	l, err := foamed().Lump(frost.Water(), 35, frost.Air{Temperature: -10})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		c, _ := l.CoolingTime(35, 0, -10)
		f, _ := l.FreezingTime(0.25, -10)
		sink = c.Seconds + f.Seconds
	}
}

func BenchmarkEmpty(b *testing.B) {
	c := frost.Column{Bore: 0.026, Roughness: 1.5e-6, Kv: 1.5, Final: 0.02, Legs: []frost.Leg{{Length: 1.5, Rise: 1.5}, {Length: 6, Rise: 0.06}}}
	p := fluid.Properties{Density: 999.8, DynamicViscosity: 1.79e-3}
	for b.Loop() {
		e, _ := c.Empty(p)
		sink = e.Time
	}
}

func TestScalarsAllocateNothing(t *testing.T) {
	s := foamed()
	open := foamed()
	open.Surface = frost.InTheOpen()
	l, err := s.Lump(frost.Water(), 35, frost.Air{Temperature: -10})
	assert.NoError(t, err)
	c := frost.Column{Bore: 0.026, Kv: 1.5, Legs: []frost.Leg{{Length: 1.5, Rise: 1.5}}}
	p := fluid.Properties{Density: 999.8, DynamicViscosity: 1.79e-3}
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		f, _ := s.HeatFlow(35, frost.Air{Temperature: -10})
		g, _ := open.HeatFlow(35, frost.Air{Temperature: -10, Wind: 3, Infrared: 200})
		a, _ := s.Lump(frost.Water(), 35, frost.Air{Temperature: -10})
		b, _ := l.CoolingTime(35, 0, -10)
		d, _ := l.FreezingTime(0.25, -10)
		e, _ := c.Empty(p)
		sink = f.PerMetre + g.PerMetre + a.Capacity + b.Seconds + d.Seconds + e.Time
	}))
}

func BenchmarkResolve(b *testing.B) {
	s := frost.Standing{Section: foamed(), Medium: frost.Water(), Start: 35, Weather: []frost.Air{{Temperature: -10}}, Until: 1e6}
	for b.Loop() {
		h, _ := s.Resolve()
		sink = h.Closed.Seconds
	}
}

func BenchmarkReachEmpty(b *testing.B) {
	r := outdoors()
	p := fluid.Properties{Density: 999.8, DynamicViscosity: 1.7e-3}
	for b.Loop() {
		d, _ := r.Empty(p)
		sink = d.Time
	}
}

func BenchmarkNight(b *testing.B) {
	n := night()
	for b.Loop() {
		o, _ := n.Run()
		sink = o.Margin
	}
}

func BenchmarkNeumannDepth(b *testing.B) {
	for b.Loop() {
		sink, _ = frost.NeumannDepth(frost.Water(), -10, 4, 3600)
	}
}

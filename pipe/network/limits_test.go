package network_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/edge"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A limit is a number that a calculation takes from low to high, both included.
type limit struct {
	call      string
	quantity  string // as the RangeError names it
	low, high float64
	try       func(x float64) error
}

// Every documented limit is tried just inside and just outside.
func TestLimits(t *testing.T) {
	for _, l := range limits(t) {
		t.Run(l.call+", "+l.quantity, func(t *testing.T) { edge.Check(t, l.quantity, l.low, l.high, 0, l.try) })
	}
}

// prepared returns a system that is known to be good.
func prepared(t testing.TB, n network.Network) *network.System {
	s, err := n.Prepare()
	require.NoError(t, err)
	return s
}

func limits(t *testing.T) []limit {
	return append(append(networkLimits(t), elementLimits(t)...), questionLimits(t)...)
}

// with returns a trial that changes a valid network and prepares it.
func with(t *testing.T, set func(n *network.Network, x float64)) func(x float64) error {
	return func(x float64) error {
		n := ring(t, network.Pump{Curve: smallPump, Speed: 1}, 1, network.Device{Kv: 2})
		set(&n, x)
		return edge.Err(n.Prepare())
	}
}

// element returns a trial of one element beside others.
func element(t *testing.T, e func(x float64) network.Element) func(x float64) error {
	return with(t, func(n *network.Network, x float64) {
		n.Branches[1].Elements = append(n.Branches[1].Elements, e(x))
	})
}

func networkLimits(t *testing.T) []limit {
	const prepare = "Network.Prepare"
	liquid := func(set func(p *fluid.Properties, x float64)) func(x float64) error {
		return with(t, func(n *network.Network, x float64) {
			own := n.Liquid
			set(&own, x)
			n.Branches[1].Liquid = own
		})
	}
	return []limit{
		{prepare, "height", -1000, 10000, with(t, func(n *network.Network, x float64) { n.Nodes[1].Height = x })},
		{prepare, "inflow", -1e6, 1e6, with(t, func(n *network.Network, x float64) { n.Nodes[1].Inflow = x })},
		{prepare, "pressure", -1e5, 1e9, with(t, func(n *network.Network, x float64) { n.Nodes[0].Pressure = hydronics.Gauge(x) })},
		{prepare + ", network", "density", 100, 2000, with(t, func(n *network.Network, x float64) { n.Liquid.Density = x })},
		{prepare + ", branch", "density", 100, 2000, liquid(func(p *fluid.Properties, x float64) { p.Density = x })},
		{prepare, "dynamic viscosity", 1e-5, 10, liquid(func(p *fluid.Properties, x float64) { p.DynamicViscosity = x })},
		{"TwoPipe", "density", 100, 2000, func(x float64) error { return edge.Err(network.TwoPipe(1, fluid.Properties{Density: x})) }},
	}
}

func elementLimits(t *testing.T) []limit {
	pump := func(set func(p *network.Pump, x float64)) func(x float64) error {
		return func(x float64) error {
			p := network.Pump{Curve: append([]network.PumpPoint(nil), smallPump...), Speed: 1}
			set(&p, x)
			return edge.Err(ring(t, p, 0, network.Device{Kv: 2}).Prepare())
		}
	}
	heights := func(p *network.Pump, x float64) { // a falling curve from the head x
		p.Curve = []network.PumpPoint{{Head: x}, {Flow: 1e-3, Head: x - 1}, {Flow: 2e-3, Head: x - 2}}
	}
	valve := func(set func(v *network.Valve, x float64)) func(x float64) error {
		return func(x float64) error {
			v := network.Valve{Kvs: 2, Rangeability: 50, Position: 0.5}
			set(&v, x)
			return edge.Err(v.Kv())
		}
	}
	thermostatic := func(set func(v *network.Thermostatic, x float64)) func(x float64) error {
		return func(x float64) error {
			v := network.Thermostatic{Kv2: 0.4, Kvs: 0.8, Closing: 22, Room: 20}
			set(&v, x)
			return edge.Err(v.Kv())
		}
	}
	gained := smallPump[2].Flow * smallPump[2].Head * 1000 * hydronics.StandardGravity
	return []limit{
		{"Device", "Kv of the device", 1e-4, 1e5, element(t, func(x float64) network.Element { return network.Device{Kv: pipe.Kv(x)} })},
		{"Strainer", "Kv of the strainer", 1e-4, 1e5, element(t, func(x float64) network.Element { return network.Strainer{Kv: pipe.Kv(x)} })},
		{"Strainer", "strainer fouling", 0, 100, element(t, func(x float64) network.Element { return network.Strainer{Kv: 5, Fouling: x} })},
		{"NonReturn", "Kv of the non-return valve", 1e-4, 1e5, element(t, func(x float64) network.Element { return network.NonReturn{Kv: pipe.Kv(x)} })},
		{"NonReturn", "opening pressure of the non-return valve", 0, 1e5, element(t, func(x float64) network.Element { return network.NonReturn{Kv: 5, Opening: x} })},
		{"Bypass", "set pressure of the bypass", 0, 1e6, element(t, func(x float64) network.Element { return network.Bypass{Kvs: 5, Set: x} })},
		{"Bypass", "slope of the bypass", 0, 1e12, element(t, func(x float64) network.Element { return network.Bypass{Kvs: 5, Slope: x} })},
		{"Bypass", "Kvs of the bypass", 1e-4, 1e5, element(t, func(x float64) network.Element { return network.Bypass{Kvs: pipe.Kv(x)} })},
		{"Lift", "lift", -1e7, 1e7, element(t, func(x float64) network.Element { return network.Lift{Pressure: x} })},
		{"Run", "bore", 0.5e-3, 3, element(t, func(x float64) network.Element { return network.Run{Bore: x, Length: 1} })},
		{"Run", "sum of loss coefficients", 0, 1e6, element(t, func(x float64) network.Element { return network.Run{Bore: 0.02, Zeta: x} })},
		{"Valve.Kv", "position of the valve", 0, 1, valve(func(v *network.Valve, x float64) { v.Position = x })},
		{"Valve.Kv", "rangeability of the valve", 2, 1000, valve(func(v *network.Valve, x float64) { v.Rangeability = x })},
		{"Valve.Kv", "Kvs of the valve", 1e-4, 1e5, valve(func(v *network.Valve, x float64) { v.Kvs = pipe.Kv(x) })},
		{"Thermostatic.Kv", "Kv2 of the thermostatic valve", 1e-4, math.Inf(1), thermostatic(func(v *network.Thermostatic, x float64) { v.Kv2, v.Kvs = pipe.Kv(x), max(0.8, pipe.Kv(x)) })},
		{"Thermostatic.Kv", "Kvs of the thermostatic valve", 0.4, 1e5, thermostatic(func(v *network.Thermostatic, x float64) { v.Kvs = pipe.Kv(x) })},
		{"Thermostatic.Kv", "closing temperature of the thermostatic valve", -50, 100, thermostatic(func(v *network.Thermostatic, x float64) { v.Closing = x })},
		{"Thermostatic.Kv", "room temperature at the thermostatic valve", -50, 100, thermostatic(func(v *network.Thermostatic, x float64) { v.Room = x })},
		{"Pump", "speed of the pump", 0.05, 2, pump(func(p *network.Pump, x float64) { p.Speed = x })},
		{"Pump", "head on the pump's curve", math.Inf(-1), 1000, pump(heights)},
		{"Pump, last point", "head on the pump's curve", 0, math.Inf(1), pump(func(p *network.Pump, x float64) { p.Curve[5].Head = x })},
		{"Pump", "flow of the first point of the pump's curve", 0, 0, pump(func(p *network.Pump, x float64) { p.Curve[0].Flow = x })},
		{"Pump", "flow on the pump's curve", math.Inf(-1), 1000, pump(func(p *network.Pump, x float64) {
			p.Curve = []network.PumpPoint{{Head: 4}, {Flow: x, Head: 1}}
		})},
		{"Pump", "power on the pump's curve", gained, 1e9, pump(func(p *network.Pump, x float64) { p.Curve[2].Power = x })},
	}
}

func questionLimits(t *testing.T) []limit {
	h := newHouse(t, liquid(t, 32))
	unbalanced := prepared(t, h.Network)
	r, err := h.Solve()
	require.NoError(t, err)
	heat := func(set func(h *network.Heat, x float64)) func(x float64) error {
		return func(x float64) error {
			v := network.Heat{Branch: h.source, Exchange: network.LosesTo}
			set(&v, x)
			return edge.Err(h.Temperatures(r, 20, []network.Heat{v}))
		}
	}
	specific := func(x float64) error {
		n := h.Clone()
		n.Liquid.SpecificHeat = x
		return edge.Err(n.Temperatures(r, 20, nil))
	}
	return []limit{
		{"System.Balance", "least pressure at a balancing valve", 1, 1e5, func(x float64) error { return edge.Err(unbalanced.Balance(h.designs, x)) }},
		{"System.Balance", "design flow", 1e-9, 1e3, func(x float64) error {
			err := edge.Err(unbalanced.Balance([]network.Design{{Branch: h.zones[0], Flow: x}}, 1))
			if edge.Named(err, "design flow") == nil { // it is taken, but no valve is that small and no tube that wide
				return nil
			}
			return err
		}},
		{"System.DesignSpeed", "least pressure at a balancing valve", 0, 1e5, func(x float64) error {
			return edge.Err(unbalanced.DesignSpeed(h.source, h.designs, x))
		}},
		{"System.SpeedFor", "flow", 1e-9, 1e3, func(x float64) error { return edge.Err(unbalanced.SpeedFor(h.source, h.zones[0], x)) }},
		{"System.BypassSetting", "least flow", 1e-9, 1e3, func(x float64) error {
			return edge.Err(unbalanced.BypassSetting(h.bypass, h.source, h.zones, x))
		}},
		{"InstalledFlow", "authority", 1e-6, 1, func(x float64) error { return edge.Err(network.InstalledFlow(x, 0.5)) }},
		{"InstalledFlow", "Kv/Kvs", 1e-6, 1, func(x float64) error { return edge.Err(network.InstalledFlow(0.5, x)) }},
		{"Network.Inlet", "atmospheric pressure", 5e4, 1.1e5, func(x float64) error { return edge.Err(h.Inlet(r, h.source, x)) }},
		{"Network.Temperatures", "temperature of what enters", -100, 400, func(x float64) error { return edge.Err(h.Temperatures(r, x, nil)) }},
		{"Network.Temperatures", "specific heat", 100, 1e5, specific},
		{"Network.Temperatures", "temperature of the exchange", -100, 400, heat(func(h *network.Heat, x float64) { h.Temperature = x })},
		{"Network.Temperatures", "heat", -1e9, 1e9, heat(func(h *network.Heat, x float64) { h.Power = x })},
		{"Network.Temperatures", "conductance", 0, 1e7, heat(func(h *network.Heat, x float64) { h.Conductance = x })},
	}
}

// Counts have limits too.
func TestLimitsOfCounts(t *testing.T) {
	p := liquid(t, 50)
	for emitters, good := range map[int]bool{0: false, 1: true, -1: false, 1_000_001: false} {
		_, err := network.TwoPipe(emitters, p)
		assert.Equal(t, good, edge.Named(err, "number of emitters") == nil, "%d: %v", emitters, err)
	}
	n := network.Network{Liquid: p}
	in, out := n.AddNode(network.Node{Fixed: true, Pressure: 1e4}), n.AddNode(network.Node{Fixed: true})
	var zones []int
	for range 17 {
		zones = append(zones, n.AddBranch(network.Branch{From: in, To: out, Elements: device(1)}))
	}
	watched := n.AddBranch(network.Branch{From: in, To: out, Elements: device(1)})
	s := prepared(t, n)
	for count, good := range map[int]bool{0: false, 1: true, 8: true, 17: false} {
		_, err := s.Combinations(zones[:count], watched)
		assert.Equal(t, good, edge.Named(err, "number of zones") == nil, "%d: %v", count, err)
	}
}

// The limits of results: a pump from no flow to the end of its curve, a tube to
// 50 m/s. The flow is given from outside, so that it is exact.
func TestLimitsOfResults(t *testing.T) {
	p := liquid(t, 20)
	through := func(flow float64, elements ...network.Element) error {
		n := network.Network{Liquid: p}
		in, out := n.AddNode(network.Node{Fixed: true}), n.AddNode(network.Node{Inflow: -flow * p.Density})
		n.AddBranch(network.Branch{From: in, To: out, Elements: elements})
		return edge.Err(n.Solve())
	}
	last := smallPump[len(smallPump)-1].Flow
	pump := []network.Element{network.Device{Kv: 5}, network.Pump{Curve: smallPump, Speed: 1}}
	for flow, good := range map[float64]bool{last * (1 - 1e-8): true, last * (1 + 1e-8): false, 1e-9: true, -1e-9: false} {
		assert.Equal(t, good, edge.Named(through(flow, pump...), "flow of the pump") == nil, "%v", flow)
	}
	const bore = 0.01
	fast := 50 * math.Pi / 4 * bore * bore
	for flow, good := range map[float64]bool{fast * (1 - 1e-8): true, fast * (1 + 1e-8): false, -fast * (1 - 1e-8): true, -fast * (1 + 1e-8): false} {
		assert.Equal(t, good, edge.Named(through(flow, network.Run{Bore: bore, Length: 1}), "velocity") == nil, "%v", flow)
	}
	thin := p
	thin.DynamicViscosity = 1e-4
	p = thin
	wide := 1e8 * math.Pi / 4 * 3 * thin.DynamicViscosity / thin.Density
	for flow, good := range map[float64]bool{wide * (1 - 1e-8): true, wide * (1 + 1e-8): false} {
		assert.Equal(t, good, edge.Named(through(flow, network.Run{Bore: 3, Length: 1}), "Reynolds number") == nil, "%v", flow)
	}
	// 1e9 Pa over a valve.
	kv := pipe.Kv(1e-2)
	forced, err := kv.Flow(1e9, p.Density)
	require.NoError(t, err)
	for flow, good := range map[float64]bool{forced * (1 - 1e-8): true, forced * (1 + 1e-8): false} {
		assert.Equal(t, good, edge.Named(through(flow, network.Device{Kv: kv}), "pressure along it") == nil, "%v", flow)
	}
	for flow, good := range map[float64]bool{999: true, 1001: false} {
		p.Density = 900
		assert.Equal(t, good, edge.Named(through(flow, network.Device{Kv: 1e5}), "flow") == nil, "%v", flow)
	}
}

package network_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
)

// FuzzSolve builds a network of three nodes from any numbers: either an error of
// the two kinds, or a solution of finite numbers.
func FuzzSolve(f *testing.F) {
	f.Add(1e5, 0.0, 0.02, 10.0, 5.0, 2.0, 1e4, 1e7, 5.0, 0.5, uint8(0))
	f.Add(0.0, -3.0, 0.01, 0.0, 1.0, 0.5, 0.0, 0.0, 1e4, 1.0, uint8(1))
	f.Add(math.NaN(), math.Inf(1), -1.0, 1e300, 1e-300, 0.0, -1.0, 1e13, 0.0, 3.0, uint8(255))
	f.Fuzz(func(t *testing.T, pressure, height, bore, length, zeta, kv, set, slope, head, speed float64, bits uint8) {
		n := network.Network{Liquid: fluid.Properties{Temperature: 20, Density: 998, SpecificHeat: 4180, Conductivity: 0.6, DynamicViscosity: 1e-3}}
		n.AddNode(network.Node{Fixed: true, Pressure: hydronics.Gauge(pressure)})
		n.AddNode(network.Node{Height: height, Inflow: float64(bits>>4) / 100})
		n.AddNode(network.Node{Fixed: bits&1 != 0})
		n.AddBranch(network.Branch{From: 0, To: 1, Shut: bits&2 != 0, Elements: []network.Element{
			network.Run{Bore: bore, Length: length, Zeta: zeta, Roughness: bore / 1000},
			network.Pump{Speed: speed, Control: network.Control(bits >> 2 & 3), Set: set, Curve: []network.PumpPoint{{Head: head}, {Flow: 1e-3, Head: head / 2}, {Flow: 2e-3, Head: head / 10}}}}})
		n.AddBranch(network.Branch{From: 1, To: 2, Elements: []network.Element{
			network.Bypass{Set: set, Slope: slope, Kvs: pipe.Kv(kv)}, network.Lift{Pressure: pressure / 10}}})
		n.AddBranch(network.Branch{From: 2, To: 0, Elements: []network.Element{
			network.Valve{Kvs: pipe.Kv(kv), Rangeability: 50, Position: speed, Characteristic: network.Characteristic(bits >> 7)},
			network.NonReturn{Kv: pipe.Kv(kv), Opening: set}}})
		n.AddBranch(network.Branch{From: 1, To: 0, Elements: []network.Element{network.Strainer{Kv: pipe.Kv(kv), Fouling: slope}}})
		s, err := n.Solve()
		if err != nil {
			if !errors.Is(err, hydronics.ErrRange) && !errors.Is(err, hydronics.ErrNoSolution) {
				t.Fatalf("error of no kind: %v", err)
			}
			if s != nil {
				t.Fatal("a solution beside an error")
			}
			return
		}
		for b, branch := range s.Branches {
			for _, v := range []float64{branch.Flow, branch.Mass, branch.Loss, branch.Gain, branch.Difference, branch.Velocity} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("branch %d: %+v", b, branch)
				}
			}
		}
		for i, node := range s.Nodes {
			if p := float64(node.Pressure); math.IsNaN(p) || math.IsInf(p, 0) || math.IsNaN(node.Inflow) {
				t.Fatalf("node %d: %+v", i, node)
			}
		}
		if state, err := s.Pump(0); err == nil && (math.IsNaN(state.Head) || math.IsNaN(state.Speed) || math.IsNaN(state.Flow)) {
			t.Fatalf("pump: %+v", state)
		}
		temperatures, err := n.Temperatures(s, 20, []network.Heat{
			{Branch: 0, Exchange: network.Delivers, Temperature: set}, {Branch: 1, Exchange: network.LosesTo, Temperature: height, Conductance: slope},
			{Branch: 2, Exchange: network.GivesOff, Power: pressure}})
		if err == nil {
			for i, v := range temperatures.Nodes {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("temperature of node %d: %v", i, v)
				}
			}
		}
	})
}

// FuzzRandom solves whole networks with elements of every kind.
func FuzzRandom(f *testing.F) {
	f.Add(uint64(1))
	f.Fuzz(func(t *testing.T, seed uint64) {
		n := random(t, rand.New(rand.NewPCG(seed, 2)))
		s, err := n.Solve()
		if err == nil {
			holds(t, n, s)
		} else if !errors.Is(err, hydronics.ErrRange) && !errors.Is(err, hydronics.ErrNoSolution) {
			t.Fatal(err)
		}
	})
}

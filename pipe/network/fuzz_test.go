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

// FuzzQuestions asks a prepared house everything: an error of the two kinds, or
// finite answers, and the system afterwards as it was before.
func FuzzQuestions(f *testing.F) {
	f.Add(0.02, 30.0, 1.6, 0.5, 3e4, 1e7, 4.0, 1e-4, 1000.0, 3e-4, uint8(0))
	f.Add(0.01, 100.0, 0.1, 0.0, 0.0, 0.0, 1e3, 1e-6, 0.0, 1e-5, uint8(7))
	f.Add(0.03, 0.0, 50.0, 1.0, 1e6, 1e12, 1e-3, 1e-3, 1e5, 2e-3, uint8(255))
	f.Fuzz(func(t *testing.T, bore, length, kvs, position, set, slope, kv, design, least, minimum float64, bits uint8) {
		n := network.Network{Liquid: fluid.Properties{Temperature: 40, Density: 992, SpecificHeat: 4180, Conductivity: 0.63, DynamicViscosity: 6.5e-4}}
		ret, supply := n.AddNode(network.Node{Fixed: true, Pressure: 1.2e5}), n.AddNode(network.Node{Height: 2})
		middle := n.AddNode(network.Node{})
		source := n.AddBranch(network.Branch{From: ret, To: supply, Elements: []network.Element{
			network.Device{Kv: pipe.Kv(kv)}, network.Pump{Curve: smallPump, Speed: 1, Control: network.Control(bits & 1), Set: set}}})
		if bits&2 != 0 {
			n.Branches[source].Elements = append(n.Branches[source].Elements, network.NonReturn{Kv: 8, Opening: 300})
		}
		tube := network.Run{Bore: bore, Length: length, Roughness: 1e-6}
		valve := network.Valve{Kvs: pipe.Kv(kvs), Rangeability: 50, Position: position}
		one := n.AddBranch(network.Branch{From: supply, To: ret, Elements: []network.Element{tube, valve}})
		two := n.AddBranch(network.Branch{From: supply, To: middle, Elements: []network.Element{tube, valve}, Shut: bits&4 != 0})
		three := n.AddBranch(network.Branch{From: middle, To: ret, Elements: []network.Element{network.Device{Kv: 2}}, Shut: bits&8 != 0})
		bypass := n.AddBranch(network.Branch{From: supply, To: ret, Elements: []network.Element{
			network.Bypass{Set: min(set, 1e6), Slope: slope, Kvs: pipe.Kv(kv)}}, Shut: bits&16 != 0})
		s, err := n.Prepare()
		if err != nil {
			return
		}
		before, errBefore := s.Solve()
		check := func(what string, err error, numbers ...float64) {
			if err != nil && !errors.Is(err, hydronics.ErrRange) && !errors.Is(err, hydronics.ErrNoSolution) {
				t.Fatalf("%s: error of no kind: %v", what, err)
			}
			for _, v := range numbers {
				if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
					t.Fatalf("%s: %v without an error", what, numbers)
				}
			}
		}
		designs := []network.Design{{Branch: one, Flow: design}, {Branch: two, Flow: design / 2}}
		if bits&32 != 0 {
			designs = append(designs, network.Design{Branch: three, Flow: design / 2})
		}
		b, err := s.Balance(designs, least)
		check("Balance", err)
		for _, c := range b.Circuits {
			check("Balance", nil, c.Available, c.Required, c.Surplus, float64(c.Kv))
		}
		if err == nil {
			got, err := b.Apply(n).Solve()
			if err != nil {
				t.Fatalf("balanced, but %v", err)
			}
			for _, d := range designs {
				if q := got.Branches[d.Branch].Flow; !(math.Abs(q/d.Flow-1) <= 1e-6) {
					t.Fatalf("design flow %v, balanced %v", d.Flow, q)
				}
			}
		}
		v, err := s.DesignSpeed(source, designs, least)
		check("DesignSpeed", err, v)
		v, err = s.SpeedFor(source, one, design)
		check("SpeedFor", err, v)
		a, err := s.Authority(one)
		check("Authority", err, a.Open, a.Shut, a.Value)
		c, err := s.Combinations([]int{one, two}, source)
		check("Combinations", err, c.Least.Flow, c.Most.Flow)
		setting, err := s.BypassSetting(bypass, source, []int{one, two}, minimum)
		check("BypassSetting", err, setting.Set, setting.Worst.Flow, setting.Leak, setting.Power, setting.PowerWithout)
		if err == nil && setting.Worst.Flow < minimum {
			t.Fatalf("%v of %v m³/s kept", setting.Worst.Flow, minimum)
		}
		after, errAfter := s.Solve()
		if (errBefore == nil) != (errAfter == nil) {
			t.Fatalf("%v before, %v after", errBefore, errAfter)
		}
		if errBefore == nil {
			for i := range before.Branches {
				if before.Branches[i] != after.Branches[i] {
					t.Fatalf("branch %d: %+v before, %+v after", i, before.Branches[i], after.Branches[i])
				}
			}
		}
	})
}

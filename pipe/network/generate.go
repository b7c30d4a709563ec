package network

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// emittersPerRiser is how many emitters of a generated system share a riser.
const emittersPerRiser = 20

// TwoPipe returns a two-pipe heating system with the given number of emitters
// (1 to 1,000,000, guard), for trials of speed and scale: risers of twenty
// emitters, each three metres above the one before, on mains that part in two
// at every node, like the streets of a district. Tubes are sized for 0.5 m/s at
// 0.02 l/s per emitter (about 840 W over 10 K of water). Every emitter has a
// thermostatic valve and a balancing valve, more open the higher it stands, but
// the system is not balanced and its flows are not the design flows. One pump
// drives it all; the node with given pressure is its inlet, at 7 bar, so that
// the top of a riser, 57 m up, stays above the atmosphere. All branches hold the
// liquid p.
func TwoPipe(emitters int, p fluid.Properties) (Network, error) {
	const fn = "network.TwoPipe"
	if err := hydronics.Within(fn, "number of emitters", "", float64(emitters), 1, 1e6, hydronics.Guard); err != nil {
		return Network{}, err
	}
	if err := hydronics.Within(fn, "density", "kg/m³", p.Density, 100, 2000, hydronics.Guard); err != nil {
		return Network{}, err
	}
	const flow = 0.02 * hydronics.LitrePerSecond
	n := Network{Liquid: p}
	inlet := n.AddNode(Node{Name: "pump inlet", Fixed: true, Pressure: 7 * hydronics.Bar})
	outlet := n.AddNode(Node{Name: "pump outlet"})
	total := flow * float64(emitters)
	n.AddBranch(Branch{Name: "pump", From: inlet, To: outlet, Elements: []Element{
		sized(total, 5),
		Pump{Speed: 1, Curve: []PumpPoint{{Flow: 0, Head: 12}, {Flow: 0.5 * total, Head: 11}, {Flow: total, Head: 8}, {Flow: 2 * total, Head: 0.5}}},
	}})
	g := generator{&n, flow}
	g.mains(emitters, outlet, inlet)
	return n, nil
}

type generator struct {
	n    *Network
	flow float64 // m³/s of an emitter
}

// mains hangs a number of emitters between two nodes: a riser if they are few,
// otherwise two mains with half of them each.
func (g generator) mains(emitters, supply, ret int) {
	if emitters <= emittersPerRiser {
		g.riser(emitters, supply, ret)
		return
	}
	for _, part := range [2]int{emitters / 2, emitters - emitters/2} {
		length := 10 * math.Sqrt(float64(part)/emittersPerRiser)
		g.mains(part, g.main(supply, part, length, false, 0), g.main(ret, part, length, true, 0))
	}
}

// main adds a main for a number of emitters from a node and returns the new
// node at its other end; in a return the flow runs the other way.
func (g generator) main(node, emitters int, length float64, ret bool, height float64) int {
	end := g.n.AddNode(Node{Height: height})
	b := Branch{From: node, To: end, Elements: []Element{sized(g.flow*float64(emitters), length)}}
	if ret {
		b.From, b.To = b.To, b.From
	}
	g.n.AddBranch(b)
	return end
}

// riser adds emitters one after the other.
func (g generator) riser(emitters, supply, ret int) {
	for left := emitters; left > 0; left-- {
		height := 3 * float64(emitters-left)
		supply = g.main(supply, left, 3, false, height)
		ret = g.main(ret, left, 3, true, height)
		g.n.AddBranch(Branch{From: supply, To: ret, Elements: []Element{
			Run{Bore: 0.010, Roughness: 0.0015 * hydronics.Millimetre, Length: 6, Zeta: 8},
			Thermostatic{Kv2: 0.4, Kvs: 0.8, Closing: 22, Room: 20},
			Device{Kv: pipe.Kv(0.25 + 0.25*float64(emitters-left)/float64(emitters))},
		}})
	}
}

// sized returns a steel tube in which the flow has 0.5 m/s.
func sized(flow, length float64) Run {
	const velocity = 0.5
	return Run{Bore: max(0.010, math.Sqrt(flow/velocity/(math.Pi/4))), Roughness: 0.045 * hydronics.Millimetre, Length: length, Zeta: 1}
}

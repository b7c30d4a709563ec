// Package network solves the water side of a heating system as one network:
// pumps, tubes, valves, strainers, buffers and bypasses in any number of loops.
// It answers what a single run of package pipe cannot: what flows where when
// zones open and shut, whether the heat pump keeps its minimum flow, and how
// the valves have to be set so that every circuit gets its share.
//
// # Building a network
//
// A [Network] is nodes and branches. A [Node] is a place where branches meet,
// with a height; a [Branch] leads one flow from one node to another through its
// elements in series and holds a liquid of one temperature. The elements are
//
//	Run            a tube with its fittings, or a fixed loss coefficient
//	Device         anything with a fixed Kv: exchanger, meter, balancing valve
//	Strainer       a Kv that falls as dirt collects
//	Valve          a control valve: characteristic, rangeability, position
//	Thermostatic   a radiator valve that follows the room
//	NonReturn      one way only
//	Bypass         opens at its set pressure, one way only
//	Lift           a fixed pressure from elsewhere
//	Pump           a curve, its speed or its control
//
// An isolating valve is the branch's field Shut. A buffer or a hydraulic
// separator is two nodes, top and bottom, and a branch of high Kv between them:
// primary and secondary circuits with a pump each meet there and disturb each
// other as little as the Kv says. A [ThreePort] valve is a node with two
// branches whose positions add up to one. One node at least has a given
// pressure (field Fixed): in a closed system that of the expansion vessel.
//
// Flow from From to To is positive. One-way elements and pumps point that way.
//
// # The two laws
//
// Mass: what enters a node leaves it. Energy: along a branch,
//
//	p(From) - p(To) + ρ g (z(From) - z(To)) = losses(ṁ) - lifts(ṁ)
//
// so that around a loop losses equal lifts and the weight of warm against cold
// columns, which is all that drives a gravity circulation. Losses grow with the
// flow and lifts fall, so that there is never more than one distribution of
// flows that obeys both laws (proportional-pressure control apart, which rises;
// it is safe as long as the system's curve is steeper, and a system whose loss
// grows with the square of the flow is four times as steep at the set point).
//
// [System.Solve] describes the method, and the [Solution] carries the proof:
// the largest imbalance of mass at any node and of pressure around any loop,
// both computed from the result alone. At every node the flows balance to 1e-11 of
// the largest; along every branch the pressures do to 1e-10 of the largest that
// drives or is lost, and around a loop to the sum of what its branches miss.
//
// # Asking
//
// [Network.Solve] gives the operating point with flow, velocity and loss of
// every branch; [Network.Prepare] keeps the work that the layout costs, and a
// [System] answers the rest:
//
//	Solution.Pump            operating point of a pump, its power and efficiency
//	System.Balance           index circuit, and the Kv of every balancing valve
//	System.DesignSpeed       pump speed that just serves the index circuit at design flows
//	System.SpeedFor          pump speed that gives a branch its flow
//	System.Authority         authority of a control valve
//	System.BypassSetting     set pressure that keeps the minimum flow, and its cost
//	System.Combinations      the worst and best combination of open zones
//	Network.Inlet            pressure at a pump's inlet against boiling
//	Network.Temperatures     mixing, heat given off and lost along the branches
//	Network.Warm             flows and temperatures together
//	Network.Filled, Fouled   the same system cold, or with its strainers dirty
//
// The coldest start is Filled with the antifreeze at the lowest temperature, its
// viscosity 10 % up. Solve it both ways: where a thicker liquid turns a turbulent
// flow laminar it loses less, not more.
//
// # Limits
//
// Flow is steady, the liquid incompressible, and each branch has one
// temperature: divide what cools along its way. Tees and manifolds lose what
// the runs' zeta says; losses that depend on the flow in another branch are not
// known here. A pressure below that at which the liquid boils is given as it
// comes out: see [Network.Inlet]. Friction is uncertain by 5 % in good and 20 %
// in transitional flow, Kv of small fittings by 25 % and more (see package pipe):
// keep margins on a minimum flow. A network proves nothing about air in the pipes.
//
// A heat pump that loses its minimum flow trips, or freezes its condenser while
// it defrosts; a pump that runs against shut valves heats up. Follow the maker's
// limits, and local codes; the work belongs to licensed persons.
package network

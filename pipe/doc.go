// Package pipe answers the questions about tubes in a heating system: which
// tube, what does the flow lose in it, how much water is in it, how much does
// it grow, and how does it run through the house.
//
// # From the heat load to the loss
//
// A heat load fixes the flow ([FlowForHeat]), a tube of the catalogue ([Find],
// [Series]) fixes the bore, and a [Run] of tube with its fittings and valves
// loses what [Run.Loss] says:
//
//	Δp = f L/D ρV²/2 + Σζ ρV²/2 + 1 bar (V̇/Kv)² ρ/1000
//
// The friction factor f is that of Darcy, four times Fanning's: 64/Re in laminar
// flow, the equation of Colebrook and White, solved to the last digits, in
// turbulent flow ([FrictionFactor]). Between Reynolds numbers of 2000 and 3000
// nobody knows it to better than 20 %; [Transition] names the rules and shows
// how each fares against measurements. Antifreeze is two to five times as
// viscous as water, so that laminar flow is common with it.
//
// Height does not enter. In a closed loop what rises comes down again, and only
// the difference of densities is left ([GravityCirculation]).
//
// # How good the numbers are
//
// Measured friction in smooth tubes scatters by 2 % on average and 5 % point by
// point about the formulas, and the roughness of a real tube is known to a
// factor of two or worse. Loss coefficients of fittings differ by 20 to 50 %
// between makes, those of check valves more. A pressure loss within 10 % is a
// good one. [Fitting] and [Criterion.Judge] carry such uncertainties along.
//
// # Tubes
//
// The nominal size of a tube is never its bore. [Tube] holds both, with the
// source of its dimensions: some series could only be written down from
// memory, and [Sizing] passes those over unless told otherwise. The figures of
// the [Material] are typical; where a maker states others, write them into the
// fields of your Tube.
//
// # Circuits
//
// [Run.Prepare] checks a run once and gives an [Element], whose loss and slope
// solvers can ask for as often as they like. Elements join [InSeries] and
// [InParallel]; [FlowAt] and [Run.BoreFor] turn the question round. Meshed
// networks with pumps and control valves are the business of package network
// below this one.
//
// # Content
//
// Only water that circulates stores heat for a defrost or for the shortest
// running time of a heat pump: [LeastContent] takes the worst combination of
// valves, [ShortestRun] and [Defrost] say how much it has to be.
//
// # Movement, surge, route
//
// Tubes grow ([Tube.Growth]), and legs and loops take it up ([Tube.Leg]). A valve
// that closes fast sends a pressure wave through them ([Surge]). A [Route] is a
// pipe as a chain of points in space: it tells where vents and drain valves
// belong and what stays in the pockets.
//
// # Cautions
//
// A calculation releases nothing. What is calculated here rests on inputs that
// only an inspection can confirm: bores, insulation, falls, valves that really
// close. Hot water scalds, pressure bursts, frost does both; local codes come
// first, and the work belongs to licensed persons.
package pipe

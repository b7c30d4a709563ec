// Package frost answers one question: does this outdoor tube survive a night
// without power? How much heat does it lose, when does the water in it reach 0 °C,
// when does ice close it, how fast does it empty through a drain valve, and which
// comes first.
//
// # Heat
//
// A [Section] is a tube with its layers and its surface. [Section.HeatFlow] is the
// steady heat flow per metre; its Resistance is what ISO 12241, ASTM C680 and VDI
// 2055 call linear thermal resistance, one over it the linear transmittance. The
// coefficient at the surface is given, or computed ([Correlated]) from natural
// convection, wind, radiation and the night sky; the simplified formulas of two
// codes are there by name, to repeat calculations that used them.
// [HeatFlow.EndTemperature] follows water along a tube, and the Thickness methods
// turn the question round: how much insulation for a heat flow, against
// condensation, for a time to hold.
//
// # Standing water, closed
//
// [Section.Lump] reduces a metre of section to a heat capacity behind a
// resistance. [Lump.CoolingTime] gives the time to 3 °C or 0 °C, in constant or
// hourly weather, [Lump.FreezingTime] from there to a fraction of ice. They err on
// the short side, and each says by how much. [HandbookLump] and
// [Lump.ConstantFlowFreezingTime] are the forms of the handbook and of ISO 12241.
// Where it is not cold enough the answer is [Time].Never, not an infinity.
//
// # Standing water, resolved
//
// [Standing.Resolve] follows the temperatures through water, wall and insulation
// hour by hour, with freezing. How water moves in the tube is not known: above
// 4 °C the warm water rises, below it the cold, around it nothing moves. The two
// limits are computed instead, water that only conducts and water that is well
// mixed, and the truth lies between. Water can supercool before it freezes
// ([Standing].Nucleation).
//
// # Two limits that must not be confused
//
// When a pump has to start again, the limit is 0 °C. Clean water supercools by
// some kelvin and then freezes in an instant to a slush of fine plates, c·ΔT/L of
// it: 6 % for 5 K. A few per cent can block a tube for a pump (Gilpin 1977, 1981):
// [History.Slushed]. The ring of ice closes much later: [History].Closed.
//
// A fraction of ice such as 25 % is a limit against bursting alone, and a soft
// one. Ice does not burst a tube by pressing on its wall. It grows along the bore,
// makes a plug, and takes 9 % more room than its water; what bursts the tube is the
// pressure of the liquid water shut in between the plug and a closed end, several
// hundred bar if nothing gives way (Gordon 1996, as cited in the ASHRAE
// Handbook; US Army TM 5-852-5). An open end, or an expansion vessel that the water
// can still reach, prevents it. Isolating valves that close in a power cut take the
// vessel away from the outdoor part: after that only emptying helps.
//
// # Emptying
//
// [Reach.Empty] lets a pipe in space run out through its drain valves: valve,
// friction and fall, two columns of water on one valve, pockets that keep their
// water. Air must come in, from above or as bubbles against the water; without it
// the atmosphere holds ten metres of water. [Torricelli] is the closed form,
// [Column.Empty] the exact one for a single rising line. A film stays on the wall
// of any drained tube and is too thin to matter.
//
// # The night
//
// [Night] puts both together on a time line: power fails, isolating valves close,
// the water cools, the thermostatic drain valve opens, the section empties, or
// freezes first. A simplification that is safe for one term is unsafe for
// another, so each is bounded on its own side: the earliest ice anywhere, the
// latest opening with tolerance and lag, the slowest emptying with part of the
// lift. [Nights] does so for several lines and follows the cold that they share
// once, [Night.Worst] looks for the worst hour of a weather series,
// [Night.Remedies] for what would help most. [Arrangement.Findings] judges where
// the valves stand, [Night.Instead] compares the ways to do without them.
//
// Drain valves belong to plain water. In antifreeze they would let it go, and
// mains water would take its place.
//
// # In the ground
//
// [Ground] is the yearly wave of temperature, [Soil.Frost] the depth of frost,
// [Pair.Flow] the loss of two tubes side by side.
//
// # What is from memory
//
// The blend of natural convection and wind, the half view of the sky, the bores in
// which surface tension holds water, the speed of bubbles and the fall of drained
// tubes were not found in a source that could be read. They inform, and no verdict
// rests on them alone. Distances and heights of drain valves are common practice.
//
// # Cautions
//
// A burst tube floods a house when it thaws; ice under pressure can throw parts.
// The weakest places outdoors, the unit's heat exchanger, pump and strainer, freeze
// first and cannot be judged here: they are to be seen on site. Antifreeze can
// poison; some kinds burn. Local codes and the instructions of the unit come
// first, and the work belongs to licensed persons. A calculation releases nothing.
package frost

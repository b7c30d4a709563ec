// Package frost answers one question: does this outdoor tube survive a night
// without power? It computes how much heat a tube loses, how long the water in
// it takes to cool and to freeze, and how long a section takes to empty through
// an open drain valve.
//
// # Heat
//
// A [Section] is a tube with its layers and its surface; [Section.HeatFlow] is
// its steady heat flow per metre. The coefficient at the surface is either given
// or computed from natural convection, wind, radiation and the night sky; the
// simplified formulas of two codes are there by name, to check calculations that
// used them.
//
// # Cooling and freezing
//
// [Section.Lump] reduces one metre of the section to a heat capacity behind a
// resistance. [Lump.CoolingTime] then gives the time to 3 °C (a common setting
// of thermostatic drain valves) or to 0 °C, [Lump.FreezingTime] the time from
// there to a fraction of ice. Both err on the short side, for reasons stated
// with each. A tube whose surroundings are not cold enough has the answer
// [Time].Never, not an infinity.
//
// Two limits are never to be confused. When a pump must be able to start again,
// the limit is 0 °C: water supercools by some kelvin, then freezes all at once to
// a slush of fine plates (cp·ΔT/L, 6 % of ice for 5 K) that can block a tube at
// a few per cent of ice. A fraction such as 25 % is a limit against bursting
// alone: what bursts a tube is the water confined between a plug of ice and a
// closed end, and ice takes 9 % more room than its water.
//
// # Emptying
//
// A [Column] is the water on one side of an open valve; [Column.Empty] lets it
// out through the valve against the friction of the wetted tube. [Torricelli] is
// the closed form without friction. Both take for granted that air follows:
// without an air inlet at the top the atmosphere holds up to ten metres of water.
//
// # Sources
//
// ASHRAE Handbook, Fundamentals (SI) 2021, chapter 23; Churchill and Chu 1975;
// Churchill and Bernstein 1977; London and Seban 1943; ISO 12241:2008 and
// GB 50264-2013 as attributed to them. Which figures were checked against what
// is in the reference tables of the project.
//
// # Cautions
//
// A burst tube floods a house when it thaws, and water under pressure behind ice
// can throw parts. The weakest places of a unit outdoors, its heat exchanger,
// pump and strainer, are thinner than any tube, freeze first and cannot be
// judged here: they are to be seen on site. Local codes and the instructions of
// the unit come first; a calculation releases nothing.
package frost

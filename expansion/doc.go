// Package expansion keeps the pressure of a closed system between too little and
// too much: which expansion vessel, which pre-charge, which filling pressure, which
// relief valve, on the heating side and on the potable side.
//
// # One law
//
// Liquid hardly gives way to pressure, gas does. A vessel holds a gas charge at
// the pre-charge P0 in its nominal volume V; the water W that has entered it leaves
// the gas V - W, and Boyle's law gives the pressure
//
//	P = P0 V/(V - W)
//
// on absolute pressures. That is the whole physics. Gauge pressures in this law
// are the commonest mistake in printed examples; here they have a type of their
// own ([hydronics.Gauge]) and are made absolute, with the local atmosphere, in one
// place.
//
// The water W is a reserve put in when the system is filled, plus the expansion
// of the content since. [System.Size] finds the least vessel, [System.Window] the
// filling pressures that suit a vessel which exists, at whatever temperature it is
// filled, [System.Course] the pressure at every temperature, [Course.Cycle] what a
// wrong pre-charge, a lost charge or a vessel too small leads to, and
// [System.Judge] turns it into findings. [Potable] is the same law on the cold
// feed of a cylinder, and [Demand] is the law alone.
//
// # Expansion
//
// Expansion comes from real densities of the liquid: from 10 °C it is 1.7 % at
// 60 °C and 3.6 % at 90 °C for water, and half as much again for a glycol
// solution. The zero [Method] counts the displaced water hot, which is on the safe
// side. Formulas of national rules are there by name, to check an older sheet.
//
// Cold counts too. A system that gets colder than it was filled draws water back
// from the vessel, and water takes its least room at 4 °C, not at 0 °C.
//
// # Margins
//
// Standards agree on the law and differ in their margins. These are a [Rules]
// value, each one a [Setting] with the source where it was seen. None of the
// standards was seen in full; the provenance says how each figure was come by, and
// findings on unconfirmed ones never read met.
//
// # Relief valve
//
// A relief valve protects a heat source if the whole heat output of everything
// that can heat the circuit ([TotalOutput]) can leave through it as steam
// ([Valve.Steam]). [SteamFlux] is the formula of the standards,
// [EquilibriumSteamFlux] checks it from the steam tables. [Protection] adds the
// lines before and behind the valve, several valves, and the one rule without
// exception: nothing between a heat source and its relief valve may be able to
// close, a motor valve, a frost valve or a thermostat no more than a tap.
//
// Water that is shut in without gas rises by bars per kelvin ([Section]); what must
// then leave is little ([Warming.Relief]), but leave it must.
//
// # Filling and keeping
//
// [Course.Quantity], [FillingKit] and [System.Settings] serve the day of filling,
// [System.Leakage] the gauge that has fallen: two readings of pressure and
// temperature say how much liquid is missing, or how much of the gas charge.
// [BackflowProtection] keeps the filling link from feeding heating water into the
// drinking water; countries differ, and the stricter opinion is taken unless a
// place is named.
//
// # Order of work
//
// Check the pre-charge before the vessel is under water pressure, or with its
// water side relieved: a gauge on a vessel that is connected shows the system's
// pressure and says nothing. Set it, open the vessel, fill.
//
// # Limits
//
// Pipes and stores are rigid unless [System.TubeExpansion] is given, air in the
// system is not counted, the vessel's membrane is taken to move over the whole
// nominal volume. Pressures are those at the vessel's connection with the pump at
// rest; a running pump shifts what lies elsewhere ([Pump]).
//
// A vessel is a pressure vessel and a relief valve protects lives. Local codes
// come first, and work on either belongs to licensed persons. Never close, cap or
// set a relief valve higher to stop it from dripping: find out why it drips.
package expansion

// Package fluid has the properties of what stands in the pipes of a hydronic
// system and around them: water, steam and ice, aqueous antifreeze solutions.
//
// # A liquid and its properties
//
// A [Liquid] says what fills the system. [Water] is plain water under the
// pressure of an ordinary closed system, [WaterAt] takes the pressure. A solution
// is made from its [Solute] by naming how its concentration is meant:
//
//	fluid.PropyleneGlycol.ByMass(0.30)            // mass of glycol per mass of solution
//	fluid.PropyleneGlycol.ByVolume(0.30)          // of the volumes poured together, at 20 °C
//	fluid.PropyleneGlycol.ByMixtureVolume(0.30)   // glycol volume per volume of mixture
//	fluid.PropyleneGlycol.ByFreezingPoint(-15)    // the weakest that freezes at -15 °C or below
//
// [Liquid.At] gives the [Properties] at a temperature: density, specific heat,
// conductivity, viscosity and what follows from them. [Liquid.Range] tells the
// temperatures that it accepts. The steam engineer's figures (enthalpy, entropy,
// speed of sound, expansion) are in a [State], from [WaterState], [SteamState] and,
// on the boiling line, [Boiling].
//
// # Where the figures come from
//
// Water and steam follow the releases of the International Association for the
// Properties of Water and Steam: IF97 (R7-97) for the thermodynamics, R12-08 for
// viscosity, R15-11 for conductivity, R1-76 for surface tension. They reproduce
// the verification tables to every printed digit. Against the scientific standard
// IAPWS-95 the density of hydronic water is right within 0.002 %, its specific
// heat within 0.1 %.
//
// Solutions follow the polynomials of Å. Melinder (2010), which are fits of
// measurements. Their author states no uncertainty; independent tables agree
// within 0.2 % in density, a few per cent in specific heat and conductivity, and
// 5 to 15 % in viscosity. All are for the plain substance in water; commercial
// products carry inhibitors and differ.
//
// # What antifreeze costs
//
// At 35 °C, solutions that protect to about -15 °C compare with water so: the
// heat carried by a litre per kelvin falls to 0.95 with 33 % propylene glycol and
// 0.93 with 31 % ethylene glycol (by mass), while the viscosity rises to 2.7 and
// 2.0 times that of water. Cold, the difference grows: at -10 °C propylene glycol
// of 30 % is as viscous as light oil, 12 mPa·s.
//
// # Cautions
//
// Ethylene glycol and methanol are poisonous: never where a leak can reach
// drinking water. Ethanol and methanol burn. Salt brines corrode. A weak glycol
// solution can go bad: manufacturers set a least concentration. Follow the data
// sheet of the product and the local code, which come before any figure here.
package fluid

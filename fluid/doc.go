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
// Solutions that protect to -15 °C against water, at 32.5 °C in one circuit of a
// heat pump (8 kW at 35/30 °C through 24 m of copper tube 28 mm; the program
// examples/antifreeze prints such a table for any circuit). The work of the pump
// for the same heat is the figure of merit:
//
//	                    % by mass  viscosity  heat per litre  work of the pump
//	water                    0         1            1               1
//	ethanol                 25        2.1         0.99            1.13
//	methanol                20        1.5         0.95            1.20
//	ethylene glycol         31        2.1         0.93            1.43
//	propylene glycol        33        2.9         0.94            1.44
//	potassium formate       24        1.5         0.92            1.52
//	potassium acetate       24        1.9         0.92            1.55
//	glycerol                40        3.3         0.92            1.67
//	calcium chloride        18        1.8         0.90            1.69
//	potassium carbonate     27        2.3         0.93            1.71
//
// In the cold the difference grows: at -10 °C propylene glycol of 30 % has 12
// mPa·s, sixteen times the viscosity of water in the warm circuit.
//
// # Freezing, and bursting
//
// [Liquid.FreezingPoint] is where the first crystals form. Further down a solution
// turns to slush; [Liquid.IceFraction] says how much of it is ice. A system that
// may stand idle needs less antifreeze to keep its pipes from bursting
// ([Solute.ByBurstProtection]) than one whose pump has to start in the cold
// ([Solute.ByFreezingPoint]). Plain water grows by 9 % when it freezes ([Freezing]),
// and a closed pipe would need 13 MPa for every kelvin to prevent it
// ([MeltingPressure]).
//
// # The sample, the can and the drain
//
// A sample's concentration follows from its density ([Solute.ByDensity]), its
// refractive index ([Solute.ByRefractiveIndex]) or the reading of a sugar
// refractometer ([Solute.ByBrix]). What to drain and what to pour in is a [Dosing].
//
// # Gas, lime and air
//
// [DissolvedAir] and [ReleasedAir] tell what the air vents have to remove,
// [HardnessRule] and [LimeDeposit] what hard fill water does, [DryAir], [DewPoint] and
// [AtmosphericPressure] what is around the pipes.
//
// # How sure
//
// [Liquid.Uncertainty] gives the limits within which independent sources lie, to be
// carried on: a pump computed for propylene glycol cannot be surer than its
// viscosity, 15 %.
//
// # Cautions
//
// Ethylene glycol and methanol are poisonous: never where a leak can reach
// drinking water. Ethanol and methanol burn. Salt brines corrode. A weak glycol
// solution can go bad: manufacturers set a least concentration. Follow the data
// sheet of the product and the local code, which come before any figure here.
package fluid

// Package dhw answers the questions of domestic hot water: how much is drawn,
// what the cylinder holds and how fast it recovers, which relief valve and which
// discharge pipe keep it from bursting, whether the main reaches the last tap, and
// which rules on temperature keep people from legionella and from scalds.
//
// # Heat and mixing
//
// Water at the tap is mixed. [HotShare] divides it into hot and cold, and
// [Amount.At] says what a stored volume is worth at another temperature: 200 l of
// 60 °C are 333 l of 40 °C.
//
// Heat per volume of water is an argument everywhere (VolumetricHeat, in
// J/(m³·K)), because the published examples use different constants for it.
// [VolumetricHeat] returns that of real water.
//
// A [Heater] is a source's power against the temperature of the store; a heat
// pump's falls as the store gets hotter. A [Coil] makes one from transmittance and
// primary flow; [Effectiveness] serves plate exchangers. [Cylinder.Reheat] then
// has the time and the heat to warm a cylinder, [Cylinder.Cool] the way back when
// nothing heats.
//
// # Demand
//
// A [Profile] is the draw-offs of a day, by energy: one of EU law ([LoadProfile],
// 3XS to 4XL) or your own. Its [Profile.Energy], [Profile.Volume] and
// [Profile.Busiest] stretch are the first numbers of every sizing.
//
// The peak flow sizes pipes. Three methods stand beside each other, and their
// figures must not be mixed: [PeakCurve] after DIN 1988-300, of which only the
// constants of residential buildings were seen; [LoadingUnits] and
// [LoadingSection.Tube] after EN 806-3; and [DemandOfFixtures], exact where
// fixtures run independently of each other.
//
// # The cylinder
//
// How much hot water a cylinder gives before it runs cold depends on how sharply
// it keeps hot above cold. A [Cylinder] is a chain of mixed layers: one gives the
// least, [PlugFlow] the most, and a real one lies between. [Cylinder.MixedWater]
// is V40 for such a chain in closed form, [Cylinder.Fit] finds the layers from the
// V40 of a data sheet, [Cylinder.OutletTemperature] follows a draw-off.
//
// To size a store, [StoreDemand] follows EN 15450 for heat pumps and
// [Profile.SumLine] compares cumulative demand with cumulative supply.
// [HourlyDemand] is the American method for many dwellings. [Day.Run] then follows
// a day step by step, with heater, thermostat, draw-offs and losses, and tells when
// the water runs cold. Its account closes: heat supplied is heat delivered, lost
// and stored. No day need be as the one before: [Day.Worst] goes on until they
// repeat, and returns the worst.
//
//	day := dhw.Day{Cylinder: cylinder, Profile: profile, Heater: pump,
//		Coil: 0.5, Sensor: 0.5, On: 50, Off: 56,
//		Start: 56, Cold: 10, Ambient: 20, Step: 60, Days: 2}
//	result, err := day.Run(nil)
//
// # Pressure
//
// A closed cylinder is a pressure vessel with a heater in it. Water that is heated
// and cannot expand raises the pressure by several bar per kelvin, and a heater
// whose controls fail boils it. So there are two protections, and neither replaces
// the other. Against pressure: [ReliefValveFor] sizes the relief valve by content
// and heat input, [SetPressure] holds its setting against the cylinder, the
// components and the mains and sizes the expansion vessel (through package
// expansion), [Feed] checks the order of all devices from the main to the cylinder.
// Against heat: [Overheating] checks thermostat, cut-out and temperature relief of
// every source. What a relief valve lets out is led away in sight: [SizeDischarge]
// and [Tundish] in England and Wales, [Funnel] in Germany and Austria, [OpenEnd] in
// the United States and New Zealand.
//
// Rules belong to a [Rulebook]: one document in one edition for one jurisdiction.
// Rules of different books are never mixed, and a withdrawn book says so in the
// source of every finding. A rule that the trade keeps without a document says
// common practice; one that is only remembered says from memory, and never reads
// met.
//
// # The way to the tap
//
// [PressureBudget] adds up what the main's pressure has to cover. [DeadLeg] has
// the content that goes cold between two draw-offs and how long it takes to run
// off. [Circulation] has the flow that keeps a loop hot, [BranchFlow] how it divides.
//
// # Hygiene and scalds
//
// [Rulebook.Findings] judges temperatures of store, return and outlet by the
// limits of named documents, which differ. [Disinfection] has the heat and the time
// that a thermal disinfection takes. How fast legionella die, or skin burns, is not
// calculated: published figures scatter by factors of two and three
// ([ScaldTimes]), and a biofilm keeps no table.
//
// # What is left out
//
// Layers do not conduct heat to each other, and a heater's water jet does not stir
// them: the number of layers stands for all mixing. Draw-offs at the same time are
// served one after the other within a step. The circulation's loss is not part of
// [Day]: add it to the loss coefficient.
//
// # Cautions
//
// Water of 60 °C scalds within seconds; water that stands between 25 and 50 °C
// breeds legionella. A relief valve that is shut off, too small or stuck lets a
// cylinder burst with the force of an explosion. Work on unvented cylinders is
// reserved to competent, in many countries licensed, persons; local codes come
// before everything that is calculated here. The constants [ScaldCaution],
// [LegionellaCaution] and [PressureCaution] are there to be printed beside results.
package dhw

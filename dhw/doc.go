// Package dhw answers the questions of domestic hot water: how much is drawn,
// what the cylinder holds and how fast it recovers, which relief valve and which
// discharge pipe keep it from bursting, and which rules on temperature keep
// people from legionella and from scalds.
//
// # Heat and mixing
//
// Water at the tap is mixed. [HotShare] divides it into hot and cold, and
// [Amount.At] says what a stored volume is worth at another temperature.
//
// Heat per volume of water is an argument everywhere (VolumetricHeat, in
// J/(m³·K)), because the published examples use different constants for it.
// [VolumetricHeat] returns that of real water.
//
// A [Heater] is a source's power against the temperature of the store; a heat
// pump's falls as the store gets hotter. A [Coil] makes one from transmittance and
// primary flow. [Cylinder.Reheat] then has the time and the heat to warm a
// cylinder, [Cylinder.Cool] the way back when nothing heats.
//
// # Pressure
//
// A closed cylinder is a pressure vessel with a heater in it. Water that is heated
// and cannot expand raises the pressure by several bar per kelvin, and a heater
// whose controls fail boils it. [ReliefValveFor] sizes the relief valve by content
// and heat input, [SetPressure] holds its setting against the cylinder, the
// components and the mains, [SizeDischarge] and [Tundish] lead the water away in
// sight. Vessels and the gas law are in package expansion.
//
// Rules belong to a [Rulebook]: one document in one edition for one
// jurisdiction. Rules of different books are never mixed, and a withdrawn book
// says so in the source of every finding.
//
// # Cautions
//
// Water of 60 °C scalds within seconds; water that stands between 25 and 50 °C
// breeds legionella. A relief valve that is shut off, too small or stuck lets a
// cylinder burst with the force of an explosion. Work on unvented cylinders is
// reserved to competent, in many countries licensed, persons; local codes come
// before everything that is calculated here.
package dhw

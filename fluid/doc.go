// Package fluid has the properties of the liquids in hydronic systems: water and
// aqueous antifreeze solutions.
package fluid

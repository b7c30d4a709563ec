// Package unit is the one table of unit suffixes that the CSV columns and the
// job-file keys share: trade unit outside, SI inside.
//
// A column or a key is named after its quantity and ends in its unit, such as
// flow_l_min or relief_set_bar. The [Kind] of the quantity says which suffixes
// are accepted: _k is a temperature for one kind and a difference for another,
// _bar is gauge, absolute or a difference as the quantity says.
package unit

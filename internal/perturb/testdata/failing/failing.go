// Package failing has a table that it does not meet.
package failing

func half(v float64) float64 { return 0.5 * v }

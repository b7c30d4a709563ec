package main

import "fmt"

// notice says what notices the change of a number.
type notice uint8

const (
	byTables notice = iota
	byTests
	byNothing
)

func (n notice) String() string {
	switch n {
	case byTables:
		return "tables"
	case byTests:
		return "other tests only"
	case byNothing:
		return "nothing"
	default:
		return fmt.Sprintf("notice(%d)", uint8(n))
	}
}

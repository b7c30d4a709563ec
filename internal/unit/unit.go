package unit

import (
	"strings"

	"example.com/hydronics"
)

// A Unit turns numbers of one suffix into SI: si = value*Factor + Offset.
type Unit struct {
	Suffix string
	Factor float64
	Offset float64
}

// SI returns the SI value of v in the unit. For temperatures that is °C.
func (u Unit) SI(v float64) float64 { return v*u.Factor + u.Offset }

// From returns the SI value si in the unit.
func (u Unit) From(si float64) float64 { return (si - u.Offset) / u.Factor }

// Column returns the name of a column for the quantity called name.
func (u Unit) Column(name string) string {
	if u.Suffix == "" {
		return name
	}
	return name + "_" + u.Suffix
}

// A Kind is a kind of quantity: what it measures, and the suffixes it accepts,
// the one programs print first. The zero Kind is text.
type Kind struct{ table *kindTable }

type kindTable struct {
	name  string
	units []Unit
}

// Name returns the kind in words, such as "volume flow".
func (k Kind) Name() string {
	if k.table == nil {
		return "text"
	}
	return k.table.name
}

// Text reports whether the kind is text and has no unit.
func (k Kind) Text() bool { return k.table == nil }

// Units returns the accepted units, the preferred one first.
func (k Kind) Units() []Unit {
	if k.table == nil {
		return nil
	}
	return append([]Unit(nil), k.table.units...)
}

// Lookup returns the unit with the given suffix.
func (k Kind) Lookup(suffix string) (Unit, bool) {
	if k.table == nil {
		return Unit{}, suffix == ""
	}
	for _, u := range k.table.units {
		if u.Suffix == suffix {
			return u, true
		}
	}
	return Unit{}, false
}

// Match returns the unit in which column holds the quantity called name, and
// false where the column is about something else or its suffix is not of the kind.
func (k Kind) Match(column, name string) (Unit, bool) {
	if column == name {
		return k.Lookup("")
	}
	rest, ok := strings.CutPrefix(column, name+"_")
	if !ok || rest == "" {
		return Unit{}, false
	}
	return k.Lookup(rest)
}

// Accepted lists the columns under which the quantity called name may stand.
func (k Kind) Accepted(name string) string {
	if k.table == nil {
		return name
	}
	columns := make([]string, len(k.table.units))
	for i, u := range k.table.units {
		columns[i] = u.Column(name)
	}
	return strings.Join(columns, ", ")
}

func kind(name string, units ...Unit) Kind { return Kind{&kindTable{name, units}} }

func u(suffix string, factor float64) Unit { return Unit{Suffix: suffix, Factor: factor} }

const (
	britishThermalUnit = 1055.05585262 // J, International Table
	fahrenheitDegree   = 5.0 / 9
	pound              = 0.45359237 // kg, exact
	footOfWater        = 0.3048 * hydronics.MetreOfWater
	horsepower         = 550 * hydronics.Foot * pound * hydronics.StandardGravity // W
)

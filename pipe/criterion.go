package pipe

import (
	"fmt"
	"strings"

	"example.com/hydronics"
)

// Quantity says what a criterion limits.
type Quantity uint8

// What criteria limit: the size of the velocity, or of the friction per metre.
const (
	Velocity Quantity = iota + 1
	Gradient
)

// A Criterion is a limit on the flow in a tube, by its name and source. Sources
// conflict (copper at 60 °C: 0.9 to 3 m/s), so it is the user who chooses.
type Criterion struct {
	Name     string // such as "EN 806-3, drinking water distribution"
	Quantity Quantity
	Bound    hydronics.Bound // AtMost or AtLeast
	Limit    float64         // m/s or Pa/m
	Danger   string          // what happens beyond the limit
	Source   hydronics.Source
}

// Judge holds the criterion against a loss. The gradient counts as uncertain
// by 5 %, in transitional flow by 20 %: the roughness of real tubes and the
// unsteadiness of the flow allow no better.
// Source: comparison with the limit, whose own source is the criterion's; the
// uncertainty from the measurements named at [Transition].
func (c Criterion) Judge(l Loss) hydronics.Finding {
	f := hydronics.Finding{Rule: c.Name, Danger: c.Danger, Bound: c.Bound, Limit: c.Limit, Source: c.Source}
	switch c.Quantity {
	case Velocity:
		f.Quantity, f.Unit, f.Value = "velocity", "m/s", max(l.Velocity, -l.Velocity)
	case Gradient:
		f.Quantity, f.Unit, f.Value = "pressure gradient", "Pa/m", max(l.Gradient, -l.Gradient)
		f.Uncertainty = l.Regime.uncertainty() * f.Value
	default:
		return hydronics.OnSite(c.Name, "", c.Source, c.Danger)
	}
	return f.Judge()
}

// Criteria returns the criteria of the catalogue. Those from memory or common
// practice say so in their source and never lead to the verdict "met".
//
// Source: each criterion names its own.
func Criteria() []Criterion {
	all := criteria()
	return all[:]
}

func criteria() [22]Criterion {
	const (
		quoted   = hydronics.SecondHand
		recalled = hydronics.FromMemory
		custom   = hydronics.CommonPractice
		erosion  = "erosion corrosion of the copper wall"
		noise    = "noise and wear"
		pump     = "pump power"
		swedish  = "Swedish recommendation for copper tube"
	)
	velocity := func(limit float64, name, danger, text string, p hydronics.Provenance) Criterion {
		return Criterion{name, Velocity, hydronics.AtMost, limit, danger, hydronics.Source{Text: text, Provenance: p}}
	}
	gradient := func(limit float64, name, text string, p hydronics.Provenance) Criterion {
		return Criterion{name, Gradient, hydronics.AtMost, limit, pump, hydronics.Source{Text: text, Provenance: p}}
	}
	return [...]Criterion{
		velocity(2, "drinking water distribution", noise, "EN 806-3:2006, clause 4.4", quoted),
		velocity(4, "drinking water to one fitting", noise, "EN 806-3:2006, clause 4.4", quoted),
		velocity(3, "copper up to 50 °C", erosion, "BS 6700:2006", quoted),
		velocity(2.5, "copper up to 70 °C", erosion, "BS 6700:2006", quoted),
		velocity(2, "copper up to 90 °C", erosion, "BS 6700:2006", quoted),
		velocity(2, "copper built in, up to 10 °C", erosion, swedish, quoted),
		velocity(1.5, "copper built in, up to 50 °C", erosion, swedish, quoted),
		velocity(1.3, "copper built in, up to 70 °C", erosion, swedish, quoted),
		velocity(1, "copper built in, up to 90 °C", erosion, swedish, quoted),
		velocity(0.9, "copper, hot water circulation", erosion, "report for the Institute of Plumbing Australia (2015)", quoted),
		velocity(2, "drinking water, 15 min and longer", noise, "DIN 1988-300:2012", recalled),
		velocity(5, "drinking water up to 15 min, low-loss valves", noise, "DIN 1988-300:2012", recalled),
		velocity(2.5, "drinking water up to 15 min, other valves", noise, "DIN 1988-300:2012", recalled),
		velocity(1, "hot water circulation", noise, "DVGW W 553", recalled),
		velocity(1.2, "heating up to 2 inch", noise, "ASHRAE Handbook Fundamentals, pipe sizing", recalled),
		gradient(400, "heating above 2 inch", "ASHRAE Handbook Fundamentals, pipe sizing: 4 ft per 100 ft", recalled),
		velocity(0.7, "heating in living rooms", "noise", "radiator connections 0.3 to 0.7 m/s", custom),
		velocity(1, "heating, distribution", "noise", "distribution pipes 1.0 m/s", custom),
		velocity(1.5, "heating, mains", "noise", "mains 1.5 m/s", custom),
		gradient(150, "heating, low pump power", "German and Scandinavian practice: 50 to 150 Pa/m", custom),
		gradient(400, "heating in copper", "British practice: 200 to 400 Pa/m", custom),
		{"air carried along", Velocity, hydronics.AtLeast, 0.5, "air stays at high points and in falling pipe",
			hydronics.Source{Text: "0.5 to 0.6 m/s to carry air downwards", Provenance: custom}},
	}
}

// CriterionNamed returns the criterion of that name, and
// [hydronics.ErrNoSolution] for any other name.
//
// Source: the criterion names its own.
func CriterionNamed(name string) (Criterion, error) {
	all := criteria()
	for i := range all {
		if all[i].Name == name {
			return all[i], nil
		}
	}
	names := make([]string, len(all))
	for i := range all {
		names[i] = all[i].Name
	}
	return Criterion{}, fmt.Errorf("pipe.CriterionNamed: %w: no criterion %q, but %s",
		hydronics.ErrNoSolution, name, strings.Join(names, "; "))
}

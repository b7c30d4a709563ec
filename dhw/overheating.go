package dhw

import (
	"fmt"

	"example.com/hydronics"
)

// A HeatSource is one heater of a closed cylinder with the controls that keep it
// from boiling the water: a coil, an immersion heater, a second heat pump.
type HeatSource struct {
	Name       string
	Thermostat float64 // °C, its setting, 0 to 130 (guard); 0: none
	CutOut     float64 // °C, setting of the cut-out that does not reset itself, 0 to 130 (guard); 0: none
}

// An Overheating is the protection of a closed cylinder against boiling: a
// requirement of its own, beside that against pressure. A thermostat that sticks
// is the usual first fault, and the relief valve must not be the second defence.
type Overheating struct {
	Book       Rulebook
	Content    float64      // m³, 0.001 to 10 (guard)
	Sources    []HeatSource // 1 to 20, every one of them
	ReliefTemp float64      // °C, setting of the temperature relief valve on the cylinder, 0 to 130 (guard); 0: none
}

const (
	dangerBoil = "water above 100 °C under pressure flashes into steam when the cylinder gives way, with the force of an explosion"
	// smallUnvented is the content above which G3 asks for a temperature relief valve.
	smallUnvented = 15 * hydronics.Litre
)

// Findings judges the protection: for every source a thermostat, a cut-out that
// does not reset itself, set no lower than it and at most at 100 °C; and a temperature
// relief valve where the book asks for one. Its outlet sizes the discharge pipe:
// [SizeDischarge]. Fields outside their limits return a [hydronics.RangeError].
func (o Overheating) Findings() ([]hydronics.Finding, error) {
	const fn = "dhw.Overheating.Findings"
	if err := count(fn, "heat sources", len(o.Sources), 1, 20); err != nil {
		return nil, err
	}
	err := together(o.Book.check(fn), volume(fn, "cylinder volume", o.Content),
		hydronics.Within(fn, "setting of the temperature relief valve", "°C", o.ReliefTemp, 0, maxPrimary, hydronics.Guard))
	for i, s := range o.Sources {
		if e := together(hydronics.Within(fn, "setting of the thermostat", "°C", s.Thermostat, 0, maxPrimary, hydronics.Guard),
			hydronics.Within(fn, "setting of the cut-out", "°C", s.CutOut, 0, maxPrimary, hydronics.Guard)); e != nil {
			err = together(err, fmt.Errorf("heat source %d: %w", i+1, e))
		}
	}
	if err != nil {
		return nil, err
	}
	england := o.Book == ApprovedDocumentG || o.Book == ApprovedDocumentG1992
	controls := hydronics.Source{Text: "thermostat and cut-out of each heat source", Provenance: hydronics.CommonPractice}
	if england {
		controls = o.Book.source("requirement G3: thermostat, cut-out that does not reset itself, temperature relief valve", hydronics.FromMemory)
	}
	boiling := hydronics.Source{Text: "Water Supply (Water Fittings) Regulations 1999, guidance G18.1: no point of the store above 100 °C", Provenance: hydronics.SecondHand}
	if !england {
		boiling = hydronics.Source{Text: "stored water never boils", Provenance: hydronics.CommonPractice}
	}
	most := func(rule, subject string, value, limit float64, source hydronics.Source) hydronics.Finding {
		return hydronics.Finding{Rule: rule, Subject: subject, Danger: dangerBoil, Quantity: "setting", Unit: "°C", Bound: hydronics.AtMost,
			Value: value, Limit: limit, Source: source}.Judge()
	}
	found := make([]hydronics.Finding, 0, 4*len(o.Sources)+2)
	for _, s := range o.Sources {
		found = append(found,
			hydronics.Statement("a thermostat controls the source", s.Name, s.Thermostat > 0, controls, dangerBoil),
			hydronics.Statement("a cut-out that does not reset itself stops the source", s.Name, s.CutOut > 0, controls, dangerBoil))
		if s.CutOut > 0 {
			found = append(found, most("cut-out at most at 100 °C", s.Name, s.CutOut, 100, boiling),
				most("thermostat set no higher than the cut-out", s.Name, s.Thermostat, s.CutOut, controls))
		}
	}
	asked, source := false, controls
	switch o.Book {
	case ApprovedDocumentG, ApprovedDocumentG1992:
		asked, source = o.Content > smallUnvented, o.Book.source("requirement G3, unvented systems above 15 l", hydronics.SecondHand)
	case IPC2018:
		asked, source = true, o.Book.source("section 504.4: temperature and pressure relief valve", hydronics.FromMemory)
	case IRC2021:
		asked, source = true, o.Book.source("section P2804: temperature and pressure relief valve", hydronics.FromMemory)
	}
	if asked {
		found = append(found, hydronics.Statement("a temperature relief valve stands on the cylinder", "cylinder", o.ReliefTemp > 0, source, dangerBoil))
	}
	if o.ReliefTemp > 0 {
		found = append(found, most("temperature relief valve opens at 100 °C at most", "cylinder", o.ReliefTemp, 100, boiling))
	}
	return found, nil
}

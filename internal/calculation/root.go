package calculation

import (
	"example.com/hydronics"
	"example.com/hydronics/internal/unit"
)

// unitCalculations covers the ground floor: gauge and absolute pressure.
func unitCalculations() []Calculation {
	return []Calculation{{
		Name: "hydronics/gauge",
		Doc:  "absolute pressure of a gauge pressure, and back",
		Inputs: []Column{
			{Name: "pressure_gauge", Kind: unit.GaugePressure},
			{Name: "atmosphere", Kind: unit.AbsolutePressure},
		},
		Outputs: []Column{
			{Name: "pressure_abs", Kind: unit.AbsolutePressure},
			{Name: "pressure_back", Kind: unit.GaugePressure, Doc: "gauge pressure of that absolute pressure"},
		},
		Covers: []string{"hydronics.Gauge.Abs", "hydronics.GaugeOf"},
		Row: func(in Row) (Row, error) {
			abs := hydronics.Gauge(in.Num("pressure_gauge")).Abs(in.Num("atmosphere"))
			return Row{
				"pressure_abs":  abs,
				"pressure_back": float64(hydronics.GaugeOf(abs, in.Num("atmosphere"))),
			}, nil
		},
	}}
}

func unitExempt() map[string]string {
	const words = "words and bookkeeping, no number to check"
	return map[string]string{
		"hydronics.RangeError.Error":     words,
		"hydronics.RangeError.Is":        words,
		"hydronics.Within":               words,
		"hydronics.Provenance.String":    words,
		"hydronics.Provenance.Confirmed": words,
		"hydronics.ParseProvenance":      words,
		"hydronics.Source.String":        words,
		"hydronics.Verdict.String":       words,
		"hydronics.Finding.Judge":        words,
		"hydronics.Finding.Margin":       words,
		"hydronics.Statement":            words,
		"hydronics.OnSite":               words,
	}
}

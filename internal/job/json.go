package job

import (
	"encoding/json"
	"math"

	"example.com/hydronics"
)

// Number is a number in JSON: what is not finite is written as null.
type Number float64

// MarshalJSON writes null for NaN and for infinities.
func (n Number) MarshalJSON() ([]byte, error) {
	if v := float64(n); math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// A Record is a finding as machines read it: stable keys and words; numbers that
// do not exist are null.
type Record struct {
	ID          string   `json:"id"`
	Part        string   `json:"part"`
	Rule        string   `json:"rule"`
	Subject     string   `json:"subject"`
	Verdict     string   `json:"verdict"`
	Quantity    string   `json:"quantity,omitempty"`
	Unit        string   `json:"unit,omitempty"` // SI, °C
	Bound       string   `json:"bound,omitempty"`
	Value       *float64 `json:"value"`
	Limit       *float64 `json:"limit"`
	Margin      *float64 `json:"margin"`
	Uncertainty *float64 `json:"uncertainty"`
	Source      string   `json:"source"`
	Provenance  string   `json:"provenance"`
	Danger      string   `json:"danger,omitempty"`

	Remedy *Remedy `json:"remedy,omitempty"`
}

// finite returns nil, which is written as null, for a number that does not exist.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

var bounds = map[hydronics.Bound]string{
	hydronics.AtMost: "at most", hydronics.AtLeast: "at least", hydronics.Holds: "holds",
}

// Record returns the finding as machines read it.
func (f *Finding) Record() Record {
	return Record{
		ID: f.ID, Part: f.Part.String(), Rule: f.Rule, Subject: f.Subject, Verdict: f.Verdict.String(), Quantity: f.Quantity, Unit: f.Unit,
		Bound: bounds[f.Bound], Value: finite(f.Value), Limit: finite(f.Limit), Margin: finite(f.Margin()), Uncertainty: finite(f.Uncertainty),
		Source: f.Source.Text, Provenance: f.Source.Provenance.String(), Danger: f.Danger, Remedy: f.Remedy,
	}
}

// MarshalJSON writes the finding as its record.
func (f Finding) MarshalJSON() ([]byte, error) { return json.Marshal(f.Record()) }

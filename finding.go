package hydronics

import "math"

// Bound says on which side of its limit a value has to lie.
type Bound uint8

// The kinds of requirement.
const (
	// AtMost wants Value <= Limit.
	AtMost Bound = iota + 1
	// AtLeast wants Value >= Limit.
	AtLeast
	// Holds is a statement that is true or false, without numbers.
	Holds
)

// Verdict is the outcome of judging one requirement.
type Verdict uint8

// The verdicts. The zero value is NotMet, so that a finding that nobody judged
// can never pass for a good one.
const (
	// NotMet: the requirement fails.
	NotMet Verdict = iota
	// Met holds even at the unfavourable end of the uncertainty, on a confirmed source.
	Met
	// MetUnconfirmed holds, but the rule rests on common practice or memory alone.
	MetUnconfirmed
	// MetWithinUncertainty holds for the value itself, but not at the
	// unfavourable end of its uncertainty.
	MetWithinUncertainty
	// SeeOnSite cannot be judged by calculation.
	SeeOnSite
)

var verdictNames = [...]string{"not met", "met", "met on an unconfirmed source",
	"met only within the uncertainty", "to be seen on site"}

// String returns the verdict in words, such as "not met".
func (v Verdict) String() string {
	if int(v) < len(verdictNames) {
		return verdictNames[v]
	}
	return verdictNames[NotMet]
}

// A Finding is one requirement judged. It holds numbers, not formatted text:
// programs format. All numbers are in SI (temperatures in °C).
type Finding struct {
	Rule        string  // what is required, in a short sentence
	Subject     string  // the part of the installation it is about; may be empty
	Danger      string  // what can happen if it is not kept; may be empty
	Quantity    string  // what the numbers mean
	Unit        string  // their SI unit, "" for a pure number
	Bound       Bound   // on which side of Limit the value has to lie
	Value       float64 // as calculated
	Limit       float64
	Uncertainty float64 // of Value, same unit, from inputs and method; 0: not stated
	Source      Source
	Verdict     Verdict
}

// Judge returns f with its verdict, from Bound, Value, Limit, Uncertainty and
// Source. A NaN anywhere is [NotMet]. For [Holds] the value must be 1.
func (f Finding) Judge() Finding {
	f.Verdict = NotMet
	margin, u := f.Margin(), math.Abs(f.Uncertainty)
	switch {
	case !(margin >= 0): // NaN fails here as well
	case !(margin >= u):
		f.Verdict = MetWithinUncertainty
	case !f.Source.Provenance.Confirmed():
		f.Verdict = MetUnconfirmed
	default:
		f.Verdict = Met
	}
	return f
}

// Margin returns how far the value lies on the good side of its limit, in the
// finding's unit; negative means that the requirement is not met. For [Holds]
// it is 0 or -1, for a Bound that was not set it is NaN.
func (f Finding) Margin() float64 {
	switch f.Bound {
	case AtMost:
		return f.Limit - f.Value
	case AtLeast:
		return f.Value - f.Limit
	case Holds:
		if f.Value == 1 {
			return 0
		}
		return -1
	default:
		return math.NaN()
	}
}

// Statement returns a judged finding of the kind [Holds].
func Statement(rule, subject string, holds bool, source Source, danger string) Finding {
	f := Finding{Rule: rule, Subject: subject, Danger: danger, Bound: Holds, Limit: 1, Source: source}
	if holds {
		f.Value = 1
	}
	return f.Judge()
}

// OnSite returns a finding that only an inspection can settle.
func OnSite(rule, subject string, source Source, danger string) Finding {
	return Finding{Rule: rule, Subject: subject, Danger: danger, Bound: Holds,
		Value: math.NaN(), Limit: 1, Source: source, Verdict: SeeOnSite}
}

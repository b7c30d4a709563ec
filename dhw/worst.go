package dhw

import "math"

// Worst follows the day again and again, until a midnight finds the cylinder as an
// earlier one did, to a thousandth of a kelvin in each layer, and at most Days times.
// It returns the day that leaves most heat unmet, and of several such the one with
// the coldest outlet; DayResult.Day says which it was.
//
// A large cylinder that is charged less than daily meets its draw-offs in another
// state each day: a single day then says little.
//
// Errors: those of [Day.Run]. Source: the one of [Day.Run].
func (d Day) Worst() (DayResult, error) {
	s, err := d.begin("dhw.Day.Worst")
	if err != nil {
		return DayResult{}, err
	}
	var worst DayResult
	midnights := s.remember(make([]float64, 0, 4*(s.nodes+1)))
	for day := range d.Days {
		if err := s.day(false, nil); err != nil {
			return DayResult{}, err
		}
		if r := s.outcome(day); day == 0 || r.worse(&worst) {
			worst = r
		}
		if s.met(midnights) {
			break
		}
		midnights = s.remember(midnights)
	}
	return worst, nil
}

func (r *DayResult) worse(than *DayResult) bool {
	if r.Never != than.Never {
		return than.Never
	}
	if a, b := r.Missing(), than.Missing(); a != b {
		return a > b
	}
	return r.LowestOutlet < than.LowestOutlet
}

// Missing returns Unmet in J without what the sums leave behind in rounding: 0 where
// no tap ran cold, or less than a billionth of the day's heat is missing.
//
// Source: definition, the heat that is wanted less the heat that is given.
func (r *DayResult) Missing() float64 {
	if r.Never || r.Unmet <= 1e-9*r.Demanded {
		return 0
	}
	return r.Unmet
}

// remember appends the layers, and whether they are heated.
func (s *daySimulation) remember(midnights []float64) []float64 {
	heating := 0.0
	if s.heating {
		heating = 1
	}
	return append(append(midnights, s.above[:s.nodes]...), heating)
}

// met reports whether the cylinder is as one of the midnights found it.
func (s *daySimulation) met(midnights []float64) bool {
	now := s.remember(make([]float64, 0, MaxNodes+1))
	for ; len(midnights) > 0; midnights = midnights[len(now):] {
		same := true
		for i, t := range now {
			same = same && math.Abs(t-midnights[i]) <= 1e-3
		}
		if same {
			return true
		}
	}
	return false
}

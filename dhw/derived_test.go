package dhw

import (
	"math"
	"sort"
	"testing"

	"example.com/hydronics"
)

// The relations of Effectiveness against the balance of the two streams from
// which they follow, integrated step by step (Runge and Kutta, fourth order):
//
//	dT_min/dx = -ntu (T_min - T_max),  dT_max/dx = ∓ ntu cr (T_min - T_max)
func TestEffectivenessAgainstTheBalance(t *testing.T) {
	const steps = 2000
	integrate := func(ntu, cr, sign, hot, cold float64) (float64, float64) {
		slope := func(a, b float64) (float64, float64) { return -ntu * (a - b), sign * ntu * cr * (a - b) }
		h := 1.0 / steps
		for range steps {
			a1, b1 := slope(hot, cold)
			a2, b2 := slope(hot+h/2*a1, cold+h/2*b1)
			a3, b3 := slope(hot+h/2*a2, cold+h/2*b2)
			a4, b4 := slope(hot+h*a3, cold+h*b3)
			hot += h / 6 * (a1 + 2*a2 + 2*a3 + a4)
			cold += h / 6 * (b1 + 2*b2 + 2*b3 + b4)
		}
		return hot, cold
	}
	for _, ntu := range []float64{0.05, 0.5, 1, 2, 4} {
		for _, cr := range []float64{0, 0.1, 0.5, 0.9, 0.999, 1} {
			// Parallel: both enter at x = 0, the one stream at 1, the other at 0.
			out, _ := integrate(ntu, cr, 1, 1, 0)
			got, err := Effectiveness(Parallel, ntu, cr)
			if err != nil || !(math.Abs(got-(1-out)) < 1e-9) {
				t.Errorf("parallel, ntu %v, cr %v: %v, balance %v, %v", ntu, cr, got, 1-out, err)
			}
			// Counterflow: the other enters at x = 1 with 0. What it has at x = 0
			// follows from two trials, for the balance is linear.
			_, end0 := integrate(ntu, cr, -1, 1, 0)
			_, end1 := integrate(ntu, cr, -1, 1, 1)
			out, _ = integrate(ntu, cr, -1, 1, end0/(end0-end1))
			got, err = Effectiveness(Counterflow, ntu, cr)
			if err != nil || !(math.Abs(got-(1-out)) < 1e-9) {
				t.Errorf("counterflow, ntu %v, cr %v: %v, balance %v, %v", ntu, cr, got, 1-out, err)
			}
		}
	}
}

// A coil in a mixed store against the closed form of its own balance:
// t = C/(ε ṁc) ln((T_in - T_0)/(T_in - T_1)), without losses.
func TestCoilReheatsAsItsBalanceSays(t *testing.T) {
	c := Cylinder{Volume: 0.2, Nodes: 1, VolumetricHeat: 4.18e6}
	coil := Coil{Transmittance: 400, CapacityRate: 700, Inlet: 60}
	h, err := coil.Heater()
	if err != nil {
		t.Fatal(err)
	}
	e := 1 - math.Exp(-400./700)
	for _, to := range []float64{20, 40, 55, 59.9} {
		r, err := c.Reheat(h, 10, to, 20)
		want := 0.2 * 4.18e6 / (e * 700) * math.Log((60-10)/(60-to))
		if err != nil || !(math.Abs(r.Time/want-1) < 1e-9) {
			t.Errorf("to %v °C: %v s, balance %v s, %v", to, r.Time, want, err)
		}
	}
}

// Every definition of DemandOfFixtures against all states of ten fixtures, one
// after the other: each runs or does not.
func TestFixturesByEnumeration(t *testing.T) {
	groups := []Fixtures{{4, 0.08, 2e-4}, {3, 0.2, 1e-4}, {3, 0.01, 5e-4}}
	type state struct{ flow, probability float64 }
	var states []state
	var single []Fixtures
	for _, g := range groups {
		for range g.Count {
			single = append(single, Fixtures{1, g.Probability, g.Flow})
		}
	}
	for code := range 1 << len(single) {
		s := state{0, 1}
		for i, f := range single {
			if code>>i&1 == 1 {
				s.flow += f.Flow
				s.probability *= f.Probability
			} else {
				s.probability *= 1 - f.Probability
			}
		}
		states = append(states, s)
	}
	sort.Slice(states, func(i, j int) bool { return states[i].flow < states[j].flow })
	var idle, mean, square float64
	for _, s := range states {
		if s.flow == 0 {
			idle += s.probability
		}
		mean += s.probability * s.flow
		square += s.probability * s.flow * s.flow
	}
	least := func(quantile float64, busy bool) float64 {
		sum, all := 0.0, 1.0
		if busy {
			all = 1 - idle
		}
		for i, s := range states {
			if !busy || s.flow > 0 {
				sum += s.probability
			}
			if i+1 < len(states) && states[i+1].flow < s.flow+1e-9 {
				continue // the same flow comes again
			}
			if sum >= quantile*all {
				return s.flow
			}
		}
		return math.NaN()
	}
	for _, quantile := range []float64{0.6, 0.9, 0.99, 0.999} {
		d, err := DemandOfFixtures(groups, quantile, 1e-4)
		if err != nil {
			t.Fatal(err)
		}
		// The same moments while at least one runs.
		busyMean, busySquare := mean/(1-idle), square/(1-idle)
		z := (d.Normal - mean) / math.Sqrt(square-mean*mean)
		for _, c := range []struct{ got, want float64 }{
			{d.Idle, idle}, {d.Mean, mean}, {d.Variance, square - mean*mean},
			{d.Exact, least(quantile, false)}, {d.ExactBusy, least(quantile, true)},
			{d.NormalBusy, busyMean + z*math.Sqrt(busySquare-busyMean*busyMean)},
			{0.5 * math.Erfc(-z/math.Sqrt2), quantile},
		} {
			if !(math.Abs(c.got-c.want) <= 1e-9*math.Abs(c.want)) {
				t.Errorf("quantile %v: %v, enumeration %v", quantile, c.got, c.want)
			}
		}
	}
}

// A store of the content that SumLine finds serves the profile day after day, by
// a walk from one draw-off to the next; of a thousandth less it does not.
func TestSumLineByWalking(t *testing.T) {
	for _, name := range LoadProfiles() {
		p, err := LoadProfile(name)
		if err != nil {
			t.Fatal(err)
		}
		energy, err := p.Energy()
		if err != nil {
			t.Fatal(err)
		}
		for _, factor := range []float64{1, 1.2, 2, 5} {
			power := factor * energy / hydronics.Day
			s, err := p.SumLine(power * (1 + 1e-12))
			if err != nil {
				t.Fatal(err)
			}
			serves := func(content float64) bool { return leastLeft(p, power, content, 4) >= -1e-6*energy }
			if !serves(s.Content) || serves(s.Content*0.999) {
				t.Errorf("%s, %.4g W: %v J: serves %v, a thousandth less %v", name, power, s.Content, serves(s.Content), serves(s.Content*0.999))
			}
		}
	}
}

// A part store after EN 15450 gives the critical period what it needs, and not a
// joule more: what is usable, and what the heat pump makes beyond the losses.
func TestPartStoreCoversTheCriticalPeriod(t *testing.T) {
	d := StoreDemand{Amount{0.1, 60}, 10, 50, 40, 1.1e6, 1.6e7, 3600, 4.184e6}
	s, err := d.Part()
	if err != nil {
		t.Fatal(err)
	}
	given := s.Volume*4.184e6*(50-40) + (s.Power-1.1e6/hydronics.Day)*3600
	if !(math.Abs(given/1.6e7-1) < 1e-12) {
		t.Errorf("%v J of 1.6e7 J", given)
	}
	// The volumes carry the day's heat and its loss above the cold water.
	if heat := s.Volume * 4.184e6 * (50 - 10); !(math.Abs(heat/(0.1*4.184e6*50+1.1e6)-1) < 1e-12) {
		t.Errorf("%v J in the store", heat)
	}
}

// The temperature along a circulation pipe, by small steps of its balance, and the
// three flows in their order.
func TestCirculationByTheBalance(t *testing.T) {
	c := Circulation{Length: 60, Transmittance: 0.25, Ambient: 12, Supply: 60, VolumetricHeat: 4.15e6}
	f, err := c.Flow(55)
	if err != nil {
		t.Fatal(err)
	}
	temperature, lost := c.Supply, 0.0
	const steps = 200000
	for range steps {
		loss := c.Transmittance * c.Length / steps * (temperature - c.Ambient)
		lost += loss
		temperature -= loss / (f.Flow * c.VolumetricHeat)
	}
	if math.Abs(temperature-55) > 1e-4 || math.Abs(lost/f.Loss-1) > 1e-5 {
		t.Errorf("ends at %v °C with %v W, exact loss %v W", temperature, lost, f.Loss)
	}
	if !(f.Flow < f.Mean && f.Mean < f.Inlet) {
		t.Errorf("%+v", f)
	}
}

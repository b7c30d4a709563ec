package dhw

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"example.com/hydronics"
)

// Fixtures are draw-off points of one kind that run independently of each other,
// each with the same probability during the busiest hour.
type Fixtures struct {
	Count       int     // 0 to 5000 (guard)
	Probability float64 // that one is running at a moment of the busiest hour, 0 to 1
	Flow        float64 // m³/s while running, a whole multiple of the step, above 0 to 0.01 (guard)
}

// A FixtureDemand is the flow of many independent draw-off points, by several
// definitions that must not be confused.
type FixtureDemand struct {
	Hunter   float64 // Hunter's number, the mean number of points that run, Σ n p
	Idle     float64 // probability that none runs
	Mean     float64 // m³/s, of all time
	Variance float64 // (m³/s)², of all time

	Exact      float64 // m³/s, least flow that is not exceeded with the probability asked for, of all time
	ExactBusy  float64 // m³/s, the same, of the time while at least one point runs
	Normal     float64 // m³/s, by a normal distribution, of all time (Wistort)
	NormalBusy float64 // m³/s, by a normal distribution, while at least one point runs (modified Wistort)
}

// DemandOfFixtures returns the flow that is not exceeded with the probability
// quantile, above 0.5 and below 1, usually 0.99. The exact values come from
// convolving the binomial distributions of the groups on a grid of flows with the
// given step in m³/s (above 0); all flows have to be whole multiples of it.
//
//	Normal      Q = Σ n p q + z √(Σ n p (1-p) q²)
//	NormalBusy  Q = (Σ n p q + z √((1-P0) var - P0 mean²))/(1-P0)
//
// In a single dwelling most of the time nothing runs, so that "of all time" and
// "while busy" differ by a factor of two; the normal distributions fit many
// dwellings and no single one.
//
// It returns a [hydronics.RangeError] for values outside the limits, for more than
// 5000 points and for a grid of more than 100,000 steps.
//
// Source: S. Buchberger, T. Omaghomi, T. Wolfe, J. Hewitt, D. Cole, Peak Water
// Demand Study, 2017 (method); the binomial distribution.
func DemandOfFixtures(groups []Fixtures, quantile, step float64) (FixtureDemand, error) {
	const fn = "dhw.DemandOfFixtures"
	err := together(hydronics.Within(fn, "quantile", "", quantile, 0.5, 1-1e-9, "upper half of a probability"),
		hydronics.Within(fn, "step of flow", "m³/s", step, 1e-9, 0.01, hydronics.Guard))
	if err != nil {
		return FixtureDemand{}, err
	}
	var d FixtureDemand
	total, points, allIdle := 0, 0, 0.0
	for _, g := range groups {
		n, p := float64(g.Count), g.Probability
		err := together(count(fn, "number of fixtures", g.Count, 0, 5000),
			hydronics.Within(fn, "probability", "", p, 0, 1, "probability"),
			hydronics.Within(fn, "flow of a fixture", "m³/s", g.Flow, step/2, 0.01, hydronics.Guard))
		if err == nil {
			whole := math.Round(g.Flow / step)
			err = hydronics.Within(fn, "flow of a fixture", "m³/s", g.Flow, whole*step*(1-1e-6), whole*step*(1+1e-6), "whole multiple of the step")
		}
		if err != nil {
			return FixtureDemand{}, err
		}
		total += g.Count * int(math.Round(g.Flow/step))
		points += g.Count
		if err := together(count(fn, "steps of the grid", total, 0, 100_000), count(fn, "fixtures", points, 0, 5000)); err != nil {
			return FixtureDemand{}, err
		}
		d.Hunter += n * p
		if n > 0 { // 0 · log 0 is no number
			allIdle += n * math.Log1p(-p)
		}
		d.Mean += n * p * g.Flow
		d.Variance += n * p * (1 - p) * g.Flow * g.Flow
	}
	d.Idle = math.Exp(allIdle)
	busy := -math.Expm1(allIdle)
	if busy == 0 { // nothing ever runs
		return d, nil
	}
	z := mathext.NormalQuantile(quantile)
	d.Normal = d.Mean + z*math.Sqrt(d.Variance)
	// What stands under the root is a variance; only rounding makes it negative.
	d.NormalBusy = (d.Mean + z*math.Sqrt(math.Max(0, busy*d.Variance-d.Idle*d.Mean*d.Mean))) / busy

	distribution := flowDistribution(groups, total, step)
	d.Exact = least(distribution, 0, quantile) * step
	d.ExactBusy = least(distribution, 1, quantile*busy) * step
	return d, nil
}

// flowDistribution returns the probabilities of the flows 0, step, 2 step, ...
func flowDistribution(groups []Fixtures, total int, step float64) []float64 {
	dist := make([]float64, total+1)
	dist[0] = 1
	reach := 0
	for _, g := range groups {
		k, p := int(math.Round(g.Flow/step)), g.Probability
		for range g.Count { // one more fixture: it runs or it does not
			reach += k
			for i := reach; i >= 0; i-- {
				v := dist[i] * (1 - p)
				if i >= k {
					v += dist[i-k] * p
				}
				dist[i] = v
			}
		}
	}
	return dist
}

// least returns the least index at which the distribution, summed from an index
// on, reaches the probability, less the rounding of the sum.
func least(distribution []float64, from int, probability float64) float64 {
	sum := 0.0
	for i := from; i < len(distribution); i++ {
		if sum += distribution[i]; sum >= probability*(1-1e-12) {
			return float64(i)
		}
	}
	return float64(len(distribution) - 1)
}

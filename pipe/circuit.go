package pipe

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/numeric"
)

// An Element loses pressure by the flow through it: a [Resistance], an [InSeries]
// or an [InParallel]. The loss in Pa is odd in the flow in m³/s and grows strictly
// with it; the slope dloss/dflow in Pa·s/m³ is positive, but 0 without flow
// where nothing resists in laminar fashion (valves without tube).
type Element interface {
	LossAndSlope(flow float64) (loss, slope float64)
}

// InSeries is a chain of elements that one flow passes: losses add. Nothing in
// it loses nothing.
type InSeries []Element

// LossAndSlope returns the sum over the elements, see [Element].
// Source: energy balance.
func (s InSeries) LossAndSlope(flow float64) (loss, slope float64) {
	for _, e := range s {
		l, d := e.LossAndSlope(flow)
		loss += l
		slope += d
	}
	return loss, slope
}

// InParallel is a set of elements between the same two points: flows add, the
// loss is the same in all.
type InParallel []Element

// LossAndSlope returns the loss that all elements share when the flow divides
// among them, and its slope; see [Element]. It solves for the split each time.
// Where that fails, as for an empty InParallel, both are NaN.
// Source: mass balance, with one loss for all by the energy balance.
func (p InParallel) LossAndSlope(flow float64) (loss, slope float64) {
	loss, slope, err := p.split(flow, nil)
	if err != nil {
		return math.NaN(), math.NaN()
	}
	return loss, slope
}

// Split returns the flow in m³/s in each element and the loss in Pa that they
// share, when the flow in m³/s (±1000, guard) divides among them. An element
// that resists nothing, or no element at all, gives [hydronics.ErrNoSolution].
// Source: mass balance, with one loss for all by the energy balance.
func (p InParallel) Split(flow float64) (flows []float64, loss float64, err error) {
	if err := within("pipe.InParallel.Split", "flow", "m³/s", flow, -maxFlow, maxFlow); err != nil {
		return nil, math.NaN(), err
	}
	flows = make([]float64, len(p))
	loss, _, err = p.split(flow, flows)
	if err != nil {
		return nil, math.NaN(), fmt.Errorf("pipe.InParallel.Split: %w", err)
	}
	return flows, loss, nil
}

// split finds the common loss by Newton's method in ln loss over ln flow, and fills
// in the flows unless they are nil.
func (p InParallel) split(flow float64, flows []float64) (loss, slope float64, err error) {
	// total returns the flow of all elements at a loss, and its derivative.
	total := func(loss float64) (sum, d float64) {
		for i, e := range p {
			q, slope, e := flowAt(e.LossAndSlope, loss)
			if e != nil {
				err = e
			}
			if flows != nil {
				flows[i] = q
			}
			sum += q
			d += 1 / slope
		}
		return sum, d
	}
	if len(p) == 0 {
		return math.NaN(), math.NaN(), fmt.Errorf("%w: no element in parallel", hydronics.ErrNoSolution)
	}
	if flow == 0 {
		_, d := total(0)
		return 0, 1 / d, err
	}
	// At most, each element takes the whole flow.
	most := math.Inf(1)
	for _, e := range p {
		l, _ := e.LossAndSlope(math.Abs(flow))
		most = math.Min(most, l)
	}
	if !(most > 0) {
		return math.NaN(), math.NaN(), fmt.Errorf("%w: an element in parallel does not resist", hydronics.ErrNoSolution)
	}
	loss, e := increasing(total, math.Abs(flow), most)
	if e != nil {
		return math.NaN(), math.NaN(), e
	}
	_, d := total(loss)
	if flow < 0 {
		loss = -loss
		for i := range flows {
			flows[i] = -flows[i]
		}
	}
	return loss, 1 / d, err
}

// FlowAt returns the flow in m³/s that loses the pressure in Pa (±1e9, guard)
// in the element: the inverse of its loss, to a relative 1e-13. Where
// the loss jumps, with [StepTransition], a loss inside the jump gives the flow
// at it. An element without resistance gives [hydronics.ErrNoSolution].
// Source: definition, the inverse of the element's loss, by Newton's method.
func FlowAt(e Element, loss float64) (float64, error) {
	const fn = "pipe.FlowAt"
	if err := within(fn, "pressure loss", "Pa", loss, -maxPressure, maxPressure); err != nil {
		return math.NaN(), err
	}
	q, _, err := flowAt(e.LossAndSlope, loss)
	if err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	return q, nil
}

func flowAt(lossAndSlope func(flow float64) (loss, slope float64), loss float64) (flow, slope float64, err error) {
	if loss == 0 {
		_, slope = lossAndSlope(0)
		return 0, slope, nil
	}
	flow, err = increasing(lossAndSlope, math.Abs(loss), 1e-4)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	_, slope = lossAndSlope(flow)
	return math.Copysign(flow, loss), slope, nil
}

// increasing solves f(x) = want > 0 for x > 0, where f grows strictly from
// f(0) = 0 and returns its derivative beside its value, starting at x.
//
// Losses are close to powers of the flow, so that Newton's method runs on
// ln f over ln x; where it would leave the bracket it is halved instead.
func increasing(f func(float64) (y, slope float64), want, x float64) (float64, error) {
	lo, hi := 0.0, math.Inf(1)
	for range 200 {
		y, slope := f(x)
		if math.IsNaN(y) || !(slope > 0) {
			break
		}
		if y == want {
			return x, nil
		}
		if y < want {
			lo = x
		} else {
			hi = x
		}
		next := x * math.Exp(math.Log(want/y)*y/(slope*x))
		if !(next > lo && next < hi) {
			if next = (lo + hi) / 2; math.IsInf(next, 1) {
				next = 2 * x
			}
		}
		if math.Abs(next-x) <= 1e-15*x || next <= lo || next >= hi {
			return next, nil
		}
		x = next
	}
	return math.NaN(), fmt.Errorf("%w: no flow found with a loss of %g", hydronics.ErrNoSolution, want)
}

// Flow returns the flow in m³/s that loses the pressure in Pa (±1e9, guard) in
// the run: the inverse of [Run.Loss], with the same limits.
// Source: Darcy and Weisbach, as [Run.Loss], solved for the flow.
func (r Run) Flow(loss float64, p fluid.Properties) (float64, error) {
	const fn = "pipe.Run.Flow"
	if err := within(fn, "pressure loss", "Pa", loss, -maxPressure, maxPressure); err != nil {
		return math.NaN(), err
	}
	c, err := r.Prepare(p)
	if err != nil {
		return math.NaN(), err
	}
	flow, _, err := flowAt(c.LossAndSlope, loss)
	if err != nil {
		return math.NaN(), fmt.Errorf("%s: %w", fn, err)
	}
	if err := c.checkFlow(fn, flow); err != nil {
		return math.NaN(), err
	}
	return flow, nil
}

// BoreFor returns the bore in m at which the run, whatever its own Bore, loses
// the pressure in Pa (1e-9 to 1e9, guard) at the flow in m³/s (1e-12 to 1000,
// guard). Every bore larger loses less: take the next size of the stock up. Zeta
// refers to the velocity in that bore. A loss that no bore between 0.5 mm (or 20
// times the roughness) and 3 m gives, such as less than the valves lose, yields
// [hydronics.ErrNoSolution].
// Source: Darcy and Weisbach, as [Run.Loss], solved for the bore.
func (r Run) BoreFor(flow, loss float64, p fluid.Properties) (float64, error) {
	const fn = "pipe.Run.BoreFor"
	smallest := max(minBore, r.Roughness/maxRoughness*(1+1e-12))
	r.Bore = maxBore
	err := errors.Join(r.check(fn, &p), within(fn, "flow", "m³/s", flow, 1e-12, maxFlow),
		within(fn, "pressure loss", "Pa", loss, 1e-9, maxPressure))
	if err != nil {
		return math.NaN(), err
	}
	excess := func(logBore float64) float64 {
		r.Bore = math.Exp(logBore)
		c := r.resistance(&p)
		l, _ := c.LossAndSlope(flow)
		return math.Log(l / loss)
	}
	x, err := numeric.Root(excess, math.Log(smallest), math.Log(maxBore), 1e-15)
	if err != nil {
		return math.NaN(), fmt.Errorf("%s: no bore loses %g Pa: %w", fn, loss, err)
	}
	return math.Exp(x), nil
}

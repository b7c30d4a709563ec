package frost

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// A twin is a valve with up to two columns above it.
type twin struct {
	discharge
	area, final float64
	finer       float64 // divides the steps
	n           int
	legs        [2][]Leg
	full, left  [2]float64 // m of wetted length of each column, at the start and now
	first       [2]float64 // m³/s from each column at the start
	down        [2]float64 // s at which each column is down to the final head
}

func (t *twin) add(legs []Leg, length float64) {
	t.legs[t.n], t.full[t.n], t.left[t.n] = legs, length, length
	t.n++
}

// head returns the height of the surface over the valve with a wetted length
// left in the legs, and rise over length there.
func head(legs []Leg, left float64) (z, slope float64) {
	for i := range legs {
		l := &legs[i]
		if left <= l.Length {
			slope = l.Rise / l.Length
			return z + slope*left, slope
		}
		z += l.Rise
		left -= l.Length
	}
	return z, 0
}

// wetted returns the length of a column below a head.
func wetted(legs []Leg, head float64) float64 {
	length, z := 0.0, 0.0
	for _, l := range legs {
		if z+l.Rise > head {
			return length + l.Length*(head-z)/l.Rise
		}
		z += l.Rise
		length += l.Length
	}
	return length
}

// flows solves for the flows out of the columns that leave the lengths
// base − a·q/area, starting from those handed in:
//
//	length·friction(qᵢ) + valve·(Σ q)² = ρ g zᵢ
//
// An implicit step, since two columns over one valve settle to one level faster
// than they empty. A flow may be negative: the higher column pushes into the
// lower. A full one takes nothing more, since its top lets air in, not water out.
func (t *twin) flows(q *[2]float64, base [2]float64, a float64) error {
	a /= t.area
	var shut [2]bool
	var z [2]float64
	for i := range t.n {
		shut[i] = base[i] <= 0
		z[i], _ = head(t.legs[i], base[i])
	}
	if t.n == 1 || shut[0] || shut[1] {
		return t.balance(q, &base, a, &shut)
	}
	low := 0 // the column with the lower head
	if z[1] < z[0] {
		low = 1
	}
	if shut[low] = base[low] >= t.full[low]*(1-1e-12); shut[low] {
		if err := t.balance(q, &base, a, &shut); err != nil {
			return err
		}
		if sum := q[0] + q[1]; t.weight*z[low] <= t.valve*sum*sum {
			return nil
		}
		shut[low] = false
	}
	return t.balance(q, &base, a, &shut)
}

// balance is flows with some columns shut: Newton's method, a step halved as long
// as it makes the balance worse, which the kinks of friction and of the route can do.
func (t *twin) balance(q, base *[2]float64, a float64, shut *[2]bool) error {
	open := 0
	for i := range t.n {
		if shut[i] {
			q[i] = 0
		} else {
			open++
		}
	}
	if open == 0 {
		return nil
	}
	miss, step := t.newton(q, base, a, shut)
	for range 100 {
		flow := math.Abs(q[0]) + math.Abs(q[1])
		if math.Abs(step[0])+math.Abs(step[1]) <= 1e-3*flow || miss == 0 { // the step itself squares what is left
			q[0] += step[0]
			q[1] += step[1]
			return nil
		}
		share := 1.0
		for {
			next := [2]float64{q[0] + share*step[0], q[1] + share*step[1]}
			worse, following := t.newton(&next, base, a, shut)
			if worse <= miss*(1-0.1*share) || share < 1e-4 {
				*q, miss, step = next, worse, following
				break
			}
			share *= 0.5
		}
	}
	return fmt.Errorf("%w: frost.Reach.Empty: the flows through a drain valve", hydronics.ErrNoSolution)
}

// newton returns by how much the flows miss their balance, in Pa, and Newton's
// step. The matrix is diagonal but for the valve, which all share.
func (t *twin) newton(q, base *[2]float64, a float64, shut *[2]bool) (miss float64, step [2]float64) {
	sum := q[0] + q[1]
	valve, common := t.valve*sum*math.Abs(sum), 2*t.valve*math.Abs(sum)
	var f, yields [2]float64 // Pa; m³/(s·Pa), the inverse of a column's own derivative
	yield, weighted := 0.0, 0.0
	for i := range t.n {
		if shut[i] {
			continue
		}
		free := base[i] - a*q[i]
		left := max(0, min(t.full[i], free))
		z, slope := head(t.legs[i], left)
		loss, per := t.tube.LossAndSlope(q[i])
		length := max(left, 1e-9*t.full[i]) // so that something resists in the last drop
		f[i] = length*loss + valve - t.weight*z
		own := length * per
		if free == left { // neither empty nor full
			own += a * t.weight * slope
		}
		miss += math.Abs(f[i])
		yields[i] = 1 / own
		yield += yields[i]
		weighted += f[i] * yields[i]
	}
	shared := common * weighted / (1 + common*yield)
	for i := range t.n {
		if !shut[i] {
			step[i] = (shared - f[i]) * yields[i]
		}
	}
	return miss, step
}

// In a step the flow of a column may change by at most flowChange of the outflow,
// and mostOut of all water may leave.
const flowChange, mostOut = 0.1, 0.05

// run lets the columns run down to the final head and returns their outflow. The
// method is that of [Standing.Resolve], its stages solved for the flows.
func (t *twin) run() ([]Outflow, error) {
	if t.n == 0 {
		return nil, nil
	}
	var q, last [2]float64 // the wetted lengths at the final head
	total := 0.0
	for i := range t.n {
		z, _ := head(t.legs[i], t.left[i])
		q[i] = t.flow(z, t.left[i]) / float64(t.n)
		last[i] = wetted(t.legs[i], t.final)
		total += t.left[i]
	}
	if err := t.flows(&q, t.left, 0); err != nil {
		return nil, err
	}
	t.first = q
	out := append(make([]Outflow, 0, 64), Outflow{Flow: q[0] + q[1]})
	now, gone := 0.0, 0.0
	most, mostChange := mostOut/t.finer*total*t.area, flowChange/t.finer
	var rate [2]float64 // of change of the flows, which foresees the next ones
	step := 0.01 * total * t.area / (q[0] + q[1])
	for steps := 0; ; steps++ {
		if steps == maxSteps {
			return nil, fmt.Errorf("%w: frost.Reach.Empty: the column does not run down", hydronics.ErrNoSolution)
		}
		dt := t.untilBend(&q, min(step, most/(q[0]+q[1])))
		var next, then [2]float64
		var change float64
		for {
			then = foreseen(&q, &rate, gamma*dt)
			if err := t.flows(&then, t.left, gamma*dt); err != nil {
				return nil, err
			}
			base := t.left
			for i := range t.n {
				base[i] -= (1 - gamma) * dt * then[i] / t.area
			}
			for i := range t.n {
				rate[i] = (then[i] - q[i]) / (gamma * dt)
			}
			end := foreseen(&q, &rate, dt)
			if err := t.flows(&end, base, gamma*dt); err != nil {
				return nil, err
			}
			change = (math.Abs(end[0]-then[0]) + math.Abs(end[1]-then[1])) / (then[0] + then[1])
			if change > 3*mostChange && dt > 1e-9*step {
				dt *= max(0.2, math.Sqrt(mostChange/change))
				continue
			}
			for i := range t.n {
				next[i] = max(0, min(t.full[i], base[i]-gamma*dt*end[i]/t.area))
			}
			then = end
			break
		}
		// The last step ends with the last column, linearly, which errs late.
		share, running := 0.0, false
		for i := range t.n {
			switch {
			case next[i] > last[i]*(1+1e-9):
				running = true
			case t.left[i] > last[i]:
				part := (t.left[i] - last[i]) / (t.left[i] - next[i])
				t.down[i] = now + part*dt
				share = max(share, part)
			}
		}
		if running {
			share = 1
		}
		for i := range t.n {
			gone += share * (t.left[i] - next[i]) * t.area
			t.left[i] += share * (next[i] - t.left[i])
		}
		q = then
		now += share * dt
		out = append(out, Outflow{Time: now, Flow: q[0] + q[1], Volume: gone})
		if !running {
			return out, nil
		}
		step = dt * max(0.3, min(2.5, 0.9*math.Sqrt(mostChange/max(change, 1e-9))))
	}
}

// foreseen returns the flows that a rate of change leads to, for Newton's method to
// start from; where one would stop or turn, those of now.
func foreseen(q, rate *[2]float64, dt float64) [2]float64 {
	next := *q
	for i := range next {
		if ahead := q[i] + rate[i]*dt; ahead*q[i] > 0 {
			next[i] = ahead
		}
	}
	return next
}

// untilBend shortens a step that would pass the end of a leg, where the flow
// bends, unless next to nothing is left before it.
func (t *twin) untilBend(q *[2]float64, step float64) float64 {
	for i := range t.n {
		foot := 0.0
		for _, l := range t.legs[i] {
			if rest := t.left[i] - foot; rest <= l.Length && q[i] > 0 {
				if time := rest * t.area / q[i]; time < step && rest > 1e-3*t.full[i] {
					step = time
				}
				break
			}
			foot += l.Length
		}
	}
	return step
}

package frost

import (
	"math"

	"example.com/hydronics"
)

// Until freezing begins the cells only conduct: temperatures are the unknowns,
// the two stages of a step share one matrix, and well mixed water is one cell.

// conduct tries a step of dt s before freezing: temperatures into tt. It returns
// what step returns. The unknowns of a stage are the changes of temperature, so
// that rounding is in proportion to them.
func (r *resolver) conduct(dt float64) (change float64) {
	n := r.cells
	first, last, wall := r.first(), n-1, r.water-1
	x, t, c, g, gain := r.tt[:n], r.t[:n], r.held[:n], r.g[:n], r.rhs[:n]
	g[last] = 1 / (r.out[last] + 1/r.film)
	r.factor(first, gamma*dt)
	in := 0.0
	for i := first; i < n; i++ { // what each cell would gain at the temperatures now
		next := r.outdoor
		if i < last {
			next = t[i+1]
		}
		out := gamma * dt * g[i] * (t[i] - next)
		gain[i] = in - out
		x[i] = gain[i]
		in = out
	}
	r.substitute(first)
	lost, through := r.after(last), r.after(wall)
	for i := first; i < n; i++ {
		x[i] = gain[i] + (1-gamma)/gamma*c[i]*x[i]
	}
	r.substitute(first)
	lostThen, throughThen := r.after(last), r.after(wall)
	for i := first; i < n; i++ {
		x[i] += t[i]
	}
	for i := range first {
		x[i] = x[first]
	}
	r.lost, r.losing = dt*((1-gamma)*lost+gamma*lostThen), lostThen
	return r.changed(lost, lostThen, through, throughThen)
}

// after returns the heat flow out of cell i, with the changes of temperature in tt.
func (r *resolver) after(i int) float64 {
	if i == r.cells-1 {
		return r.g[i] * (r.t[i] + r.tt[i] - r.outdoor)
	}
	return r.g[i] * (r.t[i] + r.tt[i] - r.t[i+1] - r.tt[i+1])
}

// first is the innermost cell whose temperature is its own.
func (r *resolver) first() int {
	if r.mixed {
		return r.water - 1
	}
	return 0
}

// centre returns the temperature in the middle of the bore: that of a parabola
// through the nodes of the two innermost cells, whose squared radii are as 1 to 5.
func (r *resolver) centre(t []float64) float64 {
	if r.mixed || r.frozen && r.h[1] <= 0 {
		return t[0]
	}
	return t[0] + 0.25*(t[0]-t[1])
}

// factor prepares (C + a·G)·T = b, with symmetric tridiagonal G, from the axis and
// from the outermost cell towards the middle: the two ways do not wait for each
// other. Every pivot is a sum of what is positive: conductances that are large
// against the capacities cancel nothing.
func (r *resolver) factor(first int, a float64) {
	n := r.cells
	c, g, w, inverse := r.held[:n], r.g[:n], r.up[:n], r.value[:n]
	middle := (first + n) / 2
	behind, beyond := 0.0, a*g[n-1] // what the cells towards the axis and those outside add
	for i := first; i < middle; i++ {
		held, outer := c[i]+behind, a*g[i]
		inverse[i] = 1 / (held + outer)
		w[i] = outer * inverse[i]
		behind = w[i] * held
	}
	for i := n - 1; i > middle; i-- {
		held, inner := c[i]+beyond, a*g[i-1]
		inverse[i] = 1 / (held + inner)
		w[i] = inner * inverse[i]
		beyond = w[i] * held
	}
	inverse[middle] = 1 / (c[middle] + behind + beyond)
}

// substitute replaces the right side in tt by the solution.
func (r *resolver) substitute(first int) {
	n := r.cells
	x, w, inverse := r.tt[:n], r.up[:n], r.value[:n]
	middle := (first + n) / 2
	behind, beyond := 0.0, 0.0
	for i := first; i < middle; i++ {
		behind += x[i]
		x[i] = behind * inverse[i]
		behind *= w[i]
	}
	for i := n - 1; i > middle; i-- {
		beyond += x[i]
		x[i] = beyond * inverse[i]
		beyond *= w[i]
	}
	x[middle] = (behind + x[middle] + beyond) * inverse[middle]
	v := x[middle]
	for i := middle - 1; i >= first; i-- {
		v = x[i] + w[i]*v
		x[i] = v
	}
	v = x[middle]
	for i := middle + 1; i < n; i++ {
		v = x[i] + w[i]*v
		x[i] = v
	}
}

// changed returns the part by which the heat flows at the two ends of the wall
// change in a step.
func (r *resolver) changed(lost, lostThen, through, throughThen float64) float64 {
	// The last term lets the steps grow when next to nothing flows any more.
	scale := math.Abs(lost) + math.Abs(lostThen) + math.Abs(through) + 5e-4*r.g[r.cells-1]
	if scale == 0 { // nothing flows at all
		return 0
	}
	return (math.Abs(lostThen-lost) + math.Abs(throughThen-through)) / scale
}

// begin takes the surface coefficient for the start.
func (r *resolver) begin(s Surface, air *Air) {
	r.takeFilm(s, air, r.t[r.cells-1])
	r.surfaceWas = r.surfaceTemperature()
	if s.Method != Given {
		r.takeFilm(s, air, r.surfaceWas)
	}
}

// setOutdoors takes the surface coefficient for a step of dt s from the time now:
// at the surface temperature that half of the step will lead to, as far as the
// last one tells. A coefficient that would change the flow of heat by less than a
// thousandth stays as it is.
func (r *resolver) setOutdoors(s Surface, air *Air, now, dt float64) {
	if r.plane || s.Method == Given && air == r.air {
		return
	}
	t := r.surfaceTemperature()
	ahead := t
	if now > r.surfaceAt {
		ahead += 0.5 * dt * (t - r.surfaceWas) / (now - r.surfaceAt)
	}
	half := 0.5 * (t + r.outdoor) // no further, and not backwards
	ahead = max(min(t, half), min(max(t, half), ahead))
	r.surfaceWas, r.surfaceAt = t, now
	if air == r.air && air.Infrared == 0 {
		share := 1 / (1 + r.film*r.inside)
		if math.Abs(ahead-r.takenAt)*share*r.exponent <= 1e-3*math.Abs(ahead-air.Temperature) {
			return
		}
	}
	r.takeFilm(s, air, ahead)
}

// takeFilm takes the coefficient at a temperature of the surface.
func (r *resolver) takeFilm(s Surface, air *Air, surface float64) {
	convective, radiative := s.coefficients(r.surface/math.Pi, surface, air)
	h := convective + radiative
	// No coefficient rises faster with the difference of temperatures than with
	// its cube root; in wind hardly at all.
	before := r.film / r.surface
	moved := math.Abs(surface-r.takenAt) / math.Abs(surface-air.Temperature)
	if r.exponent = 1.0 / 3; air == r.air && moved > 0.01 && h > 0 {
		r.exponent = min(1.0/3, max(0.01, 1.5*math.Abs(h-before)/(h*moved)))
	}
	r.film, r.takenAt, r.air = r.surface*h, surface, air
	r.outdoor = air.Temperature
	if h > 0 { // not where nothing radiates in still air as warm as the surface
		r.outdoor = (convective*air.Temperature + radiative*(air.radiant()-hydronics.ZeroCelsius)) / h
	}
}

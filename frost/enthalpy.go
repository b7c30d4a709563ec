package frost

import (
	"math"
)

// A resolver is the finite-volume form of one metre of section: cells from the
// axis outwards, the first water of them water, the others wall and insulation.
// Enthalpies are per metre of tube and zero for liquid water at 0 °C.
type resolver struct {
	water, cells int
	mixed        bool
	plane        bool // slabs of unit area instead of rings, for comparison with exact solutions

	face         []float64 // m, radii of the cells' faces, cells+1 of them
	capacity     []float64 // J/(m·K), of a water cell when liquid
	held         []float64 // the same before freezing, with mixed water as one cell
	perLiquid    []float64 // its inverse
	perIce       []float64 // m·K/J, of a water cell when frozen
	latent       []float64 // J/m
	allLatent    float64   // of the water cells together
	inner, outer []float64 // shapes from the node to the two faces, to be divided by λ
	lambda       []float64 // W/(m·K), of a layer's cells at 0 °C, of a liquid cell
	slope        []float64 // W/(m·K²) of the layers
	sloped       bool      // some slope is not zero
	liquid, iced float64   // W/(m·K)

	in, out       []float64 // m·K/W from the node to the two faces; of a water cell when liquid
	inIce, outIce []float64 // the same of a water cell when frozen

	h, t   []float64 // enthalpy and temperature now
	slush  []float64 // enthalpy at which a cell's ring of ice begins to grow
	frozen bool      // freezing has begun

	crossing float64 // s in which the cold crosses a tenth of the water: the first step
	surface  float64 // m, circumference of the outermost surface
	inside   float64 // m·K/W from the outermost water to that surface
	outside

	lost      float64 // J/m in the last step
	losing    float64 // W/m at its end
	g         []float64
	trial     []float64 // enthalpy at the end of the step
	tt        []float64 // its temperature
	f1, f2    []float64 // heat flow into the cells in the two stages
	rhs       []float64
	up, value []float64 // elimination
	b, s      []float64 // T = b + s·H about the iterate
	pivot     float64   // of the innermost layer, all outside it eliminated
	load      float64   // and its right side
	branch    []int8
}

func newResolver(s Section, m Medium, water int, mixed bool, memory *workspace) *resolver {
	layers := 0
	for _, l := range s.Layers {
		layers += cellsOf(l)
	}
	r := allocate(water, water+layers, memory)
	r.liquid, r.iced = m.Conductivity, m.IceConductivity
	if r.mixed = mixed; mixed {
		r.liquid *= 1e4
	}
	radius := s.Bore / 2
	for i := 0; i <= water; i++ {
		r.face[i] = radius * float64(i) / float64(water)
	}
	n := water
	for _, l := range s.Layers {
		k := cellsOf(l)
		for j := 1; j <= k; j++ {
			r.face[n+j] = radius + l.Thickness*float64(j)/float64(k)
			r.lambda[n+j-1], r.slope[n+j-1] = l.Conductivity, l.Slope
			r.capacity[n+j-1] = l.HeatCapacity
		}
		n += k
		radius += l.Thickness
	}
	r.surface = 2 * math.Pi * radius
	r.geometry(m)
	return r
}

// cellsOf returns the number of cells for a layer: one for metal and for what
// only resists, more for what stores heat too.
func cellsOf(l Layer) int {
	switch {
	case l.Conductivity > 5, l.HeatCapacity == 0 && l.Slope == 0:
		return 1
	case l.Thickness < 0.004:
		return 3
	default:
		return 8
	}
}

// What is outside of the outermost surface, as it was last looked at.
type outside struct {
	film     float64 // W/(m·K) per metre of tube, surface to outdoors
	air      *Air    // for which, and at which surface temperature, the film was taken
	takenAt  float64
	exponent float64 // with which it may change with the difference of surface and air
	outdoor  float64 // °C

	surfaceWas, surfaceAt float64 // °C of the surface, and when
}

// A workspace is what the calculations of a night use one after the other.
type workspace struct {
	resolver resolver
	numbers  []float64
	branches []int8
	states   []State
	steady   []float64
}

// allocate returns a resolver with its cells, in the memory if there is one.
func allocate(water, cells int, memory *workspace) *resolver {
	if memory == nil {
		memory = new(workspace)
	}
	n := cells + 1
	if n > len(memory.branches) {
		memory.numbers, memory.branches = make([]float64, 27*n), make([]int8, n)
	}
	block := memory.numbers[:27*n]
	clear(block)
	clear(memory.branches)
	take := func() []float64 {
		part := block[:n:n]
		block = block[n:]
		return part
	}
	r := &memory.resolver
	*r = resolver{
		water: water, cells: cells,
		face: take(), capacity: take(), held: take(), perLiquid: take(), perIce: take(), latent: take(), inner: take(), outer: take(),
		lambda: take(), slope: take(), h: take(), t: take(), slush: take(), g: take(), trial: take(), tt: take(),
		f1: take(), f2: take(), rhs: take(), b: take(), s: take(), up: take(), value: take(),
		in: take(), out: take(), inIce: take(), outIce: take(), branch: memory.branches[:n],
	}
	return r
}

// geometry fills in volumes and shapes. The node of a cell lies at the radius
// that halves its volume, where a parabola takes its mean.
func (r *resolver) geometry(m Medium) {
	for i := range r.cells {
		a, b := r.face[i], r.face[i+1]
		volume, node := math.Pi*(b*b-a*a), math.Sqrt(0.5*(a*a+b*b))
		if r.plane {
			volume, node = b-a, 0.5*(a+b)
		}
		r.inner[i], r.outer[i] = r.shape(a, node), r.shape(node, b)
		if i < r.water {
			r.capacity[i] = volume * m.Density * m.SpecificHeat
			r.perIce[i] = 1 / (volume * m.Density * m.IceSpecificHeat)
			r.latent[i] = volume * m.Density * m.LatentHeat
			r.allLatent += r.latent[i]
			r.lambda[i] = r.liquid
			r.inIce[i], r.outIce[i] = r.inner[i]/r.iced, r.outer[i]/r.iced
		} else {
			r.capacity[i] *= volume
			r.capacity[i] = max(r.capacity[i], 1e-3) // a layer without capacity
			r.sloped = r.sloped || r.slope[i] != 0
		}
		r.perLiquid[i] = 1 / r.capacity[i]
	}
	tenth := r.face[r.water] / 10
	r.crossing = tenth * tenth * m.Density * m.SpecificHeat / m.Conductivity
	copy(r.held, r.capacity[:r.cells])
	if r.mixed {
		for i := range r.water - 1 {
			r.held[r.water-1] += r.capacity[i]
		}
	}
	r.resistances()
}

// resistances takes the conductivities at the present temperatures.
func (r *resolver) resistances() {
	r.inside = 0
	for i := range r.cells {
		lambda := r.lambda[i] + r.slope[i]*r.t[i]
		r.in[i], r.out[i] = r.inner[i]/lambda, r.outer[i]/lambda
		if i > 0 {
			r.g[i-1] = 1 / max(r.out[i-1]+r.in[i], 1e-9)
		}
		if i >= r.water {
			r.inside += r.in[i] + r.out[i]
		}
	}
}

// shape returns the resistance between two faces times the conductivity.
func (r *resolver) shape(a, b float64) float64 {
	switch {
	case r.plane:
		return b - a
	case a == 0:
		return math.Inf(1) // nothing crosses the axis
	default:
		return math.Log(b/a) / (2 * math.Pi)
	}
}

// start sets the water to the temperature t, and the layers to the steady
// profile of the heat flow q.
func (r *resolver) start(t, q float64) {
	for i := range r.cells {
		if i >= r.water {
			t -= q * r.inner[i] / (r.lambda[i] + r.slope[i]*t)
		}
		r.t[i], r.h[i] = t, r.capacity[i]*t
		if i >= r.water {
			t -= q * r.outer[i] / (r.lambda[i] + r.slope[i]*t)
		}
	}
	r.resistances()
}

func (r *resolver) content() float64 {
	sum := 0.0
	for _, h := range r.h[:r.cells] {
		sum += h
	}
	return sum
}

// surfaceTemperature returns the temperature of the outermost surface.
func (r *resolver) surfaceTemperature() float64 {
	last := r.cells - 1
	half := r.outward(last, r.h[last])
	return r.t[last] - half*(r.t[last]-r.outdoor)/(half+1/r.film)
}

// outward and inward return the resistance from a cell's node, or from the
// front of its ice, to its outer and inner face.
func (r *resolver) outward(i int, h float64) float64 {
	_, out := r.around(i, h)
	return out
}

func (r *resolver) inward(i int, h float64) float64 {
	in, _ := r.around(i, h)
	return in
}

// around returns the resistances to both faces of a cell with the enthalpy h.
func (r *resolver) around(i int, h float64) (in, out float64) {
	switch r.branchOf(i, h) {
	case liquid:
		return r.in[i], r.out[i]
	case solid:
		return r.inIce[i], r.outIce[i]
	}
	a, b, front := r.face[i], r.face[i+1], r.front(i, h)
	in = r.shape(a, front)
	if i == 0 {
		return in / r.liquid, r.shape(front, b) / r.iced
	}
	return in / r.liquid, max(0, r.inner[i]+r.outer[i]-in) / r.iced
}

// front returns the radius to which the ring of ice of a freezing cell has grown.
func (r *resolver) front(i int, h float64) float64 {
	left := clamp((h + r.latent[i]) / (r.slush[i] + r.latent[i])) // share not yet in the ring
	a, b := r.face[i], r.face[i+1]
	if r.plane {
		return a + (b-a)*left
	}
	return math.Sqrt(a*a + (b*b-a*a)*left)
}

const (
	liquid int8 = iota
	freezing
	solid
)

func (r *resolver) branchOf(i int, h float64) int8 {
	switch {
	case i >= r.water || !r.frozen || h > 0:
		return liquid
	case h < -r.latent[i]:
		return solid
	default:
		return freezing
	}
}

// law returns temperature and slope dT/dH of a cell with the enthalpy h.
func (r *resolver) law(i int, h float64) (t, slope float64, branch int8) {
	switch branch = r.branchOf(i, h); branch {
	case liquid:
		return h * r.perLiquid[i], r.perLiquid[i], branch
	case solid:
		return (h + r.latent[i]) * r.perIce[i], r.perIce[i], branch
	default:
		return 0, 0, branch
	}
}

// conductances fills in g of the water, for enthalpies half way between now and
// the iterate.
func (r *resolver) conductances(iterate []float64) {
	before := -1.0 // resistance from the face to the node inside it
	for i := range r.water {
		in, out := r.around(i, 0.5*(r.h[i]+iterate[i]))
		if i > 0 {
			r.g[i-1] = 1 / max(before+in, 1e-9)
		}
		before = out
	}
	if r.water == r.cells {
		r.g[r.water-1] = 1 / (before + 1/r.film)
	} else {
		r.g[r.water-1] = 1 / (before + r.in[r.water])
	}
}

// factorLayers eliminates wall and insulation from the outside inwards: they are
// linear, and the same for all iterations of a step.
func (r *resolver) factorLayers(a float64) {
	last := r.cells - 1
	if r.water > last {
		return
	}
	r.g[last] = 1 / (r.out[last] + 1/r.film)
	beyond := a * r.g[last] // what outdoors and the layers outside add, as in factor
	for i := last; i > r.water; i-- {
		held, inner := r.capacity[i]+beyond, a*r.g[i-1]
		r.value[i] = 1 / (held + inner)
		r.up[i] = inner * r.value[i]
		beyond = r.up[i] * held
	}
	r.pivot = r.capacity[r.water] + beyond
}

// loadLayers does so with the right side, and leaves what reaches the wall.
func (r *resolver) loadLayers(a float64) {
	last := r.cells - 1
	if r.water > last {
		return
	}
	y := r.rhs[last] + a*r.g[last]*r.outdoor
	for i := last; i > r.water; i-- {
		r.b[i] = y * r.value[i]
		y = r.rhs[i-1] + r.up[i]*y
	}
	r.load = y
}

// solve finds x with x − a·F(x) = rhs, F the heat flow into the cells, starting
// from the x handed in; it leaves temperatures in tt and F in f. Factors of the
// layers are those of factorLayers(a).
func (r *resolver) solve(x, f []float64, a float64) bool {
	r.loadLayers(a)
	for iteration := range 30 {
		settled := iteration > 0
		for i := range r.water {
			t, s, branch := r.law(i, x[i])
			settled = settled && branch == r.branch[i]
			r.branch[i] = branch
			r.b[i], r.s[i] = t-s*x[i], s
		}
		if iteration < 3 {
			r.conductances(x)
		}
		change := r.eliminate(x, a)
		if settled && change < 0.02 {
			r.flows(x, f, a)
			return true
		}
	}
	return false
}

// eliminate solves the linearised stage for the water: the tridiagonal system from
// the axis outwards and back. The matrix is diagonally dominant by columns. It
// returns the largest change of x, as a temperature.
func (r *resolver) eliminate(x []float64, a float64) float64 {
	n := r.water
	g, b, s, up, value, rhs := r.g[:n], r.b[:n], r.s[:n], r.up[:n], r.value[:n], r.rhs[:n]
	// Wall, insulation and outdoors as one conductance to one temperature.
	outermost, beyond := a*g[n-1], r.outdoor
	if n < r.cells {
		outermost, beyond = outermost*r.pivot/(r.pivot+outermost), r.load/r.pivot
	}
	lower, below, above := 0.0, 0.0, 0.0 // a·g towards the axis, and what the cell there left
	for i := range g {
		upper := a * g[i]
		if i == n-1 {
			upper = outermost
		}
		both := lower + upper
		inverse := 1 / (1 + both*s[i] - above)
		v := rhs[i] - both*b[i] + below
		if i < n-1 {
			v += upper * b[i+1]
			up[i] = upper * s[i+1] * inverse
			value[i] = v * inverse
			sub := upper * s[i]
			above, below = sub*up[i], upper*b[i]+sub*value[i]
		} else {
			value[i] = (v + upper*beyond) * inverse
		}
		lower = upper
	}
	change, v := 0.0, 0.0
	for i := n - 1; i >= 0; i-- {
		v = value[i] + up[i]*v
		change = max(change, math.Abs(v-x[i])*r.perLiquid[i])
		x[i] = v
	}
	return change
}

// flows puts the heat flow into each cell into f, in W/m, with temperatures
// taken on the branches of the last solution.
func (r *resolver) flows(x, f []float64, a float64) {
	n, water := r.cells, r.water
	tt := r.tt[:n]
	for i := range water {
		tt[i] = r.b[i] + r.s[i]*x[i]
	}
	if water < n {
		inner := a * r.g[water-1]
		tt[water] = (r.load + inner*tt[water-1]) / (r.pivot + inner)
		for i := water + 1; i < n; i++ {
			tt[i] = r.b[i] + r.up[i]*tt[i-1]
		}
	}
	in := 0.0
	for i := range n {
		out := r.across(i)
		f[i] = in - out
		in = out
	}
	f[n] = in // to the outdoors
}

// across returns the heat flow out of cell i, with the temperatures in tt.
func (r *resolver) across(i int) float64 {
	next := r.outdoor
	if i < r.cells-1 {
		next = r.tt[i+1]
	}
	return r.g[i] * (r.tt[i] - next)
}

// gamma is Alexander's, 1 − 1/√2.
const gamma = 1 - math.Sqrt2/2

// step tries a step and returns the part by which the heat flows at the two
// ends of the wall change in it.
func (r *resolver) step(dt float64) (change float64, ok bool) {
	if !r.frozen {
		return r.conduct(dt), true
	}
	n := r.cells
	copy(r.trial, r.h[:n])
	copy(r.rhs, r.h[:n])
	r.factorLayers(gamma * dt)
	if !r.solve(r.trial, r.f1, gamma*dt) {
		return 0, false
	}
	through := r.across(r.water - 1)
	for i := range n {
		r.rhs[i] = r.h[i] + (1-gamma)*dt*r.f1[i]
	}
	if !r.solve(r.trial, r.f2, gamma*dt) {
		return 0, false
	}
	r.lost, r.losing = dt*((1-gamma)*r.f1[n]+gamma*r.f2[n]), r.f2[n]
	for i := range n {
		r.trial[i] = r.h[i] + dt*((1-gamma)*r.f1[i]+gamma*r.f2[i])
	}
	return r.changed(r.f1[n], r.f2[n], through, r.across(r.water-1)), true
}

func (r *resolver) accept() {
	for i := range r.cells {
		if !r.frozen {
			r.t[i], r.h[i] = r.tt[i], r.capacity[i]*r.tt[i]
			continue
		}
		r.h[i] = r.trial[i]
		r.t[i], _, _ = r.law(i, r.h[i])
	}
	if r.sloped {
		r.resistances()
	}
}

// wallOf returns the temperature at the inner surface of the wall.
func (r *resolver) wallOf(h, t []float64) float64 {
	i := r.water - 1
	out := r.outward(i, h[i])
	if i == r.cells-1 {
		return t[i] - out*(t[i]-r.outdoor)/(out+1/r.film)
	}
	in := r.inward(i+1, h[i+1])
	return t[i] - out*(t[i]-t[i+1])/(out+in)
}

func (r *resolver) wall() float64 { return r.wallOf(r.h, r.t) }

// nextWall returns the wall temperature at the end of the step just tried, before
// freezing.
func (r *resolver) nextWall() float64 { return r.wallOf(r.h, r.tt) }

// nucleate starts the freezing: what is supercooled turns to slush at 0 °C. It
// returns the fraction of ice so made.
func (r *resolver) nucleate() float64 {
	r.frozen = true
	made := 0.0
	for i := range r.water {
		r.slush[i] = min(r.h[i], 0)
		made -= max(r.slush[i], -r.latent[i])
		r.t[i], _, _ = r.law(i, r.h[i])
	}
	return made / r.allLatent
}

// iceFraction returns the mass fraction of ice.
func (r *resolver) iceFraction() float64 {
	if !r.frozen {
		return 0
	}
	frozen := 0.0
	for i := range r.water {
		frozen += max(0, min(r.latent[i], -r.h[i]))
	}
	return frozen / r.allLatent
}

// stepToClose returns a step in which at most a share of the water freezes, and
// which brings the ring nearer to closing without passing that moment.
func (r *resolver) stepToClose(share float64) float64 {
	left := r.allLatent * (1 - r.iceFraction())
	q := math.Abs(r.losing)
	return max(min(share*r.allLatent, 0.7*left)/max(q, 1e-9), 1e-3)
}

func (r *resolver) state(now float64) State {
	s := State{Time: now, Outdoor: r.outdoor, Centre: r.centre(r.t), Wall: r.wall(), Ice: r.iceFraction()}
	for i := range r.water {
		s.Mean += r.t[i] * r.latent[i]
	}
	s.Mean /= r.allLatent
	last := r.cells - 1
	out := r.outward(last, r.h[last])
	s.Flow = (r.t[last] - r.outdoor) / (out + 1/r.film)
	s.Surface = r.t[last] - out*s.Flow
	return s
}

package dhw

import (
	"math"

	"example.com/hydronics"
	"example.com/hydronics/internal/numeric"
)

// A Day is a cylinder, its heater and the draw-offs of a day, to be followed step
// by step.
//
// Every draw-off is run at the temperature that its profile wants ([Draw.Wanted]),
// mixed with cold water at the tap. While the outlet is hotter, the draw-off takes
// exactly its heat; when it is colder, the tap runs hot only, at the same flow and
// for the same time, and the missing heat is counted as unmet.
type Day struct {
	Cylinder Cylinder // 1 to MaxNodes nodes
	Profile  Profile
	Heater   Heater // power against the mean temperature of the coil's nodes; beyond its last point it stops

	Coil   float64 // height to which the heater reaches from the bottom, share of the cylinder's height, above 0 to 1
	Sensor float64 // height of the thermostat's sensor, share of the cylinder's height, 0 to 1
	On     float64 // °C, the heater starts when the sensor is colder, 0 to 100
	Off    float64 // °C, and stops when the sensor reaches it, at least 0.1 K above On

	Start   float64 // °C, of the whole cylinder at the first midnight, 0 to 100
	Cold    float64 // °C, cold water, 0 to 100; below what every draw-off wants
	Ambient float64 // °C, -40 to 60

	Step float64 // s, 1 to 600; the thermostat acts once a step
	Days int     // the profile is repeated, and Run reports the last day, 1 to 30
}

// A DayResult is the account of a day. Heat counts from the cold water:
//
//	Stored = Supplied - Delivered - Lost
type DayResult struct {
	Demanded  float64 // J, wanted at the taps
	Delivered float64 // J, given at the taps
	Unmet     float64 // J, Demanded less Delivered
	Supplied  float64 // J, from the heater
	Lost      float64 // J, to the room
	Stored    float64 // J, gain of the cylinder from midnight to midnight

	LowestOutlet float64 // °C, lowest temperature at the outlet while water was drawn
	LowestAt     float64 // s after midnight
	ColdTime     float64 // s of draw-off with the outlet below the wanted temperature
	ColdFrom     float64 // s after midnight when that happened first; of no meaning if Never
	Never        bool    // the outlet never fell below the wanted temperature

	Drawn  float64 // m³, hot water that left the cylinder
	Starts int     // of the heater
	Run    float64 // s that the heater ran

	Day int // which one this is, from 1
}

// A DayState is the cylinder at the end of a step.
type DayState struct {
	Time              float64 // s after midnight
	Top, Mean, Bottom float64 // °C
	Power             float64 // W, from the heater in the step
	Wanted            float64 // W, demanded at the taps in the step
	Delivered         float64 // W, given at the taps in the step
}

func (d *Day) check(fn string) error {
	err := together(d.Cylinder.thermal(fn), count(fn, "nodes", d.Cylinder.Nodes, 1, MaxNodes), d.Profile.check(fn), d.Heater.check(fn),
		hydronics.Within(fn, "height of the coil", "", d.Coil, 1e-3, 1, hydronics.Guard),
		hydronics.Within(fn, "height of the sensor", "", d.Sensor, 0, 1, hydronics.Guard),
		water(fn, "temperature to start heating", d.On), water(fn, "start temperature", d.Start), water(fn, "cold water", d.Cold),
		air(fn, d.Ambient), hydronics.Within(fn, "step", "s", d.Step, 1, 600, hydronics.Guard), count(fn, "days", d.Days, 1, 30))
	if err != nil {
		return err
	}
	err = above(fn, "temperature to stop heating", d.Off, d.On)
	for _, x := range d.Profile.Draws {
		err = together(err, above(fn, "wanted temperature of a draw-off", x.Wanted(), d.Cold),
			hydronics.Within(fn, "volume drawn in a step", "m³", x.Flow*d.Step, 0, d.Cylinder.Volume, "content of the cylinder; take a shorter step"))
		if err != nil {
			return err
		}
		end := x.Start + x.Energy/d.wish(x)
		if err := hydronics.Within(fn, "end of a draw-off", "s", end, 0, hydronics.Day, "one day; give what runs past midnight to the next"); err != nil {
			return err
		}
	}
	if len(d.Heater) > 1 { // the coldest water that can reach the coil
		coldest := min(d.Cold, d.Start, max(d.Ambient, minWater))
		err = hydronics.Within(fn, "coldest water at the coil", "°C", coldest, d.Heater[0].Store, maxWater, "the heater's points")
	}
	return err
}

// wish returns the heat flow in W that a draw-off wants.
func (d *Day) wish(x Draw) float64 {
	return x.Flow * d.Cylinder.VolumetricHeat * (x.Wanted() - d.Cold)
}

// Run follows the day and returns its account. If observe is not nil, it is called
// at the end of every step of the last day.
//
// Each step has four parts: the thermostat; heat into the coil's nodes, after which
// layers that have become hotter than the layer above mix with it; the draw-offs,
// by the exact solution for a chain of mixed nodes, so that the step does not
// change the mixing; the loss of each node to the room, exact as well. Layers do
// not conduct heat to each other: the number of nodes stands for all mixing.
//
// The thermostat acts once a step, so that the cylinder may pass Off by what the
// heater gives in a step; a heater with several points stops at the last of them
// within the step.
//
// Fields outside their limits, and water that would boil or freeze, return the
// zero DayResult and a [hydronics.RangeError].
//
// Source: chain of mixed vessels, O. Levenspiel, Chemical Reaction Engineering,
// tanks in series: a node gives its content on to the next with the
// probabilities of a Poisson distribution.
func (d Day) Run(observe func(DayState)) (DayResult, error) {
	s, err := d.begin("dhw.Day.Run")
	if err != nil {
		return DayResult{}, err
	}
	for day := range d.Days {
		if err := s.day(day == d.Days-1, observe); err != nil {
			return DayResult{}, err
		}
	}
	return s.outcome(d.Days - 1), nil
}

// begin checks the day and fills the cylinder.
func (d *Day) begin(fn string) (daySimulation, error) {
	if err := d.check(fn); err != nil {
		return daySimulation{}, err
	}
	s := daySimulation{Day: d, nodes: d.Cylinder.Nodes, node: d.Cylinder.capacity() / float64(d.Cylinder.Nodes)}
	s.nodeVolume = d.Cylinder.Volume / float64(s.nodes)
	s.coil = max(1, int(math.Round(d.Coil*float64(s.nodes))))
	s.sensor = min(s.nodes-1, int(d.Sensor*float64(s.nodes)))
	s.lossShare = s.shareLost(d.Step)
	s.keeping = math.Log1p(-s.lossShare)
	for i := range s.nodes {
		s.above[i] = d.Start - d.Cold
	}
	return s, nil
}

// outcome is the account of the day that was followed last.
func (s *daySimulation) outcome(day int) DayResult {
	r := s.result
	r.Day = day + 1
	r.Never = r.ColdTime == 0
	return r
}

// daySimulation holds what changes during a Day.
type daySimulation struct {
	*Day
	nodes        int
	coil, sensor int     // nodes heated, node of the sensor
	node         float64 // J/K of one node
	nodeVolume   float64 // m³ of one node
	lossShare    float64 // share of a node's excess over the room that a full step takes
	keeping      float64 // logarithm of the share that a full step leaves
	looked       int     // 1 + the draw-off that was looked at last,
	power, end   float64 // what it wants, in W, and when it ends
	heating      bool
	above        [MaxNodes]float64 // K above the cold water, node 0 at the bottom
	result       DayResult
	pending      int               // first draw-off that has not ended
	moved        [MaxNodes]float64 // probabilities that water drawn moves on by so many nodes
}

func (s *daySimulation) day(last bool, observe func(DayState)) error {
	s.result, s.pending = DayResult{LowestOutlet: math.Inf(1)}, 0
	before := s.content()
	steps := int(math.Ceil(hydronics.Day/s.Step - 1e-9))
	for k := 0; k < steps; k++ {
		s.pass(float64(k) * s.Step)
		if !last || observe == nil {
			k += s.rest(k, steps-1-k)
		}
		from := float64(k) * s.Step
		step := min(s.Step, hydronics.Day-from)
		power := s.heat(step)
		if err := s.liquid(); err != nil {
			return err
		}
		wanted, given := s.draw(from, step)
		s.lose(step)
		if err := s.liquid(); err != nil {
			return err
		}
		if last && observe != nil {
			observe(s.state(from+step, power, wanted/step, given/step))
		}
	}
	s.result.Stored = s.content() - before
	s.result.Unmet = s.result.Demanded - s.result.Delivered
	return nil
}

// liquid refuses water that boils or freezes; the top is the hottest layer and the
// bottom the coldest.
func (s *daySimulation) liquid() error {
	top, bottom := s.Cold+s.above[s.nodes-1], s.Cold+s.above[0]
	if top <= maxWater+1e-9 && bottom >= minWater-1e-9 { // a node at the limit may be a rounding beyond it
		return nil
	}
	t := top
	if top <= maxWater {
		t = bottom
	}
	return hydronics.Within("dhw.Day", "temperature in the cylinder", "°C", t, minWater, maxWater,
		"potable water neither boils nor freezes; take a shorter step, a smaller heater or a warmer room")
}

// rest passes over steps in which the cylinder only cools, at most most of them
// from step k on, and returns how many. Losing a share in each of n steps is
// keeping the n-th power of the rest. It stops two steps short, so that whatever
// ends the rest is met by a step of its own.
func (s *daySimulation) rest(k, most int) int {
	if s.heating || !(s.Cold+s.above[s.sensor] > s.On) {
		return 0
	}
	n := float64(most)
	if s.pending < len(s.Profile.Draws) {
		n = min(n, s.Profile.Draws[s.pending].Start/s.Step-float64(k)-2)
	}
	if !(n >= 4) { // not worth it
		return 0
	}
	ambient := s.Ambient - s.Cold
	if excess, on := s.above[s.sensor]-ambient, s.On-s.Cold-ambient; s.lossShare > 0 && on > 0 {
		if n = min(n, math.Log(on/excess)/s.keeping-2); !(n >= 4) {
			return 0
		}
	}
	n = math.Floor(n)
	lost := -math.Expm1(n * s.keeping)
	sum := 0.0
	for i, t := range s.above[:s.nodes] {
		fall := (t - ambient) * lost
		s.above[i] = t - fall
		sum += fall
	}
	s.result.Lost += sum * s.node
	return int(n)
}

func (s *daySimulation) content() float64 {
	sum := 0.0
	for _, t := range s.above[:s.nodes] {
		sum += t
	}
	return sum * s.node
}

func (s *daySimulation) state(time, power, wanted, given float64) DayState {
	return DayState{Time: time, Top: s.Cold + s.above[s.nodes-1], Bottom: s.Cold + s.above[0],
		Mean: s.Cold + s.content()/s.Cylinder.capacity(), Power: power, Wanted: wanted, Delivered: given}
}

// heat runs thermostat and heater for a step and returns the power.
func (s *daySimulation) heat(step float64) float64 {
	sensor := s.Cold + s.above[s.sensor]
	if !s.heating && sensor >= s.On {
		return 0
	}
	mean := 0.0
	for _, t := range s.above[:s.coil] {
		mean += t
	}
	mean = s.Cold + mean/float64(s.coil)
	last := s.Heater[len(s.Heater)-1]
	switch {
	case len(s.Heater) > 1 && mean > last.Store: // hotter than the heater can
		s.heating = false
	case s.heating:
		s.heating = sensor < s.Off
	default:
		s.heating = true
		s.result.Starts++
	}
	if !s.heating {
		return 0
	}
	power, run := s.Heater.at(mean), step
	limit := math.Inf(1) // K above the cold water
	if len(s.Heater) > 1 {
		limit = last.Store - s.Cold
		if most := (last.Store - mean) * s.node * float64(s.coil); power*step >= most && power > 0 {
			run, s.heating = most/power, false // as hot as the heater can
		}
	}
	s.result.Supplied += power * run
	s.result.Run += run
	s.warm(power*run/s.node, limit)
	s.mix()
	return power * run / step
}

// warm spreads heat, in kelvins of one node, over the coil's nodes: equal shares, but
// none goes beyond limit, and the nodes below take what it could not.
func (s *daySimulation) warm(heat, limit float64) {
	t := s.above[:s.coil]
	share := heat / float64(len(t))
	if top := len(t) - 1; t[top]+share <= limit { // the hottest
		for i := range t {
			t[i] += share
		}
		return
	}
	for i := len(t) - 1; i >= 0; i-- {
		rise := min(heat/float64(i+1), max(0, limit-t[i]))
		t[i] += rise
		heat -= rise
	}
}

// mix lets every layer that is hotter than the one above rise into it: above the
// heater, and where cold water enters that is warmer than what has cooled.
func (s *daySimulation) mix() {
	t := s.above[:s.nodes]
	for i := 1; i < len(t); i++ {
		if !(t[i] < t[i-1]) {
			continue
		}
		low, sum, mean := i, t[i], t[i]
		for low > 0 && t[low-1] > mean {
			low--
			sum += t[low]
			mean = sum / float64(i-low+1)
		}
		for k := low; k <= i; k++ {
			t[k] = mean
		}
	}
}

// shareLost returns the share of a node's excess over the room that a step takes.
func (s *daySimulation) shareLost(step float64) float64 {
	return -math.Expm1(-s.Cylinder.LossCoefficient * step / s.Cylinder.capacity())
}

// lose lets every node cool for a step.
func (s *daySimulation) lose(step float64) {
	if s.Cylinder.LossCoefficient == 0 {
		return
	}
	share := s.lossShare
	if step != s.Step { // the last of a day
		share = s.shareLost(step)
	}
	ambient := s.Ambient - s.Cold
	sum := 0.0
	for i, t := range s.above[:s.nodes] {
		fall := (t - ambient) * share
		s.above[i] = t - fall
		sum += fall
	}
	s.result.Lost += sum * s.node
}

// pass leaves behind the draw-offs that have ended by a time.
func (s *daySimulation) pass(time float64) {
	for s.pending < len(s.Profile.Draws) {
		if _, end := s.look(s.pending); end > time {
			return // they begin one after the other
		}
		s.pending++
	}
}

// draw serves the draw-offs between from and from+step, one after the other, and
// returns the heat wanted and given.
func (s *daySimulation) draw(from, step float64) (wanted, given float64) {
	to := from + step
	for i := s.pending; i < len(s.Profile.Draws) && s.Profile.Draws[i].Start < to; i++ {
		x := &s.Profile.Draws[i]
		power, end := s.look(i)
		if end <= from { // while one that began earlier still runs
			continue
		}
		begin, stop := max(from, x.Start), min(to, end)
		want := power * (stop - begin)
		got := s.serve(want, x.Flow*(stop-begin)/s.nodeVolume)
		wanted, given = wanted+want, given+got
		s.outlet(x.Wanted(), begin, stop)
	}
	s.result.Demanded += wanted
	s.result.Delivered += given
	return wanted, given
}

// look returns what a draw-off wants, in W, and when it ends. It is asked step by
// step for the same one.
func (s *daySimulation) look(i int) (power, end float64) {
	if s.looked != i+1 {
		x := &s.Profile.Draws[i]
		s.looked, s.power = i+1, s.wish(*x)
		s.end = x.Start + x.Energy/s.power
	}
	return s.power, s.end
}

// outlet notes the temperature at the top after a draw-off ran from begin to stop.
func (s *daySimulation) outlet(wanted, begin, stop float64) {
	r := &s.result
	top := s.Cold + s.above[s.nodes-1]
	if top < r.LowestOutlet {
		r.LowestOutlet, r.LowestAt = top, stop
	}
	if top < wanted {
		if r.ColdTime == 0 {
			r.ColdFrom = begin
		}
		r.ColdTime += stop - begin
	}
}

// serve draws the heat want in J, but at most the volume of most nodes, and
// returns the heat that left.
func (s *daySimulation) serve(want, most float64) float64 {
	target := want / s.node
	// Heat over volume is concave in a layered cylinder, so that Newton's method
	// comes from below and does not overshoot.
	a, heat := 0.0, 0.0
	slope := s.above[s.nodes-1]
	for range 50 {
		next := most
		if slope > 0 {
			next = min(most, a+(target-heat)/slope)
		}
		if !(next > a) {
			break
		}
		a = next
		heat, slope = s.leaving(a)
		if a == most || target-heat <= 1e-13*target {
			break
		}
	}
	if a == 0 {
		return 0
	}
	t := s.above[:s.nodes]
	for j := len(t) - 1; j >= 0; j-- {
		sum := 0.0
		for k := 0; k <= j; k++ {
			sum += s.moved[k] * t[j-k]
		}
		t[j] = sum
	}
	s.mix()
	s.result.Drawn += a * s.nodeVolume
	return heat * s.node
}

// leaving returns the heat in kelvins of one node, and the outlet's temperature
// above cold, after a times the volume of a node is drawn. It leaves the Poisson
// probabilities of water having moved on by k nodes in s.moved.
func (s *daySimulation) leaving(a float64) (heat, outlet float64) {
	var prob, tail float64 // of k, of more than k; one exponential serves both: the fast one unless too much would cancel
	if a > 0.01 {          // and at most MaxNodes
		prob = numeric.Exp(-a)
		tail = 1 - prob
	} else {
		tail = -math.Expm1(-a)
		prob = 1 - tail
	}
	for k := 0; k < s.nodes; k++ {
		s.moved[k] = prob
		t := s.above[s.nodes-1-k]
		outlet += prob * t
		heat += tail * t
		prob *= a / float64(k+1)
		tail -= prob
	}
	return heat, outlet
}

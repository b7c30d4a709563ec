package frost

import (
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A DrainSetting is how a thermostatic drain valve opens. Common practice is
// about 3 °C; 35 °F (1.7 °C) is quoted too. The figures are the valve's own.
type DrainSetting struct {
	Opens     float64 // °C, 0 to 10
	Tolerance float64 // K to either side, 0 to 5
	Lag       float64 // s by which the valve follows the water, 0 to 1e5
	Lift      float64 // share of its Kv that is open at the latest opening, 0.01 to 1

	// Source says who states these figures. Unless it is confirmed, no verdict
	// that rests on the valve is better than [hydronics.MetUnconfirmed].
	Source hydronics.Source
}

// CommonSetting returns 3 °C ± 1 K, five minutes of lag, half lift.
// Source: 3 °C is common practice; the rest is a cautious assumption of this
// library, to be replaced by the data of the valve.
func CommonSetting() DrainSetting {
	return DrainSetting{Opens: 3, Tolerance: 1, Lag: 5 * hydronics.Minute, Lift: 0.5,
		Source: hydronics.Source{Text: "setting of thermostatic drain valves", Provenance: hydronics.CommonPractice}}
}

// A Night is a power cut: a section of tube outdoors full of standing plain
// water, and drain valves that shall let it out before it freezes.
type Night struct {
	Section Section
	// Fittings are the places with less insulation: valve bodies, brackets,
	// passages of walls, each as a section of its own.
	Fittings []Section
	Medium   Medium
	Start    float64 // °C of the water when the power fails, the coldest that can be: above 0, to 95
	// Weather is the air hour by hour from the failure on. One entry is constant
	// cold: take the extreme minimum, not the design temperature for heating. A
	// series shorter than the cut is followed by its lowest temperature, its
	// strongest wind and its clearest sky together.
	Weather []Air
	Cut     float64 // s without power, 60 to 1e8; 0 means without end
	Setting DrainSetting
	// Reach is where the water runs. Its drains open together; those with no
	// point outdoors at or next to them do not open at all. Final 0 means 1 mm
	// here: a film, and not the last litre of a tube with little fall.
	Reach  Reach
	Stroke float64 // s in which the normally closed isolating valves close, 0 to 1e4; nothing empties before

	memory *workspace // of one call; Run and others that follow the water set it
}

// What an [Event] is.
const (
	PowerFails      = "power fails, pump stops"
	ValvesClosed    = "isolating valves closed"
	DrainsOpen      = "drain valves open at the latest"
	ReachEmpty      = "section empty at the latest"
	WaterAtZero     = "0 °C at the wall at the earliest: restarting is over"
	FirstIceAtWall  = "first ice in the tube at the earliest"
	FirstIceFitting = "first ice in a fitting at the earliest"
	PowerReturns    = "power returns"
)

// An Event is a moment of the night.
type Event struct {
	Time float64 // s after the power fails
	What string
}

// An Outcome is what a night comes to. Each term is bounded on its own side: a
// simplification that is safe for one would be unsafe for another. What both
// share, the heat in wall and insulation when the power fails, is either that of
// steady flow or that of layers as warm as the water, whichever leaves less; where
// the two hold the same to a ten-thousandth of the water's heat, the first.
type Outcome struct {
	// EarliestIce is the earlier of the two limits of the water: conducting only,
	// so that the wall is coldest, as the crown is below 4 °C, or well mixed.
	EarliestIce Time
	Fitting     int // index of the fitting that freezes first; -1 for the tube itself
	// LatestOpening takes the later of the mean of well mixed water and the middle
	// of water that only conducts, the lower end of the tolerance, and the lag.
	LatestOpening Time
	Emptying      float64 // s, the drains at their Lift
	Margin        float64 // s, EarliestIce − the later of LatestOpening and Stroke − Emptying; 0 if NoIce or Unopened
	Coldest       float64 // °C, the lowest temperature of water at a wall before it freezes, in the tube or a fitting
	NoIce         bool    // nothing freezes before the power returns, or ever
	Unopened      bool    // ice comes, but the drains need not have opened before the end
	Hour          int     // index in Weather at which the power fails; more than 0 from [Night.Worst] alone
	Drainage      Drainage
	Events        []Event // in the order of their times
	Warm          bool    // whether layers as warm as the water were the worse ones, and not those of steady flow
	Conducting    History // the two limits of the water, followed until ice has begun and the drains are open: Closed is Never
	Mixed         History // the same; [Standing.Resolve] follows the ice
}

func (n Night) check(fn string) error {
	hours := 1e6
	if n.Cut == 0 {
		hours = endless / hydronics.Hour
	}
	errs := []error{
		hydronics.Within(fn, "start temperature", "°C", n.Start, math.SmallestNonzeroFloat64, 95, hydronics.Guard),
		hydronics.Within(fn, "setting of the drain valve", "°C", n.Setting.Opens, 0, 10, hydronics.Guard),
		hydronics.Within(fn, "tolerance of the drain valve", "K", n.Setting.Tolerance, 0, 5, hydronics.Guard),
		hydronics.Within(fn, "lag of the drain valve", "s", n.Setting.Lag, 0, 1e5, hydronics.Guard),
		hydronics.Within(fn, "lift of the drain valve", "", n.Setting.Lift, 0.01, 1, hydronics.Guard),
		hydronics.Within(fn, "stroke of the isolating valves", "s", n.Stroke, 0, 1e4, hydronics.Guard),
		hydronics.Within(fn, "hours of weather", "", float64(len(n.Weather)), 1, hours, hydronics.Guard),
	}
	if n.Cut != 0 {
		errs = append(errs, hydronics.Within(fn, "length of the cut", "s", n.Cut, 60, 1e8, hydronics.Guard))
	}
	for i := range n.Weather { // also what comes after the cut: the series is one
		if !n.Weather[i].valid() {
			return joined(append(errs, n.Weather[i].check(fn))...)
		}
	}
	return joined(errs...)
}

// endless is how long a night without end is followed, in s: three years, after
// which water in any tube that is built has the temperature it will keep.
const endless = 1e8

// lasting returns the weather of the cut. After a series that is shorter comes an
// hour that is no milder than any of its own.
func (n *Night) lasting() []Air {
	if hours := math.Ceil(n.Cut / hydronics.Hour); n.Cut != 0 && hours <= float64(len(n.Weather)) {
		return n.Weather[:int(hours)]
	}
	if len(n.Weather) == 1 {
		return n.Weather
	}
	return append(n.Weather[:len(n.Weather):len(n.Weather)], severest(n.Weather))
}

// severest returns the lowest temperature, the strongest wind and the clearest
// sky of the weather as one hour.
func severest(weather []Air) Air {
	worst := weather[0]
	for _, air := range weather[1:] {
		if air.Temperature < worst.Temperature {
			worst.Temperature, worst.PressureAbs = air.Temperature, air.PressureAbs
		}
		worst.Wind = max(worst.Wind, air.Wind)
		if air.Infrared != 0 && (worst.Infrared == 0 || air.Infrared < worst.Infrared) {
			worst.Infrared = air.Infrared
		}
	}
	return worst
}

// Run returns what comes of the night.
func (n Night) Run() (Outcome, error) {
	if err := n.check("frost.Night.Run"); err != nil {
		return Outcome{}, err
	}
	n.memory = new(workspace)
	d, err := n.empty()
	if err != nil {
		return Outcome{}, err
	}
	c, err := n.cool(true)
	if err != nil {
		return Outcome{}, err
	}
	o := n.outcome(&c, d)
	o.Events = n.events(&o)
	return o, nil
}

// empty lets the reach run out through the drains that the cold can open, at
// their lift, in water of 1 °C, the most viscous that has to leave.
func (n Night) empty() (Drainage, error) {
	water, err := fluid.Water().At(1)
	if err != nil {
		return Drainage{}, err
	}
	r := n.Reach.exposed().throttled(n.Setting.Lift)
	if r.Final == 0 {
		r.Final = 1e-3
	}
	d, err := r.Empty(water)
	if err != nil {
		return Drainage{}, err
	}
	for i := range d.Columns { // back to the indices of the caller
		point := r.Drains[d.Columns[i].Drain].Point
		d.Columns[i].Drain = n.Reach.drainAt(point)
	}
	return d, nil
}

// A cooldown is how the water of a night cools, wherever it runs.
type cooldown struct {
	ice     Time // as Outcome.EarliestIce
	fitting int
	opening Time // as Outcome.LatestOpening
	coldest float64
	kept    *histories // nil: forgotten
}

// histories are those of the tube.
type histories struct{ conducting, mixed History }

// cooldowns are the two nights of which the worse counts. They differ in what wall
// and insulation hold when the power fails: the same figure serves both terms of a
// margin.
type cooldowns struct {
	steady, warm cooldown
	matter       bool // otherwise warm is left out
}

// cool follows the water, with the histories of the tube if they are to be kept.
func (n *Night) cool(keep bool) (c cooldowns, err error) {
	const fn = "frost.Night.Run"
	steady := n.memory.steady[:0] // W/m that flow before, from the tube and from the fittings
	for i := range 1 + len(n.Fittings) {
		s := n.standing(i)
		if err := joined(s.check(fn), s.checkTogether(fn)); err != nil {
			return cooldowns{}, err
		}
		flow, err := s.Section.heatFlow(fn, n.Start, &n.Weather[0])
		if err != nil {
			return cooldowns{}, err
		}
		steady = append(steady, flow.PerMetre)
		c.matter = c.matter || s.Section.layersMatter(n.Medium, n.Start, flow)
	}
	n.memory.steady = steady
	if c.steady, err = n.from(steady, keep); err != nil || !c.matter {
		return c, err
	}
	clear(steady)
	c.warm, err = n.from(steady, keep)
	return c, err
}

// outcome is what the cooldowns come to for water that leaves as d says.
func (n *Night) outcome(c *cooldowns, d Drainage) Outcome {
	o := n.meets(&c.steady, d)
	if c.matter {
		if warm := n.meets(&c.warm, d); warm.worse(&o) {
			o = warm
			o.Warm = true
		}
	}
	return o
}

// standing is the water in the tube (0) or in a fitting (from 1 on) through the
// night, to the two moments that decide.
func (n *Night) standing(i int) Standing {
	s := Standing{Section: n.Section, Medium: n.Medium, Start: n.Start, Weather: n.lasting(), Until: n.Cut,
		brief: true, opens: n.Setting.Opens - n.Setting.Tolerance, memory: n.memory}
	if n.Cut == 0 {
		s.Until = endless
	}
	if i > 0 {
		s.Section, s.opens = n.Fittings[i-1], 0
	}
	return s
}

// layersMatter reports whether layers as warm as the water hold more than the
// ten-thousandth part of what the water holds over those in steady flow. Less
// moves no time by more than that part.
func (s *Section) layersMatter(m Medium, start float64, flow HeatFlow) bool {
	more, inner := 0.0, s.Bore
	below := s.film() * flow.PerMetre // K by which a layer's outside is colder than the water
	for i := range s.Layers {
		l := &s.Layers[i]
		outer := inner + 2*l.Thickness
		lambda := l.Conductivity + min(l.Slope*start, l.Slope*flow.Surface)
		below += flow.PerMetre * math.Log(outer/inner) / (2 * math.Pi * lambda)
		more += math.Abs(below) * l.HeatCapacity * math.Pi / 4 * (outer*outer - inner*inner)
		inner = outer
	}
	return more > 1e-4*m.content(s.Bore)*m.SpecificHeat*start
}

// from follows the night, the layers of tube and fittings in the steady profile of
// their heat flows; 0 for as warm as the water.
func (n *Night) from(steady []float64, keep bool) (cooldown, error) {
	c := cooldown{ice: Time{Never: true}, fitting: -1, opening: Time{Never: true}, coldest: math.Inf(1)}
	target := n.Setting.Opens - n.Setting.Tolerance
	for i, flow := range steady {
		s := n.standing(i)
		s.forget, s.begins = !keep || i > 0, new(outside)
		conducting, err := s.from(flow)
		if err != nil {
			return cooldown{}, err
		}
		c.coldest = min(c.coldest, conducting.coldest())
		middle := conducting.when(func(s State) float64 { return target - s.Centre }, false)
		s.Mixed = true // from here on the states of a conducting history that is forgotten are lost
		mixed, err := s.from(flow)
		if err != nil {
			return cooldown{}, err
		}
		c.coldest = min(c.coldest, mixed.coldest())
		first := earlier(conducting.FirstIce, mixed.FirstIce)
		if i > 0 {
			if first != c.ice && earlier(c.ice, first) == first {
				c.ice, c.fitting = first, i-1
			}
			continue
		}
		c.ice = first
		if keep {
			c.kept = &histories{conducting, mixed}
		}
		if mean := mixed.MeanTime(target); target > 0 && !mean.Never && !middle.Never {
			c.opening = Time{Seconds: max(mean.Seconds, middle.Seconds) + n.Setting.Lag}
		}
	}
	return c, nil
}

// meets sets the cold against the water that leaves.
func (n *Night) meets(c *cooldown, d Drainage) Outcome {
	o := Outcome{EarliestIce: c.ice, Fitting: c.fitting, LatestOpening: c.opening, Emptying: d.Time, Coldest: c.coldest,
		Drainage: d}
	if c.kept != nil {
		o.Conducting, o.Mixed = c.kept.conducting, c.kept.mixed
	}
	switch {
	case o.EarliestIce.Never:
		o.NoIce = true
	case o.LatestOpening.Never || !slices.ContainsFunc(n.Reach.Drains, n.Reach.feels):
		o.Unopened = true
	default:
		o.Margin = n.margin(&o)
	}
	return o
}

// margin is the time between the last water and the first ice. Emptying begins
// when the drains are open and the isolating valves closed.
func (n *Night) margin(o *Outcome) float64 {
	return o.EarliestIce.Seconds - max(o.LatestOpening.Seconds, n.Stroke) - o.Emptying
}

func earlier(a, b Time) Time {
	if a.Never || !b.Never && b.Seconds < a.Seconds {
		return b
	}
	return a
}

func (n *Night) events(o *Outcome) []Event {
	e := []Event{{0, PowerFails}, {n.Stroke, ValvesClosed}}
	add := func(t Time, what string) {
		if !t.Never {
			e = append(e, Event{t.Seconds, what})
		}
	}
	if slices.ContainsFunc(n.Reach.Drains, n.Reach.feels) {
		add(o.LatestOpening, DrainsOpen)
		add(Time{max(o.LatestOpening.Seconds, n.Stroke) + o.Emptying, o.LatestOpening.Never}, ReachEmpty)
	}
	add(earlier(o.Conducting.ReachedZero, o.Mixed.ReachedZero), WaterAtZero)
	add(earlier(o.Conducting.FirstIce, o.Mixed.FirstIce), FirstIceAtWall)
	if o.Fitting >= 0 {
		add(o.EarliestIce, FirstIceFitting)
	}
	if n.Cut > 0 {
		e = append(e, Event{n.Cut, PowerReturns})
	}
	for i := range e { // a handful: insertion keeps what happens together in its order
		for k := i; k > 0 && e[k].Time < e[k-1].Time; k-- {
			e[k], e[k-1] = e[k-1], e[k]
		}
	}
	return e
}

// Worst returns the hour of the weather at which the power must fail to leave
// the least margin, and the outcome then. Hours from which no ice comes count as
// best, the coldest water first; one from which ice comes and the drains need not
// open counts as worst. The hours after the end of the series are those of Weather.
func (n Night) Worst() (hour int, worst Outcome, err error) {
	if err := n.check("frost.Night.Worst"); err != nil {
		return 0, Outcome{}, err
	}
	d, err := n.empty()
	if err != nil {
		return 0, Outcome{}, err
	}
	series := n.Weather
	n.memory = new(workspace)
	for i := range series {
		n.Weather = series[i:]
		c, err := n.cool(true)
		if err != nil {
			return 0, Outcome{}, err
		}
		if o := n.outcome(&c, d); i == 0 || o.worse(&worst) {
			hour, worst = i, o
			worst.Hour = i
		}
	}
	worst.Events = n.events(&worst)
	return hour, worst, nil
}

func (o *Outcome) worse(than *Outcome) bool {
	rank := func(o *Outcome) int {
		switch {
		case o.NoIce:
			return 0
		case o.Unopened:
			return 2
		default:
			return 1
		}
	}
	a, b := rank(o), rank(than)
	switch {
	case a != b:
		return a > b
	case a == 0:
		return o.Coldest < than.Coldest
	case a == 2:
		return o.EarliestIce.Seconds < than.EarliestIce.Seconds
	default:
		return o.Margin < than.Margin
	}
}

// Kept reports whether water is out before ice comes: no ice at all, or a
// margin that is not negative and no water left behind.
func (o Outcome) Kept() bool {
	d := &o.Drainage
	return o.NoIce || !o.Unopened && o.Margin >= 0 && d.Held == 0 && d.Trapped == 0 && d.Level == 0
}

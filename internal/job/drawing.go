package job

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/dhw"
	"example.com/hydronics/frost"
)

// A Drawing is what the figures of the sheet are drawn from: numbers only, SI and
// °C, computed on demand because most sheets are never drawn.
type Drawing struct {
	Routes   []Elevation
	Pump     []Point // head over flow
	Systems  []SystemCurve
	Mixed    []MixedCurve
	Cases    []Mark    // the unit's operating points with circuits shut
	Cooling  []Cooling // standing water outdoors
	Cut      float64   // s; NaN: without end
	Pressure PressureCourse
	Day      *DayCourse // nil without a load profile
}

// A DayCourse is the cylinder through a day.
type DayCourse struct {
	Profile     string
	Top, Bottom []Point // °C over s after midnight
	Drawn       []Point // W at the taps
	Wanted      float64 // °C, stored
}

// A Point is a point of a curve.
type Point struct{ X, Y float64 }

// An Elevation is a route stretched out flat: plan distance from the unit along
// the tubes, height above the ground.
type Elevation struct {
	Name   string
	Line   string // supply | return
	Pieces []ElevationPiece
	Marks  []Mark
}

// An ElevationPiece is a part of a route that is wholly outdoors or wholly indoors.
type ElevationPiece struct {
	Points   []Point
	Outdoors bool
}

// A Mark is a device on a route.
type Mark struct {
	At   Point
	Kind string
}

// A SystemCurve is what the circuit takes over the flow, all flows in the
// proportions of the design.
type SystemCurve struct {
	Name   string
	Points []Point
	Design Point
}

// A MixedCurve is the circulator of a mixing group and what the group takes.
type MixedCurve struct {
	Pump   []Point
	System SystemCurve
}

// A Cooling is the temperature of standing water over time: the mean of the bore
// where it drains, and otherwise that of the lump, down to 0 °C.
type Cooling struct {
	Name   string
	Points []Point
	Events []NightEvent // of a line that drains
}

// A PressureCourse is the pressure at the vessel over the temperature.
type PressureCourse struct {
	Points                         []Point // empty: no vessel fits
	Precharge, Filling, Final, Set float64 // Pa gauge
	FilledAt                       float64 // °C
}

// Draw returns the drawing of a job that was assessed.
func Draw(j *Job, s *Sheet) (*Drawing, error) {
	p, err := resolve(j)
	if err != nil {
		return nil, err
	}
	d := &Drawing{Cut: j.Site.PowerCut, Routes: elevations(j.Routes)}
	for _, x := range j.Unit.Pump {
		d.Pump = append(d.Pump, Point{x.Flow, x.Head})
	}
	for _, c := range s.Cases {
		d.Cases = append(d.Cases, Mark{Point{c.UnitFlow, c.Pressure}, c.Name})
	}
	return d, errors.Join(p.drawSystems(d, s), p.drawMixed(d, s), p.drawCooling(d), p.drawPressure(d, s), p.drawDay(d))
}

// elevations stretches the routes out flat, the unit at zero: supplies count
// the plan from the unit on, returns what is left to it. Routes are chained where
// one begins at the point at which another ends.
func elevations(routes []Route) []Elevation {
	all := make([]Elevation, len(routes))
	for i := range routes {
		all[i] = elevation(&routes[i], offset(routes, &routes[i], len(routes)))
	}
	return all
}

// offset is the plan length between the unit and the nearer end of a route. The
// depth ends routes that run in a circle.
func offset(routes []Route, r *Route, depth int) float64 {
	if depth == 0 {
		return 0
	}
	for i := range routes {
		other := &routes[i]
		if other == r || other.Line != r.Line {
			continue
		}
		joined := other.end() == r.Start // a supply goes on
		if r.Line == "return" {
			joined = r.end() == other.Start
		}
		if joined {
			return offset(routes, other, depth-1) + other.plan()
		}
	}
	return 0
}

func (r *Route) end() [3]float64 { return r.Stretches[len(r.Stretches)-1].To }

func (r *Route) plan() float64 {
	length, from := 0.0, r.Start
	for i := range r.Stretches {
		to := r.Stretches[i].To
		length += math.Hypot(to[0]-from[0], to[1]-from[1])
		from = to
	}
	return length
}

func elevation(r *Route, offset float64) Elevation {
	e := Elevation{Name: r.Name, Line: r.Line}
	at, step, from := offset, 1.0, r.Start
	if r.Line == "return" {
		at, step = offset+r.plan(), -1
	}
	for i := range r.Stretches {
		s := &r.Stretches[i]
		n := len(e.Pieces)
		if n == 0 || e.Pieces[n-1].Outdoors != s.Outdoors {
			e.Pieces = append(e.Pieces, ElevationPiece{Points: []Point{{at, from[2]}}, Outdoors: s.Outdoors})
			n++
		}
		at += step * math.Hypot(s.To[0]-from[0], s.To[1]-from[1])
		from = s.To
		e.Pieces[n-1].Points = append(e.Pieces[n-1].Points, Point{at, from[2]})
		for _, d := range s.Devices {
			e.Marks = append(e.Marks, Mark{Point{at, from[2]}, d.Kind})
		}
	}
	return e
}

const curvePoints = 40

// drawSystems repeats the sums of judgeMode with the flows scaled.
func (p *plant) drawSystems(d *Drawing, s *Sheet) error {
	for i := range s.Modes {
		m := &s.Modes[i]
		c := SystemCurve{Name: m.Name, Design: Point{m.Flow, m.Required}}
		most := d.Pump[len(d.Pump)-1].X
		for k := 0; k <= curvePoints; k++ {
			flow := most * float64(k) / curvePoints
			required, err := p.required(m, flow)
			if err != nil {
				return err
			}
			c.Points = append(c.Points, Point{flow, required})
		}
		d.Systems = append(d.Systems, c)
	}
	return nil
}

// drawMixed does the same for the mixing groups.
func (p *plant) drawMixed(d *Drawing, s *Sheet) error {
	for i := range s.Mixed {
		line, m := &s.Mixed[i], &p.mixtures[i]
		c := MixedCurve{System: SystemCurve{Name: line.Name, Design: Point{line.Flow, line.Required}}}
		for _, x := range m.group.Pump {
			c.Pump = append(c.Pump, Point{x.Flow, x.Head})
		}
		most := c.Pump[len(c.Pump)-1].X
		for k := 0; k <= curvePoints; k++ {
			share := most * float64(k) / curvePoints / line.Flow
			required := (line.Valve + line.Others) * square(share)
			worst := 0.0
			for _, l := range m.loops {
				if share == 0 {
					break
				}
				loss, err := l.lossAt(share * l.flow)
				if err != nil {
					return err
				}
				worst = max(worst, loss.Total)
			}
			c.System.Points = append(c.System.Points, Point{share * line.Flow, required + worst})
		}
		d.Mixed = append(d.Mixed, c)
	}
	return nil
}

// required is what a mode takes at another flow than that of the design.
func (p *plant) required(m *Mode, flow float64) (float64, error) {
	if flow == 0 {
		return 0, nil
	}
	house := m.Name == ModeHouse
	outdoor, indoor, err := 0.0, 0.0, error(nil)
	if !house {
		outdoor, indoor, err = p.unitLosses(flow)
	}
	total, errs := outdoor+indoor, []error{err}
	for i := range p.pieces {
		if q := &p.pieces[i]; !house && q.flows(m.Name) {
			l, err := p.loss(q, flow)
			errs = append(errs, err)
			total += l.Total
		}
	}
	worst := 0.0
	if y := p.job.Cylinder; y != nil && m.Name == ModeHotWater {
		worst, err = knownLoss(y.CoilLoss, y.CoilFlow, flow, p.supplied)
		errs = append(errs, err)
	} else if house || !p.parted() {
		for i := range p.circuits {
			l := p.circuits[i] // a copy: the design's losses stay
			if l.mixture != nil {
				continue
			}
			loss, err := l.lossAt(l.flow * flow / m.Flow)
			errs = append(errs, err)
			worst = max(worst, loss.Total)
		}
	}
	return total + worst, errors.Join(errs...)
}

func (p *plant) drawCooling(d *Drawing) error {
	if !p.liquid.IsWater() {
		return nil
	}
	if err := p.exposeAll(); err != nil {
		return err
	}
	reaches := p.reaches()
	for i := range reaches {
		r := &reaches[i]
		draw := p.drawLump
		if len(r.frost.Drains) > 0 {
			draw = p.drawNight
		}
		c, err := draw(r)
		if err != nil {
			return err
		}
		c.Name = r.route.Name
		d.Cooling = append(d.Cooling, c)
	}
	return nil
}

// drawNight follows a line until its drain valves have opened and it is empty, or
// until ice could begin.
func (p *plant) drawNight(r *reach) (Cooling, error) {
	o, err := p.night(r).Run()
	if err != nil {
		return Cooling{}, err
	}
	c := Cooling{}
	end := 0.0
	for _, e := range o.Events {
		if e.What == frost.PowerReturns {
			continue
		}
		c.Events = append(c.Events, NightEvent{e.Time, e.What})
		end = max(end, e.Time)
	}
	if end < hydronics.Hour { // nothing happens: show the first day
		end = hydronics.Day
	}
	for _, state := range o.Mixed.States {
		if state.Time > end {
			break
		}
		c.Points = append(c.Points, Point{state.Time, state.Mean})
	}
	return c, nil
}

func (p *plant) drawLump(r *reach) (Cooling, error) {
	lump, err := r.section.Lump(frost.Water(), p.ret, p.air())
	if err != nil {
		return Cooling{}, err
	}
	to0, err := p.cools(lump, p.ret, 0)
	if err != nil {
		return Cooling{}, err
	}
	end := to0.Seconds
	if to0.Never {
		end = 2 * hydronics.Day
	}
	c := Cooling{}
	for k := 0; k <= curvePoints; k++ {
		t := end * float64(k) / curvePoints
		y, err := p.waterAfter(lump, t)
		if err != nil {
			return Cooling{}, err
		}
		c.Points = append(c.Points, Point{t, y})
	}
	return c, nil
}

// drawDay follows the cylinder through the worst day of its load profile.
func (p *plant) drawDay(d *Drawing) error {
	y := p.job.Cylinder
	if y == nil || y.Demand.Profile == "" {
		return nil
	}
	store, err := y.store(p.job.Site.ColdWater)
	if err != nil {
		return err
	}
	day, err := p.day(y, &store)
	if err != nil {
		return err
	}
	worst, err := day.Worst()
	if err != nil {
		return err
	}
	day.Days = worst.Day
	c := &DayCourse{Profile: y.Demand.Profile, Wanted: y.Stored}
	n := 0
	_, err = day.Run(func(state dhw.DayState) {
		if n++; n%5 == 0 || state.Wanted > 0 {
			c.Top = append(c.Top, Point{state.Time, state.Top})
			c.Bottom = append(c.Bottom, Point{state.Time, state.Bottom})
		}
		if state.Wanted > 0 {
			c.Drawn = append(c.Drawn, Point{state.Time, state.Wanted})
		}
	})
	d.Day = c
	return err
}

// waterAfter is the temperature of standing water after a time.
func (p *plant) waterAfter(l frost.Lump, time float64) (float64, error) {
	t, left := p.ret, time
	for i, air := range p.job.Site.Hourly {
		last := i == len(p.job.Site.Hourly)-1
		step := min(left, hydronics.Hour)
		if last {
			step = left
		}
		var err error
		if t, err = l.Temperature(step, t, air); err != nil {
			return math.NaN(), err
		}
		if left -= step; left <= 0 {
			return t, nil
		}
	}
	return l.Temperature(left, t, p.job.Site.Coldest)
}

func (p *plant) drawPressure(d *Drawing, s *Sheet) error {
	if s.Vessel.NoVessel != "" {
		return nil
	}
	v := &s.Vessel
	c := &d.Pressure
	c.Precharge, c.Filling, c.Final, c.Set, c.FilledAt = float64(v.Precharge), float64(v.Filling), float64(v.Final), float64(s.Relief.Set), v.FilledAt
	system := p.system()
	course, err := system.Course(vesselOf(v), v.Filling)
	if err != nil {
		return err
	}
	for k := 0; k <= curvePoints; k++ {
		t := system.Coldest + (system.Hottest-system.Coldest)*float64(k)/curvePoints
		state, err := course.At(t)
		if errors.Is(err, hydronics.ErrNoSolution) {
			break // the vessel is full
		}
		if err != nil {
			return err
		}
		c.Points = append(c.Points, Point{t, float64(state.Pressure)})
	}
	return nil
}

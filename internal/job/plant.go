package job

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// A plant is a job with its words resolved: tubes found, liquid made, flows and
// temperatures known.
type plant struct {
	job        *Job
	rules      rulebooks
	atmosphere float64 // Pa absolute
	liquid     fluid.Liquid
	pieces     []piece
	circuits   []loop
	mixtures   []mixture

	ret           float64          // °C, mixed from all circuits
	supplied      fluid.Properties // at the supply temperature
	returned      fluid.Properties // at the mixed return temperature
	heat          float64          // W, of all circuits
	heatingFlow   float64          // m³/s that all circuits draw; of those behind a mixing valve only what it draws
	straightFlow  float64          // m³/s of the circuits without a mixing valve
	neverShutFlow float64          // m³/s, design flow of the circuits that nothing shuts
	content       Content
	nights        nights
}

// A piece is a stretch, or several in a row that differ in nothing.
type piece struct {
	route      *Route
	tube       pipe.Tube
	insulation Insulation
	outdoors   bool
	length     float64
	zeta       float64
	valves     []pipe.Kv // of the devices, one after the other
	greatest   float64   // m³/s, of the flows of the modes; NaN before they are judged
	loss       pipe.Loss // at that flow
	exposure   Exposure  // of an outdoor piece, once it is judged
}

// A loop is a circuit of the distributor.
type loop struct {
	circuit *Circuit
	tube    pipe.Tube
	flow    float64
	liquid  fluid.Properties // at the mean of supply and return
	loss    pipe.Loss
	mixture *mixture // that supplies it, or nil
}

// resolve finds what the words of a job stand for. What cannot be found is a
// fault with its path.
func resolve(j *Job) (*plant, error) {
	p := new(plant)
	if err := p.resolve(j); err != nil {
		return nil, err
	}
	return p, nil
}

// resolve fills the plant from a job. It keeps the room that its lists have taken
// for the job before, and nothing else.
func (p *plant) resolve(j *Job) error {
	*p = plant{job: j, rules: jurisdictions[j.Jurisdiction], pieces: p.pieces[:0], circuits: p.circuits[:0]}
	var f Faults
	p.liquid = resolveLiquid(&j.Liquid, &f)
	checkWarm(j, p.liquid, &f)
	p.resolveRoutes(&f)
	p.resolveCircuits(&f)
	checkUnit(&j.Unit, j.Cylinder != nil, &f)
	p.checkInlet(&f)
	checkDevices(j, &f)
	checkBuffer(j.Buffer, p.straight() > 0, &f)
	if c := j.Cylinder; c != nil {
		checkCylinder(c, &f)
	}
	if err := f.err(); err != nil {
		return err
	}
	var err error
	if p.atmosphere, err = fluid.AtmosphericPressure(j.Site.Altitude); err != nil {
		return err
	}
	if err := p.findFlows(); err != nil {
		return err
	}
	p.countContent()
	return nil
}

func resolveLiquid(l *Filling, f *Faults) fluid.Liquid {
	mass, volume := !math.IsNaN(l.Mass), !math.IsNaN(l.Volume)
	if l.Kind == "water" {
		if mass || volume {
			*f = append(*f, Fault{"liquid", "a concentration of water", "no mass_percent and no volume_percent with water"})
		}
		return fluid.Water()
	}
	solute, known := fluid.ParseSolute(l.Kind)
	if !known || mass == volume {
		*f = append(*f, Fault{"liquid", "neither or both of mass_percent and volume_percent", "one of the two"})
		return fluid.Liquid{}
	}
	made, err := solute.ByMass(l.Mass)
	if volume {
		made, err = solute.ByVolume(l.Volume)
	}
	if err != nil {
		*f = append(*f, Fault{"liquid", err.Error(), "a concentration that " + l.Kind + " has data for"})
	}
	return made
}

func (p *plant) resolveRoutes(f *Faults) {
	if len(p.job.Routes) == 0 {
		*f = append(*f, Fault{"routes", "nothing", "at least one route of the supply and one of the return"})
	}
	p.pieces = slices.Grow(p.pieces, 2*len(p.job.Routes)) // most routes are one piece outdoors and one indoors at most
	supply, ret := false, false
	for i := range p.job.Routes {
		r := &p.job.Routes[i]
		supply, ret = supply || r.Line == "supply", ret || r.Line == "return"
		path := place{"routes", i, "", 0}
		tube := findTube(r.Tube, path, f)
		insulation := Insulation{}
		if r.Insulation != nil {
			insulation = *r.Insulation
		}
		if len(r.Stretches) == 0 {
			*f = append(*f, Fault{path.String() + ".stretches", "nothing", "at least one stretch"})
		}
		from := r.Start
		for k := range r.Stretches {
			s := &r.Stretches[k]
			path := place{"routes", i, "stretches", k}
			if s.Tube != "" {
				tube = findTube(s.Tube, path, f)
			}
			if s.Insulation != nil {
				insulation = *s.Insulation
			}
			length := distance(from, s.To)
			if length == 0 {
				*f = append(*f, Fault{path.String() + ".to_m", "the point where the stretch begins", "another point"})
			}
			n := len(p.pieces)
			if n == 0 || p.pieces[n-1].route != r || p.pieces[n-1].tube.Designation != tube.Designation ||
				p.pieces[n-1].insulation != insulation || p.pieces[n-1].outdoors != s.Outdoors {
				p.pieces = append(p.pieces, piece{route: r, tube: tube, insulation: insulation, outdoors: s.Outdoors, greatest: math.NaN()})
				n++
			}
			last := &p.pieces[n-1]
			last.length += length
			last.zeta += s.Zeta
			for _, d := range s.Devices {
				if inLine(d.Kind) && !math.IsNaN(d.Kv) {
					last.valves = append(last.valves, pipe.Kv(d.Kv))
				}
			}
			from = s.To
		}
	}
	if len(p.job.Routes) > 0 && !(supply && ret) {
		*f = append(*f, Fault{"routes", "no route of the supply or none of the return", "at least one of each"})
	}
}

// inLine reports whether the liquid of the circuit flows through the device.
func inLine(kind string) bool {
	switch kind {
	case airInlet, ventAutomatic, ventManual, drainThermostatic, "drain cock", "fill connection", reliefDevice:
		return false
	}
	return true
}

func distance(a, b [3]float64) float64 {
	return math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2])
}

// A place in the file, put into words only where there is a fault.
type place struct {
	list  string
	index int
	inner string // a list in it, or ""
	at    int
}

func (p place) String() string {
	s := fmt.Sprintf("%s[%d]", p.list, p.index)
	if p.inner != "" {
		s += fmt.Sprintf(".%s[%d]", p.inner, p.at)
	}
	return s
}

func findTube(designation string, path place, f *Faults) pipe.Tube {
	t, err := pipe.Find(designation)
	if err != nil {
		accepted := "a designation of the catalogue, such as EN 1057 28x1.5 or EN ISO 15875 S5 16x1.5"
		if near := pipe.Search(designation); len(near) > 0 {
			accepted += "; near it: " + near[0].Designation
		}
		*f = append(*f, Fault{path.String() + ".tube", fmt.Sprintf("%q", designation), accepted})
	}
	return t
}

func (p *plant) resolveCircuits(f *Faults) {
	d := &p.job.Distribution
	if len(d.Circuits) == 0 {
		*f = append(*f, Fault{"distribution.circuits", "nothing", "at least one circuit"})
	}
	p.circuits = slices.Grow(p.circuits, len(d.Circuits))
	for i := range d.Circuits {
		c := &d.Circuits[i]
		path := place{"distribution.circuits", i, "", 0}
		p.circuits = append(p.circuits, loop{circuit: c, tube: findTube(c.Tube, path, f)})
	}
	p.resolveMixing(f)
	for i := range p.circuits {
		l := &p.circuits[i]
		if supply, key := p.supplyOf(l); !(l.circuit.Return <= supply-1) {
			*f = append(*f, Fault{place{"distribution.circuits", i, "", 0}.String() + ".return_c", trim(l.circuit.Return), "at least 1 K below " + key})
		}
	}
}

func checkUnit(u *Unit, hotWater bool, f *Faults) {
	checkCurve(u.Pump, "outdoor_unit.pump_curve", f)
	if u.GreatestOutput < u.Output {
		*f = append(*f, Fault{"outdoor_unit.greatest_output_kw", trim(u.GreatestOutput / hydronics.Kilowatt), "at least output_kw"})
	}
	if hotWater && math.IsNaN(u.HotWaterFlow) {
		*f = append(*f, Fault{"outdoor_unit.hot_water_flow_l_min", "nothing", "a flow, since there is a cylinder"})
	}
}

func checkCurve(curve []PumpPoint, path string, f *Faults) {
	if len(curve) < 3 {
		*f = append(*f, Fault{path, fmt.Sprintf("%d points", len(curve)), "three points or more"})
		return
	}
	if curve[0].Flow != 0 {
		*f = append(*f, Fault{path + "[0].flow_l_min", trim(curve[0].Flow / hydronics.LitrePerMinute), "0, the head without flow"})
	}
	for i := 1; i < len(curve); i++ {
		if a, b := curve[i-1], curve[i]; !(b.Flow > a.Flow && b.Head < a.Head) {
			*f = append(*f, Fault{fmt.Sprintf("%s[%d]", path, i), "a flow that is not higher or a head that is not lower than before",
				"points with rising flow and falling head"})
		}
	}
}

func checkDevices(j *Job, f *Faults) {
	for i := range j.Routes {
		for k := range j.Routes[i].Stretches {
			for n, d := range j.Routes[i].Stretches[k].Devices {
				if d.Kind == drainThermostatic && math.IsNaN(d.Kv) {
					path := place{"routes", i, "stretches", k}
					*f = append(*f, Fault{fmt.Sprintf("%v.devices[%d].kv_m3_h", path, n), "nothing", "the flow out of the drain valve at 1 bar"})
				}
			}
		}
	}
}

func checkBuffer(b *Buffer, straight bool, f *Faults) {
	if b == nil || b.Joined != between {
		return
	}
	if straight {
		checkCurve(b.Pump, "buffer.house_pump_curve", f)
	}
	if math.IsNaN(b.Flow) {
		*f = append(*f, Fault{"buffer.unit_flow_l_min", "nothing", "a flow, since the buffer stands between"})
	}
}

// between is the buffer that parts the unit's water from the house's.
const between = "between"

func checkCylinder(c *Cylinder, f *Faults) {
	if len(c.Power) == 0 {
		*f = append(*f, Fault{"cylinder.charging_power", "nothing", "at least one point"})
	}
	for i := 1; i < len(c.Power); i++ {
		if !(c.Power[i].Store > c.Power[i-1].Store) {
			*f = append(*f, Fault{fmt.Sprintf("cylinder.charging_power[%d].store_c", i), trim(c.Power[i].Store), "more than in the point before"})
		}
	}
	if !(c.Hottest >= c.Stored) {
		*f = append(*f, Fault{"cylinder.hottest_c", trim(c.Hottest), "at least stored_c"})
	}
	if !(c.Demand.ReheatFrom < c.Stored) {
		*f = append(*f, Fault{"cylinder.demand.reheat_from_c", trim(c.Demand.ReheatFrom), "less than cylinder.stored_c"})
	}
	if !(c.Demand.Mixed <= c.Stored) {
		*f = append(*f, Fault{"cylinder.demand.mixed_c", trim(c.Demand.Mixed), "at most cylinder.stored_c"})
	}
}

// straight is how many circuits no mixing valve supplies.
func (p *plant) straight() int {
	n := 0
	for i := range p.circuits {
		if p.circuits[i].mixture == nil {
			n++
		}
	}
	return n
}

// parted reports whether a buffer parts the unit's water from the house's.
func (p *plant) parted() bool { return p.job.Buffer != nil && p.job.Buffer.Joined == between }

// findFlows gives every circuit the flow that carries its heat, and mixes the
// returns.
func (p *plant) findFlows() error {
	var err, err1, err2 error
	weighted := 0.0
	for i := range p.circuits {
		l := &p.circuits[i]
		c := l.circuit
		supply, _ := p.supplyOf(l)
		l.flow, err1 = pipe.FlowForHeat(c.Heat, supply, c.Return, p.liquid)
		l.liquid, err2 = p.liquid.At((supply + c.Return) / 2)
		err = errors.Join(err, err1, err2)
		p.heat += c.Heat
		if l.mixture != nil {
			continue
		}
		p.straightFlow += l.flow
		weighted += l.flow * c.Return
		if !c.Shuts {
			p.neverShutFlow += l.flow
		}
	}
	p.heatingFlow = p.straightFlow
	for i := range p.mixtures {
		m := &p.mixtures[i]
		err = errors.Join(err, p.findMixture(m))
		p.heatingFlow += m.drawn
		weighted += m.drawn * m.ret
	}
	p.ret = weighted / p.heatingFlow
	p.supplied, err1 = p.liquid.At(p.job.Unit.Supply)
	p.returned, err2 = p.liquid.At(p.ret)
	return errors.Join(err, err1, err2)
}

func (p *plant) countContent() {
	c := &p.content
	c.Unit = p.job.Unit.Content
	c.Distributor = p.job.Distribution.Content
	if x := p.job.Indoor; x != nil {
		c.Indoor = x.Content
	}
	c.Always = c.Unit + c.Indoor + c.Distributor
	for i := range p.pieces {
		v := p.pieces[i].tube.Content() * p.pieces[i].length
		c.Tubes += v
		if p.pieces[i].route.Serves != "hot water" {
			c.Always += v
		}
	}
	for i := range p.circuits {
		l := &p.circuits[i]
		v := l.tube.Content()*l.circuit.Length + l.circuit.Content
		c.Circuits += v
		if !l.circuit.Shuts && l.mixture == nil { // a mixing valve may draw nothing
			c.Always += v
		}
	}
	for i := range p.mixtures {
		c.Mixing += p.mixtures[i].group.Content
	}
	if y := p.job.Cylinder; y != nil {
		c.Coil = y.CoilContent
	}
	if b := p.job.Buffer; b != nil {
		c.Buffer = b.Content
		c.Always += b.Content
		if b.Joined == between { // the circuits may rest while the unit runs
			c.Always = c.Unit + c.Indoor + c.Buffer
			for i := range p.pieces {
				if p.pieces[i].route.Serves != "hot water" {
					c.Always += p.pieces[i].tube.Content() * p.pieces[i].length
				}
			}
		}
	}
	c.Total = c.Unit + c.Indoor + c.Distributor + c.Tubes + c.Circuits + c.Mixing + c.Coil + c.Buffer
}

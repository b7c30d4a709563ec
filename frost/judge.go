package frost

import (
	"math"
	"slices"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
)

var (
	physics = hydronics.Source{Text: "resolved conduction with phase change, bounded on both sides (Voller and Cross 1981); " +
		"ASHRAE Fundamentals 2021, chapter 23, for the cooling of standing water", Provenance: hydronics.SecondHand}
	bubbles = hydronics.Source{Text: "air that rises against the water, after Nicklin 1962", Provenance: hydronics.FromMemory}
	shape   = hydronics.Source{Text: "gravity: water leaves a place if it can run to an outlet without rising", Provenance: hydronics.Original}
	custom  = hydronics.Source{Text: "installation of thermostatic drain valves", Provenance: hydronics.CommonPractice}
)

const (
	bursts = "frozen water bursts the tube, and the thaw floods"
	blocks = "slush blocks the tube, and a pump that starts runs dry"
)

// Doubts are the uncertainties with which [Night.Findings] judges a margin,
// each as what the figure may be off by.
type Doubts struct {
	Air          float64 // K of the outdoor temperature, 0 to 20
	Conductivity float64 // share of the insulation's, 0 to 0.9: moisture and ageing
	Surface      float64 // share of the coefficient outside, 0 to 0.9
	Kv           float64 // share of the drain valves', 0 to 0.9
}

// CommonDoubts returns 1 K, 10 %, 25 % and 20 %. Source: common practice.
func CommonDoubts() Doubts { return Doubts{Air: 1, Conductivity: 0.1, Surface: 0.25, Kv: 0.2} }

// Findings judges an outcome of the night, from [Night.Run] or [Night.Worst]. The
// uncertainty of the margin is the root sum of squares of what each doubt alone
// moves it by: the night is followed anew for those about the cold. Of the drain
// valves' it is taken that emptying lasts as much longer as the valves pass less,
// which is the most it can: the water passes the tube with less friction. The times
// of ice and of opening each add what the method may be off by (see
// [Standing.Tolerance]).
func (n Night) Findings(o Outcome, doubts Doubts) ([]hydronics.Finding, error) {
	if err := joined(n.check("frost.Night.Findings"), doubts.check()); err != nil {
		return nil, err
	}
	if !(o.Hour >= 0 && o.Hour < len(n.Weather)) {
		return nil, hydronics.Within("frost.Night.Findings", "hour of the outcome", "", float64(o.Hour), 0, float64(len(n.Weather)-1), "the hours of weather")
	}
	n.Weather = n.Weather[o.Hour:]
	n.memory = new(workspace)
	return n.findings(&o, &doubted{night: n, doubts: doubts})
}

func (d Doubts) check() error {
	const fn = "frost.Night.Findings"
	return joined(
		hydronics.Within(fn, "doubt about the air", "K", d.Air, 0, 20, hydronics.Guard),
		hydronics.Within(fn, "doubt about the conductivity", "", d.Conductivity, 0, 0.9, hydronics.Guard),
		hydronics.Within(fn, "doubt about the surface", "", d.Surface, 0, 0.9, hydronics.Guard),
		hydronics.Within(fn, "doubt about the drain valves", "", d.Kv, 0, 0.9, hydronics.Guard))
}

func (n *Night) findings(o *Outcome, doubts *doubted) ([]hydronics.Finding, error) {
	f := hydronics.Finding{Subject: "outdoor section", Danger: bursts, Bound: hydronics.AtLeast, Source: physics}
	measure := func(o *Outcome) float64 { return o.Margin }
	if o.NoIce {
		f.Rule, f.Quantity, f.Unit = "no ice forms before the power returns", "coldest water", "°C"
		measure = func(o *Outcome) float64 { return o.Coldest }
	} else {
		f.Rule, f.Quantity, f.Unit = "the water is out before the first ice", "time between the last water and the first ice", "s"
		// The verdict is as good as the least confirmed of what it rests on.
		if !n.Setting.Source.Provenance.Confirmed() {
			f.Source = n.Setting.Source
		}
		for _, c := range o.Drainage.Columns {
			if c.Admission == Bubbling {
				f.Source = bubbles
			}
		}
	}
	f.Value = measure(o)
	if o.Unopened {
		f.Value = -o.EarliestIce.Seconds // ice that nothing forestalls
	} else {
		var err error
		if f.Uncertainty, err = n.doubt(o, doubts, measure); err != nil {
			return nil, err
		}
	}
	findings := append(make([]hydronics.Finding, 0, 10), f.Judge())
	if !o.NoIce && len(n.Reach.Drains) > 0 {
		findings = append(findings,
			volume("no water stays in pockets", o.Drainage.Trapped, shape),
			volume("air follows the water, so that it can leave", o.Drainage.Held, shape))
		if o.Drainage.Level > 0 {
			findings = append(findings, volume("no tube lies level at a drain valve", o.Drainage.Level, shape))
		}
		if slices.ContainsFunc(n.Reach.Drains, func(d Drain) bool { return !n.Reach.feels(d) }) {
			findings = append(findings, hydronics.Statement("every drain valve stands outdoors, where the cold opens it",
				"outdoor section", false, custom, bursts))
		}
		if o.Drainage.Bridged {
			findings = append(findings, hydronics.OnSite("water does not hang in the narrow bore", "outdoor section",
				hydronics.Source{Text: "surface tension in tubes below 5 mm upright, 9 mm level", Provenance: hydronics.FromMemory}, bursts))
		}
	}
	if len(n.Fittings) == 0 {
		findings = append(findings, hydronics.OnSite("no valve, bracket or passage of a wall is less insulated than the tube",
			"valves and brackets outdoors", custom, bursts))
	}
	if n.windless() {
		findings = append(findings, hydronics.OnSite("no wind reaches the section: the weather judged has none",
			"site", custom, bursts))
	}
	return append(findings,
		hydronics.OnSite("heat exchanger, pump and strainer of the unit drain or are protected by it", "outdoor unit", custom, bursts),
		hydronics.OnSite("after draining the unit stays locked until refilled by hand and vented", "outdoor unit", custom, blocks)), nil
}

// windless reports whether a coefficient is computed that wind would raise, and
// none is given.
func (n *Night) windless() bool {
	given := n.Section.Surface.Method == Given
	for i := range n.Fittings {
		given = given && n.Fittings[i].Surface.Method == Given
	}
	return !given && severest(n.Weather).Wind == 0
}

func volume(rule string, v float64, source hydronics.Source) hydronics.Finding {
	return hydronics.Finding{Rule: rule, Subject: "outdoor section", Danger: bursts, Quantity: "water that stays", Unit: "m³",
		Bound: hydronics.AtMost, Value: v, Limit: 0, Source: source}.Judge()
}

// resolvedWithin is the part by which a resolved time before ice may be off, as
// [Standing.Tolerance] states it.
const resolvedWithin = 0.014

// A doubted is a night as it cools with each of the doubts about the cold, one after
// the other, followed when it is first asked for.
type doubted struct {
	night    Night
	doubts   Doubts
	with     [3]cooldowns
	followed int
}

// cool returns how the water cools with a doubt.
func (d *doubted) cool(doubt int) (*cooldowns, error) {
	if doubt < d.followed {
		return &d.with[doubt], nil
	}
	n := d.night
	switch doubt {
	case 0:
		n.Weather = warmer(n.Weather, -d.doubts.Air)
	case 1:
		n.scale(1+d.doubts.Conductivity, 1)
	default:
		n.scale(1, 1+d.doubts.Surface)
	}
	var err error
	if d.with[doubt], err = n.cool(false); err != nil {
		return nil, err
	}
	d.followed = doubt + 1
	return &d.with[doubt], nil
}

// scale is [Section.scaled] for the tube and its fittings.
func (n *Night) scale(conductivity, surface float64) {
	n.Section = n.Section.scaled(conductivity, surface)
	n.Fittings = slices.Clone(n.Fittings)
	for i := range n.Fittings {
		n.Fittings[i] = n.Fittings[i].scaled(conductivity, surface)
	}
}

// doubt returns the uncertainty of what is measured on the outcome.
func (n *Night) doubt(o *Outcome, d *doubted, measure func(*Outcome) float64) (float64, error) {
	var squares float64
	for i := range d.with {
		cooled, err := d.cool(i)
		if err != nil {
			return math.NaN(), err
		}
		with := n.outcome(cooled, o.Drainage) // the cold does not change how the reach runs out
		if with.Unopened || with.NoIce != o.NoIce {
			return 2*math.Abs(measure(o)) + 1, nil // the doubt alone turns the verdict
		}
		move := measure(&with) - measure(o)
		squares += move * move
	}
	if !o.NoIce { // nor does the valve change how the water cools
		move := o.Emptying * (1/(1-d.doubts.Kv) - 1)
		ice, opening := resolvedWithin*o.EarliestIce.Seconds, resolvedWithin*o.LatestOpening.Seconds
		squares += move*move + ice*ice + opening*opening
	}
	return math.Sqrt(squares), nil
}

func warmer(weather []Air, by float64) []Air {
	changed := append([]Air(nil), weather...)
	for i := range changed {
		changed[i].Temperature = max(-90, min(60, changed[i].Temperature+by))
	}
	return changed
}

// scaled multiplies the conductivity of everything that insulates, and the
// coefficient outside, for which wind has to stand where it is computed.
func (s Section) scaled(conductivity, surface float64) Section {
	s.Layers = append([]Layer(nil), s.Layers...)
	for i := range s.Layers {
		if s.Layers[i].Conductivity <= 1 {
			s.Layers[i].Conductivity *= conductivity
			s.Layers[i].Slope *= conductivity
		}
	}
	if s.Surface.Method == Given {
		s.Surface.Coefficient *= surface
	} else {
		s.Surface.scale = surface
	}
	return s
}

func (r Reach) throttled(by float64) Reach {
	r.Drains = append([]Drain(nil), r.Drains...)
	for i := range r.Drains {
		r.Drains[i].Kv *= pipe.Kv(by)
	}
	return r
}

// A Remedy is a change to the installation and what it does to the night.
type Remedy struct {
	Change  string
	Outcome Outcome
}

// Remedies returns the changes that could help, each tried alone: twice the
// insulation on the tube, insulation as on the tube on the fittings, drain
// valves of twice the Kv, air inlets at all high points. Changes that do not
// apply are left out.
func (n Night) Remedies() ([]Remedy, error) {
	if err := n.check("frost.Night.Remedies"); err != nil {
		return nil, err
	}
	type change struct {
		name string
		make func(*Night) bool
	}
	var remedies []Remedy
	for _, c := range [...]change{
		{"twice the insulation on the tube", func(n *Night) bool {
			n.Section.Layers = append([]Layer(nil), n.Section.Layers...)
			for i := range n.Section.Layers {
				if l := &n.Section.Layers[i]; l.Conductivity <= 0.2 {
					l.Thickness *= 2
					return true
				}
			}
			return false
		}},
		{"fittings insulated as the tube", func(n *Night) bool {
			had := len(n.Fittings) > 0
			n.Fittings = nil
			return had
		}},
		{"drain valves of twice the flow coefficient", func(n *Night) bool {
			n.Reach = n.Reach.throttled(2)
			return len(n.Reach.Drains) > 0
		}},
		{"air inlets at all high points", func(n *Night) bool {
			survey, err := n.Reach.Route.Survey()
			if err != nil || len(n.Reach.Drains) == 0 {
				return false
			}
			n.Reach.Vents = append([]int(nil), n.Reach.Vents...)
			for _, p := range survey.HighPoints {
				n.Reach.Vents = append(n.Reach.Vents, p.From)
			}
			return true
		}},
	} {
		other := n
		if !c.make(&other) {
			continue
		}
		o, err := other.Run()
		if err != nil {
			return nil, err
		}
		remedies = append(remedies, Remedy{c.name, o})
	}
	return remedies, nil
}

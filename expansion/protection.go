package expansion

import (
	"errors"
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
)

// A Fitting is something in the way between a heat source and its relief valve.
type Fitting uint8

// The fittings, as far as it matters for a relief valve whether they can close.
const (
	OpenPipe        Fitting = iota // tube, bend, tee, air separator, sensor pocket
	IsolatingValve                 // by hand, even with its lever removed
	SecuredValve                   // by hand, sealed or locked open
	NonReturnValve                 // opens towards the relief valve
	AutomaticValve                 // zone, mixing, diverting, thermostatic, normally closed frost or drain isolation
	Strainer                       // can block
	PressureReducer                // closes by design
	QuickDisconnect                // closes by itself
	lastFitting
)

var fittingNames = [...]string{"open pipe", "isolating valve", "secured valve", "non-return valve",
	"automatic valve", "strainer", "pressure reducer", "self-closing coupling"}

// String returns the fitting in words, such as "isolating valve".
func (f Fitting) String() string {
	if f < lastFitting {
		return fittingNames[f]
	}
	return "unknown fitting"
}

// A Protection is a heating circuit with its relief valves, to be judged.
type Protection struct {
	Sources    []HeatSource    // every source that can heat the circuit
	Lowest     hydronics.Gauge // Pa gauge, lowest rated pressure of all that sees the circuit's pressure, 0.5 to 25 bar
	Valves     []Valve         // those that share the duty, one or more
	Inlet      Line            // to each valve
	Outlet     Line            // from each valve
	Between    []Fitting       // what lies between the heat sources and the valves
	Atmosphere float64         // Pa absolute, 0: the standard atmosphere
	Rules      ReliefRules
}

// ReliefRules are the limits for a relief valve and its lines. The zero value is refused.
type ReliefRules struct {
	Name          string
	PressureRise  Setting // overpressure at full discharge above the rating, share
	InletLoss     Setting // of the set pressure
	OutletLoss    Setting // of the set pressure
	MostValves    Setting // number that may share the duty
	SmallestShare Setting // of the whole capacity, for the smallest of several
	LeastDN       Setting // m, nominal size
}

// EN12828Relief returns the requirements of EN 12828:2003 on relief valves, as a
// product manual quotes them: full discharge at no more than 10 % above the rating,
// losses of 3 % before and 10 % behind the valve, at most three valves with at least
// 40 % for the smallest, DN 15 at least.
// Source: EN 12828:2003, as quoted in a product manual and by a German installers' page.
func EN12828Relief() ReliefRules {
	quoted := hydronics.Source{Text: "EN 12828:2003, requirements on relief valves, as quoted in a product manual", Provenance: hydronics.SecondHand}
	several := hydronics.Source{Text: "EN 12828:2003, several relief valves, as quoted on a German installers' reference page", Provenance: hydronics.SecondHand}
	return ReliefRules{
		Name:          "EN 12828:2003",
		PressureRise:  Setting{10 * hydronics.Percent, quoted},
		InletLoss:     Setting{3 * hydronics.Percent, quoted},
		OutletLoss:    Setting{10 * hydronics.Percent, quoted},
		MostValves:    Setting{3, several},
		SmallestShare: Setting{40 * hydronics.Percent, several},
		LeastDN:       Setting{15 * hydronics.Millimetre, quoted},
	}
}

// A Relief is a protection worked out.
type Relief struct {
	Heat       float64       // W, of all sources
	Capacity   float64       // W, of all valves in steam
	Valves     []SteamRelief // each valve
	InletLoss  []float64     // Pa, each valve; all of the opening pressure where steam would have to outrun sound
	OutletLoss []float64     // Pa, each valve; likewise
}

// Relief works p out: heat that can come, heat that the valves can let go as
// steam, losses in the lines at full discharge.
func (p Protection) Relief() (Relief, error) {
	const fn = "expansion.Protection"
	heat, err := TotalOutput(p.Sources...)
	if p.Rules.Name == "" {
		err = errors.Join(err, fmt.Errorf("%s: no rules chosen, want for example expansion.EN12828Relief(): %w", fn, hydronics.ErrRange))
	}
	if len(p.Valves) == 0 {
		err = errors.Join(err, fmt.Errorf("%s: no relief valve given: %w", fn, hydronics.ErrRange))
	}
	err = errors.Join(err, hydronics.Within(fn, "lowest rated pressure", "Pa", float64(p.Lowest), 0.5*hydronics.Bar, 25*hydronics.Bar, hydronics.Guard))
	for _, f := range p.Between {
		if f >= lastFitting {
			err = errors.Join(err, fmt.Errorf("%s: unknown fitting %d: %w", fn, f, hydronics.ErrRange))
		}
	}
	if err != nil {
		return Relief{}, err
	}
	patm, err := atmosphere(fn, p.Atmosphere)
	if err != nil {
		return Relief{}, err
	}
	r := Relief{Heat: heat}
	outside, err := saturated(fn, patm)
	if err != nil {
		return Relief{}, err
	}
	for _, v := range p.Valves {
		s, inside, err := v.steam(0, patm)
		if err != nil {
			return Relief{}, err
		}
		in, err := lossOrAll(p.Inlet, &v, s.MassFlow, inside)
		if err != nil {
			return Relief{}, fmt.Errorf("inlet: %w", err)
		}
		out, err := lossOrAll(p.Outlet, &v, s.MassFlow, outside.Steam)
		if err != nil {
			return Relief{}, fmt.Errorf("outlet: %w", err)
		}
		r.Valves = append(r.Valves, s)
		r.Capacity += s.Heat
		r.InletLoss = append(r.InletLoss, in)
		r.OutletLoss = append(r.OutletLoss, out)
	}
	return r, nil
}

// lossOrAll is the loss of a line; one too narrow for the flow even at the speed of
// sound takes the whole opening pressure, so that it is judged and not an error.
func lossOrAll(l Line, v *Valve, massFlow float64, s fluid.State) (float64, error) {
	loss, err := l.Loss(massFlow, s)
	if errors.Is(err, hydronics.ErrNoSolution) {
		return float64(v.open()), nil
	}
	return loss, err
}

// Judge judges p: capacity, set pressure against the weakest component, number and
// shares of the valves, losses of their lines, and that nothing between the heat
// sources and the valves can close. The outlet's end is left to be seen on site.
// The first finding is that of the capacity, with the Capacity of [Protection.Relief]
// as its value.
func (p Protection) Judge() ([]hydronics.Finding, error) {
	r, err := p.Relief()
	if err != nil {
		return nil, err
	}
	const burst = "a heat source that boils against a closed circuit can burst"
	steam := hydronics.Source{Text: "VdTÜV Merkblatt Sicherheitsventil 100 and TRD 721: the whole heat output as steam; flow after ISO 4126-7", Provenance: hydronics.SecondHand}
	share := func(rule string, value, limit float64, b hydronics.Bound, source hydronics.Source, danger string) hydronics.Finding {
		return hydronics.Finding{Rule: rule, Subject: "relief valve", Danger: danger, Quantity: "share", Bound: b,
			Value: value, Limit: limit, Source: source}.Judge()
	}
	findings := append(make([]hydronics.Finding, 0, 9+len(p.Valves)),
		hydronics.Finding{Rule: "the relief valves can let the whole heat output go as steam", Subject: "relief valve", Danger: burst,
			Quantity: "heat output", Unit: "W", Bound: hydronics.AtLeast, Value: r.Capacity, Limit: r.Heat, Source: steam}.Judge())
	var highest hydronics.Gauge // set
	var rise, in, out float64
	smallest := r.Capacity
	for i, v := range p.Valves {
		highest = max(highest, v.Set)
		rise = max(rise, float64(v.open())/float64(p.Lowest)-1)
		in = max(in, r.InletLoss[i]/float64(v.Set))
		out = max(out, r.OutletLoss[i]/float64(v.Set))
		smallest = min(smallest, r.Valves[i].Heat)
	}
	rated := hydronics.Source{Text: "EN 12828:2003: the valve opens at or below the highest design pressure, as quoted in a product manual", Provenance: hydronics.SecondHand}
	findings = append(findings,
		hydronics.Finding{Rule: "the set pressure is at most the lowest rated pressure in the circuit", Subject: "relief valve", Danger: "the weakest component fails before the valve opens",
			Quantity: "set pressure", Unit: "Pa gauge", Bound: hydronics.AtMost, Value: float64(highest), Limit: float64(p.Lowest), Source: rated}.Judge(),
		share("the pressure at full discharge exceeds the lowest rating by no more than the rules allow", rise, p.Rules.PressureRise.Value+1e-9, hydronics.AtMost, p.Rules.PressureRise.Source, burst),
		share("the loss before the valve is small against its set pressure", in, p.Rules.InletLoss.Value, hydronics.AtMost, p.Rules.InletLoss.Source, "the valve chatters and passes less than certified"),
		share("the loss behind the valve is small against its set pressure", out, p.Rules.OutletLoss.Value, hydronics.AtMost, p.Rules.OutletLoss.Source, "back pressure keeps the valve from opening fully"),
	)
	if n := len(p.Valves); n > 1 {
		findings = append(findings,
			hydronics.Finding{Rule: "no more valves share the duty than the rules allow", Subject: "relief valve", Quantity: "valves", Bound: hydronics.AtMost,
				Value: float64(n), Limit: p.Rules.MostValves.Value, Source: p.Rules.MostValves.Source}.Judge(),
			share("the smallest valve has its share of the capacity", smallest/r.Capacity, p.Rules.SmallestShare.Value, hydronics.AtLeast, p.Rules.SmallestShare.Source, "a small valve beside a large one opens alone and chatters"))
	}
	for _, v := range p.Valves {
		if v.DN != 0 {
			findings = append(findings, hydronics.Finding{Rule: "the valve's nominal size is at least what the rules ask for", Subject: "relief valve",
				Danger: "a small valve clogs and lets too little go", Quantity: "nominal size", Unit: "m", Bound: hydronics.AtLeast,
				Value: float64(v.DN) * hydronics.Millimetre, Limit: p.Rules.LeastDN.Value, Source: p.Rules.LeastDN.Source}.Judge())
		}
	}
	findings = append(findings, JudgePath(p.Between...))
	return append(findings,
		hydronics.OnSite("the valve stands upright at the heat source or on its flow close by, its outlet falls to a place where steam can scald nobody, open, visible and free of frost",
			"relief valve", hydronics.Source{Text: "usual requirements of local codes", Provenance: hydronics.CommonPractice}, "scalding, or a blocked outlet")), nil
}

// JudgePath judges what lies between a heat source and its relief valve: nothing
// that can close or block, by hand, by itself or by a signal. A valve that is
// secured open is not met either: the quoted requirement knows no exception, and
// local codes that allow one have to be named by whoever relies on it. Nothing
// given at all is to be seen on site; to say that the way is free, say [OpenPipe].
// Source: EN 12828:2003, no shut-off between heat source and relief valve, as quoted.
func JudgePath(between ...Fitting) hydronics.Finding {
	const rule = "nothing between a heat source and its relief valve can close or block, automatic valves included"
	const danger = "with the valve shut off the heat source has no protection: it can burst"
	source := hydronics.Source{Text: "EN 12828:2003, no shut-off between heat source and relief valve, as quoted in a product manual", Provenance: hydronics.SecondHand}
	holds, subject := true, "between heat source and relief valve"
	if len(between) == 0 {
		return hydronics.OnSite(rule, subject, source, danger)
	}
	for _, f := range between {
		if f != OpenPipe {
			holds = false
			subject += ", " + f.String()
		}
	}
	return hydronics.Statement(rule, subject, holds, source, danger)
}

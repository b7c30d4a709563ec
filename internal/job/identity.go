package job

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/hydronics/dhw"
)

// requirements are the ids of all requirements with the words of their rules. The
// words may be put better at any time: change them here too, and the id stays, on
// which programs rely that read the sheet. An id that ends in /* goes on with the
// subject, for a rule that holds for several parts. Rules that are the same
// requirement in other words share an id; they never stand on one sheet together.
var requirements = []struct{ id, rule string }{
	// Primary circuit, heating circuits.
	{"circulator-head/heating", "the circulator overcomes the losses at the design flow, heating"},
	{"circulator-head/house-side", "the circulator overcomes the losses at the design flow, heating, house side"},
	{"circulator-head/hot-water", "the circulator overcomes the losses at the design flow, hot water"},
	{"output-covers-heat", "the unit's output covers the heat of all circuits at the design temperature"},
	{"design-flow", "the design flow is at least the unit's least flow"},
	{"velocity-quiet", "velocity in the fastest tube: heating, distribution"},
	{"velocity-quiet", "velocity in the fastest tube: heating in living rooms"},
	{"velocity-copper", "velocity in the fastest tube: copper up to 70 °C"},
	{"vents-at-high-points", "an air vent at every high point"},
	{"strainer-in-return", "a strainer stands in the return to the unit"},
	{"shut-for-service", "supply and return can be shut for service"},
	{"oxygen-barrier", "plastic tube has a layer that keeps oxygen out"},
	{"flow-with-circuits-shut", "the unit keeps its least flow whatever circuits are shut"},
	{"floor-limiter", "a limiter of its own keeps the supply of the floors below what screed and covering stand"},
	{"buffer-flow", "the unit's flow into the buffer is at least what the circuits draw from it"},
	{"mixed-supply/*", "the unit's supply is at least as warm as what the mixing valve has to give"},
	{"mixed-circulator-head/*", "the circulator of the mixing group overcomes the losses at its design flow"},
	{"mixing-valve-authority/*", "the mixing valve rules its flow"},
	{"mixed-rest/*", "nothing flows through the group while its circulator rests"},
	{"floor-limiter-there/*", "a limiter that depends on no controller stops the supply of the floors when it gets too hot"},
	{"floor-limiter-least/*", "the limiter of the floors lets the design supply pass"},
	{"floor-limiter-most/*", "the limiter of the floors is set to what screed and covering stand"},
	{"floor-limiter-most/*", "the limiter of the floors is set to no more than screed and covering stand"},
	{"floor-supply-most/*", "the supply of the floors is no hotter than screed and covering stand"},
	{"content-always-circulating", "the content that always circulates is at least what the unit asks for"},
	{"defrost-temperature", "the water ends the defrost above the unit's lowest temperature"},

	// Expansion and relief.
	{"relief-capacity", "the relief valves can let the whole heat output go as steam"},
	{"relief-capacity", "the valve's nameplate covers the heat of every source that can run"},
	{"relief-set-below-ratings", "the set pressure is at most the lowest rated pressure in the circuit"},
	{"relief-set-below-ratings", "set pressure at most the lowest rating of all parts of the circuit"},
	{"relief-full-discharge", "the pressure at full discharge exceeds the lowest rating by no more than the rules allow"},
	{"relief-inlet-loss", "the loss before the valve is small against its set pressure"},
	{"relief-outlet-loss", "the loss behind the valve is small against its set pressure"},
	{"relief-size", "the valve's nominal size is at least what the rules ask for"},
	{"relief-path-open", "nothing between a heat source and its relief valve can close or block, automatic valves included"},
	{"relief-place", "the valve stands upright at the heat source or on its flow close by, its outlet falls to a place where steam can scald nobody, open, visible and free of frost"},
	{"relief-discharge", "the relief valve's discharge is in sight, falls all the way, and its end can scald nobody and freeze nowhere"},
	{"antifreeze-relief-into-container", "with antifreeze the relief valve discharges into a container"},
	{"antifreeze-no-top-up", "with antifreeze nothing tops the circuit up from the mains"},
	{"poison-two-walls", "two walls and a leak space between them part a poisonous antifreeze from potable water"},
	{"antifreeze-temperature/*", "a solution that is no glycol gets no hotter than 40 °C"},
	{"antifreeze-allowed", "the papers of unit, circulator, vessel, valves and seals allow this solution"},
	{"antifreeze-fire", "filling, vents and the relief valve's container are kept away from flames, sparks and heat, as the rules on fire ask"},
	{"antifreeze-corrosion", "inhibitor and pH of the salt solution suit every metal of the circuit, and no air gets in"},
	{"antifreeze-single-wall", "the water authority allows a single wall between this antifreeze, its additives and potable water"},
	{"filling-backflow", "the backflow preventer of the filling link protects against the circuit's fluid category"},
	{"vessel-possible", "the relief valve's setting leaves room for static height, reserve and expansion"},
	{"vessel-volume", "the vessel takes expansion and reserve between its pre-charge and the final pressure"},
	{"vessel-precharge-least", "the pre-charge holds the weight of the liquid above, the vapour pressure and the margin"},
	{"vessel-precharge-most", "the pre-charge lies below the filling pressure, so that water stands in the vessel"},
	{"filling", "the filling pressure is at least what the rules ask for"},
	{"vessel-reserve", "the water reserve is still in the vessel when the liquid takes its least room"},
	{"hottest", "the pressure at the hottest keeps its distance from the relief valve's setting"},
	{"relief-stays-shut", "the relief valve does not lift in normal operation"},
	{"vessel-rating", "the vessel is rated for the relief valve's setting and for its place (liquid, temperature), and can be shut off only by a fitting secured against closing"},
	{"inlet-boiling", "the liquid does not boil at the circulator's inlet, at the hottest and with the lowest filling pressure"},
	{"inlet-pressure", "the circulator's inlet keeps the pressure that its papers ask for"},

	// Frost.
	{"antifreeze-first-ice", "the first ice forms below the extreme minimum outdoors"},
	{"antifreeze-concentration", "a sample from the circuit, by a refractometer or hydrometer for this antifreeze, shows the concentration of the job file"},
	{"above-zero/*", "the water stays above 0 °C for the whole power cut"},
	{"empty-before-ice/*", "the water is out before the first ice"},
	{"empty-before-ice/*", "no ice forms before the power returns"},
	{"empty-of-pockets/*", "no water stays in pockets"},
	{"air-follows/*", "air follows the water, so that it can leave"},
	{"no-level-tube/*", "no tube lies level at a drain valve"},
	{"drains-in-the-cold/*", "every drain valve stands outdoors, where the cold opens it"},
	{"bore-wide-enough/*", "water does not hang in the narrow bore"},
	{saidBetter, "no valve, bracket or passage of a wall is less insulated than the tube"},
	{"no-wind", "no wind reaches the section: the weather judged has none"},
	{saidBetter, "heat exchanger, pump and strainer of the unit drain or are protected by it"},
	{"unit-survives", "exchanger, pump and strainer of the unit drain, or survive the power cut, as its papers say"},
	{"unit-stays-locked", "after draining the unit stays locked until refilled by hand and vented"},
	{"insulation-outdoors", "insulation outdoors is closed, dry, of the stated thickness on tubes, valves, brackets and wall passages, and proof against sun and birds"},

	// Arrangement outdoors.
	{"drain-height/*", "the outlet of the drain valve stands clear of ground, snow and ice"},
	{"drain-at-low-point/*", "a drain valve at the low point"},
	{"no-pocket/*", "no pocket outdoors keeps its water"},
	{"fall/*", "every leg outdoors has a fall"},
	{"drain-spacing/*", "drain valves keep their distance"},
	{"drain-at-coldest-place", "each drain valve stands at the coldest place of its low point"},
	{"drains-away-from-heat", "drain valves stand out of the sun and away from sources of heat"},
	{"drains-insulated", "drain valves are insulated except at air inlet and outlet"},
	{"drains-kept-free", "nothing can be put, grow or drift against outlet and air inlet"},
	{"closing-valves-shut", "normally closed isolating valves just indoors shut without power"},
	{"drained-water-harms-nobody", "drained water does not reach a walkway or a neighbour"},
	{"antifreeze-no-drain", "no automatic drain valve in an antifreeze solution"},
	{"drain-outlet-free/*", "outlet and air inlet of the drain valve are left free of insulation"},
	{"drain-shaded/*", "the drain valve is shaded from sun, rain and other heat"},
	{"closing-valve/*", "a valve that closes without power stands just indoors, so that only the outdoor water drains"},
	{"relief-at-the-unit", "a relief valve stands on the unit's side of the closing valves"},
	{"flow-proved-before-heat", "no heat before the position of the closing valves and the flow are proved"},
	{"vents-by-hand/*", "air vents outdoors are worked by hand"},
	{"refrigerant-distances", "vents, relief outlets, gullies, shafts and openings keep the distance from the unit that its instructions state"},
	{"condensate", "condensate runs off free of frost and away from walkways"},

	// Hot water: demand, pressures, cold feed.
	{"mixed-water", "one charge gives the mixed water that is asked for"},
	{"reheat-time", "the cylinder is hot again within the time that is asked for"},
	{"relief-size", "relief valve large enough for the content and the heat of all sources"},
	{"relief-set-below-cylinder", "set pressure at most the rated pressure of the cylinder"},
	{"relief-set-below-ratings", "set pressure at most the lowest rating of all components"},
	{"relief-set-below-1-mpa", "set pressure at most 1 MPa"},
	{"reducer-below-mains", "the reducer's setting lies below the mains pressure"},
	{"supply-below-set", "cold water pressure at most its share of the set pressure"},
	{"supply-below-set", "cold water pressure below the set pressure"},
	{"supply-below-80-psi", "static pressure at most 80 psi"},
	{"vessel-possible", "the cold water pressure leaves room for expansion below the relief valve's setting"},
	{"vessel-volume", "the vessel takes the expansion of one heating-up below the relief valve's setting"},
	{"vessel-precharge", "pre-charge below the cold water pressure, so that the vessel takes water only while heating"},
	{"relief-in-feed", "a relief valve stands in the cold feed"},
	{"relief-path-open", "nothing that can shut, clog or close stands between relief valve and cylinder"},
	{"feed-non-return", "a non-return valve or backflow preventer stands before the relief valve"},
	{"feed-non-return", "no non-return valve is asked for up to 10 l"},
	{"feed-shut-off", "a valve to shut stands before all other devices"},
	{"feed-reducer", "the pressure reducer stands before non-return valve, vessel and relief valve"},
	{"feed-strainer", "the strainer stands before the pressure reducer"},
	{"feed-vessel", "the vessel hangs between the last closing device and the cylinder"},
	{"feed-expansion", "expansion is controlled where a check valve, backflow preventer or reducer closes the feed"},
	{"feed-expansion", "expansion is taken up by an air gap inside the cylinder where the closed feed has no vessel"},
	{"feed-cold-branch", "cold branches leave the feed before the last non-return valve or backflow preventer"},
	{"feed-drain-cock", "the drain cock can empty the cylinder: nothing that closes stands between them"},
	{"relief-above-cylinder", "relief valve above the top of the cylinder"},
	{"relief-branch-length", "pipe to the relief valve at most ten nominal sizes long"},
	{"local-code", "set pressure, cold water pressure, protection against overheating, discharge and arrangement follow the local code"},

	// Hot water: overheating and discharge.
	{"discharge-in-sight", "the relief valve discharges in sight, through an air gap, to a safe place"},
	{"thermostat/*", "a thermostat controls the source"},
	{"cut-out/*", "a cut-out that does not reset itself stops the source"},
	{"cut-out-setting/*", "cut-out at most at 100 °C"},
	{"thermostat-setting/*", "thermostat set no higher than the cut-out"},
	{"temperature-relief", "a temperature relief valve stands on the cylinder"},
	{"temperature-relief-setting", "temperature relief valve opens at 100 °C at most"},
	{"discharge-local-code", "size and course of the relief valve's discharge pipe follow the local code"},
	{"discharge-possible", "a discharge pipe of the table suits its length and bends"},
	{"discharge-d1", "no smaller than the valve's outlet"},
	{"tundish-near", "tundish near the valve"},
	{"tundish-drop", "vertical pipe of at least 300 mm below the tundish"},
	{"discharge-length", "resistance with bends at most that of the table"},
	{"discharge-fall", "fall of at least 1 in 200 after the tundish"},
	{"discharge-place", "tundish upright and in sight, pipe of metal, end visible where it can scald nobody"},
	{"funnel-gap-least", "end of the discharge at least 20 mm above the funnel"},
	{"funnel-gap-most", "end of the discharge at most 40 mm above the funnel"},
	{"discharge-size", "discharge pipe no narrower than the outlet"},
	{"discharge-length", "discharge pipe at most 2 m of the outlet's size, 4 m one size larger"},
	{"discharge-bends", "at most 2 bends of the outlet's size, 3 one size larger"},
	{"drain-size", "drain after the funnel of twice the cross-section"},
	{"drain-size", "drain of at least DN 30"},
	{"discharge-size", "discharge pipe no smaller than the valve's outlet"},
	{"discharge-end-least", "end high enough above floor, receptor or grate"},
	{"discharge-end-most", "end low enough above floor, receptor or grate"},
	{"discharge-clear", "no trap, valve, tee or thread at the end, falling all the way"},
	{"discharge-air-gap", "air gap over the tundish of at least two bores"},
	{"discharge-own-pipe", "the pipe serves this valve alone"},
	{"discharge-place", "the end is in the same room, in sight, where it can scald nobody and harm no building"},

	// Hot water: hygiene and scalding. Several books may ask for the same: their
	// key takes the place of the subject.
	{"hygiene-local-rules", "storage, return and tap temperatures follow the local rules on hygiene and scalding"},
	{"stored-at-least/*", "stored water hot enough"},
	{"stored-at-most/*", "stored water not too hot"},
	{"distribution-at-least/*", "distribution hot enough"},
	{"circulation-at-least/*", "circulation return hot enough"},
	{"bath-at-most/*", "bath outlet not too hot"},
}

// An identity is an id of the table.
type identity struct {
	id     string // without the *
	each   bool   // goes on with the subject
	number int    // the same for all rules of one id
}

func identityOf(id string, number int) identity {
	id, each := strings.CutSuffix(id, "*")
	return identity{id, each, number}
}

// identities are the ids by rule.
var identities = func() map[string]identity {
	ids := make(map[string]identity, len(requirements))
	numbers := map[string]int{}
	for _, r := range requirements {
		if _, known := numbers[r.id]; !known {
			numbers[r.id] = len(numbers)
		}
		ids[r.rule] = identityOf(r.id, numbers[r.id])
	}
	return ids
}()

// saidBetter stands for rules of package frost that the sheet states in other words,
// for lines that do not drain as well.
const saidBetter = "said-better"

// beginnings are the ids of rules whose words go on with a figure.
var beginnings = []struct{ words, id string }{
	{"every draw-off of the day gets its heat, load profile ", "load-profile"},
	{"hot outlet hot enough", "hot-tap-at-least/*"},
	{"cold outlet cold enough", "cold-tap-at-most/*"},
}

// partKeys begin the ids of their findings.
var partKeys = [...]string{"primary", "circuits", "pressure", "frost", "outdoors", "hot-water"}

// bookKeys stand in the ids for the rulebooks on hygiene.
var bookKeys = map[dhw.Rulebook]string{
	dhw.WaterRegulations1999: "water-regulations", dhw.HSEL8: "l8", dhw.ApprovedDocumentG: "g3", dhw.W551: "w551",
}

// identify gives every finding its id.
func (s *Sheet) identify() {
	said := make([]bool, len(requirements)+len(beginnings)+1) // by the number of an id
	for i := range s.Findings {
		f := &s.Findings[i]
		id, number := idOf(f)
		if f.ID = id; said[number] { // otherwise nothing before can be the same, for no id begins another
			for n := 2; s.knows(f.ID, i); n++ { // two parts of one name
				f.ID = id + "/" + strconv.Itoa(n)
			}
		}
		said[number] = true
	}
}

// idOf returns the id of a finding that has no namesake on its sheet, and the number
// of its kind. A rule that nobody gave an id has one made of its words; a test sees
// to it that there is none.
func idOf(f *Finding) (id string, number int) {
	known, ok := identities[f.Rule]
	for i := range beginnings {
		if !ok && strings.HasPrefix(f.Rule, beginnings[i].words) {
			known, ok = identityOf(beginnings[i].id, len(requirements)+i), true
		}
	}
	if !ok {
		known = identityOf(unnamed+string(appendKey(nil, f.Rule))+"/*", len(requirements)+len(beginnings))
	}
	var room [96]byte
	b := append(append(append(room[:0], partKeys[f.Part]...), '/'), known.id...)
	if known.each {
		b = appendKey(b, f.name)
	}
	return string(b), known.number
}

const unnamed = "unnamed-"

// knows reports whether one of the first n findings has the id.
func (s *Sheet) knows(id string, n int) bool {
	return slices.ContainsFunc(s.Findings[:n], func(f Finding) bool { return f.ID == id })
}

// appendKey appends a name in lower case with hyphens: letters and digits of any
// script stay, everything between them becomes one hyphen.
func appendKey(b []byte, name string) []byte {
	begin, gap := len(b), false
	for _, r := range name {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = len(b) > begin
			continue
		}
		if gap {
			b = append(b, '-')
			gap = false
		}
		b = utf8.AppendRune(b, unicode.ToLower(r))
	}
	if len(b) == begin {
		return append(b, "none"...)
	}
	return b
}

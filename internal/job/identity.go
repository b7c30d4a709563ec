package job

import (
	"strconv"
	"strings"
	"unicode"

	"example.com/hydronics/dhw"
)

// identities are the ids of the requirements, by the words of their rules. The
// words may be put better at any time: change them here too, and the id stays, on
// which programs rely that read the sheet. An id that ends in /* goes on with the
// subject, for a rule that holds for several parts. Rules that are the same
// requirement in other words share an id; they never stand on one sheet together.
var identities = map[string]string{
	// Primary circuit, heating circuits.
	"the circulator overcomes the losses at the design flow, heating":                          "circulator-head/heating",
	"the circulator overcomes the losses at the design flow, heating, house side":              "circulator-head/house-side",
	"the circulator overcomes the losses at the design flow, hot water":                        "circulator-head/hot-water",
	"the unit's output covers the heat of all circuits at the design temperature":              "output-covers-heat",
	"the design flow is at least the unit's least flow":                                        "design-flow",
	"velocity in the fastest tube: heating, distribution":                                      "velocity-quiet",
	"velocity in the fastest tube: heating in living rooms":                                    "velocity-quiet",
	"velocity in the fastest tube: copper up to 70 °C":                                         "velocity-copper",
	"an air vent at every high point":                                                          "vents-at-high-points",
	"a strainer stands in the return to the unit":                                              "strainer-in-return",
	"supply and return can be shut for service":                                                "shut-for-service",
	"plastic tube has a layer that keeps oxygen out":                                           "oxygen-barrier",
	"the unit keeps its least flow whatever circuits are shut":                                 "flow-with-circuits-shut",
	"a limiter of its own keeps the supply of the floors below what screed and covering stand": "floor-limiter",
	"the content that always circulates is at least what the unit asks for":                    "content-always-circulating",
	"the water ends the defrost above the unit's lowest temperature":                           "defrost-temperature",

	// Expansion and relief.
	"the relief valves can let the whole heat output go as steam":                                                                                                    "relief-capacity",
	"the valve's nameplate covers the heat of every source that can run":                                                                                             "relief-capacity",
	"the set pressure is at most the lowest rated pressure in the circuit":                                                                                           "relief-set-below-ratings",
	"set pressure at most the lowest rating of all parts of the circuit":                                                                                             "relief-set-below-ratings",
	"the pressure at full discharge exceeds the lowest rating by no more than the rules allow":                                                                       "relief-full-discharge",
	"the loss before the valve is small against its set pressure":                                                                                                    "relief-inlet-loss",
	"the loss behind the valve is small against its set pressure":                                                                                                    "relief-outlet-loss",
	"the valve's nominal size is at least what the rules ask for":                                                                                                    "relief-size",
	"nothing between a heat source and its relief valve can close or block, automatic valves included":                                                               "relief-path-open",
	"the valve stands upright at the heat source or on its flow close by, its outlet falls to a place where steam can scald nobody, open, visible and free of frost": "relief-place",
	"the relief valve's discharge is in sight, falls all the way, and its end can scald nobody and freeze nowhere":                                                   "relief-discharge",
	"with antifreeze the relief valve discharges into a container":                                                                                                   "antifreeze-relief-into-container",
	"with antifreeze nothing tops the circuit up from the mains":                                                                                                     "antifreeze-no-top-up",
	"two walls and a leak space between them part a poisonous antifreeze from potable water":                                                                         "poison-two-walls",
	"a solution that is no glycol gets no hotter than 40 °C":                                                                                                         "antifreeze-temperature/*",
	"the papers of unit, circulator, vessel, valves and seals allow this solution":                                                                                   "antifreeze-allowed",
	"filling, vents and the relief valve's container are kept away from flames, sparks and heat, as the rules on fire ask":                                           "antifreeze-fire",
	"inhibitor and pH of the salt solution suit every metal of the circuit, and no air gets in":                                                                      "antifreeze-corrosion",
	"the water authority allows a single wall between this antifreeze, its additives and potable water":                                                              "antifreeze-single-wall",
	"the backflow preventer of the filling link protects against the circuit's fluid category":                                                                       "filling-backflow",
	"the relief valve's setting leaves room for static height, reserve and expansion":                                                                                "vessel-possible",
	"the vessel takes expansion and reserve between its pre-charge and the final pressure":                                                                           "vessel-volume",
	"the pre-charge holds the weight of the liquid above, the vapour pressure and the margin":                                                                        "vessel-precharge-least",
	"the pre-charge lies below the filling pressure, so that water stands in the vessel":                                                                             "vessel-precharge-most",
	"the filling pressure is at least what the rules ask for":                                                                                                        "filling",
	"the water reserve is still in the vessel when the liquid takes its least room":                                                                                  "vessel-reserve",
	"the pressure at the hottest keeps its distance from the relief valve's setting":                                                                                 "hottest",
	"the relief valve does not lift in normal operation":                                                                                                             "relief-stays-shut",
	"the vessel is rated for the relief valve's setting and for its place (liquid, temperature), and can be shut off only by a fitting secured against closing":      "vessel-rating",
	"the liquid does not boil at the circulator's inlet, at the hottest and with the lowest filling pressure":                                                        "inlet-boiling",
	"the circulator's inlet keeps the pressure that its papers ask for":                                                                                              "inlet-pressure",

	// Frost.
	"the first ice forms below the extreme minimum outdoors":                                                                          "antifreeze-first-ice",
	"a sample from the circuit, by a refractometer or hydrometer for this antifreeze, shows the concentration of the job file":        "antifreeze-concentration",
	"the water stays above 0 °C for the whole power cut":                                                                              "above-zero/*",
	"the water is out before the first ice":                                                                                           "empty-before-ice/*",
	"no ice forms before the power returns":                                                                                           "empty-before-ice/*",
	"no water stays in pockets":                                                                                                       "empty-of-pockets/*",
	"air follows the water, so that it can leave":                                                                                     "air-follows/*",
	"no tube lies level at a drain valve":                                                                                             "no-level-tube/*",
	"every drain valve stands outdoors, where the cold opens it":                                                                      "drains-in-the-cold/*",
	"water does not hang in the narrow bore":                                                                                          "bore-wide-enough/*",
	"no valve, bracket or passage of a wall is less insulated than the tube":                                                          "no-bare-fittings",
	"no wind reaches the section: the weather judged has none":                                                                        "no-wind",
	"heat exchanger, pump and strainer of the unit drain or are protected by it":                                                      "unit-protects-itself",
	"the unit's own exchanger, pump and strainer survive the power cut as its papers say":                                             "unit-survives",
	"after draining the unit stays locked until refilled by hand and vented":                                                          "unit-stays-locked",
	"insulation outdoors is closed, dry, of the stated thickness on tubes, valves and wall passages, and proof against sun and birds": "insulation-outdoors",

	// Arrangement outdoors.
	"the outlet of the drain valve stands clear of ground, snow and ice":                                              "drain-height/*",
	"a drain valve at the low point":                                                                                  "drain-at-low-point/*",
	"no pocket outdoors keeps its water":                                                                              "no-pocket/*",
	"every leg outdoors has a fall":                                                                                   "fall/*",
	"drain valves keep their distance":                                                                                "drain-spacing/*",
	"each drain valve stands at the coldest place of its low point":                                                   "drain-at-coldest-place",
	"drain valves stand out of the sun and away from sources of heat":                                                 "drains-away-from-heat",
	"drain valves are insulated except at air inlet and outlet":                                                       "drains-insulated",
	"nothing can be put, grow or drift against outlet and air inlet":                                                  "drains-kept-free",
	"normally closed isolating valves just indoors shut without power":                                                "closing-valves-shut",
	"drained water does not reach a walkway or a neighbour":                                                           "drained-water-harms-nobody",
	"no automatic drain valve in an antifreeze solution":                                                              "antifreeze-no-drain",
	"outlet and air inlet of the drain valve are left free of insulation":                                             "drain-outlet-free/*",
	"the drain valve is shaded from sun, rain and other heat":                                                         "drain-shaded/*",
	"a valve that closes without power stands just indoors, so that only the outdoor water drains":                    "closing-valve/*",
	"a relief valve stands on the unit's side of the closing valves":                                                  "relief-at-the-unit",
	"no heat before the position of the closing valves and the flow are proved":                                       "flow-proved-before-heat",
	"air vents outdoors are worked by hand":                                                                           "vents-by-hand/*",
	"vents, relief outlets, gullies, shafts and openings keep the distance from the unit that its instructions state": "refrigerant-distances",
	"condensate runs off free of frost and away from walkways":                                                        "condensate",

	// Hot water: demand, pressures, cold feed.
	"one charge gives the mixed water that is asked for":                                                                 "mixed-water",
	"the cylinder is hot again within the time that is asked for":                                                        "reheat-time",
	"relief valve large enough for the content and the heat of all sources":                                              "relief-size",
	"set pressure at most the rated pressure of the cylinder":                                                            "relief-set-below-cylinder",
	"set pressure at most the lowest rating of all components":                                                           "relief-set-below-ratings",
	"set pressure at most 1 MPa":                                                                                         "relief-set-below-1-mpa",
	"the reducer's setting lies below the mains pressure":                                                                "reducer-below-mains",
	"cold water pressure at most its share of the set pressure":                                                          "supply-below-set",
	"cold water pressure below the set pressure":                                                                         "supply-below-set",
	"static pressure at most 80 psi":                                                                                     "supply-below-80-psi",
	"the cold water pressure leaves room for expansion below the relief valve's setting":                                 "vessel-possible",
	"the vessel takes the expansion of one heating-up below the relief valve's setting":                                  "vessel-volume",
	"pre-charge below the cold water pressure, so that the vessel takes water only while heating":                        "vessel-precharge",
	"a relief valve stands in the cold feed":                                                                             "relief-in-feed",
	"nothing that can shut, clog or close stands between relief valve and cylinder":                                      "relief-path-open",
	"a non-return valve or backflow preventer stands before the relief valve":                                            "feed-non-return",
	"no non-return valve is asked for up to 10 l":                                                                        "feed-non-return",
	"a valve to shut stands before all other devices":                                                                    "feed-shut-off",
	"the pressure reducer stands before non-return valve, vessel and relief valve":                                       "feed-reducer",
	"the strainer stands before the pressure reducer":                                                                    "feed-strainer",
	"the vessel hangs between the last closing device and the cylinder":                                                  "feed-vessel",
	"expansion is controlled where a check valve, backflow preventer or reducer closes the feed":                         "feed-expansion",
	"expansion is taken up by an air gap inside the cylinder where the closed feed has no vessel":                        "feed-expansion",
	"cold branches leave the feed before the last non-return valve or backflow preventer":                                "feed-cold-branch",
	"the drain cock can empty the cylinder: nothing that closes stands between them":                                     "feed-drain-cock",
	"relief valve above the top of the cylinder":                                                                         "relief-above-cylinder",
	"pipe to the relief valve at most ten nominal sizes long":                                                            "relief-branch-length",
	"set pressure, cold water pressure, protection against overheating, discharge and arrangement follow the local code": "local-code",

	// Hot water: overheating and discharge.
	"the relief valve discharges in sight, through an air gap, to a safe place":             "discharge-in-sight",
	"a thermostat controls the source":                                                      "thermostat/*",
	"a cut-out that does not reset itself stops the source":                                 "cut-out/*",
	"cut-out at most at 100 °C":                                                             "cut-out-setting/*",
	"thermostat set no higher than the cut-out":                                             "thermostat-setting/*",
	"a temperature relief valve stands on the cylinder":                                     "temperature-relief",
	"temperature relief valve opens below 100 °C":                                           "temperature-relief-setting",
	"size and course of the relief valve's discharge pipe follow the local code":            "discharge-local-code",
	"a discharge pipe of the table suits its length and bends":                              "discharge-possible",
	"no smaller than the valve's outlet":                                                    "discharge-d1",
	"tundish near the valve":                                                                "tundish-near",
	"vertical pipe of at least 300 mm below the tundish":                                    "tundish-drop",
	"resistance with bends at most that of the table":                                       "discharge-length",
	"fall of at least 1 in 200 after the tundish":                                           "discharge-fall",
	"tundish upright and in sight, pipe of metal, end visible where it can scald nobody":    "discharge-place",
	"end of the discharge at least 20 mm above the funnel":                                  "funnel-gap-least",
	"end of the discharge at most 40 mm above the funnel":                                   "funnel-gap-most",
	"discharge pipe no narrower than the outlet":                                            "discharge-size",
	"discharge pipe at most 2 m of the outlet's size, 4 m one size larger":                  "discharge-length",
	"at most 2 bends of the outlet's size, 3 one size larger":                               "discharge-bends",
	"drain after the funnel of twice the cross-section":                                     "drain-size",
	"drain of at least DN 30":                                                               "drain-size",
	"discharge pipe no smaller than the valve's outlet":                                     "discharge-size",
	"end high enough above floor, receptor or grate":                                        "discharge-end-least",
	"end low enough above floor, receptor or grate":                                         "discharge-end-most",
	"no trap, valve, tee or thread at the end, falling all the way":                         "discharge-clear",
	"air gap over the tundish of at least two bores":                                        "discharge-air-gap",
	"the pipe serves this valve alone":                                                      "discharge-own-pipe",
	"the end is in the same room, in sight, where it can scald nobody and harm no building": "discharge-place",

	// Hot water: hygiene and scalding. Several books may ask for the same: their
	// key takes the place of the subject.
	"storage, return and tap temperatures follow the local rules on hygiene and scalding": "hygiene-local-rules",
	"stored water at least":       "stored-at-least/*",
	"stored water at most":        "stored-at-most/*",
	"distribution at least":       "distribution-at-least/*",
	"circulation return at least": "circulation-at-least/*",
	"bath outlet at most":         "bath-at-most/*",
}

// beginnings are the ids of rules whose words go on with a figure.
var beginnings = []struct{ words, id string }{
	{"every draw-off of the day gets its heat, load profile ", "load-profile"},
	{"hot outlet at least", "hot-tap-at-least/*"},
	{"cold outlet at most", "cold-tap-at-most/*"},
}

// partKeys begin the ids of their findings.
var partKeys = [...]string{"primary", "circuits", "pressure", "frost", "outdoors", "hot-water"}

// bookKeys stand in the ids for the rulebooks on hygiene.
var bookKeys = map[dhw.Rulebook]string{
	dhw.WaterRegulations1999: "water-regulations", dhw.HSEL8: "l8", dhw.ApprovedDocumentG: "g3", dhw.W551: "w551",
}

// identify returns the id of a requirement. A rule that nobody gave an id has one
// made of its words; a test sees to it that there is none.
func (s *Sheet) identify(p Part, rule, subject string) string {
	id, known := identities[rule]
	for i := range beginnings {
		if !known && strings.HasPrefix(rule, beginnings[i].words) {
			id, known = beginnings[i].id, true
		}
	}
	if !known {
		id = unnamed + key(rule) + "/*"
	}
	if base, each := strings.CutSuffix(id, "*"); each {
		id = base + key(subject)
	}
	first := partKeys[p] + "/" + id
	id = first
	for n := 2; s.knows(id); n++ { // two parts of one name
		id = first + "/" + strconv.Itoa(n)
	}
	return id
}

const unnamed = "unnamed-"

func (s *Sheet) knows(id string) bool {
	for i := range s.Findings {
		if s.Findings[i].ID == id {
			return true
		}
	}
	return false
}

// key puts a name into lower case with hyphens: letters and digits of any script
// stay, everything between them becomes one hyphen.
func key(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range name {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(unicode.ToLower(r))
	}
	if b.Len() == 0 {
		return "none"
	}
	return b.String()
}

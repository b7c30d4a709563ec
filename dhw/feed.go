package dhw

import (
	"fmt"

	"example.com/hydronics"
)

// A Device is a fitting in the cold feed of a closed cylinder.
type Device uint8

// The devices. The first five stand in the flow and can shut, clog or close
// against the return; the others hang on a branch or are the end of the feed.
const (
	ShutOff       Device = iota + 1 // a valve that a hand can close
	Strainer                        // a strainer or filter, or any other restriction
	Reducer                         // a pressure reducer
	NonReturn                       // a non-return valve
	Backflow                        // a backflow preventer with zones
	PressureGauge                   // a pressure gauge or test point
	Drain                           // a drain cock
	Vessel                          // an expansion vessel for potable water
	Relief                          // a relief valve against overpressure
	ColdBranch                      // a branch to cold taps, or to the cold side of mixing taps
	Store                           // the cylinder; the end of every feed
)

var deviceNames = [...]string{"unknown", "shut-off valve", "strainer", "pressure reducer", "non-return valve",
	"backflow preventer", "pressure gauge", "drain cock", "expansion vessel", "relief valve", "cold branch", "cylinder"}

// String returns the device in words.
func (d Device) String() string {
	if int(d) < len(deviceNames) {
		return deviceNames[d]
	}
	return deviceNames[0]
}

// ParseDevice returns the device that [Device.String] names, and false for any
// other words.
func ParseDevice(s string) (Device, bool) {
	for d := ShutOff; d <= Store; d++ {
		if s == deviceNames[d] {
			return d, true
		}
	}
	return 0, false
}

// blocks reports whether the device can keep water from passing towards the main.
func (d Device) blocks() bool { return d >= ShutOff && d <= Backflow }

// A Feed is the cold feed of a closed cylinder, as an ordered chain of devices from
// the main to the cylinder. Order is all: a shut-off valve on the wrong side of
// the relief valve turns the cylinder into a bomb.
//
// Where there are several of a kind, the one nearest to the cylinder is judged as
// the one that protects it; Height, Branch and ReliefDN are those of that relief
// valve. The chain has no place for what stands in the short pipe from the feed to
// the relief valve: a valve there belongs in BranchShuts.
type Feed struct {
	Book      Rulebook
	Chain     []Device // in the direction of the flow, [Store] at the end and only there, 1 to 100 devices
	Content   float64  // m³ of the cylinder, 0.001 to 10 (guard)
	HeatInput float64  // W, of all heaters together, 0 to 1e6 (guard); 0: the size of the relief valve is not judged here
	Height    float64  // m of the relief valve above the top of the cylinder, negative below it, -100 to 100 (guard)
	Branch    float64  // m of pipe from the feed to the relief valve, 0 to 100 (guard)
	ReliefDN  int      // nominal size of the relief valve, mm, 1 to 100 (guard)

	BranchShuts bool // something that can shut, clog or close stands in the pipe from the feed to the relief valve
}

func (f Feed) check(fn string) error {
	if err := count(fn, "devices", len(f.Chain), 1, 100); err != nil {
		return err
	}
	err := together(f.Book.check(fn), volume(fn, "cylinder volume", f.Content),
		hydronics.Within(fn, "heat input", "W", f.HeatInput, 0, maxPower, hydronics.Guard),
		hydronics.Within(fn, "height of the relief valve above the cylinder", "m", f.Height, -100, 100, hydronics.Guard),
		hydronics.Within(fn, "pipe to the relief valve", "m", f.Branch, 0, 100, hydronics.Guard),
		count(fn, "nominal size of the relief valve", f.ReliefDN, 1, 100))
	for i, d := range f.Chain {
		last := i == len(f.Chain)-1
		switch {
		case d < ShutOff || d > Store:
			err = together(err, fmt.Errorf("device %d: %w", i+1, count(fn, "device", int(d), int(ShutOff), int(Store))))
		case (d == Store) != last:
			err = together(err, fmt.Errorf("%s: device %d is a %v, want the cylinder at the end of the chain and only there: %w", fn, i+1, d, hydronics.ErrRange))
		}
	}
	return err
}

// first returns the place of the first device of a kind, or -1.
func (f Feed) first(d Device) int {
	for i, x := range f.Chain {
		if x == d {
			return i
		}
	}
	return -1
}

// last returns the place of the last device of a kind, or -1.
func (f Feed) last(d Device) int {
	for i := len(f.Chain) - 1; i >= 0; i-- {
		if f.Chain[i] == d {
			return i
		}
	}
	return -1
}

// open reports whether nothing that blocks stands after place i.
func (f Feed) open(i int) bool {
	for _, d := range f.Chain[i+1:] {
		if d.blocks() {
			return false
		}
	}
	return true
}

// What the findings of a feed warn of.
const (
	dangerBurst    = "a closed cylinder that is heated without a relief valve in reach bursts with the force of an explosion"
	dangerReturn   = "heated water runs back into the main, and a falling main empties the cylinder or sucks from it"
	dangerExpand   = "at every heating-up the pressure rises to the relief valve's, which drips until it scales up"
	dangerPressure = "the night pressure of the main reaches the cylinder"
	dangerRepair   = "a relief valve that cannot be changed without emptying the cylinder is not changed"
	dangerCold     = "expanding hot water fills the cold pipes and scalds at a cold tap, and stored water is drawn as cold"
	dangerDrain    = "a cylinder that cannot be emptied bursts in the frost and keeps its sludge"
	dangerGrit     = "grit on the seat of a reducer lets the night pressure of the main through to the cylinder"
	dangerUnseen   = "a discharge that nobody sees means a cylinder about to fail, or a relief valve that stopped closing"
)

var customOfTheTrade = hydronics.Source{Text: "arrangement of closed cylinders", Provenance: hydronics.CommonPractice}

// reliefInFeed returns who wants the relief valve in the cold feed.
func (r Rulebook) reliefInFeed() hydronics.Source {
	if r == DIN1988Part200 {
		return r.source("safety valve in the cold water line", hydronics.SecondHand)
	}
	return customOfTheTrade
}

// openPath returns who forbids a closing device between relief valve and cylinder.
func (r Rulebook) openPath() hydronics.Source {
	switch r {
	case DIN1988Part200:
		return r.source("no shut-off, strainer or restriction between safety valve and heater", hydronics.SecondHand)
	case ApprovedDocumentG, ApprovedDocumentG1992:
		return hydronics.Source{Text: "The City & Guilds Textbook: Plumbing Book 1 (2019), p. 412: no valve between the expansion relief valve and the cylinder",
			Provenance: hydronics.SecondHand}
	default:
		return customOfTheTrade
	}
}

// Findings judges the arrangement. Every finding names its rule, its source and
// the danger; rules that the book does not have, but the trade does, say common
// practice. Fields outside their limits, and a chain that does not end in the
// cylinder, return an error that matches [hydronics.ErrRange].
//
// What a chain cannot show is left to the site: a valve in the discharge, a
// shut-off at the vessel that nobody locked open, a device mounted backwards.
//
// Sources: DIN 1988-200:2012 and DIN 1988-2:1988; guidance to requirement G3 and to
// the Water Supply (Water Fittings) Regulations 1999; International Plumbing Code
// 2018, sections 504.6 and 607.3.2; G12/AS1, section 6.7; all as attributed; what
// no document was seen for is common practice.
func (f Feed) Findings() ([]hydronics.Finding, error) {
	if err := f.check("dhw.Feed.Findings"); err != nil {
		return nil, err
	}
	relief := f.last(Relief)
	found := []hydronics.Finding{
		hydronics.Statement("a relief valve stands in the cold feed", "cold feed", relief >= 0, f.Book.reliefInFeed(), dangerBurst),
		hydronics.Statement("nothing that can shut, clog or close stands between relief valve and cylinder", "relief valve",
			relief >= 0 && f.open(relief) && !f.BranchShuts, f.Book.openPath(), dangerBurst),
		f.nonReturn(relief),
		hydronics.Statement("a valve to shut stands before all other devices", "cold feed",
			f.Chain[0] == ShutOff, customOfTheTrade, "nothing can be repaired without shutting the house"),
	}
	found = append(found, f.reducer()...)
	found = append(found, f.vessel()...)
	found = append(found, f.branches()...)
	if relief >= 0 {
		found = append(found, f.position()...)
	}
	return append(found, f.discharge()), nil
}

// before reports whether place i lies before every device of a kind.
func (f Feed) before(i int, d Device) bool {
	j := f.first(d)
	return j < 0 || i < j
}

// reducer judges the order around the pressure reducer. A second non-return valve
// before it, such as the one after the meter, does no harm.
func (f Feed) reducer() []hydronics.Finding {
	i := f.last(Reducer)
	if i < 0 {
		return nil
	}
	nonReturn := f.last(NonReturn)
	found := []hydronics.Finding{hydronics.Statement("the pressure reducer stands before non-return valve, vessel and relief valve", "pressure reducer",
		(nonReturn < 0 || i < nonReturn) && f.before(i, Vessel) && f.before(i, Relief), customOfTheTrade, dangerPressure)}
	if strainer := f.first(Strainer); strainer > f.first(Reducer) {
		found = append(found, hydronics.Statement("the strainer stands before the pressure reducer", "strainer", false, customOfTheTrade, dangerGrit))
	}
	return found
}

// branches judges what leaves the feed beside the safety devices. An order that is
// right is not mentioned.
func (f Feed) branches() []hydronics.Finding {
	var found []hydronics.Finding
	if i := f.last(ColdBranch); i >= 0 && i > max(f.last(NonReturn), f.last(Backflow)) {
		found = append(found, hydronics.Statement("cold branches leave the feed before the last non-return valve or backflow preventer", "cold branch",
			false, customOfTheTrade, dangerCold))
	}
	if i := f.last(Drain); i >= 0 && !f.open(i) {
		found = append(found, hydronics.Statement("the drain cock can empty the cylinder: nothing that closes stands between them", "drain cock",
			false, customOfTheTrade, dangerDrain))
	}
	return found
}

func (f Feed) nonReturn(relief int) hydronics.Finding {
	closing := max(f.last(NonReturn), f.last(Backflow))
	source := customOfTheTrade
	switch f.Book {
	case DIN1988Part200, DIN1988Part2:
		const least = 10 * hydronics.Litre
		source = f.Book.source("non-return valve for heaters above 10 l", hydronics.SecondHand)
		if f.Content <= least && closing < 0 {
			return hydronics.Statement("no non-return valve is asked for up to 10 l", "cold feed", true, source, dangerReturn)
		}
	case ApprovedDocumentG, ApprovedDocumentG1992:
		source = hydronics.Source{Text: "Water Supply (Water Fittings) Regulations 1999, guidance: single check valve for heated drinking water (fluid category 2)",
			Provenance: hydronics.SecondHand}
	}
	return hydronics.Statement("a non-return valve or backflow preventer stands before the relief valve", "cold feed",
		closing >= 0 && (relief < 0 || closing < relief), source, dangerReturn)
}

func (f Feed) vessel() []hydronics.Finding {
	closing := max(f.last(NonReturn), f.last(Backflow), f.last(Reducer))
	i := f.last(Vessel)
	if i < 0 {
		if f.Book == IPC2018 && closing >= 0 {
			return []hydronics.Finding{hydronics.Statement("expansion is controlled where a check valve, backflow preventer or reducer closes the feed", "expansion vessel",
				false, f.Book.source("section 607.3.2", hydronics.SecondHand), dangerExpand)}
		}
		if england := f.Book == ApprovedDocumentG || f.Book == ApprovedDocumentG1992; england && closing >= 0 {
			return []hydronics.Finding{hydronics.OnSite("expansion is taken up by an air gap inside the cylinder where the closed feed has no vessel",
				"expansion vessel", customOfTheTrade, dangerExpand)}
		}
		return nil
	}
	return []hydronics.Finding{hydronics.Statement("the vessel hangs between the last closing device and the cylinder", "expansion vessel",
		f.open(i), customOfTheTrade, dangerExpand)}
}

// position judges the size of the relief valve and where it hangs.
func (f Feed) position() []hydronics.Finding {
	var found []hydronics.Finding
	if f.HeatInput > 0 && (f.Book == DIN1988Part200 || f.Book == DIN1988Part2) {
		found = append(found, f.size())
	}
	if f.Book == DIN1988Part200 || f.Book == AustrianPractice {
		found = append(found, hydronics.Finding{Rule: "relief valve above the top of the cylinder", Subject: "relief valve", Danger: dangerRepair,
			Quantity: "height above the cylinder", Unit: "m", Bound: hydronics.AtLeast, Value: f.Height, Limit: 0,
			Source: f.Book.source("recommendation", hydronics.SecondHand)}.Judge())
	}
	if f.Book == DIN1988Part200 {
		found = append(found, hydronics.Finding{Rule: "pipe to the relief valve at most ten nominal sizes long", Subject: "relief valve",
			Danger: "the loss of a long inlet makes the valve chatter and fail", Quantity: "length", Unit: "m", Bound: hydronics.AtMost,
			Value: f.Branch, Limit: 10 * float64(f.ReliefDN) * hydronics.Millimetre,
			Source: f.Book.source("inlet pipe at most 10 DN", hydronics.SecondHand)}.Judge())
	}
	return found
}

// size judges the relief valve by the German table.
func (f Feed) size() hydronics.Finding {
	const rule, danger = "relief valve of the size for content and heat input", "a relief valve that is too small lets the pressure rise on"
	v, err := ReliefValveFor(f.Content, f.HeatInput)
	if err != nil { // beyond the table
		return hydronics.OnSite(rule+": beyond the table, to be sized by itself", "relief valve", reliefValveSource, danger)
	}
	return hydronics.Finding{Rule: rule, Subject: "relief valve", Danger: danger, Quantity: "nominal size", Unit: "m", Bound: hydronics.AtLeast,
		Value: float64(f.ReliefDN) * hydronics.Millimetre, Limit: float64(v.DN) * hydronics.Millimetre, Source: reliefValveSource}.Judge()
}

// discharge is what only the site can show.
func (f Feed) discharge() hydronics.Finding {
	source := customOfTheTrade
	switch f.Book {
	case DIN1988Part2:
		source = f.Book.source("discharge 20 to 40 mm above the funnel", hydronics.SecondHand)
	case AustrianPractice:
		source = f.Book.source("discharge at least 20 mm above the funnel", hydronics.SecondHand)
	case ApprovedDocumentG, ApprovedDocumentG1992:
		source = f.Book.source("requirement G3, tundish", hydronics.SecondHand)
	case IPC2018:
		source = f.Book.source("section 504.6", hydronics.SecondHand)
	case NewZealandG12:
		source = f.Book.source("section 6.7", hydronics.SecondHand)
	}
	return hydronics.OnSite("the relief valve discharges in sight, through an air gap, to a safe place", "relief valve", source, dangerUnseen)
}

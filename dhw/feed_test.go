package dhw

import (
	"errors"
	"strings"
	"testing"

	"example.com/hydronics"
)

// feed is an arrangement that every book accepts.
func feed(book Rulebook) Feed {
	return Feed{Book: book, Chain: []Device{ShutOff, Strainer, Reducer, PressureGauge, NonReturn, Vessel, Drain, Relief, Store},
		Content: 0.2, HeatInput: 20e3, Height: 0.1, Branch: 0.1, ReliefDN: 15}
}

func TestFeedThatIsRight(t *testing.T) {
	for book := DIN1988Part200; book <= NewZealandG12; book++ {
		found, err := feed(book).Findings()
		sound(t, found, err)
		for _, f := range found {
			if f.Verdict == hydronics.NotMet {
				t.Errorf("%v: %s, %s: %v", book, f.Subject, f.Rule, f.Verdict)
			}
			if w := book.Withdrawn(); w != "" && strings.Contains(f.Source.Text, book.String()) && !strings.Contains(f.Source.Text, w) {
				t.Errorf("%v: %q does not say that the book is withdrawn", book, f.Source.Text)
			}
		}
	}
}

// Every fault is found, by every book that knows it.
func TestFeedFaults(t *testing.T) {
	for name, c := range map[string]struct {
		book  Rulebook
		chain []Device
		rule  string
	}{
		"no relief valve":         {DIN1988Part200, []Device{ShutOff, NonReturn, Store}, "cold feed: a relief valve stands in the cold feed"},
		"shut-off after relief":   {DIN1988Part200, []Device{NonReturn, Relief, ShutOff, Store}, "relief valve: nothing that can shut, clog or close stands between relief valve and cylinder"},
		"strainer after relief":   {ApprovedDocumentG, []Device{NonReturn, Relief, Strainer, Store}, "relief valve: nothing that can shut, clog or close stands between relief valve and cylinder"},
		"non-return after relief": {IPC2018, []Device{ShutOff, Relief, NonReturn, Vessel, Store}, "relief valve: nothing that can shut, clog or close stands between relief valve and cylinder"},
		"reducer after relief":    {NewZealandG12, []Device{ShutOff, NonReturn, Relief, Reducer, Store}, "relief valve: nothing that can shut, clog or close stands between relief valve and cylinder"},
		"no non-return valve":     {DIN1988Part2, []Device{ShutOff, Relief, Store}, "cold feed: a non-return valve or backflow preventer stands before the relief valve"},
		"non-return on the wrong side": {ApprovedDocumentG, []Device{ShutOff, Relief, NonReturn, Store},
			"cold feed: a non-return valve or backflow preventer stands before the relief valve"},
		"vessel before the non-return valve": {DIN1988Part200, []Device{ShutOff, Vessel, NonReturn, Relief, Store},
			"expansion vessel: the vessel hangs between the last closing device and the cylinder"},
		"reducer after the vessel": {DIN1988Part200, []Device{ShutOff, NonReturn, Vessel, Reducer, Relief, Store},
			"pressure reducer: the pressure reducer stands before non-return valve, vessel and relief valve"},
		"no expansion control": {IPC2018, []Device{ShutOff, NonReturn, Relief, Store},
			"expansion vessel: expansion is controlled where a check valve, backflow preventer or reducer closes the feed"},
		"cold tap behind the non-return valve": {ApprovedDocumentG, []Device{ShutOff, Reducer, NonReturn, ColdBranch, Vessel, Relief, Store},
			"cold branch: cold branches leave the feed before the last non-return valve or backflow preventer"},
		"cold tap behind the relief valve": {DIN1988Part200, []Device{ShutOff, NonReturn, Relief, ColdBranch, Store},
			"cold branch: cold branches leave the feed before the last non-return valve or backflow preventer"},
		"cold tap without a non-return valve": {DIN1988Part200, []Device{ShutOff, ColdBranch, Relief, Store},
			"cold branch: cold branches leave the feed before the last non-return valve or backflow preventer"},
		"drain before the non-return valve": {ApprovedDocumentG, []Device{ShutOff, Drain, NonReturn, Vessel, Relief, Store},
			"drain cock: the drain cock can empty the cylinder: nothing that closes stands between them"},
		"strainer after the reducer": {DIN1988Part200, []Device{ShutOff, Reducer, Strainer, NonReturn, Relief, Store},
			"strainer: the strainer stands before the pressure reducer"},
		"reducer between the last non-return valve and the relief valve": {DIN1988Part200, []Device{ShutOff, NonReturn, Reducer, Relief, Store},
			"pressure reducer: the pressure reducer stands before non-return valve, vessel and relief valve"},
		"nothing to shut": {AustrianPractice, []Device{NonReturn, Relief, Store}, "cold feed: a valve to shut stands before all other devices"},
	} {
		f := feed(c.book)
		f.Chain = c.chain
		found, err := f.Findings()
		sound(t, found, err)
		if got, ok := verdicts(found)[c.rule]; !ok || got != hydronics.NotMet {
			t.Errorf("%s: %v, %v in %v", name, got, ok, verdicts(found))
		}
	}
}

// A valve in the short pipe to the relief valve does not stand in the chain, and
// shuts the relief valve off all the same.
func TestFeedBranchThatShuts(t *testing.T) {
	const rule = "relief valve: nothing that can shut, clog or close stands between relief valve and cylinder"
	for book := DIN1988Part200; book <= NewZealandG12; book++ {
		f := feed(book)
		f.BranchShuts = true
		found, err := f.Findings()
		sound(t, found, err)
		if got, ok := verdicts(found)[rule]; !ok || got != hydronics.NotMet {
			t.Errorf("%v: %v, %v", book, got, ok)
		}
	}
}

// Whole feeds that are right, from the meter on: common practice in Germany (with
// the non-return valve after the meter) and in England (with a balanced cold
// branch between reducer and non-return valve).
func TestFeedsFromTheMeterOn(t *testing.T) {
	for book, chain := range map[Rulebook][]Device{
		DIN1988Part200:    {ShutOff, NonReturn, Strainer, Reducer, ColdBranch, ShutOff, PressureGauge, NonReturn, Drain, Vessel, Relief, Store},
		ApprovedDocumentG: {ShutOff, Strainer, Reducer, ColdBranch, NonReturn, Vessel, Relief, Drain, Store},
	} {
		f := feed(book)
		f.Chain = chain
		found, err := f.Findings()
		sound(t, found, err)
		for _, x := range found {
			if x.Verdict == hydronics.NotMet {
				t.Errorf("%v: %s: %s", book, x.Subject, x.Rule)
			}
		}
	}
}

// A closed feed in England without a vessel needs another place for the expansion;
// in Germany the relief valve may take it.
func TestFeedWithoutVessel(t *testing.T) {
	const rule = "expansion vessel: expansion is taken up by an air gap inside the cylinder where the closed feed has no vessel"
	for book, want := range map[Rulebook]bool{ApprovedDocumentG: true, ApprovedDocumentG1992: true, DIN1988Part200: false} {
		f := feed(book)
		f.Chain = []Device{ShutOff, Reducer, NonReturn, Relief, Store}
		found, err := f.Findings()
		sound(t, found, err)
		if got, ok := verdicts(found)[rule]; ok != want || ok && got != hydronics.SeeOnSite {
			t.Errorf("%v: %v, %v", book, got, ok)
		}
	}
}

func TestFeedPosition(t *testing.T) {
	low := feed(DIN1988Part200)
	low.Height, low.Branch = -0.2, 0.16
	found, err := low.Findings()
	sound(t, found, err)
	v := verdicts(found)
	for _, rule := range []string{"relief valve: relief valve above the top of the cylinder", "relief valve: pipe to the relief valve at most ten nominal sizes long"} {
		if got, ok := v[rule]; !ok || got != hydronics.NotMet {
			t.Errorf("%s: %v, %v", rule, got, ok)
		}
	}
	low.Book = ApprovedDocumentG // has neither rule
	found, err = low.Findings()
	sound(t, found, err)
	for _, f := range found {
		if f.Verdict == hydronics.NotMet {
			t.Errorf("another book's rule: %s", f.Rule)
		}
	}
}

func TestFeedReliefSize(t *testing.T) {
	const rule = "relief valve: relief valve of the size for content and heat input"
	f := feed(DIN1988Part200)
	for _, c := range []struct {
		content, heat float64
		dn            int
		want          hydronics.Verdict
	}{{0.2, 75e3, 15, hydronics.Met}, {0.2, 80e3, 15, hydronics.NotMet}, {0.3, 20e3, 15, hydronics.NotMet}, {0.3, 20e3, 20, hydronics.Met}} {
		f.Content, f.HeatInput, f.ReliefDN = c.content, c.heat, c.dn
		found, err := f.Findings()
		sound(t, found, err)
		if got, ok := verdicts(found)[rule]; !ok || got != c.want {
			t.Errorf("%+v: %v, %v", c, got, ok)
		}
	}
	f.Content = 6
	found, err := f.Findings()
	sound(t, found, err)
	if got, ok := verdicts(found)[rule+": beyond the table, to be sized by itself"]; !ok || got != hydronics.SeeOnSite {
		t.Errorf("beyond the table: %v, %v", got, ok)
	}
}

// Up to 10 l no non-return valve is asked for.
func TestFeedOfSmallHeater(t *testing.T) {
	f := Feed{Book: DIN1988Part2, Chain: []Device{ShutOff, Relief, Store}, Content: 0.010, HeatInput: 2e3, ReliefDN: 15}
	found, err := f.Findings()
	sound(t, found, err)
	for _, x := range found {
		if x.Verdict == hydronics.NotMet {
			t.Errorf("%s: %v", x.Rule, x.Verdict)
		}
	}
}

func TestFeedRefusals(t *testing.T) {
	for name, chain := range map[string][]Device{
		"empty": nil, "no cylinder": {ShutOff, Relief}, "cylinder in the middle": {Store, Relief, Store}, "unknown device": {99, Store}, "zero device": {0, Store},
	} {
		f := feed(DIN1988Part200)
		f.Chain = chain
		if found, err := f.Findings(); !errors.Is(err, hydronics.ErrRange) || found != nil {
			t.Errorf("%s: %v, %v", name, found, err)
		}
	}
	if _, err := (Feed{}).Findings(); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("zero value: %v", err)
	}
}

func TestWordsThereAndBack(t *testing.T) {
	for d := ShutOff; d <= Store; d++ {
		if got, ok := ParseDevice(d.String()); !ok || got != d {
			t.Errorf("%v: %v, %v", d, got, ok)
		}
	}
	if _, ok := ParseDevice("unknown"); ok {
		t.Error("unknown is a device")
	}
	for o := OutletG12; o <= OutletG1; o++ {
		if got, ok := ParseOutlet(o.String()); !ok || got != o {
			t.Errorf("%v: %v, %v", o, got, ok)
		}
	}
	for b := DIN1988Part200; b <= UFC342001; b++ {
		if b.String() == "" || b.Jurisdiction() == "" {
			t.Errorf("rulebook %d has no name", b)
		}
	}
	if s := Rulebook(0).String() + Rulebook(200).String() + Rulebook(200).Withdrawn(); s != "" {
		t.Errorf("no rulebook is called %q", s)
	}
	for _, s := range []string{Device(0).String(), Device(200).String(), Outlet(200).String(), Arrangement(200).String(), Point(200).String()} {
		if s != "unknown" {
			t.Errorf("%q", s)
		}
	}
}

func TestOverheating(t *testing.T) {
	good := Overheating{Book: ApprovedDocumentG, Content: 0.2, ReliefTemp: 90, Sources: []HeatSource{{"coil", 60, 80}, {"immersion heater", 65, 85}}}
	for name, c := range map[string]struct {
		change func(*Overheating)
		rule   string
		want   hydronics.Verdict
	}{
		"good":                   {func(*Overheating) {}, "cylinder: a temperature relief valve stands on the cylinder", hydronics.Met},
		"no temperature relief":  {func(o *Overheating) { o.ReliefTemp = 0 }, "cylinder: a temperature relief valve stands on the cylinder", hydronics.NotMet},
		"second source bare":     {func(o *Overheating) { o.Sources[1].CutOut = 0 }, "immersion heater: a cut-out that does not reset itself stops the source", hydronics.NotMet},
		"no thermostat":          {func(o *Overheating) { o.Sources[0].Thermostat = 0 }, "coil: a thermostat controls the source", hydronics.NotMet},
		"cut-out above boiling":  {func(o *Overheating) { o.Sources[0].CutOut = 105 }, "coil: cut-out at most at 100 °C", hydronics.NotMet},
		"thermostat too high":    {func(o *Overheating) { o.Sources[0].Thermostat = 81 }, "coil: thermostat set no higher than the cut-out", hydronics.NotMet},
		"relief above boiling":   {func(o *Overheating) { o.ReliefTemp = 101 }, "cylinder: temperature relief valve opens at 100 °C at most", hydronics.NotMet},
		"US asks from memory":    {func(o *Overheating) { o.Book = IPC2018 }, "cylinder: a temperature relief valve stands on the cylinder", hydronics.MetUnconfirmed},
		"G3 wording from memory": {func(*Overheating) {}, "coil: a thermostat controls the source", hydronics.MetUnconfirmed},
	} {
		o := good
		o.Sources = append([]HeatSource(nil), good.Sources...)
		c.change(&o)
		found, err := o.Findings()
		sound(t, found, err)
		if got, ok := verdicts(found)[c.rule]; !ok || got != c.want {
			t.Errorf("%s: %v, %v, want %v", name, got, ok, c.want)
		}
	}
	small := good
	small.Content, small.ReliefTemp = 0.015, 0
	found, err := small.Findings()
	sound(t, found, err)
	if _, asked := verdicts(found)["cylinder: a temperature relief valve stands on the cylinder"]; asked {
		t.Error("15 l are asked for a temperature relief valve")
	}
	if _, err := (Overheating{Book: DIN1988Part200, Content: 0.2}).Findings(); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("no source: %v", err)
	}
}

func TestFunnel(t *testing.T) {
	good := Funnel{Book: DIN1988Part2, OutletDN: 20, DN: 20, Length: 2, Bends: 2, AirGap: 0.03, DrainDN: 32}
	for name, c := range map[string]struct {
		change func(*Funnel)
		rule   string // "" : all are met
	}{
		"good":            {func(*Funnel) {}, ""},
		"one size larger": {func(f *Funnel) { f.DN, f.Length, f.Bends, f.DrainDN = 25, 4, 3, 40 }, ""},
		"too long":        {func(f *Funnel) { f.Length = 2.1 }, "discharge pipe: discharge pipe at most 2 m of the outlet's size, 4 m one size larger"},
		"too many bends":  {func(f *Funnel) { f.Bends = 3 }, "discharge pipe: at most 2 bends of the outlet's size, 3 one size larger"},
		"narrower":        {func(f *Funnel) { f.DN = 15 }, "discharge pipe: discharge pipe no narrower than the outlet"},
		"no air gap":      {func(f *Funnel) { f.AirGap = 0.019 }, "discharge pipe: end of the discharge at least 20 mm above the funnel"},
		"too high":        {func(f *Funnel) { f.AirGap = 0.041 }, "discharge pipe: end of the discharge at most 40 mm above the funnel"},
		"narrow drain":    {func(f *Funnel) { f.DrainDN = 28 }, "drain: drain after the funnel of twice the cross-section"},
		"Austrian drain":  {func(f *Funnel) { f.Book, f.DrainDN = AustrianPractice, 29 }, "drain: drain of at least DN 30"},
	} {
		f := good
		c.change(&f)
		found, err := f.Findings()
		sound(t, found, err)
		v := verdicts(found)
		if c.rule != "" {
			if got, ok := v[c.rule]; !ok || got != hydronics.NotMet {
				t.Errorf("%s: %v, %v in %v", name, got, ok, v)
			}
			continue
		}
		for rule, got := range v {
			if got != hydronics.Met {
				t.Errorf("%s: %s: %v", name, rule, got)
			}
		}
	}
	for _, bad := range []Funnel{{}, {Book: ApprovedDocumentG, OutletDN: 20, DN: 20, DrainDN: 40}, {Book: DIN1988Part2, OutletDN: 22, DN: 20, DrainDN: 40}} {
		if _, err := bad.Findings(); !errors.Is(err, hydronics.ErrRange) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

func TestOpenEnd(t *testing.T) {
	us := OpenEnd{Book: IPC2018, Outlet: 0.019, Bore: 0.019, End: 0.1, OwnPipe: true, Clear: true}
	nz := OpenEnd{Book: NewZealandG12, Outlet: 0.019, Bore: 0.019, End: 0.2, AirGap: 0.038, Clear: true}
	for name, c := range map[string]struct {
		end    OpenEnd
		change func(*OpenEnd)
		rule   string
	}{
		"US good":    {us, func(*OpenEnd) {}, ""},
		"NZ good":    {nz, func(*OpenEnd) {}, ""},
		"US narrow":  {us, func(d *OpenEnd) { d.Bore = 0.015 }, "discharge pipe: discharge pipe no smaller than the valve's outlet"},
		"US high":    {us, func(d *OpenEnd) { d.End = 0.16 }, "discharge pipe: end low enough above floor, receptor or grate"},
		"US low":     {us, func(d *OpenEnd) { d.End = 0.03 }, "discharge pipe: end high enough above floor, receptor or grate"},
		"US shared":  {us, func(d *OpenEnd) { d.OwnPipe = false }, "discharge pipe: the pipe serves this valve alone"},
		"US trap":    {us, func(d *OpenEnd) { d.Clear = false }, "discharge pipe: no trap, valve, tee or thread at the end, falling all the way"},
		"NZ low":     {nz, func(d *OpenEnd) { d.End = 0.07 }, "discharge pipe: end high enough above floor, receptor or grate"},
		"NZ high":    {nz, func(d *OpenEnd) { d.End = 0.31 }, "discharge pipe: end low enough above floor, receptor or grate"},
		"NZ air gap": {nz, func(d *OpenEnd) { d.AirGap = 0.03 }, "discharge pipe: air gap over the tundish of at least two bores"},
	} {
		d := c.end
		c.change(&d)
		found, err := d.Findings()
		sound(t, found, err)
		v := verdicts(found)
		if c.rule != "" {
			if got, ok := v[c.rule]; !ok || got != hydronics.NotMet {
				t.Errorf("%s: %v, %v in %v", name, got, ok, v)
			}
			continue
		}
		for rule, got := range v {
			if got == hydronics.NotMet {
				t.Errorf("%s: %s: %v", name, rule, got)
			}
		}
	}
	if _, err := (OpenEnd{Book: DIN1988Part2, Outlet: 0.02, Bore: 0.02}).Findings(); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("another book: %v", err)
	}
}

// Devices count from the first place on.
func TestFeedFromTheFirstPlace(t *testing.T) {
	for name, c := range map[string]struct {
		chain []Device
		rule  string
		want  hydronics.Verdict
	}{
		"relief valve first":      {[]Device{Relief, Store}, "relief valve: nothing that can shut, clog or close stands between relief valve and cylinder", hydronics.MetUnconfirmed},
		"only a relief valve":     {[]Device{Relief, Store}, "cold feed: a non-return valve or backflow preventer stands before the relief valve", hydronics.NotMet},
		"non-return valve first":  {[]Device{NonReturn, Relief, Store}, "cold feed: a non-return valve or backflow preventer stands before the relief valve", hydronics.MetUnconfirmed},
		"closed without a vessel": {[]Device{NonReturn, Relief, Store}, "expansion vessel: expansion is controlled where a check valve, backflow preventer or reducer closes the feed", hydronics.NotMet},
		"vessel first":            {[]Device{Vessel, NonReturn, Relief, Store}, "expansion vessel: the vessel hangs between the last closing device and the cylinder", hydronics.NotMet},
		"reducer first":           {[]Device{Reducer, NonReturn, Relief, Vessel, Store}, "pressure reducer: the pressure reducer stands before non-return valve, vessel and relief valve", hydronics.MetUnconfirmed},
		"relief before reducer":   {[]Device{Relief, Reducer, NonReturn, Store}, "pressure reducer: the pressure reducer stands before non-return valve, vessel and relief valve", hydronics.NotMet},
	} {
		f := feed(IPC2018)
		f.Chain = c.chain
		found, err := f.Findings()
		sound(t, found, err)
		if got, ok := verdicts(found)[c.rule]; !ok || got != c.want {
			t.Errorf("%s: %v, %v in %v", name, got, ok, verdicts(found))
		}
	}
}

package job

import "example.com/hydronics"

// A Sheet is what the assessment of a Job says: figures and findings, numbers
// in SI and temperatures in °C, nothing formatted.
type Sheet struct {
	Version      string `json:"version"`              // of the module that calculated it
	JobHash      string `json:"job_sha256,omitempty"` // [Hash] of the job file, where it was read from one
	Title        string `json:"title"`
	Remark       string `json:"remark,omitempty"`
	Jurisdiction string `json:"jurisdiction"`
	Rules        string `json:"rules"`         // of the closed circuit
	PotableRules string `json:"potable_rules"` // of the hot water side
	Liquid       string `json:"liquid"`

	Hazards []string `json:"hazards,omitempty"` // of the antifreeze: poisonous, flammable, corrosive

	FreezingPoint float64 `json:"freezing_point_c"`
	Supply        float64 `json:"supply_c"`
	Return        float64 `json:"return_c"` // mixed from all circuits

	Modes    []Mode      `json:"modes"`
	Tubes    []TubeLine  `json:"tubes"`
	Circuits []TubeLine  `json:"circuits"`
	Content  Content     `json:"content"`
	Vessel   VesselLine  `json:"expansion_vessel"`
	Relief   ReliefLine  `json:"relief_valve"`
	Mixed    []MixedLine `json:"mixing_groups,omitempty"`
	Presets  []Preset    `json:"presets"`
	Cases    []Case      `json:"cases"`
	Frost    []Exposure  `json:"frost"`
	Nights   []NightLine `json:"nights,omitempty"`
	HotWater *HotLine    `json:"hot_water,omitempty"`

	Findings []Finding `json:"findings"`

	// AfterRemedies is how many requirements are still not met when all remedies
	// are applied together; nil if none was looked for or found.
	AfterRemedies *int `json:"not_met_after_remedies,omitempty"`
	// Further is what the remedies ask for when they are applied together.
	Further []Change `json:"further_changes,omitempty"`
}

// ModeHeating, ModeHotWater and ModeHouse name the modes: a buffer that stands
// between parts the heating into the unit's side and the house's.
const (
	ModeHeating  = "heating"
	ModeHotWater = "hot water"
	ModeHouse    = "heating, house side"
)

// A Mode is one way in which the installation runs.
type Mode struct {
	Name      string  `json:"name"` // one of the Mode constants
	Flow      float64 `json:"flow_m3_s"`
	Unit      float64 `json:"unit_loss_pa"`
	Indoor    float64 `json:"indoor_unit_loss_pa"` // 0 without an indoor unit
	Tubes     float64 `json:"tube_loss_pa"`
	Devices   float64 `json:"device_loss_pa"`
	Worst     float64 `json:"index_loss_pa"` // of the index circuit, or of the coil
	Index     string  `json:"index"`
	Required  float64 `json:"required_pa"`
	Available Number  `json:"available_pa"` // NaN beyond the pump curve is written as null
}

// A TubeLine is one line of the tube schedule.
type TubeLine struct {
	Name         string  `json:"name"`
	MixedBy      string  `json:"mixed_by,omitempty"`
	Line         string  `json:"line,omitempty"`   // supply | return
	Serves       string  `json:"serves,omitempty"` // all | heating | hot water
	Tube         string  `json:"tube"`
	Bore         float64 `json:"bore_m"`
	Length       float64 `json:"length_m"`
	Outdoors     bool    `json:"outdoors"`
	Insulation   float64 `json:"insulation_m"`
	Conductivity float64 `json:"insulation_w_mk"`
	Heat         float64 `json:"heat_w"`
	Temperature  float64 `json:"temperature_c"`
	Flow         float64 `json:"flow_m3_s"` // the greater of the modes
	Velocity     float64 `json:"velocity_m_s"`
	Reynolds     float64 `json:"reynolds"`
	Regime       string  `json:"regime"`
	Gradient     float64 `json:"gradient_pa_m"`
	Loss         float64 `json:"loss_pa"`
	Content      float64 `json:"content_m3"`
	MinimumWall  bool    `json:"minimum_wall"` // the true bore is a little smaller
}

// Content is the liquid in the circuit.
type Content struct {
	Unit        float64 `json:"unit_m3"`
	Indoor      float64 `json:"indoor_unit_m3"`
	Tubes       float64 `json:"tubes_m3"`
	Circuits    float64 `json:"circuits_m3"`
	Distributor float64 `json:"distributor_m3"`
	Mixing      float64 `json:"mixing_groups_m3,omitempty"` // without their circuits
	Coil        float64 `json:"coil_m3"`
	Buffer      float64 `json:"buffer_m3"`
	Total       float64 `json:"total_m3"`
	Always      float64 `json:"always_circulating_m3"` // with every circuit shut that can shut
}

// A VesselLine is the expansion vessel with its settings.
type VesselLine struct {
	Needed     float64         `json:"needed_m3"`
	Nominal    float64         `json:"nominal_m3"`
	Chosen     bool            `json:"chosen"` // by this calculation, not given
	Static     float64         `json:"static_pa"`
	Expansion  float64         `json:"expansion_m3"`
	Reserve    float64         `json:"reserve_m3"`
	Precharge  hydronics.Gauge `json:"precharge_pa"`
	FillLeast  hydronics.Gauge `json:"fill_least_pa"`
	FillMost   hydronics.Gauge `json:"fill_most_pa"`
	Filling    hydronics.Gauge `json:"fill_pa"`
	FilledAt   float64         `json:"fill_temperature_c"`
	Cold       hydronics.Gauge `json:"coldest_pa"`
	Hot        hydronics.Gauge `json:"hottest_pa"`
	Final      hydronics.Gauge `json:"final_pa"`
	Inlet      hydronics.Gauge `json:"pump_inlet_least_pa"`   // at the circulator's inlet, at worst
	Vapour     float64         `json:"vapour_hottest_abs_pa"` // of water at the hottest temperature
	Atmosphere float64         `json:"atmosphere_abs_pa"`
	NoVessel   string          `json:"no_vessel,omitempty"` // why none can be found
}

// A ReliefLine is the relief valve of the closed circuit.
type ReliefLine struct {
	Set      hydronics.Gauge `json:"set_pa"`
	Heat     float64         `json:"heat_w"`     // of all sources that can run
	Capacity Number          `json:"capacity_w"` // that leaves as steam; null without a certificate
}

// An Exposure is an outdoor stretch without power.
type Exposure struct {
	Name        string  `json:"name"`
	Tube        string  `json:"tube"`
	Length      float64 `json:"length_m"`
	Insulation  float64 `json:"insulation_m"`
	Start       float64 `json:"start_c"`
	HeatFlow    float64 `json:"heat_flow_w_m"` // at the start
	CoolsTo3    Number  `json:"to_3_c_s"`      // times from the failure of power
	CoolsTo0    Number  `json:"to_0_c_s"`
	FreezesHalf Number  `json:"to_half_ice_s"`
	Never       bool    `json:"never"` // does not come to 0 °C
}

// A NightLine is a line outdoors that drains without power. Times count from the
// failure of power.
type NightLine struct {
	Name          string       `json:"name"`
	EarliestIce   Number       `json:"earliest_ice_s"`
	LatestOpening Number       `json:"latest_opening_s"`
	Emptying      float64      `json:"emptying_s"`
	Margin        float64      `json:"margin_s"`
	NoIce         bool         `json:"no_ice"`
	Unopened      bool         `json:"unopened"` // ice may come although the valves need not have opened
	Left          float64      `json:"leaves_m3"`
	Stays         float64      `json:"stays_m3"`
	Events        []NightEvent `json:"events"`
}

// A NightEvent is a moment of the night.
type NightEvent struct {
	Time float64 `json:"time_s"`
	What string  `json:"what"`
}

// A MixedLine is a mixing group.
type MixedLine struct {
	Name       string  `json:"name"`
	Supply     float64 `json:"supply_c"`
	Return     float64 `json:"return_c"`
	Heat       float64 `json:"heat_w"`
	Flow       float64 `json:"flow_m3_s"`       // of its circuits
	Drawn      float64 `json:"drawn_flow_m3_s"` // from the distributor or the buffer
	Share      float64 `json:"hot_share"`       // of the hot liquid in the flow, by mass
	Valve      float64 `json:"valve_loss_pa"`
	Others     float64 `json:"other_loss_pa"`
	Worst      float64 `json:"index_loss_pa"`
	Index      string  `json:"index"`
	Required   float64 `json:"required_pa"`
	Available  Number  `json:"available_pa"`  // null beyond the pump curve
	Kept       Number  `json:"pump_kept_pa"`  // what its circulator is set to; null where it is too small
	Difference Number  `json:"difference_pa"` // between supply and return where the group is joined
	Authority  Number  `json:"authority"`     // of the mixing valve
	Limiter    Number  `json:"limiter_c"`     // null: none
	Content    float64 `json:"content_m3"`    // without its circuits
}

// A Preset is the setting of a circuit's balancing valve.
type Preset struct {
	Circuit string  `json:"circuit"`
	Flow    float64 `json:"flow_m3_s"`
	Surplus float64 `json:"surplus_pa"`
	Kv      float64 `json:"kv_m3_h"`
}

// A Case is the balanced network with some circuits shut.
type Case struct {
	Name     string  `json:"name"`
	UnitFlow float64 `json:"unit_flow_m3_s"`
	Bypass   float64 `json:"bypass_m3_s"`
	Pressure float64 `json:"pump_pa"`
	Greatest float64 `json:"greatest_velocity_m_s"` // in the circuits that are open
	In       string  `json:"greatest_velocity_in"`
}

// A HotLine is the cylinder.
type HotLine struct {
	Stored       float64         `json:"stored_c"`
	Mixed        float64         `json:"mixed_c"`
	Volume       float64         `json:"mixed_volume_m3"`
	ReheatTime   Number          `json:"reheat_s"`
	ReheatFrom   float64         `json:"reheat_from_c"`
	ReheatHeat   float64         `json:"reheat_heat_j"`
	Standing     float64         `json:"standing_loss_w"`
	Profile      string          `json:"load_profile,omitempty"`
	Unmet        float64         `json:"missing_in_a_day_j"` // of the worst day, as the next two
	LowestOutlet Number          `json:"lowest_outlet_c"`
	Starts       int             `json:"starts_a_day"`
	Expansion    float64         `json:"expansion_m3"`
	Supply       hydronics.Gauge `json:"supply_pa"`
	Relief       hydronics.Gauge `json:"relief_set_pa"`
	ReliefDN     float64         `json:"relief_dn_m"`
	VesselNeed   float64         `json:"vessel_needed_m3"`
	Vessel       float64         `json:"vessel_m3"`
	Precharge    hydronics.Gauge `json:"vessel_precharge_pa"`
	Chosen       bool            `json:"vessel_chosen"`
	D1           float64         `json:"discharge_d1_m"`
	D2           float64         `json:"discharge_d2_m"`
	D2Chosen     bool            `json:"discharge_d2_chosen"`
	ColdFeed     []string        `json:"cold_feed"`
}

// A Finding is one requirement judged, and the part of the installation it
// belongs to.
type Finding struct {
	ID     string // tells it from every other of the sheet, see the package comment
	Part   Part
	Remedy *Remedy // of what is not met, where it was looked for
	hydronics.Finding

	group group
	name  string // what its id names, if the requirement holds for several: mostly the subject
}

// Part orders the findings.
type Part uint8

// The parts, in the order of the sheet.
const (
	Primary Part = iota
	Circuits
	Pressure
	Frost
	Outdoors
	HotWater
)

var parts = [...]string{"primary circuit", "heating circuits", "expansion and relief", "frost", "arrangement outdoors", "hot water"}

// String returns the part in words.
func (p Part) String() string {
	if int(p) < len(parts) {
		return parts[p]
	}
	return "other"
}

// Count returns how many findings have the verdict.
func (s *Sheet) Count(v hydronics.Verdict) int {
	n := 0
	for i := range s.Findings {
		if s.Findings[i].Verdict == v {
			n++
		}
	}
	return n
}

// Failed returns what is not met.
func (s *Sheet) Failed() []Record {
	s.identify()
	var failed []Record
	for i := range s.Findings {
		switch f := &s.Findings[i]; f.Verdict {
		case hydronics.Met, hydronics.MetUnconfirmed, hydronics.MetWithinUncertainty, hydronics.SeeOnSite:
		default:
			failed = append(failed, f.Record())
		}
	}
	return failed
}

// AllMet reports whether no calculated requirement failed. It releases nothing:
// what is to be seen on site is still open.
func (s *Sheet) AllMet() bool { return s.Count(hydronics.NotMet) == 0 }

func (s *Sheet) add(p Part, g group, found ...hydronics.Finding) {
	for i := range found {
		s.addOf(found[i].Subject, p, g, &found[i])
	}
}

// addOf adds a finding whose id is to name something other than its subject.
func (s *Sheet) addOf(name string, p Part, g group, f *hydronics.Finding) {
	s.Findings = append(s.Findings, Finding{Part: p, Finding: *f, group: g, name: name})
}

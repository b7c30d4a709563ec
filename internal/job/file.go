package job

// A Job is one installation, as the job file describes it. See the package
// comment for the struct tags. Heights (the z of points, height_m) count from
// the ground outdoors at the unit.
type Job struct {
	Title        string       `key:"title" doc:"name of the installation, printed on the sheet"`
	Remark       string       `key:"remark" optional:"" doc:"a line of your own, printed under the title"`
	Jurisdiction string       `key:"jurisdiction" one:"AT|DE|ES|GB-EAW|IT|NZ|US" doc:"whose rules apply: ISO 3166 code, GB-EAW is England and Wales"`
	Site         Site         `key:"site" doc:"climate, height and water supply"`
	Liquid       Filling      `key:"liquid" doc:"what fills the heating circuit"`
	Unit         Unit         `key:"outdoor_unit" doc:"the heat pump outdoors with its circulator"`
	Indoor       *IndoorUnit  `key:"indoor_unit" doc:"what stands indoors in series with the outdoor unit, whatever is heated; leave it out if there is none"`
	Routes       []Route      `key:"routes" doc:"the tubes between the unit, the distributor and the cylinder's coil, in the direction of flow"`
	Distribution Distribution `key:"distribution" doc:"distributor and heating circuits"`
	Bypass       *Bypass      `key:"bypass" doc:"differential-pressure bypass between supply and return; leave it out if there is none"`
	Buffer       *Buffer      `key:"buffer" doc:"buffer vessel; leave it out if there is none"`
	FillingLink  FillingLink  `key:"filling_link" doc:"how the circuit is filled"`
	Vessel       Vessel       `key:"expansion_vessel" doc:"expansion vessel of the heating circuit"`
	Relief       Relief       `key:"relief_valve" doc:"relief valve of the heating circuit"`
	Heaters      []Heater     `key:"heaters" optional:"" doc:"every heat source besides the heat pump: immersion heater, back-up heater, stove"`
	Cylinder     *Cylinder    `key:"cylinder" doc:"hot water cylinder with its coil; leave it out if there is none"`
}

// Site is where the installation stands.
type Site struct {
	Altitude  float64   `key:"altitude_m" kind:"length" range:"-400 4000" default:"0" doc:"height above the sea; it sets the atmospheric pressure"`
	Design    float64   `key:"design_temperature_c" kind:"temperature" range:"-50 25" doc:"outdoor temperature for which the heating is designed"`
	Coldest   float64   `key:"coldest_temperature_c" kind:"temperature" range:"-60 25" doc:"the extreme minimum outdoors, on which frost is judged; not the heating design value"`
	Wind      float64   `key:"wind_m_s" kind:"velocity" range:"0 40" default:"5" doc:"wind across the outdoor tubes on the night in question"`
	Hourly    []float64 `key:"hourly_temperature_c" kind:"temperature" range:"-60 40" optional:"" doc:"outdoor temperatures hour by hour from the moment the power fails; left out: coldest_temperature_c all the time"`
	PowerCut  float64   `key:"power_cut_h" kind:"time" range:"0.1 1000" optional:"" doc:"power cut that the water outdoors has to survive; left out: a cut without end"`
	Mains     float64   `key:"mains_pressure_bar" kind:"gauge" range:"0.5 16" doc:"highest static pressure of the water supply at the house"`
	ColdWater float64   `key:"cold_water_c" kind:"temperature" range:"1 30" default:"10" doc:"coldest potable water"`
}

// Filling is the liquid of the heating circuit.
type Filling struct {
	Kind         string  `key:"kind" one:"water|propylene glycol|ethylene glycol|glycerol|ethanol|methanol|potassium formate|potassium acetate|potassium carbonate|calcium chloride|magnesium chloride|sodium chloride" doc:"water, or what is dissolved in it against frost; all but the glycols serve up to 40 °C only"`
	Mass         float64 `key:"mass_percent" range:"0 60" optional:"" doc:"mass of the pure substance per mass of solution; give this or volume_percent, not both"`
	Volume       float64 `key:"volume_percent" range:"0 60" optional:"" doc:"volume of the pure substance in all volumes before mixing at 20 °C; not for salts"`
	FillingWater float64 `key:"filling_temperature_c" kind:"temperature" range:"0 60" default:"10" doc:"temperature at which the circuit is filled"`
	Coldest      float64 `key:"coldest_mean_c" kind:"temperature" range:"-40 60" default:"5" doc:"lowest mean temperature of the circuit's liquid, house unheated"`
	Hottest      float64 `key:"hottest_c" kind:"temperature" range:"30 110" doc:"highest temperature that the limiters of all heat sources allow"`
}

// Unit is the outdoor unit.
type Unit struct {
	Output         float64     `key:"output_kw" kind:"power" range:"1 100" doc:"heat output at the design temperature"`
	GreatestOutput float64     `key:"greatest_output_kw" kind:"power" range:"1 150" doc:"greatest heat output in any weather; relief valves are judged on it"`
	Supply         float64     `key:"supply_c" kind:"temperature" range:"20 80" doc:"supply temperature at the design temperature"`
	HotWaterFlow   float64     `key:"hot_water_flow_l_min" kind:"flow" range:"1 300" optional:"" doc:"flow while the cylinder is heated; needed with a cylinder"`
	LeastFlow      float64     `key:"least_flow_l_min" kind:"flow" range:"0.5 300" doc:"flow below which the unit stops or defrosts badly"`
	LossFlow       float64     `key:"loss_at_flow_l_min" kind:"flow" range:"1 300" doc:"flow for which loss_kpa is stated"`
	Loss           float64     `key:"loss_kpa" kind:"pressure" range:"0 200" doc:"pressure loss in the unit, clean, with water; 0 where pump_curve is what remains outside the unit"`
	Content        float64     `key:"content_l" kind:"volume" range:"0.1 100" doc:"water content of the unit"`
	LeastContent   float64     `key:"least_content_l" kind:"volume" range:"0 2000" doc:"content that must circulate with every zone shut, for running time and defrost"`
	Rating         float64     `key:"rated_bar" kind:"gauge" range:"1 16" doc:"highest allowed pressure of the unit on the water side"`
	Pump           []PumpPoint `key:"pump_curve" doc:"the circulator at full speed, at least three points with rising flow"`
	InletHeight    float64     `key:"pump_inlet_height_m" kind:"length" range:"-100 100" optional:"" doc:"height of the circulator's inlet; left out: where the last return route ends"`
	InletLeast     float64     `key:"pump_inlet_least_bar" kind:"gauge" range:"0 10" optional:"" doc:"pressure that the circulator's papers ask for at its inlet, at hottest_c; left out: only boiling is judged"`
	BeforePump     float64     `key:"loss_before_pump_kpa" kind:"pressure" range:"0 200" optional:"" doc:"of loss_kpa, what the liquid loses before it enters the circulator; 0 where it enters the circulator first; left out: all of it"`
	Flammable      bool        `key:"flammable_refrigerant" doc:"whether the refrigerant can burn"`
	FlowProved     bool        `key:"heat_needs_proved_flow" doc:"whether the unit makes no heat before open valves and flow are proved"`
	ReliefInside   bool        `key:"relief_valve_inside" default:"false" doc:"whether the unit has a relief valve of its own on the water side"`
	Defrost        *Defrost    `key:"defrost" doc:"one defrost, from the papers of the unit"`
}

// IndoorUnit is the indoor part of the heat pump. The liquid of the outdoor unit
// runs through it in every mode.
type IndoorUnit struct {
	LossFlow   float64 `key:"loss_at_flow_l_min" kind:"flow" range:"1 300" doc:"flow for which loss_kpa is stated"`
	Loss       float64 `key:"loss_kpa" kind:"pressure" range:"0 200" doc:"pressure loss in the indoor unit with water, its fittings included, clean; 0 where pump_curve is what remains outside it"`
	Content    float64 `key:"content_l" kind:"volume" range:"0 200" doc:"water content of the indoor unit"`
	BeforePump float64 `key:"loss_before_pump_kpa" kind:"pressure" range:"0 200" optional:"" doc:"of loss_kpa, what the liquid loses between the expansion vessel and the circulator's inlet; 0 where the indoor unit stands in the supply; left out: all of it"`
}

// Defrost is the heat that one defrost takes from the water.
type Defrost struct {
	Heat   float64 `key:"heat_kwh" kind:"energy" range:"0 20" doc:"heat taken from the water"`
	Time   float64 `key:"duration_min" kind:"time" range:"0.1 60" doc:"how long it lasts"`
	Start  float64 `key:"start_c" kind:"temperature" range:"5 70" doc:"water temperature before it, at the least favourable moment"`
	Lowest float64 `key:"lowest_water_c" kind:"temperature" range:"1 40" doc:"lowest water temperature that the unit allows"`
}

// PumpPoint is one point of a pump curve.
type PumpPoint struct {
	Flow float64 `key:"flow_l_min" kind:"flow" range:"0 600" doc:"flow"`
	Head float64 `key:"head_kpa" kind:"pressure" range:"0 500" doc:"pressure rise at that flow"`
}

// Route is a chain of tubes in space.
type Route struct {
	Name       string      `key:"name" doc:"such as: supply, unit to distributor"`
	Line       string      `key:"line" one:"supply|return" doc:"whether it carries the supply or the return of the unit"`
	Serves     string      `key:"serves" one:"all|heating|hot water" default:"all" doc:"the mode in which it flows: up to the diverting valve all, behind it one of them"`
	Tube       string      `key:"tube" doc:"designation of the tube, such as EN 1057 28x1.5; a stretch may change it"`
	Insulation *Insulation `key:"insulation" doc:"insulation of the route; a stretch may change it; left out: bare"`
	Barrier    bool        `key:"oxygen_barrier" default:"false" doc:"of plastic tube: whether it has a layer that keeps oxygen out"`
	Exists     bool        `key:"exists" default:"false" doc:"whether it is there already and only to be judged"`
	Start      [3]float64  `key:"start_m" doc:"where the route begins"`
	Stretches  []Stretch   `key:"stretches" doc:"straight stretches from point to point"`
}

// Stretch is a straight tube from the end of the one before it, and what stands
// at its own end.
type Stretch struct {
	To         [3]float64  `key:"to_m" doc:"where the stretch ends"`
	Outdoors   bool        `key:"outdoors" default:"false" doc:"whether it runs outdoors, or where it can freeze"`
	Tube       string      `key:"tube" optional:"" doc:"another tube from here on"`
	Insulation *Insulation `key:"insulation" doc:"another insulation from here on"`
	Zeta       float64     `key:"zeta" range:"0 100" default:"0" doc:"sum of the resistances of bends and fittings, on the velocity in the tube"`
	Devices    []Device    `key:"devices" optional:"" doc:"what stands at the end of the stretch, in the direction of flow"`
}

// Insulation is a layer around a tube.
type Insulation struct {
	Thickness    float64 `key:"thickness_mm" kind:"small length" range:"0 300" doc:"thickness that is really there; 0 is bare"`
	Conductivity float64 `key:"conductivity_w_mk" kind:"conductivity" range:"0.01 0.5" doc:"declared conductivity at about 10 °C"`
}

// Device is anything in a route that is not tube.
type Device struct {
	Kind       string  `key:"kind" one:"air inlet|air vent, automatic|air vent, manual|closing valve, closed without power|connector|diverting valve|drain cock|drain valve, thermostatic|fill connection|non-return valve|relief valve|shut-off valve|strainer" doc:"what it is"`
	Kv         float64 `key:"kv_m3_h" kind:"kv" range:"0.01 500" optional:"" doc:"flow at 1 bar; of a drain valve: out of it; left out: no loss"`
	Bare       bool    `key:"bare" default:"false" doc:"whether its body is without insulation"`
	Opens      float64 `key:"opens_c" kind:"temperature" range:"0 10" default:"3" doc:"of a thermostatic drain valve: water temperature at which it opens"`
	Tolerance  float64 `key:"tolerance_k" kind:"difference" range:"0 5" default:"1" doc:"of a thermostatic drain valve: how far off opens_c it may open"`
	AdmitsAir  bool    `key:"admits_air" default:"false" doc:"of a thermostatic drain valve: whether it lets air in while water runs out"`
	OutletFree bool    `key:"outlet_free" default:"true" doc:"of a drain valve or an air inlet: whether outlet and air inlet are left without insulation"`
	Shaded     bool    `key:"shaded" default:"true" doc:"of a thermostatic drain valve: whether sun, rain and other heat keep away from it"`
	Stroke     float64 `key:"closes_in_s" kind:"time" range:"0 600" default:"30" doc:"of a closing valve: time to close after the power fails"`
}

// Distribution is the distributor with its circuits.
type Distribution struct {
	Content  float64   `key:"content_l" kind:"volume" range:"0 200" default:"0" doc:"water content of the distributor"`
	Vented   bool      `key:"vented" default:"true" doc:"whether the distributor has air vents"`
	Highest  float64   `key:"highest_point_m" kind:"length" range:"-100 100" doc:"height of the highest point of the heating circuit"`
	Circuits []Circuit `key:"circuits" doc:"every circuit of the distributor"`

	Mixing []MixingGroup `key:"mixing_groups" optional:"" doc:"circuits that a mixing valve supplies with a temperature of their own; they are joined at the distributor, or at a buffer that stands between"`
}

// MixingGroup is a mixing valve with three ports, its circulator and what belongs to
// them. The circuits behind it name it.
type MixingGroup struct {
	Name    string      `key:"name" doc:"such as: floors, ground floor"`
	Supply  float64     `key:"supply_c" kind:"temperature" range:"18 75" doc:"supply temperature that the valve mixes at the design temperature"`
	Kv      float64     `key:"valve_kv_m3_h" kind:"kv" range:"0.1 100" doc:"mixing valve, fully open to either side"`
	Loss    float64     `key:"loss_kpa" kind:"pressure" range:"0 200" default:"0" doc:"loss at the design flow in what else the flow of the whole group passes: tubes, non-return valve, meter"`
	Pump    []PumpPoint `key:"pump_curve" doc:"the group's circulator at full speed, at least three points with rising flow"`
	Content float64     `key:"content_l" kind:"volume" range:"0 200" default:"0" doc:"water content of the group's tubes and distributor, without the circuits"`
	Limiter float64     `key:"limiter_c" kind:"temperature" range:"20 90" optional:"" doc:"setting of a limiter that stops the group's supply whatever the controller does; left out: there is none"`
	Highest float64     `key:"floor_highest_c" kind:"temperature" range:"20 90" optional:"" doc:"highest supply temperature that screed and covering stand, from their papers; left out: to be seen on site"`
}

// Circuit is one loop of the distributor.
type Circuit struct {
	Name    string  `key:"name" doc:"the room or the zone"`
	Emitter string  `key:"emitter" one:"floor|radiator" doc:"what gives the heat"`
	Heat    float64 `key:"heat_w" kind:"power" range:"10 30000" doc:"heat given at the design temperature"`
	Return  float64 `key:"return_c" kind:"temperature" range:"15 75" doc:"return temperature of the circuit"`
	Tube    string  `key:"tube" doc:"designation of the tube"`
	Length  float64 `key:"length_m" kind:"length" range:"1 500" doc:"length of tube, there and back"`
	Zeta    float64 `key:"zeta" range:"0 500" default:"10" doc:"sum of the resistances on the velocity in the tube, emitter included"`
	Kv      float64 `key:"valve_kv_m3_h" kind:"kv" range:"0.01 100" doc:"circuit valve, fully open"`
	Content float64 `key:"emitter_content_l" kind:"volume" range:"0 200" default:"0" doc:"water content of the emitter besides the tube"`
	Barrier bool    `key:"oxygen_barrier" default:"false" doc:"of plastic tube: whether it has a layer that keeps oxygen out"`
	Shuts   bool    `key:"shuts" default:"true" doc:"whether a controller or a thermostatic valve can shut the circuit"`
	MixedBy string  `key:"mixed_by" optional:"" doc:"name of the mixing group that supplies it; left out: it has the supply temperature of the unit"`
}

// Bypass opens where the pressure between supply and return rises.
type Bypass struct {
	Opens float64 `key:"opens_at_kpa" kind:"pressure" range:"1 200" doc:"pressure at which it begins to open"`
	Band  float64 `key:"band_kpa" kind:"pressure" range:"0.5 100" doc:"further rise in which it opens fully"`
	Kv    float64 `key:"kv_m3_h" kind:"kv" range:"0.1 100" doc:"fully open"`
}

// Buffer is a vessel of heating water.
type Buffer struct {
	Content float64     `key:"content_l" kind:"volume" range:"5 5000" doc:"water content"`
	Joined  string      `key:"joined" one:"in the supply|in the return|between" doc:"in series in one of the lines, or between unit and distributor, so that the circuits need a circulator of their own"`
	Pump    []PumpPoint `key:"house_pump_curve" optional:"" doc:"that circulator at full speed; needed with between, unless a mixing group supplies every circuit"`
	Flow    float64     `key:"unit_flow_l_min" kind:"flow" range:"1 300" optional:"" doc:"flow on the unit's side; needed with between"`
}

// FillingLink is the link to the potable water.
type FillingLink struct {
	Permanent bool   `key:"permanent" default:"false" doc:"whether it stays connected, or tops up by itself"`
	Unit      string `key:"backflow_unit" optional:"" doc:"letters of its backflow preventer after EN 1717, such as CA or BA; left out: to be seen on site"`
	Additives bool   `key:"additives" default:"false" doc:"whether the water holds inhibitors or other additives; antifreeze counts by itself"`
}

// Vessel is an expansion vessel. What is left out is chosen.
type Vessel struct {
	Height    float64 `key:"height_m" kind:"length" range:"-100 100" doc:"height of its connection"`
	Side      string  `key:"pump_side" one:"inlet|outlet" default:"inlet" doc:"side of the circulator on which it is connected"`
	StartOf   string  `key:"at_start_of_route" optional:"" doc:"name of the return route at whose beginning it is connected, on the inlet side: what flows in before loses nothing between vessel and circulator; left out: all of the return counts; divide a route where the vessel stands along it"`
	Exists    bool    `key:"exists" default:"false" doc:"whether it is there already and only to be judged"`
	Nominal   float64 `key:"nominal_l" kind:"volume" range:"1 1000" optional:"" doc:"nominal volume; left out: chosen from the usual sizes"`
	Precharge float64 `key:"precharge_bar" kind:"gauge" range:"0 10" optional:"" doc:"pre-charge, measured with the water side relieved; left out: chosen"`
	Filled    float64 `key:"filled_to_bar" kind:"gauge" range:"0 10" optional:"" doc:"pressure at the vessel after filling; left out: chosen"`
}

// Relief is the relief valve of the heating circuit.
type Relief struct {
	Set         float64      `key:"set_bar" kind:"gauge" range:"0.5 10" doc:"set pressure"`
	Height      float64      `key:"height_m" kind:"length" range:"-100 100" doc:"height of the valve"`
	SeesPump    bool         `key:"sees_pump" default:"true" doc:"whether the circulator adds to its pressure: it stands between the circulator's outlet and the vessel"`
	Heat        float64      `key:"heat_kw" kind:"power" range:"1 2000" optional:"" doc:"heat output that its nameplate allows"`
	Certificate *Certificate `key:"certificate" doc:"what its certificate states, to judge it by the steam it lets go; left out: heat_kw counts"`
	Into        string       `key:"discharges_into" one:"open|tundish|container" doc:"where it discharges: in the open, over a tundish into the drain, into a container"`
	Between     []string     `key:"between" one:"open pipe|isolating valve|secured valve|non-return valve|automatic valve|strainer|pressure reducer|quick disconnect" doc:"what lies between the heat sources and the valve, in order; open pipe for nothing"`
	Lowest      float64      `key:"lowest_rating_bar" kind:"gauge" range:"1 25" doc:"lowest pressure rating of all parts that see the circuit's pressure, the unit aside"`
}

// Certificate is the certificate of a relief valve, and the tubes before and
// behind it.
type Certificate struct {
	Seat         float64 `key:"seat_mm" kind:"small length" range:"3 100" doc:"diameter of the narrowest flow"`
	Coefficient  float64 `key:"coefficient" range:"0.05 0.975" doc:"certified discharge coefficient for steam, derated"`
	Overpressure float64 `key:"overpressure_percent" range:"0 25" default:"10" doc:"rise over the set pressure at which it is fully open"`
	DN           int     `key:"dn_mm" kind:"" range:"8 100" doc:"nominal size of the inlet"`
	Inlet        Pipe    `key:"inlet" doc:"tube from the circuit to the valve"`
	Outlet       Pipe    `key:"outlet" doc:"tube from the valve to its end"`
}

// Pipe is a short tube of its own.
type Pipe struct {
	Bore   float64 `key:"bore_mm" kind:"small length" range:"5 100" doc:"bore"`
	Length float64 `key:"length_m" kind:"length" range:"0 50" doc:"length"`
	Zeta   float64 `key:"zeta" range:"0 100" default:"1.5" doc:"sum of the resistances, entry included"`
}

// Heater is a heat source besides the heat pump.
type Heater struct {
	Name       string  `key:"name" doc:"such as: immersion heater"`
	Power      float64 `key:"power_kw" kind:"power" range:"0.1 200" doc:"greatest output"`
	Heats      string  `key:"heats" one:"circuit|cylinder" doc:"what it heats"`
	Thermostat float64 `key:"thermostat_c" kind:"temperature" range:"20 110" optional:"" doc:"setting of its control thermostat; left out: it has none"`
	CutOut     float64 `key:"cut_out_c" kind:"temperature" range:"20 130" optional:"" doc:"setting of its cut-out that does not reset itself; left out: it has none"`
}

// Cylinder is the potable side.
type Cylinder struct {
	Content     float64       `key:"content_l" kind:"volume" range:"10 2000" doc:"potable water in the cylinder"`
	Rating      float64       `key:"rated_bar" kind:"gauge" range:"1 16" doc:"pressure for which the cylinder is rated"`
	Lowest      float64       `key:"lowest_rating_bar" kind:"gauge" range:"1 25" doc:"lowest rating of all other parts of the potable side"`
	Top         float64       `key:"top_m" kind:"length" range:"-100 100" doc:"height of its top"`
	Stored      float64       `key:"stored_c" kind:"temperature" range:"30 90" doc:"storage temperature"`
	Hottest     float64       `key:"hottest_c" kind:"temperature" range:"40 99" doc:"highest temperature that any heat source can bring it to"`
	Thermostat  float64       `key:"charging_thermostat_c" kind:"temperature" range:"20 95" optional:"" doc:"thermostat that stops charging by the heat pump; left out: there is none"`
	CutOut      float64       `key:"charging_cut_out_c" kind:"temperature" range:"20 110" optional:"" doc:"cut-out against overheating by the heat pump that does not reset itself; left out: there is none"`
	ReliefTemp  float64       `key:"temperature_relief_c" kind:"temperature" range:"60 120" optional:"" doc:"setting of a temperature relief valve on the cylinder; left out: there is none"`
	CoilWalls   int           `key:"coil_walls" kind:"" range:"1 2" default:"1" doc:"walls between heating water and potable water: 2 with a leak space between"`
	Layers      int           `key:"layers" kind:"" range:"1 20" default:"5" doc:"equal mixed layers that stand for its stratification: 1 fully mixed"`
	Exists      bool          `key:"exists" default:"false" doc:"whether it is there already and only to be judged"`
	Room        float64       `key:"room_c" kind:"temperature" range:"0 40" default:"15" doc:"temperature around it"`
	Standing    float64       `key:"standing_loss_w" kind:"power" range:"0 500" doc:"declared standing loss"`
	CoilContent float64       `key:"coil_content_l" kind:"volume" range:"0 100" doc:"heating water in the coil"`
	CoilFlow    float64       `key:"coil_loss_at_flow_l_min" kind:"flow" range:"1 300" doc:"flow for which coil_loss_kpa is stated"`
	CoilLoss    float64       `key:"coil_loss_kpa" kind:"pressure" range:"0 200" doc:"pressure loss of the coil"`
	Power       []HeaterPoint `key:"charging_power" doc:"heat that reaches the cylinder, by its temperature; one point: constant"`
	Demand      Demand        `key:"demand" doc:"what is asked of it"`
	Potable     Potable       `key:"potable" doc:"pressures and fittings of the potable side"`
	Tundish     *Tundish      `key:"discharge_tundish" doc:"discharge with a tundish (GB-EAW)"`
	Funnel      *Funnel       `key:"discharge_funnel" doc:"discharge over a funnel (AT, DE)"`
	OpenEnd     *OpenEnd      `key:"discharge_open" doc:"discharge with an open end (NZ, US)"`
	CoilTop     float64       `key:"coil_reaches_percent" range:"5 100" default:"60" doc:"height to which the coil heats, in parts of the cylinder"`
	Sensor      float64       `key:"sensor_percent" range:"0 100" default:"50" doc:"height of the charging sensor, in parts of the cylinder"`
	Hysteresis  float64       `key:"starts_below_k" kind:"difference" range:"1 30" default:"6" doc:"how far below stored_c the sensor starts charging"`
	ColdFeed    []string      `key:"cold_feed" one:"backflow preventer|cold branch|drain cock|expansion vessel|non-return valve|pressure gauge|pressure reducer|relief valve|shut-off valve|strainer" doc:"fittings in order from the main to the cylinder; cold branch: where a line to cold taps or to the cold side of mixing valves leaves"`
}

// HeaterPoint is charging power at a temperature of the cylinder.
type HeaterPoint struct {
	Store float64 `key:"store_c" kind:"temperature" range:"0 95" doc:"temperature of the cylinder"`
	Power float64 `key:"power_kw" kind:"power" range:"0 200" doc:"heat that reaches it"`
}

// Demand is what is asked of the hot water.
type Demand struct {
	Mixed        float64 `key:"mixed_c" kind:"temperature" range:"30 60" default:"40" doc:"temperature of the mixed water that is counted"`
	Volume       float64 `key:"mixed_volume_l" kind:"volume" range:"1 5000" doc:"mixed water that one charge has to give"`
	ReheatFrom   float64 `key:"reheat_from_c" kind:"temperature" range:"1 80" doc:"temperature from which reheating is judged"`
	Profile      string  `key:"load_profile" one:"3XS|XXS|XS|S|M|L|XL|XXL|3XL|4XL" optional:"" doc:"EU load profile of the household, for the days at the cylinder: they are followed until they repeat, ten at most, and the worst counts; left out: none is followed"`
	Outlet       float64 `key:"hot_tap_c" kind:"temperature" range:"20 90" optional:"" doc:"hot tap, fully open for half a minute, planned or measured"`
	Bath         float64 `key:"bath_outlet_c" kind:"temperature" range:"20 90" optional:"" doc:"outlet that fills the bath, behind its mixing valve"`
	Circulation  float64 `key:"circulation_return_c" kind:"temperature" range:"20 90" optional:"" doc:"return of the hot water circulation; left out: there is none"`
	ReheatWithin float64 `key:"reheat_within_h" kind:"time" range:"0.1 48" doc:"time in which the cylinder has to be hot again"`
}

// Potable holds the safety fittings of the potable side.
type Potable struct {
	Set       float64 `key:"relief_set_bar" kind:"gauge" range:"1 16" doc:"set pressure of the cylinder's relief valve"`
	DN        float64 `key:"relief_dn_mm" kind:"small length" range:"10 50" doc:"nominal size of its inlet"`
	Reducer   float64 `key:"reducer_bar" kind:"gauge" range:"0.5 10" optional:"" doc:"setting of the pressure reducer; left out: none"`
	Height    float64 `key:"relief_height_m" kind:"length" range:"-100 100" optional:"" doc:"height of the relief valve; left out: at the top of the cylinder"`
	Branch    float64 `key:"relief_branch_m" kind:"length" range:"0 20" default:"0" doc:"pipe from the cold feed to the relief valve"`
	Shuts     bool    `key:"relief_branch_shuts" default:"false" doc:"whether a valve or anything else that can shut, clog or close stands in that pipe"`
	Vessel    float64 `key:"vessel_l" kind:"volume" range:"1 500" optional:"" doc:"nominal volume of the potable expansion vessel; left out: chosen"`
	Precharge float64 `key:"vessel_precharge_bar" kind:"gauge" range:"0.5 10" optional:"" doc:"its pre-charge; left out: chosen"`
}

// Tundish is a discharge pipe with a tundish, after Approved Document G.
type Tundish struct {
	Outlet  string  `key:"outlet" one:"G1/2|G3/4|G1" doc:"thread of the valve's outlet"`
	D1      float64 `key:"d1_mm" kind:"small length" range:"10 60" doc:"outside diameter of the copper tube from the valve to the tundish"`
	D2      float64 `key:"d2_mm" kind:"small length" range:"10 60" optional:"" doc:"outside diameter of the copper tube after the tundish; left out: chosen"`
	Length  float64 `key:"length_m" kind:"length" range:"0 100" doc:"length of the pipe after the tundish"`
	Bends   int     `key:"bends" kind:"" range:"0 50" doc:"elbows and bends after the tundish"`
	Tundish float64 `key:"tundish_distance_mm" kind:"small length" range:"0 5000" doc:"distance from the valve to the tundish"`
	Drop    float64 `key:"vertical_mm" kind:"small length" range:"0 10000" doc:"straight vertical pipe under the tundish"`
	Fall    float64 `key:"fall_mm" kind:"small length" range:"0 500" doc:"fall of the pipe over each metre of length"`
}

// Funnel is a discharge pipe over a funnel, after the German and Austrian rules.
type Funnel struct {
	OutletDN int     `key:"outlet_dn_mm" kind:"" range:"10 50" doc:"nominal size of the valve's outlet: 10, 15, 20, 25, 32, 40 or 50"`
	DN       int     `key:"dn_mm" kind:"" range:"10 50" doc:"nominal size of the discharge pipe: 10, 15, 20, 25, 32, 40 or 50"`
	Length   float64 `key:"length_m" kind:"length" range:"0 100" doc:"length of the discharge pipe"`
	Bends    int     `key:"bends" kind:"" range:"0 50" doc:"its bends"`
	AirGap   float64 `key:"air_gap_mm" kind:"small length" range:"0 500" doc:"from its end to the rim of the funnel"`
	DrainDN  int     `key:"drain_dn_mm" kind:"" range:"10 150" doc:"nominal size of the drain after the funnel"`
}

// OpenEnd is a discharge pipe with an open end, after the US and New Zealand rules.
type OpenEnd struct {
	Outlet  float64 `key:"outlet_bore_mm" kind:"small length" range:"5 100" doc:"bore of the valve's outlet"`
	Bore    float64 `key:"bore_mm" kind:"small length" range:"5 100" doc:"bore of the discharge pipe"`
	End     float64 `key:"end_height_mm" kind:"small length" range:"0 5000" doc:"height of its end above floor, receptor or grate"`
	AirGap  float64 `key:"air_gap_mm" kind:"small length" range:"0 500" default:"0" doc:"above the rim of a tundish (New Zealand)"`
	OwnPipe bool    `key:"serves_one_valve" doc:"whether the pipe serves this valve alone"`
	Clear   bool    `key:"clear_end" doc:"whether it falls all the way, without trap, valve, tee or thread at the end"`
}

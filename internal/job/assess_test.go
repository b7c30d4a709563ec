package job

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/hydronics"
)

func sheetOf(t *testing.T, j *Job) *Sheet {
	t.Helper()
	s, err := Assess(j)
	require.NoError(t, err)
	return s
}

// verdict returns the worst verdict of the findings with a rule.
func verdict(t *testing.T, s *Sheet, rule string) hydronics.Verdict {
	t.Helper()
	found := false
	worst := hydronics.Met
	for i := range s.Findings {
		if f := &s.Findings[i]; f.Rule == rule {
			found = true
			if f.Verdict == hydronics.NotMet {
				return hydronics.NotMet
			}
			worst = f.Verdict
		}
	}
	require.True(t, found, rule)
	return worst
}

// Content is only lengths and bores: counted here from the dimensions of EN 1057
// and EN ISO 15875 that stand in the designations.
func TestContentFromTheDrawing(t *testing.T) {
	j := load(t, "jobs/hand-calculation.json")
	s := sheetOf(t, j)
	tubes := 0.0
	for i := range j.Routes {
		from := j.Routes[i].Start
		for _, x := range j.Routes[i].Stretches {
			tubes += math.Sqrt(square(x.To[0]-from[0]) + square(x.To[1]-from[1]) + square(x.To[2]-from[2]))
			from = x.To
		}
	}
	const bore28, bore16 = 0.025, 0.013
	assert.InDelta(t, math.Pi/4*bore28*bore28*tubes, s.Content.Tubes, 1e-12)
	assert.InDelta(t, math.Pi/4*bore16*bore16*160+0.010, s.Content.Circuits, 1e-12)
	assert.InDelta(t, s.Content.Unit+s.Content.Tubes+s.Content.Circuits+s.Content.Distributor+s.Content.Coil, s.Content.Total, 1e-12)
}

// An indoor unit is in series with the outdoor one: it adds its stated loss,
// squared with the flow and in proportion to the density, to every mode on the
// unit's side, and its content. At the demonstration's supply of 40 °C water has
// 992.22 kg/m³ at 0.1 MPa and a compressibility of 4.42e-10/Pa (G. S. Kell, J. Chem.
// Eng. Data 20 (1975) 97, from memory); the circuit's liquid is taken at 0.3 MPa.
func TestIndoorUnit(t *testing.T) {
	const density40 = 992.22 * (1 + 0.2e6*4.42e-10)
	for _, name := range []string{"demo.json", "jobs/buffer-stove.json"} {
		j := load(t, name)
		before := sheetOf(t, j)
		unit := IndoorUnit{LossFlow: j.Unit.HotWaterFlow, Loss: 4 * hydronics.Kilopascal, Content: 2.5 * hydronics.Litre, BeforePump: math.NaN()}
		j.Indoor = &unit
		after := sheetOf(t, j)
		assert.InDelta(t, unit.Content, after.Content.Total-before.Content.Total, 1e-12, name)
		assert.InDelta(t, unit.Content, after.Content.Always-before.Content.Always, 1e-12, name)
		assert.Greater(t, after.Vessel.Needed, before.Vessel.Needed, name)
		require.Len(t, after.Modes, len(before.Modes))
		stated := 0.0 // at the flow for which it is stated
		for i, m := range after.Modes {
			if m.Name == ModeHotWater {
				stated = m.Required - before.Modes[i].Required
			}
		}
		if name == "demo.json" {
			assert.InEpsilon(t, unit.Loss*density40/1000, stated, 1e-5)
		}
		for i, m := range after.Modes {
			share := stated * square(m.Flow/unit.LossFlow)
			if m.Name == ModeHouse {
				share = 0
			}
			assert.InDelta(t, share, m.Required-before.Modes[i].Required, 1e-8, "%s %s", name, m.Name)
			assert.InDelta(t, share, m.Indoor, 1e-8, "%s %s", name, m.Name)
			assert.InDelta(t, before.Modes[i].Unit, m.Unit, 1e-12, "%s %s", name, m.Name)
		}
	}
}

// With every circuit open the circulator keeps what the design needs: the indoor
// unit's loss comes on top, and the flows stay.
func TestIndoorUnitInTheNetwork(t *testing.T) {
	j := load(t, "demo.json")
	before := sheetOf(t, j)
	j.Indoor = &IndoorUnit{LossFlow: j.Unit.LossFlow, Loss: 4 * hydronics.Kilopascal, Content: 2.5 * hydronics.Litre, BeforePump: math.NaN()}
	after := sheetOf(t, j)
	require.NotEmpty(t, before.Cases)
	assert.InEpsilon(t, before.Cases[0].UnitFlow, after.Cases[0].UnitFlow, 2e-3)
	assert.InDelta(t, after.Modes[0].Indoor, after.Cases[0].Pressure-before.Cases[0].Pressure, 20)
	for i := range before.Presets {
		assert.InDelta(t, before.Presets[i].Surplus, after.Presets[i].Surplus, 60, "the circuits see no more than before")
	}
}

// The inlet of the circulator by hand, from the losses and the least filling
// pressure of the hand calculation beside the job files. Water at 60 °C: 983.2 kg/m³,
// boils at 19.946 kPa (IAPWS-IF97 steam tables, from memory).
func TestPumpInlet(t *testing.T) {
	const (
		boils   = "the liquid does not boil at the circulator's inlet, at the hottest and with the lowest filling pressure"
		asked   = "the circulator's inlet keeps the pressure that its papers ask for"
		filled  = 104.5e3
		loss    = 19.85e3 + 2488 + 918 + 1434 // unit, friction, bends, strainer of the return
		static  = 983.2 * 9.80665 * (0.5 - 0.4)
		byHand  = filled + static - loss
		vapour  = 19.946e3
		rounded = 60 // Pa, of the filling pressure in bar with three decimals and of the losses
	)
	inlet := func(s *Sheet, rule string) *Finding {
		for i := range s.Findings {
			if s.Findings[i].Rule == rule {
				return &s.Findings[i]
			}
		}
		return nil
	}
	j := load(t, "jobs/hand-calculation.json")
	s := sheetOf(t, j)
	assert.InDelta(t, byHand, float64(s.Vessel.Inlet), rounded)
	f := inlet(s, boils)
	require.NotNil(t, f)
	assert.InDelta(t, byHand+101325, f.Value, rounded)
	assert.InDelta(t, vapour, f.Limit, 1)
	assert.Equal(t, hydronics.Met, f.Verdict)
	assert.Nil(t, inlet(s, asked), "nothing is asked for")

	j.Unit.InletLeast = byHand - 6e3 // further than the losses are uncertain
	assert.Equal(t, hydronics.Met, verdict(t, sheetOf(t, j), asked))
	j.Unit.InletLeast = byHand + 1e3
	assert.Equal(t, hydronics.NotMet, verdict(t, sheetOf(t, j), asked))

	j.Unit.InletLeast = math.NaN()
	j.Unit.InletHeight = 0.4 + 1
	lower := float64(sheetOf(t, j).Vessel.Inlet)
	assert.InDelta(t, byHand-983.2*9.80665, lower, rounded, "a metre higher")
	j.Unit.InletHeight = 0.4 + 18 // above what the atmosphere and the filling hold up
	assert.Equal(t, hydronics.NotMet, verdict(t, sheetOf(t, j), boils))
}

// Where the vessel is connected the circulator changes nothing (the neutral point:
// Taylor, ASHRAE Journal, November 2016). Between it and the inlet lies on the
// inlet side what the liquid loses on its way, on the outlet side the head of the
// circulator, all of it when nothing flows. Figures of the hand calculation.
func TestPumpInletByArrangement(t *testing.T) {
	const (
		static  = 983.2 * 9.80665 * (0.5 - 0.4)
		filled  = 104.5e3
		unit    = 19.85e3
		metre   = 235.6 // friction of the return at 20 l/min
		bend    = 918.0 / 4
		rounded = 60
	)
	inlet := func(change func(*Job)) float64 {
		j := load(t, "jobs/hand-calculation.json")
		change(j)
		return float64(sheetOf(t, j).Vessel.Inlet)
	}
	// The return divided where the strainer stands, after 4 m and one bend.
	divide := func(j *Job) {
		second := j.Routes[1]
		second.Name, second.Start, second.Stretches = "return, riser to unit", second.Stretches[0].To, second.Stretches[1:]
		j.Routes[1].Stretches = j.Routes[1].Stretches[:1]
		j.Routes = append(j.Routes, second)
	}
	whole := filled + static - (unit + 10.56*metre + 4*bend + 1434)
	assert.InDelta(t, whole, inlet(func(*Job) {}), rounded)
	assert.InDelta(t, whole, inlet(divide), rounded, "nothing is said about the vessel's place")
	assert.InDelta(t, whole+unit, inlet(func(j *Job) { j.Unit.BeforePump = 0 }), rounded, "the circulator before the exchanger")
	assert.InDelta(t, whole+unit-0.9923*5e3, inlet(func(j *Job) { j.Unit.BeforePump = 5e3 }), rounded, "in the middle of the unit")
	assert.InDelta(t, whole, inlet(func(j *Job) { divide(j); j.Vessel.StartOf = j.Routes[1].Name }), rounded, "at the beginning")
	nearer := func(j *Job) { divide(j); j.Vessel.StartOf = "return, riser to unit" }
	assert.InDelta(t, whole+4*metre+bend+1434, inlet(nearer), rounded, "behind the strainer")
	assert.InDelta(t, whole+4*metre+bend+1434, inlet(func(j *Job) {
		nearer(j)
		j.Routes[1], j.Routes[2] = j.Routes[2], j.Routes[1] // the order in the file says nothing here
		j.Unit.InletHeight = 0.4
	}), rounded)
	assert.InDelta(t, whole, inlet(func(j *Job) {
		nearer(j)
		j.Routes[1].Stretches[0].To[2] += 0.01 // does not lead into the next: counted, on the safe side
	}), rounded)
	// Filled so that the reserve of 3.015 l is in a vessel of 18 l charged to 1.4 bar:
	// 2.413 bar · 18/(18 - 3.015) - 1.013 bar. The circulator has 70 kPa without flow.
	assert.InDelta(t, 188.55e3+static-70e3, inlet(func(j *Job) {
		j.Vessel.Side, j.Vessel.Precharge, j.Vessel.Filled = "outlet", 1.4e5, 1.95e5
	}), rounded)
}

// What cannot be placed is refused with its path.
func TestPumpInletRefuses(t *testing.T) {
	for path, change := range map[string]func(*Job){
		"expansion_vessel.at_start_of_route": func(j *Job) { j.Vessel.StartOf = j.Routes[0].Name }, // a supply
		"outdoor_unit.loss_before_pump_kpa":  func(j *Job) { j.Unit.BeforePump = 1.01 * j.Unit.Loss },
		"indoor_unit.loss_before_pump_kpa": func(j *Job) {
			j.Indoor = &IndoorUnit{LossFlow: 3e-4, Loss: 4e3, BeforePump: 5e3}
		},
	} {
		j := load(t, "jobs/hand-calculation.json")
		change(j)
		_, err := Assess(j)
		assert.ErrorContains(t, err, path)
	}
	j := load(t, "jobs/hand-calculation.json")
	j.Vessel.Side, j.Vessel.StartOf = "outlet", j.Routes[1].Name
	_, err := Assess(j)
	assert.ErrorContains(t, err, "with pump_side outlet")
}

// A pump that asks for more at its inlet gets it from a higher pre-charge, never
// from a higher relief setting.
func TestRemediesOfThePumpInlet(t *testing.T) {
	j := load(t, "demo.json")
	j.Unit.InletLeast = 0.8 * hydronics.Bar
	s := sheetOf(t, j)
	require.Equal(t, 1, s.Count(hydronics.NotMet))
	cured, after := Remedies(j, s)
	require.NotNil(t, cured)
	assert.Zero(t, after.Count(hydronics.NotMet))
	assert.Greater(t, float64(after.Vessel.Inlet), 0.8*hydronics.Bar)
	assert.InDelta(t, j.Relief.Set, cured.Relief.Set, 0)
}

// The network of the balanced circuits has the design flows when all are open,
// and the unit's flow never grows when circuits shut.
func TestCases(t *testing.T) {
	for _, name := range []string{"demo.json", "jobs/glycol.json", "jobs/zones-bypass.json", "jobs/radiators.json", "jobs/buffer-stove.json"} {
		j := load(t, name)
		s := sheetOf(t, j)
		require.NotEmpty(t, s.Cases, name)
		design := 0.0
		for i := range s.Circuits {
			design += s.Circuits[i].Flow
		}
		// The same mass: the unit's volume is counted at the return temperature, the
		// circuits' at their means.
		assert.InDelta(t, 1, (s.Cases[0].UnitFlow-s.Cases[0].Bypass)/design, 0.003, name)
		for i := 1; i < len(s.Cases); i++ {
			assert.LessOrEqual(t, s.Cases[i].UnitFlow, s.Cases[i-1].UnitFlow*(1+1e-9), name)
		}
	}
}

// Without its bypass the bungalow cannot keep the unit's flow.
func TestBypassKeepsTheFlow(t *testing.T) {
	const rule = "the unit keeps its least flow whatever circuits are shut"
	j := load(t, "jobs/zones-bypass.json")
	assert.Equal(t, hydronics.Met, verdict(t, sheetOf(t, j), rule))
	j.Bypass = nil
	assert.Equal(t, hydronics.NotMet, verdict(t, sheetOf(t, j), rule))
}

// One slip at a time in a sound installation: the sheet finds it, by its own rule.
func TestEachSlipIsFound(t *testing.T) {
	known := nights{}
	for name, c := range map[string]struct {
		job  string
		slip func(*Job)
		rule string
	}{
		"glycol too thin":                {"jobs/glycol.json", func(j *Job) { j.Liquid.Mass = 0.2 }, "the first ice forms below the extreme minimum outdoors"},
		"glycol into the drain":          {"jobs/glycol.json", func(j *Job) { j.Relief.Into = "tundish" }, "with antifreeze the relief valve discharges into a container"},
		"glycol topped up":               {"jobs/glycol.json", func(j *Job) { j.FillingLink.Permanent = true }, "with antifreeze nothing tops the circuit up from the mains"},
		"poison beside drinking water":   {"jobs/glycol.json", func(j *Job) { j.Liquid.Kind = "ethylene glycol" }, "two walls and a leak space between them part a poisonous antifreeze from potable water"},
		"methanol beside drinking water": {"jobs/glycol.json", func(j *Job) { cool(j); j.Liquid.Kind, j.Liquid.Mass = "methanol", 0.25 }, "two walls and a leak space between them part a poisonous antifreeze from potable water"},
		"salt into the drain":            {"jobs/alcohol-floors.json", func(j *Job) { j.Liquid.Kind, j.Relief.Into = "potassium formate", "tundish" }, "with antifreeze the relief valve discharges into a container"},
		"alcohol topped up":              {"jobs/alcohol-floors.json", func(j *Job) { j.FillingLink.Permanent = true }, "with antifreeze nothing tops the circuit up from the mains"},
		"alcohol behind check valves":    {"jobs/alcohol-floors.json", func(j *Job) { j.FillingLink.Unit = "CA" }, "the backflow preventer of the filling link protects against the circuit's fluid category"},
		"alcohol too warm":               {"jobs/alcohol-floors.json", func(j *Job) { j.Heaters[0].CutOut = 60 }, "a solution that is no glycol gets no hotter than 40 °C"},
		"alcohol without a limiter":      {"jobs/alcohol-floors.json", func(j *Job) { j.Heaters[0].CutOut, j.Heaters[0].Thermostat = math.NaN(), math.NaN() }, "a solution that is no glycol gets no hotter than 40 °C"},
		"salt in the coil of a cylinder": {"jobs/glycol.json", func(j *Job) { cool(j); j.Liquid.Kind, j.Liquid.Mass = "calcium chloride", 0.25 }, "a solution that is no glycol gets no hotter than 40 °C"},
		"drain valves with alcohol": {"jobs/alcohol-floors.json", func(j *Job) {
			d := newDevice(drainThermostatic)
			d.Kv = 1
			j.Routes[0].Stretches[0].Devices = append(j.Routes[0].Stretches[0].Devices, d)
		}, "no automatic drain valve in an antifreeze solution"},
		"drain valves with glycol": {"jobs/glycol.json", func(j *Job) {
			d := newDevice(drainThermostatic)
			d.Kv = 1
			j.Routes[0].Stretches[0].Devices = append(j.Routes[0].Stretches[0].Devices, d)
		}, "no automatic drain valve in an antifreeze solution"},
		"no drain valve":         {"demo.json", func(j *Job) { dropDevices(j, drainThermostatic) }, "a drain valve at the low point"},
		"no closing valve":       {"demo.json", func(j *Job) { dropDevices(j, closingValve) }, "a valve that closes without power stands just indoors, so that only the outdoor water drains"},
		"no relief at the unit":  {"demo.json", func(j *Job) { j.Unit.ReliefInside = false }, "a relief valve stands on the unit's side of the closing valves"},
		"no strainer":            {"demo.json", func(j *Job) { dropDevices(j, strainer) }, "a strainer stands in the return to the unit"},
		"no vent":                {"demo.json", func(j *Job) { dropDevices(j, ventAutomatic) }, "an air vent at every high point"},
		"tube without a barrier": {"demo.json", func(j *Job) { j.Distribution.Circuits[0].Barrier = false }, "plastic tube has a layer that keeps oxygen out"},
		"valve shut":             {"demo.json", func(j *Job) { j.Relief.Between = []string{"isolating valve"} }, "nothing between a heat source and its relief valve can close or block, automatic valves included"},
		"weak part":              {"demo.json", func(j *Job) { j.Relief.Lowest = 2.5e5 }, "the set pressure is at most the lowest rated pressure in the circuit"},
		"small vessel":           {"demo.json", func(j *Job) { j.Vessel.Nominal = 0.008 }, "the vessel takes expansion and reserve between its pre-charge and the final pressure"},
		"lost charge":            {"demo.json", func(j *Job) { j.Vessel.Precharge = 0.1e5 }, "the pre-charge holds the weight of the liquid above, the vapour pressure and the margin"},
		"cold store":             {"demo.json", func(j *Job) { j.Cylinder.Stored = 52 }, "stored water hot enough"},
		"no cut-out":             {"demo.json", func(j *Job) { j.Heaters[0].CutOut = math.NaN() }, "a cut-out that does not reset itself stops the source"},
		"valve in the feed": {"demo.json", func(j *Job) {
			j.Cylinder.ColdFeed = append(j.Cylinder.ColdFeed, "shut-off valve")
		}, "nothing that can shut, clog or close stands between relief valve and cylinder"},
		"valve before the relief valve": {"demo.json", func(j *Job) { j.Cylinder.Potable.Shuts = true },
			"nothing that can shut, clog or close stands between relief valve and cylinder"},
		"cold tap on the hot side": {"demo.json", func(j *Job) {
			j.Cylinder.ColdFeed = append(j.Cylinder.ColdFeed, "cold branch")
		}, "cold branches leave the feed before the last non-return valve or backflow preventer"},
	} {
		t.Run(name, func(t *testing.T) {
			j := load(t, c.job)
			s, err := assess(j, known)
			require.NoError(t, err)
			require.Zero(t, s.Count(hydronics.NotMet))
			c.slip(j)
			s, err = assess(j, known)
			require.NoError(t, err)
			assert.Equal(t, hydronics.NotMet, verdict(t, s, c.rule))
		})
	}
}

// cool takes the circuit down to what alcohols and salts stand; the cylinder's own
// heater stays as it is.
func cool(j *Job) {
	j.Unit.Supply, j.Liquid.Hottest = 40, 40
}

func dropDevices(j *Job, kind string) {
	for i := range j.Routes {
		for k := range j.Routes[i].Stretches {
			s := &j.Routes[i].Stretches[k]
			var kept []Device
			for _, d := range s.Devices {
				if d.Kind != kind {
					kept = append(kept, d)
				}
			}
			s.Devices = kept
		}
	}
}

// A longer cut, thinner insulation or a colder night never helps.
func TestFrostIsMonotone(t *testing.T) {
	j := load(t, "demo.json")
	dropDevices(j, drainThermostatic)
	time := func(change func(*Job)) float64 {
		c := clone(j)
		change(c)
		return float64(sheetOf(t, c).Frost[0].CoolsTo0)
	}
	last := math.Inf(1)
	for _, cold := range []float64{-5, -10, -15, -20, -30} {
		now := time(func(j *Job) { j.Site.Coldest = cold })
		assert.Less(t, now, last, "%g °C", cold)
		last = now
	}
	last = 0
	for _, mm := range []float64{10, 20, 40, 80} {
		now := time(func(j *Job) { j.Routes[0].Insulation.Thickness = mm / 1000 })
		assert.Greater(t, now, last, "%g mm", mm)
		last = now
	}
}

// Hourly temperatures that never change are the constant cold.
func TestHourlyTemperatures(t *testing.T) {
	j := load(t, "demo.json")
	constant := sheetOf(t, j).Frost[0]
	j.Site.Hourly = make([]float64, 48)
	for i := range j.Site.Hourly {
		j.Site.Hourly[i] = j.Site.Coldest
	}
	hourly := sheetOf(t, j).Frost[0]
	assert.InEpsilon(t, float64(constant.CoolsTo0), float64(hourly.CoolsTo0), 1e-9)
}

// A sheet of a series owes nothing to the installation before it.
func TestSeriesForgets(t *testing.T) {
	all := installations(t)
	names := slices.Sorted(maps.Keys(all))
	order := append(slices.Clone(names), names...)
	rand.New(rand.NewPCG(1, 2)).Shuffle(len(order), func(i, k int) { order[i], order[k] = order[k], order[i] })
	same := cmp.Options{cmp.AllowUnexported(Finding{}), cmpopts.EquateEmpty(), cmpopts.EquateNaNs(),
		cmp.Comparer(func(a, b Number) bool { return a == b || a != a && b != b })}
	var series Series
	for _, name := range order {
		want, err := Assess(all[name])
		require.NoError(t, err, name)
		got, err := series.Assess(all[name])
		require.NoError(t, err, name)
		got.identify()
		if diff := cmp.Diff(want, got, same); diff != "" {
			t.Fatal(name, diff)
		}
		_, err = series.Assess(&Job{}) // one that cannot be used leaves nothing behind either
		require.Error(t, err)
	}
}

// A cylinder that is charged less than once a day meets the draw-offs in another
// state each day: on the fifth a tap runs cold that ran hot on the third.
func TestTheWorstDayCounts(t *testing.T) {
	j := load(t, "demo.json")
	j.Cylinder.Demand.Profile = "S"
	s := sheetOf(t, j)
	assert.Equal(t, hydronics.NotMet, verdict(t, s, "every draw-off of the day gets its heat, load profile S"))
	assert.Positive(t, s.HotWater.Unmet)
	assert.Less(t, float64(s.HotWater.LowestOutlet), 55.0)
}

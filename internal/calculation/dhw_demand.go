package calculation

import (
	"example.com/hydronics/dhw"
	"example.com/hydronics/internal/unit"
)

// dhwDemandCalculations are those of what is drawn and what the store has to hold.
func dhwDemandCalculations() []Calculation {
	return []Calculation{
		dhwLoadProfile(), dhwMixedWater(), dhwOutlet(), dhwStoreSize(), dhwSumLine(),
		dhwPeakFlow(), dhwLoadingUnits(), dhwFixtures(), dhwDay(), dhwNodes(), dhwHourly(), dhwLossClass(),
	}
}

func dhwLoadProfile() Calculation {
	return Calculation{
		Name: "dhw/load_profile",
		Doc:  "energy, busiest stretch and volume of a load profile of EU law",
		Inputs: []Column{
			{Name: "profile", Kind: unit.Text, Doc: "3XS to 4XL"},
			{Name: "stretch", Kind: unit.Time, Optional: true, Doc: "length of the busiest stretch; an hour where missing"},
			{Name: "from", Kind: unit.Time, Optional: true, Doc: "after midnight"}, {Name: "to", Kind: unit.Time, Optional: true, Doc: "after midnight"},
			{Name: "hot", Kind: unit.Temperature, Optional: true, Doc: "60 °C where missing"},
			{Name: "cold", Kind: unit.Temperature, Optional: true, Doc: "10 °C where missing"},
			{Name: "volumetric_heat", Kind: unit.VolumetricHeat, Optional: true, Doc: "4.18 MJ/(m³ K) where missing"},
		},
		Outputs: []Column{
			{Name: "energy", Kind: unit.Energy, Doc: "of the day"},
			{Name: "busiest", Kind: unit.Energy, Doc: "of the busiest stretch"},
			{Name: "busiest_start", Kind: unit.Time, Doc: "after midnight"},
			{Name: "between", Kind: unit.Energy, Doc: "of the draw-offs that start from from to to"},
			{Name: "day_volume", Kind: unit.Volume, Doc: "if all water were hot"},
			{Name: "mixed_water_min", Kind: unit.Volume, Doc: "least V40 that the law asks for"},
			{Name: "storage_max", Kind: unit.Volume, Doc: "largest storage volume that the law allows"},
		},
		Covers: []string{"dhw.LoadProfile", "dhw.Profile.Energy", "dhw.Profile.Busiest", "dhw.Profile.Between", "dhw.Profile.Volume"},
		Row: func(in Row) (Row, error) {
			p, err := dhw.LoadProfile(in.Text("profile"))
			if err != nil {
				return nil, err
			}
			energy, err := p.Energy()
			if err != nil {
				return nil, err
			}
			busiest, err := p.Busiest(in.NumOr("stretch", 3600))
			if err != nil {
				return nil, err
			}
			between, err := p.Between(in.NumOr("from", 0), in.NumOr("to", 86400))
			if err != nil {
				return nil, err
			}
			volume, err := p.Volume(in.NumOr("hot", 60), in.NumOr("cold", 10), in.NumOr("volumetric_heat", 4.18e6))
			if err != nil {
				return nil, err
			}
			law, err := dhw.Requirement(p.Name)
			return Row{"energy": energy, "busiest": busiest.Energy, "busiest_start": busiest.Start, "between": between,
				"day_volume": volume, "mixed_water_min": law.MixedWater, "storage_max": law.MaxStorage}, err
		},
	}
}

var nodesColumn = Column{Name: "nodes", Kind: unit.Text, Doc: "number of mixed layers, or plug flow"}

func nodes(in Row) int {
	n := 0
	if in.Text("nodes") == "plug flow" {
		return dhw.PlugFlow
	}
	for _, digit := range in.Text("nodes") {
		if digit < '0' || digit > '9' || n > dhw.MaxNodes {
			return 0 // refused by the calculation
		}
		n = 10*n + int(digit-'0')
	}
	return n
}

func dhwMixedWater() Calculation {
	return Calculation{
		Name: "dhw/mixed_water",
		Doc:  "mixed water from a hot cylinder until it runs cold (V40)",
		Inputs: []Column{nodesColumn, volumeColumn, {Name: "hot", Kind: unit.Temperature},
			{Name: "mixed", Kind: unit.Temperature}, coldColumn},
		Outputs: []Column{{Name: "mixed_volume", Kind: unit.Volume}, {Name: "drawn_share", Kind: unit.Number, Doc: "of the content, when it runs cold"}},
		Covers:  []string{"dhw.Cylinder.MixedWater"},
		Row: func(in Row) (Row, error) {
			c := dhw.Cylinder{Volume: in.Num("volume"), Nodes: nodes(in)}
			m, err := c.MixedWater(in.Num("hot"), in.Num("mixed"), in.Num("cold"))
			return Row{"mixed_volume": m.Volume, "drawn_share": m.Drawn / c.Volume}, err
		},
	}
}

func dhwOutlet() Calculation {
	return Calculation{
		Name:    "dhw/outlet",
		Doc:     "outlet temperature of a hot cylinder after a share of its content was drawn",
		Inputs:  []Column{nodesColumn, {Name: "drawn_share", Kind: unit.Number}, {Name: "hot", Kind: unit.Temperature}, coldColumn},
		Outputs: []Column{{Name: "outlet", Kind: unit.Temperature}, {Name: "outlet_share", Kind: unit.Number, Doc: "(outlet - cold)/(hot - cold)"}},
		Covers:  []string{"dhw.Cylinder.OutletTemperature"},
		Row: func(in Row) (Row, error) {
			c := dhw.Cylinder{Volume: 1, Nodes: nodes(in)}
			hot, cold := in.Num("hot"), in.Num("cold")
			t, err := c.OutletTemperature(in.Num("drawn_share"), hot, cold)
			return Row{"outlet": t, "outlet_share": (t - cold) / (hot - cold)}, err
		},
	}
}

func dhwStoreSize() Calculation {
	return Calculation{
		Name: "dhw/store_size",
		Doc:  "hot water store of a heat pump after EN 15450",
		Inputs: []Column{
			{Name: "day_volume", Kind: unit.Volume}, {Name: "day", Kind: unit.Temperature, Doc: "temperature of the day's volume"},
			coldColumn, {Name: "stored", Kind: unit.Temperature},
			{Name: "usable", Kind: unit.Temperature, Optional: true, Doc: "40 °C where missing"},
			{Name: "daily_loss", Kind: unit.Energy}, {Name: "critical", Kind: unit.Energy}, {Name: "critical_time", Kind: unit.Time},
			heatColumn, {Name: "heating_time", Kind: unit.Time, Optional: true, Doc: "of the full store; 8 h where missing"},
		},
		Outputs: []Column{
			{Name: "store_day_volume", Kind: unit.Volume}, {Name: "loss_volume", Kind: unit.Volume},
			{Name: "part_store", Kind: unit.Volume}, {Name: "part_power", Kind: unit.Power},
			{Name: "full_store", Kind: unit.Volume}, {Name: "full_power", Kind: unit.Power},
		},
		Covers: []string{"dhw.StoreDemand.Part", "dhw.StoreDemand.Full"},
		Row: func(in Row) (Row, error) {
			d := dhw.StoreDemand{
				Day:  dhw.Amount{Volume: in.Num("day_volume"), Temperature: in.Num("day")},
				Cold: in.Num("cold"), Stored: in.Num("stored"), Usable: in.NumOr("usable", 40), DailyLoss: in.Num("daily_loss"),
				Critical: in.Num("critical"), CriticalTime: in.Num("critical_time"), VolumetricHeat: in.Num("volumetric_heat"),
			}
			part, err := d.Part()
			if err != nil {
				return nil, err
			}
			full, err := d.Full(in.NumOr("heating_time", 8*3600))
			return Row{"store_day_volume": part.DayVolume, "loss_volume": part.LossVolume, "part_store": part.Volume,
				"part_power": part.Power, "full_store": full.Volume, "full_power": full.Power}, err
		},
	}
}

func dhwSumLine() Calculation {
	return Calculation{
		Name:    "dhw/sum_line",
		Doc:     "heat that a store has to hold, from cumulative demand and supply",
		Inputs:  []Column{{Name: "profile", Kind: unit.Text, Doc: "3XS to 4XL"}, {Name: "power", Kind: unit.Power}},
		Outputs: []Column{{Name: "content", Kind: unit.Energy}, {Name: "empty_at", Kind: unit.Time, Doc: "after midnight"}},
		Covers:  []string{"dhw.Profile.SumLine"},
		Row: func(in Row) (Row, error) {
			p, err := dhw.LoadProfile(in.Text("profile"))
			if err != nil {
				return nil, err
			}
			s, err := p.SumLine(in.Num("power"))
			return Row{"content": s.Content, "empty_at": s.At}, err
		},
	}
}

func dhwPeakFlow() Calculation {
	return Calculation{
		Name: "dhw/peak_flow",
		Doc:  "peak flow after DIN 1988-300 from the sum of the design flows",
		Inputs: []Column{
			{Name: "sum_flow", Kind: unit.VolumeFlow},
			{Name: "a", Kind: unit.Number, Optional: true, Doc: "constant for l/s; residential where missing"},
			{Name: "b", Kind: unit.Number, Optional: true}, {Name: "c", Kind: unit.Number, Optional: true},
		},
		Outputs: []Column{{Name: "peak_flow", Kind: unit.VolumeFlow}},
		Covers:  []string{"dhw.PeakCurve.Flow"},
		Row: func(in Row) (Row, error) {
			curve := dhw.ResidentialPeak()
			curve.A, curve.B, curve.C = in.NumOr("a", curve.A), in.NumOr("b", curve.B), in.NumOr("c", curve.C)
			flow, err := curve.Flow(in.Num("sum_flow"))
			return Row{"peak_flow": flow}, err
		},
	}
}

func dhwLoadingUnits() Calculation {
	return Calculation{
		Name:    "dhw/loading_units",
		Doc:     "loading units of EN 806-3 along a pipe, added from the last draw-off point on",
		Inputs:  []Column{{Name: "draw_off_point", Kind: unit.Text, Doc: "a name of EN 806-3, Table 2"}},
		Outputs: []Column{{Name: "units", Kind: unit.Numeral}, {Name: "sum_units", Kind: unit.Numeral}},
		Covers:  []string{"dhw.LoadingUnits"},
		Case: func(in []Row) ([]Row, error) {
			out := make([]Row, len(in))
			sum := 0
			for i, row := range in {
				n, err := dhw.LoadingUnits(row.Text("draw_off_point"))
				if err != nil {
					return nil, err
				}
				sum += n
				out[i] = Row{"units": float64(n), "sum_units": float64(sum)}
			}
			return out, nil
		},
	}
}

func dhwFixtures() Calculation {
	return Calculation{
		Name: "dhw/fixtures",
		Doc:  "flow of independent draw-off points that is not exceeded with a probability",
		Inputs: []Column{
			{Name: "count", Kind: unit.Numeral}, {Name: "probability", Kind: unit.Number, Doc: "of running"},
			{Name: "flow", Kind: unit.VolumeFlow}, {Name: "quantile", Kind: unit.Number},
			{Name: "step", Kind: unit.VolumeFlow, Doc: "grid of flows"},
		},
		Outputs: []Column{
			{Name: "hunter", Kind: unit.Number}, {Name: "idle", Kind: unit.Number, Doc: "probability that nothing runs"},
			{Name: "mean", Kind: unit.VolumeFlow}, {Name: "normal", Kind: unit.VolumeFlow}, {Name: "normal_busy", Kind: unit.VolumeFlow},
			{Name: "exact", Kind: unit.VolumeFlow}, {Name: "exact_busy", Kind: unit.VolumeFlow},
		},
		Covers: []string{"dhw.DemandOfFixtures"},
		Case: func(in []Row) ([]Row, error) {
			var groups []dhw.Fixtures
			for _, row := range in {
				groups = append(groups, dhw.Fixtures{Count: int(row.Num("count")), Probability: row.Num("probability"), Flow: row.Num("flow")})
			}
			d, err := dhw.DemandOfFixtures(groups, in[0].Num("quantile"), in[0].Num("step"))
			if err != nil {
				return nil, err
			}
			out := make([]Row, len(in))
			for i := range out {
				out[i] = Row{"hunter": d.Hunter, "idle": d.Idle, "mean": d.Mean, "normal": d.Normal, "normal_busy": d.NormalBusy,
					"exact": d.Exact, "exact_busy": d.ExactBusy}
			}
			return out, nil
		},
	}
}

func dhwDay() Calculation {
	return Calculation{
		Name: "dhw/day",
		Doc:  "a day's draw-offs from a cylinder with a heater of constant power",
		Inputs: []Column{
			{Name: "profile", Kind: unit.Text, Doc: "3XS to 4XL"}, volumeColumn, nodesColumn, heatColumn,
			{Name: "loss_coefficient", Kind: unit.HeatCapacityRate}, ambientColumn, coldColumn,
			{Name: "power", Kind: unit.Power}, {Name: "coil", Kind: unit.Number, Doc: "height of the coil, share of the cylinder's"},
			{Name: "sensor", Kind: unit.Number, Doc: "height of the sensor, share of the cylinder's"},
			{Name: "on", Kind: unit.Temperature}, {Name: "off", Kind: unit.Temperature},
			{Name: "start", Kind: unit.Temperature}, {Name: "step", Kind: unit.Time},
			{Name: "days", Kind: unit.Numeral, Optional: true, Doc: "the last one counts; 1 where missing"},
		},
		Outputs: []Column{
			{Name: "demanded", Kind: unit.Energy}, {Name: "delivered", Kind: unit.Energy}, {Name: "unmet", Kind: unit.Energy},
			{Name: "supplied", Kind: unit.Energy}, {Name: "lost", Kind: unit.Energy}, {Name: "gained", Kind: unit.Energy, Doc: "by the cylinder"},
			{Name: "lowest_outlet", Kind: unit.Temperature, Doc: "while water was drawn"},
			{Name: "cold_time", Kind: unit.Time, Doc: "draw-off colder than wanted"},
			{Name: "drawn", Kind: unit.Volume}, {Name: "starts", Kind: unit.Numeral}, {Name: "run", Kind: unit.Time},
		},
		Covers: []string{"dhw.Day.Run"},
		Row: func(in Row) (Row, error) {
			p, err := dhw.LoadProfile(in.Text("profile"))
			if err != nil {
				return nil, err
			}
			r, err := dhw.Day{
				Cylinder: dhw.Cylinder{Volume: in.Num("volume"), Nodes: nodes(in), VolumetricHeat: in.Num("volumetric_heat"), LossCoefficient: in.Num("loss_coefficient")},
				Profile:  p, Heater: dhw.Heater{{Power: in.Num("power")}}, Coil: in.Num("coil"), Sensor: in.Num("sensor"),
				On: in.Num("on"), Off: in.Num("off"), Start: in.Num("start"), Cold: in.Num("cold"), Ambient: in.Num("ambient"),
				Step: in.Num("step"), Days: int(in.NumOr("days", 1)),
			}.Run(nil)
			return Row{"demanded": r.Demanded, "delivered": r.Delivered, "unmet": r.Unmet, "supplied": r.Supplied, "lost": r.Lost,
				"gained": r.Stored, "lowest_outlet": r.LowestOutlet, "cold_time": r.ColdTime, "drawn": r.Drawn,
				"starts": float64(r.Starts), "run": r.Run}, err
		},
	}
}

func dhwNodes() Calculation {
	return Calculation{
		Name: "dhw/nodes",
		Doc:  "number of mixed layers that a measured V40 stands for",
		Inputs: []Column{volumeColumn, {Name: "hot", Kind: unit.Temperature}, {Name: "mixed", Kind: unit.Temperature}, coldColumn,
			{Name: "mixed_volume", Kind: unit.Volume}},
		Outputs: []Column{{Name: "nodes", Kind: unit.Numeral}},
		Covers:  []string{"dhw.Cylinder.Fit"},
		Row: func(in Row) (Row, error) {
			c, err := dhw.Cylinder{Volume: in.Num("volume")}.Fit(dhw.DrawTest{Hot: in.Num("hot"), Mixed: in.Num("mixed"),
				Cold: in.Num("cold"), Volume: in.Num("mixed_volume")})
			return Row{"nodes": float64(c.Nodes)}, err
		},
	}
}

func dhwHourly() Calculation {
	return Calculation{
		Name: "dhw/hourly_demand",
		Doc:  "store and recovery of many dwellings by the American method",
		Inputs: []Column{
			{Name: "count", Kind: unit.Numeral}, {Name: "hourly", Kind: unit.Volume, Doc: "of each, in an hour"},
			{Name: "demand_factor", Kind: unit.Number}, {Name: "storage_factor", Kind: unit.Number, Doc: "hours"},
			{Name: "usable_share", Kind: unit.Number},
		},
		Outputs: []Column{{Name: "part", Kind: unit.Volume, Doc: "of this kind, in an hour"}, {Name: "possible", Kind: unit.Volume, Doc: "in an hour"},
			{Name: "probable", Kind: unit.Volume, Doc: "in an hour"}, {Name: "usable", Kind: unit.Volume}, {Name: "store", Kind: unit.Volume}},
		Covers: []string{"dhw.HourlyDemand.Size"},
		Case: func(in []Row) ([]Row, error) {
			d := dhw.HourlyDemand{DemandFactor: in[0].Num("demand_factor"), StorageFactor: in[0].Num("storage_factor"), UsableShare: in[0].Num("usable_share")}
			for _, row := range in {
				d.Uses = append(d.Uses, dhw.FixtureUse{Count: int(row.Num("count")), Hourly: row.Num("hourly")})
			}
			s, err := d.Size()
			if err != nil {
				return nil, err
			}
			out := make([]Row, len(in))
			for i, u := range d.Uses {
				out[i] = Row{"part": float64(u.Count) * u.Hourly, "possible": s.Possible, "probable": s.Probable, "usable": s.Usable, "store": s.Store}
			}
			return out, nil
		},
	}
}

func dhwLossClass() Calculation {
	return Calculation{
		Name:    "dhw/loss_class",
		Doc:     "energy class of a cylinder by its standing loss",
		Inputs:  []Column{volumeColumn, {Name: "standing_loss", Kind: unit.Power}},
		Outputs: []Column{{Name: "class", Kind: unit.Text}, {Name: "class_limit", Kind: unit.Power}},
		Covers:  []string{"dhw.LossClassOf"},
		Row: func(in Row) (Row, error) {
			c, err := dhw.LossClassOf(in.Num("volume"), in.Num("standing_loss"))
			return Row{"class": c.Name, "class_limit": c.Limit}, err
		},
	}
}

package calculation

import (
	"example.com/hydronics/expansion"
	"example.com/hydronics/internal/unit"
)

// rulesCalculations print the margins of named rules, so that a table can hold
// them against what their sources say.
func rulesCalculations() []Calculation {
	return []Calculation{
		{
			Name:   "expansion/rules",
			Doc:    "margins of named rules for the vessel of a closed system",
			Inputs: []Column{{Name: "rules", Kind: unit.Text}},
			Outputs: []Column{
				{Name: "precharge_over_static", Kind: unit.Pressure},
				{Name: "precharge_over_vapour", Kind: unit.Pressure},
				{Name: "precharge_floor", Kind: unit.GaugePressure},
				{Name: "filling_floor", Kind: unit.GaugePressure},
				{Name: "reserve_share", Kind: unit.Number},
				{Name: "reserve_least", Kind: unit.Volume},
				{Name: "small_vessel", Kind: unit.Volume},
				{Name: "small_reserve", Kind: unit.Number},
				{Name: "final_below", Kind: unit.Pressure},
				{Name: "final_below_share", Kind: unit.Number},
			},
			Covers: []string{"expansion.EN12828", "expansion.EN12828Edition2003", "expansion.DIN4807",
				"expansion.BS7074", "expansion.UNE100155", "expansion.RaccoltaR2009", "expansion.USPractice"},
			Safety: true,
			Row: func(in Row) (Row, error) {
				r, err := rowRules(in.Text("rules"))
				return Row{
					"precharge_over_static": r.PrechargeOverStatic.Value,
					"precharge_over_vapour": r.PrechargeOverVapour.Value,
					"precharge_floor":       r.PrechargeFloor.Value,
					"filling_floor":         r.FillingFloor.Value,
					"reserve_share":         r.ReserveShare.Value,
					"reserve_least":         r.ReserveLeast.Value,
					"small_vessel":          r.SmallVessel.Value,
					"small_reserve":         r.SmallReserve.Value,
					"final_below":           r.FinalBelow.Value,
					"final_below_share":     r.FinalBelowShare.Value,
				}, err
			},
		},
		{
			Name:   "expansion/potable-rules",
			Doc:    "margins for the vessel on the cold feed of a cylinder, in general or in Austria",
			Inputs: []Column{{Name: "rules", Kind: unit.Text, Doc: "usual or Austria"}},
			Outputs: []Column{
				{Name: "precharge_below", Kind: unit.Pressure},
				{Name: "final_below_share", Kind: unit.Number},
				{Name: "supply_share", Kind: unit.Number},
			},
			Covers: []string{"expansion.PotablePractice", "expansion.PotablePracticeAustria"},
			Safety: true,
			Row: func(in Row) (Row, error) {
				r := expansion.PotablePractice()
				if in.Text("rules") == "Austria" {
					r = expansion.PotablePracticeAustria()
				}
				return Row{"precharge_below": r.PrechargeBelow.Value, "final_below_share": r.FinalBelowShare.Value,
					"supply_share": r.SupplyShare.Value}, nil
			},
		},
		{
			Name:   "expansion/relief-rules",
			Doc:    "requirements of EN 12828:2003 on relief valves",
			Inputs: []Column{{Name: "rules", Kind: unit.Text}},
			Outputs: []Column{
				{Name: "pressure_rise", Kind: unit.Number},
				{Name: "inlet_loss", Kind: unit.Number},
				{Name: "outlet_loss", Kind: unit.Number},
				{Name: "most_valves", Kind: unit.Number},
				{Name: "smallest_share", Kind: unit.Number},
				{Name: "least_dn", Kind: unit.SmallLength},
			},
			Covers: []string{"expansion.EN12828Relief"},
			Safety: true,
			Row: func(Row) (Row, error) {
				r := expansion.EN12828Relief()
				return Row{"pressure_rise": r.PressureRise.Value, "inlet_loss": r.InletLoss.Value, "outlet_loss": r.OutletLoss.Value,
					"most_valves": r.MostValves.Value, "smallest_share": r.SmallestShare.Value, "least_dn": r.LeastDN.Value}, nil
			},
		},
	}
}

package calculation

import (
	"errors"
	"fmt"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/internal/unit"
	"example.com/hydronics/pipe"
)

func pipeKv() Calculation {
	return Calculation{
		Name: "pipe/kv",
		Doc:  "flow coefficient, American flow coefficient, loss coefficient and equivalent length of one resistance",
		Inputs: []Column{
			{Name: "kv", Kind: unit.FlowCoefficient, Optional: true},
			{Name: "given_zeta", Kind: unit.Number, Optional: true, Doc: "instead of Kv"},
			{Name: "bore", Kind: unit.SmallLength},
			{Name: "friction_factor", Kind: unit.Number, Optional: true},
		},
		Outputs: []Column{{Name: "zeta", Kind: unit.Number}, {Name: "cv", Kind: unit.Number, Doc: "US gpm at 1 psi"},
			{Name: "kv_back", Kind: unit.FlowCoefficient}, {Name: "equivalent_length", Kind: unit.Length},
			{Name: "length_in_bores", Kind: unit.Number}},
		Covers: []string{"pipe.Kv.Zeta", "pipe.Kv.Cv", "pipe.Cv.Kv", "pipe.KvOfZeta", "pipe.EquivalentLength"},
		Row: func(in Row) (Row, error) {
			bore := in.Num("bore")
			kv := pipe.Kv(in.NumOr("kv", 0))
			var err error
			if in.Has("given_zeta") {
				if kv, err = pipe.KvOfZeta(in.Num("given_zeta"), bore); err != nil {
					return nil, err
				}
			}
			zeta, err := kv.Zeta(bore)
			if err != nil {
				return nil, err
			}
			out := Row{"zeta": zeta, "cv": float64(kv.Cv()), "kv_back": float64(kv.Cv().Kv())}
			if in.Has("friction_factor") {
				length, err := pipe.EquivalentLength(zeta, bore, in.Num("friction_factor"))
				if err != nil {
					return nil, err
				}
				out["equivalent_length"], out["length_in_bores"] = length, length/bore
			}
			return out, nil
		},
	}
}

func pipeKvLoss() Calculation {
	return Calculation{
		Name: "pipe/kv_loss",
		Doc:  "flow coefficient for a flow and a loss, and the loss and flow with it",
		Inputs: []Column{{Name: "flow", Kind: unit.VolumeFlow}, {Name: "pressure", Kind: unit.Pressure, Optional: true},
			{Name: "inlet", Kind: unit.AbsolutePressure, Optional: true}, {Name: "outlet", Kind: unit.AbsolutePressure, Optional: true},
			{Name: "density", Kind: unit.Density}},
		Outputs: []Column{{Name: "kv", Kind: unit.FlowCoefficient}, {Name: "loss", Kind: unit.Pressure},
			{Name: "flow_back", Kind: unit.VolumeFlow}, {Name: "kv_two_in_series", Kind: unit.FlowCoefficient},
			{Name: "kv_two_in_parallel", Kind: unit.FlowCoefficient}},
		Covers: []string{"pipe.KvFor", "pipe.Kv.Loss", "pipe.Kv.Flow", "pipe.KvInSeries", "pipe.KvInParallel"},
		Row: func(in Row) (Row, error) {
			dp := in.NumOr("pressure", in.Num("inlet")-in.Num("outlet"))
			rho := in.Num("density")
			kv, err := pipe.KvFor(in.Num("flow"), dp, rho)
			if err != nil {
				return nil, err
			}
			loss, err1 := kv.Loss(in.Num("flow"), rho)
			flow, err2 := kv.Flow(dp, rho)
			series, err3 := pipe.KvInSeries(kv, kv)
			parallel, err4 := pipe.KvInParallel(kv, kv)
			return Row{"kv": float64(kv), "loss": loss, "flow_back": flow, "kv_two_in_series": float64(series),
				"kv_two_in_parallel": float64(parallel)}, errors.Join(err1, err2, err3, err4)
		},
	}
}

func pipeFitting() Calculation {
	return Calculation{
		Name: "pipe/fitting",
		Doc:  "loss coefficient of a kind of fitting by a method (two-K, three-K, Crane), on its bore or another",
		Inputs: []Column{{Name: "method", Kind: unit.Text}, {Name: "fitting", Kind: unit.Text},
			{Name: "bore", Kind: unit.SmallLength}, {Name: "reynolds", Kind: unit.Number, Optional: true},
			{Name: "reference_bore", Kind: unit.SmallLength, Optional: true}},
		Outputs: []Column{{Name: "zeta", Kind: unit.Number}},
		Covers:  []string{"pipe.Method.Fitting", "pipe.Fitting.At", "pipe.Fitting.On", "pipe.Run.With"},
		Row: func(in Row) (Row, error) {
			for m := pipe.TwoK; m <= pipe.Crane; m++ {
				if m.String() != in.Text("method") {
					continue
				}
				f, err := m.Fitting(in.Text("fitting"), in.Num("bore"))
				if err != nil {
					return nil, err
				}
				r, err := pipe.Run{Bore: in.NumOr("reference_bore", f.Bore)}.With(f)
				if err != nil {
					return nil, err
				}
				f.Zeta, f.ZetaLaminar, f.Bore = r.Zeta, r.ZetaLaminar, r.Bore
				zeta, err := f.At(in.NumOr("reynolds", 1e8))
				return Row{"zeta": zeta}, err
			}
			return nil, fmt.Errorf("%w: no method %q", hydronics.ErrNoSolution, in.Text("method"))
		},
	}
}

func pipeChange() Calculation {
	return Calculation{
		Name: "pipe/change_of_bore",
		Doc:  "loss coefficients of a sudden change of bore, on the smaller, and the loss of a flow that passes it",
		Inputs: []Column{{Name: "small", Kind: unit.SmallLength}, {Name: "large", Kind: unit.SmallLength},
			{Name: "flow", Kind: unit.VolumeFlow, Optional: true}, {Name: "density", Kind: unit.Density, Optional: true},
			{Name: "pressure", Kind: unit.Pressure, Optional: true, Doc: "before the enlargement"},
			{Name: "gravity", Kind: unit.Number, Optional: true}},
		Outputs: []Column{{Name: "enlargement", Kind: unit.Number}, {Name: "contraction", Kind: unit.Number},
			{Name: "sharp_contraction", Kind: unit.Number}, {Name: "enlargement_head", Kind: unit.Length},
			{Name: "pressure_after", Kind: unit.Pressure, Doc: "behind the enlargement, by Bernoulli's equation"}},
		Covers: []string{"pipe.Enlargement", "pipe.Contraction", "pipe.SharpContraction"},
		Row: func(in Row) (Row, error) {
			small, large := in.Num("small"), in.Num("large")
			e, err1 := pipe.Enlargement(small, large)
			c, err2 := pipe.Contraction(large, small)
			s, err3 := pipe.SharpContraction(large, small)
			if err := errors.Join(err1, err2, err3); err != nil {
				return nil, err
			}
			out := Row{"enlargement": e.Zeta, "contraction": c.Zeta, "sharp_contraction": s.Zeta}
			if in.Has("flow") {
				rho := in.NumOr("density", 1000)
				r, err := pipe.Run{Bore: small}.With(e)
				if err != nil {
					return nil, err
				}
				l, err := r.Loss(in.Num("flow"), fluid.Properties{Density: rho, DynamicViscosity: 1e-3})
				if err != nil {
					return nil, err
				}
				after := l.Velocity * (small / large) * (small / large)
				out["enlargement_head"] = l.Total / (rho * gravity(in))
				out["pressure_after"] = in.NumOr("pressure", 0) + rho/2*(l.Velocity*l.Velocity-after*after) - l.Total
			}
			return out, nil
		},
	}
}

func pipeTaper() Calculation {
	return Calculation{
		Name: "pipe/taper",
		Doc:  "loss coefficients of a conical change of bore, on the smaller",
		Inputs: []Column{{Name: "small", Kind: unit.SmallLength}, {Name: "large", Kind: unit.SmallLength},
			{Name: "angle", Kind: unit.Angle}},
		Outputs: []Column{{Name: "widening", Kind: unit.Number}, {Name: "narrowing", Kind: unit.Number}},
		Covers:  []string{"pipe.Taper.Widening", "pipe.Taper.Narrowing"},
		Row: func(in Row) (Row, error) {
			t := pipe.Taper{Small: in.Num("small"), Large: in.Num("large"), Angle: in.Num("angle")}
			w, err1 := t.Widening()
			n, err2 := t.Narrowing()
			return Row{"widening": w.Zeta, "narrowing": n.Zeta}, errors.Join(err1, err2)
		},
	}
}

func pipeTee() Calculation {
	return Calculation{
		Name: "pipe/tee",
		Doc:  "loss coefficients of a tee at a right angle on the velocity of the combined flow",
		Inputs: []Column{{Name: "run", Kind: unit.SmallLength}, {Name: "branch", Kind: unit.SmallLength},
			{Name: "share", Kind: unit.Number, Doc: "of the branch in the combined flow"}},
		Outputs: []Column{{Name: "dividing_branch", Kind: unit.Number}, {Name: "dividing_straight", Kind: unit.Number},
			{Name: "combining_branch", Kind: unit.Number}, {Name: "combining_straight", Kind: unit.Number}},
		Covers: []string{"pipe.Tee.Dividing", "pipe.Tee.Combining"},
		Row: func(in Row) (Row, error) {
			t := pipe.Tee{Run: in.Num("run"), Branch: in.Num("branch"), Share: in.Num("share")}
			ds, db, err1 := t.Dividing()
			cs, cb, err2 := t.Combining()
			return Row{"dividing_branch": db.Zeta, "dividing_straight": ds.Zeta,
				"combining_branch": cb.Zeta, "combining_straight": cs.Zeta}, errors.Join(err1, err2)
		},
	}
}

func pipeOrifice() Calculation {
	return Calculation{
		Name: "pipe/orifice",
		Doc:  "lasting loss of an orifice plate on the velocity in the tube",
		Inputs: []Column{{Name: "bore", Kind: unit.SmallLength}, {Name: "hole", Kind: unit.SmallLength},
			{Name: "discharge_coefficient", Kind: unit.Number}},
		Outputs: []Column{{Name: "zeta", Kind: unit.Number}},
		Covers:  []string{"pipe.Orifice.Fitting"},
		Row: func(in Row) (Row, error) {
			f, err := pipe.Orifice{Bore: in.Num("bore"), Hole: in.Num("hole"), Discharge: in.Num("discharge_coefficient")}.Fitting()
			return Row{"zeta": f.Zeta}, err
		},
	}
}

func pipeCraneFactor() Calculation {
	return Calculation{
		Name:    "pipe/crane_factor",
		Doc:     "friction factor of fully turbulent flow in clean steel, the base of Crane's loss coefficients",
		Inputs:  []Column{{Name: "bore", Kind: unit.SmallLength}},
		Outputs: []Column{{Name: "friction_factor", Kind: unit.Number}},
		Covers:  []string{"pipe.CraneTurbulentFactor"},
		Row: func(in Row) (Row, error) {
			f, err := pipe.CraneTurbulentFactor(in.Num("bore"))
			return Row{"friction_factor": f}, err
		},
	}
}

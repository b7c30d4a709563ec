package main

import (
	"errors"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
	"example.com/hydronics/pipe/network"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/mat"
)

// dense is a network for Newton's method with the full matrix of the pressures.
type dense struct {
	laws  []denseLaw
	nodes int
}

// denseLaw is a branch: what it takes, f(m) in Pa, at the flow m in kg/s.
type denseLaw struct {
	from, to int
	density  float64
	runs     []pipe.Resistance
	square   float64 // Pa/(kg/s)²
	pump     *interp.FritschButland
	start    float64 // kg/s
}

// newDense takes a network as [network.TwoPipe] makes it: the first node has the
// given pressure, and nothing is one-way.
func newDense(n network.Network) (dense, error) {
	d := dense{nodes: len(n.Nodes) - 1}
	for _, b := range n.Branches {
		l := denseLaw{from: b.From - 1, to: b.To - 1, density: n.Liquid.Density}
		for _, e := range b.Elements {
			kv, err := pipe.Kv(0), error(nil)
			switch e := e.(type) {
			case network.Run:
				r, err := pipe.Run(e).Prepare(n.Liquid)
				if err != nil {
					return dense{}, err
				}
				l.runs = append(l.runs, r)
				l.start = 0.4 * e.Bore * e.Bore * l.density // 0.5 m/s
			case network.Thermostatic:
				kv, err = e.Kv()
			case network.Device:
				kv = e.Kv
			case network.Pump:
				l.pump, err = curve(e, l.density)
			default:
				err = errors.New("an element that two-pipe systems do not have")
			}
			if err != nil {
				return dense{}, err
			}
			if kv > 0 {
				l.square += 1e5 * 1000 / l.density * math.Pow(3600/float64(kv)/1000, 2)
			}
		}
		d.laws = append(d.laws, l)
	}
	return d, nil
}

func curve(p network.Pump, density float64) (*interp.FritschButland, error) {
	var flow, pressure []float64
	for _, c := range p.Curve {
		flow = append(flow, c.Flow*density)
		pressure = append(pressure, c.Head*density*hydronics.StandardGravity)
	}
	f := new(interp.FritschButland)
	return f, f.Fit(flow, pressure)
}

func (l *denseLaw) at(m float64) (f, slope float64) {
	f, slope = l.square*m*math.Abs(m), 2*l.square*math.Abs(m)
	for i := range l.runs {
		loss, s := l.runs[i].LossAndSlope(m / l.density)
		f, slope = f+loss, slope+s/l.density
	}
	if l.pump != nil {
		f, slope = f-l.pump.Predict(m), slope-l.pump.PredictDerivative(m)
	}
	return f, slope
}

// solve returns the flow of every branch in kg/s. Each iteration solves
//
//	A D⁻¹ Aᵀ p = A (D⁻¹ f - m),  m ← m + D⁻¹ (Aᵀ p - f)
//
// with D the slopes of the laws and A the incidence of branches and nodes, by
// gonum's factorization of the full symmetric matrix.
func (d dense) solve() ([]float64, error) {
	mass := make([]float64, len(d.laws))
	for b := range d.laws {
		mass[b] = d.laws[b].start
	}
	f, conductance := make([]float64, len(mass)), make([]float64, len(mass))
	matrix, right := mat.NewSymDense(d.nodes, nil), mat.NewVecDense(d.nodes, nil)
	var pressure mat.VecDense
	var cholesky mat.Cholesky
	for range 50 {
		matrix.Zero()
		right.Zero()
		add := func(i, j int, v float64) {
			if i >= 0 && j >= 0 {
				matrix.SetSym(i, j, matrix.At(i, j)+v)
			}
		}
		for b := range d.laws {
			l := &d.laws[b]
			force, slope := l.at(mass[b])
			w := 1 / slope
			f[b], conductance[b] = force, w
			add(l.from, l.from, w)
			add(l.to, l.to, w)
			add(l.from, l.to, -w)
			if l.from >= 0 {
				right.SetVec(l.from, right.AtVec(l.from)+w*force-mass[b])
			}
			if l.to >= 0 {
				right.SetVec(l.to, right.AtVec(l.to)-w*force+mass[b])
			}
		}
		if !cholesky.Factorize(matrix) {
			return nil, errors.New("the matrix has no factors")
		}
		if err := cholesky.SolveVecTo(&pressure, right); err != nil {
			return nil, err
		}
		change, most := 0.0, 0.0
		for b := range d.laws {
			drop := -f[b]
			if i := d.laws[b].from; i >= 0 {
				drop += pressure.AtVec(i)
			}
			if j := d.laws[b].to; j >= 0 {
				drop -= pressure.AtVec(j)
			}
			mass[b] += conductance[b] * drop
			change, most = max(change, math.Abs(conductance[b]*drop)), max(most, math.Abs(mass[b]))
		}
		if change <= 1e-10*most {
			return mass, nil
		}
	}
	return nil, errors.New("no convergence in 50 iterations")
}

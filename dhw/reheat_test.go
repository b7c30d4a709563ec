package dhw

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/hydronics"
)

var store = Cylinder{Volume: 0.2, Nodes: 1, VolumetricHeat: 4.186e6, LossCoefficient: 1.6}

// The exact segments against Gauss-Legendre quadrature of the same balance.
func TestReheatAgainstQuadrature(t *testing.T) {
	h := Heater{{5, 7000}, {35, 6000}, {55, 4500}, {60, 1500}}
	r, err := store.Reheat(h, 10, 58, 15)
	if err != nil {
		t.Fatal(err)
	}
	net := func(x float64) float64 { return h.at(x) - 1.6*(x-15) }
	var time, lost float64
	for _, s := range [][2]float64{{10, 35}, {35, 55}, {55, 58}} {
		time += quad.Fixed(func(x float64) float64 { return store.capacity() / net(x) }, s[0], s[1], 60, quad.Legendre{}, 1)
		lost += quad.Fixed(func(x float64) float64 { return store.capacity() * 1.6 * (x - 15) / net(x) }, s[0], s[1], 60, quad.Legendre{}, 1)
	}
	if d := r.Time/time - 1; !(math.Abs(d) < 1e-12) {
		t.Errorf("time %v s, quadrature %v s", r.Time, time)
	}
	if d := r.Lost/lost - 1; !(math.Abs(d) < 1e-10) {
		t.Errorf("loss %v J, quadrature %v J", r.Lost, lost)
	}
}

// Without a loss the constant power gives m c ΔT/P, BS 6700:2006 Annex C: the
// minutes are V ΔT/(14.3 P) with V in l and P in kW. Its 14.3 is rounded from
// 60/4.186 = 14.33, so that the rule lies within 0.5 %.
func TestReheatAgainstBS6700(t *testing.T) {
	c := store
	c.LossCoefficient = 0
	for _, kilowatt := range []float64{3, 6, 10, 15} {
		r, err := c.Reheat(Heater{{Power: kilowatt * 1e3}}, 10, 60, 20)
		if err != nil {
			t.Fatal(err)
		}
		want := 200 * 50 / (14.3 * kilowatt)
		if d := r.Time/60/want - 1; !(math.Abs(d) < 0.005) {
			t.Errorf("%v kW: %v min, rule %v min", kilowatt, r.Time/60, want)
		}
	}
}

func TestReheatRefusals(t *testing.T) {
	loss := Cylinder{Volume: 0.2, Nodes: 1, VolumetricHeat: 4.186e6, LossCoefficient: 10}
	if _, err := loss.Reheat(Heater{{Power: 300}}, 10, 60, 20); !errors.Is(err, hydronics.ErrNoSolution) {
		t.Errorf("a heater weaker than the loss: %v", err)
	}
	for name, err := range map[string]error{
		"no points":        second(store.Reheat(nil, 10, 60, 20)),
		"falling points":   second(store.Reheat(Heater{{40, 1e3}, {30, 1e3}}, 32, 38, 20)),
		"beyond points":    second(store.Reheat(Heater{{10, 6e3}, {55, 4e3}}, 10, 60, 20)),
		"NaN power":        second(store.Reheat(Heater{{Power: math.NaN()}}, 10, 60, 20)),
		"end below start":  second(store.Reheat(Heater{{Power: 3e3}}, 50, 40, 20)),
		"litres":           second(Cylinder{Volume: 200, VolumetricHeat: 4.186e6}.Reheat(Heater{{Power: 3e3}}, 10, 40, 20)),
		"NaN start":        second(store.Reheat(Heater{{Power: 3e3}}, math.NaN(), 40, 20)),
		"heat per kg":      second(Cylinder{Volume: 0.2, VolumetricHeat: 4186}.Reheat(Heater{{Power: 3e3}}, 10, 40, 20)),
		"longer than year": second(Cylinder{Volume: 10, VolumetricHeat: 4.186e6}.Reheat(Heater{{Power: 1}}, 10, 90, 20)),
	} {
		if !errors.Is(err, hydronics.ErrRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// Nothing to do takes no time.
func TestReheatOfNothing(t *testing.T) {
	r, err := store.Reheat(Heater{{Power: 1}}, 50, 50, 20)
	if err != nil || r != (Reheating{}) {
		t.Errorf("%+v, %v", r, err)
	}
}

// The series around a net power that does not change joins the closed form.
func TestLogMomentsJoin(t *testing.T) {
	for _, r := range []float64{1e-3, -1e-3} {
		a, b := logMoments(r * (1 - 1e-12))
		c, d := logMoments(r * (1 + 1e-12))
		if !(math.Abs(a-c) < 1e-14 && math.Abs(b-d) < 1e-12) {
			t.Errorf("at %v: %v %v, %v %v", r, a, c, b, d)
		}
	}
	if a, b := logMoments(0); a != 1 || b != 0.5 {
		t.Errorf("at 0: %v %v", a, b)
	}
}

// Cooling by a time and by a time again is cooling by their sum.
func TestCoolInSteps(t *testing.T) {
	one, err := store.Cool(60, 15, 20*hydronics.Hour)
	if err != nil {
		t.Fatal(err)
	}
	half, _ := store.Cool(60, 15, 10*hydronics.Hour)
	two, err := store.Cool(half.Temperature, 15, 10*hydronics.Hour)
	if err != nil || math.Abs(one.Temperature-two.Temperature) > 1e-12 || math.Abs(one.Lost-half.Lost-two.Lost) > 1e-6 {
		t.Errorf("%+v and %+v + %+v, %v", one, half, two, err)
	}
	if _, err := store.Cool(5, -20, 300*hydronics.Day); !errors.Is(err, hydronics.ErrRange) {
		t.Errorf("a cylinder that freezes: %v", err)
	}
}

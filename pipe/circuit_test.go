package pipe_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// randomRun spans what a house holds, every regime and rule but the step.
func randomRun(rng *rand.Rand) pipe.Run {
	r := pipe.Run{
		Bore: 0.006 + 0.05*rng.Float64(), Length: 50 * rng.Float64(), Zeta: 20 * rng.Float64(),
		ZetaLaminar: 2000 * rng.Float64(), Transition: pipe.Transition(rng.IntN(3)),
	}
	r.Roughness = 0.002 * r.Bore * rng.Float64()
	if rng.IntN(2) == 0 {
		r.Kv = pipe.Kv(0.1 + 10*rng.Float64())
	}
	return r
}

func TestForwardAndInverseAgree(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		r, p := randomRun(rng), water(t, 5+70*rng.Float64())
		flow := math.Exp(-14 + 8*rng.Float64())
		l, err := r.Loss(flow, p)
		if err != nil {
			require.ErrorIs(t, err, hydronics.ErrRange)
			continue
		}
		back, err := r.Flow(l.Total, p)
		require.NoError(t, err)
		require.InEpsilon(t, flow, back, 1e-10, "%+v", r)
		bore, err := r.BoreFor(flow, l.Total, p)
		require.NoError(t, err)
		require.InEpsilon(t, r.Bore, bore, 1e-10, "%+v", r)
	}
}

func TestReversedSeries(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 100 {
		var s pipe.InSeries
		for range 2 + rng.IntN(5) {
			c, err := randomRun(rng).Prepare(water(t, 40))
			require.NoError(t, err)
			s = append(s, &c)
		}
		flow := 1e-3 * rng.Float64()
		loss, slope := s.LossAndSlope(flow)
		q, err := pipe.FlowAt(s, loss)
		require.NoError(t, err)
		assert.InEpsilon(t, flow, q, 1e-10)
		slices.Reverse(s)
		loss2, slope2 := s.LossAndSlope(flow)
		assert.InEpsilon(t, loss, loss2, 1e-14)
		assert.InEpsilon(t, slope, slope2, 1e-14)
		loss2, _ = s.LossAndSlope(-flow)
		assert.InEpsilon(t, loss, -loss2, 1e-14)
	}
}

func TestParallelSplit(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		var p pipe.InParallel
		for range 1 + rng.IntN(5) {
			r := randomRun(rng)
			r.Length++ // a resistance of its own
			c, err := r.Prepare(water(t, 40))
			require.NoError(t, err)
			p = append(p, &c)
		}
		flow := 1e-3 * (rng.Float64() - 0.5)
		flows, loss, err := p.Split(flow)
		require.NoError(t, err)
		sum := 0.0
		for i, q := range flows {
			sum += q
			l, _ := p[i].LossAndSlope(q)
			require.InEpsilon(t, loss, l, 1e-10)
		}
		require.InEpsilon(t, flow, sum, 1e-10)
		// The slope is the derivative, and a parallel nests in a series.
		_, slope := p.LossAndSlope(flow)
		h := flow * 1e-6
		up, _ := p.LossAndSlope(flow + h)
		down, _ := p.LossAndSlope(flow - h)
		require.InEpsilon(t, (up-down)/(2*h), slope, 1e-3)
		q, err := pipe.FlowAt(pipe.InSeries{p, p[0]}, 1e4)
		require.NoError(t, err)
		l, _ := pipe.InSeries{p, p[0]}.LossAndSlope(q)
		require.InEpsilon(t, 1e4, l, 1e-10)
	}
	_, _, err := pipe.InParallel{}.Split(1e-4)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	_, _, err = pipe.InParallel{&pipe.Resistance{}}.Split(1e-4)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
}

package expansion_test

import (
	"math"
	"testing"

	"example.com/hydronics"
	"example.com/hydronics/expansion"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The formula lies below the equilibrium nozzle by no more than 0.3 %, which is
// the safe side, over the pressures of heating systems.
func TestSteamFluxAgainstEquilibrium(t *testing.T) {
	for bar := 1.5; bar <= 12; bar += 0.5 {
		a, err := expansion.SteamFlux(bar*hydronics.Bar, 0)
		require.NoError(t, err)
		b, err := expansion.EquilibriumSteamFlux(bar*hydronics.Bar, 0)
		require.NoError(t, err)
		assert.Less(t, a.Mass, b.Mass, "%g bar", bar)
		assert.Greater(t, a.Mass, b.Mass*0.997, "%g bar", bar)
		assert.InDelta(t, b.PressureAbs/a.PressureAbs, 1, 0.02)
	}
}

// The two branches of the nozzle meet at the critical pressure, and the flow falls
// to nothing as the back pressure reaches the pressure before it.
func TestGasFluxIsContinuous(t *testing.T) {
	for _, k := range []float64{1.05, 1.135, 1.3, 1.4, 1.67} {
		g := expansion.Gas{PressureAbs: 4e5, SpecificVolume: 0.46, Exponent: k}
		critical, err := g.Flux(0)
		require.NoError(t, err)
		assert.True(t, critical.Critical)
		just, err := g.Flux(critical.PressureAbs * 1.0001)
		require.NoError(t, err)
		assert.False(t, just.Critical)
		assert.InEpsilon(t, critical.Mass, just.Mass, 1e-6)
		last := critical.Mass
		for r := 0.65; r < 1; r += 0.05 {
			f, err := g.Flux(r * g.PressureAbs)
			require.NoError(t, err)
			assert.Less(t, f.Mass, last)
			last = f.Mass
		}
		none, err := g.Flux(g.PressureAbs)
		require.NoError(t, err)
		assert.Zero(t, none.Mass)
	}
}

func valve() expansion.Valve {
	return expansion.Valve{Set: 3 * hydronics.Bar, Area: 113 * hydronics.SquareMillimetre,
		Coefficient: 0.4, LiquidCoefficient: 0.25, Overpressure: 0.1, DN: 15}
}

func protection() expansion.Protection {
	return expansion.Protection{
		Sources: []expansion.HeatSource{{Name: "heat pump", Output: 12e3}, {Name: "immersion heater", Output: 6e3}},
		Lowest:  3 * hydronics.Bar,
		Valves:  []expansion.Valve{valve()},
		Inlet:   expansion.Line{Bore: 0.020, Length: 0.2, Zeta: 0.8, Roughness: 1.5e-6},
		Outlet:  expansion.Line{Bore: 0.026, Length: 1.5, Zeta: 1.4, Roughness: 1.5e-6},
		Between: []expansion.Fitting{expansion.OpenPipe},
		Rules:   expansion.EN12828Relief(),
	}
}

func verdict(t *testing.T, findings []hydronics.Finding, rule string) hydronics.Verdict {
	for _, f := range findings {
		if assert.NotEmpty(t, f.Rule) && f.Rule == rule {
			return f.Verdict
		}
	}
	t.Fatalf("no finding %q", rule)
	return hydronics.NotMet
}

func TestProtection(t *testing.T) {
	p := protection()
	r, err := p.Relief()
	require.NoError(t, err)
	assert.Equal(t, 18e3, r.Heat)
	// 0.4 × 113 mm² at the German constant of 1.26 kW/mm², with 10 % overpressure 1.35.
	assert.InDelta(t, 0.4*113*1.35, r.Capacity/1e3, 0.1)
	findings, err := p.Judge()
	require.NoError(t, err)
	assert.Equal(t, r.Capacity, findings[0].Value)
	for _, f := range findings {
		assert.NotEqual(t, hydronics.NotMet, f.Verdict, "%s: %g against %g", f.Rule, f.Value, f.Limit)
	}

	p.Sources = append(p.Sources, expansion.HeatSource{Name: "wood stove", Output: 60e3})
	p.Lowest = 2.5 * hydronics.Bar
	p.Between = []expansion.Fitting{expansion.OpenPipe, expansion.AutomaticValve}
	p.Inlet = expansion.Line{Bore: 0.010, Length: 3, Zeta: 6, Roughness: 1.5e-6}
	p.Outlet = expansion.Line{Bore: 0.020, Length: 6, Zeta: 5, Roughness: 1.5e-6}
	findings, err = p.Judge()
	require.NoError(t, err)
	for _, rule := range []string{
		"the relief valves can let the whole heat output go as steam",
		"the set pressure is at most the lowest rated pressure in the circuit",
		"the pressure at full discharge exceeds the lowest rating by no more than the rules allow",
		"the loss before the valve is small against its set pressure",
		"the loss behind the valve is small against its set pressure",
		"nothing between a heat source and its relief valve can close or block, automatic valves included",
	} {
		assert.Equal(t, hydronics.NotMet, verdict(t, findings, rule), rule)
	}
}

// An outlet that would choke is a requirement not met, with finite numbers.
func TestChokedOutlet(t *testing.T) {
	p := protection()
	p.Outlet.Bore = 0.008
	r, err := p.Relief()
	require.NoError(t, err)
	assert.InDelta(t, 3.3*hydronics.Bar, r.OutletLoss[0], 1)
	findings, err := p.Judge()
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, verdict(t, findings, "the loss behind the valve is small against its set pressure"))
}

func TestSeveralValves(t *testing.T) {
	p := protection()
	small := valve()
	small.Area /= 4
	p.Valves = []expansion.Valve{valve(), small}
	findings, err := p.Judge()
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, verdict(t, findings, "the smallest valve has its share of the capacity"))
	p.Valves = []expansion.Valve{valve(), valve()}
	findings, err = p.Judge()
	require.NoError(t, err)
	assert.Equal(t, hydronics.Met, verdict(t, findings, "the smallest valve has its share of the capacity"))
	p.Valves = []expansion.Valve{valve(), valve(), valve(), valve()}
	findings, err = p.Judge()
	require.NoError(t, err)
	assert.Equal(t, hydronics.NotMet, verdict(t, findings, "no more valves share the duty than the rules allow"))
}

// Every fitting that can close fails the path; nothing said is to be seen on site.
func TestJudgePath(t *testing.T) {
	assert.Equal(t, hydronics.SeeOnSite, expansion.JudgePath().Verdict)
	assert.Equal(t, hydronics.Met, expansion.JudgePath(expansion.OpenPipe, expansion.OpenPipe).Verdict)
	for f := expansion.IsolatingValve; f <= expansion.QuickDisconnect; f++ {
		finding := expansion.JudgePath(expansion.OpenPipe, f)
		assert.Equal(t, hydronics.NotMet, finding.Verdict, f.String())
		assert.Contains(t, finding.Subject, f.String())
	}
}

// The loss of a line is that of the same pipe in package pipe, to rounding.
func TestLineAgainstRun(t *testing.T) {
	x, err := fluid.WaterState(60, 3e5)
	require.NoError(t, err)
	line := expansion.Line{Bore: 0.020, Length: 3, Zeta: 2, Roughness: 1.5e-6}
	loss, err := line.Loss(0.3, x)
	require.NoError(t, err)
	run := pipe.Run{Bore: 0.020, Length: 3, Zeta: 2, Roughness: 1.5e-6}
	want, err := run.Loss(0.3/x.Density, x.Properties())
	require.NoError(t, err)
	assert.InEpsilon(t, want.Total, loss, 1e-9)
	zero, err := line.Loss(0, x)
	require.NoError(t, err)
	assert.Zero(t, zero)
	steam, err := fluid.Boiling(100)
	require.NoError(t, err)
	_, err = line.Loss(0.3, steam.Steam)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution, "faster than sound")
}

func TestLiquidReliefViscosity(t *testing.T) {
	v := valve()
	thin, err := v.Liquid(fluid.Properties{Density: 1000, DynamicViscosity: 1e-4}, 0)
	require.NoError(t, err)
	thick, err := v.Liquid(fluid.Properties{Density: 1000, DynamicViscosity: 0.5}, 0)
	require.NoError(t, err)
	assert.InDelta(t, 1, thin.Viscosity, 0.001)
	assert.Less(t, thick.MassFlow, thin.MassFlow)
	// The factor belongs to the flow that results from it.
	kv, err := expansion.ViscosityFactor(thick.Reynolds, expansion.API520Edition10)
	require.NoError(t, err)
	assert.InEpsilon(t, kv, thick.Viscosity, 1e-12)
	shut, err := v.Liquid(fluid.Properties{Density: 1000, DynamicViscosity: 1e-3}, 3.3*hydronics.Bar)
	require.NoError(t, err)
	assert.InDelta(t, 0, shut.MassFlow, 1e-9)
}

func TestReliefSizes(t *testing.T) {
	sizes, source := expansion.ReliefSizes()
	assert.Equal(t, hydronics.FromMemory, source.Provenance)
	for _, s := range sizes {
		got, err := expansion.ReliefSizeFor(s.Heat)
		require.NoError(t, err)
		assert.Equal(t, s, got)
	}
	_, err := expansion.ReliefSizeFor(901e3)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	_, err = expansion.TotalOutput()
	assert.ErrorIs(t, err, hydronics.ErrRange)
	_, err = expansion.TotalOutput(expansion.HeatSource{Name: "stove", Output: math.NaN()})
	assert.ErrorContains(t, err, "output of stove")
	d, err := expansion.Derated(0.8)
	require.NoError(t, err)
	assert.InDelta(t, 0.72, d, 1e-15)
}

// Round trips and bounds of a blocked section.
func TestSection(t *testing.T) {
	rigid := expansion.Section{Temperature: 20, Pressure: 2 * hydronics.Bar}
	copper := rigid
	copper.Bore, copper.Wall, copper.Modulus, copper.Poisson, copper.Expansion = 0.020, 0.001, 120e9, 0.34, 17e-6
	for _, s := range []expansion.Section{rigid, copper} {
		same, err := s.PressureAt(20)
		require.NoError(t, err)
		assert.InDelta(t, 2*hydronics.Bar, float64(same), 5)
		slope, err := s.PerKelvin()
		require.NoError(t, err)
		step, err := s.PressureAt(20.01)
		require.NoError(t, err)
		assert.InEpsilon(t, slope, float64(step-same)/0.01, 0.003)
		for _, x := range []float64{21, 25, 40, 60} {
			p, err := s.PressureAt(x)
			require.NoError(t, err)
			back, err := s.Reaches(p)
			require.NoError(t, err)
			assert.InDelta(t, x, back, 1e-4)
		}
		cold, err := s.PressureAt(10)
		require.NoError(t, err)
		assert.Less(t, float64(cold), -0.9*hydronics.Bar, "a vapour pocket")
	}
	a, err := rigid.PerKelvin()
	require.NoError(t, err)
	b, err := copper.PerKelvin()
	require.NoError(t, err)
	assert.Less(t, b, a)
	// Usual figure for metal pipe near room temperature: 2 to 4 bar/K (common practice).
	assert.Greater(t, b, 2*hydronics.Bar)
	assert.Less(t, b, 4*hydronics.Bar)
	_, err = rigid.PressureAt(150)
	assert.ErrorIs(t, err, hydronics.ErrNoSolution)
	_, err = expansion.Section{Temperature: 20, Bore: 0.02}.PressureAt(30)
	assert.ErrorIs(t, err, hydronics.ErrRange, "a bore without a wall")
}

// For a cylinder the flow of thermal expansion is a litre an hour; steam is a thousand times that.
func TestThermalReliefIsTiny(t *testing.T) {
	w, err := expansion.WarmingOf(fluid.Water(), 55, 65)
	require.NoError(t, err)
	b, err := w.Coefficient()
	require.NoError(t, err)
	x, err := fluid.WaterState(60, 3e5)
	require.NoError(t, err)
	assert.InEpsilon(t, x.Expansion, b, 0.005)
	q, err := w.Relief(2e3, x.SpecificHeat)
	require.NoError(t, err)
	assert.InDelta(t, 0.9, q/x.Density/hydronics.LitrePerHour, 0.05)
}

package crosscheck_test

import (
	"math"
	"testing"

	"example.com/hydronics/pipe"
	"github.com/stretchr/testify/require"
)

// Both sides evaluate the same closed forms: Borda and Carnot, Crane, Rennels.
// Near equal bores the enlargement is the square of a small difference 1 - β²,
// of which rounding takes a larger share: the ratio of the bores stays at or below 0.95.
func TestChangeOfBore(t *testing.T) {
	rows := grid(uniform(0.02, 0.95), decades(0.03, 3))
	for _, p := range rows {
		p[0] *= p[1]
	}
	want := reference(t, "change", rows)
	var enlargement, contraction, sharp worst
	for i, p := range rows {
		e, err1 := pipe.Enlargement(p[0], p[1])
		c, err2 := pipe.Contraction(p[1], p[0])
		s, err3 := pipe.SharpContraction(p[1], p[0])
		require.NoError(t, err1)
		require.NoError(t, err2)
		require.NoError(t, err3)
		enlargement.add(e.Zeta, want[i][0], p)
		contraction.add(c.Zeta, want[i][1], p)
		sharp.add(s.Zeta, want[i][2], p)
	}
	enlargement.report(t, "sudden enlargement", rounding)
	contraction.report(t, "sudden contraction", rounding)
	sharp.report(t, "sharp contraction", rounding)
}

// The kinds of fitting by the names of the library, which lists some tees among
// the elbows and the three shut-off valves by their trim.
var (
	hooper = map[string]string{
		"elbow 90°, screwed":                      "Elbow, 90°, Standard (R/D = 1), Screwed",
		"elbow 90°, flanged or welded":            "Elbow, 90°, Standard (R/D = 1), Flanged/welded",
		"elbow 90°, long radius":                  "Elbow, 90°, Long-radius (R/D = 1.5), All types",
		"mitre 90°, 1 weld":                       "Elbow, 90°, Mitered (R/D = 1.5), 1 weld (90° angle)",
		"mitre 90°, 2 welds":                      "Elbow, 90°, Mitered (R/D = 1.5), 2 weld (45° angle)",
		"elbow 45°":                               "Elbow, 45°, Standard (R/D = 1), All types",
		"elbow 45°, long radius":                  "Elbow, 45°, Long-radius (R/D 1.5), All types",
		"return bend 180°, flanged or welded":     "Elbow, 180°, Standard (R/D = 1), Flanged/welded",
		"return bend 180°, long radius":           "Elbow, 180°, Long-radius (R/D = 1.5), All types",
		"tee as elbow, screwed":                   "Elbow, Used as, Standard, Screwed",
		"tee as elbow, long radius, screwed":      "Elbow, Elbow, Long-radius, Screwed",
		"tee as elbow, flanged or welded":         "Elbow, Elbow, Standard, Flanged/welded",
		"tee straight through, screwed":           "Tee, Run, Screwed",
		"tee straight through, flanged or welded": "Tee, Through, Flanged or welded",
		"gate, ball or plug valve, full bore":     "Valve, Gate, Full line size, Beta = 1",
		"gate, ball or plug valve, bore 0.9":      "Valve, Ball, Reduced trim, Beta = 0.9",
		"gate, ball or plug valve, bore 0.8":      "Valve, Plug, Reduced trim, Beta = 0.8",
		"globe valve":                             "Valve, Globe, Standard",
		"globe valve, angle or Y":                 "Valve, Globe, Angle or Y-type",
		"diaphragm valve":                         "Valve, Diaphragm, Dam type",
		"butterfly valve":                         "Valve, Butterfly,",
		"check valve, lift":                       "Valve, Check, Lift",
		"check valve, swing":                      "Valve, Check, Swing",
		"check valve, tilting disc":               "Valve, Check, Tilting-disc",
	}
	darby = map[string]string{
		"elbow 90°, threaded":              "Elbow, 90°, threaded, standard, (r/D = 1)",
		"elbow 90°, threaded, long radius": "Elbow, 90°, threaded, long radius, (r/D = 1.5)",
		"elbow 90°, flanged or welded":     "Elbow, 90°, flanged, welded, bends, (r/D = 1)",
		"bend 90°, r/D 2":                  "Elbow, 90°, (r/D = 2)",
		"bend 90°, r/D 4":                  "Elbow, 90°, (r/D = 4)",
		"bend 90°, r/D 6":                  "Elbow, 90°, (r/D = 6)",
		"mitre 90°, 1 weld":                "Elbow, 90°, mitered, 1 weld, (90°)",
		"mitre 90°, 2 welds":               "Elbow, 90°, 2 welds, (45°)",
		"elbow 45°, threaded":              "Elbow, 45°, threaded standard, (r/D = 1)",
		"elbow 45°, long radius":           "Elbow, 45°, long radius, (r/D = 1.5)",
		"return bend 180°, threaded":       "Elbow, 180°, threaded, close-return bend, (r/D = 1)",
		"return bend 180°, flanged":        "Elbow, 180°, flanged, (r/D = 1)",
		"return bend 180°, r/D 1.5":        "Elbow, 180°, all, (r/D = 1.5)",
		"tee as elbow, threaded":           "Tee, Through-branch, (as elbow), threaded, (r/D = 1)",
		"tee as elbow, r/D 1.5":            "Tee, Through-branch,(as elbow), (r/D = 1.5)",
		"tee as elbow, flanged":            "Tee, Through-branch, (as elbow), flanged, (r/D = 1)",
		"tee straight through, threaded":   "Tee, Run-through, threaded, (r/D = 1)",
		"tee straight through, flanged":    "Tee, Run-through, flanged, (r/D = 1)",
		"angle valve 45°":                  "Valve, Angle valve, 45°, full line size, β = 1",
		"angle valve 90°":                  "Valve, Angle valve, 90°, full line size, β = 1",
		"globe valve":                      "Valve, Globe valve, standard, β = 1",
		"plug valve, branch":               "Valve, Plug valve, branch flow",
		"plug valve, straight":             "Valve, Plug valve, straight through",
		"plug valve, three-way, straight":  "Valve, Plug valve, three-way (flow through)",
		"gate valve":                       "Valve, Gate valve, standard, β = 1",
		"ball valve":                       "Valve, Ball valve, standard, β = 1",
		"diaphragm valve":                  "Valve, Diaphragm, dam type",
		"check valve, swing":               "Valve, Swing check",
		"check valve, lift":                "Valve, Lift check",
	}
)

func TestTwoK(t *testing.T)   { fittings(t, "two_k", pipe.TwoK, hooper) }
func TestThreeK(t *testing.T) { fittings(t, "three_k", pipe.ThreeK, darby) }

// fittings compares every kind that the method knows, each at its share of the
// points, with the library's own formula and constants.
func fittings(t *testing.T, what string, method pipe.Method, theirs map[string]string) {
	names := method.Names()
	require.Len(t, theirs, len(names), "a kind of fitting is not compared")
	points := grid(decades(0.0005, 3), decades(1, 1e8))
	rows := make([][]any, len(points))
	for i, p := range points {
		name, ok := theirs[names[i%len(names)]]
		require.True(t, ok, names[i%len(names)])
		rows[i] = []any{name, p[0], p[1]}
	}
	want := reference(t, what, rows)
	var zeta worst
	for i, p := range points {
		f, err := method.Fitting(names[i%len(names)], p[0])
		require.NoError(t, err)
		got, err := f.At(p[1])
		require.NoError(t, err)
		zeta.add(got, want[i][0], p)
	}
	zeta.report(t, method.String(), rounding)
}

// The library takes the water of its loss coefficients at 60 °F, where the
// density, by its documentation 999.29744568 kg/m³, makes the coefficient 1.6e9;
// the definition of Kv says 1000 kg/m³. With this difference of 0.07 % taken out
// the two agree to the digits of that density, 1e-10.
func TestFlowCoefficient(t *testing.T) {
	const density, digits = 999.29744568 / 1000, 1e-10
	rows := grid(decades(0.01, 1e3), decades(0.005, 0.5))
	want := reference(t, "valve", rows)
	var zeta, cv, kv, back worst
	for i, p := range rows {
		k := pipe.Kv(p[0])
		z, err := k.Zeta(p[1])
		require.NoError(t, err)
		zeta.add(z, want[i][0]*density, p)
		cv.add(float64(k.Cv()), want[i][1], p)
		if theirs := want[i][0]; theirs >= 1e-6 && theirs <= 1e9 { // the limits of KvOfZeta
			k, err = pipe.KvOfZeta(theirs, p[1])
			require.NoError(t, err)
			kv.add(float64(k), want[i][2]*math.Sqrt(density), p)
		}
		back.add(float64(pipe.Cv(p[0]).Kv()), want[i][3], p)
	}
	zeta.report(t, "loss coefficient of Kv", digits)
	kv.report(t, "Kv of loss coefficient", digits)
	cv.report(t, "Cv of Kv", rounding)
	back.report(t, "Kv of Cv", rounding)
}

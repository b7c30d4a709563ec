package pipe

import (
	"fmt"
	"math"
	"strings"

	"example.com/hydronics"
)

// Method is a way to estimate the loss coefficient of a fitting from its kind
// and its bore.
type Method uint8

// The methods. Two-K and three-K know laminar flow, which is common with
// antifreeze; Crane's coefficient does not depend on the flow.
const (
	// TwoK is ζ = K1/Re + K∞ (1 + 25.4 mm/D).
	// Source: W. B. Hooper, Chem. Eng. 88 (24 Aug. 1981) 96.
	TwoK Method = iota + 1
	// ThreeK is ζ = K1/Re + Ki (1 + Kd/(D/25.4 mm)^0.3). The source takes the
	// nominal size for D; here it is the bore, since many tubes have no
	// nominal size in inches.
	// Source: R. Darby, Chemical Engineering Fluid Mechanics, 2nd ed. (2001).
	ThreeK
	// Crane is ζ = n fT, with the friction factor fT of fully turbulent flow
	// in clean steel pipe ([CraneTurbulentFactor]), whatever the pipe.
	// Source: Crane Co., Flow of Fluids, Technical Paper 410 (2009).
	Crane
)

var methodNames = [...]string{"", "two-K", "three-K", "Crane"}

// String returns the name of the method, such as "two-K".
func (m Method) String() string {
	if int(m) < len(methodNames) {
		return methodNames[m]
	}
	return ""
}

// kind is one row of a method's table.
type kind struct {
	name        string
	k1          float64
	k           float64 // K∞, Ki or n
	kd          float64 // inch^0.3
	uncertainty float64
	seen        bool // Crane only: the multiplier was seen in a reproduction of the source
}

// How far published coefficients of one kind of fitting differ: Hydraulic
// Institute, Engineering Data Book, Table 3.B.1; no figure is given for
// bends and mitres, which take that of the flanged elbow.
const (
	elbow      = 0.40
	longElbow  = 0.25
	bend       = 0.35
	elbow45    = 0.10
	tee        = 0.25
	globe      = 0.25
	angleValve = 0.20
	gate       = 0.50
	checkValve = 0.80 // the source states +200/-80 %
)

// Coefficients of Hooper (1981), as reproduced in a general-purpose library.
var twoK = []kind{
	{"elbow 90°, screwed", 800, 0.4, 0, elbow, true},
	{"elbow 90°, flanged or welded", 800, 0.25, 0, bend, true},
	{"elbow 90°, long radius", 800, 0.2, 0, longElbow, true},
	{"mitre 90°, 1 weld", 1000, 1.15, 0, bend, true},
	{"mitre 90°, 2 welds", 800, 0.35, 0, bend, true},
	{"elbow 45°", 500, 0.2, 0, elbow45, true},
	{"elbow 45°, long radius", 500, 0.15, 0, elbow45, true},
	{"return bend 180°, flanged or welded", 1000, 0.35, 0, bend, true},
	{"return bend 180°, long radius", 1000, 0.3, 0, bend, true},
	{"tee as elbow, screwed", 500, 0.7, 0, tee, true},
	{"tee as elbow, long radius, screwed", 800, 0.4, 0, tee, true},
	{"tee as elbow, flanged or welded", 800, 0.8, 0, tee, true},
	{"tee straight through, screwed", 200, 0.1, 0, tee, true},
	{"tee straight through, flanged or welded", 150, 0.05, 0, tee, true},
	{"gate, ball or plug valve, full bore", 300, 0.1, 0, gate, true},
	{"gate, ball or plug valve, bore 0.9", 500, 0.15, 0, gate, true},
	{"gate, ball or plug valve, bore 0.8", 1000, 0.25, 0, gate, true},
	{"globe valve", 1500, 4, 0, globe, true},
	{"globe valve, angle or Y", 1000, 2, 0, angleValve, true},
	{"diaphragm valve", 1000, 2, 0, gate, true},
	{"butterfly valve", 800, 0.25, 0, gate, true},
	{"check valve, lift", 2000, 10, 0, checkValve, true},
	{"check valve, swing", 1500, 1.5, 0, checkValve, true},
	{"check valve, tilting disc", 1000, 0.5, 0, checkValve, true},
}

// Coefficients of Darby (2001), as reproduced in a general-purpose library.
var threeK = []kind{
	{"elbow 90°, threaded", 800, 0.14, 4, elbow, true},
	{"elbow 90°, threaded, long radius", 800, 0.071, 4.2, longElbow, true},
	{"elbow 90°, flanged or welded", 800, 0.091, 4, bend, true},
	{"bend 90°, r/D 2", 800, 0.056, 3.9, bend, true},
	{"bend 90°, r/D 4", 800, 0.066, 3.9, bend, true},
	{"bend 90°, r/D 6", 800, 0.075, 4.2, bend, true},
	{"mitre 90°, 1 weld", 1000, 0.27, 4, bend, true},
	{"mitre 90°, 2 welds", 800, 0.068, 4.1, bend, true},
	{"elbow 45°, threaded", 500, 0.071, 4.2, elbow45, true},
	{"elbow 45°, long radius", 500, 0.052, 4, elbow45, true},
	{"return bend 180°, threaded", 1000, 0.23, 4, bend, true},
	{"return bend 180°, flanged", 1000, 0.12, 4, bend, true},
	{"return bend 180°, r/D 1.5", 1000, 0.1, 4, bend, true},
	{"tee as elbow, threaded", 500, 0.274, 4, tee, true},
	{"tee as elbow, r/D 1.5", 800, 0.14, 4, tee, true},
	{"tee as elbow, flanged", 800, 0.28, 4, tee, true},
	{"tee straight through, threaded", 200, 0.091, 4, tee, true},
	{"tee straight through, flanged", 150, 0.05, 4, tee, true},
	{"angle valve 45°", 950, 0.25, 4, angleValve, true},
	{"angle valve 90°", 1000, 0.69, 4, angleValve, true},
	{"globe valve", 1500, 1.7, 3.6, globe, true},
	{"plug valve, branch", 500, 0.41, 4, gate, true},
	{"plug valve, straight", 300, 0.084, 3.9, gate, true},
	{"plug valve, three-way, straight", 300, 0.14, 4, gate, true},
	{"gate valve", 300, 0.037, 3.9, gate, true},
	{"ball valve", 300, 0.017, 3.5, gate, true},
	{"diaphragm valve", 1000, 0.69, 4.9, gate, true},
	{"check valve, swing", 1500, 0.46, 4, checkValve, true},
	{"check valve, lift", 2000, 2.85, 3.8, checkValve, true},
}

// Multipliers of Crane (2009) for a full bore; three of them were seen in a
// reproduction of example 7.9, the others are from memory.
var crane = []kind{
	{"elbow 90°, threaded", 0, 30, 0, elbow, false},
	{"elbow 45°, threaded", 0, 16, 0, elbow45, false},
	{"bend 90°, r/D 1", 0, 20, 0, bend, true},
	{"bend 90°, r/D 1.5", 0, 14, 0, bend, false},
	{"bend 90°, r/D 2", 0, 12, 0, bend, false},
	{"bend 90°, r/D 3", 0, 12, 0, bend, false},
	{"bend 90°, r/D 4", 0, 14, 0, bend, false},
	{"bend 90°, r/D 6", 0, 17, 0, bend, false},
	{"bend 90°, r/D 8", 0, 24, 0, bend, false},
	{"bend 90°, r/D 10", 0, 30, 0, bend, false},
	{"return bend 180°, close", 0, 50, 0, bend, false},
	{"mitre 90°", 0, 60, 0, bend, false},
	{"mitre 45°", 0, 15, 0, elbow45, false},
	{"tee straight through", 0, 20, 0, tee, false},
	{"tee as elbow", 0, 60, 0, tee, false},
	{"gate valve", 0, 8, 0, gate, true},
	{"ball valve", 0, 3, 0, gate, false},
	{"globe valve", 0, 340, 0, globe, false},
	{"globe valve, Y", 0, 55, 0, globe, false},
	{"angle valve", 0, 150, 0, angleValve, true},
	{"angle valve, guided", 0, 55, 0, angleValve, false},
	{"plug valve, straight", 0, 18, 0, gate, false},
	{"plug valve, three-way, straight", 0, 30, 0, gate, false},
	{"plug valve, three-way, branch", 0, 90, 0, gate, false},
	{"check valve, swing", 0, 100, 0, checkValve, false},
	{"check valve, swing, straight", 0, 50, 0, checkValve, false},
	{"check valve, lift", 0, 600, 0, checkValve, false},
	{"check valve, lift, angle", 0, 55, 0, checkValve, false},
}

func (m Method) table() ([]kind, string) {
	switch m {
	case TwoK:
		return twoK, "W. B. Hooper, Chem. Eng. 88 (24 Aug. 1981) 96"
	case ThreeK:
		return threeK, "R. Darby, Chemical Engineering Fluid Mechanics, 2nd ed. (2001)"
	case Crane:
		return crane, "Crane Technical Paper 410 (2009), appendix A"
	}
	return nil, ""
}

// Names returns the kinds of fitting that the method knows.
func (m Method) Names() []string {
	table, _ := m.table()
	names := make([]string, len(table))
	for i, k := range table {
		names[i] = k.name
	}
	return names
}

// Fitting returns the fitting of that kind ([Method.Names]) for the bore in m
// (0.0005 to 3, guard), by the method's formula; its coefficients refer to that
// bore. An unknown kind or method gives [hydronics.ErrNoSolution].
// Source: W. B. Hooper (1981), R. Darby (2001) and Crane Technical Paper 410
// (2009), as cited at each [Method]; the fitting's Source says where its
// coefficients are from memory.
func (m Method) Fitting(name string, bore float64) (Fitting, error) {
	const fn = "pipe.Method.Fitting"
	if err := within(fn, "bore", "m", bore, minBore, maxBore); err != nil {
		return Fitting{}, err
	}
	table, source := m.table()
	for _, k := range table {
		if k.name != name {
			continue
		}
		f := Fitting{Name: name, ZetaLaminar: k.k1, Bore: bore, Uncertainty: k.uncertainty,
			Source: hydronics.Source{Text: source, Provenance: hydronics.SecondHand}}
		if !k.seen {
			f.Source.Provenance = hydronics.FromMemory
		}
		inches := bore / hydronics.Inch
		switch m {
		case TwoK:
			f.Zeta = k.k * (1 + 1/inches)
		case ThreeK:
			f.Zeta = k.k * (1 + k.kd/math.Pow(inches, 0.3))
		case Crane:
			f.Zeta = k.k * craneFactor(bore)
		}
		return f, nil
	}
	return Fitting{}, fmt.Errorf("%s: %w: the method %q has no %q, but %s",
		fn, hydronics.ErrNoSolution, m, name, strings.Join(m.Names(), "; "))
}

// CraneTurbulentFactor returns fT, the friction factor of fully turbulent flow
// in clean commercial steel of the bore in m (0.005 to 0.6, guard), on which
// Crane bases the loss of fittings: 0.25/log10²(ε/(3.7 D)) with ε = 0.0018 in.
// The printed table of the source is this value to three decimals.
// Source: Crane Technical Paper 410 (2009), appendix A; the formula is
// Colebrook's (1939) for a Reynolds number without limit.
func CraneTurbulentFactor(bore float64) (float64, error) {
	const fn = "pipe.CraneTurbulentFactor"
	if err := within(fn, "bore", "m", bore, 0.005, 0.6); err != nil {
		return math.NaN(), err
	}
	return craneFactor(bore), nil
}

func craneFactor(bore float64) float64 {
	l := math.Log10(0.0018 * hydronics.Inch / bore / 3.7)
	return 0.25 / (l * l)
}

package pipe

import (
	"strconv"

	"example.com/hydronics"
)

// The dimension tables of the standards, in their own units.

// diameter is an outside diameter in mm with the walls it is made with.
type diameter struct {
	outside float64
	walls   []float64
}

type walls = []float64

// EN 1057:2006+A1:2010, Table 3.
var en1057 = []diameter{
	{6, walls{0.6, 0.8, 1}}, {8, walls{0.6, 0.8, 1}}, {10, walls{0.6, 0.7, 0.8, 1}},
	{12, walls{0.6, 0.7, 0.8, 1}}, {14, walls{0.8, 1}}, {15, walls{0.7, 0.8, 1}},
	{16, walls{1}}, {18, walls{0.8, 1}}, {22, walls{0.9, 1, 1.1, 1.2, 1.5}},
	{28, walls{0.9, 1, 1.2, 1.5}}, {35, walls{1, 1.2, 1.5}}, {40, walls{1}},
	{42, walls{1, 1.2, 1.5}}, {54, walls{1, 1.2, 1.5, 2}}, {64, walls{2}},
	{66.7, walls{1.2, 2}}, {76.1, walls{1.5, 2}}, {88.9, walls{2}},
	{108, walls{1.5, 2.5}}, {133, walls{1.5, 3}}, {159, walls{2, 3}},
	{219, walls{3}}, {267, walls{3}},
}

// threaded is a size with several walls, one per series of its standard;
// 0 where a series does not have the size.
type threaded struct {
	nominal string
	outside float64
	walls   []float64
}

// EN 10255:2004+A1:2007, Table 2: medium and heavy. The older DIN 2440 differs
// by 0.1 mm in bore. The walls of DN 6 are from memory.
var en10255 = []threaded{
	{"6", 10.2, walls{2, 2.6}}, {"8", 13.5, walls{2.3, 2.9}}, {"10", 17.2, walls{2.3, 2.9}},
	{"15", 21.3, walls{2.6, 3.2}}, {"20", 26.9, walls{2.6, 3.2}}, {"25", 33.7, walls{3.2, 4}},
	{"32", 42.4, walls{3.2, 4}}, {"40", 48.3, walls{3.2, 4}}, {"50", 60.3, walls{3.6, 4.5}},
	{"65", 76.1, walls{3.6, 4.5}}, {"80", 88.9, walls{4, 5}}, {"100", 114.3, walls{4.5, 5.4}},
	{"125", 139.7, walls{5, 5.4}}, {"150", 165.1, walls{5, 5.4}},
}

// ASME B36.10M-2004, mm: schedules 40 and 80.
var b3610 = []threaded{
	{"1/8", 10.3, walls{1.73, 2.41}}, {"1/4", 13.7, walls{2.24, 3.02}}, {"3/8", 17.1, walls{2.31, 3.2}},
	{"1/2", 21.3, walls{2.77, 3.73}}, {"3/4", 26.7, walls{2.87, 3.91}}, {"1", 33.4, walls{3.38, 4.55}},
	{"1 1/4", 42.2, walls{3.56, 4.85}}, {"1 1/2", 48.3, walls{3.68, 5.08}}, {"2", 60.3, walls{3.91, 5.54}},
	{"2 1/2", 73, walls{5.16, 7.01}}, {"3", 88.9, walls{5.49, 7.62}}, {"3 1/2", 101.6, walls{5.74, 8.08}},
	{"4", 114.3, walls{6.02, 8.56}}, {"5", 141.3, walls{6.55, 9.53}}, {"6", 168.3, walls{7.11, 10.97}},
}

// ASTM B88-22, Table 1, inches: types K, L and M.
var b88 = []threaded{
	{"1/4", 0.375, walls{0.035, 0.03, 0}}, {"3/8", 0.5, walls{0.049, 0.035, 0.025}},
	{"1/2", 0.625, walls{0.049, 0.04, 0.028}}, {"5/8", 0.75, walls{0.049, 0.042, 0}},
	{"3/4", 0.875, walls{0.065, 0.045, 0.032}}, {"1", 1.125, walls{0.065, 0.05, 0.035}},
	{"1 1/4", 1.375, walls{0.065, 0.055, 0.042}}, {"1 1/2", 1.625, walls{0.072, 0.06, 0.049}},
	{"2", 2.125, walls{0.083, 0.07, 0.058}}, {"2 1/2", 2.625, walls{0.095, 0.08, 0.065}},
	{"3", 3.125, walls{0.109, 0.09, 0.072}},
}

// ASTM F876, CTS SDR 9, inches: least walls, from memory.
var f876 = []threaded{
	{"3/8", 0.5, walls{0.07}}, {"1/2", 0.625, walls{0.07}}, {"5/8", 0.75, walls{0.083}},
	{"3/4", 0.875, walls{0.097}}, {"1", 1.125, walls{0.125}}, {"1 1/4", 1.375, walls{0.153}},
	{"1 1/2", 1.625, walls{0.181}}, {"2", 2.125, walls{0.236}},
}

// Thin-walled tube for press joints, from memory.
var (
	en10305 = []diameter{
		{12, walls{1.2}}, {15, walls{1.2}}, {18, walls{1.2}}, {22, walls{1.5}}, {28, walls{1.5}},
		{35, walls{1.5}}, {42, walls{1.5}}, {54, walls{1.5}}, {76.1, walls{2}}, {88.9, walls{2}}, {108, walls{2}},
	}
	en10312 = []diameter{
		{15, walls{1}}, {18, walls{1}}, {22, walls{1.2}}, {28, walls{1.2}}, {35, walls{1.5}},
		{42, walls{1.5}}, {54, walls{1.5}}, {76.1, walls{2}}, {88.9, walls{2}}, {108, walls{2}},
	}
)

// Plastic tube by series: the least walls.
var (
	plasticS5 = []diameter{
		{16, walls{1.5}}, {20, walls{1.9}}, {25, walls{2.3}}, {32, walls{2.9}},
		{40, walls{3.7}}, {50, walls{4.6}}, {63, walls{5.8}},
	}
	plasticS32 = []diameter{
		{16, walls{2.2}}, {20, walls{2.8}}, {25, walls{3.5}}, {32, walls{4.4}},
		{40, walls{5.5}}, {50, walls{6.9}}, {63, walls{8.6}},
	}
	plasticS25 = []diameter{
		{20, walls{3.4}}, {25, walls{4.2}}, {32, walls{5.4}}, {40, walls{6.7}},
		{50, walls{8.3}}, {63, walls{10.5}},
	}
	// EN 12201-2 sets least walls of 2.0, 2.3 and 3.0 mm of its own.
	en12201 = []diameter{
		{20, walls{2}}, {25, walls{2.3}}, {32, walls{3}}, {40, walls{3.7}}, {50, walls{4.6}},
		{63, walls{5.8}}, {75, walls{6.8}}, {90, walls{8.2}}, {110, walls{10}},
	}
	// EN ISO 21003 leaves the dimensions to the producer.
	multilayer = []diameter{
		{14, walls{2}}, {16, walls{2}}, {18, walls{2}}, {20, walls{2}}, {26, walls{3}},
		{32, walls{3}}, {40, walls{3.5}}, {50, walls{4}}, {63, walls{4.5}},
	}
)

// byDiameter lists every wall of every diameter; recalled says which diameters
// are known from memory alone.
func byDiameter(table []diameter, recalled func(outside float64) bool) []size {
	var sizes []size
	for _, d := range table {
		for _, w := range d.walls {
			nominal := strconv.FormatFloat(d.outside, 'f', -1, 64)
			sizes = append(sizes, size{nominal, d.outside, w, recalled(d.outside)})
		}
	}
	return sizes
}

// byColumn lists the sizes of one wall column.
func byColumn(table []threaded, column int, recalled string) []size {
	var sizes []size
	for _, t := range table {
		if w := t.walls[column]; w > 0 {
			sizes = append(sizes, size{t.nominal, t.outside, w, t.nominal == recalled})
		}
	}
	return sizes
}

func catalogueLines() []line {
	const (
		mm = hydronics.Millimetre
		in = hydronics.Inch
	)
	source := func(p hydronics.Provenance, text string) hydronics.Source {
		return hydronics.Source{Text: text, Provenance: p}
	}
	seen := func(float64) bool { return false }
	const (
		quoted   = hydronics.SecondHand
		recalled = hydronics.FromMemory
		custom   = hydronics.CommonPractice
		rule     = ", the rule of ISO 4065"
	)
	copper := source(quoted, "EN 1057:2006+A1:2010, Table 3")
	steel := source(quoted, "EN 10255:2004+A1:2007, Table 2")
	nps := source(quoted, "ASME B36.10M-2004")
	b88s := source(quoted, "ASTM B88-22, Table 1")
	return []line{
		{EN1057, "EN 1057:2006+A1:2010", "copper", copper, mm, "", false, byDiameter(en1057, seen)},
		{EN10255Medium, "EN 10255:2004+A1:2007", "steel", steel, mm, "DN ", false, byColumn(en10255, 0, "6")},
		{EN10255Heavy, "EN 10255:2004+A1:2007", "steel", steel, mm, "DN ", false, byColumn(en10255, 1, "6")},
		{EN10305, "EN 10305-3", "steel", source(recalled, "EN 10305-3"), mm, "", false, byDiameter(en10305, seen)},
		{EN10312, "EN 10312:2002", "stainless steel", source(recalled, "EN 10312:2002, series 2"), mm, "", false, byDiameter(en10312, seen)},
		{ENISO15875S5, "EN ISO 15875-2", "PE-X", source(quoted, "EN ISO 15875-2, as DIN 16893 SDR 11"), mm, "", true,
			byDiameter(plasticS5, func(d float64) bool { return d < 25 })},
		{ENISO15875S32, "EN ISO 15875-2", "PE-X", source(recalled, "EN ISO 15875-2"+rule), mm, "", true, byDiameter(plasticS32, seen)},
		{ENISO22391S5, "EN ISO 22391-2", "PE-RT", source(recalled, "EN ISO 22391-2"+rule), mm, "", true, byDiameter(plasticS5, seen)},
		{ENISO22391S32, "EN ISO 22391-2", "PE-RT", source(recalled, "EN ISO 22391-2"+rule), mm, "", true, byDiameter(plasticS32, seen)},
		{ENISO15874S32, "EN ISO 15874-2", "PP-R", source(recalled, "EN ISO 15874-2"+rule), mm, "", true, byDiameter(plasticS32, seen)},
		{ENISO15874S25, "EN ISO 15874-2", "PP-R", source(quoted, "EN ISO 15874-2, as DIN 8077 PN 20"), mm, "", true,
			byDiameter(plasticS25, func(d float64) bool { return d == 50 })},
		{ENISO15876S5, "EN ISO 15876-2", "PB", source(recalled, "EN ISO 15876-2"+rule), mm, "", true, byDiameter(plasticS5[:4], seen)},
		{EN12201SDR11, "EN 12201-2", "PE 100", source(quoted, "EN 12201-2, as MS 1058 and DIN 16893"), mm, "", true,
			byDiameter(en12201, func(d float64) bool { return d < 75 })},
		{ENISO21003, "EN ISO 21003-2", "multilayer", source(custom, "EN ISO 21003-2 leaves dimensions to the producer"), mm, "", false, byDiameter(multilayer, seen)},
		{B3610M40, "ASME B36.10M-2004", "steel", nps, mm, "NPS ", false, byColumn(b3610, 0, "")},
		{B3610M80, "ASME B36.10M-2004", "steel", nps, mm, "NPS ", false, byColumn(b3610, 1, "")},
		{B88K, "ASTM B88-22", "copper", b88s, in, "NPS ", false, byColumn(b88, 0, "")},
		{B88L, "ASTM B88-22", "copper", b88s, in, "NPS ", false, byColumn(b88, 1, "")},
		{B88M, "ASTM B88-22", "copper", b88s, in, "NPS ", false, byColumn(b88, 2, "")},
		{F876, "ASTM F876", "PE-X", source(recalled, "ASTM F876, Tables 1 and 2"), in, "NPS ", true, byColumn(f876, 0, "")},
	}
}

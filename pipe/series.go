package pipe

import "example.com/hydronics"

// A Series is one line of sizes in a tube standard, such as the medium tubes of
// EN 10255. Its text starts every designation of the series.
type Series string

// The series of the catalogue. "From memory" means that the sizes were not
// seen in the standard nor in a reproduction of it: their Source says so, and
// sizing skips them unless it is told not to.
const (
	EN1057        Series = "EN 1057"             // copper
	EN10255Medium Series = "EN 10255 M"          // steel for welding and threading, medium wall
	EN10255Heavy  Series = "EN 10255 H"          // the same, heavy wall
	EN10305       Series = "EN 10305-3"          // carbon steel press tube, from memory
	EN10312       Series = "EN 10312"            // stainless steel press tube, from memory
	ENISO15875S5  Series = "EN ISO 15875 S5"     // PE-X, SDR 11; 16 and 20 mm from memory
	ENISO15875S32 Series = "EN ISO 15875 S3.2"   // PE-X, SDR 7.4, from memory
	ENISO22391S5  Series = "EN ISO 22391 S5"     // PE-RT, SDR 11, from memory
	ENISO22391S32 Series = "EN ISO 22391 S3.2"   // PE-RT, SDR 7.4, from memory
	ENISO15874S32 Series = "EN ISO 15874 S3.2"   // PP-R, SDR 7.4, from memory
	ENISO15874S25 Series = "EN ISO 15874 S2.5"   // PP-R, SDR 6; 50 mm from memory
	ENISO15876S5  Series = "EN ISO 15876 S5"     // PB, SDR 11, from memory
	EN12201SDR11  Series = "EN 12201 SDR 11"     // PE 100; up to 63 mm from memory
	ENISO21003    Series = "EN ISO 21003"        // multilayer, sizes of common practice
	B3610M40      Series = "ASME B36.10M 40"     // steel, schedule 40
	B3610M80      Series = "ASME B36.10M 80"     // steel, schedule 80
	B88K          Series = "ASTM B88 K"          // copper, thick wall
	B88L          Series = "ASTM B88 L"          // copper, middle wall
	B88M          Series = "ASTM B88 M"          // copper, thin wall
	F876          Series = "ASTM F876 CTS SDR 9" // PE-X, from memory
)

// line holds what the sizes of a series share.
type line struct {
	series      Series
	standard    string
	material    string
	source      hydronics.Source
	unit        float64 // m per unit of the numbers in sizes
	prefix      string  // of the nominal size in the designation; "" writes outside x wall
	minimumWall bool
	sizes       []size
}

// size is one row of a dimension table, in the unit of the table.
type size struct {
	nominal       string
	outside, wall float64
	memory        bool // known from memory alone, whatever the series says
}

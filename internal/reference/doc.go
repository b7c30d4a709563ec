// Package reference holds published tables with their provenance, and the rules
// for comparing them with the library.
//
// A table is a CSV file in data/<area>/. Lines that begin with # are its header,
// "# key: value"; keys may repeat where that makes sense:
//
//	title        what the table is
//	source       author, title, edition, year, publisher or standard number
//	locator      table, equation, page or example number
//	provenance   original | second-hand | measured | reference library |
//	             computed apart | common practice | from memory
//	seen         where the transcriber saw it
//	calculation  the calculation it checks, such as fluid/water
//	exact        input columns that are nominal, not rounded (comma separated)
//	given        COLUMN VALUE: a constant input for all rows
//	case         the column that groups consecutive rows into one evaluation
//	check        COLUMN print            half a unit of the last printed digit
//	             COLUMN exact            words, whole numbers, nominal sizes, what a rule sets
//	             COLUMN rel X            wider by X times the value: needs why
//	             COLUMN abs X            wider by X in the column's unit: needs why
//	             COLUMN mean A rms B     measured data: bias and scatter of got/want-1: needs why
//	why          the reason for a limit wider than print, with its page
//	disputed     sources disagree: reported with its gap, never gates
//	notes        misprints, disagreements, how the source rounds
//
// Then follows one row of column names, each ending in its unit (see package
// internal/unit), and the rows. Besides inputs and checked outputs a table may
// have the columns label, note, source, locator and seen (words for the reader),
// provenance (overrides the header for its row), disputed (a reason, for its
// row) and expect (out of range | no solution: the row must fail so). An empty
// cell of an input means that the row does not have it; an empty cell of an
// output is not compared. Cells stay text until they are compared, since 0.0640
// and 0.064 say different things.
//
// Package referencetest compares the tables of an area inside go test.
//
// Tolerance is computed: half a unit of the last printed digit of the result,
// plus, for each input that is not exact, the larger change of the result when
// the input goes to either end of its printed digit, plus the declared limit.
// Tables from memory or from common practice are reported and never gate.
package reference

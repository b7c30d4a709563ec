// Package hydronics is the ground floor of a library for the water side of
// heating: the conventions, unit constants, errors, sources and findings that
// the packages fluid, pipe, expansion, frost and dhw share.
//
// # Numbers
//
// Every exported number is a float64 in coherent SI: metre, square and cubic
// metre, m³/s, kg, kg/s, pascal, watt, joule, second, W/(m·K). Temperatures are
// in degrees Celsius, temperature differences in kelvin, fractions run from 0
// to 1, times are seconds. The constants of this package carry the trade's
// units: multiply to bring a number in, divide to take it out.
//
//	flow := 24 * hydronics.LitrePerMinute
//	fmt.Printf("%.1f kPa", loss/hydronics.Kilopascal)
//
// A pressure is a difference, unless its type is [Gauge] (above the atmosphere)
// or its name ends in Abs (absolute). A temperature difference is never a
// parameter where the two temperatures can be given.
//
// Two slips that Go does not catch: 1/2*hydronics.Bar is zero, because 1/2 is
// an integer division (write 0.5), and a number read from a file has no unit
// until you multiply it by one.
//
// # Limits and errors
//
// Every calculation states the range in which it holds. There are two kinds
// of limit. A validity limit is published: the [RangeError] names who says so.
// A guard is ours and catches slips of unit, such as a bore of 20 (metres) that
// should be 0.020; its source reads [Guard]. Outside either, a scalar comes back
// as NaN and a struct as its zero value, always together with an error: nothing
// is clamped, nothing extrapolated, nothing panics. Errors match [ErrRange] or
// [ErrNoSolution] with [errors.Is]; several wrong fields come joined.
//
// Something valid that deserves a remark (transitional flow, say) is a field of
// the result and never an error. A result that may never happen, such as the
// freezing of a pipe in mild air, is a field named Never.
//
// # At the same time
//
// Values may be shared and functions called by any number of goroutines at once;
// nothing is kept between calls. The one exception says so: a network.System is
// a workspace, and each goroutine prepares its own from the shared network.
//
// # Sources and findings
//
// A [Source] says where a rule, a table or a method comes from and how closely
// it was seen. A [Finding] is what every package returns when it judges: a value,
// its limit, the uncertainty and the [Verdict], with the source beside it.
//
// A calculation releases nothing. Pressure, scalding water, legionella, frost
// and antifreeze can hurt people: local codes come first, and the work belongs
// to licensed persons.
package hydronics

package numeric

import "math"

// LogSmall returns the natural logarithm of a normal number v in (0, 0.5], with
// an absolute error below 1e-15 + 2e-16 |ln v|, in about two thirds of the time
// of math.Log. Near 1 that error is no longer small against the result, hence
// the limit; outside (0, 0.5] the result means nothing.
//
// Method: v = 2^e m, m = (1+r)/c with c from a table for the leading seven bits
// of m, so that |r| < 1/256: ln v = e ln 2 - ln c + ln(1+r).
func LogSmall(v float64) float64 {
	bits := math.Float64bits(v)
	exponent := float64(int64(bits>>52) - 1023)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	c := &logTable[bits>>(52-logBits)&(1<<logBits-1)]
	r := m*c.inverse - 1
	r2 := r * r
	// ln(1+r) = r - r²/2 + r³/3 - r⁴/4 + r⁵/5 - r⁶/6; the next term is below 2e-18.
	series := r - r2*((1./2-r*(1./3))+r2*((1./4-r*(1./5))+r2*(1./6)))
	return (exponent*math.Ln2 + c.log) + series
}

const logBits = 7

// logTable holds for each leading part of a mantissa a short number near its
// inverse and the negative logarithm of that number.
var logTable = func() (table [1 << logBits]struct{ inverse, log float64 }) {
	for i := range table {
		middle := 1 + (float64(i)+0.5)/(1<<logBits)
		short := math.Float64frombits(math.Float64bits(1/middle) &^ (1<<32 - 1))
		table[i].inverse, table[i].log = short, -math.Log(short)
	}
	return table
}()

package numeric

import "math"

// Exp returns e to the power v for v between -700 and 700, with a relative error
// below 3e-16, in about half the time of math.Exp, and so that more of it overlaps
// with other work. Outside these limits the result means nothing.
//
// Method: v = (k/64) ln 2 + r with k whole, so that |r| < 0.0055:
// e^v = 2^(k/64) e^r, the first factor from a table for the remainder of k/64.
func Exp(v float64) float64 {
	const (
		round = 0x1.8p52           // added and taken away again, it leaves a whole number
		per   = 64 / math.Ln2      // k for each unit of v
		high  = 0x1.62e42fefa0p-7  // ln 2/64, with so few digits that its product with k is exact
		low   = math.Ln2/64 - high // what that leaves out
	)
	shifted := v*per + round
	bits := math.Float64bits(shifted) // k in the last digits
	k := shifted - round
	r := v - k*high - k*low
	r2 := r * r
	// e^r - 1; the next term, r⁶/720, is below 4e-17.
	series := r + r2*((1./2+r*(1./6))+r2*(1./24+r*(1./120)))
	scale := math.Float64frombits(expTable[bits%64] + bits<<(52-6))
	return scale + scale*series
}

// expTable holds for each remainder the bits of 2^(j/64), less those that j adds
// to the exponent.
var expTable = func() (table [64]uint64) {
	for j := range table {
		table[j] = math.Float64bits(math.Exp2(float64(j)/64)) - uint64(j)<<(52-6)
	}
	return table
}()

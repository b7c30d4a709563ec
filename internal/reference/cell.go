package reference

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// halfDigit returns half a unit of the last printed digit of a number: 0.05 for
// "12.3", 0.5 for "600", 5e-8 for "1.23e-5" (its last digit is worth 1e-7).
func halfDigit(text string) float64 {
	mantissa, exponent := text, 0
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		mantissa = text[:i]
		exponent, _ = strconv.Atoi(text[i+1:])
	}
	if i := strings.IndexByte(mantissa, '.'); i >= 0 {
		exponent -= len(mantissa) - i - 1
	}
	return 0.5 * math.Pow(10, float64(exponent))
}

// number reads a finite decimal number, and nothing else that Go would accept.
func number(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(text, "_xXpP") {
		return math.NaN(), fmt.Errorf("%q is not a decimal number", text)
	}
	return v, nil
}

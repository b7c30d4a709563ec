// Package crosscheck compares the library with independent code: general-purpose
// Python libraries on dense pseudo-random grids. It holds tests only.
//
// The tests want /usr/bin/python3 with the Debian packages python3-iapws and
// python3-fluids. They are skipped where these are missing, unless CI=true.
package crosscheck

// Package network solves a whole hydronic network at once: pumps, tubes, valves
// and bypasses in any number of loops.
package network

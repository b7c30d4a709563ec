// Package numeric holds the few numerical methods that the library needs and
// gonum does not offer. Nothing in it knows about the trade.
package numeric

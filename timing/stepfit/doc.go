// Package stepfit turns the readings of one step into its time model. It knows
// numbers only.
//
// A reading covers m setups and n counts and took t seconds; the model is
//
//	t = a·m + b·n, variance growing with n^q
//
// where a is the setup time, b the unit time and q, the spread, is 0, 1 or 2.
// It is fitted by weighted least squares with weights n^(−q). Readings are
// condensed into Sums, which can be merged, so that a log of any length needs
// one pass and little memory. Readings are taken as independent of each other.
package stepfit

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
// one pass and little memory.
//
// Readings are taken as independent of each other (Sums.Fit), or those of one grow
// or one worker as sharing an effect, the same for each of its readings and drawn
// anew for every further grow or worker (Groups.Fit):
//
//	t = a·m + b·n + u, u ~ N(0, σᵤ²)
//
// One grouping is reckoned with at a time, and each step by itself.
package stepfit

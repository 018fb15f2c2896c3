package stepfit

import "gonum.org/v1/gonum/mathext"

// Test is an F test: its value, degrees of freedom and probability.
type Test struct {
	F        float64
	DF1, DF2 int
	P        float64
}

// Apart tests whether the readings of several sets, none of them empty, have the same
// times: F the extra sum of squares of setup and unit times of their own for each set, as
// a form and spread have them (Draper and Smith, Applied Regression Analysis, 3rd ed.,
// section 6.1). False where the readings cannot tell.
func Apart(form Form, spread int, sets []Sums) (Test, bool) {
	var all Sums
	var apart float64
	parameters := 0
	for _, s := range sets {
		all.Merge(s)
		rss, rank := s.residualSquares(form, spread)
		apart += rss
		parameters += rank
	}
	together, common := all.residualSquares(form, spread)
	test := Test{DF1: parameters - common, DF2: all.Readings - parameters}
	times := all.centred[spread].factor().times()
	if test.DF1 < 1 || test.DF2 < 1 || apart < negligible*times.dot(times) {
		return Test{}, false
	}
	extra := max(0, together-apart) // below 0 by rounding alone
	test.F = extra / float64(test.DF1) / (apart / float64(test.DF2))
	test.P = fTail(test.F, test.DF1, test.DF2)
	return test, true
}

// residualSquares is the residual sum of squares of a form and how many times it has to find, or of
// what is left of the form where the readings cannot tell its two times.
func (s Sums) residualSquares(form Form, spread int) (rss float64, parameters int) {
	if form == SetupUnit && !(s.canFit(form) && s.tellsApart(spread)) {
		form = Unit
		if !s.canFit(Unit) {
			form = Setup
		}
	}
	if !s.canFit(form) {
		times := s.centred[spread].factor().times()
		return times.dot(times), 0
	}
	return s.fitOf(form, spread).RSS, form.Parameters()
}

// fTail is the probability that F with so many degrees of freedom is at least f
// (Abramowitz and Stegun, 26.6.2).
func fTail(f float64, df1, df2 int) float64 {
	a, b := float64(df1), float64(df2)
	return mathext.RegIncBeta(b/2, a/2, b/(b+a*f))
}

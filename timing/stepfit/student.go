package stepfit

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// manyDF is where Student's t is so close to the normal that its expansion in
// 1/df is exact to the last digits, and the incomplete beta function is not.
const manyDF = 1e5

// Quantile is the number of standard errors that an interval reaches to each
// side: the two-sided quantile of Student's t for a confidence between 0 and 1
// and df > 0 degrees of freedom, not rounded; df may be infinite (the normal).
func Quantile(confidence, df float64) float64 {
	lower := (1 - confidence) / 2 // 1 less this may be 1
	if df >= manyDF {
		return expandedT(lower, df)
	}
	if t, ok := newtonT(lower, df); ok {
		return t
	}
	return -distuv.StudentsT{Sigma: 1, Nu: df}.Quantile(lower)
}

// expandedT is Student's t that is exceeded with a probability, expanded about the normal's as
// by Abramowitz and Stegun, 26.7.5.
func expandedT(upper, df float64) float64 {
	z := -distuv.UnitNormal.Quantile(upper)
	z3, z5 := z*z*z, z*z*z*z*z
	return z + (z3+z)/(4*df) + (5*z5+16*z3+3*z)/(96*df*df)
}

// newtonT is Student's t that is exceeded with a probability, a few times quicker than by
// turning the incomplete beta function round; false for probabilities and degrees of freedom
// where that is not tried.
//
// Of ln t the logarithm of the tail falls ever more steeply, from a level to a line of slope
// −df, so that Newton's steps come to it from anywhere, and from a near start in three or four.
func newtonT(upper, df float64) (t float64, ok bool) {
	if !(upper > 1e-12 && upper < 0.45 && df >= 1 && df < manyDF) {
		return 0, false
	}
	if t = expandedT(upper, df); df < 3 {
		t = (1 - 2*upper) / math.Sqrt(2*upper*(1-upper)) // exact for two
	}
	a, _ := math.Lgamma((df + 1) / 2)
	b, _ := math.Lgamma(df / 2)
	logScale := a - b - math.Log(df*math.Pi)/2
	for range maxNewton {
		tail := mathext.RegIncBeta(df/2, 0.5, df/(df+t*t)) / 2
		density := math.Exp(logScale - (df+1)/2*math.Log1p(t*t/df))
		step := tail * math.Log(tail/upper) / (density * t)
		t *= math.Exp(step)
		if math.Abs(step) < 1e-8 { // what is left is of its square
			return t, true
		}
	}
	return 0, false
}

// maxNewton is how many steps are taken at most.
const maxNewton = 12

// TwoSided is the probability that Student's t with df degrees of freedom is at
// least as far from zero as t. For many df it is the normal's, at Abramowitz
// and Stegun's 26.7.8.
func TwoSided(t, df float64) float64 {
	t = math.Abs(t)
	if df < manyDF {
		return 2 * distuv.StudentsT{Sigma: 1, Nu: df}.CDF(-t)
	}
	z := t * (1 - 1/(4*df)) / math.Sqrt(1+t*t/(2*df))
	return math.Erfc(z / math.Sqrt2)
}

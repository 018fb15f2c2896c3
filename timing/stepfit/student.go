package stepfit

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// manyDF is where Student's t is so close to the normal that its expansion in
// 1/df is exact to the last digits, and the incomplete beta function is not.
const manyDF = 1e5

// Quantile is the number of standard errors that an interval reaches to each
// side: the two-sided quantile of Student's t for a confidence between 0 and 1
// and df > 0 degrees of freedom, not rounded; df may be infinite (the normal).
// For many df it is the expansion of Abramowitz and Stegun, 26.7.5.
func Quantile(confidence, df float64) float64 {
	lower := (1 - confidence) / 2 // 1 less this may be 1
	if df < manyDF {
		return -distuv.StudentsT{Sigma: 1, Nu: df}.Quantile(lower)
	}
	z := -distuv.UnitNormal.Quantile(lower)
	z3, z5 := z*z*z, z*z*z*z*z
	return z + (z3+z)/(4*df) + (5*z5+16*z3+3*z)/(96*df*df)
}

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

package stepfit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
)

// Prior is what the variances of several steps have in common: each step's own
// scatters about Variance like Variance × DF over a chi-squared with DF degrees
// of freedom. An infinite DF says that they differ by chance alone.
type Prior struct{ Variance, DF float64 }

// leastShare is the share of the median that a variance is taken to be at least:
// readings that agree exactly, by rounding, have none, and no logarithm. It cuts off
// a little of what chance gives variances of one degree of freedom.
const leastShare = 1e-5

// PriorOf estimates the prior from variances and their degrees of freedom, by
// moments of their logarithms (Smyth, Statistical Applications in Genetics and
// Molecular Biology 3(1), 2004, section 6.2). With ψ the digamma function and
//
//	e_j = ln s_j² − ψ(d_j/2) + ln(d_j/2)
//
// ψ'(DF/2) is the variance of the e_j beyond what chance gives it, the mean of
// ψ'(d_j/2), and ln Variance = ē + ψ(DF/2) − ln(DF/2). False with fewer than two
// variances, or where all are 0.
func PriorOf(variances, df []float64) (Prior, bool) {
	n := len(variances)
	if n < 2 {
		return Prior{}, false
	}
	sorted := slices.Sorted(slices.Values(variances))
	least := leastShare * (sorted[(n-1)/2] + sorted[n/2]) / 2
	if least == 0 {
		return Prior{}, false
	}
	logs := make([]float64, n)
	var mean, chance, squares float64
	for i, v := range variances {
		logs[i] = math.Log(max(v, least)) - logBias(df[i])
		mean += logs[i] / float64(n)
		chance += trigamma(df[i]/2) / float64(n)
	}
	for _, e := range logs {
		squares += (e - mean) * (e - mean)
	}
	beyond := squares/float64(n-1) - chance
	if beyond <= 0 {
		return Prior{math.Exp(mean), math.Inf(1)}, true
	}
	d := 2 * trigammaInverse(beyond)
	return Prior{math.Exp(mean + logBias(d)), d}, true
}

// Moderate is a step's variance drawn towards the prior's, (d₀s₀² + d·s²) / (d₀ +
// d), and its degrees of freedom, d₀ + d (Smyth, section 3). A variance without
// degrees of freedom becomes the prior's.
func (p Prior) Moderate(variance, df float64) (moderated, moderatedDF float64) {
	if math.IsInf(p.DF, 1) {
		return p.Variance, p.DF
	}
	return (p.DF*p.Variance + df*variance) / (p.DF + df), p.DF + df
}

// logBias is the mean of ln(s²/σ²) with df degrees of freedom, ψ(df/2) − ln(df/2).
func logBias(df float64) float64 { return mathext.Digamma(df/2) - math.Log(df/2) }

// trigamma is ψ', the derivative of the digamma function, for x > 0: ψ⁽ᵐ⁾(x) =
// (−1)ᵐ⁺¹ m! ζ(m + 1, x) (Abramowitz and Stegun, 6.4.10).
func trigamma(x float64) float64 { return mathext.Zeta(2, x) }

// tetragamma is ψ″, from the same formula.
func tetragamma(x float64) float64 { return -2 * mathext.Zeta(3, x) }

// trigammaInverse is the y at which ψ'(y) is x > 0, by the Newton steps of Smyth's
// appendix, which converge from below for every x; at its two ends ψ'(y) is 1/y²
// and 1/y to all digits.
func trigammaInverse(x float64) float64 {
	switch {
	case x > 1e7:
		return 1 / math.Sqrt(x)
	case x < 1e-6:
		return 1 / x
	}
	y := 0.5 + 1/x
	for range 50 {
		t := trigamma(y)
		step := t * (1 - t/x) / tetragamma(y)
		y += step
		if -step < 1e-12*y {
			break
		}
	}
	return y
}

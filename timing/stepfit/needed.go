package stepfit

// CyclesNeeded is the number of readings, not rounded, whose mean is within ± share
// of the true one: (z·s/(h·x̄))² for a coefficient of variation cv = s/x̄ and z
// standard errors (Heizer and Render, Operations Management, chapter 10, and other
// handbooks). With s of divisor n and z = 2 it is the International Labour Office's
// (40·√(n Σx² − (Σx)²)/Σx)² for 5 % (Introduction to Work Study, 4th ed., chapter on
// time study). It takes cv as known: Fit.ReadingsFor does not.
func CyclesNeeded(cv, share, z float64) float64 {
	root := z * cv / share
	return root * root
}

package stepfit

// between is what a fit with random effects knows beyond one without: θ, the ratio
// of the variance between grows or workers to that of a reading's scatter.
type between struct {
	theta float64
	slope covariance // of that of (a, b) with θ
	unsure
}

// uncertainty is the variance of a load's mean time with scatter times the variance
// of a reading and effects times that between grows or workers added to it, and its
// degrees of freedom.
func (f Fit) uncertainty(setups, count, scatter, effects float64) (variance, df float64) {
	unit := f.cov.of(setups, count) + scatter // of σ² = 1
	if f.between == nil {
		return f.SD * f.SD * unit, f.DF
	}
	unit += f.between.theta * effects
	variance = f.SD * f.SD * unit
	if variance == 0 {
		return 0, f.DF
	}
	slope := f.between.slope.of(setups, count) + effects
	return variance, max(leastDF, f.between.df(variance, unit, f.SD*f.SD*slope))
}

// leastDF is the degrees of freedom of what two groups tell. Satterthwaite's method
// seldom gives fewer, where groups are few and unlike in size; Student's t then has
// hardly an end.
const leastDF = 1

// unsure is how surely σ² and θ of mixed readings are known: the covariances of
// their estimates.
type unsure struct{ ss, st, tt float64 }

// unsure is twice the inverse of the second derivatives, by σ² and θ, of −2 × the
// restricted log-likelihood (N − p) ln σ² + ln|V| + ln|X'V⁻¹X| + RSS/σ².
func (m *mixed) unsure(s solved) unsure {
	variance := s.rss[0] / m.df()
	ss := m.df() / (variance * variance)
	st := -s.rss[1] / (variance * variance)
	tt := s.logDet[2] + s.rss[2]/variance
	det := ss*tt - st*st
	return unsure{ss: 2 * tt / det, st: -2 * st / det, tt: 2 * ss / det}
}

// df is the degrees of freedom of an estimated variance with its derivatives by σ²
// and θ, 2v²/var(v), the variance of v by the delta method (Satterthwaite,
// Biometrics Bulletin 2, 1946; Giesbrecht and Burns, Biometrics 41, 1985; Fai and
// Cornelius, Journal of Statistical Computation and Simulation 54, 1996; as in
// Kuznetsova, Brockhoff and Christensen, Journal of Statistical Software 82(13),
// 2017).
func (u unsure) df(variance, bySigma, byTheta float64) float64 {
	spread := bySigma*bySigma*u.ss + 2*bySigma*byTheta*u.st + byTheta*byTheta*u.tt
	return 2 * variance * variance / spread
}

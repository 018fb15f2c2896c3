package stepfit

import "math"

// deviance is −2 × the restricted log-likelihood of θ with σ² at its best, the
// terms left out that are the same for every θ (Patterson and Thompson, Biometrika
// 58, 1971; Harville, JASA 72, 1977; profiled as by Pinheiro and Bates,
// Mixed-Effects Models in S and S-PLUS, 2000, section 2.2.5):
//
//	(N − p) ln RSS + ln|V| + ln|X'V⁻¹X|
//
// with its first and second derivative by ln θ.
func (m *mixed) deviance(s solved) (value, slope, bend float64) {
	ratio := s.rss[1] / s.rss[0]
	first := m.df()*ratio + s.logDet[1]
	second := m.df()*(s.rss[2]/s.rss[0]-ratio*ratio) + s.logDet[2]
	value = m.df()*math.Log(s.rss[0]) + s.logDet[0]
	return value, s.theta * first, s.theta*first + s.theta*s.theta*second
}

// logLikelihood is the restricted log-likelihood at σ² = RSS/(N − p).
func (m *mixed) logLikelihood(s solved) float64 {
	value, _, _ := m.deviance(s)
	df := m.df()
	return (m.logWeights - value - df*(math.Log(2*math.Pi/df)+1)) / 2
}

// What ratios of variances are looked at: θ times the groups' mean weight, from
// where an effect adds next to nothing to where readings within a group agree all
// but exactly, a decade at a time.
const (
	leastRatio = 1e-6
	mostRatio  = 1e10
)

// reml is the θ that makes the restricted likelihood greatest. False where that is
// 0, without bound, or cannot be told.
func (m *mixed) reml() (solved, bool) {
	best := m.solve(0)
	if _, told := m.alike(); !told {
		return best, false
	}
	var weight float64
	for _, g := range m.groups {
		weight += g.weight / float64(len(m.groups))
	}
	least, _, _ := m.deviance(best)
	low := m.solve(leastRatio / weight / 10)
	for ratio := leastRatio; ratio <= mostRatio; ratio *= 10 {
		high := m.solve(ratio / weight)
		_, before, _ := m.deviance(low)
		if _, after, _ := m.deviance(high); before < 0 && after >= 0 {
			level := m.level(low, high)
			if value, _, _ := m.deviance(level); value < least {
				best, least = level, value
			}
		}
		low = high
	}
	return best, best.theta > 0
}

// level finds where between two θ the deviance stops falling: Newton's step where
// it stays between points of opposite slope, else half way between them.
func (m *mixed) level(from, to solved) (s solved) {
	low, high := math.Log(from.theta), math.Log(to.theta)
	at := (low + high) / 2
	for range 100 { // ten are enough as a rule
		s = m.solve(math.Exp(at))
		_, slope, bend := m.deviance(s)
		if slope < 0 {
			low = at
		} else {
			high = at
		}
		next := at - slope/bend
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-at) < 1e-12 {
			break
		}
		at = next
	}
	return s
}

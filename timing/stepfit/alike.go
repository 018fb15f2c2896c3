package stepfit

import "gonum.org/v1/gonum/mathext"

// Alike is the probability of groups that differ at least as much as these do where
// readings of one group are no more alike than others: an exact test, F the extra
// sum of squares of a mean for every group (Wald, Annals of Mathematical Statistics
// 18, 1947; Searle, Casella and McCulloch, Variance Components, 1992, section 5.2).
// False where nothing is left to tell groups from scatter: fewer than two groups,
// too few readings, or none that differ within their group.
func (g Groups) Alike(form Form, spread int) (p float64, told bool) {
	return g.mixed(form, spread).alike()
}

func (m *mixed) alike() (p float64, told bool) {
	all := m.stacked(0)
	mixes := aliased(m.within, all)
	own := m.within.without(mixes)
	groups := len(m.groups) - len(mixes) // beyond what the fixed effects tell
	left := m.readings - m.effects - groups
	rss, ownRSS := all.last()*all.last(), own.last()*own.last()
	if groups < 1 || left < 1 || !(ownRSS >= negligible*all.squares()) {
		return 0, false
	}
	f := max(0, rss-ownRSS) / float64(groups) / (ownRSS / float64(left)) // below 0 by rounding alone
	return fTail(f, groups, float64(left)), true
}

// fTail is the probability that F with so many degrees of freedom is at least f
// (Abramowitz and Stegun, 26.6.2).
func fTail(f float64, df1 int, df2 float64) float64 {
	return mathext.RegIncBeta(df2/2, float64(df1)/2, df2/(df2+float64(df1)*f))
}

// squares is the sum of squares of the times, the last column.
func (t triangle) squares() float64 {
	sum := 0.0
	for i := range t.width {
		sum += t.at(i, t.width-1) * t.at(i, t.width-1)
	}
	return sum
}

package stepfit

import "gonum.org/v1/gonum/mat"

// Part is readings of one set that are in one group as well. Both are numbered
// from 0.
type Part struct {
	Set, Group int
	Sums
}

// Test is an F test: its value, degrees of freedom and probability.
type Test struct {
	F   float64
	DF1 int
	DF2 float64
	P   float64
}

// Apart tests whether the readings of several sets have the same times: F the extra
// sum of squares of setup and unit times of their own for each set, as the form and
// spread of the fit have them (Draper and Smith, Applied Regression Analysis, 3rd
// ed., section 6.1). Where the fit has a random effect of groups so has the test:
// Wald's, with the degrees of freedom of Fai and Cornelius (Journal of Statistical
// Computation and Simulation 54, 1996; as in lmerTest). False where the readings
// cannot tell.
func (f Fit) Apart(parts []Part) (Test, bool) {
	m := f.sets(parts)
	common := f.Form.Parameters()
	all := m.stacked(0)
	mixes := aliased(all, all)
	for _, j := range mixes {
		if j < common {
			common--
		}
	}
	if m = m.without(mixes); len(mixes) > 0 {
		all = m.stacked(0)
	}
	if m.effects == common || m.df() < 1 || all.last()*all.last() < negligible*all.squares() {
		return Test{}, false
	}
	if f.BetweenSD > 0 {
		if s, ok := m.reml(); ok {
			return m.wald(s, common), true
		}
	}
	return m.wald(m.solve(0), common), true
}

// sets lays out readings with the columns that all sets have in common first, then
// what sets after the first have beside them.
func (f Fit) sets(parts []Part) *mixed {
	p, sets, readings, logCounts := f.Form.Parameters(), 0, 0, 0.0
	for _, part := range parts {
		sets = max(sets, part.Set+1)
		readings += part.Readings
		logCounts += part.logCounts
	}
	m := newMixed(p*sets, readings, -float64(f.Spread)*logCounts)
	groups := map[int]*rows{}
	var order []int
	for _, part := range parts {
		g := groups[part.Group]
		if g == nil {
			made := newRows(m.effects + 1)
			g = &made
			groups[part.Group] = g
			order = append(order, part.Group)
		}
		place := f.Form.place()
		for j := range columns - 1 {
			if part.Set > 0 && place[j] != nil {
				place[j] = append(place[j], place[j][0]+p*part.Set)
			}
		}
		place[columns-1] = []int{m.effects}
		g.merge(part.centred[f.Spread], place)
	}
	for _, i := range order {
		m.add(*groups[i])
	}
	return m
}

// wald tests whether all effects but the first few are zero.
func (m *mixed) wald(s solved, common int) Test {
	variance := s.rss[0] / m.df()
	test := Test{DF1: m.effects - common, DF2: m.df()}
	test.F = squares(s.apart[common:]) / (variance * float64(test.DF1))
	if s.theta > 0 {
		test.DF2 = m.waldDF(s, common)
	}
	test.P = fTail(test.F, test.DF1, test.DF2)
	return test
}

// waldDF is the degrees of freedom of F: those of each of the independent sums that the
// effects are turned into, together.
func (m *mixed) waldDF(s solved, common int) float64 {
	variance, n := s.rss[0]/m.df(), m.effects-common
	inverse, slope := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			inverse.SetSym(i, j, s.covariance(common+i, common+j))
			slope.SetSym(i, j, s.slope(common+i, common+j))
		}
	}
	var eigen mat.EigenSym
	eigen.Factorize(inverse, true)
	var axes mat.Dense
	eigen.VectorsTo(&axes)
	var df []float64
	for i, square := range eigen.Values(nil) {
		axis := axes.ColView(i)
		df = append(df, m.unsure(s).df(variance*square, square, variance*mat.Inner(axis, slope, axis)))
	}
	return together(df)
}

// together is the degrees of freedom of F, the mean of the squares of independent
// Student's t with degrees of freedom each: those that give F the mean that it has.
func together(df []float64) float64 {
	if len(df) == 1 {
		return df[0]
	}
	var mean float64
	for _, d := range df {
		if d <= 2 {
			return 2 // it has no mean
		}
		mean += d / (d - 2)
	}
	return 2 * mean / (mean - float64(len(df)))
}

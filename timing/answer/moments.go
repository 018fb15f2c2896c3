package answer

import "gonum.org/v1/gonum/mat"

// moments are what the estimate of a common effect rests on: with L_j = q_j (diag(z_j) −
// U_j S_j⁻¹ U_j') of the steps that take part and L their sum.
type moments struct {
	groups int
	steps  []groupedFit // that take part
	at     [][]int      // the group of each of their parts
	apart  float64      // ‖L‖² − Σ‖L_j‖²
	whole  float64      // ‖L‖²
}

func momentsOf(all []groupedStep, groups int) moments {
	m := moments{groups: groups}
	for _, s := range all {
		if s.main.takesPart() {
			m.steps, m.at = append(m.steps, s.main), append(m.at, s.at)
		}
	}
	if len(m.steps) < 2 {
		return m
	}
	own := 0.0
	of := make([]inGroup, groups)
	for j := range m.steps {
		a := &m.steps[j]
		for i, at := range m.at[j] {
			of[at] = inGroup{a.z[i], a.leverage(i), a.column[i]}
		}
		own += m.product(j, j, of)
		for k := range j {
			m.apart += 2 * m.product(j, k, of)
		}
		for _, at := range m.at[j] {
			of[at] = inGroup{}
		}
	}
	m.whole = m.apart + own
	return m
}

// inGroup is what a step's readings in one group come to.
type inGroup struct {
	z, leverage float64
	column      [2]float64
}

// product is tr L_j L_k, given what j has in each group.
func (m *moments) product(j, k int, of []inGroup) float64 {
	a, b := &m.steps[j], &m.steps[k]
	var sum float64
	var cross [2][2]float64
	for i, at := range m.at[k] {
		x := &of[at]
		if x.z == 0 {
			continue
		}
		sum += x.z*b.z[i] - x.z*b.leverage(i) - b.z[i]*x.leverage
		for r := range 2 {
			for c := range 2 {
				cross[r][c] += x.column[r] * b.column[i][c]
			}
		}
	}
	// and tr(S_j⁻¹ C S_k⁻¹ C'), C = U_j'U_k
	sa, sb := a.fit.Inverse(), b.fit.Inverse()
	for r := range 2 {
		for c := range 2 {
			for x := range 2 {
				for y := range 2 {
					sum += sa[r][x] * cross[x][y] * sb[y][c] * cross[r][c]
				}
			}
		}
	}
	return a.q * b.q * sum
}

// tells says whether the readings can tell a common effect at all.
func (m *moments) tells() bool { return m.apart > vanishingShare*m.whole }

// estimate is that of the effect's variance, below 0 where the steps' readings resemble
// each other less than chance has it.
func (m *moments) estimate() float64 {
	sums, own := make([]float64, m.groups), 0.0
	for j := range m.steps {
		s := &m.steps[j]
		for i, at := range m.at[j] {
			b := s.q * s.beyond[i]
			sums[at] += b
			own += b * b
		}
	}
	all := 0.0
	for _, b := range sums {
		all += b * b
	}
	return (all - own) / m.apart
}

// doubt is the variance that scatter alone gives the estimate, in like terms, and the
// degrees of freedom of both together: with M the covariance of Σb under scatter and C
// under scatter and effect, (tr C)² ÷ tr C².
func (m *moments) doubt(square float64) (noise, df float64) {
	var trace, trC, trC2 float64
	if m.groups <= 4*len(m.steps) {
		trace, trC, trC2 = m.dense(square)
	} else {
		trace, trC, trC2 = m.sparse(square)
	}
	if !(trC > 0) {
		return 0, 0
	}
	df = trC * trC / trC2
	if !(trC2 > 0) {
		df = 1
	}
	df = min(max(1, df), float64(m.groups)) // C is positive semidefinite: only rounding goes beyond
	return max(trace, 0) / m.apart, df
}

// maxAtOnce bounds the matrices that the doubt is worked out from: where there are more
// steps as well as more groups than this, no common effect is looked for.
const maxAtOnce = 1000

// dense gives tr M, tr C and tr C² entry by entry, for few groups.
func (m *moments) dense(square float64) (trM, trC, trC2 float64) {
	if m.groups > maxAtOnce {
		return 0, 0, 0
	}
	scatter, whole := mat.NewSymDense(m.groups, nil), mat.NewSymDense(m.groups, nil)
	for j := range m.steps {
		s := &m.steps[j]
		variance, inverse := s.scatter(square), s.fit.Inverse()
		for i, g := range m.at[j] {
			for k, h := range m.at[j][i:] {
				x := -form2(inverse, s.column[i], s.column[i+k])
				if k == 0 {
					x += s.z[i]
				}
				x *= s.q
				whole.SetSym(g, h, whole.At(g, h)+x)
				scatter.SetSym(g, h, scatter.At(g, h)+s.q*variance*x)
			}
		}
	}
	var c mat.Dense
	c.Mul(whole, whole)
	c.Scale(square, &c)
	c.Add(&c, scatter)
	norm := mat.Norm(&c, 2)
	return mat.Trace(scatter), mat.Trace(&c), norm * norm
}

// sparse gives the same for many groups: L and M are a diagonal less a matrix of low rank,
// so that no work grows with the square of the groups.
func (m *moments) sparse(square float64) (trM, trC, trC2 float64) {
	n := 2 * len(m.steps)
	if n > maxAtOnce {
		return 0, 0, 0
	}
	columns := mat.NewDense(m.groups, n, nil)
	whole := lowRank{make([]float64, m.groups), columns, mat.NewDense(n, n, nil)}
	scatter := lowRank{make([]float64, m.groups), columns, mat.NewDense(n, n, nil)}
	for j := range m.steps {
		s := &m.steps[j]
		variance, inverse := s.scatter(square), s.fit.Inverse()
		for i, at := range m.at[j] {
			whole.diagonal[at] += s.q * s.z[i]
			scatter.diagonal[at] += s.q * s.q * variance * s.z[i]
			columns.Set(at, 2*j, s.column[i][0])
			columns.Set(at, 2*j+1, s.column[i][1])
		}
		for r := range 2 {
			for c := range 2 {
				x := s.q * inverse[r][c]
				whole.middle.Set(2*j+r, 2*j+c, x)
				scatter.middle.Set(2*j+r, 2*j+c, x*s.q*variance)
			}
		}
	}
	squared := whole.squared()
	trM = scatter.trace()
	trC2 = scatter.inner(scatter) + 2*square*scatter.inner(squared) + square*square*squared.inner(squared)
	return trM, trM + square*m.whole, trC2
}

// lowRank is diag(d) − U Q U', Q symmetric.
type lowRank struct {
	diagonal []float64
	columns  *mat.Dense
	middle   *mat.Dense
}

func (l lowRank) trace() float64 {
	var sum float64
	for g, d := range l.diagonal {
		row := l.columns.RowView(g)
		sum += d - mat.Inner(row, l.middle, row)
	}
	return sum
}

// inner is the sum of products of the entries of two.
func (l lowRank) inner(o lowRank) float64 {
	var sum float64
	for g, d := range l.diagonal {
		a, b := l.columns.RowView(g), o.columns.RowView(g)
		sum += d*o.diagonal[g] - d*mat.Inner(b, o.middle, b) - o.diagonal[g]*mat.Inner(a, l.middle, a)
	}
	var cross, left, right mat.Dense
	cross.Mul(l.columns.T(), o.columns)
	left.Mul(l.middle, &cross)
	right.Mul(&left, o.middle) // Q (U'W) R
	r, c := cross.Dims()
	for i := range r {
		for j := range c {
			sum += right.At(i, j) * cross.At(i, j)
		}
	}
	return sum
}

// squared is its square: with P = [D U, U], diag(d²) − P N P', N = [0 Q; Q −Q U'U Q].
func (l lowRank) squared() lowRank {
	groups, n := l.columns.Dims()
	square := lowRank{make([]float64, groups), mat.NewDense(groups, 2*n, nil), mat.NewDense(2*n, 2*n, nil)}
	for g, d := range l.diagonal {
		square.diagonal[g] = d * d
		for j := range n {
			square.columns.Set(g, j, d*l.columns.At(g, j))
			square.columns.Set(g, n+j, l.columns.At(g, j))
		}
	}
	var gram, left, inner mat.Dense
	gram.Mul(l.columns.T(), l.columns)
	left.Mul(l.middle, &gram)
	inner.Mul(&left, l.middle)
	for i := range n {
		for j := range n {
			square.middle.Set(i, n+j, l.middle.At(i, j))
			square.middle.Set(n+i, j, l.middle.At(i, j))
			square.middle.Set(n+i, n+j, -inner.At(i, j))
		}
	}
	return square
}

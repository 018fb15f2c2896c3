package timing

import "gonum.org/v1/gonum/mat"

// moments are what the estimate of a common effect rests on: with L_j = q_j (diag(z_j) −
// U_j S_j⁻¹ U_j') of the steps that take part and L their sum, a diagonal less a matrix of
// low rank, so that no work grows with the square of the groups.
type moments struct {
	groups   int
	steps    []groupedStep // that take part
	diagonal []float64     // of the diagonal part of L
	columns  *mat.Dense    // U of all steps, side by side: groups × 2 steps
	inverses []stepInverse
	apart    float64 // ‖L‖² − Σ‖L_j‖²
	whole    float64 // ‖L‖²
}

type stepInverse struct {
	q       float64
	inverse [2][2]float64
}

func momentsOf(all []groupedStep, groups int) moments {
	m := moments{groups: groups, diagonal: make([]float64, groups)}
	for _, s := range all {
		if s.main.takesPart() {
			m.steps = append(m.steps, s)
		}
	}
	if len(m.steps) < 2 {
		return m
	}
	m.columns = mat.NewDense(groups, 2*len(m.steps), nil)
	for j, s := range m.steps {
		m.inverses = append(m.inverses, stepInverse{s.main.q, s.main.fit.Inverse()})
		for i, at := range s.at {
			m.diagonal[at] += s.main.q * s.main.z[i]
			m.columns.Set(at, 2*j, s.main.column[i][0])
			m.columns.Set(at, 2*j+1, s.main.column[i][1])
		}
	}
	var own float64
	z, leverage := make([]float64, groups), make([]float64, groups)
	for j := range m.steps {
		a := &m.steps[j]
		for i, at := range a.at {
			z[at], leverage[at] = a.main.z[i], a.main.leverage(i)
		}
		own += m.product(j, j, z, leverage)
		for k := range j {
			m.apart += 2 * m.product(j, k, z, leverage)
		}
		for _, at := range a.at {
			z[at], leverage[at] = 0, 0
		}
	}
	m.whole = m.apart + own
	return m
}

// product is tr L_j L_k; z and leverage are those of j by group.
func (m *moments) product(j, k int, z, leverage []float64) float64 {
	a, b := &m.steps[j].main, &m.steps[k].main
	var sum float64
	for i, at := range m.steps[k].at {
		sum += z[at]*b.z[i] - z[at]*b.leverage(i) - b.z[i]*leverage[at]
	}
	var cross [2][2]float64
	for i, at := range m.steps[k].at {
		x := [2]float64{m.columns.At(at, 2*j), m.columns.At(at, 2*j+1)}
		for r := range 2 {
			for c := range 2 {
				cross[r][c] += x[r] * b.column[i][c]
			}
		}
	}
	sa, sb := a.fit.Inverse(), b.fit.Inverse()
	for r := range 2 {
		for c := range 2 {
			// tr(S_j⁻¹ C S_k⁻¹ C')
			var inner float64
			for x := range 2 {
				for y := range 2 {
					inner += sa[r][x] * cross[x][y] * sb[y][c]
				}
			}
			sum += inner * cross[r][c]
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
	for _, s := range m.steps {
		for i, at := range s.at {
			b := s.main.q * s.main.beyond[i]
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
	scatter := make([]float64, m.groups) // the diagonal part of M
	n := 2 * len(m.steps)
	q, qm := mat.NewDense(n, n, nil), mat.NewDense(n, n, nil)
	for j, s := range m.steps {
		variance := s.main.scatter(square)
		for i, at := range s.at {
			scatter[at] += s.main.q * s.main.q * variance * s.main.z[i]
		}
		for r := range 2 {
			for c := range 2 {
				x := s.main.q * m.inverses[j].inverse[r][c]
				q.Set(2*j+r, 2*j+c, x)
				qm.Set(2*j+r, 2*j+c, x*s.main.q*variance)
			}
		}
	}
	low := lowRank{m.diagonal, m.columns, q}
	noiseLow := lowRank{scatter, m.columns, qm}
	trace := noiseLow.trace()
	squared := low.squared()
	trC := trace + square*m.whole
	if !(trC > 0) {
		return 0, 0
	}
	trC2 := noiseLow.inner(noiseLow) + 2*square*noiseLow.inner(squared) + square*square*squared.inner(squared)
	df = trC * trC / trC2
	if !(trC2 > 0) {
		df = 1
	}
	df = min(max(1, df), float64(m.groups)) // C is positive semidefinite: only rounding goes beyond
	return max(trace, 0) / m.apart, df
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

package stepfit

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// solved is the generalised least squares of mixed readings at a θ, with what its
// changes with θ need. All is for σ² = 1.
type solved struct {
	theta   float64
	effects *mat.VecDense // β
	inverse *mat.SymDense // (X'V⁻¹X)⁻¹
	slope   *mat.Dense    // its derivative by θ
	// The residual sum of squares r'V⁻¹r, and ln|V| + ln|X'V⁻¹X| without the
	// readings' own weights, each with its first and second derivative by θ.
	rss, logDet [3]float64
}

// solve is the generalised least squares at a θ. With Z the groups' indicators and
// P = V⁻¹ − V⁻¹X(X'V⁻¹X)⁻¹X'V⁻¹, the derivatives are those of Searle, Casella and
// McCulloch (Variance Components, 1992, section 6.6): of the residual sum of
// squares y'Py, −|Z'Py|² and 2 y'PZ Z'PZ Z'Py; of the determinants, tr(Z'PZ) and
// −tr(Z'PZ Z'PZ).
func (m *mixed) solve(theta float64) solved {
	p := m.effects
	s := m.leastSquares(theta)
	// Of each group: v of the diagonal Z'V⁻¹Z, x the row of Z'V⁻¹X, d of Z'Py.
	var sumV, sumV2, sumD2, sumVD2 float64
	x, sumDX := mat.NewVecDense(p, nil), mat.NewVecDense(p, nil)
	sumXX, sumVXX := mat.NewSymDense(p, nil), mat.NewSymDense(p, nil)
	for _, g := range m.groups {
		v := g.weight / (1 + theta*g.weight)
		x.ScaleVec(v, mat.NewVecDense(p, g.mean[:p]))
		d := v*g.mean[p] - mat.Dot(x, s.effects)
		s.logDet[0] += math.Log1p(theta * g.weight)
		sumV += v
		sumV2 += v * v
		sumD2 += d * d
		sumVD2 += v * d * d
		sumDX.AddScaledVec(sumDX, d, x)
		sumXX.SymRankOne(sumXX, 1, x)
		sumVXX.SymRankOne(sumVXX, v, x)
	}
	var one, two mat.Dense // (X'V⁻¹X)⁻¹ times Σxx', and times Σvxx'
	one.Mul(s.inverse, sumXX)
	two.Mul(s.inverse, sumVXX)
	s.slope = new(mat.Dense)
	s.slope.Mul(&one, s.inverse)
	s.rss[1] = -sumD2
	s.rss[2] = 2 * (sumVD2 - mat.Inner(sumDX, s.inverse, sumDX))
	s.logDet[1] = sumV - mat.Trace(&one)
	s.logDet[2] = -sumV2 + 2*mat.Trace(&two)
	one.Mul(&one, &one)
	s.logDet[2] -= mat.Trace(&one)
	return s
}

// leastSquares fills in what needs no derivative.
func (m *mixed) leastSquares(theta float64) solved {
	p := m.effects
	all := m.stacked(theta)
	s := solved{theta: theta, effects: mat.NewVecDense(p, nil), inverse: mat.NewSymDense(p, nil)}
	root, times := mat.NewTriDense(p, mat.Upper, nil), mat.NewVecDense(p, nil)
	for i := range p {
		times.SetVec(i, all.at(i, p))
		for j := i; j < p; j++ {
			root.SetTri(i, j, all.at(i, j))
		}
		s.logDet[0] += 2 * math.Log(math.Abs(all.at(i, i)))
	}
	_ = root.InverseTri(root) // none is singular: see aliased
	s.effects.MulVec(root, times)
	s.inverse.SymOuterK(1, root)
	s.rss[0] = all.last() * all.last()
	return s
}

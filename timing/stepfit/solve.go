package stepfit

import "math"

// solved is the generalised least squares of mixed readings at a θ, with what its
// changes with θ need. All is for σ² = 1.
type solved struct {
	theta   float64
	effects []float64 // β
	root    triangle  // U, upper triangular: UU' = (X'V⁻¹X)⁻¹
	between triangle  // A, symmetric: UAU' is the derivative of UU' by θ
	apart   []float64 // U⁻¹β: its squares are the sums of squares of one effect after another
	// The residual sum of squares r'V⁻¹r, and ln|V| + ln|X'V⁻¹X| without the
	// readings' own weights, each with its first and second derivative by θ.
	rss, logDet [3]float64
}

// solve is the generalised least squares at a θ. With Z the groups' indicators and
// P = V⁻¹ − V⁻¹X(X'V⁻¹X)⁻¹X'V⁻¹, the derivatives are those of Searle, Casella and
// McCulloch (Variance Components, 1992, section 6.6): of the residual sum of
// squares y'Py, −|Z'Py|² and 2 y'PZ Z'PZ Z'Py; of the determinants, tr(Z'PZ) and
// −tr(Z'PZ Z'PZ). Z'V⁻¹X and what is made of it are worked out times U, in which
// the effects' covariance is the unit matrix.
func (m *mixed) solve(theta float64) solved {
	p := m.effects
	s := m.leastSquares(theta)
	// Of each group: v of the diagonal Z'V⁻¹Z, x the row of Z'V⁻¹XU, d of Z'Py.
	var sumV, sumV2, sumD2, sumVD2, sumX2, sumVX2 float64
	room := make([]float64, 2*p)
	x, sumDX := room[:p], room[p:]
	for _, g := range m.groups {
		v := g.weight / (1 + theta*g.weight)
		d, square := g.mean[p], 0.0
		for j := range p {
			x[j] = 0
			for i := range j + 1 {
				x[j] += v * g.mean[i] * s.root.at(i, j)
			}
			d -= g.mean[j] * s.effects[j]
			square += x[j] * x[j]
		}
		d *= v
		s.logDet[0] += math.Log1p(theta * g.weight)
		sumV += v
		sumV2 += v * v
		sumD2 += d * d
		sumVD2 += v * d * d
		sumX2 += square
		sumVX2 += v * square
		for i := range p {
			sumDX[i] += d * x[i]
			row := s.between.row(i)
			for j := range p {
				row[j] += x[i] * x[j]
			}
		}
	}
	s.rss[1] = -sumD2
	s.rss[2] = 2 * (sumVD2 - squares(sumDX))
	s.logDet[1] = sumV - sumX2
	s.logDet[2] = -sumV2 + 2*sumVX2 - squares(s.between.rows)
	return s
}

// leastSquares fills in what needs no derivative.
func (m *mixed) leastSquares(theta float64) solved {
	p := m.effects
	all := m.stacked(theta)
	room := make([]float64, 2*p*p+2*p)
	s := solved{
		theta: theta, root: triangle{p, room[:p*p]}, between: triangle{p, room[p*p : 2*p*p]},
		effects: room[2*p*p : 2*p*p+p], apart: room[2*p*p+p:],
	}
	for j := range p { // none is singular: see aliased
		s.logDet[0] += 2 * math.Log(math.Abs(all.at(j, j)))
		s.apart[j] = all.at(j, p)
		s.root.row(j)[j] = 1 / all.at(j, j)
		for i := range j {
			sum := 0.0
			for k := i; k < j; k++ {
				sum += s.root.at(i, k) * all.at(k, j)
			}
			s.root.row(i)[j] = -sum / all.at(j, j)
		}
	}
	for i := range p {
		for j := i; j < p; j++ {
			s.effects[i] += s.root.at(i, j) * s.apart[j]
		}
	}
	s.rss[0] = all.last() * all.last()
	return s
}

// covariance is that of two effects.
func (s *solved) covariance(i, j int) float64 {
	sum := 0.0
	for k := max(i, j); k < len(s.effects); k++ {
		sum += s.root.at(i, k) * s.root.at(j, k)
	}
	return sum
}

// slope is the derivative by θ of the covariance of two effects.
func (s *solved) slope(i, j int) float64 {
	sum := 0.0
	for k := i; k < len(s.effects); k++ {
		for l := j; l < len(s.effects); l++ {
			sum += s.root.at(i, k) * s.between.at(k, l) * s.root.at(j, l)
		}
	}
	return sum
}

func squares(list []float64) float64 {
	sum := 0.0
	for _, x := range list {
		sum += x * x
	}
	return sum
}

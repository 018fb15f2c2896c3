package answer

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"headhours/timing/study"
)

// The rules once more, written down as they stand, of whole matrices and readings one by
// one: slow, without sums that merge, and without anything of what answers are made by.

type plainRow struct {
	m, n, t      float64
	grow, worker string
}

type plainFit struct {
	form           string
	q, p, rows     int
	beta           [2]float64
	inverse        [2][2]float64 // of X'WX, 0 where the form lacks a time
	rss, tss, like float64
	s2, df         float64
	mBar, nBar     float64
	judged         bool
	// as answers use it
	nu, share      float64
	guess, unknown bool
}

func plainWeight(q int, n float64) float64 {
	if q == 0 {
		return 1
	}
	return math.Pow(n, -float64(q))
}

func plainColumns(form string) []int {
	return map[string][]int{"setup": {0}, "unit": {1}, "setup+unit": {0, 1}}[form]
}

func plainlyFit(rows []plainRow, form string, q int) plainFit {
	columns := plainColumns(form)
	f := plainFit{form: form, q: q, p: len(columns), rows: len(rows)}
	x, y := mat.NewDense(len(rows), f.p, nil), mat.NewVecDense(len(rows), nil)
	var weights, logs, times, squares float64
	for i, r := range rows {
		w := plainWeight(q, r.n)
		for k, c := range columns {
			x.Set(i, k, math.Sqrt(w)*[2]float64{r.m, r.n}[c])
		}
		y.SetVec(i, math.Sqrt(w)*r.t)
		weights, times, squares = weights+w, times+w*r.t, squares+w*r.t*r.t
		if q > 0 {
			logs += math.Log(w)
		}
		f.mBar += r.m / float64(len(rows))
		f.nBar += r.n / float64(len(rows))
	}
	var gram, inverse mat.Dense
	gram.Mul(x.T(), x)
	if inverse.Inverse(&gram) != nil {
		panic("singular")
	}
	var xty, beta mat.VecDense
	xty.MulVec(x.T(), y)
	beta.MulVec(&inverse, &xty)
	for i, c := range columns {
		f.beta[c] = beta.AtVec(i)
		for k, d := range columns {
			f.inverse[c][d] = inverse.At(i, k)
		}
	}
	for _, r := range rows {
		w := plainWeight(q, r.n)
		rest := r.t - f.at(r.m, r.n)
		f.rss += w * rest * rest
		f.tss += w * (r.t - times/weights) * (r.t - times/weights)
	}
	if form == "unit" {
		f.tss = squares
	}
	if f.rss < 1e-18*squares {
		f.rss = 0
	}
	n := float64(len(rows))
	f.like = logs/2 - n/2*(math.Log(2*math.Pi*f.rss/n)+1)
	if f.df = n - float64(f.p); f.df > 0 {
		f.s2 = f.rss / f.df
	}
	return f
}

func (f plainFit) at(m, n float64) float64 { return f.beta[0]*m + f.beta[1]*n }

func (f plainFit) lever(c, d [2]float64) (sum float64) {
	for i := range 2 {
		for k := range 2 {
			sum += c[i] * f.inverse[i][k] * d[k]
		}
	}
	return sum
}

// cv2 is the square of the coefficient of variation at the mean count.
func (f plainFit) cv2() float64 {
	mean := f.at(f.mBar, f.nBar)
	return f.s2 * math.Pow(f.nBar, float64(f.q)) / (mean * mean)
}

func (f *plainFit) setCV2(cv2 float64) {
	mean := f.at(f.mBar, f.nBar)
	f.s2 = cv2 * mean * mean / math.Pow(f.nBar, float64(f.q))
}

// plainlyChosen is the fit of the points, that of the doubts, and a bracket's all setup.
func plainlyChosen(rows []plainRow, form string, spread *int) (point, doubt plainFit, setup *plainFit) {
	least, most, anyM, anyN, zeroN, laps, longest := math.Inf(1), 0.0, false, false, false, false, 0.0
	lowN, highN := math.Inf(1), 0.0
	for _, r := range rows {
		anyM, anyN, zeroN, laps = anyM || r.m > 0, anyN || r.n > 0, zeroN || r.n == 0, laps || r.m == 0
		if r.m > 0 {
			least, most = min(least, r.n/r.m), max(most, r.n/r.m)
		} else {
			most = math.Inf(1)
		}
		lowN, highN, longest = min(lowN, r.n), max(highN, r.n), max(longest, r.t)
	}
	spreadOf := func(form string) int {
		switch {
		case zeroN:
			return 0
		case spread != nil:
			return *spread
		case len(rows) < 8 || highN < 2*lowN:
			return 0
		}
		zero := plainlyFit(rows, form, 0)
		if zero.rss == 0 {
			return 0
		}
		one, two := plainlyFit(rows, form, 1), plainlyFit(rows, form, 2)
		switch {
		case max(one.like, two.like) < zero.like+2:
			return 0
		case two.like > one.like:
			return 2
		}
		return 1
	}
	singular := map[string]bool{"unit": !anyN, "setup": !anyM, "setup+unit": !anyM || !anyN || !laps && most <= least*(1+1e-9)}
	if form != "" && !singular[form] {
		f := plainlyFit(rows, form, spreadOf(form))
		return f, f, nil
	}
	switch {
	case !anyM:
		f := plainlyFit(rows, "unit", spreadOf("unit"))
		return f, f, nil
	case !anyN:
		f := plainlyFit(rows, "setup", spreadOf("setup"))
		return f, f, nil
	case most < 1.5*least*(1-1e-9):
		f := plainlyFit(rows, "unit", spreadOf("unit"))
		other := plainlyFit(rows, "setup", f.q)
		return f, f, &other
	}
	full := plainlyFit(rows, "setup+unit", spreadOf("setup+unit"))
	switch {
	case full.beta[0] < -1e-9*longest:
		return plainlyFit(rows, "unit", full.q), full, nil
	case full.beta[1]*highN < -1e-9*longest:
		return plainlyFit(rows, "setup", full.q), full, nil
	}
	return full, full, nil
}

type plainStep struct {
	rows         []plainRow
	estimate     *study.Judged
	gap          bool
	point, doubt plainFit
	setup        *plainFit
}

type plainEffect struct {
	of             string
	groups         int
	square, known  float64 // τ₊² and τ₊² + ψ
	psi, first, nu float64 // first: τ₊² before what is assumed of two grows
	name           func(plainRow) string
	names          []string
	exist          bool
}

// crossed is X'WX of the rows of a group, for a fit's form, and X'Wt.
func (f plainFit) crossed(rows []plainRow, name func(plainRow) string, group string) (s [2][2]float64, v [2]float64) {
	for _, r := range rows {
		if name(r) != group {
			continue
		}
		w, x := plainWeight(f.q, r.n), [2]float64{}
		for _, c := range plainColumns(f.form) {
			x[c] = [2]float64{r.m, r.n}[c]
		}
		for i := range 2 {
			v[i] += w * x[i] * r.t
			for k := range 2 {
				s[i][k] += w * x[i] * x[k]
			}
		}
	}
	return s, v
}

func plainTimes(s [2][2]float64, b [2]float64) [2]float64 {
	return [2]float64{s[0][0]*b[0] + s[0][1]*b[1], s[1][0]*b[0] + s[1][1]*b[1]}
}

func plainDot(a, b [2]float64) float64 { return a[0]*b[0] + a[1]*b[1] }

// plainly gives q, L and b of a step's fit over groups.
func (f plainFit) plainly(rows []plainRow, e *plainEffect) (q float64, l *mat.Dense, b []float64) {
	g := len(e.names)
	columns, z, v := make([][2]float64, g), make([]float64, g), make([]float64, g)
	sum := 0.0
	for i, name := range e.names {
		s, timed := f.crossed(rows, e.name, name)
		columns[i] = plainTimes(s, f.beta)
		z[i], v[i] = plainDot(f.beta, columns[i]), plainDot(f.beta, timed)
		sum += z[i]
	}
	q, l, b = float64(len(rows))/sum, mat.NewDense(g, g, nil), make([]float64, g)
	for i := range g {
		b[i] = q * (v[i] - z[i])
		for k := range g {
			x := -f.lever(columns[i], columns[k])
			if i == k {
				x += z[i]
			}
			l.Set(i, k, q*x)
		}
	}
	if mat.Trace(l) <= 1e-9*float64(len(rows)) {
		return q, mat.NewDense(g, g, nil), make([]float64, g)
	}
	return q, l, b
}

// without is a fit's variance less what the effect has added to it.
func (e *plainEffect) without(f plainFit, rows []plainRow) float64 {
	if !e.exist || f.judged || f.df == 0 {
		return f.s2
	}
	q, l, _ := f.plainly(rows, e)
	return max(f.s2-e.first*mat.Trace(l)/(q*f.df), f.s2/4)
}

func plainEffectOf(of string, steps []plainStep) *plainEffect {
	e := &plainEffect{of: of, name: func(r plainRow) string { return r.grow }}
	if of == "worker" {
		e.name = func(r plainRow) string { return r.worker }
	}
	for _, s := range steps {
		for _, r := range s.rows {
			if !slices.Contains(e.names, e.name(r)) {
				e.names = append(e.names, e.name(r))
			}
		}
	}
	g := len(e.names)
	if g < 2 {
		return &plainEffect{}
	}
	whole, sums, own, each := mat.NewDense(g, g, nil), make([]float64, g), 0.0, 0.0
	met := map[string]bool{}
	for _, s := range steps {
		if len(s.rows) == 0 || s.doubt.df == 0 {
			continue
		}
		_, l, b := s.doubt.plainly(s.rows, e)
		if mat.Trace(l) == 0 {
			continue
		}
		whole.Add(whole, l)
		each += math.Pow(mat.Norm(l, 2), 2)
		for i := range b {
			sums[i] += b[i]
			own += b[i] * b[i]
		}
		for _, r := range s.rows {
			met[e.name(r)] = true
		}
	}
	e.groups = len(met)
	all := math.Pow(mat.Norm(whole, 2), 2)
	if all-each <= 1e-9*all || of == "worker" && e.groups < 3 {
		return &plainEffect{}
	}
	total := 0.0
	for _, b := range sums {
		total += b * b
	}
	e.first, e.exist = max((total-own)/(all-each), 0), true
	m := mat.NewDense(g, g, nil)
	for _, s := range steps {
		if len(s.rows) == 0 || s.doubt.df == 0 {
			continue
		}
		q, l, _ := s.doubt.plainly(s.rows, e)
		l.Scale(q*e.without(s.doubt, s.rows), l)
		m.Add(m, l)
	}
	e.psi = mat.Trace(m) / (all - each)
	var c, c2 mat.Dense
	c.Mul(whole, whole)
	c.Scale(e.first, &c)
	c.Add(&c, m)
	if mat.Trace(&c) <= 0 {
		return &plainEffect{}
	}
	c2.Mul(&c, &c)
	e.nu = mat.Trace(&c) * mat.Trace(&c) / mat.Trace(&c2)
	e.square, e.known = e.first, e.first+e.psi
	if e.groups == 2 {
		p := max(2-e.nu, 0)
		i := (p*(0.07*0.07+e.psi) + e.nu*(e.first+e.psi)) / (p + e.nu)
		e.square, e.nu, e.known = max(i-e.psi, 0), max(e.nu, 2), i
	}
	return e
}

func plainQuantile(confidence, df float64) float64 {
	if df > 1e4 { // the library's Student loses digits there; Abramowitz and Stegun, 26.7.5
		z := distuv.UnitNormal.Quantile((1 + confidence) / 2)
		return z + (z*z*z+z)/(4*df) + (5*math.Pow(z, 5)+16*z*z*z+3*z)/(96*df*df)
	}
	return distuv.StudentsT{Sigma: 1, Nu: df}.Quantile((1 + confidence) / 2)
}

func plainP(z, df float64) float64 {
	if math.IsInf(df, 1) {
		return 2 * distuv.UnitNormal.CDF(-math.Abs(z))
	}
	return 2 * distuv.StudentsT{Sigma: 1, Nu: df}.CDF(-math.Abs(z))
}

package answer_test

import (
	"math"
)

// anEffect is what grows, or workers, have in common in all steps.
type anEffect struct {
	exists bool
	of     string
	names  []string
	groups int
	tau2   float64 // τ₊², as answers use it
	first  float64 // τ₊² as it corrects scatters, before what is assumed of two grows
	known  float64 // what of τ₊² + ψ counts in degrees of freedom
	nu     float64
}

// nameOf is a row's grow or worker.
func (e *anEffect) nameOf(r aRow) string {
	if e.of == "worker" {
		return r.worker
	}
	return r.grow
}

// inGroups are the rows of each group.
func (e *anEffect) inGroups(rows []aRow) [][]aRow {
	groups := make([][]aRow, len(e.names))
	for _, r := range rows {
		for g, name := range e.names {
			if e.nameOf(r) == name {
				groups[g] = append(groups[g], r)
			}
		}
	}
	return groups
}

// moments are q_j, L_j and b_j of a step's fit.
func (e *anEffect) moments(f *aFit, rows []aRow) (q float64, l [][]float64, b []float64) {
	groups := e.inGroups(rows)
	g := len(groups)
	z2, sb, pull := make([]float64, g), make([][2]float64, g), make([]float64, g)
	var all float64
	for i := range groups {
		s, v := f.gram(groups[i])
		sb[i] = times(s, f.b)
		z2[i] = f.b[0]*sb[i][0] + f.b[1]*sb[i][1]
		pull[i] = f.b[0]*v[0] + f.b[1]*v[1] - z2[i]
		all += z2[i]
	}
	q = float64(len(rows)) / all
	l, b = square(g), make([]float64, g)
	var trace float64
	for i := range g {
		for k := range g {
			l[i][k] = -q * f.between(sb[i], sb[k])
		}
		l[i][i] += q * z2[i]
		trace += l[i][i]
		b[i] = q * pull[i]
	}
	if trace <= 1e-9*float64(len(rows)) {
		return q, square(g), make([]float64, g)
	}
	return q, l, b
}

func square(g int) [][]float64 {
	l := make([][]float64, g)
	for i := range l {
		l[i] = make([]float64, g)
	}
	return l
}

func trace(l [][]float64) (sum float64) {
	for i := range l {
		sum += l[i][i]
	}
	return sum
}

func squares(l [][]float64) (sum float64) {
	for i := range l {
		for _, x := range l[i] {
			sum += x * x
		}
	}
	return sum
}

func product(a, b [][]float64) [][]float64 {
	c := square(len(a))
	for i := range a {
		for k := range a {
			for j := range a {
				c[i][k] += a[i][j] * b[j][k]
			}
		}
	}
	return c
}

func addTo(sum, l [][]float64, f float64) {
	for i := range l {
		for k := range l {
			sum[i][k] += f * l[i][k]
		}
	}
}

// corrected is a fit's scatter less what the effect has added to it.
func (e *anEffect) corrected(f *aFit, rows []aRow) float64 {
	if !e.exists || f.judged || f.d == 0 {
		return f.s2
	}
	q, l, _ := e.moments(f, rows)
	return max(f.s2-e.first*trace(l)/(q*f.d), f.s2/4)
}

// effectOf looks for an effect of "grow" or "worker".
func effectOf(of string, steps []*aStep) *anEffect {
	none, e := &anEffect{}, &anEffect{of: of}
	seen := map[string]bool{}
	for _, s := range steps {
		for _, r := range s.rows {
			if name := e.nameOf(r); !seen[name] {
				seen[name] = true
				e.names = append(e.names, name)
			}
		}
	}
	g := len(e.names)
	if g < 2 {
		return none
	}
	whole, sums, own, each := square(g), make([]float64, g), 0.0, 0.0
	counted := map[string]bool{}
	for _, s := range steps {
		if len(s.rows) == 0 || s.doubt.d == 0 {
			continue
		}
		_, l, b := e.moments(&s.doubt, s.rows)
		addTo(whole, l, 1)
		each += squares(l)
		for i := range b {
			sums[i] += b[i]
			own += b[i] * b[i]
		}
		if trace(l) > 0 {
			for _, r := range s.rows {
				counted[e.nameOf(r)] = true
			}
		}
	}
	e.groups = len(counted)
	divisor := squares(whole) - each
	if divisor <= 1e-9*squares(whole) || of == "worker" && e.groups < 3 {
		return none
	}
	between := -own
	for _, x := range sums {
		between += x * x
	}
	e.exists, e.first = true, max(between/divisor, 0)
	m := square(g)
	for _, s := range steps {
		if len(s.rows) > 0 && s.doubt.d > 0 {
			q, l, _ := e.moments(&s.doubt, s.rows)
			addTo(m, l, q*e.corrected(&s.doubt, s.rows))
		}
	}
	psi := trace(m) / divisor
	c := square(g)
	addTo(c, m, 1)
	addTo(c, product(whole, whole), e.first)
	if !(trace(c) > 0) {
		return none
	}
	e.nu = trace(c) * trace(c) / trace(product(c, c))
	e.tau2, e.known = e.first, e.first+psi
	if e.groups == 2 {
		p := max(2-e.nu, 0)
		e.known = (p*(0.07*0.07+psi) + e.nu*(e.first+psi)) / (p + e.nu)
		e.tau2, e.nu = max(e.known-psi, 0), max(e.nu, 2)
	}
	return e
}

// reach is h_g of a form of one step's times, by group.
func (e *anEffect) reach(f *aFit, rows []aRow, c [2]float64) []float64 {
	h := make([]float64, len(e.names))
	if f.judged {
		return h
	}
	if f.pulls == nil {
		for _, group := range e.inGroups(rows) {
			s, _ := f.gram(group)
			f.pulls = append(f.pulls, times(s, f.b))
		}
	}
	for g := range h {
		h[g] = f.between(c, f.pulls[g])
	}
	return h
}

func (e *anEffect) common() tree {
	if !e.exists {
		return tree{"of": nil, "groups": nil, "sd": nil, "df": nil}
	}
	return tree{"of": e.of, "groups": e.groups, "sd": math.Sqrt(e.tau2), "df": e.nu}
}

package answer_test

import (
	"math"

	"headhours/timing/study"
)

// The contract's rules once more, as its pages have them: readings one by one, normal
// equations, every count walked, and nothing of what answers are made by. What the rules
// call 1e-9 or 1e-18 of something is that here.

// aRow is a reading that counts, on the scales of its step.
type aRow struct {
	m, n, t           float64 // setups, count, basic person-seconds
	grow, worker, way string
	place             study.Place
}

// aFit is t = b[0]·m + b[1]·n by weighted least squares, weights n^(−q).
type aFit struct {
	form     string
	q, p     int // spread; parameters
	b        [2]float64
	inv      [2][2]float64 // (X'WX)⁻¹, 0 where the form has no such time
	rss, tss float64
	logLike  float64
	d        float64 // degrees of freedom that are left
	m, n     float64 // plain means
	judged   bool

	s2     float64      // of a reading of count 1, as answers use it
	nu     float64      // of that scatter, infinite where it is judged or guessed
	lambda float64      // share of it that is lent
	guess  bool         // it is that of the step's estimate
	none   bool         // it is not known
	pulls  [][2]float64 // X'WX·b of the rows of each group
}

func (f *aFit) has(k int) bool {
	return f.form == "setup+unit" || f.form == [2]string{"setup", "unit"}[k]
}

func (f *aFit) at(c [2]float64) float64 { return c[0]*f.b[0] + c[1]*f.b[1] }

// between is c'(X'WX)⁻¹d.
func (f *aFit) between(c, d [2]float64) float64 {
	return c[0]*(f.inv[0][0]*d[0]+f.inv[0][1]*d[1]) + c[1]*(f.inv[1][0]*d[0]+f.inv[1][1]*d[1])
}

func (f *aFit) variance(c [2]float64) float64 { return f.s2 * f.between(c, c) }

// mean is the fitted time at the mean setups and count.
func (f *aFit) mean() float64 { return f.at([2]float64{f.m, f.n}) }

// phi is CV² for a scatter s².
func (f *aFit) phi(s2 float64) float64 {
	return s2 * math.Pow(f.n, float64(f.q)) / (f.mean() * f.mean())
}

// scatterOf is the s² of a CV².
func (f *aFit) scatterOf(cv2 float64) float64 {
	return cv2 * f.mean() * f.mean() / math.Pow(f.n, float64(f.q))
}

func weight(q int, n float64) float64 { return [3]float64{1, 1 / n, 1 / n / n}[q] }

// used are setups and count, 0 where the form does not have them.
func (f *aFit) used(r aRow) [2]float64 {
	x := [2]float64{r.m, r.n}
	for k := range x {
		if !f.has(k) {
			x[k] = 0
		}
	}
	return x
}

// gram is X'WX of some rows, and X'Wt.
func (f *aFit) gram(rows []aRow) (s [2][2]float64, v [2]float64) {
	for _, r := range rows {
		x, w := f.used(r), weight(f.q, r.n)
		for i := range x {
			for k := range x {
				s[i][k] += w * x[i] * x[k]
			}
			v[i] += w * x[i] * r.t
		}
	}
	return s, v
}

func times(s [2][2]float64, v [2]float64) [2]float64 {
	return [2]float64{s[0][0]*v[0] + s[0][1]*v[1], s[1][0]*v[0] + s[1][1]*v[1]}
}

// fitted fits a form that its rows allow.
func fitted(rows []aRow, form string, q int) aFit {
	f := aFit{form: form, q: q, p: 1}
	s, v := f.gram(rows)
	switch form {
	case "setup+unit":
		f.p = 2
		det := s[0][0]*s[1][1] - s[0][1]*s[1][0]
		f.inv = [2][2]float64{{s[1][1] / det, -s[0][1] / det}, {-s[1][0] / det, s[0][0] / det}}
	case "unit":
		f.inv[1][1] = 1 / s[1][1]
	case "setup":
		f.inv[0][0] = 1 / s[0][0]
	}
	f.b = times(f.inv, v)
	var sumW, sumWT, sumWTT, logs float64
	for _, r := range rows {
		w := weight(q, r.n)
		rest := r.t - f.at([2]float64{r.m, r.n})
		f.rss += w * rest * rest
		sumW, sumWT, sumWTT = sumW+w, sumWT+w*r.t, sumWTT+w*r.t*r.t
		f.m, f.n = f.m+r.m/float64(len(rows)), f.n+r.n/float64(len(rows))
		if q > 0 {
			logs += math.Log(w)
		}
	}
	if f.rss < 1e-18*sumWTT {
		f.rss = 0
	}
	for _, r := range rows {
		about := r.t - sumWT/sumW
		if form == "unit" {
			about = r.t
		}
		f.tss += weight(q, r.n) * about * about
	}
	count := float64(len(rows))
	f.logLike = logs/2 - count/2*(math.Log(2*math.Pi*f.rss/count)+1)
	if f.d = count - float64(f.p); f.d > 0 {
		f.s2 = f.rss / f.d
	}
	f.nu = f.d
	return f
}

// modelled is a step's fit by the readings: the one that gives points, the one that tells
// how sure they are, and a bracket's all setup.
func modelled(rows []aRow, form string, spread *int) (point, doubt aFit, setup *aFit) {
	var perSetup []float64
	setups, counts, noCount := false, false, false
	lowN, highN, longest := math.Inf(1), 0.0, 0.0
	for _, r := range rows {
		setups, counts, noCount = setups || r.m > 0, counts || r.n > 0, noCount || r.n == 0
		perSetup = append(perSetup, r.n/r.m) // infinite for a lap
		lowN, highN, longest = min(lowN, r.n), max(highN, r.n), max(longest, r.t)
	}
	least, most := math.Inf(1), 0.0
	for _, x := range perSetup {
		least, most = min(least, x), max(most, x)
	}
	spreadOf := func(form string) int {
		if noCount {
			return 0
		}
		if spread != nil {
			return *spread
		}
		if len(rows) < 8 || highN < 2*lowN {
			return 0
		}
		fits := []aFit{fitted(rows, form, 0), fitted(rows, form, 1), fitted(rows, form, 2)}
		best := 1
		if fits[2].logLike > fits[1].logLike {
			best = 2
		}
		if fits[0].rss == 0 || fits[best].logLike-fits[0].logLike < 2 {
			return 0
		}
		return best
	}
	one := func(form string) (aFit, aFit, *aFit) {
		f := fitted(rows, form, spreadOf(form))
		return f, f, nil
	}
	possible := map[string]bool{"unit": counts, "setup": setups,
		"setup+unit": setups && counts && !(most <= least*(1+1e-9))}
	switch {
	case possible[form]:
		return one(form)
	case !setups:
		return one("unit")
	case !counts:
		return one("setup")
	case most < 1.5*least*(1-1e-9):
		point, doubt, _ = one("unit")
		all := fitted(rows, "setup", point.q)
		return point, doubt, &all
	}
	full, _, _ := one("setup+unit")
	switch {
	case full.b[0] < -1e-9*longest:
		return fitted(rows, "unit", full.q), full, nil
	case full.b[1]*highN < -1e-9*longest:
		return fitted(rows, "setup", full.q), full, nil
	}
	return full, full, nil
}

// judgedFit is an estimate as a fit: its mean, its standard deviation, for ever.
func judgedFit(j study.Estimate) aFit {
	f := aFit{judged: true, p: 1, form: "unit", nu: math.Inf(1), d: math.Inf(1), s2: (j.High - j.Low) * (j.High - j.Low) / 36}
	k := 1
	if j.OfVisit {
		f.form, k = "setup", 0
	}
	f.b[k], f.inv[k][k] = (j.Low+4*j.Likely+j.High)/6, 1
	return f
}

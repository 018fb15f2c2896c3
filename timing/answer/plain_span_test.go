package answer_test

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// quantile is Student's two-sided quantile. Beyond ten thousand degrees of freedom it is
// the expansion of Abramowitz and Stegun, 26.7.5.
func quantile(confidence, df float64) float64 {
	at := (1 + confidence) / 2
	if df > 1e4 {
		z := distuv.UnitNormal.Quantile(at)
		return z + (z*z*z+z)/(4*df) + (5*math.Pow(z, 5)+16*z*z*z+3*z)/(96*df*df)
	}
	return distuv.StudentsT{Sigma: 1, Nu: df}.Quantile(at)
}

// chanceBeyond is the two-sided p of a t value.
func chanceBeyond(t, df float64) float64 {
	if math.IsInf(df, 1) {
		return 2 * distuv.UnitNormal.CDF(-abs(t))
	}
	return 2 * distuv.StudentsT{Sigma: 1, Nu: df}.CDF(-abs(t))
}

// aValue is a form at one setting of the bracketed steps.
type aValue struct {
	point, full     float64
	variance, df    float64
	nextVar, nextDF float64
	unknown         bool
	u2              []float64 // by step, as its fit alone has it
}

// Settings of bracketed steps: as unit, at whichever extreme makes the answer smaller, or
// larger, and as setup.
const (
	asUnit  = 0
	smaller = -1
	larger  = 1
	asSetup = 2
)

// used are the fits of a step that give the point and the doubt of c at a setting.
func (s *aStep) used(c [2]float64, setting int) (point, doubt *aFit) {
	if s.setup != nil && setting != asUnit {
		unit, setup := s.point.at(c), s.setup.at(c)
		if setting == asSetup || setting == smaller && setup < unit || setting == larger && setup > unit {
			return s.setup, s.setup
		}
	}
	return &s.point, &s.doubt
}

// part is what a step adds to a variance.
type part struct{ u2, nu, lambda float64 }

// freedom are the degrees of freedom of a sum of such, before a common effect.
func (p *plain) freedom(parts []part) (variance, df float64) {
	var inverse, lent float64
	for _, x := range parts {
		variance += x.u2
	}
	for _, x := range parts {
		if x.u2 == 0 {
			continue
		}
		omega := x.u2 / variance
		lent += omega * x.lambda
		if !p.own || x.lambda == 0 {
			inverse += omega * omega / x.nu
		}
	}
	if lent > 0 {
		inverse += lent * lent / p.level
	}
	return variance, 1 / inverse
}

// joined are variance and degrees of freedom with the common effect, whose h² sum to reach.
func (p *plain) joined(parts []part, reach float64) (variance, df float64) {
	v0, nu0 := p.freedom(parts)
	e := p.effect
	if !e.exists {
		return v0, nu0
	}
	variance = v0 + reach*e.tau2
	df = variance * variance / (v0*v0/nu0 + reach*reach*e.known*e.known/e.nu)
	return variance, max(df, min(e.nu, nu0))
}

func (p *plain) value(c aForm, doings []aDoing, setting int) (o aValue) {
	var mean, next []part
	h := make([]float64, len(p.effect.names))
	o.u2 = make([]float64, len(c))
	for i, s := range p.steps {
		if s.gap || c[i] == [2]float64{} {
			continue
		}
		point, doubt := s.used(c[i], setting)
		o.point, o.full = o.point+point.at(c[i]), o.full+doubt.at(c[i])
		o.u2[i] = doubt.variance(c[i])
		o.unknown = o.unknown || doubt.none && doubt.between(c[i], c[i]) > 0
		again := o.u2[i]
		for _, d := range doings {
			if p.steps[d.step].by == i && !doubt.judged {
				again += d.share * d.share * d.setups * doubt.s2 * math.Pow(d.count/d.setups, float64(doubt.q))
			}
		}
		mean, next = append(mean, part{o.u2[i], doubt.nu, doubt.lambda}), append(next, part{again, doubt.nu, doubt.lambda})
		for g, x := range p.effect.reach(doubt, s.rows, c[i]) {
			h[g] += x
		}
	}
	var reach float64
	for _, x := range h {
		reach += x * x
	}
	o.variance, o.df = p.joined(mean, reach)
	o.nextVar, o.nextDF = p.joined(next, reach+o.full*o.full)
	return o
}

// around is the interval about the full form, stretched to hold the point.
func (p *plain) around(o aValue, variance, df float64) (low, high float64) {
	half := 0.0
	if variance > 0 {
		half = quantile(p.confidence, df) * math.Sqrt(variance)
	}
	return min(o.point, o.full-half), max(o.point, o.full+half)
}

// aSpan is an answer in seconds; what is not known is NaN.
type aSpan struct{ value, low, high, nextLow, nextHigh, df, p float64 }

func (p *plain) span(c aForm, doings []aDoing) (s aSpan) {
	at := p.value(c, doings, asUnit)
	s = aSpan{value: at.point, df: at.df, low: math.Inf(1), high: math.Inf(-1), nextLow: math.Inf(1), nextHigh: math.Inf(-1)}
	nothing, unknown, signs := false, at.unknown, map[int]bool{}
	for _, setting := range []int{smaller, larger} {
		o := p.value(c, doings, setting)
		low, high := p.around(o, o.variance, o.df)
		s.low, s.high = min(s.low, low), max(s.high, high)
		low, high = p.around(o, o.nextVar, o.nextDF)
		s.nextLow, s.nextHigh = min(s.nextLow, low), max(s.nextHigh, high)
		nothing, unknown = nothing || o.variance == 0, unknown || o.unknown
		signs[signOf(o.point)], signs[signOf(o.full)] = true, true
		if o.variance > 0 {
			s.p = max(s.p, chanceBeyond(o.full/math.Sqrt(o.variance), o.df))
		}
	}
	if len(signs) > 1 {
		s.p = 1
	}
	if nothing {
		s.p = math.NaN()
	}
	if at.variance == 0 {
		s.df = math.NaN()
	}
	if nan := math.NaN(); unknown {
		return aSpan{s.value, nan, nan, nan, nan, nan, nan}
	}
	return s
}

func signOf(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// ofTime is the span of a time: no limit is below 0 where the answer is not.
func (s aSpan) ofTime() aSpan {
	if s.value >= 0 {
		for _, x := range []*float64{&s.low, &s.high, &s.nextLow, &s.nextHigh} {
			*x = max(*x, 0)
		}
	}
	return s
}

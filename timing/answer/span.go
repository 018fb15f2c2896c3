package answer

import (
	"math"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Span is an answer that is linear in the setup and unit times, with its
// intervals. What is not known for want of a scatter is unknown.
type Span struct {
	Value    float64
	Low      study.Maybe // limits of the mean
	High     study.Maybe
	NextLow  study.Maybe // limits for the work done once more: readings' scatter included
	NextHigh study.Maybe
	DF       study.Maybe // Welch–Satterthwaite's; unknown where the normal quantile is used
	P        study.Maybe // two-sided, of the answer being zero
}

// times is the span in another unit, f of them to one; f must be above 0.
func (s Span) times(f float64) Span {
	s.Value *= f
	s.Low, s.High = s.Low.Times(f), s.High.Times(f)
	s.NextLow, s.NextHigh = s.NextLow.Times(f), s.NextHigh.Times(f)
	return s
}

// aTime is the span of a time, which is never below nothing: limits are cut at 0, unless
// the answer itself is below it by more than rounding.
func (s Span) aTime() Span {
	if s.Value < -vanishingShare*max(abs(s.Low.Value), abs(s.High.Value)) {
		return s
	}
	for _, limit := range []*study.Maybe{&s.Low, &s.High, &s.NextLow, &s.NextHigh} {
		limit.Value = max(limit.Value, 0)
	}
	return s
}

// combinedVariance is a variance with its degrees of freedom, of independent parts that were
// added up: (Σu²)² / Σ(u⁴/df), not rounded (Welch 1947, Satterthwaite 1946; JCGM
// 100:2008, G.4.1). Fourth powers are kept as shares of the sum's, which no float64 is
// too small for.
type combinedVariance struct{ variance, inverseDF float64 }

func (s *combinedVariance) add(variance, df float64) {
	if variance == 0 {
		return
	}
	sum := s.variance + variance
	before, part := s.variance/sum, variance/sum
	*s = combinedVariance{sum, before*before*s.inverseDF + part*part/df}
}

func (s combinedVariance) df() float64 { return 1 / s.inverseDF }

// uncertainty adds up the variances of steps, which are independent but for what is lent
// to them and what grows or workers have in common.
type uncertainty struct {
	steps   combinedVariance
	lent    float64 // Σ u²·share that is lent
	lender  lending
	common  float64 // of the effect that steps share: its factor of the effect's variance
	effect  *effect
	unknown bool
}

func (u *uncertainty) add(f doubtFit, variance float64) {
	u.unknown = u.unknown || f.unknown
	u.steps.add(variance, f.df)
	u.lent += variance * f.share
}

// total is the variance and its degrees of freedom, infinite where no part has
// finite ones.
func (u uncertainty) total() (variance, df float64) {
	own := u.steps
	if u.lent > 0 {
		// what is lent errs the same way in all that borrow it
		share := u.lent / own.variance
		own.inverseDF += share * share / u.lender.df
	}
	if u.effect == nil || u.effect.none() || u.common == 0 {
		return own.variance, own.df()
	}
	e := u.effect
	variance = own.variance + u.common*e.square
	if variance == 0 {
		return 0, own.df()
	}
	a, b := own.variance/variance, u.common*e.judgedBy/variance
	df = 1 / (a*a*own.inverseDF + b*b/e.df)
	return variance, max(df, min(e.df, own.df()))
}

// limits are value ± t·u, stretched to hold the point answer; unknown where the
// uncertainty is.
func (u uncertainty) limits(point, value, confidence float64) (low, high study.Maybe) {
	if u.unknown {
		return study.Maybe{}, study.Maybe{}
	}
	variance, df := u.total()
	halfWidth := 0.0
	if variance > 0 {
		halfWidth = stepfit.Quantile(confidence, df) * math.Sqrt(variance)
	}
	return study.Known(min(point, value-halfWidth)), study.Known(max(point, value+halfWidth))
}

// df is the degrees of freedom to print: unknown where they are infinite or
// there is nothing uncertain.
func (u uncertainty) df() study.Maybe {
	variance, df := u.total()
	if u.unknown || variance == 0 {
		return study.Maybe{}
	}
	return study.Known(df)
}

// p is the two-sided probability of a value at least this far from zero.
func (u uncertainty) p(value float64) study.Maybe {
	variance, df := u.total()
	if u.unknown || variance == 0 {
		return study.Maybe{}
	}
	return study.Known(stepfit.TwoSided(value/math.Sqrt(variance), df))
}

// setting says how each bracketed step is taken: as the form its model has, or
// at whichever of its two extremes makes the answer smaller, or larger, or as all setup.
type setting int

const (
	asModelled setting = iota
	smaller
	larger
	allSetup
)

// asSetup says whether a bracketed step is taken as all setup under a setting, for a load.
func (s setting) asSetup(model *stepfit.Model, load stepfit.Load) bool {
	if model.Bracket == nil || s == asModelled {
		return false
	}
	if s == allSetup {
		return true
	}
	unit := model.Fit.At(load)
	setup := model.Bracket.At(load)
	return s == smaller && setup < unit || s == larger && setup > unit
}

// under is the fit that a step's time is told by under a setting, for a load, and the one
// that tells how sure it is: another only where auto left a form.
func (m *StepModel) under(s setting, load stepfit.Load) (point stepfit.Fit, doubt doubtFit) {
	if s.asSetup(m.Model, load) {
		return *m.Model.Bracket, m.bracket
	}
	return m.Model.Fit, m.doubt
}

// outcome is a linear form worked out under one setting, in seconds: its point answer, and
// the one that its doubts are about, which differs where auto left a form.
type outcome struct {
	value, full float64
	mean, next  uncertainty
}

func (o outcome) limits(u uncertainty, confidence float64) (low, high study.Maybe) {
	return u.limits(o.value, o.full, confidence)
}

// workload is a linear form with the visits that it comes from, if any: they are
// what is done again in the next grow.
type workload struct {
	loads  linear
	visits []visit
}

// evaluate works out a linear form; gaps add nothing to it.
func (m *Models) evaluate(w workload, s setting) outcome {
	var o outcome
	o.mean.lender, o.mean.effect = m.lending, &m.effect
	o.next = o.mean
	var again map[int][]stepfit.Visit
	if len(w.visits) > 0 {
		again = map[int][]stepfit.Visit{}
	}
	for _, v := range w.visits {
		if !v.joint {
			again[v.step] = append(again[v.step], stepfit.Visit{Load: v.whole, SharedBy: v.sharedBy})
		}
	}
	jointVisits(again, w.visits)
	for i, load := range m.allAsTheyAre(w.loads) {
		if m.Steps[i].isGap() || (load == stepfit.Load{}) {
			continue
		}
		point, doubt := m.Steps[i].under(s, load)
		o.value += point.At(load)
		o.full += doubt.At(load)
		needed := doubt.Leverage(load) > 0
		variance := 0.0
		if needed {
			variance = doubt.Variance(load)
			o.mean.add(doubt, variance)
		}
		if needed || again[i] != nil {
			o.next.add(doubt, variance+doubt.Scatter(again[i]))
		}
	}
	o.mean.common = m.inCommon(w.loads, w.loads, s)
	o.next.common = o.mean.common
	if len(w.visits) > 0 {
		o.next.common += o.full * o.full
	}
	return o
}

// inCommon is what a common effect of variance 1 adds to the covariance of two linear
// forms under a setting.
func (m *Models) inCommon(x, y linear, s setting) float64 {
	if m.effect.none() {
		return 0
	}
	a := m.coefficients(x, s)
	if &x[0] == &y[0] {
		return m.effect.product(a, a)
	}
	return m.effect.product(a, m.coefficients(y, s))
}

// coefficients are those of a linear form in the setup and unit times of all steps, of a
// bracketed step only that of the extreme in use.
func (m *Models) coefficients(l linear, s setting) []float64 {
	c := make([]float64, 2*len(l))
	for i, load := range m.allAsTheyAre(l) {
		if m.Steps[i].isGap() {
			continue
		}
		c[2*i], c[2*i+1] = load.Setups, load.Count
		if model := m.Steps[i].Model; model.Bracket != nil {
			if s.asSetup(model, load) {
				c[2*i+1] = 0
			} else {
				c[2*i] = 0
			}
		}
	}
	return c
}

// span works out a linear form in seconds, with the outer limits of the two
// settings of the bracketed steps.
func (m *Models) span(w workload) Span {
	point := m.evaluate(w, asModelled)
	small, large := point, point
	if m.hasBracket(w.loads) {
		small, large = m.evaluate(w, smaller), m.evaluate(w, larger)
	}
	span := Span{Value: point.value, DF: point.mean.df()}
	span.Low, span.High = m.outer(small, small.mean, large, large.mean)
	span.NextLow, span.NextHigh = span.Low, span.High
	if small.next != small.mean || large.next != large.mean { // a quantile takes longer than all else
		span.NextLow, span.NextHigh = m.outer(small, small.next, large, large.next)
	}
	span.P = small.mean.p(small.full)
	if small != large {
		span.P = both(span.P, large.mean.p(large.full))
	}
	low, high := min(small.value, small.full, large.value, large.full), max(small.value, small.full, large.value, large.full)
	switch {
	case !span.P.Known:
		if small.mean.unknown || large.mean.unknown {
			span.DF = study.Maybe{}
		}
	case low <= 0 && high >= 0 && low < high: // nothing is of neither sign
		span.P = study.Known(1)
	}
	return span
}

// hasBracket says whether a linear form has a bracketed step, so that settings differ.
func (m *Models) hasBracket(l linear) bool {
	for i, load := range m.allAsTheyAre(l) {
		if model := m.Steps[i].Model; model != nil && model.Bracket != nil && load != (stepfit.Load{}) {
			return true
		}
	}
	return false
}

func (m *Models) outer(small outcome, a uncertainty, large outcome, b uncertainty) (low, high study.Maybe) {
	lowA, highA := small.limits(a, m.Confidence)
	if small.value == large.value && small.full == large.full && a == b {
		return lowA, highA
	}
	lowB, highB := large.limits(b, m.Confidence)
	if !lowA.Known || !lowB.Known {
		return study.Maybe{}, study.Maybe{}
	}
	return study.Known(min(lowA.Value, lowB.Value)), study.Known(max(highA.Value, highB.Value))
}

// both is the greater of two probabilities, unknown where either is.
func both(a, b study.Maybe) study.Maybe {
	if !a.Known || !b.Known {
		return study.Maybe{}
	}
	return study.Known(max(a.Value, b.Value))
}

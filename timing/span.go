package timing

import (
	"math"

	"headhours/timing/stepfit"
)

// Span is an answer that is linear in the setup and unit times, with its
// intervals. What is not known for want of a spread is unknown.
type Span struct {
	Value    float64
	Low      Maybe // limits of the mean
	High     Maybe
	NextLow  Maybe // limits for the work done once more: readings' scatter included
	NextHigh Maybe
	DF       Maybe // Welch–Satterthwaite's; unknown where the normal quantile is used
	P        Maybe // two-sided, of the answer being zero
}

// times is the span in another unit, f of them to one; f must be above 0.
func (s Span) times(f float64) Span {
	s.Value *= f
	s.Low, s.High = s.Low.Times(f), s.High.Times(f)
	s.NextLow, s.NextHigh = s.NextLow.Times(f), s.NextHigh.Times(f)
	return s
}

// spread is a variance with its degrees of freedom, of independent parts that were
// added up: (Σu²)² / Σ(u⁴/df), not rounded (Welch 1947, Satterthwaite 1946; JCGM
// 100:2008, G.4.1). Fourth powers are kept as shares of the sum's, which no float64 is
// too small for.
type spread struct{ variance, inverseDF float64 }

func (s *spread) add(variance, df float64) {
	if variance == 0 {
		return
	}
	sum := s.variance + variance
	before, part := s.variance/sum, variance/sum
	*s = spread{sum, before*before*s.inverseDF + part*part/df}
}

// uncertainty adds up independent variances and their degrees of freedom. All
// steps that borrow the pooled spread are one part of it, since what is lent
// errs the same way in each.
type uncertainty struct {
	own              spread // of the parts with a spread of their own
	pooled, pooledDF float64
	unknown          bool
}

func (u *uncertainty) add(basis stepfit.Basis, variance, df float64) {
	switch basis {
	case stepfit.NoSpread:
		u.unknown = true
	case stepfit.Pooled:
		u.pooled += variance
		u.pooledDF = df
	default:
		u.own.add(variance, df)
	}
}

// total is the variance and its degrees of freedom, infinite where no part has
// finite ones.
func (u uncertainty) total() (variance, df float64) {
	all := u.own
	all.add(u.pooled, u.pooledDF)
	return all.variance, 1 / all.inverseDF
}

// limits are value ± t·u; unknown where the uncertainty is.
func (u uncertainty) limits(value, confidence float64) (low, high Maybe) {
	if u.unknown {
		return Maybe{}, Maybe{}
	}
	variance, df := u.total()
	half := 0.0
	if variance > 0 {
		half = stepfit.Quantile(confidence, df) * math.Sqrt(variance)
	}
	return Known(value - half), Known(value + half)
}

// df is the degrees of freedom to print: unknown where they are infinite or
// there is nothing uncertain.
func (u uncertainty) df() Maybe {
	variance, df := u.total()
	if u.unknown || variance == 0 {
		return Maybe{}
	}
	return Known(df)
}

// p is the two-sided probability of a value at least this far from zero.
func (u uncertainty) p(value float64) Maybe {
	variance, df := u.total()
	if u.unknown || variance == 0 {
		return Maybe{}
	}
	return Known(stepfit.TwoSided(value/math.Sqrt(variance), df))
}

// setting says how each bracketed step is taken: as the form its model has, or
// at whichever of its two extremes makes the answer smaller, or larger.
type setting int

const (
	asModelled setting = iota
	smaller
	larger
)

// at is a step's fit for a load under a setting.
func (s setting) at(model *stepfit.Model, load Load) stepfit.Fit {
	if model.Bracket == nil || s == asModelled {
		return model.Fit
	}
	unit := model.Fit.At(load.Setups, load.Count)
	setup := model.Bracket.At(load.Setups, load.Count)
	if (s == smaller && setup < unit) || (s == larger && setup > unit) {
		return *model.Bracket
	}
	return model.Fit
}

// outcome is a linear form worked out under one setting, in seconds.
type outcome struct {
	value      float64
	mean, next uncertainty
}

// work is a linear form with the visits that it comes from, if any: they are
// what is done again in the next grow.
type work struct {
	loads  linear
	visits []Visit
}

// evaluate works out a linear form; gaps add nothing to it.
func (m *Models) evaluate(w work, s setting) outcome {
	var o outcome
	var again map[int][]stepfit.Doing
	if len(w.visits) > 0 {
		again = map[int][]stepfit.Doing{}
	}
	for _, v := range w.visits {
		again[v.Step] = append(again[v.Step], stepfit.Doing{Setups: v.Doing.Setups, Count: v.Doing.Count, SharedBy: v.SharedBy})
	}
	for i, load := range w.loads {
		if m.Steps[i].Gap() || (load == Load{}) {
			continue
		}
		fit := s.at(m.Steps[i].Model, load)
		o.value += fit.At(load.Setups, load.Count)
		needed := fit.Leverage(load.Setups, load.Count) > 0
		if needed {
			variance, df := fit.Mean(load.Setups, load.Count)
			o.mean.add(fit.Basis, variance, df)
		}
		if needed || again[i] != nil {
			variance, df := fit.Next(load.Setups, load.Count, again[i])
			o.next.add(fit.Basis, variance, df)
		}
	}
	return o
}

// span works out a linear form in seconds, with the outer limits of the two
// settings of the bracketed steps.
func (m *Models) span(w work) Span {
	point, small, large := m.evaluate(w, asModelled), m.evaluate(w, smaller), m.evaluate(w, larger)
	span := Span{Value: point.value, DF: point.mean.df()}
	span.Low, span.High = m.outer(small.value, small.mean, large.value, large.mean)
	span.NextLow, span.NextHigh = span.Low, span.High
	if small.next != small.mean || large.next != large.mean { // a quantile takes longer than all else
		span.NextLow, span.NextHigh = m.outer(small.value, small.next, large.value, large.next)
	}
	span.P = both(small.mean.p(small.value), large.mean.p(large.value))
	switch {
	case !span.P.Known:
		if small.mean.unknown || large.mean.unknown {
			span.DF = Maybe{}
		}
	case small.value*large.value < 0:
		span.P = Known(1)
	}
	return span
}

func (m *Models) outer(small float64, a uncertainty, large float64, b uncertainty) (low, high Maybe) {
	lowA, highA := a.limits(small, m.Confidence)
	if small == large && a == b {
		return lowA, highA
	}
	lowB, highB := b.limits(large, m.Confidence)
	if !lowA.Known || !lowB.Known {
		return Maybe{}, Maybe{}
	}
	return Known(min(lowA.Value, lowB.Value)), Known(max(highA.Value, highB.Value))
}

// both is the greater of two probabilities, unknown where either is.
func both(a, b Maybe) Maybe {
	if !a.Known || !b.Known {
		return Maybe{}
	}
	return Known(max(a.Value, b.Value))
}

func abs(x float64) float64 { return math.Abs(x) }

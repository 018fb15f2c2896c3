package answer

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Usual is what one more reading of a step would take, as its model has it, in
// basic person-seconds.
type Usual struct {
	Seconds  float64
	Low      study.Maybe // limits of the one reading, not of the mean; unknown where no scatter is
	High     study.Maybe
	Readings int // that it rests on; 0 where the time is judged alone
}

// StandsOut says that a reading of so many basic person-seconds lies outside the
// limits. A judgement has none that a reading could lie outside of: they are the
// doubt about its mean.
func (u Usual) StandsOut(seconds float64) bool {
	return u.Readings > 0 && u.Low.Known && (seconds < u.Low.Value || seconds > u.High.Value)
}

// Usual says what a reading of a step with a load would take:
// c'β ± t·√(c'Vc + s²·n^q), t at the models' confidence (Draper and Smith, Applied
// Regression Analysis, 3rd ed., section 3.1). Where alike counts leave two
// extremes the limits are the outer ones. False where the step has no model or its
// model gives such a reading no time.
func (m *Models) Usual(step string, load stepfit.Load) (Usual, bool) {
	i, ok := m.Index[step]
	if !ok || m.Steps[i].isGap() {
		return Usual{}, false
	}
	s := m.Steps[i]
	u := Usual{Seconds: s.Model.At(m.AsItIs(i, load)), Readings: s.Readings}
	if u.Seconds <= 0 {
		return Usual{}, false
	}
	small, large := m.oneMore(i, load, smaller), m.oneMore(i, load, larger)
	span := Span{Value: u.Seconds}
	span.Low, span.High = m.outer(small, small.next, large, large.next)
	span = span.aTime()
	u.Low, u.High = span.Low, span.High
	return u, true
}

// oneMore is one reading yet to come, under a setting. With a spread that grows
// with the count nothing is known of the scatter of getting ready alone.
func (m *Models) oneMore(step int, load stepfit.Load, s setting) outcome {
	o := m.timeOf(step, load, s)
	now := m.AsItIs(step, load)
	_, doubt := m.Steps[step].under(s, now)
	o.next = uncertainty{lender: o.mean.lender, effect: o.mean.effect, common: o.mean.common + o.full*o.full}
	o.next.add(doubt, doubt.Variance(now)+doubt.OneMore(load.Count))
	o.next.unknown = o.next.unknown || load.Count == 0 && doubt.Spread > 0
	return o
}

package timing

import "headhours/timing/stepfit"

// Usual is what one more reading of a step would take, as its model has it, in
// basic person-seconds.
type Usual struct {
	Seconds  float64
	Low      Maybe // limits of the one reading, not of the mean; unknown where no spread is
	High     Maybe
	Readings int // that it rests on; 0 where the time is judged alone
}

// StandsOut says that a reading of so many basic person-seconds lies outside the
// limits. A judgement has none that a reading could lie outside of: they are the
// doubt about its mean.
func (u Usual) StandsOut(seconds float64) bool {
	return u.Readings > 0 && u.Low.Known && (seconds < u.Low.Value || seconds > u.High.Value)
}

// Usual says what a reading of a step with so many setups and counts would take:
// c'β ± t·√(c'Vc + s²·n^q), t at the models' confidence (Draper and Smith, Applied
// Regression Analysis, 3rd ed., section 3.1). Where alike counts leave two
// extremes the limits are the outer ones. False where the step has no model or its
// model gives such a reading no time.
func (m *Models) Usual(step string, setups, count float64) (Usual, bool) {
	i, known := m.index[step]
	if !known || m.Steps[i].Gap() {
		return Usual{}, false
	}
	s := m.Steps[i]
	u := Usual{Seconds: s.Model.At(setups, count), Readings: s.Readings}
	if u.Seconds <= 0 {
		return Usual{}, false
	}
	other := s.Model.Fit
	if s.Model.Bracket != nil {
		other = *s.Model.Bracket
	}
	u.Low, u.High = m.outer(
		s.Model.At(setups, count), oneMore(s.Model.Fit, setups, count),
		other.At(setups, count), oneMore(other, setups, count))
	return u, true
}

// oneMore is the uncertainty of one reading yet to come. With a spread that grows
// with the count nothing is known of the scatter of getting ready alone.
func oneMore(f stepfit.Fit, setups, count float64) (u uncertainty) {
	variance, df := f.NextReading(setups, count)
	u.add(f.Basis, variance, df)
	u.unknown = u.unknown || count == 0 && f.Spread > 0
	return u
}

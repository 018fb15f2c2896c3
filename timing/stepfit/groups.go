package stepfit

import "math"

// Groups are all readings of a step by what they have in common, their grow or
// their worker: a Sums each, none empty.
type Groups []Sums

// Sums is all readings together.
func (g Groups) Sums() Sums {
	var all Sums
	for _, s := range g {
		all.Merge(s)
	}
	return all
}

// mixed lays the readings out as a form's, weighted for a spread.
func (g Groups) mixed(form Form, spread int) *mixed {
	place := form.place()
	all := g.Sums()
	m := newMixed(form.Parameters(), all.Readings, -float64(spread)*all.logCounts)
	for _, s := range g {
		group := newRows(m.effects + 1)
		group.merge(s.centred[spread], place)
		m.add(group)
	}
	return m
}

// place says where a form has its setups, counts and times among its columns.
func (f Form) place() [columns][]int {
	switch f {
	case Unit:
		return [columns][]int{nil, {0}, {1}}
	case Setup:
		return [columns][]int{{0}, nil, {1}}
	default:
		return [columns][]int{{0}, {1}, {2}}
	}
}

// Fit is the model t = a·m + b·n + u of a form at a spread, u a random effect of
// the group, by restricted maximum likelihood; see mixed. The readings must be
// able to tell the form's times, see CanFit. False where the groups cannot be told
// from scatter, see Alike, or differ by no more than it: the model is Sums.Fit then.
func (g Groups) Fit(form Form, spread int) (Fit, bool) {
	m := g.mixed(form, spread)
	s, ok := m.reml()
	if !ok {
		return Fit{}, false
	}
	all := g.Sums()
	fit := all.Fit(form, spread)
	variance := s.rss[0] / m.df()
	fit.SD, fit.BetweenSD = math.Sqrt(variance), math.Sqrt(variance*s.theta)
	fit.REML = m.logLikelihood(s)
	fit.between = &between{theta: s.theta, unsure: m.unsure(s)}
	switch form {
	case Unit:
		fit.UnitSec = s.effects[0]
		fit.cov.bb, fit.between.slope.bb = s.covariance(0, 0), s.slope(0, 0)
	case Setup:
		fit.SetupSec = s.effects[0]
		fit.cov.aa, fit.between.slope.aa = s.covariance(0, 0), s.slope(0, 0)
	default:
		fit.SetupSec, fit.UnitSec = s.effects[0], s.effects[1]
		fit.cov = covariance{s.covariance(0, 0), s.covariance(0, 1), s.covariance(1, 1)}
		fit.between.slope = covariance{s.slope(0, 0), s.slope(0, 1), s.slope(1, 1)}
	}
	fit.RSS = all.centred[spread].factor().residual(fit.SetupSec, fit.UnitSec)
	return fit, true
}

// With is the model with a random effect of groups of its readings: its fit, and
// the bracket's where there is one. A time that the effect takes below zero is left
// out, unless the form was asked for. False, and the model as it was, where Fit is.
func (m Model) With(g Groups) (Model, bool) {
	fit, ok := g.Fit(m.Form, m.Spread)
	if ok && fit.Form == SetupUnit && !m.Asked {
		switch g.Sums().belowZero(fit) {
		case Setup:
			fit, ok = g.Fit(Unit, m.Spread)
			m.LeftSetup = true
		case Unit:
			fit, ok = g.Fit(Setup, m.Spread)
			m.LeftUnit = true
		}
	}
	if !ok {
		return m, false
	}
	m.Fit = fit
	if m.Bracket != nil {
		if other, ok := g.Fit(m.Bracket.Form, m.Bracket.Spread); ok {
			m.Bracket = &other
		}
	}
	return m, true
}

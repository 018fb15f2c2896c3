package timing

import (
	"fmt"
	"math"

	"headhours/timing/stepfit"
)

// Scatter says what is made of the scatter of a step's readings, which two or three
// of them show poorly. The zero Scatter is OwnScatter.
type Scatter string

// The scatters. All but the first go beyond what a step's own readings say; how
// well each keeps its promise is what the command coverage simulates.
const (
	// OwnScatter takes a step's own readings alone; one whose readings show no
	// scatter borrows the pooled coefficient of variation.
	OwnScatter Scatter = "own"
	// CautiousScatter is the same, but what is borrowed counts as known no better
	// than from few readings: it tells of other steps, which may differ.
	CautiousScatter Scatter = "cautious"
	// BlendedScatter draws each step's towards the pooled one, a little.
	BlendedScatter Scatter = "blended"
	// ModeratedScatter does so by as much as the steps seem to be alike, by
	// empirical Bayes.
	ModeratedScatter Scatter = "moderated"
	// PooledScatter takes the steps for alike: all have the pooled one.
	PooledScatter Scatter = "pooled"
)

// Scatters lists the scatters.
var Scatters = []Scatter{OwnScatter, CautiousScatter, BlendedScatter, ModeratedScatter, PooledScatter}

// fewDF is the degrees of freedom that the pooled coefficient of variation counts
// for of one step, where it is borrowed with caution or blended.
const fewDF = 2

// share lets steps share their scatters, as squared coefficients of variation at
// their mean counts, by the rule that is asked for.
func (m *Models) share() {
	if m.PooledDF == 0 {
		return
	}
	pooled := m.PooledCV * m.PooledCV
	switch m.options.Scatter {
	case CautiousScatter:
		m.PooledDF = min(m.PooledDF, fewDF)
	case BlendedScatter:
		m.moderate(stepfit.Prior{Variance: pooled, DF: fewDF})
	case PooledScatter:
		m.moderate(stepfit.Prior{Variance: pooled, DF: math.Inf(1)})
	case ModeratedScatter:
		if prior, ok := m.prior(); ok {
			m.moderate(prior)
		}
	}
}

// prior is what the steps' squared coefficients of variation have in common.
func (m *Models) prior() (stepfit.Prior, bool) {
	var squares, df []float64
	for _, s := range m.Steps {
		if s.Gap() {
			continue
		}
		if cv, ok := s.Model.CV(); ok {
			squares, df = append(squares, cv*cv), append(df, s.Model.DF)
		}
	}
	return stepfit.PriorOf(squares, df)
}

// moderate draws each step's scatter towards a prior, which steps without a scatter
// of their own will borrow. Nothing has more degrees of freedom than the readings of
// all steps have, from which the prior is known. Where all steps have the prior's,
// what is wrong with it is wrong in all of them: it counts as lent.
func (m *Models) moderate(prior stepfit.Prior) {
	all := m.PooledDF
	moderate := func(f *stepfit.Fit) {
		cv, ok := f.CV()
		if !ok {
			return
		}
		square, df := prior.Moderate(cv*cv, f.DF)
		basis := stepfit.Own
		if math.IsInf(prior.DF, 1) {
			basis = stepfit.Pooled
		}
		*f = f.WithCV(math.Sqrt(square), min(df, all), basis)
	}
	for _, s := range m.Steps {
		if s.Gap() {
			continue
		}
		moderate(&s.Model.Fit)
		if s.Model.Bracket != nil {
			moderate(s.Model.Bracket)
		}
	}
	m.PooledCV, m.PooledDF = math.Sqrt(prior.Variance), min(all, prior.DF)
}

// scatterNote says in words what is made of the readings' scatter, "" for their own.
func (m *Models) scatterNote() string {
	switch m.options.Scatter {
	case CautiousScatter:
		return fmt.Sprintf("cautious scatter: a borrowed spread counts for no more than %d degrees of freedom", fewDF)
	case BlendedScatter:
		return fmt.Sprintf("blended scatter: each step's spread is drawn towards that of all, %s, which counts for %d degrees of freedom", percent(m.PooledCV), fewDF)
	case ModeratedScatter:
		return fmt.Sprintf("moderated scatter: each step's spread is drawn towards that of all, %s, by as much as the steps seem alike", percent(m.PooledCV))
	case PooledScatter:
		return fmt.Sprintf("pooled scatter: all steps are taken to vary alike, by %s", percent(m.PooledCV))
	}
	return ""
}

// borrows says that the step has readings, but too few to show a scatter.
func (s StepModel) borrows() bool {
	return s.Readings > 0 && s.Readings <= s.Model.Form.Parameters()
}

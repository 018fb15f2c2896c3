package answer

import "headhours/timing/stepfit"

// Grouping says of what readings may be slow or quick in all steps alike. The zero
// Grouping is AutoGrouping.
type Grouping string

// The groupings. AutoGrouping takes the one of grow and worker that differs more.
const (
	NoGrouping   Grouping = "none"
	byGrow       Grouping = "grow"
	byWorker     Grouping = "worker"
	AutoGrouping Grouping = "auto"
)

// vanishingShare is the share below which a trace, or a sum of squares, is rounding.
const vanishingShare = 1e-9

// effect is a factor that readings of one grow, or worker, have in common: all of its
// times are 1 + η as long, of variance square. The zero effect is none.
//
// The moments of residuals that steps have in common give it: with b_jg = q_j β'(v_jg −
// S_jg β) of step j in group g, the covariance of b_j and b_k under the model is
// square·L_j L_k', so that Σ_{j≠k} b_j'b_k ÷ Σ_{j≠k} tr L_j L_k is unbiased, whatever the
// scatter of the steps (a quadratic estimator in the manner of Henderson's third method,
// Searle, Casella and McCulloch, Variance Components, 1992, chapter 5).
type effect struct {
	by       Grouping
	groups   int
	square   float64 // of the factor's standard deviation
	judgedBy float64 // the variance that its estimate is judged by: square, and what scatter alone gives
	df       float64
	steps    []groupedStep
	all      int // groups in all, of steps that take no part too
}

// groupedStep is a step's readings by group, for the fit that its doubts are told by and,
// where alike counts leave two extremes, the other.
type groupedStep struct {
	at          []int // the group of each part, numbered over all steps
	main, other groupedFit
}

// groupedFit is readings of a step by group beside a fit of all of them.
type groupedFit struct {
	fit    stepfit.Fit
	q      float64 // readings ÷ Σz
	z      []float64
	column [][2]float64
	beyond []float64 // β'v − β'Sβ
	trace  float64   // of L
	left   float64   // the share of its standard deviation that is not of groups that differ
}

// leverage is u'S⁻¹u for a part's column u.
func (g *groupedFit) leverage(i int) float64 { return form2(g.fit.Inverse(), g.column[i], g.column[i]) }

// scatter is the fit's own scatter less what groups that differ have added to it.
func (g *groupedFit) scatter(square float64) float64 {
	own := g.fit.SD * g.fit.SD
	if !g.takesPart() {
		return own
	}
	return max(own-square*g.trace/(g.q*g.fit.DF), own/4)
}

// none says that there is no such effect.
func (e effect) none() bool { return e.groups == 0 }

func form2(s [2][2]float64, x, y [2]float64) float64 {
	return x[0]*(s[0][0]*y[0]+s[0][1]*y[1]) + x[1]*(s[1][0]*y[0]+s[1][1]*y[1])
}

// takesPart says whether the step tells how much groups differ.
func (g *groupedFit) takesPart() bool { return g.trace > 0 && g.fit.DF > 0 }

// adds is what a part adds to setup and unit time, of an η of 1: S⁻¹u.
func (g *groupedFit) adds(i int) [2]float64 {
	s, u := g.fit.Inverse(), g.column[i]
	return [2]float64{s[0][0]*u[0] + s[0][1]*u[1], s[1][0]*u[0] + s[1][1]*u[1]}
}

// adds is what a part adds to setup and unit time, of an η of 1. Where alike counts leave two
// extremes the setup time is of the one, the unit time of the other.
func (g *groupedStep) adds(i int) [2]float64 {
	d := g.main.adds(i)
	if len(g.other.z) > 0 {
		d[0] = g.other.adds(i)[0]
	}
	return d
}

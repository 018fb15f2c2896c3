package answer

import (
	"math"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

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

// Groupings lists the groupings.
var Groupings = []Grouping{NoGrouping, byGrow, byWorker, AutoGrouping}

// nameIn is the grow or worker of a kind of readings.
func (g Grouping) nameIn(k condense.Kind) string {
	if g == byWorker {
		return k.Worker
	}
	return k.Grow
}

// Common is how much grows, or workers, differ in all that they do.
type Common struct {
	Of     *Grouping   `json:"of"`
	Groups *int        `json:"groups"`
	SD     study.Maybe `json:"sd"` // as a share of the time
	DF     study.Maybe `json:"df"`
}

// Two grows say little of how much grows differ: beside them it is assumed that they do by
// about 7 %, for as much as two would say. Our own assumption, no source.
const (
	assumedGrowSD = 0.07
	growsAlone    = 2 // degrees of freedom, and so many grows, for which that is assumed
)

// minWorkers is how many workers must be named before their differences are looked for.
const minWorkers = 3

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

// adds is what a part adds to setup and unit time, of an η of 1. Where alike counts leave two
// extremes the setup time is of the one, the unit time of the other.
func (g *groupedStep) adds(i int) [2]float64 {
	d := g.main.adds(i)
	if len(g.other.z) > 0 {
		d[0] = g.other.adds(i)[0]
	}
	return d
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

// none says that there is no such effect.
func (e effect) none() bool { return e.groups == 0 }

func groupsOf(fit stepfit.Fit, parts []stepfit.Cross) groupedFit {
	g := groupedFit{fit: fit, z: make([]float64, len(parts)), column: make([][2]float64, len(parts)), beyond: make([]float64, len(parts))}
	var squares float64
	for i, c := range parts {
		g.z[i], g.column[i], g.beyond[i] = c.Square, c.Column, c.Timed-c.Square
		squares += c.Square
	}
	g.q = float64(fit.Readings) / squares
	for i := range parts {
		g.trace += g.q * (g.z[i] - g.leverage(i))
	}
	if !(g.trace > vanishingShare*float64(fit.Readings)) {
		g.trace = 0
	}
	return g
}

// leverage is u'S⁻¹u for a part's column u.
func (g *groupedFit) leverage(i int) float64 { return form2(g.fit.Inverse(), g.column[i], g.column[i]) }

// adds is what a part adds to setup and unit time, of an η of 1: S⁻¹u.
func (g *groupedFit) adds(i int) [2]float64 {
	s, u := g.fit.Inverse(), g.column[i]
	return [2]float64{s[0][0]*u[0] + s[0][1]*u[1], s[1][0]*u[0] + s[1][1]*u[1]}
}

// takesPart says whether the step tells how much groups differ.
func (g *groupedFit) takesPart() bool { return g.trace > 0 && g.fit.DF > 0 }

// scatter is the fit's own scatter less what groups that differ have added to it.
func (g *groupedFit) scatter(square float64) float64 {
	own := g.fit.SD * g.fit.SD
	if !g.takesPart() {
		return own
	}
	return max(own-square*g.trace/(g.q*g.fit.DF), own/4)
}

func form2(s [2][2]float64, x, y [2]float64) float64 {
	return x[0]*(s[0][0]*y[0]+s[0][1]*y[1]) + x[1]*(s[1][0]*y[0]+s[1][1]*y[1])
}

// crossed is what a step's readings come to, kind by kind, beside the fit that its doubts
// are told by and the other extreme.
type crossed struct{ main, other []stepfit.Cross }

func crossedOf(steps []StepModel) []crossed {
	crosses := make([]crossed, len(steps))
	for i := range steps {
		s := &steps[i]
		if s.Readings == 0 || s.Kinds.Joined {
			continue
		}
		crosses[i].main = s.Kinds.Crosses(s.Model.Doubt())
		if s.Model.Bracket != nil {
			crosses[i].other = s.Kinds.Crosses(*s.Model.Bracket)
		}
	}
	return crosses
}

// effectOf finds how much groups of a kind differ in all steps; none where the readings
// cannot tell.
func effectOf(by Grouping, steps []StepModel, crosses []crossed) effect {
	var groups condense.Index[string]
	e := effect{by: by, steps: make([]groupedStep, len(steps))}
	for i := range steps {
		s := &steps[i]
		if s.Readings == 0 || s.Kinds.Joined {
			continue
		}
		g := &e.steps[i]
		at, parts := s.Kinds.CrossBy(by.nameIn, &groups, crosses[i].main)
		g.at, g.main = at, groupsOf(s.Model.Doubt(), parts)
		if s.Model.Bracket != nil {
			_, parts = s.Kinds.CrossBy(by.nameIn, &groups, crosses[i].other)
			g.other = groupsOf(*s.Model.Bracket, parts)
		}
	}
	e.all = len(groups.List)
	if e.all < 2 {
		return effect{}
	}
	e.groups = e.tellers()
	if by == byWorker && e.groups < minWorkers {
		return effect{}
	}
	m := momentsOf(e.steps, e.all)
	if !m.tells() {
		return effect{}
	}
	e.square = max(m.estimate(), 0)
	noise, df := m.doubt(e.square)
	if df == 0 {
		return effect{}
	}
	e.df, e.judgedBy = df, e.square+noise
	e.steps = settled(e.steps, e.square)
	if e.groups == growsAlone {
		p := max(growsAlone-df, 0)
		e.judgedBy = (p*(assumedGrowSD*assumedGrowSD+noise) + df*(e.square+noise)) / (p + df)
		e.square, e.df = max(e.judgedBy-noise, 0), max(df, growsAlone)
	}
	return e
}

// tellers is how many groups have readings of the steps that take part.
func (e *effect) tellers() int {
	counted, n := make([]bool, e.all), 0
	for i := range e.steps {
		if !e.steps[i].main.takesPart() {
			continue
		}
		for _, at := range e.steps[i].at {
			if !counted[at] {
				counted[at] = true
				n++
			}
		}
	}
	return n
}

// settled says of every step's fits how much of their scatter groups have not added.
func settled(steps []groupedStep, square float64) []groupedStep {
	for i := range steps {
		for _, g := range []*groupedFit{&steps[i].main, &steps[i].other} {
			g.left = 1
			if own := g.fit.SD * g.fit.SD; own > 0 {
				g.left = math.Sqrt(g.scatter(square) / own)
			}
		}
	}
	return steps
}

// reach is what each group adds to a linear form in all setup and unit times, of an η of 1:
// the sum over the steps of c'S⁻¹u.
func (e *effect) reach(coefficients []float64) []float64 {
	h := make([]float64, e.all)
	for j := range e.steps {
		setups, count := coefficients[2*j], coefficients[2*j+1]
		if setups == 0 && count == 0 {
			continue
		}
		g := &e.steps[j]
		for i, at := range g.at {
			d := g.adds(i)
			h[at] += setups*d[0] + count*d[1]
		}
	}
	return h
}

// product is Σ_g h_g h'_g of two linear forms in all setup and unit times.
func (e *effect) product(x, y []float64) float64 {
	if e.none() {
		return 0
	}
	a := e.reach(x)
	b := a
	if &x[0] != &y[0] {
		b = e.reach(y)
	}
	var sum float64
	for g := range a {
		sum += a[g] * b[g]
	}
	return sum
}

// commonOf is the effect that all steps share, of the kind that is asked for.
func commonOf(wanted Grouping, steps []StepModel) effect {
	switch wanted {
	case NoGrouping:
		return effect{}
	case byGrow, byWorker:
		return effectOf(wanted, steps, crossedOf(steps))
	}
	crosses := crossedOf(steps)
	grows, workers := effectOf(byGrow, steps, crosses), effectOf(byWorker, steps, crosses)
	if grows.none() || !workers.none() && workers.square > grows.square*(1+vanishingShare) {
		return workers
	}
	return grows
}

// common is how much grows, or workers, differ in all steps; all unknown where that is
// not told.
func (m *Models) common() Common {
	e := m.effect
	if e.none() {
		return Common{}
	}
	return Common{Of: &e.by, Groups: &e.groups, SD: study.Known(math.Sqrt(e.square)), DF: study.Known(e.df)}
}

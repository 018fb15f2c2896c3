package answer

import (
	"math"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
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

// Two grows say little of how much grows differ: beside them it is assumed that they do by
// about 7 %, for as much as two would say. Our own assumption, no source.
const (
	assumedGrowSD = 0.07
	growsAlone    = 2 // degrees of freedom, and so many grows, for which that is assumed
)

// minWorkers is how many workers must be named before their differences are looked for.
const minWorkers = 3

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

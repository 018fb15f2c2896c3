package answer

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// forecast works out what the interval of an answer would be with further readings:
// each is taken to last what the step's model expects, and to leave the step's scatter
// as it is, so that only what is known of it, and where it was timed, grows.
type forecast struct {
	models    *Models
	loads     linear
	answer    float64 // of now, in seconds
	goal      Goal
	within    float64    // of GoalWithin
	single    bool       // the answer is a time, not a difference
	steps     []int      // of the answer, known and with something to do, in order of first use
	prospects []prospect // of every step of the study
	foreseen  []foreseen
	planned   []plannedReading // the readings so far
	nowDF     study.Maybe      // of the answer as it stands
	sure      float64          // in what share of cases a plan is to be met; 0: were the scatter known
	trial     *Models          // those that outlook and apart work out an answer with
}

// foreseen is a step with the readings so far: how many are its own, what it comes to with
// them, its model, and its readings by grow or worker.
type foreseen struct {
	own   int
	sums  stepfit.Sums
	model *stepfit.Model
	group groupedStep
}

func (m *Models) newForecast(visits []visit, loads linear, goal Goal, within float64) *forecast {
	f := &forecast{
		models: m, loads: loads, goal: goal, within: within,
		prospects: make([]prospect, len(m.Steps)), foreseen: make([]foreseen, len(m.Steps)),
	}
	trial := *m
	trial.Steps = slices.Clone(m.Steps)
	trial.effect.steps = slices.Clone(m.effect.steps)
	f.trial = &trial
	for i, s := range m.Steps {
		if s.isGap() {
			continue
		}
		f.prospects[i] = m.prospect(s)
		f.foreseen[i] = f.asItIs(i)
	}
	for _, i := range inOrder(visits) {
		if !m.Steps[i].isGap() && loads[i] != (stepfit.Load{}) {
			f.steps = append(f.steps, i)
			need := m.needed(i, visits)
			f.prospects[i].choices = f.prospects[i].worthTiming(i, need)
			f.prospects[i].wholeVisit = plannedReading{step: i, load: oneSetup(need.maxCount)}
		}
	}
	return f
}

// asItIs is a step without any further reading.
func (f *forecast) asItIs(i int) foreseen {
	p := &f.prospects[i]
	now := foreseen{sums: p.sums, model: &p.model}
	if !f.models.effect.none() {
		now.group = f.models.effect.steps[i]
	}
	return now
}

// ofStep are the calls for one step.
func ofStep(planned []plannedReading, step int) []plannedReading {
	return slices.DeleteFunc(slices.Clone(planned), func(c plannedReading) bool { return c.step != step })
}

// countOf is how many calls are for one step.
func countOf(planned []plannedReading, step int) int {
	n := 0
	for i := range planned {
		if planned[i].step == step {
			n++
		}
	}
	return n
}

// outlook is the answer with its limits, in seconds, with the readings so far.
func (f *forecast) outlook() Span { return f.span(nil, false) }

// apart is outlook with a block of readings more, and with what steps borrow as it is now: by
// it readings are chosen, else one that hardly varies would be timed for the sake of the
// others' scatter.
func (f *forecast) apart(block []plannedReading) Span {
	return f.span(block, f.models.lending.df > 0)
}

// span puts what is foreseen of each step into the models of the trial. These are the same
// for every call, since a plan looks at thousands: all of them that a call may change is set
// by each.
func (f *forecast) span(block []plannedReading, asNow bool) Span {
	m := f.trial
	for i := range f.foreseen {
		to := &f.foreseen[i]
		if to.model == nil {
			continue
		}
		if countOf(block, i) > 0 {
			further := f.further(i, block)
			to = &further
		}
		m.Steps[i].Model = to.model
		if !m.effect.none() {
			m.effect.steps[i] = to.group
		}
	}
	if !m.effect.none() {
		// it stays as large and as well known as it is, but further grows have a part in the answer
		m.effect.all = f.models.effect.all + max(furtherGrows(f.planned), furtherGrows(block))
	}
	if asNow {
		m.settle(&f.models.lending)
	} else {
		m.settle(nil)
	}
	span := m.span(workload{loads: f.loads})
	if f.single {
		return span.aTime()
	}
	return span
}

// further is a step with a block of readings beyond those so far.
func (f *forecast) further(i int, block []plannedReading) foreseen {
	p, e, now := &f.prospects[i], &f.models.effect, f.foreseen[i]
	own := ofStep(block, i)
	if len(own) == 0 {
		return now
	}
	for _, c := range own {
		now.sums.Add(c.load, p.model.At(c.load))
	}
	now.own += len(own)
	now.model = p.with(&now.sums)
	if !e.none() {
		now.group = e.steps[i].with(now.model, append(ofStep(f.planned, i), own...), e.all)
	}
	return now
}

// with is a step's readings by group with further ones, for the fit of all of them.
func (g groupedStep) with(model *stepfit.Model, planned []plannedReading, groups int) groupedStep {
	g.at = slices.Clone(g.at)
	for _, fit := range []*groupedFit{&g.main, &g.other} {
		fit.z, fit.column, fit.beyond = slices.Clone(fit.z), slices.Clone(fit.column), slices.Clone(fit.beyond)
	}
	var like plannedReading // the call that column and other are of
	var column, other [2]float64
	for k, c := range planned {
		if k == 0 || c.load != like.load {
			like, column = c, columnOf(model.Doubt(), c)
			if model.Bracket != nil {
				other = columnOf(*model.Bracket, c)
			}
		}
		at := groups + c.grow - 1
		if c.grow == 0 {
			at = 0
			if len(g.at) > 0 {
				at = g.at[len(g.at)-1] // the grow that was begun last
			}
		}
		i := slices.Index(g.at, at)
		if i < 0 {
			i = len(g.at)
			g.at = append(g.at, at)
			g.main.extend()
			g.other.extend()
		}
		g.main.column[i] = plus2(g.main.column[i], column)
		if model.Bracket != nil {
			g.other.column[i] = plus2(g.other.column[i], other)
		}
	}
	g.main.fit = model.Doubt()
	if model.Bracket != nil {
		g.other.fit = *model.Bracket
	} else {
		g.other = groupedFit{}
	}
	return g
}

func (g *groupedFit) extend() {
	g.z, g.column, g.beyond = append(g.z, 0), append(g.column, [2]float64{}), append(g.beyond, 0)
}

// columnOf is what one reading adds to S β.
func columnOf(f stepfit.Fit, c plannedReading) [2]float64 {
	var s stepfit.Sums
	fitted := f.At(c.load)
	s.Add(c.load, max(fitted, 1e-9))
	return s.Cross(f).Column
}

func plus2(a, b [2]float64) [2]float64 { return [2]float64{a[0] + b[0], a[1] + b[1]} }

// furtherGrows is how many further grows calls are of.
func furtherGrows(planned []plannedReading) int {
	further := 0
	for _, c := range planned {
		further = max(further, c.grow)
	}
	return further
}

// sureness is how sure a plan is to meet its goal: in so many of a hundred cases.
const sureness = 0.80

// allowance is by how much an interval must be narrower than the goal for the plan to meet
// it in so many cases: what its variance will be estimated at, over what it is estimated at
// now, has an F distribution with the degrees of freedom of then and now.
func (f *forecast) allowance(then Span) float64 {
	now, later := f.nowDF, then.DF
	if !now.Known || !later.Known || f.sure == 0 {
		return 1
	}
	return math.Sqrt(distuv.F{D1: later.Value, D2: now.Value}.Quantile(f.sure))
}

// halfWidth is how far a span's interval reaches from the answer, infinite where that is not
// known: on its longer side, or towards zero where a clear difference is the goal. The
// answer is that of now: further readings of alike counts may move a forecast's.
func (f *forecast) halfWidth(s Span) float64 {
	below, above := f.answer-s.Low.Value, s.High.Value-f.answer
	switch {
	case !s.Low.Known:
		return math.Inf(1)
	case f.goal == GoalWithin:
		return max(below, above)
	case f.answer > 0:
		return below
	default:
		return above
	}
}

// meetsGoal says whether a span meets the goal: with an allowance for what is not known of the
// scatter, where it is of readings yet to come.
func (f *forecast) meetsGoal(s Span) bool {
	if f.goal == GoalWithin {
		return f.surely(s) <= f.aim()
	}
	return s.Low.Known && f.surely(s) < f.aim()
}

// surely is a span's half width with that allowance.
func (f *forecast) surely(s Span) float64 {
	if len(f.planned) == 0 {
		return f.halfWidth(s)
	}
	return f.halfWidth(s) * f.allowance(s)
}

// aim is the half width that meets the goal, or for a clear difference the one that just does
// not.
func (f *forecast) aim() float64 {
	if f.goal == GoalWithin {
		return f.within * abs(f.answer)
	}
	return abs(f.answer)
}

package timing

import (
	"math"
	"slices"

	"headhours/timing/stepfit"
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
	fits      []*stepfit.Model
	calls     []call // the readings so far
}

// call is one further reading.
type call struct {
	step          int
	setups, count float64
}

// prospect is what is assumed of a step.
type prospect struct {
	options     stepfit.Options
	now         stepfit.Model // times of the readings to come; where grows differ, all of it
	sums        stepfit.Sums  // of the readings there are
	sd, otherSD float64       // scatter of their own, of the model and its bracket; 0 without
	cv          float64       // else relative to the time at the mean count
	assumed     bool          // for want of any knowledge
	counts      []call        // the readings that may be called for
}

func (m *Models) newForecast(visits []Visit, loads linear, goal Goal, within float64) *forecast {
	f := &forecast{
		models: m, loads: loads, goal: goal, within: within,
		prospects: make([]prospect, len(m.Steps)), fits: make([]*stepfit.Model, len(m.Steps)),
	}
	for i, s := range m.Steps {
		if s.Gap() {
			continue
		}
		f.prospects[i] = m.prospect(s)
		f.fits[i] = f.prospects[i].with(nil)
	}
	for _, i := range inOrder(visits) {
		if !m.Steps[i].Gap() && loads[i] != (Load{}) {
			f.steps = append(f.steps, i)
			f.prospects[i].counts = f.prospects[i].worthTiming(i, m.needed(i, visits))
		}
	}
	return f
}

func (m *Models) prospect(s StepModel) prospect {
	p := prospect{now: *s.Model, sums: s.sums, options: m.asked(s)}
	p.cv, p.assumed = m.expectedCV(s)
	if s.Judged() {
		return p
	}
	plain := s.sums.Choose(p.options)
	if plain.DF > 0 {
		p.sd = plain.SD
		if plain.Bracket != nil {
			p.otherSD = plain.Bracket.SD
		}
	}
	return p
}

// expectedCV is how much readings of a step are expected to vary: as its own do, as
// those of other steps, as its estimate says, or as is assumed where nothing is known.
func (m *Models) expectedCV(s StepModel) (cv float64, assumed bool) {
	if !s.Judged() && !s.doubt.unknown {
		if cv, ok := s.doubt.Variation(); ok {
			return cv, s.doubt.share == 1 && m.lending.df == assumedDF
		}
	}
	switch e := s.Step.Estimate; {
	case m.lending.df > 0:
		return m.lending.cv(), m.options.Scatter != OwnScatter && m.lending.df == assumedDF
	case e != nil && e.Mean() > 0:
		return e.SD() / e.Mean(), false
	}
	return AssumedCV, true
}

// asked is the form and spread that a step's further readings are fitted by: those of
// its model. Only where alike counts, or none, leave the form open does it stay so.
func (m *Models) asked(s StepModel) stepfit.Options {
	form, spread := stepfit.Form(s.Step.Form), s.Step.Spread
	if m.options.Form != "" {
		form = m.options.Form
	}
	if m.options.Spread != nil {
		spread = m.options.Spread
	}
	if s.Judged() {
		if spread == nil {
			spread = new(int)
		}
		return stepfit.Options{Form: form, Spread: spread}
	}
	if s.Model.Bracket == nil && s.Model.Full == nil {
		form = s.Model.Form
	}
	return stepfit.Options{Form: form, Spread: &s.Model.Spread}
}

// worthTiming are the readings of a step that can be called for: one setup with the
// least and with the most count that are needed or were timed, and a setup alone where
// it is known to take time. Where those counts are alike and the form is open, half
// the count makes them unlike.
func (p prospect) worthTiming(step int, need counts) []call {
	low, high := need.least, need.most
	if least, most, ok := p.sums.CountPerSetup(); ok {
		low, high = min(low, least), max(high, most)
	}
	if p.fixed(stepfit.Setup) {
		return []call{{step, 1, asTimed(need.most)}}
	}
	var calls []call
	add := func(count float64) {
		if c := (call{step, 1, asTimed(count)}); !slices.Contains(calls, c) {
			calls = append(calls, c)
		}
	}
	if low > 0 {
		add(low)
	}
	add(high)
	if p.fixed(stepfit.Unit) {
		return calls
	}
	if len(calls) == 1 && calls[0].count >= 2 {
		add(calls[0].count / 2)
	}
	if p.fixed(stepfit.SetupUnit) && p.now.SetupSec > 0 && *p.options.Spread == 0 {
		calls = append(calls, call{step, 1, 0})
	}
	return calls
}

// fixed says that all readings to come are fitted by a form.
func (p prospect) fixed(form stepfit.Form) bool { return p.options.Form == form }

// with is the step's model with further readings; without a spread where they leave
// no degree of freedom.
func (p prospect) with(calls []call) *stepfit.Model {
	if len(calls) == 0 {
		model := p.now
		return &model
	}
	sums := p.sums
	for _, c := range calls {
		sums.Add(c.setups, c.count, p.now.At(c.setups, c.count))
	}
	model := sums.Choose(p.options)
	if len(calls) > 0 {
		p.assume(&model.Fit, p.sd)
		if model.Bracket != nil {
			p.assume(model.Bracket, p.otherSD)
		}
		if model.Full != nil {
			p.assume(model.Full, p.sd)
		}
	}
	return &model
}

// assume gives a fit with degrees of freedom of its own the scatter that is assumed.
func (p prospect) assume(f *stepfit.Fit, sd float64) {
	switch {
	case f.DF == 0:
	case sd > 0:
		f.SD = sd
	default:
		*f = f.WithCV(p.cv)
	}
}

// of are the calls for one step.
func of(calls []call, step int) []call {
	var own []call
	for _, c := range calls {
		if c.step == step {
			own = append(own, c)
		}
	}
	return own
}

// outlook is the answer with its limits, in seconds, with a model in place of a
// step's own.
func (f *forecast) outlook(step int, model *stepfit.Model) Span {
	return f.span(step, model, false)
}

// apart is outlook with what steps borrow as it is now: by it readings are chosen, else
// one that hardly varies would be timed for the sake of the others' spread.
func (f *forecast) apart(step int, model *stepfit.Model) Span {
	return f.span(step, model, f.models.lending.df > 0)
}

func (f *forecast) span(step int, model *stepfit.Model, asNow bool) Span {
	m := *f.models
	m.Steps = slices.Clone(m.Steps)
	for i, fit := range f.fits {
		if i == step {
			fit = model
		}
		if fit != nil {
			m.Steps[i].Model = fit
		}
	}
	if asNow {
		m.settle(&f.models.lending)
	} else {
		m.settle(nil)
	}
	span := m.span(work{loads: f.loads})
	if f.goal == GoalWithin && f.single {
		return span.aTime()
	}
	return span
}

// half is how far a span's interval reaches from the answer, infinite where that is not
// known: on its longer side, or towards zero where a clear difference is the goal. The
// answer is that of now: further readings of alike counts may move a forecast's.
func (f *forecast) half(s Span) float64 {
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

// met says whether a span meets the goal.
func (f *forecast) met(s Span) bool {
	if f.goal == GoalWithin {
		return f.half(s) <= f.within*abs(f.answer)
	}
	return s.Low.Known && s.Low.Value*f.answer > 0 && s.High.Value*f.answer > 0
}

package answer

import (
	"math"
	"slices"

	"headhours/timing/stepfit"
)

// prospect is what is assumed of a step.
type prospect struct {
	options     stepfit.Options
	model       stepfit.Model    // times of the readings to come; where grows differ, all of it
	sums        stepfit.Sums     // of the readings there are
	sd, otherSD float64          // scatter of their own, of the model and its bracket; 0 without
	cv          float64          // else relative to the time at the mean count
	assumed     bool             // for want of any knowledge
	choices     []plannedReading // the readings that may be called for
	wholeVisit  plannedReading   // the reading of a whole visit, as a further grow would have it
}

func (m *Models) prospect(s StepModel) prospect {
	p := prospect{model: *s.Model, sums: s.Sums, options: m.optionsOf(s)}
	p.cv, p.assumed = m.expectedCV(s)
	if s.isJudged() {
		return p
	}
	plain := s.Sums.Choose(p.options)
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
	if !s.isJudged() && !s.doubt.unknown {
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
	return assumedCV, true
}

// optionsOf is the form and spread that a step's further readings are fitted by: those of
// its model. Only where alike counts, or none, leave the form open does it stay so.
func (m *Models) optionsOf(s StepModel) stepfit.Options {
	form, spread := stepfit.Form(s.Step.Form), s.Step.Spread
	if m.options.Form != "" {
		form = m.options.Form
	}
	if m.options.Spread != nil {
		spread = m.options.Spread
	}
	if s.isJudged() {
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
func (p prospect) worthTiming(step int, need countSpan) []plannedReading {
	low, high := need.minCount, need.maxCount
	if minCount, maxCount, ok := p.sums.CountPerSetup(); ok {
		low, high = min(low, minCount), max(high, maxCount)
	}
	if p.fixed(stepfit.Setup) {
		return []plannedReading{{step: step, load: oneSetup(need.maxCount)}}
	}
	var planned []plannedReading
	add := func(count float64) {
		if c := (plannedReading{step: step, load: oneSetup(count)}); !slices.Contains(planned, c) {
			planned = append(planned, c)
		}
	}
	if low > 0 {
		add(low)
	}
	add(high)
	if p.fixed(stepfit.Unit) {
		return planned
	}
	if len(planned) == 1 && planned[0].load.Count >= 2 {
		add(planned[0].load.Count / 2)
	}
	if p.fixed(stepfit.SetupUnit) && p.model.SetupSec > 0 && *p.options.Spread == 0 {
		planned = append(planned, plannedReading{step: step, load: stepfit.Load{Setups: 1}})
	}
	return planned
}

// oneSetup is the load of a reading of one setup, its count as a person would time it.
func oneSetup(count float64) stepfit.Load { return stepfit.Load{Setups: 1, Count: asTimed(count)} }

// fixed says that all readings to come are fitted by a form.
func (p prospect) fixed(form stepfit.Form) bool { return p.options.Form == form }

// with is the step's model by all its readings, further ones among them; without a scatter
// where they leave no degree of freedom.
func (p *prospect) with(sums *stepfit.Sums) *stepfit.Model {
	model := sums.Choose(p.options)
	p.assume(&model.Fit, p.sd)
	if model.Bracket != nil {
		p.assume(model.Bracket, p.otherSD)
	}
	if model.Full != nil {
		p.assume(model.Full, p.sd)
	}
	return &model
}

// assume gives a fit with degrees of freedom of its own the scatter that is assumed.
func (p *prospect) assume(f *stepfit.Fit, sd float64) {
	switch {
	case f.DF == 0:
	case sd > 0:
		f.SD = sd
	default:
		*f = f.WithCV(p.cv)
	}
}

// countSpan is a range of counts per setup.
type countSpan struct{ minCount, maxCount float64 }

// needed is the range of counts per setup that visits need of a step.
func (m *Models) needed(i int, visits []visit) countSpan {
	c := countSpan{math.Inf(1), 0}
	for _, v := range visits {
		if v.step == i {
			c = countSpan{min(c.minCount, v.countPerSetup()), max(c.maxCount, v.countPerSetup())}
		}
	}
	return c
}

// asTimed is a count as a person would time it: whole, or to two digits where that is
// too coarse.
func asTimed(count float64) float64 {
	if count >= 1.5 || count == 0 {
		return math.Round(count)
	}
	unit := math.Pow(10, math.Floor(math.Log10(count))-1)
	return math.Round(count/unit) * unit
}

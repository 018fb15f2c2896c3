package answer

import (
	"cmp"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Options say which readings are fitted, and how. The zero Options take all
// readings and leave the rest to the study.
type Options struct {
	Filter     condense.Filter
	Form       stepfit.Form // goes before a step's own; "" leaves it
	Spread     *int         // likewise; nil leaves it
	Confidence float64      // of every interval; 0 leaves it to the study
	Scatter    Scatter      // "" is LentScatter
	Grouping   Grouping     // "" is AutoGrouping
}

// Models are the time models of all steps of a study, from which every answer
// is worked out.
type Models struct {
	*condense.Condensed
	Confidence float64
	Steps      []StepModel // in the study's order

	lending lending  // what steps that show too little scatter are lent
	effect  effect   // what grows or workers have in common in all steps
	remarks []string // said with every answer
	options Options
}

// NewModels fits every step to the readings that were taken in. They are left as they
// are: other options give other models of the same readings.
func NewModels(c *condense.Condensed, o Options) *Models {
	m := &Models{
		Condensed: c, options: o, Steps: make([]StepModel, len(c.Steps)),
		Confidence: cmp.Or(o.Confidence, c.Study.Confidence, study.DefaultConfidence),
	}
	for i := range c.Steps {
		m.Steps[i].StepReadings = c.Steps[i]
		m.Steps[i].Model = o.choose(&c.Steps[i])
	}
	m.effect = commonOf(o.Grouping, m.Steps)
	m.settle(nil)
	return m
}

// with is the same models for a study that differs in no step.
func (m *Models) with(st study.Study) *Models {
	condensed, other := *m.Condensed, *m
	condensed.Study = st
	other.Condensed = &condensed
	return &other
}

// settle gives every step's fits the scatter that answers take: less what a common effect
// has added to it, and with what is lent; of what all have to lend, or of what is given.
func (m *Models) settle(given *lending) {
	var fits []stepfit.Fit
	for i := range m.Steps {
		if s := &m.Steps[i]; s.Readings > 0 {
			fits = append(fits, m.ownScatter(i, s.Model.Doubt(), false))
		}
	}
	m.lending = lendingOf(m.options.Scatter, fits)
	if given != nil {
		m.lending = *given
	}
	for i := range m.Steps {
		s := &m.Steps[i]
		if s.isGap() {
			continue
		}
		s.doubt = m.lending.use(m.ownScatter(i, s.Model.Doubt(), false), s.Step.Estimate)
		if s.Model.Bracket != nil {
			s.bracket = m.lending.use(m.ownScatter(i, *s.Model.Bracket, true), s.Step.Estimate)
		}
	}
}

// ownScatter is a step's fit with the scatter that is left of its own when what grows or
// workers have in common is taken out.
func (m *Models) ownScatter(step int, f stepfit.Fit, other bool) stepfit.Fit {
	if m.effect.none() || f.Judged() {
		return f
	}
	g := &m.effect.steps[step].main
	if other {
		g = &m.effect.steps[step].other
	}
	if len(g.z) == 0 {
		return f
	}
	return f.WithSD(f.SD * g.left)
}

// Fit fits every step of a study to readings that are at hand. Readings of a step
// that the study does not name are passed over: the readers refuse them beforehand.
func Fit(st study.Study, readings []study.Reading, o Options) *Models {
	g := condense.Gather(&st, o.Filter)
	all := condense.InMemory(readings)
	_ = all(nil, g.Take) // nothing is read, and Take returns no error
	return NewModels(g.Condensed(all), o)
}

// choose is the model of a step by its own readings, or its estimate; nil without either.
func (o Options) choose(s *condense.StepReadings) *stepfit.Model {
	if s.Readings == 0 {
		if s.Step.Estimate == nil {
			return nil
		}
		return &stepfit.Model{Fit: fit(*s.Step.Estimate)}
	}
	form, spread := stepfit.Form(s.Step.Form), s.Step.Spread
	if o.Form != "" {
		form = o.Form
	}
	if o.Spread != nil {
		spread = o.Spread
	}
	model := s.Sums.Choose(stepfit.Options{Form: form, Spread: spread})
	return &model
}

func fit(j study.Estimate) stepfit.Fit {
	form := stepfit.Unit
	if j.OfVisit {
		form = stepfit.Setup
	}
	return stepfit.Judged(form, j.Mean(), j.SD())
}

// perHour turns basic seconds into hours of standard time.
func (m *Models) perHour() float64 { return (1 + m.Study.Allowance) / 3600 }

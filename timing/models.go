package timing

import (
	"math"
	"time"

	"headhours/timing/stepfit"
)

// Filter chooses readings. The zero Filter takes all.
type Filter struct {
	Worker, Grow string
	Since, Until time.Time // both days included; a reading without a date is left out
}

func (f *Filter) takes(b *Batch, r *Brief) bool {
	return f.takesWhere(b, &b.Where[r.Where]) && f.takesWhat(b, &b.What[r.What])
}

func (f *Filter) takesWhere(b *Batch, w *Where) bool {
	switch {
	case f.Grow != "" && b.Names[GrowNames][w.Grow] != f.Grow:
		return false
	case (!f.Since.IsZero() || !f.Until.IsZero()) && w.Day == NoDay:
		return false
	case !f.Since.IsZero() && w.Day < DayOf(f.Since), !f.Until.IsZero() && w.Day > DayOf(f.Until):
		return false
	}
	return true
}

func (f *Filter) takesWhat(b *Batch, w *What) bool {
	return f.Worker == "" || b.Names[WorkerNames][w.Worker] == f.Worker
}

// Options say which readings are fitted, and how. The zero Options take all
// readings and leave the rest to the study.
type Options struct {
	Filter     Filter
	Form       stepfit.Form // goes before a step's own; "" leaves it
	Spread     *int         // likewise; nil leaves it
	Confidence float64      // of every interval; 0 leaves it to the study
	Scatter    Scatter      // "" is OwnScatter
	Grouping   Grouping     // "" is AutoGrouping
}

// StepModel is the time model of one step.
type StepModel struct {
	Step       Step
	Readings   int // that count
	Voided     int
	FromMemory int            // of the readings, those judged rather than timed
	Model      *stepfit.Model // nil for a gap: neither reading nor estimate
	Grouping   Grouping       // what the model's random effect is of; NoGrouping without
	sums       stepfit.Sums
	kinds      kinds
	likeness   []likeness // what was found of each grouping that was tried
	kept       kept
}

// Gap says that the step was neither timed nor judged.
func (s StepModel) Gap() bool { return s.Model == nil }

// Judged says that the step's time is the grower's estimate alone.
func (s StepModel) Judged() bool { return s.Model != nil && s.Readings == 0 }

// Models are the time models of all steps of a study, from which every answer
// is worked out.
type Models struct {
	Study      Study
	Confidence float64
	Steps      []StepModel // in the study's order
	// The workers and the grows that readings name, whether or not the filter takes
	// them, in order of first appearance; no more than the first MostNames.
	Workers, Grows []string
	// The pooled coefficient of variation that steps without a spread of their
	// own borrow, and its degrees of freedom; 0 df where no step can lend.
	PooledCV, PooledDF float64

	index   map[string]int    // of a step by its name
	grown   map[string]*grown // the study's grows, by name
	again   Readings          // all that were gathered
	remarks []string          // said with every answer
	options Options
}

// StudyOf is a study for readings that have none: its steps in the order in
// which they first appear.
func StudyOf(readings []Reading) Study {
	study := Study{Confidence: DefaultConfidence}
	seen := map[string]bool{}
	for _, r := range readings {
		if !seen[r.Step] {
			seen[r.Step] = true
			study.Steps = append(study.Steps, Step{Name: r.Step})
		}
	}
	return study
}

// Fit fits every step of a study to readings that are at hand. Readings of a step
// that the study does not name are passed over: the readers refuse them beforehand.
func Fit(study Study, readings []Reading, o Options) *Models {
	g := Gather(&study, o)
	all := InMemory(readings)
	_ = all(g.Take) // nothing is read, and Take returns no error
	return g.Models(all)
}

// Setups is how many setups a reading of the step held: what it says, else as
// many as its count called for.
func (s Step) Setups(r Reading) float64 {
	if r.Setups.Known {
		return r.Setups.Value
	}
	return s.setupsFor(r.Count)
}

func (s *StepModel) choose(o Options) {
	switch {
	case s.Readings > 0:
		form, spread := stepfit.Form(s.Step.Form), s.Step.Spread
		if o.Form != "" {
			form = o.Form
		}
		if o.Spread != nil {
			spread = o.Spread
		}
		s.sums = s.kinds.sums()
		model := s.sums.Choose(stepfit.Options{Form: form, Spread: spread})
		s.Model = &model
		s.group(o.Grouping)
	case s.Step.Estimate != nil:
		s.Model = &stepfit.Model{Fit: s.Step.Estimate.fit()}
	}
}

func (j Judged) fit() stepfit.Fit {
	form := stepfit.Unit
	if j.OfVisit {
		form = stepfit.Setup
	}
	return stepfit.Judged(form, j.Mean(), j.SD())
}

// pool finds the coefficient of variation that the steps with a spread of
// their own share, √(Σ df·CV² / Σ df).
func (m *Models) pool() {
	var squares float64
	for _, s := range m.Steps {
		if s.Gap() {
			continue
		}
		if cv, ok := s.Model.CV(); ok {
			squares += s.Model.DF * cv * cv
			m.PooledDF += s.Model.DF
		}
	}
	if m.PooledDF > 0 {
		m.PooledCV = math.Sqrt(squares / m.PooledDF)
	}
}

// lend gives a step that has readings but no degree of freedom the pooled
// spread, or failing that the relative spread of its own estimate.
func (m *Models) lend(s *StepModel) {
	if s.Gap() || s.Model.Basis != stepfit.NoSpread {
		return
	}
	cv, df, basis := m.PooledCV, m.PooledDF, stepfit.Pooled
	if m.PooledDF == 0 {
		if s.Step.Estimate == nil {
			return
		}
		cv, df, basis = s.Step.Estimate.SD()/s.Step.Estimate.Mean(), math.Inf(1), stepfit.Guess
	}
	s.Model.Fit = s.Model.WithCV(cv, df, basis)
	if s.Model.Bracket != nil {
		other := s.Model.Bracket.WithCV(cv, df, basis)
		s.Model.Bracket = &other
	}
}

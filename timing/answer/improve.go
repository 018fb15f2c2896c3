package answer

import (
	"cmp"
	"math"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Improvement is where a workflow's hours go, what changes would save and what
// to time next.
type Improvement struct {
	Workflow    string       `json:"workflow"`
	Heads       int          `json:"heads"`
	Common      Common       `json:"common"`
	Hours       float64      `json:"hours_h"`
	Steps       []StepShare  `json:"steps"`
	Changes     []Saving     `json:"changes"`
	Made        []Made       `json:"made"`
	Together    *Saving      `json:"together,omitempty"` // the changes asked for, taken together
	TimeNext    []string     `json:"time_next"`
	Gaps        []string     `json:"gaps"`
	Notes       []string     `json:"notes"`
	Advice      []TimeAdvice `json:"-"` // how to time the steps of TimeNext
	MostlyGrows bool         `json:"-"` // how much grows differ is most of what is not known
	PaidFor     bool         `json:"-"` // there is a wage to turn hours into money
	PerHour     study.Maybe  `json:"-"` // what an hour costs
	Currency    string       `json:"-"`
	Gives       Harvest      `json:"-"`
}

// StepShare is one step's part of a workflow's hours, and of the uncertainty of
// their sum. All is unknown for a gap.
type StepShare struct {
	Step          string      `json:"step"`
	Class         study.Class `json:"class"`
	Rework        bool        `json:"rework"`
	Hours         study.Maybe `json:"hours_h"`
	Share         study.Maybe `json:"share"`
	Cumulative    study.Maybe `json:"cumulative_share"`
	VarianceShare study.Maybe `json:"variance_share"`
	SetupHours    study.Maybe `json:"-"` // what setup times contribute
	UnitHours     study.Maybe `json:"-"` // what unit times contribute
	Bracketed     bool        `json:"-"` // alike counts cannot tell setup and unit time apart: all is taken as unit
	Hygiene       bool        `json:"-"` // never to be saved on
}

// Saving is what a change would save in each grow, in person-hours of standard
// time. Payback is after how many heads its outlay has come back, where hours
// saved are paid for.
type Saving struct {
	Name        string      `json:"name"`
	Saved       study.Maybe `json:"saved_h"`
	Low         study.Maybe `json:"low_h"`
	High        study.Maybe `json:"high_h"`
	Payback     study.Maybe `json:"payback_heads"`
	PaybackLow  study.Maybe `json:"-"`
	PaybackHigh study.Maybe `json:"-"` // unknown where the saving may be nothing
	Outlay      study.Maybe `json:"-"`
	Steps       []string    `json:"-"`
	Hygiene     bool        `json:"-"` // touches a step that is never to be saved on
	// Open are its steps whose setup and unit time cannot be told apart, and how they could be.
	Open []TimeAdvice `json:"-"`
}

// TimeAdvice says how to time a step so that most is learnt.
type TimeAdvice struct {
	Step string
	How  string
}

// Improve says where the hours of one workflow go and what would change them:
// the one named, or the study's first where name is "". together names changes
// whose effect is also given taken together. The errors are those of Compare.
func (m *Models) Improve(name string, heads int, together []string) (Improvement, error) {
	w, err := m.Study.Workflow(name)
	if err != nil {
		return Improvement{}, err
	}
	visits := m.visits(w, float64(heads))
	loads := m.loads(visits)
	in := Improvement{
		Workflow: w.Name, Heads: heads, Common: m.common(),
		Hours: m.evaluate(workload{loads: loads}, asModelled).value * m.perHour(),
		Steps: m.stepShares(visits, loads), Changes: []Saving{},
		TimeNext: m.timeNext(visits, loads), MostlyGrows: m.mostlyGrows(loads),
		Gaps:  m.gaps(visits, func(int) bool { return true }),
		Notes: m.notes(w), Gives: harvest(m.Study, w, float64(heads)), Currency: m.Study.Currency,
	}
	if m.Study.Labour != nil {
		in.PerHour, in.PaidFor = study.Known(m.Study.Labour.PerHour()), true
	}
	in.Notes = append(in.Notes, m.asMuchHandled()...)
	if in.Made, err = m.madeOfChange(w.Name, heads); err != nil {
		return Improvement{}, err
	}
	for _, c := range m.Study.Changes {
		in.Changes = append(in.Changes, m.saving(c.Name, []study.Change{c}, loads, heads))
	}
	if len(together) > 0 {
		changes, err := m.Study.ChangesNamed(together)
		if err != nil {
			return Improvement{}, err
		}
		both := m.saving(study.Joined(together), changes, loads, heads)
		in.Together = &both
	}
	for _, step := range in.TimeNext {
		i := m.Index[step]
		in.Advice = append(in.Advice, TimeAdvice{step, m.howToTime(m.Steps[i], loads[i])})
	}
	return in, nil
}

func (m *Models) stepShares(visits []visit, loads linear) []StepShare {
	shares := []StepShare{}
	point := m.evaluate(workload{loads: loads}, asModelled)
	variance := point.mean.steps.variance
	for _, i := range inOrder(visits) {
		step := m.Study.Steps[i]
		s := StepShare{Step: step.Name, Class: cmp.Or(step.Class, study.Operation), Rework: step.Rework,
			Hygiene: slices.Contains(step.Hazards, study.Hygiene)}
		if model := m.Steps[i].Model; model != nil {
			hours, now := m.takes(i, loads[i]), m.AsItIs(i, loads[i])
			s.Hours, s.Share = study.Known(hours*m.perHour()), study.Known(hours/point.value)
			s.SetupHours = study.Known(model.At(stepfit.Load{Setups: now.Setups}) * m.perHour())
			s.UnitHours = study.Known(model.At(stepfit.Load{Count: now.Count}) * m.perHour())
			s.Bracketed = model.Bracket != nil
			if !point.mean.unknown {
				s.VarianceShare = study.Known(m.Steps[i].doubt.Variance(now) / variance)
			}
		}
		shares = append(shares, s)
	}
	slices.SortStableFunc(shares, func(a, b StepShare) int {
		if a.Hours.Known != b.Hours.Known {
			return cmp.Compare(b2i(b.Hours.Known), b2i(a.Hours.Known))
		}
		return cmp.Compare(b.Hours.Value, a.Hours.Value)
	})
	var sum float64
	for i := range shares {
		if shares[i].Share.Known {
			sum += shares[i].Share.Value
			shares[i].Cumulative = study.Known(sum)
		}
	}
	return shares
}

// factors are what changes make of the setup and unit times of each step: a
// load whose setups and count multiply those of the work. Changes of one step
// multiply each other.
func (m *Models) factors(changes []study.Change) linear {
	factors := make(linear, len(m.Steps))
	for i := range factors {
		factors[i] = stepfit.Load{Setups: 1, Count: 1}
	}
	for _, c := range changes {
		f := &factors[m.Index[c.Step]]
		if c.Drop {
			*f = stepfit.Load{}
			continue
		}
		f.Setups *= c.SetupFactor * study.Factor(c.VisitsFactor)
		f.Count *= c.UnitFactor * study.Factor(c.CountFactor)
	}
	return factors
}

// asMuchHandled asks of changes that only say how often a step is set up whether as much
// is handled in all.
func (m *Models) asMuchHandled() []string {
	var names []string
	for _, c := range m.Study.Changes {
		model := m.Steps[m.Index[c.Step]].Model
		if c.VisitsFactor.Known && !c.CountFactor.Known && !c.Drop && model != nil && model.At(stepfit.Load{Count: 1}) > 0 {
			names = append(names, c.Name)
		}
	}
	if names == nil {
		return nil
	}
	return []string{"is as much handled in all, in fewer visits (count_factor = 1, as it is reckoned), or less? Say count_factor in the change: " + shortList(names)}
}

// saving is what changes would save of a grow's work, factors taken as exact.
func (m *Models) saving(name string, changes []study.Change, loads linear, heads int) Saving {
	s := Saving{Name: name}
	factors := m.factors(changes)
	saved := loads.minus(loads.times(factors))
	for _, c := range changes {
		i := m.Index[c.Step]
		s.Steps = append(s.Steps, c.Step)
		s.Hygiene = s.Hygiene || slices.Contains(m.Study.Steps[i].Hazards, study.Hygiene)
		if c.Outlay.Known {
			s.Outlay = study.Known(s.Outlay.Value + c.Outlay.Value)
		}
		if m.Steps[i].isGap() && loads[i] != (stepfit.Load{}) {
			return s
		}
		if model := m.Steps[i].Model; model != nil && (model.Bracket != nil || model.Full != nil) {
			s.Open = append(s.Open, TimeAdvice{c.Step, m.howToTime(m.Steps[i], loads[i])})
		}
	}
	span := m.span(workload{loads: saved}).times(m.perHour())
	s.Saved, s.Low, s.High = study.Known(span.Value), span.Low, span.High
	if m.Study.Labour != nil {
		perHead := m.Study.Labour.PerHour() / float64(heads)
		// what rounding alone may leave of a time that is zero
		nothing := 1e-12 * abs(m.evaluate(workload{loads: loads}, asModelled).value) * m.perHour()
		payback := func(hours study.Maybe) study.Maybe {
			if !s.Outlay.Known || !hours.Known || hours.Value <= nothing {
				return study.Maybe{}
			}
			return study.Known(s.Outlay.Value / (hours.Value * perHead))
		}
		s.Payback, s.PaybackLow, s.PaybackHigh = payback(s.Saved), payback(s.High), payback(s.Low)
	}
	return s
}

// howToTime says what reading of a step would teach most of what a load takes.
func (m *Models) howToTime(s StepModel, load stepfit.Load) string {
	switch model := s.Model; {
	case model == nil:
		return "time it once, whatever the count"
	case s.isJudged():
		return "it was only judged: time it once, whatever the count"
	case s.alwaysOne():
		return `it is always one a visit: if that is all it can be, the study can say so: form = "setup"`
	case model.Bracket != nil:
		minCount, maxCount, _ := s.Sums.CountPerSetup()
		return "time it at a very different count (" + countText(minCount/2) + " or fewer, or " + countText(2*maxCount) + " or more), its setup alone, or in laps"
	case model.Form == stepfit.SetupUnit:
		return "time it again at " + s.tellingCount(load)
	default:
		return "time it again"
	}
}

// tellingCount is the end of the counts that were timed at which a reading tells most of a load, or both where
// they tell about as much. By a reading at x the variance of c'β falls by (c'Vx)²/(s²n^q + x'Vx), from the
// formula for adding a row (Cook and Weisberg, Residuals and Influence in Regression, 1982, section 2.2).
func (s StepModel) tellingCount(load stepfit.Load) string {
	f := s.doubt.Fit
	tells := func(count float64) float64 {
		x := stepfit.Load{Setups: 1, Count: count}
		shared := f.CovarianceOf(load, x)
		return shared * shared / (f.SD*f.SD*math.Pow(count, float64(f.Spread)) + f.Variance(x))
	}
	minCount, maxCount, _ := s.Sums.CountPerSetup()
	few, many := "the smallest count you do, "+countText(minCount)+" or fewer", "the largest count you do, "+countText(maxCount)+" or more"
	const about = 1.2
	switch small, large := tells(minCount), tells(maxCount); {
	case small > about*large:
		return few
	case large > about*small:
		return many
	}
	return few + ", or " + many
}

func countText(x float64) string { return words.InFull(math.Max(1, math.Round(x))) }

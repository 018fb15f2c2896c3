package answer

import (
	"fmt"
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// ChangeTrial is how many readings of a step would show what a change is hoped to save.
type ChangeTrial struct {
	Change   string      `json:"change"`
	Step     string      `json:"step"`
	Workflow string      `json:"workflow"`
	Heads    int         `json:"heads"`
	Before   study.Maybe `json:"before_h"`
	Saving   study.Maybe `json:"saving_h"`  // to be shown
	IsHoped  bool        `json:"hoped"`     // as hoped for; else a third of before_h
	Assured  float64     `json:"assurance"` // in so large a share of cases
	Done     int         `json:"readings_after"`
	Grows    study.Maybe `json:"grows_after"`  // further ones; unknown where none of up to MaxTrialGrows would do
	After    study.Maybe `json:"plan_after"`   // readings in them
	GrowsTo  study.Maybe `json:"grows_before"` // further ones before the change is made; 0 where it is made
	ToBefore study.Maybe `json:"plan_before"`  // readings in them
	Counts   []float64   `json:"counts"`       // of one grow's readings
	Notes    []string    `json:"notes"`

	// Dropped says that the change saves all of the step's time, which its readings before tell.
	Dropped bool `json:"-"`

	Made bool `json:"-"` // no reading before it can be taken any more
	Had  int  `json:"-"` // readings before it
	// Until is the day of the step's next change, after which no reading of this one can be
	// taken; "" where it has none.
	Until string `json:"-"`
	// Bracketed says that those before it do not tell its setup from its units.
	Bracketed bool `json:"-"`
}

// MaxTrialGrows is of how many further grows a trial is planned, on each side.
const MaxTrialGrows = 50

// What a trial is planned for: a third of the step's time where nothing was hoped for, to be
// shown in four cases of five.
const (
	usualSaving  = 1.0 / 3
	trialAssured = 0.8
	maxTrialled  = 20_000 // readings, which are all held in memory
)

// errLongTrial says that there are more readings than trials are planned for.
var errLongTrial = fmt.Errorf("a trial is planned of no more than %d readings: choose some of them, by the day or the grow", maxTrialled)

// PlanTrial plans how often to time a step after a change that was made, or before and after
// one that is a what-if, so that what it is hoped to save shows clearly. The errors are
// those of Improve, an UnknownName, errLongTrial or that of reading the readings again.
func (m *Models) PlanTrial(name, workflow string, heads int) (ChangeTrial, error) {
	c, alreadyMade, err := anyChange(m.Study, name)
	if err != nil {
		return ChangeTrial{}, err
	}
	w, err := m.Before.Workflow(workflow)
	if err != nil {
		return ChangeTrial{}, err
	}
	past := m.asWas()
	visits := slices.DeleteFunc(past.visits(w, float64(heads)), func(v visit) bool { return v.step != m.Index[c.Step] })
	t := ChangeTrial{Change: c.Name, Step: c.Step, Workflow: w.Name, Heads: heads, Assured: trialAssured, IsHoped: c.HasHoped || c.Drop, Counts: []float64{}, Notes: m.notes()}
	from, done, pending := m.trialStages(c, alreadyMade)
	t.Done, t.Made, t.Had = done, alreadyMade, past.Steps[from].Readings
	if alreadyMade {
		t.Until = m.until(c)
	}
	if past.Steps[from].isGap() || len(visits) == 0 {
		t.Notes = append(t.Notes, trialGap(c.Step, len(visits) == 0, w.Name))
		return t, nil
	}
	t.Bracketed = past.Steps[from].Model.Bracket != nil
	load := past.loads(visits)[m.Index[c.Step]].By(pending)
	takes := func(l stepfit.Load) float64 { return past.Steps[from].Model.At(l) }
	t.Before = study.Known(takes(load) * m.perHour())
	after := load.By(stepfit.Load{Setups: 1 - usualSaving, Count: 1 - usualSaving})
	if t.IsHoped {
		after = load.By(c.Hoped())
	}
	if c.Drop {
		after = stepfit.Load{}
	}
	t.Saving = study.Known((takes(load) - takes(after)) * m.perHour())
	for _, v := range visits {
		t.Counts = append(t.Counts, asTimed(v.countPerSetup()))
	}
	switch {
	case t.Saving.Value <= 0:
		t.Notes = append(t.Notes, "nothing is hoped to be saved that readings could show")
		return t, nil
	case c.Drop:
		t.Notes = append(t.Notes, "a step that is not done any more needs no timing after")
		spared := make(linear, len(past.Steps))
		spared[from] = load
		if low := past.span(workload{loads: spared}).Low; low.Known && low.Value > 0 {
			none := study.Known(0)
			t.Grows, t.After, t.GrowsTo, t.ToBefore = none, none, none, none
		}
		t.Dropped = true
		return t, nil
	}
	return t, m.searchTrial(&t, c, alreadyMade, visits, takes(after)/takes(load))
}

func trialGap(step string, notDone bool, workflow string) string {
	if notDone {
		return fmt.Sprintf("%s is no task of %s", step, words.Quote(workflow))
	}
	return step + " was not timed or judged before it: time it once, then ask again"
}

// trialStages is the step that a change starts from, how many readings there are since, and
// what changes before it that were not timed are hoped to make of the step's setups and units.
func (m *Models) trialStages(c study.MadeChange, alreadyMade bool) (from, done int, pending stepfit.Load) {
	step := m.Index[c.Step]
	if !alreadyMade {
		return step, 0, m.AsItIs(step, stepfit.Load{Setups: 1, Count: 1})
	}
	s := m.Stages[step]
	stage := slices.IndexFunc(s.Changes, func(i int) bool { return m.Study.Made[i].Name == c.Name })
	return s.At[stage], s.Readings[stage+1], s.Hoped[stage]
}

// anyChange is a change by its name, and whether it was made. The error is an UnknownName.
func anyChange(s study.Study, name string) (c study.MadeChange, alreadyMade bool, err error) {
	var names []string
	var all []study.MadeChange
	for _, c := range s.Made {
		names, all = append(names, c.Name), append(all, c)
	}
	for _, c := range s.Changes {
		names, all = append(names, c.Name), append(all, study.MadeChange{Change: c, HasHoped: true})
	}
	same, ok := study.SameName(name, names)
	if !ok {
		return study.MadeChange{}, false, study.UnknownName{Kind: "change", Name: name, Known: names}
	}
	i := slices.Index(names, same)
	return all[i], i < len(s.Made), nil
}

// searchTrial finds the fewest further grows that would show the saving: readings as the
// model expects them are put into the study, with scatter as its readings have it, and the
// interval of the saving is worked out as if they had been taken.
func (m *Models) searchTrial(t *ChangeTrial, c study.MadeChange, alreadyMade bool, visits []visit, ratio float64) error {
	p, err := m.newTrial(c, alreadyMade, visits, ratio)
	if err != nil {
		return err
	}
	before, after, ok := 0, 0, false
	if after, ok = p.fewest(trialAfter); !alreadyMade {
		if both, bothOK := p.fewest(trialBefore, trialAfter); bothOK && (!ok || 2*both < after) {
			before, after, ok = both, both, true
		}
	}
	if !ok {
		return nil
	}
	each := len(visits)
	t.Grows, t.After = study.Known(float64(after)), study.Known(float64(after*each))
	t.GrowsTo, t.ToBefore = study.Known(float64(before)), study.Known(float64(before*each))
	return nil
}

// trialPlan is a study in which a step stands apart before and after a change.
type trialPlan struct {
	now     *condense.Condensed
	options Options
	visits  []visit
	pending stepfit.Load // what changes that were not timed are hoped to make of what those before it say
	timed   []float64    // what each takes by those, basic seconds
	at      []float64    // what each takes before the change
	ratio   float64      // of the time after it
	cv      float64
	oneGrow bool // all readings before the change are of one grow
}

// Names of the step before and after, which no study has: names have no line ends.
const (
	trialBefore = "before\n"
	trialAfter  = "after\n"
)

func (m *Models) newTrial(c study.MadeChange, alreadyMade bool, visits []visit, ratio float64) (*trialPlan, error) {
	total := 0
	for i := range m.Steps {
		total += m.Steps[i].Readings
	}
	if total > maxTrialled {
		return nil, errLongTrial
	}
	from, _, pending := m.trialStages(c, alreadyMade)
	to := -1
	if alreadyMade {
		s := m.Stages[m.Index[c.Step]]
		stage := slices.IndexFunc(s.Changes, func(i int) bool { return m.Study.Made[i].Name == c.Name })
		if s.Readings[stage+1] > 0 {
			to = s.At[stage+1]
		}
	}
	model := m.Steps[from]
	p := &trialPlan{options: m.options, visits: visits, pending: pending, ratio: ratio, cv: m.lending.cv()}
	p.options.Filter = condense.Filter{}
	if grows, _ := model.Kinds.Tallies(byGrow.nameIn); alreadyMade && len(grows) == 1 && grows[0] != "" {
		p.oneGrow = true
	}
	if cv, ok := model.doubt.CV(); ok && cv > 0 {
		p.cv = cv
	}
	apart := study.Study{Confidence: m.Confidence, Allowance: m.Study.Allowance}
	step := m.Study.Steps[m.Index[c.Step]]
	for _, name := range []string{trialBefore, trialAfter} {
		step.Name = name
		apart.Steps = append(apart.Steps, step)
	}
	for i := range m.Steps {
		if i != from && i != to && !(m.Steps[i].isGap()) {
			other := m.Steps[i].Step
			other.Name = fmt.Sprintf("%d\n", i)
			apart.Steps = append(apart.Steps, other)
		}
	}
	for _, v := range visits {
		load := stepfit.Load{Setups: 1, Count: v.countPerSetup()}
		p.timed, p.at = append(p.timed, model.Model.At(load)), append(p.at, model.Model.At(load.By(pending)))
	}
	var readings []study.Reading
	err := m.Each(func(i int, b *condense.Batch, row int) {
		r := b.Rows.At(row)
		t := b.Timed(&m.Steps[i].Step, r)
		name := fmt.Sprintf("%d\n", i)
		if i == from {
			name = trialBefore
		} else if i == to {
			name = trialAfter
		}
		readings = append(readings, study.Reading{
			Step: name, Grow: b.Name(r, condense.GrowNames), Worker: b.Name(r, condense.WorkerNames), People: 1, Rating: 100,
			Count: t.Count, Setups: study.Known(t.Setups), Seconds: t.Seconds, Source: study.Watch,
		})
	})
	p.now = Fit(apart, readings, p.options).Condensed
	return p, err
}

// gain is how sure the saving is with so many further grows after the change among what was
// taken in: what is to be shown over its standard error, less what an interval and its
// assurance take of that.
func (p *trialPlan) gain(c *condense.Condensed, after int) float64 {
	m := NewModels(c, p.options)
	if m.Steps[0].isGap() || m.Steps[1].isGap() {
		return math.Inf(-1)
	}
	l := make(linear, len(m.Steps))
	var time, saved float64
	for i, v := range p.visits {
		time += p.at[i] * v.load().Setups
		l[0], l[1] = l[0].Plus(v.load().By(p.pending)), l[1].Plus(stepfit.Load{Setups: -v.load().Setups, Count: -v.load().Count})
		saved += p.at[i] * v.load().Setups * (1 - p.ratio)
	}
	return p.sure(m, l, time, saved, after)
}

// sure is the least, over the settings of bracketed steps, of a saving in standard errors
// beyond what is needed: as far as a setting makes the answer smaller, less is left to show.
func (p *trialPlan) sure(m *Models, l linear, before, saved float64, after int) float64 {
	minimum, modelled := math.Inf(1), m.evaluate(workload{loads: l}, asModelled).value
	for _, s := range []setting{smaller, larger} {
		o := m.evaluate(workload{loads: l}, s)
		left := saved - max(0, modelled-o.value)
		variance, df := o.mean.total()
		if o.mean.unknown || !(df > 0) {
			return math.Inf(-1)
		}
		if p.oneGrow && m.options.Grouping != NoGrouping && m.effect.none() {
			// further grows will tell how much grows differ, and one before the change never does
			variance += assumedGrowSD * assumedGrowSD * (before*before + (before-saved)*(before-saved)/float64(max(after, 1)))
			df = min(df, float64(max(after, growsAlone)))
		}
		needed := stepfit.Quantile(m.Confidence, df) + stepfit.Quantile(2*trialAssured-1, df)
		minimum = min(minimum, left/math.Sqrt(variance)-needed)
	}
	return minimum
}

// fewest is the fewest further grows that would show the saving, in each of which the step
// before the change, after it or either is timed; false where none of up to MaxTrialGrows
// would.
func (p *trialPlan) fewest(steps ...string) (grows int, ok bool) {
	c := p.now
	for grows = range MaxTrialGrows + 1 {
		if p.gain(c, grows) >= 0 {
			return grows, true
		}
		var further []study.Reading
		for _, step := range steps {
			for i := range p.visits {
				further = append(further, p.expected(step, grows, i))
			}
		}
		c = c.With(further)
	}
	return 0, false
}

// expected is the reading of a visit in a further grow: as long as the model expects, a
// standard deviation more or less by turns.
func (p *trialPlan) expected(step string, grow, i int) study.Reading {
	seconds := p.timed[i]
	if step == trialAfter {
		seconds = p.at[i] * p.ratio
	}
	sign := float64(1 - 2*((grow+i)%2))
	return study.Reading{
		Step: step, Grow: fmt.Sprintf("%s%d", step, grow), People: 1, Rating: 100, Source: study.Watch,
		Count: p.visits[i].countPerSetup(), Setups: study.Known(1), Seconds: seconds * (1 + sign*p.cv),
	}
}

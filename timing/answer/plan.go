package answer

import (
	"errors"
	"math"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Plan is the further readings that would bring an answer to a goal: the hours of a
// workflow, or how much longer another takes. Hours are person-hours of standard
// time; a half width is the longer arm of an interval, or the one towards zero where
// the goal is a clear difference.
type Plan struct {
	Workflow string      `json:"workflow"`
	Other    *string     `json:"other"` // nil where the hours of one are in question
	Heads    int         `json:"heads"`
	Goal     Goal        `json:"goal"`
	Within   study.Maybe `json:"within"` // share of the hours, of GoalWithin
	Hours    float64     `json:"hours_h"`
	Now      study.Maybe `json:"now_half_width_h"`     // unknown for want of a scatter
	Reached  study.Maybe `json:"reached_half_width_h"` // with the planned readings
	Meets    bool        `json:"reached"`              // that meets the goal
	// Readings are in the order in which they are first called for, steps that were
	// never timed first.
	Readings []PlannedReadings `json:"plan"`
	// FurtherGrows is in how many grows that are yet to come some of the readings are to be
	// taken: one of every step in each.
	FurtherGrows int `json:"further_grows"`
	// WorthMore says which narrows the answer more, reading by reading; "" where grows are
	// not known to differ.
	WorthMore Worth      `json:"worth_more"`
	Gaps      []string   `json:"gaps"`
	Notes     []string   `json:"notes"`
	Steps     []StepNeed `json:"steps"`

	Low, High study.Maybe `json:"-"` // limits of Hours now
}

// Worth is what kind of reading tells more.
type Worth string

// The kinds of readings.
const (
	WorthGrow    Worth = "another grow"
	WorthReading Worth = "another reading"
)

// Goal is what the readings of a plan are to bring.
type Goal string

// The goals of a plan.
const (
	GoalWithin Goal = "within" // a half width of so large a share of the answer
	GoalClear  Goal = "clear"  // a difference whose interval leaves out zero
)

// PlannedReadings are readings of one step at one count. A count of 0 is getting
// ready alone.
type PlannedReadings struct {
	Step     string  `json:"step"`
	Count    float64 `json:"count"`
	Setups   float64 `json:"setups"`
	Readings int     `json:"readings"`
	Gap      bool    `json:"-"` // of a step that was never timed
}

// StepNeed is how many readings in all one step by itself would need for ± a share of
// its mean time, were its readings to vary by CV: by Student's t, unknown where it has
// no scatter, and by the handbooks' formula, see stepfit.CyclesNeeded.
type StepNeed struct {
	Step     string  `json:"step"`
	Readings int     `json:"readings"`
	CV       float64 `json:"cv"`
	Assumed  bool    `json:"assumed"` // nothing is known of how much it varies
	ByT      *int    `json:"readings_by_t"`
	Handbook int     `json:"readings_by_handbook"`
	Share    float64 `json:"within"`
}

// MaxPlanned is the most readings that a plan goes up to.
const MaxPlanned = 200

// usualWithin is how well hours are to be known where nobody says otherwise, and
// each step by itself where the goal is a clear difference.
const usualWithin = 0.10

// ErrTwoWorkflows says that a plan was asked for more than two workflows.
var ErrTwoWorkflows = errors.New("a plan is for one workflow, or for the difference of two")

// Plan finds readings that bring an answer to ± within of itself. No names mean the
// study's first workflow, one name its hours, two the hours of the second less the
// first's; for these a within of 0 asks for a clear difference. The errors are those
// of Compare, and ErrTwoWorkflows.
func (m *Models) Plan(names []string, heads int, within float64) (Plan, error) {
	return m.plan(names, heads, within, sureness)
}

// plan is Plan, to be met in so large a share of cases; 0 plans as if the scatter were known.
func (m *Models) plan(names []string, heads int, within, sure float64) (Plan, error) {
	workflows, err := m.Study.Choose(names)
	if err != nil {
		return Plan{}, err
	}
	if len(names) == 0 {
		workflows = workflows[:1]
	}
	if len(workflows) > 2 {
		return Plan{}, ErrTwoWorkflows
	}
	visits := m.visits(workflows[0], float64(heads))
	loads := m.loads(visits)
	plan := Plan{
		Workflow: workflows[0].Name, Heads: heads, Goal: GoalWithin, Within: study.Known(within),
		Readings: []PlannedReadings{}, Notes: m.notes(),
	}
	if len(workflows) == 1 && within == 0 {
		within = usualWithin
		plan.Within = study.Known(within)
	}
	if len(workflows) == 2 {
		other := m.visits(workflows[1], float64(heads))
		loads, visits = m.loads(other).minus(loads), append(visits, other...)
		plan.Other = &workflows[1].Name
		if within == 0 {
			plan.Goal, plan.Within = GoalClear, study.Maybe{}
		}
	}
	matters := func(i int) bool { return loads[i] != stepfit.Load{} }
	plan.Gaps = m.gaps(visits, matters)
	for _, i := range inOrder(visits) {
		if m.Steps[i].isGap() && matters(i) {
			plan.Readings = append(plan.Readings, PlannedReadings{
				Step: m.Study.Steps[i].Name, Count: asTimed(m.needed(i, visits).maxCount), Setups: 1, Readings: 1, Gap: true,
			})
		}
	}
	f := m.newForecast(visits, loads, plan.Goal, within)
	f.single, f.sure = len(workflows) == 1, sure
	f.fill(&plan)
	return plan, nil
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

// stepNeeds are the steps of a forecast one by one.
func (f *forecast) stepNeeds(share float64) []StepNeed {
	needs := []StepNeed{}
	z := stepfit.Quantile(f.models.Confidence, math.Inf(1))
	for _, i := range f.steps {
		s := f.models.Steps[i]
		p := f.prospects[i]
		need := StepNeed{
			Step: s.Step.Name, Readings: s.Readings, CV: p.cv, Assumed: p.assumed, Share: share,
			Handbook: int(math.Ceil(stepfit.CyclesNeeded(p.cv, share, z))),
		}
		if !s.isJudged() && !s.doubt.unknown {
			if n, ok := s.doubt.ReadingsFor(share, f.models.Confidence, f.models.lending.worth); ok {
				need.ByT = &n
			}
		}
		needs = append(needs, need)
	}
	return needs
}

// rows are the planned readings by step and count, in order of first call.
func (f *forecast) rows() []PlannedReadings {
	rows := []PlannedReadings{}
	for _, c := range f.planned {
		name := f.models.Study.Steps[c.step].Name
		at := slices.IndexFunc(rows, func(r PlannedReadings) bool {
			return r.Step == name && r.Count == c.load.Count && r.Setups == c.load.Setups
		})
		if at < 0 {
			at = len(rows)
			rows = append(rows, PlannedReadings{Step: name, Count: c.load.Count, Setups: c.load.Setups})
		}
		rows[at].Readings++
	}
	return rows
}

package answer

import (
	"errors"
	"math"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// The goals of a plan.
const (
	GoalWithin Goal = "within" // a half width of so large a share of the answer
	GoalClear  Goal = "clear"  // a difference whose interval leaves out zero
)

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

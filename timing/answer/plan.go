package answer

import (
	"errors"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
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
	plan.Simpler, err = m.simplerPlan(plan, names, heads, within, sure)
	return plan, err
}

// simplerPlan is a plan's readings were its steps that are always counted as one all setup; nil
// where it has none such. The errors are those of Compare.
func (m *Models) simplerPlan(plan Plan, names []string, heads int, within, sure float64) (*SimplerPlan, error) {
	var steps []string
	for _, r := range plan.Readings {
		if i := m.Index[r.Step]; !r.Gap && m.Steps[i].alwaysOne() && !slices.Contains(steps, r.Step) {
			steps = append(steps, r.Step)
		}
	}
	if steps == nil {
		return nil, nil
	}
	simpler, err := m.allSetup(steps).plan(names, heads, within, sure)
	return &SimplerPlan{Steps: steps, Readings: simpler.timings(), Meets: simpler.Meets}, err
}

// allSetup is the same models but for some steps, whose form is setup.
func (m *Models) allSetup(steps []string) *Models {
	c := *m.Condensed
	c.Steps, c.Study.Steps = slices.Clone(c.Steps), slices.Clone(c.Study.Steps)
	for _, name := range steps {
		i := m.Index[name]
		c.Steps[i].Step.Form, c.Study.Steps[i].Form = string(stepfit.Setup), string(stepfit.Setup)
	}
	return NewModels(&c, m.options).WithRemarks(m.remarks...)
}

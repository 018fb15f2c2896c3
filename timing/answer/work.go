package answer

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// visits are the doings of a workflow's tasks for a number of heads, in the
// order of the tasks; what there is nothing to do of is left out. A grow meets its like:
// those sown as often as the study says.
func (m *Models) visits(w study.Workflow, heads float64) []visit {
	return m.visitsEvery(w, heads, m.Study.SowEveryDays)
}

// visitsEvery are the visits of a grow among others sown so many days apart; 0 is one
// alone.
func (m *Models) visitsEvery(w study.Workflow, heads float64, every int) []visit {
	counts := m.Study.Propagation(w).Counts()
	var visits []visit
	for _, task := range w.Tasks {
		i, shared := m.Index[task.Step], float64(task.SharedBy)
		for _, day := range task.Days {
			count := task.Each * counts.Count(task.Count, day, heads)
			if count < study.NothingToDo {
				continue
			}
			whole := m.Study.Steps[i].LoadFor(shared * count)
			visits = append(visits, visit{step: i, day: day, count: count, whole: whole, sharedBy: shared, joint: m.Study.Steps[i].Together})
		}
	}
	m.meet(visits, every)
	return visits
}

// loads adds up what visits ask of each step.
func (m *Models) loads(visits []visit) linear {
	l := make(linear, len(m.Steps))
	for _, v := range visits {
		l.add(v.step, v.load())
	}
	return l
}

// straight is the work of a workflow as a straight line in the heads, fixed +
// perHead × heads. Where visits rounds up, half a unit is added instead, which
// is what rounding up adds on average.
func (m *Models) straight(w study.Workflow) (fixed, perHead linear) {
	counts := m.Study.Propagation(w).Counts()
	fixed, perHead = make(linear, len(m.Steps)), make(linear, len(m.Steps))
	for _, task := range w.Tasks {
		i, shared := m.Index[task.Step], float64(task.SharedBy)
		if m.Study.Steps[i].Together {
			continue
		}
		covers := m.Study.Steps[i].SetupCovers
		for _, day := range task.Days {
			count := counts.Linear(task.Count, day)
			count.Fixed *= task.Each
			count.PerHead *= task.Each
			grows := count.PerHead >= study.NothingToDo
			switch {
			case !grows && count.Fixed < study.NothingToDo:
				continue
			case covers == 0 || !grows:
				setups := m.Study.Steps[i].SetupsFor(shared * count.Fixed)
				fixed.add(i, stepfit.Load{Setups: setups / shared})
			default:
				fixed.add(i, stepfit.Load{Setups: (shared*count.Fixed/covers + 0.5) / shared})
				perHead.add(i, stepfit.Load{Setups: count.PerHead / covers})
			}
			fixed.add(i, stepfit.Load{Count: count.Fixed})
			perHead.add(i, stepfit.Load{Count: count.PerHead})
		}
	}
	m.straightTogether(w, counts, fixed, perHead)
	return fixed, perHead
}

// gaps names the steps of visits that are neither timed nor judged, of those
// that matter.
func (m *Models) gaps(visits []visit, matters func(step int) bool) []string {
	return m.names(visits, func(i int) bool { return m.Steps[i].isGap() && matters(i) })
}

func (m *Models) names(visits []visit, wanted func(step int) bool) []string {
	names := []string{}
	for _, i := range inOrder(visits) {
		if wanted(i) {
			names = append(names, m.Study.Steps[i].Name)
		}
	}
	return names
}

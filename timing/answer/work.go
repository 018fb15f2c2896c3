package answer

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// visit is one doing of a task on one day, for one grow.
type visit struct {
	step     int // in the study's order
	day      int
	count    float64      // of this grow
	whole    stepfit.Load // of the whole doing, all grows that share it together
	sharedBy float64      // grows that share it; of a joint doing, the doing's count over this one
	joint    bool         // with all that falls on one day
}

// load is what this grow bears of the doing.
func (v visit) load() stepfit.Load {
	return stepfit.Load{Setups: v.whole.Setups / v.sharedBy, Count: v.count}
}

// countPerSetup is how much one setup of the doing serves.
func (v visit) countPerSetup() float64 { return v.whole.Count / v.whole.Setups }

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

// linear is a linear form in the setup and unit times of the study's steps: a
// load for each, in the study's order.
type linear []stepfit.Load

// loads adds up what visits ask of each step.
func (m *Models) loads(visits []visit) linear {
	l := make(linear, len(m.Steps))
	for _, v := range visits {
		l.add(v.step, v.load())
	}
	return l
}

func (l linear) add(step int, load stepfit.Load) {
	l[step] = l[step].Plus(load)
}

// minus is l − o. A coefficient that is only what rounding leaves of two equal
// ones is zero, so that what two workflows share cancels exactly.
func (l linear) minus(o linear) linear {
	d := make(linear, len(l))
	for i := range l {
		d[i] = stepfit.Load{
			Setups: difference(l[i].Setups, o[i].Setups),
			Count:  difference(l[i].Count, o[i].Count),
		}
	}
	return d
}

func difference(a, b float64) float64 {
	if d := a - b; abs(d) >= 1e-9*max(abs(a), abs(b)) {
		return d
	}
	return 0
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

// plus is l + f·o.
func (l linear) plus(o linear, f float64) linear {
	sum := make(linear, len(l))
	for i := range l {
		sum[i] = l[i].Plus(o[i].Times(f))
	}
	return sum
}

// times is l with each step's load multiplied by a factor of its own for setups
// and counts.
func (l linear) times(factors linear) linear {
	product := make(linear, len(l))
	for i := range l {
		product[i] = l[i].By(factors[i])
	}
	return product
}

// inOrder lists the steps of visits, each once, in order of first use.
func inOrder(visits []visit) []int {
	var steps []int
	seen := map[int]bool{}
	for _, v := range visits {
		if !seen[v.step] {
			seen[v.step] = true
			steps = append(steps, v.step)
		}
	}
	return steps
}

// gaps names the steps of visits that are neither timed nor judged, of those
// that matter.
func (m *Models) gaps(visits []visit, matters func(step int) bool) []string {
	return m.names(visits, func(i int) bool { return m.Steps[i].isGap() && matters(i) })
}

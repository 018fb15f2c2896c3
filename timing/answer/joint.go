package answer

import (
	"slices"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// meeting is what falls on one day of a joint step: its day, or of grows that are sown
// every so many days the day within their round.
type meeting struct{ step, day int }

// meetingOf is the meeting of a day of a step, of grows so many days apart.
func meetingOf(step, day, every int) meeting {
	if every > 0 {
		day %= every
	}
	return meeting{step, day}
}

// meet makes one doing of all visits of a joint step that fall on one day: with grows
// sown every so many days those whose days are alike within a round, which are of
// several grows met on one day. Its setups are shared out by count.
func (m *Models) meet(visits []visit, every int) {
	var sums map[meeting]float64
	for _, v := range visits {
		if v.joint {
			if sums == nil {
				sums = map[meeting]float64{}
			}
			sums[meetingOf(v.step, v.day, every)] += v.count
		}
	}
	for i, v := range visits {
		if v.joint {
			sum := sums[meetingOf(v.step, v.day, every)]
			visits[i].whole = m.Study.Steps[v.step].LoadFor(sum)
			visits[i].sharedBy = sum / v.count
		}
	}
}

// jointVisits adds the doings of joint steps: the visits of one day bear, of the doing's
// scatter, the square of their share of its count.
func jointVisits(again map[int][]stepfit.Visit, visits []visit) {
	shares := map[meeting]float64{}
	for _, v := range visits {
		if v.joint {
			shares[meeting{v.step, v.day}] += v.count / v.whole.Count
		}
	}
	for _, v := range visits {
		at := meeting{v.step, v.day}
		if share, ok := shares[at]; v.joint && ok {
			again[v.step] = append(again[v.step], stepfit.Visit{Load: v.whole, SharedBy: 1 / share})
			delete(shares, at)
		}
	}
}

// straightTogether adds the joint steps of a workflow to its straight line: a doing's
// setups once a doing, half a one added where they would be rounded up.
func (m *Models) straightTogether(w study.Workflow, counts crop.Counts, fixed, perHead linear) {
	sums := map[meeting]crop.Amount{}
	var order []meeting
	for _, task := range w.Tasks {
		i := m.Index[task.Step]
		if !m.Study.Steps[i].Together {
			continue
		}
		for _, day := range task.Days {
			count := counts.Linear(task.Count, day)
			count = crop.Amount{Fixed: count.Fixed * task.Each, PerHead: count.PerHead * task.Each}
			if count.Fixed < study.NothingToDo && count.PerHead < study.NothingToDo {
				continue
			}
			at := meetingOf(i, day, m.Study.SowEveryDays)
			sum, ok := sums[at]
			if !ok {
				order = append(order, at)
			}
			sums[at] = crop.Amount{Fixed: sum.Fixed + count.Fixed, PerHead: sum.PerHead + count.PerHead}
		}
	}
	for _, at := range order {
		sum, covers := sums[at], m.Study.Steps[at.step].SetupCovers
		fixed.add(at.step, stepfit.Load{Count: sum.Fixed})
		perHead.add(at.step, stepfit.Load{Count: sum.PerHead})
		if covers == 0 || sum.PerHead < study.NothingToDo {
			fixed.add(at.step, stepfit.Load{Setups: m.Study.Steps[at.step].SetupsFor(sum.Fixed)})
			continue
		}
		fixed.add(at.step, stepfit.Load{Setups: sum.Fixed/covers + 0.5})
		perHead.add(at.step, stepfit.Load{Setups: sum.PerHead / covers})
	}
}

// joinsChores says that a step is joint and has chores, which join its doings.
func (m *Models) joinsChores(step int) bool {
	return m.Study.Steps[step].Together && slices.ContainsFunc(m.Study.Chores, func(c study.Chore) bool { return m.Index[c.Step] == step })
}

// maxMeeting bounds the days over which chores and grows of a joint step are laid
// out to find their mean: beyond it the mean no longer moves by a millionth.
const maxMeeting = 1_000_000

// meanDay is what a joint step asks of a day on average, where grows sown every so many
// days meet chores of the same step.
func (m *Models) meanDay(step int, visits []visit, every int) stepfit.Load {
	counts := map[int]float64{} // by the day within a round
	for _, v := range visits {
		if v.step == step {
			counts[v.day%every] += v.count
		}
	}
	period := every
	for _, c := range m.Study.Chores {
		if m.Index[c.Step] == step {
			period = min(period/gcd(period, c.EveryDays)*c.EveryDays, maxMeeting)
		}
	}
	var sum stepfit.Load
	for day := range period {
		count := counts[day%every]
		for _, c := range m.Study.Chores {
			if m.Index[c.Step] == step && day%c.EveryDays == 0 {
				count += c.Count
			}
		}
		if count >= study.NothingToDo {
			sum = sum.Plus(m.Study.Steps[step].LoadFor(count))
		}
	}
	return stepfit.Load{Setups: sum.Setups / float64(period), Count: sum.Count / float64(period)}
}

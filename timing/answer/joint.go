package answer

import (
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

// maxMeeting bounds the days over which chores and grows of a joint step are laid
// out, whole weeks: beyond it their mean no longer moves by a millionth.
const maxMeeting = 999_999

// weekLoads is what a step asks of the weekdays of a steady week, Monday first where the
// first day has a weekday.
type weekLoads []stepfit.Load

// jointWeeks gives the joint steps of a schedule their weeks. All that falls on a day or is
// moved to it, of grows and chores, is one doing.
func (p daysPlan) jointWeeks() map[int]weekLoads {
	weeks := map[int]weekLoads{}
	for _, step := range p.steps {
		if p.models.Study.Steps[step].Together {
			weeks[step] = p.jointWeek(step)
		}
	}
	return weeks
}

func (p daysPlan) jointWeek(step int) weekLoads {
	counts := map[int]float64{} // by the day within a round
	for _, v := range p.visits {
		if v.step == step {
			counts[v.day%p.every] += v.count
		}
	}
	var chores []study.Chore
	period := p.every / gcd(p.every, 7) * 7
	for _, c := range p.models.Study.Chores {
		if p.models.Index[c.Step] == step {
			chores = append(chores, c)
			period = min(period/gcd(period, c.EveryDays)*c.EveryDays, maxMeeting)
		}
	}
	week := make(weekLoads, 7)
	waiting, first := 0.0, p.rest.next(0)+1 // the last day is one to work on
	for day := first; day < first+period; day++ {
		waiting += counts[day%p.every]
		for _, c := range chores {
			if day%c.EveryDays == 0 {
				waiting += c.Count
			}
		}
		if waiting < study.NothingToDo || p.rest.off(day) {
			continue
		}
		weekday := p.rest.weekday(day)
		week[weekday] = week[weekday].Plus(p.models.Study.Steps[step].LoadFor(waiting))
		waiting = 0
	}
	for weekday, load := range week {
		week[weekday] = load.Times(7 / float64(period))
	}
	return week
}

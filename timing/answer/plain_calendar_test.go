package answer_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestCalendarBySecondWay(t *testing.T) {
	forCases(t, 60, func(t *testing.T, p *plain) {
		w := p.study.Workflows[0]
		for _, every := range []int{-1, 0, 3, 7} {
			ask := answer.Schedule{Workflow: w.Name, Heads: p.heads, Every: &every}
			n := every
			if every < 0 {
				ask.Every, n = nil, p.study.SowEveryDays
			}
			got, err := p.models().Calendar(ask)
			require.NoError(t, err)
			sameJSON(t, p.calendar(w, n), got, "calendar")
		}
	})
}

// aPiece is what a grow's task, or a chore (grow −1), asks for on a day.
type aPiece struct {
	grow, step int
	setups     float64 // where its step is done for itself
	count      float64
}

// aDay is pieces of work by day.
type aDay map[int][]aPiece

// plan puts a grow's tasks down on the days after its start.
func (p *plain) plan(days aDay, grow int, w study.Workflow, heads float64, start int) {
	g := p.growing(w)
	for _, t := range w.Tasks {
		i := p.index(t.Step)
		for _, day := range t.Days {
			if count := g.whole(t.Count, day, heads) * t.Each; count >= 1e-9 {
				n := float64(t.SharedBy)
				days[start+day] = append(days[start+day], aPiece{grow, i, setupsFor(p.steps[i].Step, n*count) / n, count})
			}
		}
	}
}

// planChores puts chores down on the days up to last.
func (p *plain) planChores(days aDay, last int) {
	for _, c := range p.study.Chores {
		l := p.choreLoad(c)
		for day := 0; day <= last; day += c.EveryDays {
			days[day] = append(days[day], aPiece{-1, l.step, l.setups, l.count})
		}
	}
}

// meet joins what falls on one day of steps that are done together: their setups are those
// of one doing, shared out by count.
func (p *plain) meet(pieces []aPiece) []aPiece {
	sums := map[int]float64{}
	for _, x := range pieces {
		sums[x.step] += x.count
	}
	met := slices.Clone(pieces)
	for i := range met {
		if x := &met[i]; p.steps[x.step].Together {
			x.setups = setupsFor(p.steps[x.step].Step, sums[x.step]) * x.count / sums[x.step]
		}
	}
	return met
}

// hoursOf are the hours of pieces of work, gaps being nothing.
func (p *plain) hoursOf(pieces []aPiece) (sum float64) {
	for _, x := range pieces {
		if !p.answering(x.step).gap {
			sum += p.stepHours(aLoad{step: x.step, setups: x.setups, count: x.count})
		}
	}
	return sum
}

// inOrder are the steps of a way and then of chores, in order of first use by anything that
// is done.
func (p *plain) inOrder(w study.Workflow, chores bool) (steps []int) {
	visits, _ := p.visits(w, float64(p.heads), 0)
	steps = order(loads(visits))
	for _, c := range p.study.Chores {
		if i := p.index(c.Step); chores && !slices.Contains(steps, i) {
			steps = append(steps, i)
		}
	}
	return steps
}

func (p *plain) calendar(w study.Workflow, n int) tree {
	last, round := 0, n
	visits, _ := p.visits(w, float64(p.heads), 0)
	for _, v := range visits {
		last = max(last, v.day)
	}
	days := aDay{}
	if n == 0 {
		p.plan(days, 0, w, float64(p.heads), 0)
	} else {
		for _, c := range p.study.Chores {
			round = lcm(round, c.EveryDays)
		}
		round = min(round, 364)
		for start := 0; start <= last+round-1; start += n {
			p.plan(days, start, w, float64(p.heads), start)
		}
		p.planChores(days, last+round-1)
	}
	steps, rows, peak := p.inOrder(w, n > 0), []any{}, math.Inf(-1)
	for day := 0; day < last+max(round, 1); day++ {
		pieces := p.meet(days[day])
		if len(pieces) == 0 {
			continue
		}
		tasks := []any{}
		for _, i := range steps {
			var l aLoad
			for _, x := range pieces {
				if x.step == i {
					l = aLoad{i, 1, l.setups + x.setups, l.count + x.count}
				}
			}
			if l.visits > 0 {
				tasks = append(tasks, tree{"step": p.steps[i].Name, "count": l.count, "hours_h": known(!p.answering(i).gap, p.stepHours(l))})
			}
		}
		peak = max(peak, p.hoursOf(pieces))
		rows = append(rows, tree{"day": day, "hours_h": p.hoursOf(pieces), "tasks": tasks})
	}
	row := tree{"workflow": w.Name, "heads": p.heads, "every_days": known(n > 0, float64(n)), "days": rows, "peak_day_h": max(peak, 0),
		"steady_week_h": nil, "heads_per_week": nil, "gaps": p.gapsOf(steps)}
	if len(rows) > 0 {
		row["peak_day_h"] = peak
	}
	if n > 0 {
		row["steady_week_h"], row["heads_per_week"] = p.steadyWeek(w, n, last), 7*float64(p.heads)/float64(n)
	}
	return row
}

// steadyWeek walks the days of a round, late enough that as many grows end as begin.
func (p *plain) steadyWeek(w study.Workflow, n, last int) (sum float64) {
	for _, hours := range p.weekdays(w, n, last, answer.Rest{}) {
		sum += hours
	}
	return sum
}

// weekdays are the hours of such a round by weekday, of a week on average; what falls on a
// day off waits for the next that is none.
func (p *plain) weekdays(w study.Workflow, n, last int, rest answer.Rest) [7]float64 {
	round := lcm(7, n)
	for _, c := range p.study.Chores {
		round = lcm(round, c.EveryDays)
	}
	days := aDay{}
	from := last/7*7 + 14
	for start := 0; start < from+round; start += n {
		p.plan(days, start, w, float64(p.heads), start)
	}
	p.planChores(days, from+round-1)
	var week [7]float64
	for day := 0; day < from+round; day++ {
		weekday := time.Weekday((day + 1) % 7) // the first is a Monday
		if slices.Contains(rest.Off, weekday) {
			days[day+1] = append(days[day+1], days[day]...)
		} else if day >= from-7 && day < from+round-7 {
			week[day%7] += p.hoursOf(p.meet(days[day])) * 7 / float64(round)
		}
	}
	return week
}

// What the weekdays take comes to the steady week, and all that falls on one day of a joint
// step, of grows and chores and of days off before it, is one doing.
func TestWeekdaysBySecondWay(t *testing.T) {
	weekend := answer.Rest{Start: firstDay, Off: []time.Weekday{time.Saturday, time.Sunday}}
	require.Equal(t, time.Monday, firstDay.Weekday())
	forCases(t, 60, func(t *testing.T, p *plain) {
		w := p.study.Workflows[0]
		visits, _ := p.visits(w, float64(p.heads), 0)
		last := 0
		for _, v := range visits {
			last = max(last, v.day)
		}
		for _, every := range []int{2, 7, 14} {
			for _, rest := range []answer.Rest{{}, weekend} {
				got, err := p.models().Calendar(answer.Schedule{Workflow: w.Name, Heads: p.heads, Every: &every, Rest: rest})
				require.NoError(t, err)
				week, sum := p.weekdays(w, every, last, rest), 0.0
				for weekday, hours := range got.Weekdays {
					sum += hours
					require.InDelta(t, week[weekday], hours, 1e-9*(1+abs(hours)), "weekday %d, every %d, %v", weekday, every, rest)
				}
				require.InDelta(t, sum, got.SteadyWeek.Value, 1e-9*(1+abs(sum)), "every %d, %v", every, rest)
			}
		}
	})
}

func lcm(a, b int) int {
	x, y := a, b
	for y != 0 {
		x, y = y, x%y
	}
	return a / x * b
}

package answer

import (
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// maxPeriod is how many days of a steady schedule are listed at most.
const maxPeriod = 364

// Calendar gives the days of a schedule. With a new grow every N days it lists
// the first grow's days and one period of the steady schedule: the least common
// multiple of N and the chores' days, at most 364. The errors are those of
// Compare.
func (m *Models) Calendar(s Schedule) (Calendar, error) {
	w, err := m.Study.Workflow(s.Workflow)
	if err != nil {
		return Calendar{}, err
	}
	every := m.Study.SowEveryDays
	if s.Every != nil {
		every = *s.Every
	}
	visits := m.visitsEvery(w, float64(s.Heads), every)
	c := Calendar{
		Workflow: w.Name, Heads: s.Heads, Days: []CalendarDay{}, Notes: m.notes(w), Gives: harvest(m.Study, w, float64(s.Heads)),
		Gaps: m.gaps(visits, func(int) bool { return true }),
	}
	for _, v := range visits {
		c.LastDay = max(c.LastDay, v.day)
	}
	plan := daysPlan{models: m, visits: visits, every: every, rest: s.Rest, steps: inOrder(visits)}
	for _, chore := range m.Study.Chores {
		if i := m.Index[chore.Step]; !slices.Contains(plan.steps, i) {
			plan.steps = append(plan.steps, i)
		}
	}
	last := c.LastDay
	if every > 0 {
		c.EveryDays = &every
		last += m.period(every) - 1
		c.steady(m, plan, s.Heads)
		c.Notes = append(c.Notes, m.hints(m.sparedAWeek(visits, every))...)
	}
	c.Days, c.Moved = plan.days(last)
	for _, d := range c.Days {
		if !c.PeakDay.Known || d.Hours > c.PeakDay.Value {
			c.PeakDay = study.Known(d.Hours)
		}
	}
	if len(c.Days) == 0 {
		c.PeakDay = study.Known(0)
	}
	return c, nil
}

// period is after how many days a steady schedule comes round.
func (m *Models) period(every int) int {
	p := every
	for _, chore := range m.Study.Chores {
		p = p / gcd(p, chore.EveryDays) * chore.EveryDays
		if p > maxPeriod {
			return maxPeriod
		}
	}
	return min(p, maxPeriod)
}

// steady works out the week of a schedule that goes on for ever: 7/N grows and
// so many of each chore.
func (c *Calendar) steady(m *Models, p daysPlan, heads int) {
	week := make(linear, len(m.Steps)).plus(m.loads(p.visits), 7/float64(p.every))
	for _, chore := range m.Study.Chores {
		week.add(m.Index[chore.Step], m.choreLoad(chore, 7/float64(chore.EveryDays)))
		if m.Steps[m.Index[chore.Step]].isGap() && !slices.Contains(c.Gaps, chore.Step) {
			c.Gaps = append(c.Gaps, chore.Step)
		}
	}
	joint := p.jointWeeks()
	for step, days := range joint {
		week[step] = stepfit.Load{}
		for _, load := range days {
			week.add(step, load)
		}
	}
	c.SteadyWeek = study.Known(m.evaluate(workload{loads: week}, asModelled).value * m.perHour())
	c.HeadsPerWeek = study.Known(7 * float64(heads) / float64(p.every))
	c.Weekdays, c.WeekSteps, c.StartUp = p.weeks(joint, c.LastDay)
	if last := len(c.StartUp) - 1; abs(c.StartUp[last]-c.SteadyWeek.Value) <= 1e-9*c.SteadyWeek.Value {
		c.StartUp = c.StartUp[:last] // all that comes round has come by then
	}
}

// choreLoad is what so many doings of a chore ask of its step.
func (m *Models) choreLoad(c study.Chore, times float64) stepfit.Load {
	return m.Study.Steps[m.Index[c.Step]].LoadFor(c.Count).Times(times)
}

// daysPlan is a schedule being laid out.
type daysPlan struct {
	models *Models
	visits []visit
	every  int // 0 for one grow
	rest   Rest
	steps  []int // in order of first use, those of chores last
}

// dueWork is something due on a day.
type dueWork struct {
	step int
	load stepfit.Load
}

// rota finds what falls on one day after another.
type rota struct {
	daysPlan
	tasks map[int][]visit              // by day, of the grow sown on day 0
	going map[int]map[int]stepfit.Load // by the day within a round of sowings: what the grows under way ask of each step
}

func (p daysPlan) rota() rota {
	r := rota{daysPlan: p, tasks: map[int][]visit{}, going: map[int]map[int]stepfit.Load{}}
	for _, v := range p.visits {
		r.tasks[v.day] = append(r.tasks[v.day], v)
	}
	return r
}

// due lists what falls on a day: tasks of every grow under way, added up by step, then
// chores. It is to be asked for every day from 0 on, in turn: what fell on a day falls on
// the same day of each round after it.
func (r rota) due(day int) []dueWork {
	within := day
	if r.every > 0 {
		within %= r.every
	}
	loads := r.going[within]
	if loads == nil {
		loads = map[int]stepfit.Load{}
		r.going[within] = loads
	}
	for _, v := range r.tasks[day] {
		loads[v.step] = loads[v.step].Plus(v.load())
	}
	var jobs []dueWork
	for _, step := range r.steps {
		if load, due := loads[step]; due {
			jobs = append(jobs, dueWork{step, load})
		}
	}
	if r.every == 0 {
		return jobs
	}
	for _, c := range r.models.Study.Chores {
		if day%c.EveryDays == 0 {
			jobs = append(jobs, dueWork{r.models.Index[c.Step], r.models.choreLoad(c, 1)})
		}
	}
	return jobs
}

// days lays out the days up to the last; work that falls on a day off is moved
// to the next working day, past the last day if need be.
func (p daysPlan) days(last int) ([]CalendarDay, []Move) {
	found := []CalendarDay{}
	rota := p.rota()
	var waiting []dueWork
	var moved []Move
	for day := 0; day <= last || len(waiting) > 0; day++ {
		var jobs []dueWork
		if day <= last {
			jobs = rota.due(day)
		}
		if p.rest.off(day) {
			if len(jobs) > 0 {
				moved = append(moved, Move{From: day, To: p.rest.next(day), Steps: p.models.stepNames(jobs)})
			}
			waiting = append(waiting, jobs...)
			continue
		}
		jobs = append(waiting, jobs...)
		waiting = nil
		if len(jobs) > 0 {
			found = append(found, p.day(day, jobs))
		}
	}
	return found, moved
}

func (m *Models) stepNames(jobs []dueWork) []string {
	var names []string
	seen := map[int]bool{}
	for _, j := range jobs {
		if !seen[j.step] {
			seen[j.step] = true
			names = append(names, m.Study.Steps[j.step].Name)
		}
	}
	return names
}

// day adds up what falls on one day: one entry a step, in the plan's order.
func (p daysPlan) day(day int, jobs []dueWork) CalendarDay {
	loads := map[int]stepfit.Load{}
	for _, j := range jobs {
		loads[j.step] = loads[j.step].Plus(j.load)
	}
	d := CalendarDay{Day: day}
	for _, step := range p.steps {
		load, due := loads[step]
		if !due {
			continue
		}
		if s := &p.models.Study.Steps[step]; s.Together {
			load = s.LoadFor(load.Count) // all that falls on the day is one doing
		}
		j := CalendarJob{Step: p.models.Study.Steps[step].Name, Count: load.Count}
		if !p.models.Steps[step].isGap() {
			j.Hours = study.Known(p.models.takes(step, load) * p.models.perHour())
			d.Hours += j.Hours.Value
		}
		d.Tasks = append(d.Tasks, j)
	}
	return d
}

// weeks gives the hours by weekday of the steady schedule, Monday first where the
// first day has a weekday, in all and by step, and the hours of the weeks before it is steady. What
// comes round every N days keeps its weekday where 7 divides N, and falls on all
// alike where it does not; joint steps have weeks of their own.
func (p daysPlan) weeks(joint map[int]weekLoads, lastDay int) (weekdays []float64, steps []WeekStep, startUp []float64) {
	weekdays = make([]float64, 7)
	byStep := map[int][]float64{}
	fall := func(step, weekday int, load stepfit.Load, share float64) {
		if p.models.Steps[step].isGap() {
			return
		}
		if byStep[step] == nil {
			byStep[step] = make([]float64, 7)
		}
		hours := p.models.takes(step, load) * p.models.perHour() * share
		weekdays[weekday] += hours
		byStep[step][weekday] += hours
	}
	add := func(step int, load stepfit.Load, day, every int) {
		if joint[step] != nil {
			return
		}
		if every%7 == 0 {
			fall(step, p.rest.weekday(p.rest.next(day)), load, 7/float64(every))
			return
		}
		for d := range 7 {
			fall(step, p.rest.weekday(p.rest.next(d)), load, 1/float64(every))
		}
	}
	for _, v := range p.visits {
		add(v.step, v.load(), v.day, p.every)
	}
	for _, c := range p.models.Study.Chores {
		add(p.models.Index[c.Step], p.models.choreLoad(c, 1), 0, c.EveryDays)
	}
	for _, step := range p.steps {
		for weekday, load := range joint[step] {
			fall(step, weekday, load, 1)
		}
	}
	startUp = make([]float64, lastDay/7+1)
	days, _ := p.days(7*len(startUp) - 1)
	for _, d := range days {
		if week := d.Day / 7; week < len(startUp) {
			startUp[week] += d.Hours
		}
	}
	for _, step := range p.steps {
		if byStep[step] != nil {
			steps = append(steps, WeekStep{p.models.Study.Steps[step].Name, byStep[step]})
		}
	}
	return weekdays, steps, startUp
}

package terminal

import (
	"math"
	"time"

	"headhours/timing/answer"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// plan lists the work of the grow in hand: the workflow's tasks by day, with what
// has been timed of each, then the chores and the study's other steps.
func (d *desk) plan() {
	d.tasks, d.dated = nil, false
	if d.plans == nil {
		d.plans = answer.Fit(d.study, nil, answer.Options{})
	}
	planned := map[string]bool{}
	due, err := d.plans.Due(d.names.Workflow, d.names.Grow)
	if err == nil { // a study without a workflow has only steps
		for _, one := range due {
			planned[one.Step] = true
			d.tasks = append(d.tasks, task{Due: one, planned: true})
		}
	}
	for _, c := range d.study.Chores {
		planned[c.Step] = true
		d.tasks = append(d.tasks, task{Due: answer.Due{Step: c.Step, Count: study.Known(c.Count), Fixed: true}})
	}
	for _, s := range d.study.Steps {
		if !planned[s.Name] {
			d.tasks = append(d.tasks, task{Due: answer.Due{Step: s.Name}})
		}
	}
	readings := d.growReadings()
	d.sownOn = d.sown(readings)
	if d.dated = !d.sownOn.IsZero(); d.dated {
		d.day = daysFrom(d.sownOn, d.today)
	}
	for _, r := range readings {
		if i := d.taskOf(r.Reading.Reading, d.sownOn); i >= 0 && r.Counts() {
			d.tasks[i].readings += r.readings
			d.tasks[i].count += r.Count
			if lacksCount(r.Reading) {
				d.tasks[i].uncounted++
			}
			d.tasks[i].now = d.tasks[i].now || r.ID != "" && r.Ended.IsZero()
		}
	}
}

// sown is the day of sowing, as the first dated reading of a planned step tells
// it: so many days before. A grow of which nothing was timed is taken to begin
// today, with its first task. Zero without a plan.
func (d *desk) sown(readings []growReading) time.Time {
	var first time.Time
	day := 0
	for _, r := range readings {
		if t, ok := d.firstOf(r.Step); ok && r.Counts() && !r.Date.IsZero() && (first.IsZero() || r.Date.Before(first)) {
			first, day = r.Date, t.Day
		}
	}
	if first.IsZero() && len(d.tasks) > 0 && d.tasks[0].planned {
		first, day = d.today, d.tasks[0].Day
	}
	if first.IsZero() {
		return first
	}
	return first.AddDate(0, 0, -day)
}

func (d *desk) firstOf(step string) (task, bool) {
	for _, t := range d.tasks {
		if t.planned && t.Step == step {
			return t, true
		}
	}
	return task{}, false
}

// taskOf is the line that a reading belongs to: of those of its step the one of
// the nearest day, the first for a reading without a date; -1 where none is.
func (d *desk) taskOf(r study.Reading, sown time.Time) int {
	best, off := -1, math.MaxInt
	for i, t := range d.tasks {
		if t.Step != r.Step {
			continue
		}
		days := i
		if t.planned && !r.Date.IsZero() && !sown.IsZero() {
			days = abs(daysFrom(sown, r.Date) - t.Day)
		}
		if days < off {
			best, off = i, days
		}
	}
	return best
}

func daysFrom(a, b time.Time) int { return int(math.Round(b.Sub(a).Hours() / 24)) }

func abs(n int) int { return max(n, -n) }

// following is the line after all that was begun; -1 where there is none.
func (d *desk) following() int {
	from := 0
	for i, t := range d.tasks {
		if t.planned && t.readings > 0 || t.now {
			from = i + 1
		}
	}
	if from >= len(d.tasks) || !d.tasks[from].planned {
		return -1
	}
	return from
}

// next is the line to go on with by itself: the following one, save that while a
// reading runs work of a later day is not gone on to. -1 where there is none.
func (d *desk) next() int {
	i := d.following()
	if _, runs := d.state.Running(); runs && i >= 0 && d.dated && d.tasks[i].Day > d.day {
		return -1
	}
	return i
}

// begin is the event that begins a task, with its count where that is known
// beforehand.
func (t task) begin(kind stopwatch.EventKind) stopwatch.Event {
	e := stopwatch.Event{Kind: kind, Step: t.Step}
	if t.Fixed {
		e.Count = t.Count
	}
	return e
}

// taskNamed is the task of a step that is to be done next, else the first.
func (d *desk) taskNamed(step string) task {
	var first task
	for _, t := range d.tasks {
		if t.Step == step && t.readings == 0 {
			return t
		}
		if t.Step == step && first.Step == "" {
			first = t
		}
	}
	return first
}

// dueOf is the count foreseen of a step where it is being timed, else where it
// comes next; unknown where it is not foreseen.
func (d *desk) dueOf(step string) study.Maybe {
	var due study.Maybe
	for _, t := range d.tasks {
		if t.Step == step && (t.now || !due.Known) {
			due = t.Count
		}
	}
	return due
}

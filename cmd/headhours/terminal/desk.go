package terminal

import (
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/answer"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Names say whose work is timed, and which; "" where that is not said.
type Names struct{ Grow, Workflow, Worker string }

// desk is what lies before whoever records: the study, what was timed before, and
// the session at hand as far as it has come.
type desk struct {
	study    study.Study
	logs     Logs
	latest   sums.Snapshot     // what they come to, as far as they are read
	sessions []stopwatch.State // of the journals, save the one at hand, in the order in which they began
	names    Names             // of readings to come
	today    time.Time

	state   stopwatch.State // of the session at hand; nothing has begun where it has no name
	undoes  string          // what an undo would take back; "" where there is nothing
	unsaved int             // presses that are in memory alone
	trouble string          // why they are

	models  *answer.Models // of all that was timed; nil: they are to be worked out, see judge
	toJudge string         // the ID of the reading that is to be judged; "" for none

	done      []answer.Done // by the logs, in the grow doneIn
	doneIn    string
	doneReady bool

	plans    *answer.Models // of no reading, for what is due
	tasks    []task
	sownOn   time.Time // the day of sowing of the grow in hand; zero without a plan
	day      int       // of the grow; meaningless where dated is false
	dated    bool
	counting string             // the ID of the reading that was counted last
	sure     map[string]float64 // counts that were said to be right, by reading
	verdicts int                // how many there were
	verdict  verdict            // on the reading that was completed or put right last
}

// verdict is what is said of a reading that is complete.
type verdict struct {
	reading   string // what it was: `thin 3:05 for 12 cells`
	usual     string // what the step usually takes
	standsOut string // "" where it does not
}

// task is a line of the list of what there is to do: one doing of a task of the
// workflow, or a step that it does not foresee.
type task struct {
	answer.Due
	planned   bool
	readings  int     // taken of it in this grow, that count
	count     float64 // their counts
	uncounted int     // of them, those that lack a count
	now       bool    // it is being timed
}

// uncounted is the first reading that has ended and whose count is wanted.
func (d *desk) uncounted() (stopwatch.Reading, bool) { return firstUncounted(d.state) }

// last is the reading that ended last, of those that stand.
func (d *desk) last() (stopwatch.Reading, bool) {
	for i := len(d.state.Readings) - 1; i >= 0; i-- {
		if r := d.state.Readings[i]; !r.Ended.IsZero() {
			return r, true
		}
	}
	return stopwatch.Reading{}, false
}

// current is the reading that runs, else the last.
func (d *desk) current() (stopwatch.Reading, bool) {
	if r, runs := d.state.Running(); runs {
		return r, true
	}
	return d.last()
}

// per is what a step is counted in; "" where the study does not say.
func (d *desk) per(step string) string {
	for _, s := range d.study.Steps {
		if s.Name == step {
			return s.Per
		}
	}
	return ""
}

// units is what a step is counted in: "cells", or "units" where the study does not say.
func (d *desk) units(step string) string {
	per := d.per(step)
	if per == "" {
		per = "unit"
	}
	return words.Plural(per)
}

// counted is a count with what it is of: "12 cells", "1 tray", "7".
func (d *desk) counted(n float64, step string) string {
	text := words.UpTo(n, 2)
	per := d.per(step)
	if per == "" {
		return text
	}
	return text + " " + words.Noun(n, per)
}

// unknownCount is a count that is not there: "? cells".
func (d *desk) unknownCount(step string) string {
	if per := d.per(step); per != "" {
		return "? " + words.Plural(per)
	}
	return "no count"
}

// people is how many are at work.
func (d *desk) people() float64 {
	if d.state.Session.Name == "" {
		return 1
	}
	return d.state.Session.People
}

// workflowOf is the workflow that the study gives a grow; "" where it gives none.
func (d *desk) workflowOf(grow string) string {
	for _, g := range d.study.Grows {
		if g.Name == grow {
			return g.Workflow
		}
	}
	return ""
}

package terminal

import (
	"time"

	"headhours/timing"
	"headhours/timing/stopwatch"
)

// Names say whose work is timed, and which; "" where that is not said.
type Names struct{ Grow, Workflow, Worker string }

// desk is what lies before whoever records: the study, what was timed before, and
// the session at hand as far as it has come.
type desk struct {
	study    timing.Study
	logged   []timing.Reading  // of task logs
	sessions []stopwatch.State // of the journals, save the one at hand, in the order in which they began
	names    Names             // of readings to come
	today    time.Time

	state   stopwatch.State // of the session at hand; nothing has begun where it has no name
	undoes  string          // what an undo would take back; "" where there is nothing
	unsaved int             // presses that are in memory alone
	trouble string          // why they are

	models  *timing.Models // of all that was timed
	tasks   []task
	day     int // of the grow; meaningless where dayKnown is false
	known   bool
	verdict verdict // on the reading that was completed or put right last
}

// past is what was timed outside the session at hand, each reading once.
func (d *desk) past() []timing.Reading {
	held := map[string]bool{}
	for _, r := range d.logged {
		held[r.Journal] = true
	}
	past := d.logged[:len(d.logged):len(d.logged)]
	for _, s := range d.sessions {
		for _, r := range s.Complete() {
			if !held[r.Journal] {
				past = append(past, r)
			}
		}
	}
	return past
}

// look takes the session in as it has come to stand, and works out anew what
// depends on it.
func (d *desk) look(state stopwatch.State) {
	before := d.state
	d.state = state
	changed, some := lastChanged(before, state)
	if some || d.models == nil || len(before.Complete()) != len(state.Complete()) {
		d.models = timing.Fit(d.study, append(d.past(), state.Complete()...), timing.Options{})
		d.verdict = verdict{}
		if some && changed.Counts() {
			d.verdict = d.judge(changed)
		}
	}
	d.plan()
}

// lastChanged is the last complete reading that was not so before, or otherwise.
func lastChanged(before, after stopwatch.State) (changed stopwatch.Reading, some bool) {
	old := map[string]timing.Reading{}
	for _, r := range before.Readings {
		if r.Lacks() == "" {
			old[r.ID] = r.Reading
		}
	}
	for _, r := range after.Readings {
		if r.Lacks() == "" && old[r.ID] != r.Reading {
			changed, some = r, true
		}
	}
	return changed, some
}

// uncounted is the first reading that has ended and whose count is wanted.
func (d *desk) uncounted() (stopwatch.Reading, bool) { return firstUncounted(d.state) }

func firstUncounted(s stopwatch.State) (stopwatch.Reading, bool) {
	for _, r := range s.Readings {
		if !r.Ended.IsZero() && !r.Counted.Known && r.Counts() {
			return r, true
		}
	}
	return stopwatch.Reading{}, false
}

// last is the reading that ended last, of those that stand.
func (d *desk) last() (stopwatch.Reading, bool) {
	for i := len(d.state.Readings) - 1; i >= 0; i-- {
		if r := d.state.Readings[i]; !r.Ended.IsZero() {
			return r, true
		}
	}
	return stopwatch.Reading{}, false
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

// people is how many are at work.
func (d *desk) people() float64 {
	if d.state.Session.Name == "" {
		return 1
	}
	return d.state.Session.People
}

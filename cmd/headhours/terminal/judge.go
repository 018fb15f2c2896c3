package terminal

import (
	"slices"
	"time"

	"headhours/timing/stopwatch"
)

// look takes the session in as it has come to stand, and works out what of that is to be
// seen at once; judge does the rest.
func (d *desk) look(state stopwatch.State) {
	before := d.state
	d.state = state
	d.counting = countedLast(before, state, d.counting)
	changed, ok := lastChanged(before, state)
	if ok || len(before.Complete()) != len(state.Complete()) {
		d.models, d.verdict, d.toJudge = nil, verdict{}, ""
		if ok && changed.Counts() {
			d.toJudge = changed.ID
		}
	}
	d.plan()
}

// read looks whether more is known of the logs, for which it waits so long; what depends
// on that is then worked out anew.
func (d *desk) read(wait time.Duration) (more bool) {
	before, from := d.latest, time.Now()
	d.latest = d.logs.Latest(wait)
	more = d.latest.Ready != before.Ready || d.latest.Models != before.Models
	if more {
		d.models = nil
	}
	if wait -= time.Since(from); !d.latest.Ready {
		wait = 0
	}
	if grow := d.names.Grow; more || grow != d.doneIn || !d.doneReady {
		d.done, d.doneReady = d.logs.DoneIn(grow, wait)
		d.doneIn = grow
		d.plan()
	}
	return more
}

// judge works out what was put off until presses were answered: what is usual, and what is
// to be said of the reading that was completed or put right last. Of that nothing is said
// while logs are being read.
func (d *desk) judge() {
	if d.models == nil {
		d.models = d.modelsBut("")
	}
	if d.toJudge == "" || !d.latest.Ready {
		return
	}
	i := slices.IndexFunc(d.state.Readings, func(r stopwatch.Reading) bool { return r.ID == d.toJudge })
	d.toJudge = ""
	if i >= 0 && !d.holds(d.state.Readings[i].Reading) { // else it would be held against itself
		d.verdicts++
		d.verdict = d.judged(d.state.Readings[i])
	}
}

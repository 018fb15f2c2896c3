package terminal

import (
	"slices"
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/answer"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// Logs are what a study's task logs come to, which are read in the background; see
// sums.Keeper.
type Logs interface {
	Latest(wait time.Duration) sums.Snapshot
	DoneIn(grow string, wait time.Duration) (done []answer.Done, ready bool)
}

// maxWait is how long is waited for logs that are being read: at the start, and where
// something other than a press rests on them. No press waits.
const maxWait = 300 * time.Millisecond

// noLogs is a study without any.
type noLogs struct{}

func (noLogs) Latest(time.Duration) sums.Snapshot { return sums.Snapshot{Ready: true} }

func (noLogs) DoneIn(string, time.Duration) ([]answer.Done, bool) { return nil, true }

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

// holds says whether a log holds a journal's reading.
func (d *desk) holds(r study.Reading) bool {
	return r.Journal != "" && d.latest.Holds != nil && d.latest.Holds(r.Journal)
}

// ours is a reading by the study's names.
func (d *desk) ours(r study.Reading) study.Reading {
	if d.latest.Ours == nil {
		return r
	}
	return d.latest.Ours(r)
}

// complete is the readings of a session that lack nothing, save those that a log holds
// already and the one with an ID.
func (d *desk) complete(s stopwatch.State, but string) []study.Reading {
	var list []study.Reading
	for _, r := range s.Readings {
		if r.Lacks() == "" && r.ID != but && !d.holds(r.Reading) {
			list = append(list, d.ours(r.Reading))
		}
	}
	return list
}

// modelsBut are the models of all that was timed, save the reading with an ID.
func (d *desk) modelsBut(id string) *answer.Models {
	var readings []study.Reading
	for _, s := range d.sessions {
		readings = append(readings, d.complete(s, id)...)
	}
	readings = append(readings, d.complete(d.state, id)...)
	if d.latest.Models == nil {
		return answer.Fit(d.study, readings, answer.Options{})
	}
	return answer.NewModels(d.latest.Models.With(readings), answer.Options{})
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

// growReading is readings of a step in a grow, of one day.
type growReading struct {
	stopwatch.Reading
	readings int
}

// ofLogs is what the logs say was done in the grow in hand, as far as that is known.
func (d *desk) ofLogs() []growReading {
	if d.doneIn != d.names.Grow {
		return nil
	}
	list := make([]growReading, len(d.done))
	for i, o := range d.done {
		r := study.Reading{Step: o.Step, Date: o.Day.Date(), Count: o.Count, Grow: d.names.Grow}
		list[i] = growReading{stopwatch.Reading{Reading: r, Counted: study.Known(o.Count)}, o.Readings}
	}
	return list
}

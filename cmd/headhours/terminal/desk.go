package terminal

import (
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/answer"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
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

// lastChanged is the last complete reading that was not so before, or otherwise.
func lastChanged(before, after stopwatch.State) (changed stopwatch.Reading, ok bool) {
	old := map[string]study.Reading{}
	for _, r := range before.Readings {
		if r.Lacks() == "" {
			old[r.ID] = noteless(r)
		}
	}
	for _, r := range after.Readings {
		if r.Lacks() == "" && old[r.ID] != noteless(r) {
			changed, ok = r, true
		}
	}
	return changed, ok
}

// noteless is a reading but for its note, which changes nothing that is judged.
func noteless(r stopwatch.Reading) study.Reading {
	r.Note = ""
	return r.Reading
}

// uncounted is the first reading that has ended and whose count is wanted.
func (d *desk) uncounted() (stopwatch.Reading, bool) { return firstUncounted(d.state) }

func firstUncounted(s stopwatch.State) (stopwatch.Reading, bool) {
	for _, r := range s.Readings {
		if lacksCount(r) {
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

package stopwatch

import (
	"fmt"
	"time"

	"headhours/timing/study"
)

// State is what a session's events come to. Its slices are to be read only.
type State struct {
	Session       Session
	Readings      []Reading // in the order in which they began
	Interruptions []Interruption
	Changes       []MarkedChange // that were marked, in the order of their events
	Unnamed       time.Duration  // of the session, in no reading and no interruption
	Paused        bool           // an interruption goes on
	Warnings      study.Problems // what was odd: a clock that was changed, an event that did not fit

	running int // which reading runs; none where none does
	pieces  []piece
	last    Instant // of the last event, whether it stands or not
	lastAt  int64
	refused map[string]error // by ID: why an event did not fit
}

const none = -1

// Reading is a reading as far as it has come.
type Reading struct {
	study.Reading             // complete where Lacks says so
	ID            string      // of the event that began it
	Began, Ended  time.Time   // by the wall clock; Ended is zero while it runs
	Counted       study.Maybe // Count, where it is known

	began, ended int64       // in the session's time; ended means nothing while it runs
	judged       bool        // the end was amended
	people       float64     // hands at work now
	average      study.Maybe // of the hands, where amended
}

// Interruption is a stretch of a session that belongs to no step.
type Interruption struct {
	Place        study.Place
	Began, Ended time.Time // by the wall clock; Ended is zero while it goes on
	Length       time.Duration
	Why          string
}

// Running is the reading that runs, paused or not; false where none does.
func (s State) Running() (Reading, bool) {
	if s.running == none {
		return Reading{}, false
	}
	return s.Readings[s.running], true
}

// Lacks says what keeps a reading from being fitted, "" where nothing does.
func (r Reading) Lacks() string {
	switch {
	case r.Ended.IsZero():
		return "has not ended"
	case !r.Counted.Known, r.Count == 0 && r.Setups.Value == 0: // with a setup, a count of 0 is getting ready alone
		return "needs a count"
	case r.Seconds == 0:
		return "took no time"
	}
	return ""
}

// Complete is the readings that lack nothing, voided ones too.
func (s State) Complete() []study.Reading {
	var complete []study.Reading
	for _, r := range s.Readings {
		if r.Lacks() == "" {
			complete = append(complete, r.Reading)
		}
	}
	return complete
}

// Unfinished warns of each reading that lacks something, at its place. Of a voided one
// nothing more is wanted.
func (s State) Unfinished() []study.Problem {
	var open []study.Problem
	for _, r := range s.Readings {
		if lacks := r.Lacks(); lacks != "" && r.Counts() {
			text := fmt.Sprintf("the reading of %q from %s %s: it is not counted in until then", r.Step, r.Began.Format("15:04:05"), lacks)
			open = append(open, study.Problem{Place: r.Place, Text: text})
		}
	}
	return open
}

// Elapsed is the net time of the reading that runs, at an instant: what the
// stopwatch shows. It is 0 where none runs.
func (s State) Elapsed(at Instant) time.Duration {
	if s.running == none {
		return 0
	}
	ms := int64(0)
	for _, p := range s.pieces {
		if p.what == work && p.reading == s.running {
			ms += p.to - p.from
		}
	}
	if !s.Paused {
		ms += s.sinceLive(at)
	}
	return duration(ms)
}

// Interrupted is how long the interruption that goes on has, at an instant; 0
// where none does.
func (s State) Interrupted(at Instant) time.Duration {
	if !s.Paused {
		return 0
	}
	p := s.pieces[len(s.pieces)-1]
	return duration(p.to - p.from + s.sinceLive(at))
}

// sinceLive is the time at an instant since the last event that stands.
func (s State) sinceLive(at Instant) int64 {
	return s.lastAt + millis(s.last, at) - s.pieces[len(s.pieces)-1].to
}

// unknown is how long a reading of a step of no usual time may run unasked.
const unknown = 20 * time.Minute

// Question is what to ask of a reading that has run for three times its step's
// usual or judged time, which usual gives in seconds where it is known, or for
// 20 minutes where it is not: whether it was forgotten. It is "" where there is
// nothing to ask. The answer is an Amend with the End.
func (s State) Question(at Instant, usual func(step string) (seconds float64, ok bool)) string {
	r, runs := s.Running()
	if !runs || s.Paused {
		return ""
	}
	limit := unknown.Seconds()
	if usual != nil {
		if seconds, ok := usual(r.Step); ok && seconds > 0 {
			limit = 3 * seconds
		}
	}
	if s.Elapsed(at).Seconds() < limit {
		return ""
	}
	return fmt.Sprintf("still at %q? when did you stop?", r.Step)
}

func duration(ms int64) time.Duration { return time.Duration(ms) * time.Millisecond }

package stopwatch

import (
	"time"

	"headhours/timing/study"
)

// Kind is what an event does.
type Kind string

// The kinds of events. Those that speak of a reading mean the one that Of names,
// else the one that runs, else the last.
const (
	Begin  Kind = "begin"  // a session, with what its readings have in common
	Start  Kind = "start"  // a step, at this moment; what runs ends
	Next   Kind = "next"   // a step, where the last reading ended; what runs ends
	Lot    Kind = "lot"    // the last reading's step again, where that ended: a lap of the same visit
	Pause  Kind = "pause"  // an interruption begins; Text says why
	Resume Kind = "resume" // the interruption is over
	Count  Kind = "count"  // how many units a reading covered
	Setups Kind = "setups" // how often the step was set up within a reading
	People Kind = "people" // hands at work from this moment on
	Note   Kind = "note"   // Text is added to a reading, or to a session without one
	Void   Kind = "void"   // a reading does not count; Text says why
	Undo   Kind = "undo"   // takes back the event that Of names, else the last that stands
	Mark   Kind = "change" // from this moment on a step is done otherwise; Text names the change
	Amend  Kind = "amend"  // puts a reading right afterwards; an end so given is judged
	Stop   Kind = "stop"   // the reading that runs
	End    Kind = "end"    // the session
)

// Kinds lists the kinds of events.
var Kinds = []Kind{Begin, Start, Next, Lot, Pause, Resume, Count, Setups, People, Note, Void, Undo, Mark, Amend, Stop, End}

// Instant is a moment by both clocks of a recorder.
type Instant struct {
	Wall time.Time `json:"wall"` // RFC 3339 with the offset, whole milliseconds
	// Boot names one run of the monotonic clock. A recorder takes a new one
	// wherever that clock did not run on: at a restart, at a page load, and after
	// a sleep that it knows of.
	Boot string `json:"boot"`
	Mono int64  `json:"mono"` // milliseconds of the monotonic clock
}

// Event is one press, as a line of a journal holds it. Step and what follows it
// are given where the kind needs or allows them, see Check; an event that begins
// a reading may give that reading's own grow, worker and so on.
type Event struct {
	Session string `json:"session"` // names the journal, see SessionName
	Seq     int64  `json:"seq"`     // number within the session, from 1
	ID      string `json:"id"`      // random, of this event alone
	Kind    Kind   `json:"kind"`
	Instant

	Of       string      `json:"of,omitempty"` // ID of an event: the one that began a reading, or the one to undo
	Step     string      `json:"step,omitempty"`
	Grow     string      `json:"grow,omitempty"`
	Workflow string      `json:"workflow,omitempty"`
	Worker   string      `json:"worker,omitempty"`
	Count    study.Maybe `json:"count,omitzero"`
	Setups   study.Maybe `json:"setups,omitzero"`
	People   study.Maybe `json:"people,omitzero"`
	End      time.Time   `json:"end,omitzero"` // when a reading ended, by the wall clock
	Text     string      `json:"text,omitempty"`

	Line int `json:"-"` // where it stands in its journal; 0 while it is not written
}

package stopwatch

import (
	"time"

	"headhours/timing/study"
)

// EventKind is what an event does.
type EventKind string

// The kinds of events. Those that speak of a reading mean the one that Of names,
// else the one that runs, else the last.
const (
	Begin  EventKind = "begin"  // a session, with what its readings have in common
	Start  EventKind = "start"  // a step, at this moment; what runs ends
	Next   EventKind = "next"   // a step, where the last reading ended; what runs ends
	Lot    EventKind = "lot"    // the last reading's step again, where that ended: a lap of the same visit
	Pause  EventKind = "pause"  // an interruption begins; Text says why
	Resume EventKind = "resume" // the interruption is over
	Count  EventKind = "count"  // how many units a reading covered
	Setups EventKind = "setups" // how often the step was set up within a reading
	People EventKind = "people" // hands at work from this moment on
	Note   EventKind = "note"   // Text is added to a reading, or to a session without one
	Void   EventKind = "void"   // a reading does not count; Text says why
	Undo   EventKind = "undo"   // takes back the event that Of names, else the last that stands
	Mark   EventKind = "change" // from this moment on a step is done otherwise; Text names the change
	Amend  EventKind = "amend"  // puts a reading right afterwards; an end so given is judged
	Stop   EventKind = "stop"   // the reading that runs
	End    EventKind = "end"    // the session
)

// eventKinds lists the kinds of events.
var eventKinds = []EventKind{Begin, Start, Next, Lot, Pause, Resume, Count, Setups, People, Note, Void, Undo, Mark, Amend, Stop, End}

// Event is one press, as a line of a journal holds it. Step and what follows it
// are given where the kind needs or allows them, see Check; an event that begins
// a reading may give that reading's own grow, worker and so on.
type Event struct {
	Session string    `json:"session"` // names the journal, see SessionName
	Seq     int64     `json:"seq"`     // number within the session, from 1
	ID      string    `json:"id"`      // random, of this event alone
	Kind    EventKind `json:"kind"`
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

package stopwatch

import "time"

// piece is a stretch of a session: work on one reading by so many people, an
// interruption or neither. The pieces of a session follow each other without a
// gap, so that together they are its time; the last is open until the session
// ends.
type piece struct {
	from, to int64     // in the session's time, milliseconds
	wall     time.Time // when it began
	what     label
	reading  int     // of work, and the one that an interruption interrupts
	people   float64 // at work
	pause    int     // which interruption
}

type label int

const (
	idle label = iota
	work
	interruption
)

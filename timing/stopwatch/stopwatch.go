package stopwatch

import (
	"errors"
	"fmt"
	"slices"
)

// ErrUnsaved is the error of a press that could not be written: it counts, and is
// kept in memory until Save or a later press writes it.
var ErrUnsaved = errors.New("not saved yet")

// Stopwatch is a session's state, clock and journal: what a face shows and where
// its presses go. It is not for use by several goroutines at once.
type Stopwatch struct {
	Now     func() Instant // the recorder's clock
	journal *Journal
	unsaved []Event
	state   State
	stale   bool // state lacks events
}

// Open opens the stopwatch of a session whose journal stands in the folder dir,
// or will stand there once something is pressed. A session that was broken off
// goes on where it was. Errors are those of openToAppend.
func Open(dir, session string, now func() Instant) (*Stopwatch, error) {
	j, err := openToAppend(dir, session)
	if err != nil {
		return nil, err
	}
	return &Stopwatch{Now: now, journal: j, stale: true}, nil
}

// New is the stopwatch of a session that begins, whose name is its own. Nothing is read, so
// that work can be timed wherever the folder dir cannot be: what is pressed is then
// ErrUnsaved. The error is of the session's name.
func New(dir, session string, now func() Instant) (*Stopwatch, error) {
	if err := checkSession(session); err != nil {
		return nil, err
	}
	return &Stopwatch{Now: now, journal: newJournal(dir, session), stale: true}, nil
}

// State is what the session has come to. What the journal warned of when it was
// opened stands first among the warnings.
func (s *Stopwatch) State() State {
	if s.stale {
		s.state = s.fold(nil)
		s.stale = false
	}
	return s.state
}

func (s *Stopwatch) fold(more []Event) State {
	state := Fold(s.journal.path, slices.Concat(s.journal.events, s.unsaved, more))
	state.Warnings = slices.Concat(s.journal.warned, state.Warnings)
	return state
}

// Press takes presses made at this recorder, now: each needs a Kind and what that
// kind needs, and is given the session, a number, an ID and the time. They are
// written in one go before Press returns. Where that fails they count all the
// same and the error is ErrUnsaved with the reason. An event that is wrong or
// does not fit, such as a resume while nothing is paused, is any other error, and
// then nothing is taken.
func (s *Stopwatch) Press(events ...Event) error {
	stamped, seq, now := slices.Clone(events), s.lastSeq(), s.Now()
	for i := range stamped {
		e := &stamped[i]
		seq++
		e.Session, e.Seq, e.ID, e.Instant = s.journal.session, seq, newID(), now
		if _, err := encode(*e); err != nil {
			return err
		}
	}
	state := s.fold(stamped)
	for _, e := range stamped {
		if err := state.refused[e.ID]; err != nil {
			return fmt.Errorf("%s: %w", e.Kind, err)
		}
	}
	s.unsaved = append(s.unsaved, stamped...)
	s.stale = true
	return s.Save()
}

func (s *Stopwatch) lastSeq() int64 {
	last := int64(0)
	for _, e := range slices.Concat(s.journal.events, s.unsaved) {
		last = max(last, e.Seq)
	}
	return last
}

// Save writes what could not be written before. The error is ErrUnsaved, with
// the reason.
func (s *Stopwatch) Save() error {
	if _, err := s.journal.append(s.unsaved); err != nil {
		return fmt.Errorf("%w: %w", ErrUnsaved, err)
	}
	s.unsaved, s.stale = nil, true
	return nil
}

// Unsaved is how many presses are in memory alone.
func (s *Stopwatch) Unsaved() int { return len(s.unsaved) }

// Close closes the journal. Where presses are unsaved it tries once more to write
// them; the error is Save's or the file's.
func (s *Stopwatch) Close() error {
	return errors.Join(s.Save(), s.journal.close())
}

// Last is the event that an undo which names none would take back; false where
// there is none.
func (s *Stopwatch) Last() (Event, bool) {
	m := machine{events: inOrder(slices.Concat(s.journal.events, s.unsaved))}
	m.state.refused = map[string]error{}
	undone := m.undone()
	for i, e := range slices.Backward(m.events) {
		if e.Kind != Undo && !undone[i] {
			return e, true
		}
	}
	return Event{}, false
}

// Len is how many events the session has, those that are unsaved too.
func (s *Stopwatch) Len() int { return len(s.journal.events) + len(s.unsaved) }

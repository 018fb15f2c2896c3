package stopwatch

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/study"
)

// machine folds events, one after the other.
type machine struct {
	file   string
	events []Event // in order
	at     []int64 // of each, in the session's time
	state  State
	index  map[string]int           // the reading that an event began
	cut    []piece                  // room for amendEnd
	hands  bool                     // people came or went since the last reading began
	notes  map[int]*strings.Builder // of each reading with more than one, and, at none, of the session
}

func (m *machine) place(e Event) study.Place { return study.Place{File: m.file, Line: e.Line} }

func (m *machine) warn(e Event, format string, args ...any) {
	m.state.Warnings = m.state.Warnings.And(study.Problem{Place: m.place(e), Text: fmt.Sprintf(format, args...)})
}

func (m *machine) refuse(e Event, err error) {
	m.state.refused[e.ID] = err
	m.warn(e, "%s is left out: %s", e.Kind, err)
}

// beginPiece begins a piece.
func (m *machine) beginPiece(e Event, t int64, p piece) {
	p.from, p.to, p.wall = t, t, e.Wall
	m.state.pieces = append(m.state.pieces, p)
}

// endReading ends the reading that runs: at the event, or where it was
// interrupted last if it still is.
func (m *machine) endReading(e Event, t int64) {
	r := &m.state.Readings[m.state.running]
	r.Ended, r.ended = e.Wall, t
	if m.state.Paused {
		p := m.state.pieces[len(m.state.pieces)-1]
		r.Ended, r.ended = p.wall, p.from
		m.endInterruption(e)
	}
	m.state.running = none
	m.beginPiece(e, t, piece{what: idle})
}

func (m *machine) endInterruption(e Event) {
	m.state.Interruptions[len(m.state.Interruptions)-1].Ended = e.Wall
	m.state.Paused = false
}

// newReading is what an event says of the reading that it begins, the rest being
// the session's, or for a lot those of the reading it carries on, save hands that came or
// went since.
func (m *machine) newReading(e Event) Reading {
	s := m.state.Session
	like := study.Reading{Step: e.Step, Grow: s.Grow, Workflow: s.Workflow, Worker: s.Worker, People: s.People}
	if e.Kind == Lot {
		before := m.state.Readings[len(m.state.Readings)-1]
		like = study.Reading{Step: before.Step, Grow: before.Grow, Workflow: before.Workflow, Worker: before.Worker,
			People: before.people, Setups: study.Known(0)}
		if m.hands {
			like.People = s.People
		}
	}
	r := Reading{ID: e.ID, Counted: e.Count, people: either(e.People, like.People)}
	r.Reading = like
	r.Place, r.Source, r.Rating, r.Note = m.place(e), study.Watch, 100, e.Text
	if e.Line > 0 {
		r.Journal = fmt.Sprintf("%s%s:%d", e.Session, Extension, e.Line)
	}
	r.set(e)
	return r
}

// set gives a reading what an event says of it.
func (r *Reading) set(e Event) {
	for _, f := range []struct {
		to   *string
		text string
	}{{&r.Step, e.Step}, {&r.Grow, e.Grow}, {&r.Workflow, e.Workflow}, {&r.Worker, e.Worker}} {
		if f.text != "" {
			*f.to = f.text
		}
	}
	if e.Count.Known {
		r.Counted = e.Count
	}
	if e.Setups.Known {
		r.Setups = e.Setups
	}
}

// undone says which events were taken back. An undo cannot be.
func (m *machine) undone() []bool {
	undone := make([]bool, len(m.events))
	byID := map[string]int{}
	var standing []int // those that an undo without a name may mean, the last on top
	for i, e := range m.events {
		if e.Kind != Undo {
			byID[e.ID] = i
			standing = append(standing, i)
			continue
		}
		for len(standing) > 0 && undone[standing[len(standing)-1]] {
			standing = standing[:len(standing)-1]
		}
		target, ok := byID[e.Of]
		switch {
		case e.Of == "" && len(standing) == 0:
			m.refuse(e, errors.New("there is nothing to undo"))
		case e.Of == "":
			undone[standing[len(standing)-1]] = true
		case !ok:
			m.refuse(e, fmt.Errorf("no event before it has the id %q", e.Of))
		case undone[target]:
			m.refuse(e, fmt.Errorf("event %q is undone already", e.Of))
		default:
			undone[target] = true
		}
	}
	return undone
}

func either(x study.Maybe, otherwise float64) float64 {
	if x.Known {
		return x.Value
	}
	return otherwise
}

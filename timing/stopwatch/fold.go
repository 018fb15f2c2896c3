package stopwatch

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/study"
)

// Fold says what the events of a session come to, whatever their order; file is
// the name that places carry. Events that do not fit, such as a resume while
// nothing is paused, change nothing and are warned of.
func Fold(file string, events []Event) State {
	m := machine{file: file, events: inOrder(events), index: map[string]int{}, notes: map[int]*strings.Builder{}}
	m.state.running = none
	m.state.refused = map[string]error{}
	m.at = lay(m.events)
	m.doubts()
	undone := m.undone()
	for i, e := range m.events {
		if !undone[i] && e.Kind != Undo {
			if err := m.take(i); err != nil {
				m.refuse(e, err)
			}
		}
	}
	return m.finish()
}

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

// take takes the event of a number in. An error says why it does not fit; then
// it changes nothing but the time up to which the session is known.
func (m *machine) take(i int) error {
	e, s := m.events[i], &m.state.Session
	switch {
	case e.Kind == Begin:
		if s.Name != "" {
			return errors.New("the session has begun already")
		}
		m.begin(e, m.at[i])
		return nil
	case s.Name == "":
		return errors.New("no session has begun")
	case !s.Ended.IsZero() && !afterwards(e.Kind):
		return errors.New("the session has ended")
	}
	if s.Ended.IsZero() {
		m.pieces()[len(m.pieces())-1].to = m.at[i]
	}
	switch e.Kind {
	case Start, Next, Lot:
		return m.step(e, m.at[i])
	case Pause, Resume:
		return m.interrupt(e, m.at[i])
	case People:
		m.people(e, m.at[i])
		return nil
	case Mark:
		return m.change(e)
	case Stop:
		if m.state.running == none {
			return errors.New("nothing runs")
		}
		m.endReading(e, m.at[i])
		return nil
	case End:
		if m.state.running != none {
			m.endReading(e, m.at[i])
		}
		s.Ended = e.Wall
		return nil
	}
	return m.correct(i)
}

// afterwards says whether a kind makes sense once the session has ended.
func afterwards(k EventKind) bool {
	return k == Count || k == Setups || k == Note || k == Void || k == Amend || k == Mark
}

func (m *machine) begin(e Event, t int64) {
	m.state.Session = Session{
		Name: e.Session, Grow: e.Grow, Workflow: e.Workflow, Worker: e.Worker,
		People: either(e.People, 1), Began: e.Wall, Notes: e.Text,
	}
	m.open(e, t, piece{what: idle})
}

// step begins a reading and ends the one that runs.
func (m *machine) step(e Event, t int64) error {
	if e.Kind == Lot && len(m.state.Readings) == 0 {
		return errors.New("there is no reading to carry on")
	}
	if m.state.running != none {
		m.endReading(e, t)
	}
	r := m.newReading(e)
	r.Began, r.began = e.Wall, t
	if e.Kind != Start && len(m.state.Readings) > 0 {
		m.carryOn(&r)
	}
	m.state.running = len(m.state.Readings)
	m.index[e.ID], m.hands = m.state.running, false
	m.state.Readings = append(m.state.Readings, r)
	m.open(e, t, piece{what: work, reading: m.state.running, people: r.people})
	return nil
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

func either(x study.Maybe, otherwise float64) float64 {
	if x.Known {
		return x.Value
	}
	return otherwise
}

// endReading ends the reading that runs: at the event, or where it was
// interrupted last if it still is.
func (m *machine) endReading(e Event, t int64) {
	r := &m.state.Readings[m.state.running]
	r.Ended, r.ended = e.Wall, t
	if m.state.Paused {
		p := m.pieces()[len(m.pieces())-1]
		r.Ended, r.ended = p.wall, p.from
		m.endInterruption(e)
	}
	m.state.running = none
	m.open(e, t, piece{what: idle})
}

func (m *machine) interrupt(e Event, t int64) error {
	switch {
	case m.state.running == none:
		return errors.New("nothing runs")
	case e.Kind == Resume && !m.state.Paused:
		return errors.New("nothing is paused")
	case e.Kind == Pause && m.state.Paused:
		return errors.New("it is paused already")
	case e.Kind == Resume:
		m.endInterruption(e)
		m.open(e, t, piece{what: work, reading: m.state.running, people: m.state.Readings[m.state.running].people})
		return nil
	}
	m.state.Paused = true
	m.open(e, t, piece{what: interruption, reading: m.state.running, pause: len(m.state.Interruptions)})
	m.state.Interruptions = append(m.state.Interruptions, Interruption{Place: m.place(e), Began: e.Wall, Why: e.Text})
	return nil
}

func (m *machine) endInterruption(e Event) {
	m.state.Interruptions[len(m.state.Interruptions)-1].Ended = e.Wall
	m.state.Paused = false
}

// people changes how many are at work, now and in readings to come.
func (m *machine) people(e Event, t int64) {
	m.state.Session.People, m.hands = e.People.Value, true
	if m.state.running == none {
		return
	}
	m.state.Readings[m.state.running].people = e.People.Value
	if !m.state.Paused {
		m.open(e, t, piece{what: work, reading: m.state.running, people: e.People.Value})
	}
}

package stopwatch

import (
	"errors"
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

// ErrEnded is the error of a press that comes when its session has ended.
var ErrEnded = errors.New("the session has ended")

// take takes the event of a number in. An error says why it does not fit; then
// it changes nothing but the time up to which the session is known.
func (m *machine) take(i int) error {
	e, s := m.events[i], &m.state.Session
	switch {
	case e.Kind == Begin:
		if s.Name != "" {
			return errors.New("the session has begun already")
		}
		m.beginSession(e, m.at[i])
		return nil
	case s.Name == "":
		return errors.New("no session has begun")
	case !s.Ended.IsZero() && !afterwards(e.Kind):
		return ErrEnded
	}
	if s.Ended.IsZero() {
		m.state.pieces[len(m.state.pieces)-1].to = m.at[i]
	}
	switch e.Kind {
	case Start, Next, Lot:
		return m.startReading(e, m.at[i])
	case Pause, Resume:
		return m.interrupt(e, m.at[i])
	case People:
		m.changePeople(e, m.at[i])
		return nil
	case Mark:
		return m.markChange(e)
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

func (m *machine) beginSession(e Event, t int64) {
	m.state.Session = Session{
		Name: e.Session, Grow: e.Grow, Workflow: e.Workflow, Worker: e.Worker,
		People: either(e.People, 1), Began: e.Wall, Notes: e.Text,
	}
	m.beginPiece(e, t, piece{what: idle})
}

// startReading begins a reading and ends the one that runs.
func (m *machine) startReading(e Event, t int64) error {
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
	m.beginPiece(e, t, piece{what: work, reading: m.state.running, people: r.people})
	return nil
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
		m.beginPiece(e, t, piece{what: work, reading: m.state.running, people: m.state.Readings[m.state.running].people})
		return nil
	}
	m.state.Paused = true
	m.beginPiece(e, t, piece{what: interruption, reading: m.state.running, pause: len(m.state.Interruptions)})
	m.state.Interruptions = append(m.state.Interruptions, Interruption{Place: m.place(e), Began: e.Wall, Why: e.Text})
	return nil
}

// changePeople changes how many are at work, now and in readings to come.
func (m *machine) changePeople(e Event, t int64) {
	m.state.Session.People, m.hands = e.People.Value, true
	if m.state.running == none {
		return
	}
	m.state.Readings[m.state.running].people = e.People.Value
	if !m.state.Paused {
		m.beginPiece(e, t, piece{what: work, reading: m.state.running, people: e.People.Value})
	}
}

// markChange takes the mark of a change in. It is of the step that it names, else of the
// reading that runs, else of the last.
func (m *machine) markChange(e Event) error {
	step := e.Step
	if n := len(m.state.Readings); step == "" && n > 0 {
		step = m.state.Readings[n-1].Step // the one that runs is the last
	}
	if step == "" {
		return errors.New("want a step, since there is no reading yet")
	}
	m.state.Changes = append(m.state.Changes, MarkedChange{m.place(e), e.Text, step, e.Wall})
	return nil
}

// carryOn lets a reading begin where the last one ended: it takes the idle
// pieces since. A moment that is judged as the end of one is so as the beginning
// of the other.
func (m *machine) carryOn(r *Reading) {
	pieces := m.state.pieces
	first := len(pieces)
	for first > 0 && pieces[first-1].what == idle {
		first--
		p := &pieces[first]
		p.what, p.reading, p.people = work, len(m.state.Readings), r.people
		r.Began, r.began = p.wall, p.from
	}
	if last := m.state.Readings[len(m.state.Readings)-1]; last.judged && last.ended == r.began {
		r.Source = study.ByJudgement
	}
}

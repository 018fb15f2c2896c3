package stopwatch

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"headhours/timing/study"
)

// correct takes in an event that speaks of a reading.
func (m *machine) correct(i int) error {
	e := m.events[i]
	target, err := m.spokenOf(e)
	if err != nil {
		return err
	}
	if target == none {
		if e.Kind != Note {
			return errors.New("there is no reading yet")
		}
		m.join(none, &m.state.Session.Notes, e.Text)
		return nil
	}
	r := &m.state.Readings[target]
	if !e.End.IsZero() {
		if err := m.amendEnd(i, target); err != nil {
			return err
		}
	}
	r.set(e)
	switch {
	case e.Kind == Note:
		m.join(target, &r.Note, e.Text)
	case e.Kind == Void:
		r.Void = e.Text
	case e.People.Known:
		r.average = e.People
	}
	return nil
}

// spokenOf is the reading that an event speaks of: the one it names, else the one
// that runs, else the last; none where there is none.
func (m *machine) spokenOf(e Event) (int, error) {
	switch {
	case e.Of != "":
		i, ok := m.index[e.Of]
		if !ok {
			return none, fmt.Errorf("no event %q before it began a reading that stands", e.Of)
		}
		return i, nil
	case m.state.running != none:
		return m.state.running, nil
	}
	return len(m.state.Readings) - 1, nil // none where there is none
}

// join adds to the notes of a reading or, at none, of the session.
func (m *machine) join(target int, notes *string, more string) {
	if *notes == "" {
		*notes = more
		return
	}
	if m.notes[target] == nil {
		m.notes[target] = &strings.Builder{}
		m.notes[target].WriteString(*notes)
	}
	m.notes[target].WriteString("; " + more)
	*notes = m.notes[target].String()
}

// amendEnd moves the end of a reading to the wall time that an event gives. What
// that takes off becomes unnamed time, what it adds was unnamed; interruptions
// stay, and no other reading is touched.
func (m *machine) amendEnd(i, target int) error {
	e, r := m.events[i], &m.state.Readings[target]
	t, err := m.locate(i, r)
	if err != nil {
		return err
	}
	if t <= r.began {
		return errors.New("by the stopwatch that is not after its beginning")
	}
	if next := target + 1; next < len(m.state.Readings) && t > m.state.Readings[next].began {
		return fmt.Errorf("%q had begun by %s", m.state.Readings[next].Step, e.End.Format("15:04:05"))
	}
	pieces := m.state.pieces
	if !m.state.Session.Ended.IsZero() && t > pieces[len(pieces)-1].to {
		return errors.New("the session had ended by then")
	}
	if m.state.running == target {
		m.endReading(e, m.at[i])
	}
	m.recut(target, t, e)
	r.Ended, r.ended, r.judged, r.Source = e.End, t, true, study.ByJudgement
	if m.state.running == none && m.state.Session.Ended.IsZero() {
		m.beginPiece(e, m.at[i], piece{what: idle}) // the last piece may be the reading's now
	}
	return nil
}

// locate finds the wall time that event i gives as the end of a reading in the
// session's time: so long after the last event before it.
func (m *machine) locate(i int, r *Reading) (int64, error) {
	end := m.events[i].End
	switch {
	case !end.After(r.Began):
		return 0, fmt.Errorf("%s is not after its beginning, %s", end.Format("15:04:05"), r.Began.Format("15:04:05"))
	case end.After(m.events[i].Wall):
		return 0, fmt.Errorf("%s has not come yet", end.Format("15:04:05"))
	}
	from, at, limit := r.Began, r.began, int64(math.MaxInt64)
	for k, e := range m.events[:i+1] {
		if m.at[k] < r.began {
			continue
		}
		if e.Wall.After(end) {
			limit = m.at[k]
			break
		}
		from, at = e.Wall, m.at[k]
	}
	return min(at+end.UnixMilli()-from.UnixMilli(), limit), nil
}

// recut gives a reading the work and the idle time from its beginning up to t,
// and makes what it has beyond that idle.
func (m *machine) recut(target int, t int64, e Event) {
	r := m.state.Readings[target]
	m.cut = m.cut[:0]
	for _, p := range m.state.pieces {
		its := p.what == work && p.reading == target
		if !its && (p.what != idle || p.from < r.began) {
			m.cut = append(m.cut, p)
			continue
		}
		if p.from < t && t < p.to {
			before := p
			before.to = t
			m.cut = append(m.cut, labelled(before, target, r.people, t))
			p.from, p.wall = t, e.End
		}
		m.cut = append(m.cut, labelled(p, target, r.people, t))
	}
	m.state.pieces, m.cut = m.cut, m.state.pieces
}

// labelled is a piece of a reading or of nothing, as it is once that reading ends
// at t.
func labelled(p piece, target int, people float64, t int64) piece {
	switch {
	case p.from >= t:
		p.what = idle
	case p.what == idle:
		p.what, p.reading, p.people = work, target, people
	}
	return p
}

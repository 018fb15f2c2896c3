package stopwatch

import (
	"time"

	"headhours/timing/study"
)

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

func (m *machine) pieces() []piece { return m.state.pieces }

// open begins a piece.
func (m *machine) open(e Event, t int64, p piece) {
	p.from, p.to, p.wall = t, t, e.Wall
	m.state.pieces = append(m.state.pieces, p)
}

// carryOn lets a reading begin where the last one ended: it takes the idle
// pieces since. A moment that is judged as the end of one is so as the beginning
// of the other.
func (m *machine) carryOn(r *Reading) {
	pieces := m.pieces()
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

// finish adds the pieces up.
func (m *machine) finish() State {
	s := &m.state
	if n := len(m.events); n > 0 {
		s.last, s.lastAt = m.events[n-1].Instant, m.at[n-1]
	}
	net, hands, paused := make([]int64, len(s.Readings)), make([]float64, len(s.Readings)), make([]int64, len(s.Readings))
	changed := make([]bool, len(s.Readings))
	for _, p := range s.pieces {
		length := p.to - p.from
		s.Session.Length += duration(length)
		switch p.what {
		case idle:
			s.Unnamed += duration(length)
		case work:
			i := p.reading
			net[i] += length
			hands[i] += p.people * float64(length)
			changed[i] = changed[i] || p.people != s.Readings[i].people
		case interruption:
			s.Interruptions[p.pause].Length += duration(length)
			if r := s.Readings[p.reading]; !r.Ended.IsZero() { // it may have ended within
				length = max(0, min(p.to, r.ended)-p.from)
			}
			paused[p.reading] += length
		}
	}
	for i := range s.Readings {
		r := &s.Readings[i]
		r.Count = r.Counted.Value
		r.Seconds, r.Paused = float64(net[i])/1000, float64(paused[i])/1000
		r.People = r.people
		if changed[i] && net[i] > 0 {
			r.People = hands[i] / float64(net[i])
		}
		r.People = either(r.average, r.People)
		r.Date, r.Start = day(r.Began), clock(r.Began)
		if !r.Ended.IsZero() {
			r.End = clock(r.Ended)
		}
	}
	s.Warnings.Sort()
	return m.state
}

// day is the date of a time, at midnight UTC as readings have it.
func day(t time.Time) time.Time {
	y, month, d := t.Date()
	return time.Date(y, month, d, 0, 0, 0, 0, time.UTC)
}

// clock is the time of day in seconds after midnight.
func clock(t time.Time) study.Maybe {
	minutes, seconds := 60*t.Hour()+t.Minute(), float64(1000*t.Second()+t.Nanosecond()/1e6)/1000
	return study.Known(60*float64(minutes) + seconds)
}

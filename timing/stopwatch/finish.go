package stopwatch

import (
	"time"

	"headhours/timing/study"
)

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
		r.Date, r.Start = dateOf(r.Began), timeOfDay(r.Began)
		if !r.Ended.IsZero() {
			r.End = timeOfDay(r.Ended)
		}
	}
	s.Warnings.Sort()
	return m.state
}

// dateOf is the date of a time, at midnight UTC as readings have it.
func dateOf(t time.Time) time.Time {
	y, month, d := t.Date()
	return time.Date(y, month, d, 0, 0, 0, 0, time.UTC)
}

// timeOfDay is the time of day in seconds after midnight.
func timeOfDay(t time.Time) study.Maybe {
	minutes, seconds := 60*t.Hour()+t.Minute(), float64(1000*t.Second()+t.Nanosecond()/1e6)/1000
	return study.Known(60*float64(minutes) + seconds)
}

package stopwatch

import (
	"time"

	"headhours/timing/study"
)

// Named is what has a name of the session's wall clock: readings that have ended,
// their pauses included, and interruptions beyond them; and, without a length,
// the session's beginning, first of all, and its end, so that what is unnamed
// next to these shows.
func (s State) Named() []study.Stretch {
	if s.Session.Name == "" {
		return nil
	}
	stretches := []study.Stretch{s.stretch(study.Place{}, "session", s.Session.Worker, s.Session.Began, 0)}
	for _, r := range s.Readings {
		if !r.Ended.IsZero() {
			stretches = append(stretches, s.stretch(r.Place, r.Step, r.Worker, r.Began, duration(r.ended-r.began)))
		}
	}
	for _, p := range s.pieces {
		if p.what != interruption {
			continue
		}
		r := s.Readings[p.reading]
		if from := max(p.from, r.ended); !r.Ended.IsZero() && from < p.to {
			at := p.wall.Add(duration(from - p.from))
			stretches = append(stretches, s.stretch(s.Interruptions[p.pause].Place, "interruption", r.Worker, at, duration(p.to-from)))
		}
	}
	if !s.Session.Ended.IsZero() {
		stretches = append(stretches, s.stretch(study.Place{}, "session", s.Session.Worker, s.Session.Ended, 0))
	}
	return stretches
}

func (s State) stretch(place study.Place, what, worker string, from time.Time, length time.Duration) study.Stretch {
	start := timeOfDay(from).Value
	return study.Stretch{
		Place: place, What: what, Worker: worker, Session: s.Session.Name,
		Date: dateOf(from), Start: start, End: start + length.Seconds(),
	}
}

package stopwatch

import "errors"

// Refused is an event of a batch that is none, by its number from 1.
type Refused struct {
	Event int    `json:"event"`
	Why   string `json:"why"`
}

// Why an event that could be read is refused.
var (
	errOtherSession = errors.New("is of another session")
	errOtherEvent   = errors.New("another event has its id already, and counts")
)

// Take takes events that another recorder, a phone, has stamped, a line of JSON each: in
// any order, and again where it did not hear that they were taken. It tells how many are
// new, and which never will be taken. All others are written in one go before it returns;
// on an error, which is of the journal, none is kept, and the recorder may send them again.
// Events that do not fit are kept and warned of in the State: what is missing may yet
// arrive.
func (s *Stopwatch) Take(lines [][]byte) (added int, refused []Refused, err error) {
	var batch []Event
	seen := map[string]Event{}
	for i, line := range lines {
		e, err := decode(line)
		if err == nil && e.Session != s.journal.session {
			err = errOtherSession
		}
		if first, again := s.journal.first(e.ID, seen); err == nil && again && !sameEvent(e, first) {
			err = errOtherEvent
		}
		if err != nil {
			refused = append(refused, Refused{i + 1, err.Error()})
			continue
		}
		batch, seen[e.ID] = append(batch, e), e
	}
	added, err = s.take(batch)
	return added, refused, err
}

// first is the event of an ID, in the journal or else in what is to come into it.
func (j *Journal) first(id string, coming map[string]Event) (Event, bool) {
	if i, held := j.ids[id]; held {
		return j.events[i], true
	}
	e, ok := coming[id]
	return e, ok
}

func (s *Stopwatch) take(batch []Event) (added int, err error) {
	added, err = s.journal.append(batch)
	s.stale = s.stale || added > 0
	return added, err
}

package stopwatch

import "slices"

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

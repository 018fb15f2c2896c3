package stopwatch

// Len is how many events the session has, those that are unsaved too.
func (s *Stopwatch) Len() int { return len(s.journal.events) + len(s.unsaved) }

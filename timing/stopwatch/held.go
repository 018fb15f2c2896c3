package stopwatch

// Held is how many events the session has, those that are unsaved too.
func (s *Stopwatch) Held() int { return len(s.journal.events) + len(s.unsaved) }

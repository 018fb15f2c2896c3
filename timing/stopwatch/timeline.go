package stopwatch

import (
	"cmp"
	"slices"
)

// inOrder is the events by their numbers. Two of one number, from a recorder
// that ran twice, come by the wall clock.
func inOrder(events []Event) []Event {
	order := make([]*Event, len(events)) // an event is large to be moved about
	for i := range events {
		order[i] = &events[i]
	}
	compare := func(a, b *Event) int {
		return cmp.Or(cmp.Compare(a.Seq, b.Seq), a.Wall.Compare(b.Wall), cmp.Compare(a.ID, b.ID))
	}
	if slices.IsSortedFunc(order, compare) {
		return events
	}
	slices.SortStableFunc(order, compare)
	sorted := make([]Event, len(events))
	for i, e := range order {
		sorted[i] = *e
	}
	return sorted
}

// lay lays events, in order, along the session's time: milliseconds from the
// first.
func lay(events []Event) []int64 {
	at := make([]int64, len(events))
	for i := 1; i < len(events); i++ {
		at[i] = at[i-1] + millis(events[i-1].Instant, events[i].Instant)
	}
	return at
}

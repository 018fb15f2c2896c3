package stopwatch

import (
	"cmp"
	"slices"
)

// inOrder is the events by their numbers. Two of one number, from a recorder
// that ran twice, come by the wall clock.
func inOrder(events []Event) []Event {
	compare := func(a, b Event) int {
		return cmp.Or(cmp.Compare(a.Seq, b.Seq), a.Wall.Compare(b.Wall), cmp.Compare(a.ID, b.ID))
	}
	if slices.IsSortedFunc(events, compare) {
		return events
	}
	sorted := slices.Clone(events)
	slices.SortStableFunc(sorted, compare)
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

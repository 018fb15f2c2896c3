package stopwatch

import "time"

// SystemClock is the clock of this process, one run of it. Its monotonic time
// stands still while the machine sleeps, on most systems.
func SystemClock() func() Instant {
	start, boot := time.Now(), newID()
	return func() Instant {
		now := time.Now()
		return Instant{Wall: now.Truncate(time.Millisecond), Boot: boot, Mono: now.Sub(start).Milliseconds()}
	}
}

// Instant is a moment by both clocks of a recorder.
type Instant struct {
	Wall time.Time `json:"wall"` // RFC 3339 with the offset, whole milliseconds
	// Boot names one run of the monotonic clock. A recorder takes a new one
	// wherever that clock did not run on: at a restart, at a page load, and after
	// a sleep that it knows of.
	Boot string `json:"boot"`
	Mono int64  `json:"mono"` // milliseconds of the monotonic clock
}

// millis is the time from one instant to a later one: by the monotonic clock
// where that ran on, else by the wall clock; never below 0.
func millis(from, to Instant) int64 {
	if from.Boot == to.Boot {
		return max(0, to.Mono-from.Mono)
	}
	return max(0, to.Wall.UnixMilli()-from.Wall.UnixMilli())
}

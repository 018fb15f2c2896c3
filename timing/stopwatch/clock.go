package stopwatch

import (
	"crypto/rand"
	"strings"
	"time"
)

// SystemClock is the clock of this process, one run of it. Its monotonic time
// stands still while the machine sleeps, on most systems.
func SystemClock() func() Instant {
	start, boot := time.Now(), newID()
	return func() Instant {
		now := time.Now()
		return Instant{Wall: now.Truncate(time.Millisecond), Boot: boot, Mono: now.Sub(start).Milliseconds()}
	}
}

// newID is a random name for an event or for a run of a clock.
func newID() string { return rand.Text() }

// NewSession names a session that worker, who may be "", begins at a time: the
// time, those letters and digits of the worker that any file name may hold, and
// a random end, such as 2026-03-02T0810-w1-a3f9.
func NewSession(at time.Time, worker string) string {
	code := strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' || '0' <= r && r <= '9' {
			return r
		}
		return -1
	}, strings.ToLower(worker))
	name := at.Format("2006-01-02T1504")
	if code != "" {
		name += "-" + code[:min(20, len(code))]
	}
	return name + "-" + strings.ToLower(rand.Text()[:6])
}

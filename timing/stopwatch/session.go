package stopwatch

import (
	"crypto/rand"
	"errors"
	"fmt"
	"strings"
	"time"

	"headhours/timing/late"
	"headhours/timing/words"
)

// Session is one spell of work at one recorder. Times are those of its wall
// clock; zero times have not come.
type Session struct {
	Name                   string // "" where none has begun
	Grow, Workflow, Worker string // of readings that do not give their own
	People                 float64
	Began, Ended           time.Time
	Length                 time.Duration // up to the last event that stands, by the stopwatch
	Notes                  string
}

// NameSession names a session that worker, who may be "", begins at a time: the
// time, those letters and digits of the worker that any file name may hold, and
// a random end, such as 2026-03-02T0810-w1-a3f9.
func NameSession(at time.Time, worker string) string {
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

// newID is a random name for an event or for a run of a clock.
func newID() string { return rand.Text() }

var (
	sessionName = late.Regexp(`^\d{4}-\d\d-\d\dT\d{4}(-[0-9a-z]{1,20})?-[0-9a-z]{4,16}$`)
	identifier  = late.Regexp(`^[0-9A-Za-z_-]{1,64}$`)
)

// ErrSession is the error of a name that no session can have.
var ErrSession = errors.New("want a name such as 2026-03-02T0810-w1-a3f9")

// checkSession keeps a session's name fit to be the name of a file.
func checkSession(name string) error {
	if !sessionName().MatchString(name) {
		return fmt.Errorf("session %s: %w", words.Quote(name), ErrSession)
	}
	return nil
}

package terminal

import (
	"slices"
	"time"

	"headhours/timing/stopwatch"
)

// keystroke is a press of a key: its name ("space", "enter", "up", "p") and the text
// that it would type, "" where it types none.
type keystroke struct{ name, text string }

// outcome is what a key asks for. Events are pressed in the session at hand, or In
// another; Then hears what became of them and may ask for more.
type outcome struct {
	events        []stopwatch.Event
	in, takeUp    string // names of sessions
	quit, suspend bool
	redraw        bool
	then          func(err error, at stopwatch.Instant) outcome
}

func press(events ...stopwatch.Event) outcome { return outcome{events: events} }

// mode is what the screen is at: work, or a question about it. A mode other than
// work stands over it, and the clock goes on behind.
type mode interface {
	key(s *screen, k keystroke, at stopwatch.Instant) outcome
	body(s *screen, width, height int) []painted
	legend(s *screen, at stopwatch.Instant) []hint
}

// workMode is the screen's main mode: the clock, the list of tasks.
type workMode struct{}

// screen is the full-screen face.
type screen struct {
	*desk
	mode    mode
	mark    int        // the task that was marked by hand; -1: the one that comes next
	entry   digitEntry // digits that are being typed
	notice  string     // what the last key came to
	leaving bool       // it was asked to quit with presses unsaved
	snooze  float64    // seconds: the question waits until the reading has run so long
	pressed keystroke  // the last press if it was at work, and when
	when    time.Time

	questions []mode // still to be asked at the start
	whole     bool   // the command line says for whom the work is
}

// digitEntry is a count that is being typed. Each digit is a press of its own, on the
// disk before it shows, so that none is lost whatever happens next.
type digitEntry struct {
	id    string // of the reading that it is the count of
	text  string
	ended bool // that reading has ended: enter says that the count is right
	at    time.Time
}

// noMark leaves it to the plan what comes next.
const noMark = -1

// twice is how soon after a press the same key is taken to have bounced, or to be
// held down by a glove. No work is done in so short a time.
const twice = 700 * time.Millisecond

// key takes a key at a moment and says what is to be done for it.
func (s *screen) key(k keystroke, at stopwatch.Instant) outcome {
	s.notice = ""
	switch k.name {
	case "ctrl+c":
		return s.quit()
	case "ctrl+z":
		return outcome{suspend: true}
	case "ctrl+l":
		return outcome{redraw: true}
	}
	bounced := s.bounced(k, at.Wall)
	s.pressed, s.when = keystroke{}, at.Wall
	if _, working := s.mode.(workMode); working {
		s.pressed = k // the answer to a question is no press of work
	}
	if bounced {
		s.notice = "pressed twice at once: counted once"
		return outcome{}
	}
	return s.mode.key(s, k, at)
}

// bounced says whether a press is one too many of a key that a second press of
// would end or begin something.
func (s *screen) bounced(k keystroke, at time.Time) bool {
	_, working := s.mode.(workMode)
	return working && k == s.pressed && at.Sub(s.when) < twice && slices.Contains([]string{"space", "enter", "l", "e", "p"}, k.name)
}

// quit leaves at once, save where presses are unsaved: that takes a second press.
func (s *screen) quit() outcome {
	if s.unsaved == 0 || s.leaving {
		return outcome{quit: true}
	}
	s.leaving = true
	s.notice = "not all is on the disk yet: the same key again quits and loses that"
	return outcome{}
}

// went is how the screen shows what became of a press: an error in words.
func (s *screen) went(err error) {
	if err != nil {
		s.notice = err.Error()
	}
	if s.unsaved == 0 {
		s.leaving = false
	}
}

// question is the core's: whether the reading that runs was forgotten.
func (s *screen) question(at stopwatch.Instant) string {
	if s.state.Elapsed(at).Seconds() < s.snooze {
		return ""
	}
	return s.state.Question(at, s.usualNow)
}

package stopwatch

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

const session = "2026-03-02T0810-w1-a3f9"

// hand is a recorder whose clocks are moved by hand.
type hand struct{ Instant }

func newHand() *hand {
	return &hand{Instant{Wall: time.Date(2026, 3, 2, 8, 10, 0, 0, time.FixedZone("", 3600)), Boot: "b1", Mono: 5000}}
}

func (h *hand) now() Instant { return h.Instant }

// run lets time pass on both clocks.
func (h *hand) run(d time.Duration) {
	h.Wall = h.Wall.Add(d)
	h.Mono += d.Milliseconds()
}

// What a play is made of, beside events and durations that pass.
type (
	wall   time.Duration // moves the wall clock alone: it is set, or the machine sleeps
	reboot time.Duration // the recorder starts again after so long
)

// script turns a play into events named e1, e2 … on lines 1, 2 …
func script(play ...any) []Event {
	h := newHand()
	var events []Event
	for _, act := range play {
		switch a := act.(type) {
		case time.Duration:
			h.run(a)
		case wall:
			h.Wall = h.Wall.Add(time.Duration(a))
		case reboot:
			h.Wall = h.Wall.Add(time.Duration(a))
			h.Boot, h.Mono = fmt.Sprint("b", len(events)), 40
		case Event:
			n := len(events) + 1
			a.Session, a.Seq, a.ID, a.Line, a.Instant = session, int64(n), fmt.Sprintf("e%d", n), n, h.Instant
			events = append(events, a)
		}
	}
	return events
}

// fold plays a play whose events are all right by themselves.
func fold(t *testing.T, play ...any) State {
	t.Helper()
	events := script(play...)
	for _, e := range events {
		require.NoError(t, e.check(), "%+v", e)
	}
	return Fold("journal/"+session+Extension, events)
}

func at(clock string) time.Time {
	t, err := time.Parse(time.RFC3339, "2026-03-02T"+clock+"+01:00")
	if err != nil {
		panic(err)
	}
	return sameZone(t)
}

func known(x float64) study.Maybe { return study.Known(x) }

const (
	second = time.Second
	minute = time.Minute
)

var (
	begin  = Event{Kind: Begin, Grow: "g1", Workflow: "by hand", Worker: "w1"}
	pause  = Event{Kind: Pause}
	resume = Event{Kind: Resume}
	stop   = Event{Kind: Stop}
	end    = Event{Kind: End}
	undo   = Event{Kind: Undo}
	lot    = Event{Kind: Lot}
)

func start(step string) Event { return Event{Kind: Start, Step: step} }
func next(step string) Event  { return Event{Kind: Next, Step: step} }
func count(n float64) Event   { return Event{Kind: Count, Count: known(n)} }

// told is the readings in short: step, seconds × people, of what count.
func told(s State) []string {
	var lines []string
	for _, r := range s.Readings {
		line := fmt.Sprintf("%s %gs", r.Step, r.Seconds)
		if r.People != 1 {
			line += fmt.Sprintf(" ×%g", r.People)
		}
		if r.Counted.Known {
			line += fmt.Sprintf(" of %g", r.Count)
		}
		if r.Setups.Known {
			line += fmt.Sprintf(" m%g", r.Setups.Value)
		}
		if r.Paused > 0 {
			line += fmt.Sprintf(" paused %gs", r.Paused)
		}
		if r.Source != study.Watch {
			line += " " + string(r.Source)
		}
		if r.Void != "" {
			line += " void"
		}
		if r.Ended.IsZero() {
			line += " runs"
		}
		lines = append(lines, line)
	}
	return lines
}

func texts(problems []study.Problem) []string {
	var lines []string
	for _, p := range problems {
		lines = append(lines, fmt.Sprintf("%d %s", p.Place.Line, p.Text))
	}
	return lines
}

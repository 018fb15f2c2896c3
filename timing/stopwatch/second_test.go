package stopwatch

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// line is a reading of the plain fold on a line.
func (p *plainly) line(r *plainReading, hands bool) string {
	net, paused, people := p.comes(r)
	text := fmt.Sprintf("%s %s %s %s net %d paused %d count %v setups %v note %q void %q ended %t", r.id, r.step, r.grow, r.worker, net, paused, r.count, r.setups, r.note, r.void, r.ended)
	if hands {
		text += fmt.Sprintf(" people %.9f", people)
	}
	return text + " " + string(r.source)
}

// lineOf is a reading of the fold on the same line.
func lineOf(r Reading, hands bool) string {
	text := fmt.Sprintf("%s %s %s %s net %.0f paused %.0f count %v setups %v note %q void %q ended %t", r.ID, r.Step, r.Grow, r.Worker, 1000*r.Seconds, 1000*r.Paused, r.Counted, r.Setups, r.Note, r.Void, !r.Ended.IsZero())
	if hands {
		text += fmt.Sprintf(" people %.9f", r.People)
	}
	return text + " " + string(r.Source)
}

// foldsPlainly holds the fold of events against the plain one.
func foldsPlainly(t *testing.T, events []Event, hands bool) *plainly {
	t.Helper()
	s, p := Fold(name, events), plain(events)
	got, want := []string{}, []string{}
	for _, r := range s.Readings {
		got = append(got, lineOf(r, hands))
	}
	for _, r := range p.readings {
		want = append(want, p.line(r, hands))
	}
	refused := map[string]bool{}
	for id := range s.refused {
		refused[id] = true
	}
	if !assert.Equal(t, want, got) || !assert.Equal(t, p.refused, refused) {
		for i, e := range p.events {
			t.Logf("%s at %d %s of %q end %s %s %s", e.ID, p.at[i], e.Kind, e.Of, e.End.Format("15:04:05.000"), e.Step, e.Text)
		}
		t.FailNow()
	}
	return p
}

// tame is a session of n random presses; ends are amended by a wall clock that runs on.
func tame(r *rand.Rand, n int) []Event {
	events := wild(r, n)
	from := newHand()
	gone := time.Duration(0)
	for i := range events {
		gone += time.Duration(r.IntN(90_000)) * time.Millisecond
		events[i].Instant = from.Instant
		events[i].Wall, events[i].Mono = from.Wall.Add(gone), from.Mono+gone.Milliseconds()
		if events[i].Kind == Amend && i > 0 {
			events[i].End = from.Wall.Add(gone - time.Duration(r.IntN(240_000))*time.Millisecond)
		}
	}
	return events
}

// The plain fold gives the same readings, of the same people, and refuses the same events.
// With ends that were put right the people of a time that was given up and taken again are
// those of its last moment, so there only the rest is held.
func TestFoldIsThatOfThePlainRules(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 12))
	judged, refused, readings := 0, 0, 0
	for range 800 {
		p := foldsPlainly(t, tame(r, 1+r.IntN(40)), false)
		readings, refused = readings+len(p.readings), refused+len(p.refused)
		for _, one := range p.readings {
			if one.judged {
				judged++
			}
		}
	}
	assert.Greater(t, readings, 1000, "the sessions are worth folding")
	assert.Greater(t, refused, 1000)
	assert.Greater(t, judged, 200)
}

// With clocks that jump and recorders that start again too, as long as no end is put right.
func TestFoldIsThatOfThePlainRulesByAnyClock(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(13, 14))
	for range 800 {
		events := wild(r, 1+r.IntN(40))
		for i := range events {
			if events[i].Kind == Amend {
				events[i].End = time.Time{}
			}
		}
		foldsPlainly(t, events, true)
	}
}

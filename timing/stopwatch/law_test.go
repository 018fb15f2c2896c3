package stopwatch

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// checkFold holds what is so of any events: every moment of the session is work
// on a reading, an interruption or unnamed; a reading's time and pauses fill it
// from beginning to end; and a complete one goes through a task log unharmed.
func checkFold(t *testing.T, events []Event) State {
	t.Helper()
	s := Fold(name, events)
	sum := s.Unnamed
	for i, r := range s.Readings {
		sum += duration(int64(math.Round(1000 * r.Seconds)))
		require.GreaterOrEqual(t, r.Seconds, 0.0)
		if !r.Ended.IsZero() {
			require.Equal(t, r.ended-r.began, int64(math.Round(1000*(r.Seconds+r.Paused))), "%+v", r)
			if i+1 < len(s.Readings) {
				require.LessOrEqual(t, r.ended, s.Readings[i+1].began, "readings do not overlap")
			}
		} else {
			require.Equal(t, s.running, i)
		}
		require.Equal(t, r.judged, r.judged && r.Source == study.ByJudgement)
	}
	for _, i := range s.Interruptions {
		sum += i.Length
	}
	require.Equal(t, s.Session.Length, sum)
	for i, p := range s.pieces {
		require.LessOrEqual(t, p.from, p.to)
		require.True(t, i == 0 || s.pieces[i-1].to == p.from, "no gap between pieces")
	}
	if len(events) > 0 {
		require.GreaterOrEqual(t, s.Elapsed(s.last), time.Duration(0))
		require.GreaterOrEqual(t, s.Interrupted(s.last), time.Duration(0))
	}
	checkLog(t, s.Complete())
	return s
}

// checkLog writes readings as a task log and reads them again.
func checkLog(t *testing.T, readings []study.Reading) {
	t.Helper()
	var b strings.Builder
	require.NoError(t, tasklog.Write(&b, readings, "", false))
	log, err := tasklog.Read(strings.NewReader(b.String()), "", tasklog.Dialect{})
	require.NoError(t, err, b.String())
	require.Empty(t, log.Warnings)
	require.Len(t, log.Readings, len(readings))
	for i, r := range readings {
		log.Readings[i].Place = r.Place
		require.Equal(t, r, log.Readings[i])
	}
}

// wild is a session of n random presses, most of which fit, by clocks that now
// and then jump.
func wild(r *rand.Rand, n int) []Event {
	steps := []string{"sow", "thin", "transplant"}
	play := []any{begin}
	for i := 1; i < n; i++ {
		play = append(play, time.Duration(r.IntN(90_000))*time.Millisecond)
		switch r.IntN(40) {
		case 0:
			play = append(play, wall(r.IntN(7_200_000)-3_600_000)*wall(time.Millisecond))
		case 1:
			play = append(play, reboot(r.IntN(120)-20)*reboot(time.Second))
		}
		e := Event{Kind: eventKinds[1+r.IntN(len(eventKinds)-2)]}
		if r.IntN(50) == 0 {
			e.Kind = eventKinds[r.IntN(len(eventKinds))]
		}
		if strings.Contains(rules[e.Kind].may, "of") && r.IntN(3) == 0 {
			e.Of = "e" + string(rune('1'+r.IntN(9)))
		}
		switch e.Kind {
		case Start, Next:
			e.Step = steps[r.IntN(len(steps))]
		case Count:
			e.Count = known(float64(r.IntN(50)))
		case Setups:
			e.Setups = known(float64(r.IntN(3)))
		case People:
			e.People = known(float64(1 + r.IntN(6)))
		case Note, Void, Mark:
			e.Text = "why, \"not\""
		case Amend:
			e.Worker = "w2"
			e.End = newHand().Wall.Add(time.Duration(r.IntN(n*50_000)) * time.Millisecond)
		}
		play = append(play, e)
	}
	return script(play...)
}

func TestAnySessionFolds(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	readings, interruptions, judged := 0, 0, 0
	for range 2000 {
		events := wild(r, 1+r.IntN(60))
		s := checkFold(t, events)
		readings, interruptions = readings+len(s.Complete()), interruptions+len(s.Interruptions)
		for _, reading := range s.Readings {
			if reading.judged {
				judged++
			}
		}
	}
	assert.Greater(t, readings, 1000, "the sessions are worth folding")
	assert.Greater(t, interruptions, 1000)
	assert.Greater(t, judged, 100)
}

// The order in which events arrive changes nothing.
func TestOrderOfArrival(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		events := wild(r, 1+r.IntN(60))
		want := Fold(name, events)
		r.Shuffle(len(events), func(i, j int) { events[i], events[j] = events[j], events[i] })
		assert.Equal(t, want, Fold(name, events))
	}
}

// Undoing the last press brings the state before it back; what was said of the
// clocks meanwhile stays said.
func TestUndoRestores(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		events := wild(r, 2+r.IntN(40))
		last := events[len(events)-1]
		if last.Kind == Undo {
			continue
		}
		taken := last
		taken.Kind, taken.ID, taken.Seq, taken.Line = Undo, "undo", last.Seq+1, last.Line+1
		taken.Mono += 500
		taken.Wall = taken.Wall.Add(500 * time.Millisecond)
		taken.Of, taken.Step, taken.Text, taken.Worker, taken.End = "", "", "", "", time.Time{}
		taken.Count, taken.Setups, taken.People = study.Maybe{}, study.Maybe{}, study.Maybe{}
		require.NoError(t, taken.check())
		before, after := Fold(name, events[:len(events)-1]), Fold(name, append(events, taken))
		before.Warnings, after.Warnings = nil, nil
		after.last, after.lastAt = before.last, before.lastAt
		require.Equal(t, before, after, "%+v", last)
	}
}

func TestFoldOfALongSession(t *testing.T) {
	s := checkFold(t, wild(rand.New(rand.NewPCG(7, 8)), 5000))
	assert.NotEmpty(t, s.Readings)
}

func BenchmarkFold(b *testing.B) {
	events := wild(rand.New(rand.NewPCG(7, 8)), 10_000)
	for b.Loop() {
		Fold(name, events)
	}
}

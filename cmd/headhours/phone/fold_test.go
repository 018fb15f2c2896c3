package phone

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// come is what events come to, as far as both the core and the page tell.
type come struct {
	Readings []comeTo
	Running  string
	Paused   bool
	Elapsed  int64 // milliseconds, a while after the last event
	Refused  []string
}

type comeTo struct {
	ID, Step, Grow, Workflow, Worker, Void, Note string
	Began, Ended, Net                            int64 // milliseconds
	Count, Setups                                study.Maybe
	People                                       float64
}

// onPage is the page's own fold, told in those words.
const onPage = `
(lists => lists.map(([events, now]) => {
	const s = fold(events);
	const readings = s.readings.map(r => ({id: r.id, step: r.step, grow: r.grow || '', workflow: r.workflow || '', worker: r.worker || '',
		void: r.void, note: r.note, began: r.began, ended: r.ended || 0, net: r.net, count: r.count, setups: r.setups ?? null, people: r.hands}));
	return {readings, running: s.readings[s.running]?.id || '', paused: s.paused, elapsed: elapsed(s, {...now, wall: Date.parse(now.wall)}),
		refused: events.map(e => e.id).filter(id => id in s.refused)};
}))(JSON.parse(` + "`%s`" + `))`

// asJS is JSON as a script has it between backquotes, which takes much less to write and
// to read than between quotes.
var asJS = strings.NewReplacer("\\", "\\\\", "`", "\\`", "${", "\\${")

func byCore(events []stopwatch.Event, now stopwatch.Instant) come {
	s := stopwatch.Fold("j", events)
	c := come{Readings: []comeTo{}, Paused: s.Paused, Elapsed: s.Elapsed(now).Milliseconds(), Refused: []string{}}
	if r, runs := s.Running(); runs {
		c.Running = r.ID
	}
	for _, r := range s.Readings {
		ended := int64(0)
		if !r.Ended.IsZero() {
			ended = r.Ended.UnixMilli()
		}
		c.Readings = append(c.Readings, comeTo{r.ID, r.Step, r.Grow, r.Workflow, r.Worker, r.Void, r.Note,
			r.Began.UnixMilli(), ended, int64(math.Round(1000 * r.Seconds)), r.Counted, r.Setups, r.People})
	}
	refused := map[int]bool{}
	for _, w := range s.Warnings {
		refused[w.Place.Line] = refused[w.Place.Line] || strings.Contains(w.Text, " is left out: ")
	}
	for _, e := range events {
		if refused[e.Line] {
			c.Refused = append(c.Refused, e.ID)
		}
	}
	return c
}

// wild is a session of n random presses, most of which fit, by clocks that now
// and then jump.
func wild(r *rand.Rand, n int) ([]stopwatch.Event, stopwatch.Instant) {
	began := time.Date(2026, 3, 2, 8, 10, 0, 0, time.FixedZone("", 3600))
	at := stopwatch.Instant{Wall: began, Boot: "b0", Mono: 10}
	pass := func(ms int) { at.Wall = at.Wall.Add(time.Duration(ms) * time.Millisecond); at.Mono += int64(ms) }
	var events []stopwatch.Event
	for i := range n {
		pass(r.IntN(90_000))
		switch r.IntN(40) {
		case 0:
			at.Wall = at.Wall.Add(time.Duration(r.IntN(7_200_000)-3_600_000) * time.Millisecond)
		case 1:
			at.Boot, at.Mono = fmt.Sprint("b", i), 5
		}
		e := stopwatch.Event{Session: monday, Seq: int64(i + 1), ID: fmt.Sprint("e", i+1), Line: i + 1, Instant: at, Kind: inSession[r.IntN(len(inSession))]}
		if i == 0 || r.IntN(60) == 0 {
			e.Kind = []stopwatch.EventKind{stopwatch.Begin, stopwatch.End}[min(i, 1)]
		}
		about(r, &e, n, began)
		events = append(events, e)
	}
	pass(1234)
	return events, at
}

// inSession are the kinds of events between a session's first and its last.
var inSession = []stopwatch.EventKind{
	stopwatch.Start, stopwatch.Next, stopwatch.Lot, stopwatch.Pause, stopwatch.Resume, stopwatch.Count, stopwatch.Setups, stopwatch.People,
	stopwatch.Note, stopwatch.Void, stopwatch.Undo, stopwatch.Mark, stopwatch.Amend, stopwatch.Stop,
}

// about gives an event what its kind needs, and now and then what it may have.
func about(r *rand.Rand, e *stopwatch.Event, n int, began time.Time) {
	of := fmt.Sprint("e", 1+r.IntN(n))
	switch e.Kind {
	case stopwatch.Begin:
		e.Grow, e.Workflow, e.Worker, e.People = "g1", "by hand", "w1", study.Known(float64(1+r.IntN(2)))
	case stopwatch.Start, stopwatch.Next:
		e.Step = []string{"sow", "thin", "transplant"}[r.IntN(3)]
		if r.IntN(5) == 0 {
			e.Worker, e.Count, e.Text = "w2", study.Known(float64(r.IntN(9))), "at once"
		}
	case stopwatch.Count:
		e.Count = study.Known(float64(r.IntN(50)))
	case stopwatch.Setups:
		e.Setups = study.Known(float64(r.IntN(3)))
	case stopwatch.People:
		e.People = study.Known(float64(1 + r.IntN(4)))
	case stopwatch.Note, stopwatch.Void, stopwatch.Mark:
		e.Text = "why"
	case stopwatch.Amend:
		e.End = began.Add(time.Duration(r.IntN(n*50_000)) * time.Millisecond)
		if r.IntN(4) == 0 {
			e.Step, e.People, e.Grow = "harvest", study.Known(3), "g2"
		}
	}
	takesOf := []stopwatch.EventKind{stopwatch.Count, stopwatch.Setups, stopwatch.Note, stopwatch.Void, stopwatch.Undo, stopwatch.Amend}
	for _, k := range takesOf {
		if e.Kind == k && r.IntN(3) == 0 {
			e.Of = of
		}
	}
}

// Whatever is pressed, the page shows what the core will make of it.
func foldsAsTheCore(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	r := rand.New(rand.NewPCG(1, 2))
	var lists [][]any
	var want []come
	readings, judged := 0, 0
	journal := filepath.Join(t.TempDir(), monday+stopwatch.Extension)
	sessions := 600
	if os.Getenv("LONG_TESTS") != "" {
		sessions = 3000
	}
	for range sessions {
		events, now := wild(r, 1+r.IntN(60))
		require.NoError(t, os.WriteFile(journal, []byte(lines(t, events)), 0o600))
		contents, _, problems := stopwatch.ReadFile(journal, nil)
		require.Empty(t, problems)
		require.Len(t, contents.Events, len(events))
		c := byCore(events, now)
		want = append(want, c)
		readings += len(c.Readings)
		for _, e := range events {
			if e.Kind == stopwatch.Amend && !strings.Contains(" "+strings.Join(c.Refused, " ")+" ", " "+e.ID+" ") {
				judged++
			}
		}
		r.Shuffle(len(events), func(i, j int) { events[i], events[j] = events[j], events[i] })
		lists = append(lists, []any{events, now})
		if len(lists) == 300 {
			text, err := json.Marshal(lists)
			require.NoError(t, err)
			got := eval[[]come](p, strings.Replace(onPage, "%s", asJS.Replace(string(text)), 1))
			require.Len(t, got, len(want))
			for i := range want {
				// in the order of the events as they were shuffled
				require.ElementsMatch(t, want[i].Refused, got[i].Refused, "%+v", lists[i])
				got[i].Refused = want[i].Refused
				require.Equal(t, want[i], got[i], "%+v", lists[i])
			}
			lists, want = nil, nil
		}
	}
	assert.Greater(t, readings, 3*sessions, "the sessions are worth folding")
	assert.Greater(t, judged, sessions/6)
}

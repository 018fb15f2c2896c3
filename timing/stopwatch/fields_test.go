package stopwatch

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fieldNames are those that not every event has, in the order in which they are looked at.
var fieldNames = []string{"of", "step", "grow", "workflow", "worker", "count", "setups", "people", "end", "text"}

// takesField is a second table of which fields an event of a kind needs (N) and may have (m),
// in the order of fieldNames, as the kinds are described.
var takesField = map[EventKind]string{
	Begin: "  mmm  m m", Start: " Nmmmmmm m", Next: " Nmmmmmm m", Lot: "  mmmmmm m",
	Pause: "         m", Resume: "          ", Stop: "          ", End: "          ",
	Count: "m    N    ", Setups: "m     N   ", People: "       N  ", Note: "m        N", Void: "m        N", Undo: "m         ",
	Mark: " m       N", Amend: "mmmmmmmmm ",
}

// withField is an event that has a field.
func withField(e Event, name string) Event {
	switch name {
	case "of":
		e.Of = "e2"
	case "step":
		e.Step = "sow"
	case "grow":
		e.Grow = "g1"
	case "workflow":
		e.Workflow = "tray"
	case "worker":
		e.Worker = "w1"
	case "count":
		e.Count = known(4)
	case "setups":
		e.Setups = known(1)
	case "people":
		e.People = known(2)
	case "end":
		e.End = at("08:09:00")
	case "text":
		e.Text = "why"
	}
	return e
}

// bare is an event of a kind with what it needs and no more.
func bare(k EventKind) Event {
	e := script(Event{Kind: k})[0]
	for i, name := range fieldNames {
		if takesField[k][i] == 'N' {
			e = withField(e, name)
		}
	}
	if k == Amend {
		e.Worker = "w2" // it puts something right
	}
	return e
}

// Every kind takes the fields that are its own and refuses each other; none goes without
// those it needs.
func TestFieldsOfEveryKind(t *testing.T) {
	require.Len(t, takesField, len(eventKinds))
	for _, k := range eventKinds {
		require.NoError(t, bare(k).check(), k)
		for i, name := range fieldNames {
			err := withField(bare(k), name).check()
			if takesField[k][i] == ' ' {
				assert.EqualError(t, err, fmt.Sprintf("%s takes no %q", k, name))
				continue
			}
			assert.NoError(t, err, "%s %s", k, name)
			if takesField[k][i] == 'N' {
				e := bare(k)
				without := script(Event{Kind: k})[0]
				for j, other := range fieldNames {
					if takesField[k][j] == 'N' && j != i {
						without = withField(without, other)
					}
				}
				assert.EqualError(t, without.check(), fmt.Sprintf("%s without %q: want one", k, name))
				assert.NoError(t, e.check())
			}
		}
	}
}

// Numbers at and beyond their bounds.
func TestBoundsOfNumbers(t *testing.T) {
	for _, c := range []struct {
		field string
		x     float64
		ok    bool
	}{
		{"count", 0, true}, {"count", 1e-6, true}, {"count", 9e-7, false}, {"count", 1e9, true}, {"count", 1e9 + 1, false}, {"count", -1e-9, false},
		{"setups", 0, true}, {"setups", 1e-6, true}, {"setups", 1e9, true}, {"setups", 1.1e9, false}, {"setups", -1, false},
		{"people", 0, false}, {"people", 1e-3, true}, {"people", 9e-4, false}, {"people", 1e6, true}, {"people", 1e6 + 1, false}, {"people", -1, false},
	} {
		e := bare(Amend)
		*map[string]*study.Maybe{"count": &e.Count, "setups": &e.Setups, "people": &e.People}[c.field] = known(c.x)
		assert.Equal(t, c.ok, e.check() == nil, "%s %v: %v", c.field, c.x, e.check())
	}
	for _, c := range []struct {
		change func(*Event)
		ok     bool
	}{
		{func(e *Event) { e.Seq = 1 }, true}, {func(e *Event) { e.Seq = 0 }, false}, {func(e *Event) { e.Seq = maxMillis }, true}, {func(e *Event) { e.Seq = maxMillis + 1 }, false},
		{func(e *Event) { e.Mono = 0 }, true}, {func(e *Event) { e.Mono = -1 }, false}, {func(e *Event) { e.Mono = maxMillis }, true}, {func(e *Event) { e.Mono = maxMillis + 1 }, false},
		{func(e *Event) { e.Wall = time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC) }, true}, {func(e *Event) { e.Wall = time.Date(1969, 12, 31, 0, 0, 0, 0, time.UTC) }, false},
		{func(e *Event) { e.Wall = time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC) }, true}, {func(e *Event) { e.Wall = time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC) }, false},
		{func(e *Event) { e.Wall = e.Wall.Add(time.Millisecond) }, true}, {func(e *Event) { e.Wall = e.Wall.Add(time.Microsecond) }, false},
		{func(e *Event) { e.ID = strings.Repeat("a", 64) }, true}, {func(e *Event) { e.ID = strings.Repeat("a", 65) }, false},
		{func(e *Event) { e.Boot = "A-z_9" }, true}, {func(e *Event) { e.Boot = "ü" }, false}, {func(e *Event) { e.Boot = "" }, false},
		{func(e *Event) { e.Worker = "two words, \"ü\" 間" }, true}, {func(e *Event) { e.Worker = "w\u0085" }, false}, {func(e *Event) { e.Worker = "w " }, false}, {func(e *Event) { e.Worker = "\u00a0w" }, false},
		{func(e *Event) { e.Session = "2026-03-02T0810-a3f9" }, true}, {func(e *Event) { e.Session = "2026-03-02T0810-a3f" }, false}, {func(e *Event) { e.Session = "2026-03-02T0810-w1-a3f9a3f9a3f9a3f9" }, true}, {func(e *Event) { e.Session = "2026-03-02T0810-w1-a3f9a3f9a3f9a3f9x" }, false},
		{func(e *Event) { e.Session += "\n" }, false},
	} {
		e := bare(Amend)
		c.change(&e)
		assert.Equal(t, c.ok, e.check() == nil, "%+v: %v", e, e.check())
	}
	note := bare(Note)
	note.Text = "two\nlines\tand a tab"
	assert.NoError(t, note.check(), "a note may hold them")
}

// Any event that is right is the same once written and read, by itself and in a journal,
// with its checksum or without, whatever its letters.
func TestEventsRoundTrip(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	letters := []rune("aZ09 -_,;\"'\\/<>&éß間👩\u200d🌾\u2028\u202e")
	word := func() string {
		n := 1 + r.IntN(20)
		text := make([]rune, n)
		for i := range text {
			text[i] = letters[r.IntN(len(letters))]
		}
		return strings.TrimSpace("x" + string(text) + "x")
	}
	var events []Event
	for i := range 400 {
		e := bare(eventKinds[r.IntN(len(eventKinds))])
		for k, name := range fieldNames {
			if takesField[e.Kind][k] == 'm' && r.IntN(2) == 0 {
				e = withField(e, name)
			}
		}
		for _, text := range []*string{&e.Step, &e.Grow, &e.Workflow, &e.Worker, &e.Text} {
			if *text != "" {
				*text = word()
			}
		}
		for _, n := range []*study.Maybe{&e.Count, &e.Setups, &e.People} {
			if n.Known {
				*n = known([]float64{1, 0.001, 1.0 / 3, 1e6, 123456.789}[r.IntN(5)])
			}
		}
		e.Seq, e.ID, e.Line = int64(i+1), fmt.Sprint("e", i), i+1
		e.Wall = sameZone(time.UnixMilli(r.Int64N(4e12)).In(time.FixedZone("", 900*r.IntN(50)-20_000/900*900)))
		if !e.End.IsZero() {
			e.End = e.Wall.Add(-time.Minute)
			if e.End.Year() < 1970 {
				e.End = e.Wall
			}
		}
		e.Boot, e.Mono = fmt.Sprint("b", r.IntN(3)), r.Int64N(maxMillis)
		line, err := encode(e)
		require.NoError(t, err, "%+v", e)
		for _, text := range [][]byte{line, []byte(uncheckedText(t, []Event{e}))} {
			got, err := decode(text[:len(text)-1])
			require.NoError(t, err, "%s", text)
			got.Line = e.Line
			require.Equal(t, e, got)
		}
		events = append(events, e)
	}
	c, err := readContents(strings.NewReader(journalText(t, events)), name)
	require.NoError(t, err)
	assert.Empty(t, c.Warnings)
	assert.Equal(t, events, c.Events)
	mixed := journalText(t, events[:200]) + uncheckedText(t, events[200:])
	c, err = readContents(strings.NewReader(mixed), name)
	require.NoError(t, err)
	assert.Equal(t, events, c.Events, "as where an older recorder went on")
}

// unsynced is a file whose sync takes no time.
type unsynced struct{ disk }

func (unsynced) Sync() error { return nil }

// Events that arrive in any order, twice and in any batches, come to what they would have
// come to in order.
func TestBatchesInAnyOrder(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(23, 24))
	for range 25 {
		events := wild(r, 5+r.IntN(40))
		want := Fold(name, events)
		s := &Stopwatch{Now: newHand().now, journal: newJournal(t.TempDir(), session), stale: true}
		s.journal.open = func(path string) (disk, error) {
			f, err := openFile(path)
			return unsynced{f}, err
		}
		sent := slices.Clone(events)
		r.Shuffle(len(sent), func(i, j int) { sent[i], sent[j] = sent[j], sent[i] })
		added := 0
		for len(sent) > 0 {
			n := 1 + r.IntN(len(sent))
			for range 1 + r.IntN(2) { // once more where no answer was heard
				k, err := s.take(sent[:n])
				require.NoError(t, err)
				added += k
			}
			sent = sent[n:]
		}
		require.Equal(t, len(events), added)
		got := s.State()
		require.Equal(t, told(want), told(got))
		require.Equal(t, want.Session, got.Session)
		require.Equal(t, want.Unnamed, got.Unnamed)
		require.Len(t, got.Warnings, len(want.Warnings))
	}
}

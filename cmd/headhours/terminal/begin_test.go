package terminal

import (
	"strings"
	"testing"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// left is a folder in which somebody left a session as keys leave it.
func left(t *testing.T, names Names, keys ...string) (dir string, h *hand) {
	t.Helper()
	b := newBench(t, names)
	b.keys(keys...)
	require.NoError(t, b.close())
	b.hand.run(time.Minute)
	return b.dir, b.hand
}

// Who starts the recorder is asked about what they may have left, and for whom the work is
// unless the command line says that in full.
func TestWhatIsAskedAtTheStart(t *testing.T) {
	running := []string{"space", "enter"}
	uncounted := []string{"space", "enter", "e"}
	for _, c := range []struct {
		name        string
		left, given Names
		keys        []string
		sees        string
	}{
		{"nothing was left, and nothing is given", all, Names{}, []string{"space", "e"}, "what is being worked on?"},
		{"nothing was left, and all is given", all, all, []string{"space", "e"}, "READY"},
		{"no worker is given", all, Names{"g1", "tray, two seeds", ""}, []string{"space", "e"}, "what is being worked on?"},
		{"no way is given", all, Names{"g1", "", "w1"}, []string{"space", "e"}, "what is being worked on?"},
		{"no grow is given", all, Names{"", "tray, two seeds", "w1"}, []string{"space", "e"}, "what is being worked on?"},
		{"a reading runs", all, all, running, "sow is open since 08:10: 1:01 so far (g1, w1)"},
		{"a reading of another worker runs", all, Names{"g1", "tray, two seeds", "w2"}, running, "READY"},
		{"a reading of nobody runs", Names{"g1", "tray, two seeds", ""}, Names{"g1", "tray, two seeds", "w2"}, running, "sow is open since"},
		{"it is paused", all, all, append(running, "p"), "sow is open since 08:10, paused: 0:01 so far (g1, w1)"},
		{"a count is wanted", all, all, uncounted, "lacks its count: how many cells? (empty: ask next time)"},
		{"a count is wanted of another worker", all, Names{"g1", "tray, two seeds", "w2"}, uncounted, "READY"},
		{"of a step that says not of what", all, all, []string{"up", "up", "down", "down", "down", "down", "down", "down", "down", "down", "space", "e"}, "lacks its count: how many units?"},
		{"a void one wants none", all, all, append(uncounted, "v", "1", "enter"), "READY"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, c.left)
			if c.left.Worker == "" { // nobody's, where the logs would offer somebody
				b.screen.mode, b.screen.questions, b.names = workMode{}, nil, c.left
			}
			b.keys(c.keys...)
			require.NoError(t, b.close())
			b.hand.run(time.Minute)
			again := benchIn(t, b.dir, b.hand, c.given)
			again.sees(c.sees)
		})
	}
}

// A reading that is closed afterwards is asked for its count only where it lacks one; to
// leave the question keeps it open.
func TestCloseAfterwards(t *testing.T) {
	dir, h := left(t, all, "space", "enter", "40")
	b := benchIn(t, dir, h, all)
	b.keys("c", "'0.5", "enter")
	b.sees("READY")
	assert.Equal(t, "sow 37s of 40", tell(b.sessions[0].Readings[1]))

	dir, h = left(t, all, "space", "enter")
	b = benchIn(t, dir, h, all)
	b.keys("c", "esc")
	b.sees("READY")
	_, runs := b.sessions[0].Running()
	assert.True(t, runs)

	b = benchIn(t, dir, h, all)
	b.keys("esc", "x", "up")
	b.sees("> [t] take it up", "is open since") // escape answers nothing here
	b.keys("c", "'0.5", "enter", "'4", "enter")
	b.sees("sow: 4 cells, where 40 cells are due? enter once more if that is right")
	b.keys("enter")
	b.sees("READY")
	assert.InDelta(t, 4, b.sessions[0].Readings[1].Count, 0)
}

// A session whose journal cannot be opened any more is passed over, and the next is asked
// about.
func TestTakeUpOfWhatIsGone(t *testing.T) {
	dir, h := left(t, all, "space", "enter")
	b := benchIn(t, dir, h, all)
	name := b.sessions[0].Session.Name
	b.sessions[0].Session.Name = "../gone"
	b.screen.questions, b.screen.mode = nil, nil
	b.screen.offer(all, h.now())
	b.keys("t")
	b.sees("READY", "session")
	assert.Empty(t, b.told())
	b.sessions[0].Session.Name = name
}

// An answer has room for so much text and no more, whether typed or pasted, and no control
// character comes into it.
func TestLongAnswers(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "n")
	b.one(keystroke{"paste", strings.Repeat("é", maxTyped-1) + "\x00\x1b\u200b\u202e"})
	b.keys("'ab")
	b.one(keystroke{"paste", "c\nd"})
	text := b.screen.mode.(ask).text
	assert.Equal(t, strings.Repeat("é", maxTyped-1)+"a", text)
	b.keys("backspace", "backspace")
	b.one(keystroke{"paste", "x\ty\r\nz"})
	b.keys("enter")
	assert.True(t, strings.HasSuffix(b.state.Readings[0].Note, "éx"), "%q", b.state.Readings[0].Note)
}

// A count of digits is of one number: at most one point, no more than nine characters, and
// a comma is a point.
func TestDigitsOfOneNumber(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter")
	sow := func() float64 { return b.state.Readings[1].Count }
	for _, k := range []string{"1", ",", ".", ",", "5"} {
		b.keys(k)
	}
	assert.InDelta(t, 1.5, sow(), 0)
	b.keys("x", ".", "5")
	assert.InDelta(t, 0.5, sow(), 0)
	b.keys("x", "12345678")
	b.keys(".", "9")
	b.sees("that is a large count")
	assert.InDelta(t, 12345678, sow(), 0)
	b.keys("backspace", "backspace", "9")
	assert.InDelta(t, 12345679, sow(), 0)
	b.keys("x", "backspace")
	b.sees("nothing is being typed: [u] takes presses back")
	b.keys("1")
	b.hand.run(typing - time.Second)
	b.keys("2")
	assert.InDelta(t, 2, sow(), 0, "ten seconds after the digit another number begins")
}

// The names that are offered: those given, else of the last reading, else of the logs; a way
// that the study does not have is none of them.
func TestOfferedNames(t *testing.T) {
	for _, c := range []struct{ given, want Names }{
		{Names{}, Names{"g0", "tray, two seeds", "w1"}},
		{Names{Grow: "g2"}, Names{"g2", "in place", "w1"}},
		{Names{Grow: "g2", Workflow: "tray, two seeds"}, Names{"g2", "tray, two seeds", "w1"}},
		{Names{Workflow: "gone"}, Names{"g0", "tray, two seeds", "w1"}},
		{Names{Grow: "new", Worker: "w9"}, Names{"new", "tray, two seeds", "w9"}},
	} {
		assert.Equal(t, c.want, newBench(t, c.given).names, "%v", c.given)
	}
	c := Config{Dir: t.TempDir(), Study: aStudy(), Now: newHand().now}
	c.Study.Workflows = nil
	p := newProgram(c)
	assert.Equal(t, Names{}, p.names)
	assert.Equal(t, "headhours fit", p.answers(), "without a way there is nothing to compare")

	dir, h := left(t, Names{"g7", "in place", "w7"}, "space", "4", "e")
	assert.Equal(t, Names{"g7", "in place", "w7"}, benchIn(t, dir, h, Names{}).names)
}

// Names to choose from: those timed last come first, and none stands twice.
func TestNamesLastFirst(t *testing.T) {
	b := newBench(t, Names{"g2", "in place", "w3"})
	b.keys("space", "5", "e")
	assert.Equal(t, []string{"g2", "g0", "g1"}, b.screen.grows())
	assert.Equal(t, []string{"w3", "w1"}, b.screen.workers())
	b.names.Grow = "g9"
	b.keys("down", "space")
	assert.Equal(t, []string{"g9", "g2", "g0", "g1"}, b.screen.grows())
}

// A past time is told by the hour, with the date where that is not today's where the
// recorder stands.
func TestSince(t *testing.T) {
	zone := time.FixedZone("", 3600)
	now := time.Date(2026, 3, 2, 0, 30, 0, 0, zone)
	for want, at := range map[string]time.Time{
		"00:10":            time.Date(2026, 3, 1, 23, 10, 0, 0, time.UTC),
		"2026-03-01 23:59": time.Date(2026, 3, 1, 22, 59, 0, 0, time.UTC),
	} {
		assert.Equal(t, want, since(at, now))
	}
}

// What is judged is what was completed or put right, never for a note.
func TestANoteIsNotJudged(t *testing.T) {
	b := newBench(t, all)
	b.keys("down", "space", "40", "e")
	judged := b.verdicts
	b.keys("n", "'wet", "enter")
	assert.Equal(t, judged, b.verdicts)
	b.sees("last: sow 0:03 for 40 cells")
	b.keys("v", "1", "enter")
	b.hides("last: sow")
	_, some := lastChanged(stopwatch.State{}, stopwatch.State{Readings: []stopwatch.Reading{{ID: "a", Reading: study.Reading{Step: "sow"}}}})
	assert.False(t, some, "one that has not ended")
}

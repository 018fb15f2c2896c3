package terminal

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// Each row is keys, a second apart, and what they come to.
func TestKeys(t *testing.T) {
	for _, c := range []struct {
		name string
		keys []string
		want []string
		sees []string
	}{
		{"the big key starts the first task, whose count is known beforehand", []string{"space"},
			[]string{"wash runs of 1"}, []string{"RUNNING wash", "[space] end, on to sow"}},
		{"and goes on to the next", []string{"space", "enter"},
			[]string{"wash 1s of 1", "sow runs"}, []string{"RUNNING sow", "? of 40 cells", "last: wash 0:01 for 1 visit; judged at 2:00 (between 1:21 and 2:39)"}},
		{"after the last of today it ends: what is due in six days does not begin by itself", []string{"space", "enter", "40", "space"},
			[]string{"wash 1s of 1", "sow 3s of 40"}, []string{"STOPPED", "next thin 40 seedlings day 6, in 6 days", "[space] start thin"}},
		{"digits count for what runs", []string{"space", "enter", "4", "0", "space"},
			[]string{"wash 1s of 1", "sow 3s of 40"}, nil},
		{"decimals", []string{"space", "enter", "12.5"}, []string{"wash 1s of 1", "sow runs of 12.5"}, []string{"12.5 of 40 cells"}},
		{"a digit is taken back", []string{"space", "enter", "48", "backspace", "0"},
			[]string{"wash 1s of 1", "sow runs of 40"}, nil},
		{"a point is taken back", []string{"space", "enter", "4.", "backspace", "0"},
			[]string{"wash 1s of 1", "sow runs of 40"}, nil},
		{"the last digit but one too", []string{"space", "enter", "48", "backspace", "backspace"},
			[]string{"wash 1s of 1", "sow runs"}, []string{"? of 40 cells"}},
		{"digits after another key begin a new number", []string{"space", "enter", "48", "up", "12"},
			[]string{"wash 1s of 1", "sow runs of 12"}, nil},
		{"lots are laps of one visit, each with its count; digits first count for the one that has ended", []string{"space", "enter", "l", "20", "enter", "21", "e"},
			[]string{"wash 1s of 1", "sow 1s of 20", "sow 6s of 21 setups 0"}, nil},
		{"a count is asked for", []string{"space", "enter", "l"}, nil, []string{"sow (0:01): how many cells? _"}},
		{"while it is typed enter says that it is right", []string{"space", "enter", "l", "2"},
			[]string{"wash 1s of 1", "sow 1s of 2", "sow runs setups 0"}, []string{"how many cells? 2_", "[enter] that is right"}},
		{"the space bar always goes on", []string{"space", "enter", "l", "20", "space"},
			[]string{"wash 1s of 1", "sow 1s of 20", "sow 3s setups 0"}, nil},
		{"pause and go on", []string{"space", "p", "p"}, []string{"wash runs of 1 paused 1s"}, []string{"RUNNING wash"}},
		{"the big key goes on too", []string{"space", "p", "space"}, []string{"wash runs of 1 paused 1s"}, nil},
		{"end in a pause", []string{"space", "p", "e"}, []string{"wash 1s of 1"}, []string{"STOPPED"}},
		{"people come and go", []string{"space", "+", "-"}, []string{"wash runs of 1 people 1.5"}, []string{"1 person"}},
		{"one stays", []string{"space", "-"}, []string{"wash runs of 1"}, []string{"at least one is at work"}},
		{"note", []string{"space", "n", "'wet trays", "enter"}, []string{"wash runs of 1 note wet trays"}, nil},
		{"a note that is left", []string{"space", "n", "'wet", "esc"}, []string{"wash runs of 1"}, nil},
		{"keys are letters while a note is typed", []string{"space", "n", "'pause, void. 12", "backspace", "backspace", "enter"},
			[]string{"wash runs of 1 note pause, void."}, nil},
		{"void with a reason of the list", []string{"space", "v", "2", "enter"}, []string{"wash runs of 1 void clock forgotten"}, nil},
		{"void with another, then time it again", []string{"space", "v", "'dropped", "enter", "space"},
			[]string{"wash 10s of 1 void dropped", "wash runs of 1"}, []string{"RUNNING wash"}},
		{"undo of a press too many", []string{"space", "enter", "u"}, []string{"wash runs of 1"}, []string{"taken back: start of sow", "[u] undo start of wash"}},
		{"undo to the beginning, and once more", []string{"space", "u", "u"}, []string{}, []string{"there is nothing to undo"}},
		{"another step by the arrow keys", []string{"down", "down", "down", "space"}, []string{"transplant runs"}, nil},
		{"back up", []string{"down", "down", "up", "space"}, []string{"sow runs"}, nil},
		{"a chore's count is known too", []string{"up", "down", "down", "down", "down", "down", "down", "down", "space"}, []string{"check pH runs of 1"}, nil},
		{"a step without a plan", []string{"down", "down", "down", "down", "down", "down", "down", "down", "down", "down", "space"}, []string{"sweep runs"}, []string{"no count"}},
		{"the next one chosen while one runs", []string{"space", "down", "space"}, []string{"wash 2s of 1", "thin runs"}, nil},
		{"amend the count of the one before", []string{"space", "enter", "e", "space", "a", "2", "c", "'38", "enter"}, []string{"wash 1s of 1", "sow 1s of 38", "thin runs"}, nil},
		{"a visit is one", []string{"space", "e", "a", "1", "c", "'3", "enter"}, []string{"wash 1s of 1"}, []string{"wash is counted by the visit"}},
		{"amend the step", []string{"space", "a", "1", "s", "3"}, []string{"thin runs of 1"}, nil},
		{"amend people and setups", []string{"space", "e", "a", "1", "p", "'2", "enter", "a", "1", "r", "'3", "enter"}, []string{"wash 1s of 1 setups 3 people 2"}, nil},
		{"amend: void, note", []string{"space", "e", "a", "enter", "v", "1", "enter", "a", "enter", "n", "'x", "enter"}, []string{"wash 1s of 1 note x void interrupted"}, nil},
		{"a figure that is none is asked for again", []string{"space", "a", "1", "c", "'x", "enter"}, []string{"wash runs of 1"}, []string{`"x" is not a number`}},
		{"ended a while ago", []string{"space", "t", "'0.05", "enter"}, []string{"wash 3s of 1"}, []string{"STOPPED"}},
		{"ended before it began", []string{"space", "t", "'5", "enter"}, []string{"wash runs of 1"}, []string{"when did wash end?", "amend: 08:05:03 is not after its beginning, 08:10:00", "> 5_"}},
		{"what is no time", []string{"space", "t", "'noon", "enter"}, []string{"wash runs of 1"}, []string{`"noon": a time of day such as 14:05 is needed`}},
		{"nothing to correct yet", []string{"t", "v", "a", "7"}, []string{}, []string{"there is no reading yet"}},
		{"nothing to end", []string{"e"}, []string{}, []string{"stop: nothing runs"}},
		{"capital letters are letters", []string{"space", "P"}, []string{"wash runs of 1"}, []string{"PAUSED 0:01 wash"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, all)
			b.keys(c.keys...)
			if c.want != nil {
				assert.Equal(t, c.want, b.told())
			}
			b.sees(c.sees...)
		})
	}
}

// A second press of a key that follows at once is the same one, bouncing or held
// down; of another key it is another.
func TestPressedTwiceAtOnce(t *testing.T) {
	b := newBench(t, all)
	space, enter := keystroke{"space", " "}, keystroke{"enter", ""}
	b.press(space)
	for range 50 { // held down
		b.hand.run(100 * time.Millisecond)
		b.press(space)
	}
	assert.Equal(t, []string{"wash runs of 1"}, b.told())
	b.sees("pressed twice at once: counted once")
	b.hand.run(100 * time.Millisecond)
	b.press(enter)
	assert.Equal(t, []string{"wash 5.1s of 1", "sow runs"}, b.told())
	b.press(keystroke{"4", "4"})
	b.press(keystroke{"4", "4"})
	assert.Equal(t, "44 of 40 cells", b.countWord(b.state.Readings[1]), "digits are not held against each other")
}

// A number that was begun long ago is not gone on with.
func TestDigitsLongAfter(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter", "4")
	b.hand.run(typing)
	b.keys("12", "e", "u")
	assert.Equal(t, []string{"wash 1s of 1", "sow runs of 12"}, b.told())
	b.keys("e", "999999999", "9")
	b.sees("that is a large count")
	assert.Equal(t, 999999999.0, b.state.Readings[1].Count)
}

// What stands out says so, in the words of the fit; the fit is of the others.
func TestVerdict(t *testing.T) {
	b := newBench(t, all)
	b.keys("down", "space", "20")
	b.hand.run(127 * time.Second)
	b.keys("space")
	b.sees("last: sow 2:10 for 20 cells; usually 2:10 (between 2:04 and 2:17)")
	b.hides("stands out")
	b.keys("l", "20")
	b.hand.run(56 * time.Second)
	b.keys("e")
	b.sees("last: sow 1:00 for 20 cells; usually", "! this one stands out: shorter than it usually is")
	b.keys("a", "1", "r", "'1", "enter") // it was no lap: got ready again
	b.sees("sow 1:00 for 20 cells; usually 2:10 (between", "stands out: shorter")
	b.keys("+", "l", "20")
	b.hand.run(197 * time.Second)
	b.keys("e", "a", "1", "r", "'1", "enter")
	b.sees("longer than it usually is")
	b.keys("v", "4", "enter")
	b.hides("usually")
}

// A reading of the session that a log holds already counts once.
func TestLoggedReadings(t *testing.T) {
	old := newBench(t, all)
	old.keys("down", "down", "space", "40", "e", "q")
	logged := old.state.Complete()
	logged[0].Place = study.Place{File: "timings/stopwatch.csv", Line: 2}
	p := newProgram(Config{Dir: old.dir, Study: aStudy(), Logs: logsOf(logged), Now: old.hand.now})
	require.NoError(t, p.takeUp(p.sessions[0].Session.Name))
	p.afterwards()
	readings := 0
	for _, s := range p.models.Steps {
		readings += s.Readings
	}
	assert.Equal(t, 1, readings)
	assert.Empty(t, p.verdict, "it is not held against itself")
	require.NoError(t, p.close())
}

// A clock that runs for three times what is usual is asked about, and the answer
// puts the end right.
func TestForgottenClock(t *testing.T) {
	b := newBench(t, all)
	b.keys("down", "space") // 40 cells are due: 3:50
	b.hand.run(11 * time.Minute)
	b.hides("when did you stop")
	b.hand.run(40 * time.Second)
	b.sees(`still at "sow"? when did you stop?`, "[t] say when", "[y] still at it")
	b.keys("y")
	b.hides("when did you stop")
	b.hand.run(12 * time.Minute)
	b.sees("when did you stop")
	b.keys("t", "'08:14", "enter", "40")
	assert.Equal(t, []string{"sow 239s of 40"}, b.told())
	assert.Equal(t, study.ByJudgement, b.state.Readings[0].Source)

	b = newBench(t, all)
	b.keys("down", "down", "down", "down", "down", "down", "down", "down", "down", "down", "space") // sweep: nothing is known of it
	b.hand.run(19 * time.Minute)
	b.hides("when did you stop")
	b.hand.run(time.Minute)
	b.sees(`still at "sweep"?`)
}

// Quitting asks nothing. The next run offers what is open: to take up, to close,
// to leave.
func TestOpenReading(t *testing.T) {
	quit := func(t *testing.T) (*bench, string) {
		b := newBench(t, all)
		b.keys("space", "enter")
		assert.Equal(t, outcome{quit: true}, b.one(keystroke{"q", "q"}))
		b.hand.run(58 * time.Second)
		return b, b.dir
	}
	t.Run("take up", func(t *testing.T) {
		old, dir := quit(t)
		b := benchIn(t, dir, old.hand, Names{})
		b.sees("sow is open since 08:10: 1:00 so far (g1, w1)", "> [t] take it up")
		b.keys("space")
		b.sees("RUNNING sow", "g1 · day 0 · w1 · tray, two seeds")
		b.keys("30", "space")
		assert.Equal(t, []string{"wash 1s of 1", "sow 63s of 30"}, b.told())
		journals, err := filepath.Glob(filepath.Join(dir, "journal", "*"))
		require.NoError(t, err)
		assert.Len(t, journals, 1)
	})
	t.Run("close, and say how many", func(t *testing.T) {
		old, dir := quit(t)
		old.hand.run(30 * time.Hour)
		b := benchIn(t, dir, old.hand, Names{})
		b.sees("sow is open since 2026-03-02 08:10: 30:01:00 so far", "> [c] close it")
		b.keys("enter", "'soon", "enter")
		b.sees(`"soon": a time of day`)
		b.keys("backspace", "backspace", "backspace", "backspace", "'08:11", "enter")
		b.sees("of 2026-03-02 08:10 (g1, w1) lacks its count: how many cells?")
		b.keys("'20", "enter")
		b.sees("what is being worked on?")
		b.keys("enter")
		assert.Equal(t, "sow 59s of 20", tell(b.sessions[0].Readings[1]))
		assert.Empty(t, b.told())
		again := benchIn(t, dir, old.hand, Names{})
		again.sees("what is being worked on?")
	})
	t.Run("void when asked how many", func(t *testing.T) {
		old, dir := quit(t)
		b := benchIn(t, dir, old.hand, Names{})
		b.keys("c", "'0.5", "enter")
		b.sees("how many cells?")
		b.keys("enter") // next time
		b.sees("what is being worked on?")
		b = benchIn(t, dir, old.hand, Names{})
		b.sees("how many cells?")
		b.keys("esc")
		b.sees("what is being worked on?")
	})
	t.Run("leave", func(t *testing.T) {
		old, dir := quit(t)
		b := benchIn(t, dir, old.hand, Names{"g2", "in place", "w1"})
		b.keys("o")
		b.sees("READY", "g2 · day 0 · w1 · in place", "next sow 20 cells")
		b.keys("space")
		assert.Equal(t, []string{"sow runs"}, b.told())
		b = benchIn(t, dir, old.hand, Names{})
		b.sees("sow is open since 08:11")
		b.keys("o")
		b.sees("sow is open since 08:10")
	})
	t.Run("not another worker's", func(t *testing.T) {
		old, dir := quit(t)
		b := benchIn(t, dir, old.hand, Names{"g1", "tray, two seeds", "w2"})
		b.sees("READY")
	})
}

// The names of the last reading are offered; grow, workflow and worker are chosen
// or typed.
func TestForWhom(t *testing.T) {
	b := newBench(t, Names{})
	b.sees("grow g0", "workflow tray, two seeds", "worker w1")
	b.keys("g")
	b.sees("which grow?", "[n] another: type its name", "> [1] g0", "[2] g2", "[3] g1")
	b.keys("2")
	b.sees("grow g2", "workflow in place")
	b.keys("w", "1", "k", "n", "'w7", "enter", "g", "n", "'g9", "enter", "b")
	assert.Equal(t, Names{"g9", "tray, two seeds", "w7"}, b.names)
	b.keys("space", "enter")
	b.keys("g", "g", "3", "enter", "down", "space") // another grow in the same session
	s := b.state
	assert.Equal(t, "g9", s.Session.Grow)
	assert.Equal(t, "w7", s.Session.Worker)
	last := s.Readings[len(s.Readings)-1]
	assert.Equal(t, []string{"g9", "g9"}, []string{s.Readings[0].Grow, s.Readings[1].Grow})
	assert.Equal(t, []string{"g2", "in place", "w7"}, []string{last.Grow, last.Workflow, last.Worker})
	assert.Contains(t, filepath.Base(b.sessionPath()), "-w7-")
}

func (b *bench) sessionPath() string {
	return filepath.Join(b.dir, "journal", b.state.Session.Name+stopwatch.Extension)
}

// What has been timed of a grow tells its day and what comes next, over sessions.
func TestPlanOfAGrow(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "enter", "40", "e")
	b.hand.run(14 * 24 * time.Hour)
	b = benchIn(t, b.dir, b.hand, all)
	b.sees("day 14", "✓ wash", "✓ sow 40 of 40 cells", "next thin", "transplant 40 plants day 13")
	b.keys("down", "space", "40", "space")
	assert.Equal(t, []string{"transplant 3s of 40"}, b.told(), "a step that was left out is not gone back to")
	b.hand.run(13 * 24 * time.Hour)
	b = benchIn(t, b.dir, b.hand, all)
	b.keys("down", "space", "20", "e")
	b.sees("day 27", "top up 20 litres day 20", "✓ top up 20 of 20 litres day 27, today", "next harvest")
}

// While the disk refuses, the work goes on and says so; it is written as soon as
// that is possible, and quitting before takes a second press.
func TestDiskRefuses(t *testing.T) {
	b := newBench(t, all)
	blocked := filepath.Join(b.dir, "journal")
	require.NoError(t, os.Symlink(filepath.Join(b.dir, "nowhere", "else"), blocked)) // no folder, and none can be made
	b.keys("space")
	b.hand.run(time.Minute)
	b.sees("RUNNING wash", "NOT SAVED: 2 kept here and tried again.", "journal", "cannot be written")
	b.keys("enter", "40")
	assert.Equal(t, []string{"wash 61s of 1", "sow runs of 40"}, b.told())
	assert.Equal(t, outcome{}, b.one(keystroke{"q", "q"}))
	b.sees("not all is on the disk yet")
	assert.Equal(t, outcome{quit: true}, b.one(keystroke{"q", "q"}))
	assert.ErrorContains(t, b.finish(os.Stderr), "write these down:\n  08:10:00  wash  1:01  of 1\n  08:11:01  sow  0:02  of 40\n")

	require.NoError(t, os.Remove(blocked))
	b.Update(tickMessage{})
	b.hides("NOT SAVED")
	again := benchIn(t, b.dir, b.hand, Names{})
	again.sees("sow is open since 08:11")
	assert.Equal(t, outcome{quit: true}, b.one(keystroke{"q", "q"}))
}

// A note that is half typed when the terminal goes away is kept; a half typed
// answer to a question is not.
func TestLeft(t *testing.T) {
	b := newBench(t, all)
	b.keys("space", "n", "'half a no")
	assert.Equal(t, []stopwatch.Event{{Kind: stopwatch.Note, Of: b.state.Readings[0].ID, Text: "half a no"}}, b.screen.left())
	b.keys("esc", "v", "'drop")
	assert.Equal(t, stopwatch.Void, b.screen.left()[0].Kind)
	b.keys("esc", "t", "'08:1")
	assert.Empty(t, b.screen.left())
	b.keys("esc")
	assert.Empty(t, b.screen.left())
}

func TestParseWhen(t *testing.T) {
	began := time.Date(2026, 3, 2, 22, 10, 0, 0, time.UTC)
	now := began.Add(3 * time.Hour)
	for text, want := range map[string]string{
		"22:30": "2026-03-02 22:30:00", "23:15:30": "2026-03-02 23:15:30", "00:20": "2026-03-03 00:20:00", "22:10": "2026-03-02 22:10:00",
		"12": "2026-03-03 00:58:00", "12m": "2026-03-03 00:58:00", "12 minutes ago": "2026-03-03 00:58:00", "1 minute ago": "2026-03-03 01:09:00", "12 ago": "2026-03-03 00:58:00", "0.5 m": "2026-03-03 01:09:30", "0": "2026-03-03 01:10:00",
		"": "", "noon": "", "25:00": "", "-3": "", "1e9": "", "NaN": "",
	} {
		end, ok := parseWhen(text, began, now)
		assert.Equal(t, want != "", ok, text)
		if ok {
			assert.Equal(t, want, end.Format(time.DateTime), text)
		}
	}
}

// Enter twice on the opening question begins, and then starts what comes next: the first
// answered a question.
func TestEnterTwiceAtTheStart(t *testing.T) {
	b := newBench(t, Names{})
	b.press(keystroke{"enter", ""})
	b.hand.run(200 * time.Millisecond)
	b.press(keystroke{"enter", ""})
	assert.Equal(t, []string{"thin runs"}, b.told())
}

// Digits that make more of a visit than one are not taken.
func TestOneOfAVisit(t *testing.T) {
	b := newBench(t, all)
	b.press(keystroke{"space", " "})
	b.hand.run(5 * time.Second)
	b.press(keystroke{"2", "2"})
	b.sees("wash is counted by the visit")
	assert.Equal(t, []string{"wash runs of 1"}, b.told())
}

// A plan that begins later than the clock has no day yet.
func TestDayInTheHeader(t *testing.T) {
	for day, want := range map[int]string{-125: "g1 · w1", 0: "g1 · day 0 · w1", 12: "g1 · day 12 · w1"} {
		s := &screen{desk: &desk{names: Names{Grow: "g1", Worker: "w1"}, dated: true, day: day}}
		assert.Contains(t, s.header(60).String(), want)
	}
}
